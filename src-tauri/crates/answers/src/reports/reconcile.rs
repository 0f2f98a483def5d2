//! Tape and counts set side by side on the spot: which one won, and why.

use chrono::NaiveDate;
use fellmark_journal::RecordId;
use serde_json::Value;

use crate::model::display_format::DisplayFormat;
use crate::model::fields;
use crate::model::measures::show_length;
use crate::model::moments::Reading;
use crate::model::{Sitting, Tape, WarpLog};
use crate::present::view::SittingForm;
use crate::reports::progress::{Progress, What};
use crate::reports::reach::warp_per_100;
use crate::reports::where_am_i::density_words;

/// Apart by less than this the two agree, millimetres: what a tape can be read to.
const AGREE_MM: f64 = 5.0;

/// What a sitting's tape says against its picks; nothing when it was not measured. A sitting that is not in the log yet is
/// reckoned as if it were.
#[must_use]
pub fn of_sitting(log: &WarpLog, sitting: &Sitting, format: &DisplayFormat) -> Vec<String> {
    if sitting.tape.is_none() {
        return Vec::new();
    }
    let with = log.with_sitting(sitting.clone());
    let without = log.with_sitting(Sitting { tape: None, ..sitting.clone() });
    let Some(index) = with.sittings.iter().position(|one| one.id == sitting.id) else { return Vec::new() };
    let (tape, counts) = (Progress::of(&with, 0), Progress::of(&without, 0));
    let end = |progress: &Progress| progress.stretches.get(index).map_or(0.0, |(_, to)| *to);
    let counted = sitting.picks.is_some() && counts.woven.is_some();
    side_by_side((&tape, end(&tape)), counted.then(|| end(&counts)), Some(index), format)
}

/// What a sitting's form says before it is kept; nothing while it is not yet whole. `id` is the sitting's own, if it has one.
#[must_use]
pub fn of_form(
    log: &WarpLog,
    form: &SittingForm,
    id: Option<&RecordId>,
    format: &DisplayFormat,
    today: NaiveDate,
) -> Vec<String> {
    let Ok(read) = crate::model::forms::read_sitting_form(form, format, today) else { return Vec::new() };
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
    let held = id.and_then(|id| log.sittings.iter().find(|sitting| sitting.id == *id));
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
    of_sitting(log, &sitting, format)
}

/// What a reading taken now says; the log does not hold it yet.
#[must_use]
pub fn of_reading(log: &WarpLog, reading: &Reading, running_picks: i64, format: &DisplayFormat) -> Vec<String> {
    let before = Progress::of(log, running_picks);
    let mut with = log.clone();
    with.moments.readings.push(reading.clone());
    let after = Progress::of(&with, running_picks);
    let length = |mm: f64| show_length(mm, format);
    let mut told = Vec::new();
    if reading.tape.is_some() {
        let counts = before.woven.map(|_| before.woven_mm());
        told.extend(side_by_side((&after, after.woven_mm()), counts, None, format));
    }
    if reading.mark_set {
        let at = after.marks_mm.last().copied().unwrap_or(0.0);
        told.push(format!(
            "The mark is at the fell now, {} from the start. Next time the tape starts there.",
            length(at)
        ));
    }
    if let Some(along) = reading.warp_mark_mm {
        let now = crate::reports::reach::warp_per_100_now(&log.warp, &after);
        told.push(format!(
            "The warp mark tied at {} is at the fell after {} of cloth: 100 of cloth use {} of warp. That is reckoned with \
             from now on, instead of {}.",
            length(along),
            length(after.woven_mm()),
            format.number(now, 1),
            format.number(warp_per_100(&log.warp), 1)
        ));
    }
    told
}

fn side_by_side(
    (progress, by_tape): (&Progress, f64),
    by_counts: Option<f64>,
    sitting: Option<usize>,
    format: &DisplayFormat,
) -> Vec<String> {
    let length = |mm: f64| show_length(mm, format);
    let mut told = Vec::new();
    let mut noticed = progress.noticed.iter().filter(|notice| {
        let about_it = sitting.is_none() || notice.sitting == sitting;
        about_it && matches!(notice.what, What::Apart { .. } | What::Shrunk { .. } | What::NoMark)
    });
    let noticed: Vec<_> = match sitting {
        Some(_) => noticed.collect(),
        None => noticed.next_back().into_iter().collect(),
    };
    let apart = noticed.iter().any(|notice| matches!(notice.what, What::Apart { .. } | What::Shrunk { .. }));
    told.extend(noticed.iter().map(|notice| notice.sentence(None, format)));
    if let Some(by_counts) = by_counts {
        let off = by_counts - by_tape;
        if let Some(between) = near_an_interval(&progress.marks_mm, off.abs()) {
            told.push(format!(
                "The difference is near the {} from one mark to the next: was the tape laid at another mark?",
                length(between)
            ));
        }
        if !apart {
            told.push(if off.abs() < AGREE_MM {
                format!("{} by the tape, and the picks agree.", length(by_tape))
            } else {
                format!(
                    "{} by the tape, {} by the picks. The tape is taken: picks tell a length only by the beat, and the beat \
                     wanders.",
                    length(by_tape),
                    length(by_counts)
                )
            });
        }
    } else if !apart {
        told.push(format!("{} by the tape; there are no picks to set beside it.", length(by_tape)));
    }
    if let Some(rate) = progress.picks_per_mm.filter(|_| progress.rate_measured) {
        told.push(format!("From now on {} are reckoned.", density_words(rate, format)));
    }
    told
}

