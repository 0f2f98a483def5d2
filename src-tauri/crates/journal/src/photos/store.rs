//! Where photographs lie: in the folder beside their warp, or on this device while the folder cannot be
//! written. They are named by the hash of their bytes, so one picture is one file.

use std::collections::BTreeSet;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use chrono::NaiveDateTime;

use sha2::{Digest, Sha256};

use super::{PHOTO_FILE_MAX_BYTES, PhotoError};
use crate::error::Error;
use crate::format::ids::{Place, RecordId, hex, random_text};
use crate::journal::Journal;
use crate::photos;
use crate::store::disk::{self, Disk, NodeKind, list_below};
use crate::store::index::{PHOTOS, not_followed};
use crate::store::status::{Problem, ProblemKind};

const THUMBNAILS: &str = "thumbnails";

/// A photograph that was taken in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PhotoAdded {
    /// Its name: 64 hex digits, the SHA-256 of the stored bytes.
    pub hash: String,
    /// The SHA-256 of the bytes that were given, to know the same picture again.
    pub source_hash: String,
    /// Its width as stored and upright, in pixels.
    pub width: u32,
    /// Its height as stored and upright, in pixels.
    pub height: u32,
    /// It was turned upright.
    pub turned: bool,
    /// When it was taken, by the camera's clock and where it was.
    pub taken_at: Option<NaiveDateTime>,
    /// The warp had this very picture already.
    pub already: bool,
}

impl Journal {
    /// Takes a photograph in and stores it with a warp. The original stays where it was.
    ///
    /// # Errors
    /// [`Error::Photo`] with a sentence for the person, [`Error::ReadOnly`], or [`Error::NowhereToWrite`] when
    /// neither the folder nor this device's own disk takes it.
    pub fn photo_add(&mut self, warp: &RecordId, bytes: &[u8]) -> Result<PhotoAdded, Error> {
        if self.local.is_read_only() {
            return Err(Error::ReadOnly);
        }
        self.photo_store(warp, photos::prepare(bytes)?)
    }

    /// Stores a photograph that [`photos::prepare`] made ready, elsewhere or on another thread: so that many can
    /// be taken in with progress shown and the journal free meanwhile.
    ///
    /// # Errors
    /// As [`Journal::photo_add`].
    pub fn photo_store(&mut self, warp: &RecordId, photo: photos::Prepared) -> Result<PhotoAdded, Error> {
        if self.local.is_read_only() {
            return Err(Error::ReadOnly);
        }
        let already = self.find_photo(warp, &photo.hash).is_some();
        if !already {
            let path = self.waiting_dir(warp).join(format!("{}.jpg", photo.hash));
            let kept = self.keep_waiting(&path, &photo.jpeg);
            if let Err(source) = kept {
                // No room on this device: straight into the folder, then.
                self.look_at_folder();
                let direct = match self.folder_state.is_out_of_reach() {
                    true => Err(io::Error::other("it is not there")),
                    false => self.put_photo(warp, &photo.hash, &photo.jpeg),
                };
                if let Err(error) = direct {
                    return Err(Error::NowhereToWrite {
                        folder: self.folder.clone(),
                        folder_says: error.to_string(),
                        local: self.local.dir.clone(),
                        source,
                    });
                }
            }
            self.look_at_folder();
            self.send();
        }
        Ok(PhotoAdded {
            hash: photo.hash,
            source_hash: photo.source_hash,
            width: photo.width,
            height: photo.height,
            turned: photo.turned,
            taken_at: photo.taken_at,
            already,
        })
    }

    /// Where a photograph of a warp lies.
    ///
    /// # Errors
    /// [`PhotoError::Name`] when the name is no photograph's, [`PhotoError::NotHere`] when it has not arrived: a
    /// placeholder is to be shown.
    pub fn photo_path(&self, warp: &RecordId, hash: &str) -> Result<PathBuf, Error> {
        check_name(hash)?;
        self.find_photo(warp, hash).ok_or_else(|| PhotoError::NotHere.into())
    }

