//! Photographs: what is stored, what is gone, and what is refused. Another program (exiftool) reads what was stored.

use std::io::Cursor;
use std::ops::ControlFlow;
use std::path::Path;
use std::process::Command;

use fellmark_journal::photos::{self, LONG_SIDE_PX, prepare};
use fellmark_tests::journal::{self, SharedFolder, picture};
use image::{DynamicImage, ImageFormat, Rgb, RgbImage, Rgba, RgbaImage};
use serde_json::Value;

fn exiftool(args: &[&str], file: &Path) -> String {
    let output = Command::new("exiftool").args(args).arg(file).output();
    let output = output.expect("exiftool is needed to check photos: apt-get install libimage-exiftool-perl");
    let reported = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "exiftool {args:?}: {reported}");
    String::from_utf8_lossy(&output.stdout).into_owned()
}

/// A photograph as a telephone makes it: place, camera, time and more, in every block that may hold them.
fn with_metadata(bytes: &[u8], name: &str, more: &[&str]) -> Vec<u8> {
    let dir = tempfile::tempdir().unwrap();
    let file = dir.path().join(name);
    std::fs::write(&file, bytes).unwrap();
    let mut args = vec![
        "-overwrite_original",
        "-q",
        "-GPSLatitude=48.2",
        "-GPSLatitudeRef=N",
        "-GPSLongitude=16.37",
        "-GPSLongitudeRef=E",
        "-XMP:GPSLatitude=48.2",
        "-XMP:Creator=Ann Example",
        "-Make=Secretphone",
        "-Model=Secretphone 12",
        "-DateTimeOriginal=2026:05:31 18:04:05",
        "-EXIF:UserComment=secret comment",
        "-SerialNumber=secret-serial",
    ];
    args.extend(more);
    exiftool(&args, &file);
    std::fs::read(&file).unwrap()
}

fn profile() -> Vec<u8> {
    // The header of a colour profile and nothing else: enough to be carried, for what is tested here.
    let mut profile = vec![0u8; 132];
    profile[3] = 132;
    profile[8..12].copy_from_slice(&[2, 16, 0, 0]);
    profile[12..24].copy_from_slice(b"mntrRGB XYZ ");
    profile[36..40].copy_from_slice(b"acsp");
    profile
}

/// The markers of a JPEG file in their order, and what follows its end.
fn markers(jpeg: &[u8]) -> (Vec<u8>, &[u8]) {
    assert_eq!(jpeg[..2], [0xff, 0xd8]);
    let mut found = Vec::new();
    let mut i = 2;
    loop {
        assert_eq!(jpeg[i], 0xff, "no marker at {i}");
        let marker = jpeg[i + 1];
        if marker == 0xd9 {
            return (found, &jpeg[i + 2..]);
        }
        found.push(marker);
        i += 2 + usize::from(u16::from_be_bytes([jpeg[i + 2], jpeg[i + 3]]));
        if marker == 0xda {
            while !(jpeg[i] == 0xff && jpeg[i + 1] != 0 && !(0xd0..=0xd7).contains(&jpeg[i + 1])) {
                i += 1;
            }
        }
    }
}

/// Nothing but pixels and the colour profile, by the markers of the file and by what another program finds.
fn assert_only_pixels(jpeg: &[u8], with_profile: bool) {
    let (found, after) = markers(jpeg);
    assert!(after.is_empty(), "{} bytes follow the end marker", after.len());
    // JFIF, the colour profile, tables, frame, scan.
    let allowed = [0xe0, 0xe2, 0xdb, 0xc0, 0xc4, 0xda];
    assert!(found.iter().all(|marker| allowed.contains(marker)), "{found:x?}");
    assert_eq!(found.contains(&0xe2), with_profile, "{found:x?}");

    let dir = tempfile::tempdir().unwrap();
    let file = dir.path().join("stored.jpg");
    std::fs::write(&file, jpeg).unwrap();
    let reported: Value = serde_json::from_str(&exiftool(&["-j", "-a", "-u", "-G0", "-ee"], &file)).unwrap();
    for (tag, value) in reported[0].as_object().unwrap() {
        let group = tag.split(':').next().unwrap();
        let harmless = ["SourceFile", "ExifTool", "File", "JFIF", "ICC_Profile"].contains(&group)
            || ["Composite:ImageSize", "Composite:Megapixels"].contains(&tag.as_str());
        assert!(harmless, "the stored photo tells {tag} = {value}");
    }
    for word in ["Secretphone", "secret", "Ann Example", "GPS", "Exif"] {
        assert!(!jpeg.windows(word.len()).any(|window| window == word.as_bytes()), "“{word}” is in the stored photo");
    }
}

