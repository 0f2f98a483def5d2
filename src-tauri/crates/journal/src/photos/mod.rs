//! A photograph on its way into the folder: pixels and colour profile stay, all that says where and by what
//! it was taken goes.

use std::io::Cursor;
use std::ops::ControlFlow;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};

use chrono::NaiveDateTime;
use image::codecs::jpeg::JpegEncoder;
use image::imageops::FilterType;
use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder, ImageEncoder, ImageFormat, ImageReader, Limits};
use sha2::{Digest, Sha256};

use crate::format::ids::hex;

pub(crate) mod store;
pub use store::{PhotoAdded, StoredPhoto};

/// The field of a photograph's record that names its file: the SHA-256 of the stored bytes.
pub const HASH_FIELD: &str = "hash";
/// Longest side of a stored photograph, in pixels.
pub const LONG_SIDE_PX: u32 = 2048;
/// Longest side of a photograph that is read, in pixels.
pub const READ_SIDE_MAX_PX: u32 = 20_000;
/// Most memory a photograph may need when decoded, in bytes.
pub const DECODED_MAX_BYTES: u64 = 192 << 20;
/// Largest photograph file that is read, in bytes.
pub const PHOTO_FILE_MAX_BYTES: usize = 128 << 20;
const QUALITY: u8 = 85;
const THUMBNAIL_QUALITY: u8 = 80;

/// Why a photograph was not taken in.
#[derive(Debug, thiserror::Error)]
pub enum PhotoError {
    /// A format of telephones that this program does not read.
    #[error("this photo is in the HEIC format, which Fellmark cannot read: export it as JPEG and add that")]
    Heic,
    /// No picture at all, or one of another format.
    #[error("this file is no JPEG, PNG or WebP picture: export the photo as JPEG and add that")]
    Unknown,
    /// Too many pixels.
    #[error(
        "this picture of {width} × {height} pixels is larger than Fellmark reads (20,000 a side, 192 MB): \
         make it smaller and add that"
    )]
    TooLarge {
        /// Its width in pixels.
        width: u32,
        /// Its height in pixels.
        height: u32,
    },
    /// The file is too long.
    #[error("this file of {megabytes} MB is longer than a photo may be (128 MB): export it as JPEG and add that")]
    TooLong {
        /// Its length in megabytes.
        megabytes: usize,
    },
    /// It is damaged.
    #[error("this picture cannot be decoded ({why}): open it in a picture viewer and save it anew as JPEG")]
    Damaged {
        /// What the decoder said.
        why: String,
    },
    /// The file cannot be read.
    #[error("this file cannot be read ({why}): check that it is there and who may read it")]
    Unreadable {
        /// What the system said.
        why: String,
    },
    /// A name that no photograph of the journal has.
    #[error("“{name}” is no photo's name: 64 hex digits are")]
    Name {
        /// The name, shortened.
        name: String,
    },
    /// The photograph has not arrived yet.
    #[error("the photo is not here yet: it comes when the device that has it has sent it")]
    NotHere,
}

/// A photograph ready to be stored.
#[derive(Debug, Clone)]
pub struct Prepared {
    /// The stored bytes: JPEG, pixels and colour profile only.
    pub jpeg: Vec<u8>,
    /// The SHA-256 of those bytes, 64 hex digits: its name.
    pub hash: String,
    /// The SHA-256 of the bytes that were given, to know the same picture again.
    pub source_hash: String,
    /// Its width as stored and upright, in pixels.
    pub width: u32,
    /// Its height as stored and upright, in pixels.
    pub height: u32,
    /// The camera held it turned, and it was put upright.
    pub turned: bool,
    /// When it was taken, by the camera's clock and where it was.
    pub taken_at: Option<NaiveDateTime>,
}

/// One picture is decoded at a time, so that many of them need no more memory than the largest.
fn turn() -> MutexGuard<'static, ()> {
    static TURN: Mutex<()> = Mutex::new(());
    TURN.lock().unwrap_or_else(PoisonError::into_inner)
}

fn damaged(error: impl std::fmt::Display) -> PhotoError {
    PhotoError::Damaged { why: error.to_string() }
}

