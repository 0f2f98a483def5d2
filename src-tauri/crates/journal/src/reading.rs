//! Reading files that may hold entries: whatever lies there, what is sound in it is used and the rest is told.

use std::collections::BTreeSet;
use std::io::{Error, ErrorKind};
use std::ops::Range;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::disk::{Disk, NodeKind, Stat};
use crate::entry::{Entry, Refusal};
use crate::index::{FileSeen, Index, unreadable};
use crate::marker::Marker;
use crate::segment::{Parsed, SCHEMA, Wrong, looks_ours};
use crate::sound::{Mark, Sound, Times};
use crate::state::Found;
use crate::status::{Problem, problems_of};
use crate::threads;
use crate::told::Telling;

/// Most bytes that are read of one file. The journal's own files end at 256 KiB.
pub const FILE_MAX_BYTES: u64 = 32 << 20;
const SNIFF_BYTES: u64 = 4096;
/// So many files are read into one text, so that there are few large pieces of memory and not many small ones.
const FILES_AT_ONCE: usize = 32;
/// A file longer than this has a text of its own.
const LONG_BYTES: u64 = 1 << 20;

/// A file's reading.
pub(crate) enum Reading {
    /// It is as it was when it was read last, or is no plain file now.
    Same,
    /// What it is cannot be told.
    Unseen(std::io::Error),
    /// It is none of the journal's.
    NotOurs,
    /// What it holds.
    Read(Box<Read>),
}

/// A file that was read.
pub(crate) struct Read {
    pub(crate) seen: FileSeen,
    pub(crate) found: Found,
    pub(crate) times: Times,
    /// Its text and where it stands in that, if it was read with others.
    pub(crate) text: Option<(Arc<String>, Range<usize>)>,
}

impl Times {
    pub(crate) fn of(entries: &[Arc<Entry>]) -> Self {
        let mut times = Self::default();
        // The latest stand last, most often.
        for entry in entries.iter().rev() {
            let at = entry.at();
            match times.by.iter_mut().find(|(device, _)| device == entry.by()) {
                Some((_, last)) if *last >= *at => {}
                Some((_, last)) => *last = at.clone(),
                None => times.by.push((entry.by().clone(), at.clone())),
            }
            if times.latest.as_ref().is_none_or(|latest| at > latest) && at.time().is_some() {
                times.latest = Some(at.clone());
            }
        }
        times
    }
}

/// What looking at a file brought.
enum Loaded {
    Done(Reading),
    /// Its bytes lie in the text, and have this mark, if one was needed.
    Bytes(Stat, Option<Mark>, Range<usize>),
}

/// Reads the files that changed, many of them on several threads; the answer is in the order of the question. With
/// what is known to be `sound` those files stay unread and the entries of the others keep the texts of their files, which is
/// right where nearly all of them will stay. It is told how far the reading is; where that stopped it, not all files are
/// answered for.
pub(crate) fn read_files(
    disk: &dyn Disk,
    index: &Index,
    files: Vec<PathBuf>,
    sound: Option<&Sound>,
    telling: &Telling,
) -> Vec<(PathBuf, Reading)> {
    let readings = if let Some(sound) = sound {
        let parts: Vec<&[PathBuf]> = files.chunks(FILES_AT_ONCE).collect();
        let read =
            |part: &&[PathBuf]| telling.reading(part.len(), files.len(), || read_together(disk, index, sound, part));
        threads::each(&parts, 2, 1, read).into_iter().flatten().collect()
    } else {
        let read_one = |file: &PathBuf| match changed(disk, index, file) {
            Ok(stat) => read_file(disk, file, stat),
            Err(reading) => reading,
        };
        threads::each(&files, FILES_AT_ONCE, FILES_AT_ONCE / 2, read_one)
    };
    files.into_iter().zip(readings).collect()
}

/// Whether there is a plain file that is not as it was when it was read last.
fn changed(disk: &dyn Disk, index: &Index, file: &Path) -> Result<Stat, Reading> {
    let stat = disk.stat(file).map_err(unseen)?;
    let same = stat.kind != NodeKind::File || index.files.get(file).is_some_and(|seen| seen.stat == stat);
    if same { Err(Reading::Same) } else { Ok(stat) }
}

