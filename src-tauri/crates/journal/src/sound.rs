//! Which files were found to be sound at earlier starts, by the marks of their bytes: a file of the same bytes need not be
//! read line by line again, whatever it is called. A memo; what stands in it is a pure function of the bytes it names.
//!
//! A mark is a keyed hash, which takes less time than a digest. Its secret stays on this device, so nobody can make other
//! bytes of the same mark; and what a start takes from the memo is held to the lines' own keys when they are read.

use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::ops::Range;
use std::path::Path;
use std::sync::Arc;
use std::thread::JoinHandle;

use highway::{HighwayHash, HighwayHasher};
use serde::{Deserialize, Serialize};

use crate::clock::At;
use crate::disk::{Disk, Stat};
use crate::ids::{DeviceId, Key, Place, RecordId};
use crate::index::FileSeen;
use crate::library::Library;
use crate::memo;
use crate::pool::number;
use crate::segment::{FORMAT, Head, SCHEMA};
use crate::shadow::Lines;
use crate::sheet::{Glance, Sheet};
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

/// What tells a file's bytes from others.
pub(crate) type Mark = [u64; 4];

/// What marks are made with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct Secret([u64; 4]);

impl Secret {
    fn new() -> Option<Self> {
        let mut words = [0; 4];
        for word in &mut words {
            *word = getrandom::u64().ok()?;
        }
        Some(Self(words))
    }

    pub(crate) fn mark(self, bytes: &[u8]) -> Mark {
        HighwayHasher::new(highway::Key(self.0)).hash256(bytes)
    }
}

/// What a sound file holds beside its lines: it is as this program writes it, all of it is used, and its entries are of one
/// place and one device, whose file it is.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Known {
    pub(crate) device: DeviceId,
    segment: u32,
    /// The warp that all its entries belong to; none when that is the shelf.
    warp: Option<RecordId>,
    /// How many entries there are.
    pub(crate) count: u32,
    /// When the latest of them was written.
    pub(crate) latest: At,
    /// What can be seen of those that answer others, or may speak of removing, by their numbers. The rest do neither.
    pub(crate) glances: Vec<(u32, Glance)>,
}

/// When the entries of a file were written.
#[derive(Debug, Default, Clone, PartialEq)]
pub(crate) struct Times {
    /// The latest of each device.
    pub(crate) by: Vec<(DeviceId, At)>,
    /// The latest that is a time.
    pub(crate) latest: Option<At>,
}

/// A sound file in the memo. What many files have in common is named by its number.
#[derive(Debug, Serialize, Deserialize)]
struct Line {
    mark: Mark,
    device: u32,
    segment: u32,
    /// 0 for the shelf; else the warp's number, from 1.
    warp: u32,
    count: u32,
    latest: At,
    glances: Vec<(u32, Glance)>,
}

/// The sound files of earlier starts.
#[derive(Debug)]
pub(crate) struct Sound {
    /// What marks are made with; nothing where the system gave no secret.
    secret: Option<Secret>,
    known: HashMap<Mark, Arc<Known>>,
    library: Arc<Library>,
}

/// A sound file that was read at this start, and where its bytes stand.
#[derive(Debug)]
pub(crate) struct Learnt {
    pub(crate) mark: Option<Mark>,
    pub(crate) text: Arc<String>,
    pub(crate) file: Range<usize>,
    pub(crate) known: Known,
}

impl Known {
    /// What is to be known of a file that was read, if it is sound.
    pub(crate) fn of(seen: &FileSeen, bytes: usize, found: &Found, times: &Times) -> Option<Self> {
        let head = seen.head.as_ref().filter(|head| head.format == FORMAT && head.schema == SCHEMA)?;
        let sound = seen.as_written && !seen.untouchable && seen.problems.is_empty() && seen.stat.bytes == bytes as u64;
        let latest = match times.by.as_slice() {
            [(device, at)] if *device == head.device && times.latest.as_ref() == Some(at) => at.clone(),
            _ => return None,
        };
        let entries = found.entries()?.iter().enumerate();
        let glances = entries.map(|(nth, entry)| (number(nth), Glance::of(entry)));
        Some(Self {
            device: head.device.clone(),
            segment: head.segment,
            warp: seen.only_place().filter(|_| sound)?.warp_id().cloned(),
            count: u32::try_from(seen.keys.len()).ok()?,
            latest,
            glances: glances.filter(|(_, glance)| *glance != Glance::default()).collect(),
        })
    }

