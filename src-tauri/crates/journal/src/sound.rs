//! Which files were found to be sound at earlier starts, by the digests of their bytes: a file of the same bytes need not be
//! read line by line again, whatever it is called. A memo; what stands in it is a pure function of the bytes it names.

use std::collections::HashMap;
use std::ops::Range;
use std::path::Path;
use std::sync::Arc;
use std::thread::JoinHandle;

use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use crate::clock::At;
use crate::disk::{Disk, Stat};
use crate::ids::{DeviceId, Key, Place, RecordId};
use crate::index::FileSeen;
use crate::memo;
use crate::segment::{FORMAT, Head, SCHEMA};
use crate::sheet::About;
use crate::state::Found;

const MEMO: &str = "sound.memo";
/// What the memo begins with.
const MAGIC: &[u8] = b"fellmark sound 1\n";
/// The sources that files are read by, as a number: others may find other things sound.
const SOURCES: &str = env!("FELLMARK_SOURCES");
/// The memo is kept again when there are so many bytes of sound files that it does not know.
const GROWN_BYTES: u64 = 1 << 20;
/// Most bytes of the memo that are read: some hundred for each file.
const MEMO_MAX_BYTES: u64 = 1 << 28;

/// The digest of a file's bytes.
pub(crate) type FileDigest = [u8; 32];

/// What a sound file holds beside its lines.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(crate) struct Known {
    device: DeviceId,
    segment: u32,
    /// The warp that all its entries belong to; none when that is the shelf.
    warp: Option<RecordId>,
    pub(crate) about: About,
    pub(crate) times: Times,
}

/// When the entries of a file were written.
#[derive(Debug, Default, Clone, PartialEq, Serialize, Deserialize)]
pub(crate) struct Times {
    /// The latest of each device.
    pub(crate) by: Vec<(DeviceId, At)>,
    /// The latest that is a time.
    pub(crate) latest: Option<At>,
}

/// The sound files of earlier starts.
#[derive(Debug, Default)]
pub(crate) struct Sound {
    known: HashMap<FileDigest, Known>,
}

/// A sound file that was read at this start, and where its bytes stand.
#[derive(Debug)]
pub(crate) struct Learnt {
    pub(crate) digest: Option<FileDigest>,
    pub(crate) text: Arc<String>,
    pub(crate) file: Range<usize>,
    pub(crate) known: Known,
}

pub(crate) fn digest(bytes: &[u8]) -> FileDigest {
    Sha256::digest(bytes).into()
}

impl Known {
    /// What is to be known of a file that was read, if it is sound: as this program writes it, all of it used, of one place.
    pub(crate) fn of(seen: &FileSeen, bytes: usize, found: &Found, times: &Times) -> Option<Self> {
        let head = seen.head.as_ref().filter(|head| head.format == FORMAT && head.schema == SCHEMA)?;
        let sound = seen.as_written && !seen.untouchable && seen.problems.is_empty() && seen.stat.bytes == bytes as u64;
        Some(Self {
            device: head.device.clone(),
            segment: head.segment,
            warp: seen.only_place().filter(|_| sound)?.warp_id().cloned(),
            about: found.about()?,
            times: times.clone(),
        })
    }

    pub(crate) fn seen(&self, stat: Stat, digest: FileDigest, keys: Arc<[Key]>) -> FileSeen {
        let place = self.warp.as_ref().map_or(Place::Shelf, Place::warp);
        FileSeen {
            stat,
            digest: Some(digest),
            head: Some(Head {
                format: FORMAT.to_owned(),
                schema: SCHEMA,
                device: self.device.clone(),
                segment: self.segment,
            }),
            as_written: true,
            untouchable: false,
            keys,
            places: [place].into(),
            problems: Vec::new(),
        }
    }
}

impl Sound {
    /// What was kept; nothing where it is not whole, or was kept by another version.
    pub(crate) fn kept(disk: &dyn Disk, dir: &Path) -> Self {
        let bytes = disk.read(&dir.join(MEMO), MEMO_MAX_BYTES).unwrap_or_default();
        Self { known: parse(&bytes).unwrap_or_default().into_iter().collect() }
    }