fn unseen(error: Error) -> Reading {
    if error.kind() == ErrorKind::NotFound { Reading::Same } else { Reading::Unseen(error) }
}

/// Reads some files, and what they hold: those that are not known to be sound into one text.
fn read_together(disk: &dyn Disk, index: &Index, sound: &Sound, files: &[PathBuf]) -> Vec<Reading> {
    let usual = if sound.secret().is_none() { files.len() * (LONG_BYTES as usize / 64) } else { 0 };
    let mut texts = Texts { one: Vec::new(), all: Vec::with_capacity(usual) };
    let loaded: Vec<Loaded> = files.iter().map(|file| load(disk, index, sound, file, &mut texts)).collect();
    texts.all.shrink_to_fit();
    let text = match String::from_utf8(texts.all) {
        Ok(text) => Ok(Arc::new(text)),
        Err(error) => Err(error.into_bytes()),
    };
    let read = |(file, loaded): (&PathBuf, Loaded)| match (loaded, &text) {
        (Loaded::Done(reading), _) => reading,
        (Loaded::Bytes(stat, mark, range), Ok(text)) => {
            let part = text.as_bytes().get(range.clone()).unwrap_or_default();
            let mut reading = reading(file, stat, part, Parsed::read_text(text, range.clone()));
            if let Reading::Read(read) = &mut reading {
                read.seen.mark = mark;
                read.text = Some((Arc::clone(text), range));
            }
            reading
        }
        // One of them is no text: then each line is looked at by itself.
        (Loaded::Bytes(stat, _, range), Err(bytes)) => {
            let part = bytes.get(range).unwrap_or_default();
            reading(file, stat, part, Parsed::read(part))
        }
    };
    files.iter().zip(loaded).map(read).collect()
}

/// What files are read into.
struct Texts {
    /// One file after the other.
    one: Vec<u8>,
    /// All that are to be kept.
    all: Vec<u8>,
}

/// Reads a file, if it is to be read with others, and puts its bytes behind theirs, unless they are known to be sound.
fn load(disk: &dyn Disk, index: &Index, sound: &Sound, file: &Path, texts: &mut Texts) -> Loaded {
    if index.files.contains_key(file) || !named_so(file) {
        return Loaded::Done(
            changed(disk, index, file).map_or_else(|reading| reading, |stat| read_file(disk, file, stat)),
        );
    }
    texts.one.clear();
    let stat = match disk.read_unless_long(file, LONG_BYTES, &mut texts.one) {
        Ok(stat) if stat.kind != NodeKind::File => return Loaded::Done(Reading::Same),
        Ok(stat) if stat.bytes > LONG_BYTES => return Loaded::Done(read_file(disk, file, stat)),
        Ok(stat) => stat,
        Err(error) => {
            // What cannot be read may still be looked at.
            let stat = if error.kind() == ErrorKind::NotFound { Err(error) } else { disk.stat(file) };
            return Loaded::Done(stat.map_or_else(unseen, |stat| read_file(disk, file, stat)));
        }
    };
    let mark = sound.secret().map(|secret| secret.mark(&texts.one));
    if let Some(mark) = mark
        && let Some((sheet, known)) = sound.sheet(file, &texts.one, mark)
    {
        let found = Found::unread(sheet);
        let seen = known.seen(stat, mark, Arc::clone(&found.keys));
        return Loaded::Done(Reading::Read(Box::new(Read { seen, found, times: known.times(), text: None })));
    }
    // No letter is made of the end of one file and the beginning of the next.
    texts.all.push(b'\n');
    let from = texts.all.len();
    texts.all.extend_from_slice(&texts.one);
    Loaded::Bytes(stat, mark, from..texts.all.len())
}

fn named_so(path: &Path) -> bool {
    let path = path.as_os_str().as_encoded_bytes();
    let name = path.rsplit(|byte| std::path::is_separator(char::from(*byte))).next().unwrap_or_default();
    memchr::memchr_iter(b'.', name).any(|dot| name.get(dot..dot + 5).is_some_and(|e| e.eq_ignore_ascii_case(b".json")))
}

