//! Tape and counts set side by side: what each says of the woven length, and where they differ.

use chrono::NaiveDate;
use fellmark_journal::RecordId;
use serde_json::Value;

use crate::progress::{Notice, NoticeKind, Progress};
use crate::reach::{warp_per_100, warp_per_100_now};
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::fields;
use fellmark_model::forms::{self, SittingForm};
use fellmark_model::moments::Reading;
use fellmark_model::{Sitting, Tape, WarpLog};

/// What the tape says against the picks.
#[derive(Clone, Debug)]
pub struct TapeAndCounts {
    /// Woven under tension by the tape, millimetres.
    pub by_tape_mm: f64,
    /// The same by the picks; nothing where there are none to set beside it.
    pub by_counts_mm: Option<f64>,
    /// What is noticed about this reading.
    pub notices: Vec<Notice>,
    /// The distance between two marks that the difference comes near to, millimetres: the tape may have started at another mark.
    pub near_interval_mm: Option<f64>,
    /// Picks per millimetre used from now on, where they are measured.
    pub picks_per_mm: Option<f64>,
}

impl TapeAndCounts {
    /// Whether the two differ so much that a notice says so.
    #[must_use]
    pub fn is_noticed(&self) -> bool {
        self.notices.iter().any(|notice| {
            let differs = matches!(notice.kind, NoticeKind::Apart { .. } | NoticeKind::Shrunk { .. });
            differs || matches!(notice.kind, NoticeKind::LongerThanWarp { .. })
        })
    }
}

/// What a reading taken at the loom shows.
#[derive(Clone, Debug)]
pub struct ReadingReport {
    /// The tape against the picks, where a length was measured.
    pub tape: Option<TapeAndCounts>,
    /// Where a mark was set at the fell, millimetres from the start.
    pub mark_at_mm: Option<f64>,
    /// A warp mark that reached the fell.
    pub warp_mark: Option<WarpMarkReport>,
}

/// What a warp mark shows when it reaches the fell.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WarpMarkReport {
    /// Where it was tied along the warp, millimetres.
    pub along_mm: f64,
    /// Cloth woven by then under tension, millimetres.
    pub woven_mm: f64,
    /// Units of warp for 100 of cloth used from now on.
    pub warp_per_100: f64,
    /// The same as it was used before.
    pub warp_per_100_before: f64,
}

/// What a sitting's tape says against its picks; nothing when it was not measured. A sitting that is not in the log yet is
/// counted as if it were.
#[must_use]
pub fn compare_sitting(log: &WarpLog, sitting: &Sitting) -> Option<TapeAndCounts> {
    sitting.tape?;
    let with = log.with_sitting(sitting.clone());
    let without = log.with_sitting(Sitting { tape: None, ..sitting.clone() });
    let index = with.sittings.iter().position(|one| one.id == sitting.id)?;
    let (tape, counts) = (Progress::of(&with, 0), Progress::of(&without, 0));
    let end = |progress: &Progress| progress.stretches.get(index).map_or(0.0, |(_, to)| *to);
    let counted = sitting.picks.is_some() && counts.woven.is_some();
    Some(side_by_side(&tape, end(&tape), counted.then(|| end(&counts)), Some(index)))
}

