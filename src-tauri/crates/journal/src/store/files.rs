//! Reading files that may hold entries: whatever lies there, what is sound in it is used and the rest is reported.

use std::collections::BTreeSet;
use std::io::{Error, ErrorKind};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use rayon::prelude::*;

use super::disk::{Disk, NodeKind, Stat};
use super::index::{FileSeen, Index, unreadable};
use super::marker::Marker;
use super::progress::ProgressReporter;
use super::status::{Problem, ProblemKind, problems_of};
use crate::format::entry::{Entry, Refusal};
use crate::format::segment::{LineProblem, SCHEMA, Segment, looks_ours};

/// Most bytes that are read of one file. The journal's own files end at 256 KiB.
pub const FILE_MAX_BYTES: u64 = 32 << 20;
/// Of a file whose name says nothing so many bytes are looked at.
const SNIFF_BYTES: u64 = 4096;
/// Progress is reported after so many files.
const FILES_PER_STEP: usize = 32;

/// A file's reading.
pub(crate) enum FileReading {
    /// It is as it was when it was read last, or is no plain file now.
    Unchanged,
    /// What it is cannot be found out.
    Unreadable(Error),
    /// It is none of the journal's.
    NotOurs,
    /// What it holds.
    Read(FileSeen, Vec<Arc<Entry>>),
}

/// Reads the files that changed, in parallel; the answer is in the order of the question. Where the reading was stopped, not
/// all files are answered for. The progress is reported as a part of so many files.
pub(crate) fn read_files(
    disk: &dyn Disk,
    index: &Index,
    files: Vec<PathBuf>,
    of: usize,
    progress: &ProgressReporter,
) -> Vec<(PathBuf, FileReading)> {
    let read =
        |part: &[PathBuf]| -> Vec<FileReading> { part.iter().map(|file| read_if_changed(disk, index, file)).collect() };
    let readings: Vec<Vec<FileReading>> =
        files.par_chunks(FILES_PER_STEP).map(|part| progress.step(part.len(), Some(of), || read(part))).collect();
    files.into_iter().zip(readings.into_iter().flatten()).collect()
}

fn read_if_changed(disk: &dyn Disk, index: &Index, file: &Path) -> FileReading {
    match disk.stat(file) {
        Ok(stat) if stat.kind != NodeKind::File => FileReading::Unchanged,
        Ok(stat) if index.files.get(file).is_some_and(|seen| seen.stat == stat) => FileReading::Unchanged,
        Ok(stat) => read_file(disk, file, stat),
        Err(error) if error.kind() == ErrorKind::NotFound => FileReading::Unchanged,
        Err(error) => FileReading::Unreadable(error),
    }
}

fn is_named_so(path: &Path) -> bool {
    path.file_name().is_some_and(|name| name.to_string_lossy().to_ascii_lowercase().contains(".json"))
}

/// Reads one file that was just looked at.
pub(crate) fn read_file(disk: &dyn Disk, path: &Path, stat: Stat) -> FileReading {
    if !is_named_so(path) {
        match disk.read(path, SNIFF_BYTES) {
            Ok(start) if looks_ours(&start) => {}
            _ => return FileReading::NotOurs,
        }
    }
    let bytes = match disk.read(path, FILE_MAX_BYTES) {
        Ok(bytes) => bytes,
        Err(error) if error.kind() == ErrorKind::NotFound => return FileReading::NotOurs,
        Err(error) => return unusable(stat, unreadable(path, &error)),
    };
    let Some((mut seen, entries)) = parse(path, stat, &bytes) else {
        if Marker::read(&bytes).is_some() || !is_named_so(path) {
            return FileReading::NotOurs;
        }
        let problem = Problem { file: path.to_owned(), line: None, kind: ProblemKind::NotOfTheLog };
        return unusable(stat, problem);
    };
    if stat.bytes > FILE_MAX_BYTES {
        seen.untouchable = true;
        seen.problems = vec![Problem {
            file: path.to_owned(),
            line: None,
            kind: ProblemKind::TooLong { bytes: stat.bytes, read_bytes: FILE_MAX_BYTES },
        }];
    }
    FileReading::Read(seen, entries)
}

/// A file of which nothing is used.
fn unusable(stat: Stat, problem: Problem) -> FileReading {
    let seen = FileSeen {
        stat,
        head: None,
        as_written: false,
        untouchable: true,
        keys: Vec::new(),
        places: BTreeSet::new(),
        problems: vec![problem],
    };
    FileReading::Read(seen, Vec::new())
}

/// What a file's bytes hold. `None` when it is none of the journal's.
pub(crate) fn parse(path: &Path, stat: Stat, bytes: &[u8]) -> Option<(FileSeen, Vec<Arc<Entry>>)> {
    let segment = Segment::read(bytes);
    let ours = segment.is_ours(bytes) || bytes.iter().all(|b| *b == 0);
    if !ours || (segment.entries.is_empty() && Marker::read(bytes).is_some()) {
        return None;
    }
    let must_be_kept =
        |line: &LineProblem| matches!(line, LineProblem::Entry(Refusal::Meaning | Refusal::Long) | LineProblem::Marker);
    let untouchable = segment.head.as_ref().is_some_and(|head| head.schema > SCHEMA)
        || segment.refused_more > 0
        || segment.refused.iter().any(|(_, line)| must_be_kept(line));
    let problems = problems_of(path, bytes.len(), &segment);
    let Segment { head, entries, as_written, .. } = segment;
    let seen = FileSeen {
        stat,
        head,
        as_written,
        untouchable,
        keys: entries.iter().map(Entry::key).collect(),
        places: entries.chunk_by(|a, b| a.place() == b.place()).map(|run| run[0].place().clone()).collect(),
        problems,
    };
    Some((seen, entries.into_iter().map(Arc::new).collect()))
}