    pub(crate) fn times(&self) -> Times {
        Times { by: vec![(self.device.clone(), self.latest.clone())], latest: Some(self.latest.clone()) }
    }

    pub(crate) fn seen(&self, stat: Stat, mark: Mark, keys: Arc<[Key]>) -> FileSeen {
        let place = self.warp.as_ref().map_or(Place::Shelf, Place::warp);
        FileSeen {
            stat,
            digest: None,
            mark: Some(mark),
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
    pub(crate) fn kept(dir: &Path, disk: Arc<dyn Disk>, shadow: Lines) -> Self {
        let bytes = disk.read(&dir.join(MEMO), MEMO_MAX_BYTES).unwrap_or_default();
        let (secret, known) = parse(&bytes).map_or_else(|| (Secret::new(), Vec::new()), |(it, all)| (Some(it), all));
        Self {
            secret,
            known: known.into_iter().map(|(mark, known)| (mark, Arc::new(known))).collect(),
            library: Arc::new(Library::new(disk, shadow)),
        }
    }

    /// What marks are made with, if any are known.
    pub(crate) fn secret(&self) -> Option<Secret> {
        self.secret.filter(|_| !self.known.is_empty())
    }

    /// What a file holds whose bytes have a mark that is known.
    pub(crate) fn sheet(&self, file: &Path, bytes: &[u8], mark: Mark) -> Option<(Sheet, &Known)> {
        let known = self.known.get(&mark)?;
        Some((Sheet::of(file.to_owned(), bytes, known, &self.library)?, known))
    }

    /// Keeps what is known for the next start, on a thread of its own, if much has been learnt: of the files that are
    /// there now, those of `there` were known before.
    pub(crate) fn keep(&self, dir: &Path, there: &[Mark], learnt: Vec<Learnt>) -> Option<JoinHandle<()>> {
        let secret = self.secret?;
        if learnt.iter().map(|learnt| learnt.file.len() as u64).sum::<u64>() < GROWN_BYTES {
            return None;
        }
        let known = there.iter().filter_map(|mark| self.known.get(mark).map(|known| (*mark, Known::clone(known))));
        let mut files: Vec<(Mark, Known)> = known.collect();
        memo::keep(dir, MEMO, move || {
            files.extend(learnt.into_iter().map(|Learnt { mark, text, file, known }| {
                let bytes = text.as_bytes().get(file).unwrap_or_default();
                (mark.unwrap_or_else(|| secret.mark(bytes)), known)
            }));
            render(secret, &files).map_err(std::io::Error::other)
        })
    }
}

fn render(secret: Secret, files: &[(Mark, Known)]) -> postcard::Result<Vec<u8>> {
    let devices: BTreeSet<&DeviceId> = files.iter().map(|(_, known)| &known.device).collect();
    let warps: BTreeSet<&RecordId> = files.iter().filter_map(|(_, known)| known.warp.as_ref()).collect();
    let of_device: BTreeMap<&DeviceId, u32> = devices.iter().copied().zip(0..).collect();
    let of_warp: BTreeMap<&RecordId, u32> = warps.iter().copied().zip(1..).collect();
    let line = |(mark, known): &(Mark, Known)| Line {
        mark: *mark,
        device: of_device[&known.device],
        segment: known.segment,
        warp: known.warp.as_ref().map_or(0, |warp| of_warp[warp]),
        count: known.count,
        latest: known.latest.clone(),
        glances: known.glances.clone(),
    };
    let lines: Vec<Line> = files.iter().map(line).collect();
    let all = postcard::to_allocvec(&(secret, devices, warps, lines))?;
    Ok(memo::with_check([MAGIC, SOURCES.as_bytes(), b"\n", &all].concat()))
}

fn parse(bytes: &[u8]) -> Option<(Secret, Vec<(Mark, Known)>)> {
    let rest = memo::checked(bytes)?.strip_prefix(MAGIC)?.strip_prefix(SOURCES.as_bytes())?;
    let (secret, devices, warps, lines): (Secret, Vec<DeviceId>, Vec<RecordId>, Vec<Line>) =
        postcard::from_bytes(rest.strip_prefix(b"\n")?).ok()?;
    let known = |line: Line| {
        let warp = match line.warp.checked_sub(1) {
            None => None,
            Some(at) => Some(warps.get(at as usize)?.clone()),
        };
        let device = devices.get(line.device as usize)?.clone();
        let Line { mark, segment, count, latest, glances, .. } = line;
        Some((mark, Known { device, segment, warp, count, latest, glances }))
    };
    Some((secret, lines.into_iter().map(known).collect::<Option<_>>()?))
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test")]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn known(warp: Option<&str>, glances: Vec<(u32, Glance)>, count: u32) -> Known {
        let (device, warp) = ("a-device".parse().unwrap(), warp.map(|warp| warp.parse().unwrap()));
        let latest = At::carried("2026-05-31T18:04:05.123Z.0000").unwrap();
        Known { device, segment: 1, warp, count, latest, glances }
    }

    #[test]
    fn what_was_kept_comes_back_and_nothing_else_is_taken_for_it() {
        let glance = Glance { over: vec![Key::of_rest(b"one")], may_say_gone: true };
        let files = vec![
            ([1; 4], known(Some("a-warp"), vec![(0, glance)], 3)),
            ([2; 4], known(None, Vec::new(), 0)),
            ([3; 4], known(Some("another"), Vec::new(), 1)),
        ];
        let secret = Secret::new().unwrap();
        let whole = render(secret, &files).unwrap();
        assert_eq!(parse(&whole), Some((secret, files)));
        assert!(memo::broken(&whole).all(|broken| parse(&broken).is_none()));
    }

    proptest! {
        /// Whoever can write this device's own data can make the check hold: even then nothing worse than a wrong memo comes of it.
        #[test]
        fn any_bytes_behind_the_head_are_read_or_passed_over(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
            parse(&memo::with_check([MAGIC, SOURCES.as_bytes(), b"\n", &bytes].concat()));
        }

        /// A file that is not what the memo takes it for is passed over.
        #[test]
        fn a_sheet_of_any_bytes_is_whole_or_none(
            text in "(.{0,40}\n?){0,8}|(\\{\"key\":\"[0-9a-f]{32}\",\"of\":\"[a-z]{1,4}\".{0,9},?\n){0,5}",
            count in 0..6u32,
        ) {
            let place = tempfile::tempdir().unwrap();
            let disk: Arc<dyn Disk> = Arc::new(crate::disk::SystemDisk);
            let shadow = crate::shadow::Shadow::new(place.path(), Arc::clone(&disk));
            let library = Arc::new(Library::new(disk, shadow.kept().clone()));
            let known = Arc::new(known(None, Vec::new(), count));
            let file = place.path().join("gone.json");
            if let Some(sheet) = Sheet::of(file, text.as_bytes(), &known, &library) {
                prop_assert_eq!((sheet.keys().len(), sheet.ids().count()), (count as usize, count as usize));
                // Neither the file nor the shadow has them: nothing is made up, and nothing breaks.
                prop_assert!((0..=count).all(|nth| sheet.entry(nth).is_none()));
                prop_assert!(sheet.id(count).is_none() && sheet.key(count).is_none());
            }
        }
    }
}