/// Makes a photograph ready to be stored: upright, at most [`LONG_SIDE_PX`] long, without any metadata but the
/// colour profile.
///
/// # Errors
/// Why it cannot be taken in. The pixels of a picture too large are never decoded.
pub fn prepare(bytes: &[u8]) -> Result<Prepared, PhotoError> {
    let _turn = turn();
    let mut opened = open(bytes)?;
    let orientation = opened.orientation().unwrap_or(Orientation::NoTransforms);
    let taken_at = opened.exif_metadata().ok().flatten().and_then(taken_at);
    let profile = opened.icc_profile().ok().flatten();
    let picture = DynamicImage::from_decoder(opened).map_err(damaged)?;
    let mut picture = shrunk(picture, LONG_SIDE_PX);
    picture.apply_orientation(orientation);
    let profile = profile.filter(|profile| fits(profile, &picture));
    let jpeg = encode(&picture, QUALITY, profile)?;
    Ok(Prepared {
        hash: hex(&Sha256::digest(&jpeg)),
        source_hash: hex(&Sha256::digest(bytes)),
        width: picture.width(),
        height: picture.height(),
        turned: orientation != Orientation::NoTransforms,
        taken_at,
        jpeg,
    })
}

/// One of many photographs being taken in.
#[derive(Debug)]
pub struct ImportedPhoto<'a> {
    /// Its file.
    pub path: &'a Path,
    /// How many have been looked at, this one included.
    pub done: usize,
    /// How many there are.
    pub of: usize,
    /// The photograph, ready for [`crate::Journal::photo_store`], or why not.
    pub photo: Result<Prepared, PhotoError>,
}

/// Makes many photographs ready, one after the other; each is handed over as soon as it is. The answer says
/// whether to go on, so that a person can stop. The originals are only read.
pub fn import(paths: &[PathBuf], mut each: impl FnMut(ImportedPhoto<'_>) -> ControlFlow<()>) {
    for (i, path) in paths.iter().enumerate() {
        let photo = read(path).and_then(|bytes| prepare(&bytes));
        if each(ImportedPhoto { path, done: i + 1, of: paths.len(), photo }).is_break() {
            return;
        }
    }
}

fn read(path: &Path) -> Result<Vec<u8>, PhotoError> {
    let unreadable = |why: std::io::Error| PhotoError::Unreadable { why: why.to_string() };
    let meta = std::fs::metadata(path).map_err(unreadable)?;
    if !meta.is_file() {
        return Err(PhotoError::Unknown);
    }
    if meta.len() > PHOTO_FILE_MAX_BYTES as u64 {
        return Err(PhotoError::TooLong { megabytes: usize::try_from(meta.len() >> 20).unwrap_or(usize::MAX) });
    }
    std::fs::read(path).map_err(unreadable)
}

/// A small copy of a stored photograph, as JPEG.
///
/// # Errors
/// As [`prepare`].
pub fn thumbnail(bytes: &[u8], long_side_px: u32) -> Result<Vec<u8>, PhotoError> {
    let _turn = turn();
    let mut opened = open(bytes)?;
    let profile = opened.icc_profile().ok().flatten();
    let picture = DynamicImage::from_decoder(opened).map_err(damaged)?;
    let picture = shrunk(picture, long_side_px.clamp(16, LONG_SIDE_PX));
    let profile = profile.filter(|profile| fits(profile, &picture));
    encode(&picture, THUMBNAIL_QUALITY, profile)
}

/// A stored photograph as it may be shown: as it is, or made smaller where something else stored it with more pixels than this program
/// stores. What shows it decodes all pixels at once, whatever memory that takes.
///
/// # Errors
/// As [`prepare`].
pub fn displayable(bytes: Vec<u8>) -> Result<Vec<u8>, PhotoError> {
    let (width, height) = open(&bytes)?.dimensions();
    if width.max(height) <= LONG_SIDE_PX { Ok(bytes) } else { thumbnail(&bytes, LONG_SIDE_PX) }
}

/// Reads the header and decides from it alone whether the pixels may be decoded.
fn open(bytes: &[u8]) -> Result<impl ImageDecoder + '_, PhotoError> {
    if bytes.len() > PHOTO_FILE_MAX_BYTES {
        return Err(PhotoError::TooLong { megabytes: bytes.len() >> 20 });
    }
    if is_heic(bytes) {
        return Err(PhotoError::Heic);
    }
    let format = image::guess_format(bytes).map_err(|_| PhotoError::Unknown)?;
    if !matches!(format, ImageFormat::Jpeg | ImageFormat::Png | ImageFormat::WebP) {
        return Err(PhotoError::Unknown);
    }
    let mut reader = ImageReader::with_format(Cursor::new(bytes), format);
    // The limits are checked here against the header; the decoder keeps to the memory limit besides.
    let mut limits = Limits::no_limits();
    limits.max_alloc = Some(2 * DECODED_MAX_BYTES);
    reader.limits(limits);
    let decoder = reader.into_decoder().map_err(damaged)?;
    let (width, height) = decoder.dimensions();
    if width > READ_SIDE_MAX_PX || height > READ_SIDE_MAX_PX || decoder.total_bytes() > DECODED_MAX_BYTES {
        return Err(PhotoError::TooLarge { width, height });
    }
    if width == 0 || height == 0 {
        return Err(damaged("it has no pixels"));
    }
    Ok(decoder)
}

