//! The text of one file of entries: written in one fixed layout, read in whatever state it arrives.

use std::sync::Arc;

use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;

use super::canonicalize;
use super::entry::{Entry, LINE_MAX_BYTES, Refusal};
use super::ids::DeviceId;

/// The word that every file of the journal carries.
pub const FORMAT: &str = "fellmark";
/// The version of the format this program writes.
pub const SCHEMA: u32 = 1;
/// A file of entries is followed by a new one when it would pass this size.
pub const SEGMENT_MAX_BYTES: usize = 256 << 10;

/// What stands behind them.
pub(crate) const TAIL: &[u8] = b"\n]}\n";
/// How many refused lines of one file are listed one by one.
const REFUSED_LISTED_MAX: usize = 8;

/// What stands before the entries of a file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Head {
    /// Always `fellmark`.
    pub format: String,
    /// The version of the format.
    pub schema: u32,
    /// The one device that writes this file.
    pub device: DeviceId,
    /// The file's number among those of this device in this directory, from 1.
    pub segment: u32,
}

/// What was found in a file.
#[derive(Debug, Default)]
pub struct Segment {
    /// Its head, where it could be read.
    pub head: Option<Head>,
    /// Every entry whose key holds, in the file's order.
    pub entries: Vec<Entry>,
    /// What could not be used: line, counted from 1, and why.
    pub refused: Vec<(usize, LineProblem)>,
    /// How many more were refused than are listed.
    pub refused_more: usize,
    /// The file is, byte for byte, as the program would write it.
    pub as_written: bool,
}

/// Why a line of a file was not used.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LineProblem {
    /// It is no entry, for this reason.
    Entry(Refusal),
    /// A version-control tool left its conflict marker there.
    Marker,
    /// The file ends in NUL bytes from here.
    Nul,
    /// The file ends in the middle of a line.
    Torn,
    /// It is nothing the journal writes.
    Foreign,
}

/// The first line of a file.
fn opening(device: &DeviceId, segment: u32) -> String {
    format!(r#"{{"format":"{FORMAT}","schema":{SCHEMA},"device":"{device}","segment":{segment},"entries":["#)
}

/// The bytes of a file with these entries.
#[must_use]
pub fn render<'a>(device: &DeviceId, segment: u32, lines: impl IntoIterator<Item = &'a str>) -> Vec<u8> {
    let mut out = opening(device, segment).into_bytes();
    let mut first = true;
    for line in lines {
        out.extend_from_slice(if first { b"\n" } else { b",\n" });
        out.extend_from_slice(line.as_bytes());
        first = false;
    }
    out.extend_from_slice(TAIL);
    out
}

/// The same file with more entries at its end; only for bytes that are as the program writes them.
#[must_use]
pub(crate) fn extend<'a>(written: &[u8], empty: bool, lines: impl IntoIterator<Item = &'a str>) -> Option<Vec<u8>> {
    let mut out = written.strip_suffix(TAIL)?.to_vec();
    let mut first = empty;
    for line in lines {
        out.extend_from_slice(if first { b"\n" } else { b",\n" });
        out.extend_from_slice(line.as_bytes());
        first = false;
    }
    out.extend_from_slice(TAIL);
    Some(out)
}

/// Whether bytes look like a file of the journal, sound or damaged: what is not is left alone without a word.
pub(crate) fn looks_ours(bytes: &[u8]) -> bool {
    let start = bytes.get(..4096).unwrap_or(bytes);
    find(start, b"\"format\"").is_some() || find(start, b"{\"key\":\"").is_some()
}

fn find(haystack: &[u8], needle: &[u8]) -> Option<usize> {
    haystack.windows(needle.len()).position(|window| window == needle)
}

impl Segment {
    /// Reads a file's bytes. Never fails: what is sound is used, the rest is reported.
    #[must_use]
    pub fn read(bytes: &[u8]) -> Self {
        let mut segment = Self::default();
        let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
        let mut exact = true;
        let mut closed = false;
        let mut other: Vec<(usize, LineProblem)> = Vec::new();
        let mut last_line = 0;
        // Held once for all entries; where it is no text, each line is looked at by itself.
        let text: Option<Arc<str>> = std::str::from_utf8(bytes).ok().map(Arc::from);
        segment.entries.reserve(lines(bytes).count());
        for (i, raw) in lines(bytes).enumerate() {
            let number = i + 1;
            let line = raw.trim_ascii();
            if line.is_empty() {
                exact &= raw.is_empty() && closed;
                continue;
            }
            last_line = number;
            exact &= !closed && line.len() == raw.len();
            let bare = line.strip_suffix(b",").unwrap_or(line);
            if bare.starts_with(b"{\"key\":\"") {
                let entry = match &text {
                    Some(text) => Entry::from_part(text, offset(bytes, bare)..offset(bytes, bare) + bare.len()),
                    None => Entry::from_line(bare),
                };
                match entry {
                    Ok(entry) => segment.entries.push(entry),
                    Err(_) if bare.contains(&0) => other.push((number, LineProblem::Nul)),
                    Err(why) => other.push((number, LineProblem::Entry(why))),
                }
            } else if line == b"]}" {
                closed = true;
            } else if segment.head.is_none() && line.starts_with(b"{") && line.ends_with(b"[") {
                segment.head = head_of_line(line);
                exact &= number == 1
                    && segment.head.as_ref().is_some_and(|head| line == opening(&head.device, head.segment).as_bytes());
                if segment.head.is_none() {
                    other.push((number, LineProblem::Foreign));
                }
            } else {
                other.push((number, wrong_line(line)));
            }
        }
        // What had to be put together again is not as it was written, though nothing of it is wrong.
        exact &= other.is_empty();
        let whole = (segment.head.is_none() || !other.is_empty()) && segment.salvage(bytes, &mut other);
        // The end of a file that was cut is reported once, as what it is.
        if let Some(last) = other.last_mut()
            && !whole
            && last.0 == last_line
            && !closed
            && !bytes.ends_with(b"\n")
            && matches!(last.1, LineProblem::Entry(Refusal::Key | Refusal::Shape) | LineProblem::Foreign)
        {
            last.1 = LineProblem::Torn;
        } else if !whole && other.is_empty() && !closed && !bytes.is_empty() && segment.looks_unclosed(bytes) {
            other.push((last_line, LineProblem::Torn));
        }
        segment.as_written = exact && closed && other.is_empty() && segment.head.is_some() && bytes.ends_with(TAIL);
        segment.refused_more = other.len().saturating_sub(REFUSED_LISTED_MAX);
        other.truncate(REFUSED_LISTED_MAX);
        segment.refused = other;
        segment
    }

