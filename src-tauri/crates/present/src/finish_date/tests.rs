//! What the span is called, and what a plan makes of the projection. The answer from the journal's entries up is in `tests/`.

use fellmark_projection::{FinishingStep, Question, project};

use super::*;
use fellmark_model::tests::{log, sitting};
use fellmark_reports::finish_date::{finish_date, question};
use fellmark_reports::history::History;

fn today() -> NaiveDate {
    "2026-11-25".parse().unwrap()
}

fn asked(log: &WarpLog) -> Question {
    question(log, &Progress::of(log, 0), &History::default(), today()).unwrap()
}

fn likely(log: &WarpLog) -> NaiveDate {
    match finish_date(log, &Progress::of(log, 0), &History::default(), today()) {
        FinishDate::Projected(Ok(projection)) => projection.off_loom.quantiles.p50,
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_planned_warp_is_set_up_until_its_first_sitting() {
    let mut log = log();
    assert_eq!(asked(&log).set_up_minutes, 0.0);
    log.warp.planned_hours = Some(9.0);
    assert_eq!(asked(&log).set_up_minutes, SET_UP_MINUTES);
    let reported = |log: &WarpLog| {
        let progress = Progress::of(log, 0);
        let projected = finish_date(log, &progress, &History::default(), today());
        answer(log, &progress, &projected, &DisplayFormat::default(), today(), &mut Figures::default())
            .answer
            .why
            .join(" ")
    };
    assert!(reported(&log).contains("for winding and threading"));
    log.sittings = vec![sitting(20, Some(40), None)];
    assert_eq!(asked(&log).set_up_minutes, 0.0);
    assert!(!reported(&log).contains("for winding and threading"));
}

fn reported(log: &WarpLog) -> Answer {
    let progress = Progress::of(log, 0);
    let projected = finish_date(log, &progress, &History::default(), today());
    answer(log, &progress, &projected, &DisplayFormat::default(), today(), &mut Figures::default()).answer
}

#[test]
fn a_piece_of_next_to_nothing_is_no_way_to_a_gift_day() {
    let mut log = log();
    // Far more than the day allows: in time it would be hardly a piece.
    log.warp.gift_on = today().checked_add_days(chrono::Days::new(6));
    let hurried = reported(&log).more.join(" ");
    assert!(!hurried.contains("shorter"), "{hurried}");
    // Nearly done in time, a little shorter helps and is said.
    log.sittings = vec![sitting(20, Some(200), None), sitting(22, Some(200), None), sitting(24, Some(150), None)];
    log.warp.gift_on = today().checked_add_days(chrono::Days::new(8));
    let near = reported(&log).more.join(" ");
    assert!(near.contains("shorter"), "{near}");
}

/// A warp on which nothing is woven, for which days a week and minutes a day are stated.
fn stated(days_a_week: f64, minutes_a_day: f64) -> WarpLog {
    let mut log = log();
    (log.warp.days_a_week, log.warp.minutes_a_day) = (Some(days_a_week), Some(minutes_a_day));
    log
}

#[test]
fn days_of_two_years_each_name_theirs() {
    let mut log = stated(2.0, 30.0);
    log.warp.planned_hours = Some(10.0);
    let why = reported(&log).why.remove(0);
    let (_, span) = why.split_once("4 times in 5 between ").unwrap();
    let (from, to) = span.split_once(" and ").unwrap();
    assert!(!to.contains("2026"), "{why}");
    assert!(from.ends_with("2026"), "{why}");
}

#[test]
fn fewer_minutes_fewer_days_and_set_up_are_later() {
    let mut log = stated(4.0, 60.0);
    let usual = likely(&log);
    assert!(likely(&stated(4.0, 20.0)) > usual && likely(&stated(1.0, 60.0)) > usual);
    log.warp.planned_hours = Some(6.0);
    let with_set_up = asked(&log);
    let without = Question { set_up_minutes: 0.0, ..with_set_up.clone() };
    let day = |question: &Question| project(question).unwrap().off_loom.quantiles.p50;
    assert!(day(&with_set_up) > day(&without));
}

/// Off the loom today; finishing takes so many days so often.
fn words_of(days: &[(u32, f64)]) -> String {
    let step = FinishingStep { name: "washing".into(), days: days.to_vec() };
    let question = Question { cut_off: Some(today()), finishing: vec![step], ..Question::new(today(), 0.0) };
    span_words(&project(&question).unwrap().finished, &DisplayFormat::default(), today())
}

#[test]
fn a_narrow_span_is_shown_by_its_wider_side_and_a_lopsided_one_by_its_ends() {
    let spans = |from: u32, likely: u32, to: u32| words_of(&[(from, 0.3), (likely, 0.4), (to, 0.3)]);
    for ((from, likely, to), reported) in [
        ((2, 2, 2), "That is nearly sure."),
        ((1, 2, 3), "Give or take one day, four times in five."),
        // Never as surer than it is, whichever side is the wider.
        ((1, 2, 4), "Give or take two days, four times in five."),
        ((1, 3, 4), "Give or take two days, four times in five."),
        ((2, 2, 3), "Give or take one day, four times in five."),
        ((1, 2, 2), "Give or take one day, four times in five."),
        ((0, 11, 21), "Give or take eleven days, four times in five."),
        ((1, 2, 5), "Four times in five between 26 November and 30 November."),
        ((1, 4, 5), "Four times in five between 26 November and 30 November."),
        ((0, 11, 22), "Four times in five between 25 November and 17 December."),
    ] {
        assert_eq!(spans(from, likely, to), reported, "{from} {likely} {to}");
    }
}