#[test]
fn place_camera_and_what_follows_the_end_are_gone() {
    let dir = tempfile::tempdir().unwrap();
    let icc = dir.path().join("profile.icc");
    std::fs::write(&icc, profile()).unwrap();
    let icc = format!("-ICC_Profile<={}", icc.display());
    let more = ["-IPTC:City=secret city", "-Comment=secret", "-n", "-Orientation=6", &icc];
    let mut original = with_metadata(&picture(60, 40), "photo.jpg", &more);
    // A second picture with its own place behind the end, as telephones put a depth map or a film there.
    let second = original.clone();
    original.extend_from_slice(&second);
    let before = tempfile::tempdir().unwrap();
    let file = before.path().join("original.jpg");
    std::fs::write(&file, &original).unwrap();
    let reported = exiftool(&["-a", "-G1"], &file);
    for there in ["GPS", "XMP", "IPTC", "Secretphone"] {
        assert!(reported.contains(there), "the original should tell {there}, or the test shows nothing: {reported}");
    }

    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    let added = laptop.photo_add(&warp, &original).unwrap();
    assert_eq!((added.width, added.height, added.turned), (40, 60, true));
    assert_eq!(added.taken_at.unwrap().to_string(), "2026-05-31 18:04:05");
    let stored = std::fs::read(laptop.photo_path(&warp, &added.hash).unwrap()).unwrap();
    assert_only_pixels(&stored, true);
    assert_eq!(prepare(&original).unwrap().jpeg, stored);
    let kept = image::ImageReader::new(Cursor::new(&stored)).with_guessed_format().unwrap().into_decoder().unwrap();
    let mut kept = kept;
    assert_eq!(image::ImageDecoder::icc_profile(&mut kept).unwrap(), Some(profile()));
    // Its name is what another program calculates from the file.
    let sum = Command::new("sha256sum").arg(laptop.photo_path(&warp, &added.hash).unwrap()).output().unwrap();
    assert!(String::from_utf8_lossy(&sum.stdout).starts_with(&added.hash));
    assert_only_pixels(&laptop.thumbnail(&warp, &added.hash, 32).unwrap(), true);
}

#[test]
fn other_formats_and_see_through_pictures_are_stored_alike() {
    let flat = RgbaImage::from_fn(40, 30, |x, _| Rgba([200, 0, 0, if x < 20 { 0 } else { 255 }]));
    let flat = DynamicImage::ImageRgba8(flat);
    for (format, name) in [(ImageFormat::Png, "photo.png"), (ImageFormat::WebP, "photo.webp")] {
        let mut bytes = Cursor::new(Vec::new());
        flat.write_to(&mut bytes, format).unwrap();
        let bytes = bytes.into_inner();
        // This exiftool reads WebP and does not write it.
        let bytes =
            if format == ImageFormat::Png { with_metadata(&bytes, name, &["-PNG:Author=secret"]) } else { bytes };
        let stored = prepare(&bytes).unwrap();
        assert_only_pixels(&stored.jpeg, false);
        let pixels = image::load_from_memory(&stored.jpeg).unwrap().into_rgb8();
        assert!(pixels.get_pixel(4, 15).0.iter().all(|c| *c > 240), "see-through lies on white");
        assert!(pixels.get_pixel(35, 15).0[0] > 170 && pixels.get_pixel(35, 15).0[1] < 40);
    }
    let grey = DynamicImage::ImageLuma16(image::ImageBuffer::from_pixel(30, 20, image::Luma([40_000])));
    let mut bytes = Cursor::new(Vec::new());
    grey.write_to(&mut bytes, ImageFormat::Png).unwrap();
    let stored = prepare(&bytes.into_inner()).unwrap();
    assert_only_pixels(&stored.jpeg, false);
    assert_eq!(image::load_from_memory(&stored.jpeg).unwrap().color(), image::ColorType::L8);
}

/// Where the first pixel of the file and the last of its first row lie when the picture is upright, by the table
/// of the tag Orientation in the EXIF standard (CIPA DC-008): "the 0th row is at the visual …, the 0th column at
/// the visual …". As (right, bottom). The table is given from memory.
const CORNERS: [((bool, bool), (bool, bool)); 8] = [
    ((false, false), (true, false)),
    ((true, false), (false, false)),
    ((true, true), (false, true)),
    ((false, true), (true, true)),
    ((false, false), (false, true)),
    ((true, false), (true, true)),
    ((true, true), (true, false)),
    ((false, true), (false, false)),
];