/// Reads one file that was just looked at.
pub(crate) fn read_file(disk: &dyn Disk, path: &Path, stat: Stat) -> Reading {
    if !named_so(path) {
        match disk.read_found(path, &stat, SNIFF_BYTES) {
            Ok(start) if looks_ours(&start) => {}
            _ => return Reading::NotOurs,
        }
    }
    match disk.read_found(path, &stat, FILE_MAX_BYTES) {
        Ok(bytes) => reading(path, stat, &bytes, Parsed::read(&bytes)),
        Err(error) if error.kind() == ErrorKind::NotFound => Reading::NotOurs,
        Err(error) => blank(stat, unreadable(path, &error)),
    }
}

/// A file of which nothing is used.
fn blank(stat: Stat, problem: Problem) -> Reading {
    let seen = FileSeen {
        stat,
        digest: None,
        mark: None,
        head: None,
        as_written: false,
        untouchable: true,
        keys: Arc::default(),
        places: BTreeSet::new(),
        problems: vec![problem],
    };
    let (found, times) = (Found::of(Arc::default(), Vec::new()), Times::default());
    Reading::Read(Box::new(Read { seen, found, times, text: None }))
}

/// What a file's bytes amount to.
fn reading(path: &Path, stat: Stat, bytes: &[u8], segment: Parsed<Arc<Entry>>) -> Reading {
    let Some((mut seen, entries)) = seen_in(path, stat, bytes, segment) else {
        if Marker::read(bytes).is_some() || !named_so(path) {
            return Reading::NotOurs;
        }
        let problem = Problem {
            file: path.to_owned(),
            line: None,
            what: "This is no file of the log, or it is damaged beyond recognition; it is left alone.".to_owned(),
            do_what: "If it is yours, keep it elsewhere; what it held is shown from this device.".to_owned(),
        };
        return blank(stat, problem);
    };
    if stat.bytes > FILE_MAX_BYTES {
        seen.untouchable = true;
        seen.problems = vec![Problem {
            file: path.to_owned(),
            line: None,
            what: format!(
                "The file is {} MB long; only its first {} MB are read.",
                stat.bytes >> 20,
                FILE_MAX_BYTES >> 20
            ),
            do_what: "Fellmark writes no such file; take it out of the folder.".to_owned(),
        }];
    }
    let times = Times::of(&entries);
    let found = Found::of(Arc::clone(&seen.keys), entries);
    Reading::Read(Box::new(Read { seen, found, times, text: None }))
}

/// What a file's bytes hold. `None` when it is none of the journal's.
pub(crate) fn seen_of(path: &Path, stat: Stat, bytes: &[u8]) -> Option<(FileSeen, Vec<Arc<Entry>>)> {
    seen_in(path, stat, bytes, Parsed::read(bytes))
}

fn seen_in(path: &Path, stat: Stat, bytes: &[u8], segment: Parsed<Arc<Entry>>) -> Option<(FileSeen, Vec<Arc<Entry>>)> {
    let ours = segment.is_ours(bytes) || bytes.is_empty() || bytes.iter().all(|b| *b == 0);
    if !ours || (segment.entries.is_empty() && Marker::read(bytes).is_some()) {
        return None;
    }
    let untouchable = segment.head.as_ref().is_some_and(|head| head.schema > SCHEMA)
        || segment.refused_more > 0
        || segment
            .refused
            .iter()
            .any(|(_, wrong)| matches!(wrong, Wrong::Entry(Refusal::Meaning | Refusal::Long) | Wrong::Marker));
    let mut places = BTreeSet::new();
    let mut last = None;
    for entry in &segment.entries {
        // Nearly always all of them are of one place.
        if last != Some(entry.place()) {
            last = Some(entry.place());
            places.insert(entry.place().clone());
        }
    }
    let seen = FileSeen {
        stat,
        digest: None,
        mark: None,
        as_written: segment.as_written,
        untouchable,
        keys: segment.entries.iter().map(|entry| entry.key()).collect(),
        places,
        problems: problems_of(path, bytes.len(), &segment),
        head: segment.head,
    };
    Some((seen, segment.entries))
}