    /// The photographs that lie with a warp, by their hashes. One that no record names is unassigned.
    #[must_use]
    pub fn photos(&self, warp: &RecordId) -> BTreeSet<String> {
        let mut photos = BTreeSet::new();
        for dir in self.photo_dirs(warp) {
            for (name, kind) in list_below(self.disk.as_ref(), &dir).unwrap_or_default() {
                if kind != NodeKind::File || name.as_encoded_bytes().starts_with(b".") {
                    continue;
                }
                let Some(hash) = name.to_str().and_then(hash_in_name) else { continue };
                // A synchroniser may have renamed it: then the content decides.
                let is_named_so = name.to_str().and_then(photo_hash).is_some();
                if is_named_so || content_hash(self.disk.as_ref(), &dir.join(&name)).as_deref() == Some(hash) {
                    photos.insert(hash.to_owned());
                }
            }
        }
        photos
    }

    /// A photograph of a warp, to be read without the journal: reading and decoding a picture takes time.
    ///
    /// # Errors
    /// [`PhotoError::Name`] when the name is no photograph's.
    pub fn stored_photo(&self, warp: &RecordId, hash: &str) -> Result<StoredPhoto, Error> {
        check_name(hash)?;
        Ok(StoredPhoto {
            hash: hash.to_owned(),
            files: self.photo_files(warp, hash),
            disk: Arc::clone(&self.disk),
            thumbnails: self.local.dir.join(THUMBNAILS),
            may_write: !self.local.is_read_only(),
        })
    }

    /// A small copy of a photograph, as JPEG.
    ///
    /// # Errors
    /// As [`StoredPhoto::thumbnail`], and [`PhotoError::Name`].
    pub fn thumbnail(&self, warp: &RecordId, hash: &str, long_side_px: u32) -> Result<Vec<u8>, Error> {
        self.stored_photo(warp, hash)?.thumbnail(long_side_px)
    }

    /// How many photographs wait on this device for the folder.
    pub(crate) fn photos_waiting(&self) -> usize {
        self.waiting_photos().len()
    }

    fn waiting_photos(&self) -> Vec<(RecordId, String, PathBuf)> {
        let mut waiting = Vec::new();
        let top = self.local.dir.join(PHOTOS);
        for (warp, kind) in self.disk.list(&top).unwrap_or_default() {
            let Some(id) = warp.to_str().and_then(|warp| warp.parse::<RecordId>().ok()) else { continue };
            if kind != NodeKind::Dir {
                continue;
            }
            for (name, _) in self.disk.list(&top.join(&warp)).unwrap_or_default() {
                if let Some(hash) = name.to_str().and_then(photo_hash) {
                    waiting.push((id.clone(), hash.to_owned(), top.join(&warp).join(&name)));
                }
            }
        }
        waiting.sort();
        waiting
    }

    /// Sends the photographs that wait.
    pub(crate) fn send_photos(&mut self) -> io::Result<()> {
        for (warp, hash, path) in self.waiting_photos() {
            let bytes = self.disk.read(&path, PHOTO_FILE_MAX_BYTES as u64)?;
            self.leave_marker()?;
            self.put_photo(&warp, &hash, &bytes)?;
            self.disk.remove(&path)?;
        }
        Ok(())
    }

    fn put_photo(&self, warp: &RecordId, hash: &str, bytes: &[u8]) -> io::Result<()> {
        let dir = self.dir_for(&Place::warp(warp), &[])?.join(PHOTOS);
        self.make_dir(&dir)?;
        self.replace(&dir.join(format!("{hash}.jpg")), bytes)
    }

    fn waiting_dir(&self, warp: &RecordId) -> PathBuf {
        self.local.dir.join(PHOTOS).join(warp.as_str())
    }