/// The same for a sitting's form before it is saved; nothing while it cannot be read. `id` is the sitting's own, if it has one.
#[must_use]
pub fn compare_form(
    log: &WarpLog,
    form: &SittingForm,
    id: Option<&RecordId>,
    format: &DisplayFormat,
    today: NaiveDate,
) -> Option<TapeAndCounts> {
    let mut read = forms::read_sitting_form(form, format, today).ok()?;
    let held = id.and_then(|id| log.sittings.iter().find(|sitting| sitting.id == *id));
    if held.is_none() {
        forms::start_at_last_mark(form, &mut read, log);
    }
    let number = |field: &str| read.get(field).and_then(Value::as_f64);
    let word = |field: &str, word: &str| read.get(field).and_then(Value::as_str) == Some(word);
    let flag = |field: &str| read.get(field).and_then(Value::as_bool).unwrap_or(false);
    let day = read.get(fields::sitting::ON).and_then(Value::as_str).and_then(|day| day.parse().ok());
    let tape = number(fields::sitting::MEASURED_MM).map(|mm| Tape {
        mm,
        from_mark: word(fields::sitting::MEASURED_FROM, "mark"),
        relaxed: word(fields::sitting::MEASURED_TENSION, "relaxed"),
        rough: flag(fields::sitting::ROUGH),
    });
    let sitting = Sitting {
        id: id.cloned().unwrap_or_else(RecordId::new),
        seen: Vec::new(),
        on: day.unwrap_or(today),
        started: read.get(fields::sitting::STARTED).and_then(Value::as_str).map(str::to_owned),
        first_at: held.map_or_else(|| "\u{7f}".into(), |held| held.first_at.clone()),
        by: String::new(),
        minutes: number(fields::sitting::MINUTES),
        picks: read.get(fields::sitting::PICKS).and_then(Value::as_i64),
        tape,
        mark_set: flag(fields::sitting::MARK_SET),
        weft_left_g: None,
        pick_begun: false,
        note: None,
        rough: flag(fields::sitting::ROUGH),
        contested: false,
    };
    compare_sitting(log, &sitting)
}

/// What a reading taken now shows; the log does not hold it yet.
#[must_use]
pub fn reading_report(log: &WarpLog, reading: &Reading, running_picks: i64) -> ReadingReport {
    let before = Progress::of(log, running_picks);
    let mut with = log.clone();
    with.moments.readings.push(reading.clone());
    let after = Progress::of(&with, running_picks);
    let tape = reading.tape.map(|_| {
        let counts = before.woven.map(|_| before.woven_mm());
        side_by_side(&after, after.woven_mm(), counts, None)
    });
    ReadingReport {
        tape,
        mark_at_mm: reading.mark_set.then(|| after.marks_mm.last().copied().unwrap_or(0.0)),
        warp_mark: reading.warp_mark_mm.map(|along_mm| WarpMarkReport {
            along_mm,
            woven_mm: after.woven_mm(),
            warp_per_100: warp_per_100_now(&log.warp, &after),
            warp_per_100_before: warp_per_100(&log.warp),
        }),
    }
}

fn side_by_side(
    progress: &Progress,
    by_tape_mm: f64,
    by_counts_mm: Option<f64>,
    sitting: Option<usize>,
) -> TapeAndCounts {
    let mut noticed = progress.noticed.iter().filter(|notice| {
        let about_it = sitting.is_none() || notice.sitting == sitting;
        about_it
            && matches!(
                notice.kind,
                NoticeKind::Apart { .. }
                    | NoticeKind::Shrunk { .. }
                    | NoticeKind::LongerThanWarp { .. }
                    | NoticeKind::NoMark
            )
    });
    let notices = match sitting {
        Some(_) => noticed.cloned().collect(),
        None => noticed.next_back().into_iter().cloned().collect(),
    };
    TapeAndCounts {
        by_tape_mm,
        by_counts_mm,
        notices,
        near_interval_mm: by_counts_mm
            .and_then(|counts| near_an_interval(&progress.marks_mm, (counts - by_tape_mm).abs())),
        picks_per_mm: progress.picks_per_mm.filter(|_| progress.rate_measured),
    }
}

/// The distance between two marks that a difference comes near to.
fn near_an_interval(marks_mm: &[f64], off_mm: f64) -> Option<f64> {
    let from = std::iter::once(&0.0).chain(marks_mm);
    let apart = from.zip(marks_mm).map(|(one, next)| next - one).filter(|apart| *apart > 50.0);
    apart.into_iter().find(|apart| (off_mm - apart).abs() < (apart * 0.1).max(10.0))
}