    /// Whether the file is one of the journal's at all, whatever its state.
    pub(crate) fn is_ours(&self, bytes: &[u8]) -> bool {
        self.head.is_some() || !self.entries.is_empty() || looks_ours(bytes)
    }

    fn looks_unclosed(&self, bytes: &[u8]) -> bool {
        self.head.is_some() && !bytes.trim_ascii_end().ends_with(b"}")
            || self.head.is_some() && bytes.trim_ascii_end().ends_with(b"}") && !bytes.trim_ascii_end().ends_with(b"]}")
    }

    /// Reads what does not lie one entry to a line: laid out anew, or standing among damage. `true` when the file
    /// is sound JSON as a whole.
    fn salvage(&mut self, bytes: &[u8], other: &mut Vec<(usize, LineProblem)>) -> bool {
        #[derive(Deserialize)]
        struct Whole<'a> {
            format: String,
            schema: u32,
            device: Option<DeviceId>,
            segment: Option<u32>,
            #[serde(borrow)]
            entries: Vec<&'a RawValue>,
        }
        let have: std::collections::HashSet<_> = self.entries.iter().map(Entry::key).collect();
        if let Ok(whole) = serde_json::from_slice::<Whole<'_>>(bytes)
            && whole.format == FORMAT
        {
            // The whole file is sound JSON, only laid out otherwise: every entry is looked at by itself.
            if let (Some(device), Some(segment)) = (whole.device, whole.segment) {
                self.head = Some(Head { format: whole.format, schema: whole.schema, device, segment });
            }
            other.clear();
            for raw in whole.entries {
                match canonicalize::entry(raw.get()) {
                    Ok(entry) if have.contains(&entry.key()) => {}
                    Ok(entry) => self.entries.push(entry),
                    Err(why) => {
                        let before = bytes.get(..offset(bytes, raw.get().as_bytes())).unwrap_or_default();
                        let line = before.iter().filter(|b| **b == b'\n').count() + 1;
                        other.push((line, LineProblem::Entry(why)));
                    }
                }
            }
            return true;
        }
        let mut found = 0usize;
        for object in canonicalize::objects(bytes, LINE_MAX_BYTES) {
            if let Ok(entry) = canonicalize::entry(object)
                && !have.contains(&entry.key())
            {
                self.entries.push(entry);
                found += 1;
            }
        }
        if found > 0 && self.head.is_none() {
            // The lines reported as strange were parts of entries that have now been read.
            other.retain(|(_, wrong)| !matches!(wrong, LineProblem::Foreign));
        }
        false
    }
}

/// What stands between line ends.
pub(crate) fn lines(bytes: &[u8]) -> impl Iterator<Item = &[u8]> {
    let ends = memchr::memchr_iter(b'\n', bytes).chain([bytes.len()]);
    ends.scan(0, |begin, end| bytes.get(std::mem::replace(begin, end + 1)..end))
}

/// Where a part of some bytes begins.
fn offset(bytes: &[u8], part: &[u8]) -> usize {
    (part.as_ptr() as usize).saturating_sub(bytes.as_ptr() as usize)
}

fn head_of_line(line: &[u8]) -> Option<Head> {
    let mut whole = line.to_vec();
    whole.extend_from_slice(b"]}");
    serde_json::from_slice::<Head>(&whole).ok().filter(|head| head.format == FORMAT)
}

fn wrong_line(line: &[u8]) -> LineProblem {
    if line.starts_with(b"<<<<<<<")
        || line.starts_with(b"=======")
        || line.starts_with(b">>>>>>>")
        || line.starts_with(b"|||||||")
    {
        LineProblem::Marker
    } else if line.contains(&0) {
        LineProblem::Nul
    } else {
        LineProblem::Foreign
    }
}