    fn keep_waiting(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        if let Some(dir) = path.parent() {
            std::fs::create_dir_all(dir)?;
        }
        disk::replace(self.disk.as_ref(), path, &path.with_extension("tmp"), bytes)
    }

    /// The directories of a warp's photographs: one in the folder, or more where a copy of the warp's directory lies about,
    /// and the one on this device.
    fn photo_dirs(&self, warp: &RecordId) -> Vec<PathBuf> {
        let place = Place::warp(warp);
        let mut dirs: BTreeSet<PathBuf> =
            self.index.files_of(&place).filter_map(|(file, _)| file.parent().map(|dir| dir.join(PHOTOS))).collect();
        dirs.extend(self.known_dir(&place).map(|dir| dir.join(PHOTOS)));
        dirs.into_iter().chain([self.waiting_dir(warp)]).collect()
    }

    /// A file that holds a photograph whole: under its own name, or under one that a synchroniser gave it.
    fn find_photo(&self, warp: &RecordId, hash: &str) -> Option<PathBuf> {
        let disk = self.disk.as_ref();
        self.photo_files(warp, hash).into_iter().find(|path| content_hash(disk, path).as_deref() == Some(hash))
    }

    /// The files that may hold a photograph: first under its own name, then under names that a synchroniser gave it.
    fn photo_files(&self, warp: &RecordId, hash: &str) -> Vec<PathBuf> {
        let own_name = format!("{hash}.jpg");
        let (mut files, mut renamed) = (Vec::new(), Vec::new());
        for dir in self.photo_dirs(warp) {
            for (name, kind) in list_below(self.disk.as_ref(), &dir).unwrap_or_default() {
                if kind != NodeKind::File || name.to_str().and_then(hash_in_name) != Some(hash) {
                    continue;
                }
                let found = if name == *own_name { &mut files } else { &mut renamed };
                found.push(dir.join(name));
            }
        }
        files.extend(renamed);
        files
    }
}

/// A photograph of a warp, apart from the journal that holds it.
#[derive(Debug, Clone)]
pub struct StoredPhoto {
    hash: String,
    files: Vec<PathBuf>,
    disk: Arc<dyn Disk>,
    thumbnails: PathBuf,
    may_write: bool,
}

impl StoredPhoto {
    /// The picture to be shown, from the bytes that its name was made of: see [`photos::displayable`].
    ///
    /// # Errors
    /// [`PhotoError::NotHere`] when no file of at most [`PHOTO_FILE_MAX_BYTES`] holds them: a placeholder is to be shown.
    /// Another [`Error::Photo`] when they are no picture, or one of too many pixels.
    pub fn picture(&self) -> Result<Vec<u8>, Error> {
        Ok(photos::displayable(self.read()?)?)
    }

    /// The stored bytes, which are those that its name was made of.
    fn read(&self) -> Result<Vec<u8>, Error> {
        let whole = self.files.iter().find_map(|path| whole_photo(self.disk.as_ref(), path, &self.hash));
        whole.ok_or_else(|| PhotoError::NotHere.into())
    }

    /// A small copy, as JPEG; kept on this device for the next time.
    ///
    /// # Errors
    /// As [`StoredPhoto::picture`].
    pub fn thumbnail(&self, long_side_px: u32) -> Result<Vec<u8>, Error> {
        if self.files.is_empty() {
            return Err(PhotoError::NotHere.into());
        }
        let disk = self.disk.as_ref();
        let kept = self.thumbnails.join(format!("{}-{long_side_px}.jpg", self.hash));
        if let Ok(bytes) = disk.read(&kept, PHOTO_FILE_MAX_BYTES as u64)
            && !bytes.is_empty()
        {
            return Ok(bytes);
        }
        let small = photos::thumbnail(&self.read()?, long_side_px)?;
        if self.may_write {
            // A thumbnail that cannot be kept is made again.
            let _ = std::fs::create_dir_all(&self.thumbnails);
            let temp = kept.with_extension(format!("{}.tmp", random_text(6).unwrap_or_default()));
            let _ = disk::replace(disk, &kept, &temp, &small);
        }
        Ok(small)
    }
}

