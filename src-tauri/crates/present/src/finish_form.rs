//! What finishing the sitting that is going on starts from.

use crate::figures::show_minutes;
use crate::view::FinishForm;
use fellmark_model::WarpLog;
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::forms::SittingForm;
use fellmark_model::running::Running;

/// The sitting's form with minutes and picks as counted, and what to ask when the timer stood still. The tape starts at the last
/// mark where one is set.
#[must_use]
pub fn finish_form(running: &Running, log: &WarpLog, now_ms: i64, format: &DisplayFormat) -> FinishForm {
    let on = running.began_local.get(..10).unwrap_or_default();
    let has_mark = on.parse().is_ok_and(|day| log.has_mark_by(day));
    let minutes = running.minutes(now_ms).round().max(1.0);
    let left_out = running.left_out(now_ms);
    let question = (left_out > 0.0).then(|| {
        format!(
            "Nothing was tapped for {} in all, so that time is left out: {} at the loom. Is that right?",
            show_minutes(left_out),
            show_minutes(minutes)
        )
    });
    let form = SittingForm {
        on: on.to_owned(),
        started: format.time(running.began_local.get(11..16).unwrap_or_default()),
        minutes: format!("{minutes:.0}"),
        picks: running.picks.to_string(),
        measured_from: if has_mark { "mark" } else { "start" }.to_owned(),
        pick_begun: running.begun,
        ..SittingForm::default()
    };
    let by_the_clock = running.minutes_by_the_clock(now_ms).map(|minutes| format!("{minutes:.0}"));
    FinishForm { form, question, by_the_clock }
}

#[cfg(test)]
mod tests {
    use super::*;
    use fellmark_model::running::Tap;
    use fellmark_model::{Sitting, tests::sitting};

    #[test]
    fn the_form_has_what_was_counted() {
        let tap = Tap {
            sitting: "s0000000000000001".parse().unwrap(),
            warp: "w0000000000000001".parse().unwrap(),
            by: 1,
            begun: Some(true),
            pause: None,
            at_ms: 0,
            local: "2026-11-25T19:00".into(),
        };
        let format = DisplayFormat::default();
        let mut log = fellmark_model::tests::log();
        let up = finish_form(&Running::begun(&tap), &log, 2 * 60_000, &format);
        assert!(up.form.pick_begun && up.question.is_none() && up.by_the_clock.is_none());
        assert_eq!((up.form.on.as_str(), up.form.started.as_str()), ("2026-11-25", "19:00"));
        assert_eq!((up.form.minutes.as_str(), up.form.picks.as_str()), ("2", "1"));
        let after = finish_form(&Running::begun(&tap), &log, 50 * 60_000, &format);
        assert_eq!(after.by_the_clock.as_deref(), Some("50"));
        assert!(after.question.is_some());
        assert_eq!(after.form.measured_from, "start");
        let marked = |day| Sitting { mark_set: true, ..sitting(day, Some(10), None) };
        log.sittings = vec![marked(26)];
        assert_eq!(
            finish_form(&Running::begun(&tap), &log, 0, &format).form.measured_from,
            "start",
            "a mark of a later day"
        );
        log.sittings = vec![marked(24)];
        assert_eq!(finish_form(&Running::begun(&tap), &log, 0, &format).form.measured_from, "mark");
    }
}