    pub(crate) fn is_empty(&self) -> bool {
        self.known.is_empty()
    }

    pub(crate) fn get(&self, digest: &FileDigest) -> Option<&Known> {
        self.known.get(digest)
    }

    /// Keeps what is known for the next start, on a thread of its own, if much has been learnt: of the files that are
    /// there now, those of `there` were known before.
    pub(crate) fn keep(&self, dir: &Path, there: &[FileDigest], learnt: Vec<Learnt>) -> Option<JoinHandle<()>> {
        if learnt.iter().map(|learnt| learnt.file.len() as u64).sum::<u64>() < GROWN_BYTES {
            return None;
        }
        let known = there.iter().filter_map(|digest| self.known.get(digest).map(|known| (*digest, known.clone())));
        let mut files: Vec<(FileDigest, Known)> = known.collect();
        memo::keep(dir, MEMO, move || {
            files.extend(learnt.into_iter().map(|Learnt { digest: told, text, file, known }| {
                (told.unwrap_or_else(|| digest(text.as_bytes().get(file).unwrap_or_default())), known)
            }));
            render(&files).map_err(std::io::Error::other)
        })
    }
}

fn render(files: &[(FileDigest, Known)]) -> postcard::Result<Vec<u8>> {
    let files = postcard::to_allocvec(files)?;
    Ok(memo::with_check([MAGIC, SOURCES.as_bytes(), b"\n", &files].concat()))
}

fn parse(bytes: &[u8]) -> Option<Vec<(FileDigest, Known)>> {
    let rest = memo::checked(bytes)?.strip_prefix(MAGIC)?.strip_prefix(SOURCES.as_bytes())?;
    postcard::from_bytes(rest.strip_prefix(b"\n")?).ok()
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test")]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn known(glances: Vec<(u32, crate::sheet::Glance)>, count: u32) -> Known {
        Known {
            device: "a-device".parse().unwrap(),
            segment: 1,
            warp: None,
            about: About { count, by: vec!["a-device".parse().unwrap()], glances },
            times: Times::default(),
        }
    }

    #[test]
    fn what_was_kept_comes_back_and_nothing_else_is_taken_for_it() {
        let glance = crate::sheet::Glance { over: vec![Key::of_rest(b"one")], may_say_gone: true };
        let files = vec![([1; 32], known(vec![(0, glance)], 3)), ([2; 32], known(Vec::new(), 0))];
        let whole = render(&files).unwrap();
        assert_eq!(parse(&whole), Some(files));
        for length in 0..whole.len() {
            assert_eq!(parse(&whole[..length]), None);
        }
        for at in 0..whole.len() {
            let mut changed = whole.clone();
            changed[at] ^= 1;
            assert_eq!(parse(&changed), None);
        }
    }

    proptest! {
        /// Whoever can write this device's own data can make the check hold: even then nothing worse than a wrong memo comes of it.
        #[test]
        fn any_bytes_behind_the_head_are_read_or_passed_over(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
            parse(&memo::with_check([MAGIC, SOURCES.as_bytes(), b"\n", &bytes].concat()));
        }

        /// A text that is not what the memo takes it for is passed over.
        #[test]
        fn a_sheet_of_any_text_is_whole_or_none(text in "(.{0,40}\n?){0,8}|(\\{\"key\":\"[0-9a-f]{32}\",\"of\":\"[a-z]{1,4}\".{0,9},?\n){0,5}", count in 0..6u32) {
            let text = Arc::new(text);
            let about = About { count, ..About::default() };
            let mut ids = 0;
            if let Some(sheet) = crate::sheet::Sheet::of(&text, 0..text.len(), &about, |_| ids += 1) {
                prop_assert_eq!((sheet.keys().len(), ids), (count as usize, count));
                for nth in 0..count {
                    prop_assert!(sheet.id(nth).is_some() && sheet.key(nth).is_some());
                }
                prop_assert!(sheet.id(count).is_none() && sheet.key(count).is_none());
            }
        }
    }
}
