//! Tape and counts set side by side on the spot: which one is used, and why.

use chrono::NaiveDate;
use fellmark_journal::RecordId;

use crate::messages::declared::progress as messages;
use crate::messages::{text, texts};
use crate::progress::{density_words, notice_message};
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::forms::SittingForm;
use fellmark_model::moments::Reading;
use fellmark_model::{Sitting, WarpLog};
use fellmark_reports::tape_and_counts::{TapeAndCounts, compare_form, compare_sitting, reading_report};

/// Apart by less than this the two agree, millimetres: what a tape can be read to.
const AGREE_MM: f64 = 5.0;

/// What a sitting's tape says against its picks; empty when it was not measured.
#[must_use]
pub fn sitting_words(log: &WarpLog, sitting: &Sitting, format: &DisplayFormat) -> Vec<String> {
    compare_sitting(log, sitting).map(|compared| words(&compared, format)).unwrap_or_default()
}

/// The same for a sitting's form before it is saved.
#[must_use]
pub fn form_words(
    log: &WarpLog,
    form: &SittingForm,
    id: Option<&RecordId>,
    format: &DisplayFormat,
    today: NaiveDate,
) -> Vec<String> {
    compare_form(log, form, id, format, today).map(|compared| words(&compared, format)).unwrap_or_default()
}

/// What a reading taken now shows; the log does not hold it yet.
#[must_use]
pub fn reading_words(log: &WarpLog, reading: &Reading, running_picks: i64, format: &DisplayFormat) -> Vec<String> {
    let report = reading_report(log, reading, running_picks);
    let mut sentences: Vec<String> = report.tape.iter().flat_map(|compared| words(compared, format)).collect();
    let mark = report.mark_at_mm.map(messages::tape_mark_at);
    let warp_mark = report.warp_mark.map(|mark| {
        messages::tape_warp_mark(mark.along_mm, mark.woven_mm, mark.warp_per_100, mark.warp_per_100_before)
    });
    sentences.extend(mark.into_iter().chain(warp_mark).map(|message| text(&message, format)));
    sentences
}

fn words(compared: &TapeAndCounts, format: &DisplayFormat) -> Vec<String> {
    let by_tape = compared.by_tape_mm;
    let mut said: Vec<_> = compared.notices.iter().map(|notice| notice_message(notice, format)).collect();
    said.extend(compared.near_interval_mm.map(messages::tape_near_interval));
    if !compared.is_noticed() {
        said.push(match compared.by_counts_mm {
            None => messages::tape_alone(by_tape),
            Some(counts) if (counts - by_tape).abs() < AGREE_MM => messages::tape_agrees(by_tape),
            Some(counts) => messages::tape_used(by_tape, counts),
        });
    }
    said.extend(compared.picks_per_mm.map(|rate| messages::tape_rate(density_words(rate, format))));
    texts(&said, format)
}

#[cfg(test)]
mod tests {
    use super::*;
    use fellmark_model::Tape;
    use fellmark_model::moments::tests::moment;
    use fellmark_model::tests::{log, sitting};
    use fellmark_reports::progress::Progress;

    fn reported(sittings: Vec<Sitting>, last: Sitting) -> String {
        let mut log = log();
        log.sittings = sittings;
        sitting_words(&log, &last, &DisplayFormat::default()).join(" ")
    }

    #[test]
    fn the_tape_wins_and_it_is_said_why() {
        let agree = reported(Vec::new(), sitting(2, Some(100), Some(251.0)));
        assert!(agree.contains("the picks agree"), "{agree}");
        let wander = reported(Vec::new(), sitting(2, Some(100), Some(270.0)));
        assert!(
            wander.contains("27\u{a0}cm by the tape, 25\u{a0}cm by the picks") && wander.contains("varies"),
            "{wander}"
        );
        assert!(wander.contains("Using 37 picks per 10\u{a0}cm"), "{wander}");
        let apart = reported(vec![sitting(2, Some(400), Some(1000.0))], sitting(3, Some(100), Some(1000.0)));
        assert!(apart.contains("The tape is used"), "{apart}");
        let alone = reported(Vec::new(), sitting(2, None, Some(270.0)));
        assert!(alone.contains("no picks to compare"), "{alone}");
        assert_eq!(reported(Vec::new(), sitting(2, Some(100), None)), "");
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
        let said = reported(before.clone(), wrong);
        assert!(said.contains("near the 50\u{a0}cm from one mark to the next"), "{said}");
        let right = Sitting { mark_set: false, ..marked(4, 40, 100.0, true) };
        assert!(reported(before, right).contains("the picks agree"));
    }

    #[test]
    fn a_warp_mark_at_the_fell_is_counted_in() {
        let mut log = log();
        log.sittings = vec![sitting(2, Some(200), Some(500.0))];
        let id = log.sittings[0].id.clone();
        let reading =
            Reading { when: moment(Some(&id), None, 2), tape: None, mark_set: false, warp_mark_mm: Some(560.0) };
        let said = reading_words(&log, &reading, 0, &DisplayFormat::default()).join(" ");
        // 56 of warp for 50 of cloth are 112 for 100.
        assert!(said.contains("100 of cloth take 112 of warp") && said.contains("instead of 110"), "{said}");
        log.moments.readings.push(reading);
        let progress = Progress::of(&log, 0);
        let mut figures = crate::view::Figures::default();
        let _ = crate::reach::warp_answer(&log, &progress, &DisplayFormat::default(), &mut figures);
        // 2500 − 450 − 560 are left: known up to the mark, whatever take-up was given.
        assert!((figures.warp_left_mm.unwrap() - 1490.0).abs() < 0.5, "{:?}", figures.warp_left_mm);
    }
}
