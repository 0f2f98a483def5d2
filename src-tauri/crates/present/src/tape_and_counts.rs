//! Tape and counts set side by side on the spot: which one is used, and why.

use chrono::NaiveDate;
use fellmark_journal::RecordId;

use crate::figures::show_length;
use crate::progress::{density_words, notice_sentence};
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
    let length = |mm: f64| show_length(mm, format);
    let report = reading_report(log, reading, running_picks);
    let mut sentences: Vec<String> = report.tape.iter().flat_map(|compared| words(compared, format)).collect();
    if let Some(at_mm) = report.mark_at_mm {
        sentences.push(format!(
            "The mark is at the fell now, {} from the start. Next time the tape starts there.",
            length(at_mm)
        ));
    }
    if let Some(mark) = report.warp_mark {
        sentences.push(format!(
            "The warp mark tied at {} is at the fell after {} of cloth: 100 of cloth use {} of warp. That is reckoned with \
             from now on, instead of {}.",
            length(mark.along_mm),
            length(mark.woven_mm),
            format.number(mark.warp_per_100, 1),
            format.number(mark.warp_per_100_before, 1)
        ));
    }
    sentences
}

fn words(compared: &TapeAndCounts, format: &DisplayFormat) -> Vec<String> {
    let length = |mm: f64| show_length(mm, format);
    let by_tape = length(compared.by_tape_mm);
    let mut sentences: Vec<String> =
        compared.notices.iter().map(|notice| notice_sentence(notice, None, format)).collect();
    if let Some(between) = compared.near_interval_mm {
        sentences.push(format!(
            "The difference is near the {} from one mark to the next: was the tape laid at another mark?",
            length(between)
        ));
    }
    if !compared.is_noticed() {
        sentences.push(match compared.by_counts_mm {
            None => format!("{by_tape} by the tape; there are no picks to set beside it."),
            Some(counts) if (counts - compared.by_tape_mm).abs() < AGREE_MM => {
                format!("{by_tape} by the tape, and the picks agree.")
            }
            Some(counts) => format!(
                "{by_tape} by the tape, {} by the picks. The tape is taken: picks tell a length only by the beat, and the beat \
                 wanders.",
                length(counts)
            ),
        });
    }
    if let Some(rate) = compared.picks_per_mm {
        sentences.push(format!("From now on {} are reckoned.", density_words(rate, format)));
    }
    sentences
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
            wander.contains("27\u{a0}cm by the tape, 25\u{a0}cm by the picks") && wander.contains("wanders"),
            "{wander}"
        );
        assert!(wander.contains("37 picks per 10\u{a0}cm are reckoned"), "{wander}");
        let apart = reported(vec![sitting(2, Some(400), Some(1000.0))], sitting(3, Some(100), Some(1000.0)));
        assert!(apart.contains("The tape is used"), "{apart}");
        let alone = reported(Vec::new(), sitting(2, None, Some(270.0)));
        assert!(alone.contains("no picks to set beside it"), "{alone}");
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
        assert!(said.contains("100 of cloth use 112 of warp") && said.contains("instead of 110"), "{said}");
        log.moments.readings.push(reading);
        let progress = Progress::of(&log, 0);
        let mut figures = crate::view::Figures::default();
        let _ = crate::reach::warp_answer(&log, &progress, &DisplayFormat::default(), &mut figures);
        // 2500 − 450 − 560 are left: known up to the mark, whatever take-up was given.
        assert!((figures.warp_left_mm.unwrap() - 1490.0).abs() < 0.5, "{:?}", figures.warp_left_mm);
    }
}