/// The distance between two marks that a difference comes near to.
fn near_an_interval(marks_mm: &[f64], off_mm: f64) -> Option<f64> {
    let from = std::iter::once(&0.0).chain(marks_mm);
    let apart = from.zip(marks_mm).map(|(one, next)| next - one).filter(|apart| *apart > 50.0);
    apart.into_iter().find(|apart| (off_mm - apart).abs() < (apart * 0.1).max(10.0))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::moments::tests::moment;
    use crate::model::tests::{log, sitting};

    fn told(sittings: Vec<Sitting>, last: Sitting) -> String {
        let mut log = log();
        log.sittings = sittings;
        of_sitting(&log, &last, &DisplayFormat::default()).join(" ")
    }

    #[test]
    fn the_tape_wins_and_it_is_said_why() {
        let agree = told(Vec::new(), sitting(2, Some(100), Some(251.0)));
        assert!(agree.contains("the picks agree"), "{agree}");
        let wander = told(Vec::new(), sitting(2, Some(100), Some(270.0)));
        assert!(
            wander.contains("27\u{a0}cm by the tape, 25\u{a0}cm by the picks") && wander.contains("wanders"),
            "{wander}"
        );
        assert!(wander.contains("37 picks per 10\u{a0}cm are reckoned"), "{wander}");
        let apart = told(vec![sitting(2, Some(400), Some(1000.0))], sitting(3, Some(100), Some(1000.0)));
        assert!(apart.contains("The tape is used"), "{apart}");
        let alone = told(Vec::new(), sitting(2, None, Some(270.0)));
        assert!(alone.contains("no picks to set beside it"), "{alone}");
        assert_eq!(told(Vec::new(), sitting(2, Some(100), None)), "");
    }

    #[test]
    fn a_tape_laid_at_the_wrong_mark_is_guessed() {
        let marked = |day, picks, mm, from_mark| Sitting {
            mark_set: true,
            tape: Some(Tape { mm, from_mark, relaxed: false, rough: false }),
            ..sitting(day, Some(picks), None)
        };
        let before = vec![marked(2, 200, 500.0, false), marked(3, 200, 500.0, true)];
        // 40 more picks are 10 cm; from the mark before last the tape reads 60.
        let wrong = Sitting { mark_set: false, ..marked(4, 40, 600.0, true) };
        let said = told(before.clone(), wrong);
        assert!(said.contains("near the 50\u{a0}cm from one mark to the next"), "{said}");
        let right = Sitting { mark_set: false, ..marked(4, 40, 100.0, true) };
        assert!(told(before, right).contains("the picks agree"));
    }

    #[test]
    fn a_warp_mark_at_the_fell_is_reckoned_with() {
        let mut log = log();
        log.sittings = vec![sitting(2, Some(200), Some(500.0))];
        let id = log.sittings[0].id.clone();
        let reading =
            Reading { when: moment(Some(&id), None, 2), tape: None, mark_set: false, warp_mark_mm: Some(560.0) };
        let said = of_reading(&log, &reading, 0, &DisplayFormat::default()).join(" ");
        // 56 of warp for 50 of cloth are 112 for 100.
        assert!(said.contains("100 of cloth use 112 of warp") && said.contains("instead of 110"), "{said}");
        log.moments.readings.push(reading);
        let progress = Progress::of(&log, 0);
        let mut figures = crate::present::view::Figures::default();
        let _ = crate::reports::reach::warp_answer(&log, &progress, &DisplayFormat::default(), &mut figures);
        // 2500 − 450 − 560 are left: known up to the mark, whatever take-up was given.
        assert!((figures.warp_left_mm.unwrap() - 1490.0).abs() < 0.5, "{:?}", figures.warp_left_mm);
    }
}