fn is_heic(bytes: &[u8]) -> bool {
    bytes.get(4..8) == Some(b"ftyp")
        && bytes.get(8..12).is_some_and(|brand| {
            [b"heic", b"heix", b"hevc", b"heim", b"heis", b"mif1", b"msf1", b"avif"].iter().any(|b| *b == brand)
        })
}

/// Eight bits a channel, grey or colour; what is see-through lies on white.
fn opaque(picture: DynamicImage) -> DynamicImage {
    if picture.color().has_alpha() {
        let see_through = picture.into_rgba8();
        let flat = image::RgbImage::from_fn(see_through.width(), see_through.height(), |x, y| {
            let [r, g, b, a] = see_through.get_pixel(x, y).0;
            let over = |c: u8| ((u32::from(c) * u32::from(a) + 255 * (255 - u32::from(a)) + 127) / 255) as u8;
            image::Rgb([over(r), over(g), over(b)])
        });
        DynamicImage::ImageRgb8(flat)
    } else if picture.color().has_color() {
        DynamicImage::ImageRgb8(picture.into_rgb8())
    } else {
        DynamicImage::ImageLuma8(picture.into_luma8())
    }
}

/// The picture in eight bits a channel, at most so long. A much larger one is first brought near that size by averaging, which needs no
/// memory beside it; the better filter needs several times the memory of what it is given.
fn shrunk(picture: DynamicImage, long_side_px: u32) -> DynamicImage {
    let is_longer_than = |picture: &DynamicImage, side_px| picture.width().max(picture.height()) > side_px;
    let near_px = 2 * long_side_px;
    let picture = if is_longer_than(&picture, near_px) { picture.thumbnail(near_px, near_px) } else { picture };
    let picture = opaque(picture);
    if is_longer_than(&picture, long_side_px) {
        picture.resize(long_side_px, long_side_px, FilterType::CatmullRom)
    } else {
        picture
    }
}

/// Whether a colour profile speaks of the colours the stored picture has (its bytes 16 to 19 say which).
fn fits(profile: &[u8], picture: &DynamicImage) -> bool {
    let space: &[u8] = if picture.color().has_color() { b"RGB " } else { b"GRAY" };
    profile.get(16..20) == Some(space)
}

fn encode(picture: &DynamicImage, quality: u8, profile: Option<Vec<u8>>) -> Result<Vec<u8>, PhotoError> {
    let mut jpeg = Vec::new();
    let mut encoder = JpegEncoder::new_with_quality(&mut jpeg, quality);
    if let Some(profile) = profile {
        // A profile too large to be stored is left out; the colours are then taken for sRGB.
        let _ = encoder.set_icc_profile(profile);
    }
    encoder
        .write_image(picture.as_bytes(), picture.width(), picture.height(), picture.color().into())
        .map_err(damaged)?;
    Ok(jpeg)
}

/// The camera's time in an EXIF block.
fn taken_at(exif: Vec<u8>) -> Option<NaiveDateTime> {
    let exif = exif::Reader::new().read_raw(exif).ok()?;
    let field = exif.get_field(exif::Tag::DateTimeOriginal, exif::In::PRIMARY)?;
    let exif::Value::Ascii(texts) = &field.value else { return None };
    let text = std::str::from_utf8(texts.first()?).ok()?;
    NaiveDateTime::parse_from_str(text.trim_end_matches('\0').trim(), "%Y:%m:%d %H:%M:%S").ok()
}