#[test]
fn each_orientation_is_put_upright() {
    let (red, green) = (Rgb([255, 0, 0]), Rgb([0, 255, 0]));
    let held = RgbImage::from_fn(64, 32, |x, y| match (x < 16, x >= 48, y < 16) {
        (true, _, true) => red,
        (_, true, true) => green,
        _ => Rgb([128, 128, 128]),
    });
    let mut bytes = Cursor::new(Vec::new());
    held.write_to(&mut bytes, ImageFormat::Jpeg).unwrap();
    let bytes = bytes.into_inner();
    for (i, (first, last)) in CORNERS.into_iter().enumerate() {
        let value = i + 1;
        let stored = prepare(&with_metadata(&bytes, "photo.jpg", &["-n", &format!("-Orientation={value}")])).unwrap();
        let upright = image::load_from_memory(&stored.jpeg).unwrap().into_rgb8();
        let expected = if value >= 5 { (32, 64) } else { (64, 32) };
        assert_eq!((stored.width, stored.height), expected, "orientation {value}");
        assert_eq!(upright.dimensions(), expected);
        assert_eq!(stored.turned, value != 1);
        let at = |(right, bottom): (bool, bool)| {
            let x = if right { upright.width() - 5 } else { 4 };
            let y = if bottom { upright.height() - 5 } else { 4 };
            upright.get_pixel(x, y).0
        };
        let (first, last) = (at(first), at(last));
        assert!(first[0] > 180 && first[1] < 90, "orientation {value}: {first:?}");
        assert!(last[1] > 180 && last[0] < 90, "orientation {value}: {last:?}");
    }
}

#[test]
fn large_pictures_are_made_smaller_and_small_ones_stay() {
    let stored = prepare(&picture(3000, 1500)).unwrap();
    assert_eq!((stored.width, stored.height), (LONG_SIDE_PX, 1024));
    let stored = prepare(&picture(1, 2500)).unwrap();
    assert_eq!((stored.width, stored.height), (1, LONG_SIDE_PX));
    let stored = prepare(&picture(33, 17)).unwrap();
    assert_eq!((stored.width, stored.height, stored.turned, stored.taken_at), (33, 17, false, None));
}

#[test]
fn thumbnails_are_kept_on_this_device_only() {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    let added = laptop.photo_add(&warp, &picture(400, 200)).unwrap();
    let before = shared.files();
    let small = laptop.thumbnail(&warp, &added.hash, 100).unwrap();
    let size = image::load_from_memory(&small).unwrap();
    assert_eq!((size.width(), size.height()), (100, 50));
    assert_eq!(shared.files(), before);
    let kept = shared.local("laptop").join("thumbnails").join(format!("{}-100.jpg", added.hash));
    assert_eq!(std::fs::read(&kept).unwrap(), small);
    // The kept one is what is shown.
    std::fs::write(&kept, b"kept").unwrap();
    assert_eq!(laptop.thumbnail(&warp, &added.hash, 100).unwrap(), b"kept");
}

#[test]
fn photos_wait_on_this_device_while_the_folder_is_away() {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    let away = shared.root().join("away");
    std::fs::rename(shared.folder(), &away).unwrap();
    let added = laptop.photo_add(&warp, &picture(40, 30)).unwrap();
    assert_eq!(laptop.status().waiting_to_write, 1);
    assert!(laptop.photo_path(&warp, &added.hash).unwrap().exists());
    assert_eq!(laptop.photos(&warp), [added.hash.clone()].into());
    assert!(!shared.folder().exists());
    std::fs::rename(&away, shared.folder()).unwrap();
    laptop.refresh(&[]).unwrap();
    assert_eq!(laptop.status().waiting_to_write, 0);
    assert!(laptop.photo_path(&warp, &added.hash).unwrap().starts_with(shared.folder()));
    let phone = shared.open("phone");
    assert!(phone.photo_path(&warp, &added.hash).is_ok());
}

#[test]
fn many_are_taken_in_with_progress_and_a_stop() {
    let dir = tempfile::tempdir().unwrap();
    let paths: Vec<_> = (0..5)
        .map(|i| {
            let path = dir.path().join(format!("{i}.jpg"));
            std::fs::write(&path, if i == 1 { b"no picture".to_vec() } else { picture(20 + i, 20) }).unwrap();
            path
        })
        .collect();
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    let mut reported = Vec::new();
    photos::import(&paths, |imported| {
        reported.push((imported.done, imported.of, imported.photo.is_ok()));
        if let Ok(photo) = imported.photo {
            laptop.photo_store(&warp, photo).unwrap();
        }
        if reported.len() == 4 { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
    });
    assert_eq!(reported, [(1, 5, true), (2, 5, false), (3, 5, true), (4, 5, true)]);
    assert_eq!(laptop.photos(&warp).len(), 3);
    assert!(paths.iter().all(|path| path.exists()), "the originals stay where they were");
    photos::import(&[dir.path().join("none.jpg")], |imported| {
        assert!(imported.photo.unwrap_err().to_string().contains("cannot be read"));
        ControlFlow::Continue(())
    });
}
