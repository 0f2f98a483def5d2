//! The summaries as they are carried over to the next start.
//!
//! A memo is worth nothing by itself: every summary in it is a pure function of entries whose version stands beside it, so a
//! memo that is torn, old, or of another program is passed over, and everything is reckoned anew.

use std::borrow::Cow;
use std::sync::Arc;

use fellmark_journal::RecordId;
use serde::{Deserialize, Serialize};

use super::{One, ReportCache, Summary, together};

/// What a memo begins with.
const MAGIC: &[u8; 16] = b"fellmark memo 1\n";
/// The sources that the summaries are made by, as a number.
const SOURCES: &str = env!("FELLMARK_SOURCES");

/// One warp in a memo.
#[derive(Serialize, Deserialize)]
struct Line<'a> {
    warp: RecordId,
    version: u128,
    #[serde(borrow, with = "serde_bytes")]
    summary: Cow<'a, [u8]>,
}

/// A memo: what it begins with, the program it is of, a check of the rest, the rest.
fn split(memo: &[u8]) -> Option<&[u8]> {
    let rest = memo.strip_prefix(MAGIC)?.strip_prefix(SOURCES.as_bytes())?;
    let (check, rest) = rest.split_first_chunk::<4>()?;
    (crc32fast::hash(rest) == u32::from_le_bytes(*check)).then_some(rest)
}

impl ReportCache {
    /// What is reckoned, as bytes for the next start; nothing where they cannot be made.
    #[must_use]
    pub fn memo(&self) -> Option<Vec<u8>> {
        let line = |(id, one): (&RecordId, &One)| {
            let summary = postcard::to_allocvec(one.summary.as_deref()?).ok()?.into();
            Some(Line { warp: id.clone(), version: one.version, summary })
        };
        let lines: Vec<Line<'_>> = self.warps.iter().filter_map(line).collect();
        let rest = postcard::to_allocvec(&lines).ok()?;
        let check = crc32fast::hash(&rest).to_le_bytes();
        Some([MAGIC.as_slice(), SOURCES.as_bytes(), &check, &rest].concat())
    }

    /// Begins with what a memo holds; with nothing where it is none of this program's.
    #[must_use]
    pub fn from_memo(memo: &[u8]) -> Self {
        let lines = split(memo).and_then(|rest| postcard::from_bytes::<Vec<Line<'_>>>(rest).ok());
        let read = |Line { warp, version, summary }: Line<'_>| {
            let summary = Some(Arc::new(postcard::from_bytes::<Summary>(&summary).ok()?));
            Some((warp, One { version, summary, whole: None, projected: None }))
        };
        let warps = together(lines.unwrap_or_default(), read).into_iter().flatten().collect();
        Self { warps, ..Self::default() }
    }
}