fn check_name(hash: &str) -> Result<(), PhotoError> {
    if is_hash(hash) { Ok(()) } else { Err(PhotoError::Name { name: hash.chars().take(80).collect() }) }
}

/// The bytes of a file, if they are those of the photograph.
fn whole_photo(disk: &dyn Disk, path: &Path, hash: &str) -> Option<Vec<u8>> {
    let bytes = photo_bytes(disk, path)?;
    (hex(&Sha256::digest(&bytes)) == hash).then_some(bytes)
}

/// The bytes of a plain file that is neither empty nor too long.
fn photo_bytes(disk: &dyn Disk, path: &Path) -> Option<Vec<u8>> {
    let stat = disk.stat(path).ok()?;
    let fits = stat.kind == NodeKind::File && (1..=PHOTO_FILE_MAX_BYTES as u64).contains(&stat.bytes);
    fits.then(|| disk.read(path, PHOTO_FILE_MAX_BYTES as u64).ok())?
}

/// The hash of a file's bytes; `None` for what is no plain file, empty or too long.
fn content_hash(disk: &dyn Disk, path: &Path) -> Option<String> {
    Some(hex(&Sha256::digest(photo_bytes(disk, path)?)))
}

/// The photographs that lie in directories, by content.
#[derive(Debug, Default)]
pub(crate) struct PhotosFound {
    whole: BTreeSet<(PathBuf, String)>,
    damaged: BTreeSet<PathBuf>,
}

impl PhotosFound {
    /// Looks at all files of a directory of photographs; gives what is wrong with them.
    pub(crate) fn look_at(&mut self, disk: &dyn Disk, dir: &Path) -> Vec<Problem> {
        let mut problems = Vec::new();
        let mut names = list_below(disk, dir).unwrap_or_default();
        names.sort_by(|one, other| one.0.cmp(&other.0));
        for (name, kind) in names.into_iter().filter(|(name, _)| !name.as_encoded_bytes().starts_with(b".")) {
            let path = dir.join(&name);
            match kind {
                NodeKind::Other => problems.push(not_followed(path)),
                NodeKind::File => {
                    let there = content_hash(disk, &path);
                    let named = name.to_str().and_then(photo_hash);
                    if named.is_some() && named != there.as_deref() {
                        problems.push(Problem { file: path.clone(), line: None, kind: ProblemKind::PhotoDamaged });
                        self.damaged.insert(path);
                    }
                    self.whole.extend(there.map(|hash| (dir.to_owned(), hash)));
                }
                NodeKind::Dir | NodeKind::Placeholder => {}
            }
        }
        problems
    }

    /// Whether a directory holds a photograph whole.
    pub(crate) fn holds(&self, dir: &Path, hash: &str) -> bool {
        self.whole.contains(&(dir.to_owned(), hash.to_owned()))
    }

    /// Whether a file is there, but does not hold what its name says.
    pub(crate) fn is_damaged(&self, file: &Path) -> bool {
        self.damaged.contains(file)
    }
}

fn is_hash(text: &str) -> bool {
    text.len() == 64 && text.bytes().all(|b| matches!(b, b'0'..=b'9' | b'a'..=b'f'))
}

/// The hash that a name begins with: a photograph's, or one that a synchroniser renamed, such as `….jpg..path1`.
fn hash_in_name(name: &str) -> Option<&str> {
    name.get(..64).filter(|hash| is_hash(hash))
}

/// The hash in the name of a photograph's file: 64 hex digits and `.jpg`, nothing else.
fn photo_hash(name: &str) -> Option<&str> {
    name.strip_suffix(".jpg").filter(|hash| is_hash(hash))
}
