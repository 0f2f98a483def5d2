//! What is answered in each plight a warp can be in.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

use chrono::{Datelike, Days, NaiveDate, Weekday};
use fellmark_projection::{
    Basis, DayRange, EarlierWarp, Goal, LeftToWeave, Note, ProjectionState, Question, QuestionError, SectionKind,
    WovenStretch, project, warp_pace,
};

fn date(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

fn iso(day: NaiveDate) -> String {
    day.to_string()
}

/// An invented scarf: eight evenings, about every fifth day.
fn scarf() -> Question {
    let today = date("2026-05-04");
    let mut question = Question::new(today, 620.0);
    let evenings = [(35, 40.0, 130.0), (30, 45.0, 150.0), (26, 35.0, 120.0), (20, 50.0, 160.0)];
    let later = [(14, 40.0, 140.0), (9, 38.0, 125.0), (5, 42.0, 138.0), (0, 40.0, 135.0)];
    for (ago, minutes, picks) in evenings.into_iter().chain(later) {
        question.sittings.push(WovenStretch::plain(today - Days::new(ago), Some(minutes), picks));
    }
    question
}

/// A weaver's earlier warp: `n` evenings `gap` days apart, ending before `before`.
fn earlier(before: NaiveDate, n: u64, gap: u64, picks: f64) -> EarlierWarp {
    let sittings =
        (1..=n).map(|i| WovenStretch::plain(before - Days::new(i * gap), Some(picks / 3.0), picks)).collect();
    EarlierWarp { sittings }
}

#[test]
fn the_answer_rests_on_the_weavers_own_numbers() {
    let projection = project(&scarf()).unwrap();
    assert_eq!(projection.state, ProjectionState::Running);
    let span = projection.off_loom.quantiles;
    assert_eq!([span.p10, span.p50, span.p90].map(iso), ["2026-05-13", "2026-05-27", "2026-07-08"]);
    let r = &projection.reasons;
    assert_eq!((r.basis, r.weaving_days, r.earlier_warps, r.picks_left), (Basis::OwnSittings, 8, 0, 620.0));
    assert!(r.minutes_a_day.is_some_and(|m| (35.0..45.0).contains(&m)), "{:?}", r.minutes_a_day);
}

#[test]
fn a_sprint_is_reported_and_widens_the_span() {
    let today = date("2026-05-04");
    let asked = |gap: u64, left: f64| {
        let mut question = Question::new(today, left);
        question.earlier = vec![earlier(date("2026-03-01"), 8, 6, 120.0)];
        question.sittings =
            (0..6).map(|i| WovenStretch::plain(today - Days::new(i * gap), Some(40.0), 120.0)).collect();
        project(&question).unwrap()
    };
    let width = |gap: u64| {
        let projection = asked(gap, 1500.0);
        let days = |p: f64| ((projection.off_loom.day_at(p).unwrap() - today).num_days() as f64).ln();
        (days(0.9) - days(0.1), projection.notes.contains(&Note::FasterOfLate))
    };
    let ((sprint, noted), (usual, not_noted)) = (width(1), width(6));
    assert!(noted && !not_noted, "{noted} {not_noted}");
    assert!(sprint > 1.15 * usual, "{sprint} against {usual}");
    // Where no span is shown, the reason for its width is not noted either.
    let far = asked(1, 1e6);
    assert!(far.beyond_three_years && !far.notes.contains(&Note::FasterOfLate), "{:?}", far.notes);
}

#[test]
fn without_a_sitting_it_goes_by_earlier_warps_else_by_common_practice_and_says_so() {
    let today = date("2026-05-04");
    let bare = project(&Question::new(today, 1000.0)).unwrap();
    assert_eq!((bare.state, bare.reasons.basis), (ProjectionState::NotBegun, Basis::CommonPractice));
    assert!(bare.notes.contains(&Note::FromCommonPractice));
    let mut known = Question::new(today, 1000.0);
    known.earlier = vec![earlier(today, 20, 2, 100.0), earlier(today - Days::new(90), 20, 2, 100.0)];
    let known = project(&known).unwrap();
    assert!(known.notes.contains(&Note::FromEarlierWarps { warps: 2 }));
    assert_eq!((known.reasons.basis, known.reasons.picks_a_day.round()), (Basis::EarlierWarps, 100.0));
    let width = |p: &fellmark_projection::Projection| (p.off_loom.quantiles.p90 - p.off_loom.quantiles.p10).num_days();
    assert!(width(&known) * 2 < width(&bare), "{} {}", width(&known), width(&bare));
    // The hours a plan expects set the number of sittings.
    let mut planned = Question::new(today, 1000.0);
    planned.plan_hours = Some(3.0);
    let planned = project(&planned).unwrap();
    assert!(planned.off_loom.quantiles.p50 < bare.off_loom.quantiles.p50);
    assert_eq!((planned.reasons.sittings_left_low, planned.reasons.sittings_left_high), (4, 4));
}

#[test]
fn how_earlier_projections_came_out_sets_the_width() {
    let today = date("2026-05-04");
    // Twelve gaps of one, four and sixteen days: mixed in every warp, or each warp at a pace of its own. The gaps are
    // the same, so only projecting the warps again distinguishes the two weavers.
    let warp = |end: NaiveDate, gaps: [u64; 12]| {
        let mut day = end;
        let mut sittings = vec![WovenStretch::plain(day, Some(40.0), 100.0)];
        for gap in gaps {
            day = day - Days::new(gap);
            sittings.push(WovenStretch::plain(day, Some(40.0), 100.0));
        }
        EarlierWarp { sittings }
    };
    let ends = [30, 230, 430].map(|ago| today - Days::new(ago));
    let mixed = [1, 4, 16, 4, 1, 16, 16, 1, 4, 4, 16, 1];
    let mut even = Question::new(today, 1000.0);
    even.earlier = ends.map(|end| warp(end, mixed)).to_vec();
    let mut moody = Question::new(today, 1000.0);
    moody.earlier = vec![warp(ends[0], [1; 12]), warp(ends[1], [4; 12]), warp(ends[2], [16; 12])];
    let width = |question: &Question| {
        let span = project(question).unwrap().off_loom.quantiles;
        (span.p90 - span.p10).num_days()
    };
    assert!(width(&even) * 4 < width(&moody) * 3, "{} {}", width(&even), width(&moody));
}

#[test]
fn a_forgotten_timer_counts_shorter_and_is_noted() {
    let mut question = scarf();
    question.sittings[3].minutes = Some(540.0);
    let projection = project(&question).unwrap();
    let before = project(&scarf()).unwrap();
    assert_eq!(projection.off_loom.quantiles, before.off_loom.quantiles, "minutes never move the date");
    // 160 picks at 150 picks in 45 minutes, the middle of the weaver's paces by minutes: 48 minutes.
    let [Note::LongSitting { day, minutes_entered: 540.0, minutes_used: Some(minutes) }] = projection.notes[..] else {
        panic!("{:?}", projection.notes)
    };
    assert_eq!((day, minutes.round()), (date("2026-04-14"), 48.0));
    let pace = warp_pace(question.today, &question.sittings).unwrap();
    assert!((pace.hours - 5.4).abs() < 0.1, "{}", pace.hours);
    assert!(pace.picks_per_hour.is_some_and(|p| (195.0..215.0).contains(&p)));
}

#[test]
fn a_forgotten_timer_alone_is_no_pace() {
    let mut question = scarf();
    question.sittings.truncate(1);
    let untimed = {
        let mut question = question.clone();
        question.sittings[0].minutes = None;
        project(&question).unwrap()
    };
    question.sittings[0].minutes = Some(540.0);
    let projection = project(&question).unwrap();
    assert_eq!((projection.off_loom.quantiles, projection.reasons.minutes_a_day), (untimed.off_loom.quantiles, None));
    let note = &projection.notes[0];
    assert!(matches!(note, Note::LongSitting { minutes_entered: 540.0, minutes_used: None, .. }), "{note:?}");
}

#[test]
fn future_sittings_are_left_out_and_asked_about() {
    let mut question = scarf();
    for days in [1, 400] {
        question.sittings.push(WovenStretch::plain(question.today + Days::new(days), Some(30.0), 500.0));
    }
    let projection = project(&question).unwrap();
    assert_eq!(projection.off_loom.quantiles, project(&scarf()).unwrap().off_loom.quantiles);
    assert_eq!(projection.notes[0], Note::FutureSittings { sittings: 2 });
}

#[test]
fn the_week_is_asked_about_until_it_is_stated() {
    let asks = |question: &Question| project(question).unwrap().notes.contains(&Note::AskDaysAWeek);
    let mut few = scarf();
    few.sittings.truncate(2);
    let mut none = scarf();
    none.sittings.clear();
    assert!(asks(&few) && asks(&none), "most of all before the first sitting");
    assert!(!asks(&scarf()), "enough sittings are known");
    few.availability.days_a_week = Some(3.0);
    none.availability.weekdays = Some([false, false, false, false, false, true, true]);
    assert!(!asks(&few) && !asks(&none));
}

#[test]
fn a_slip_of_the_minutes_is_asked_about() {
    let mut question = scarf();
    question.sittings[3].minutes = Some(1.0);
    let projection = project(&question).unwrap();
    assert_eq!(projection.notes[0], Note::FastSitting { day: date("2026-04-14"), picks: 160.0, minutes: 1.0 });
}

#[test]
fn missing_numbers_never_block_the_date() {
    let mut question = scarf();
    question.sittings[1].picks = None; // 45 minutes at the weaver's pace
    question.sittings[2].minutes = None;
    question.sittings[4].picks = None;
    question.sittings[4].minutes = None; // a usual sitting
    let projection = project(&question).unwrap();
    assert!(projection.notes.contains(&Note::PicksGuessed { sittings: 2 }));
    assert!(projection.notes.contains(&Note::MinutesMissing { sittings: 2 }));
    let moved = projection.off_loom.quantiles.p50 - project(&scarf()).unwrap().off_loom.quantiles.p50;
    assert!(moved.num_days().abs() <= 2, "{moved}");
    // Nothing but days.
    for s in &mut question.sittings {
        (s.picks, s.minutes) = (None, None);
    }
    assert_eq!(project(&question).unwrap().state, ProjectionState::Running);
}

#[test]
fn late_entries_change_the_past_and_unweaving_counts() {
    let mut late = scarf();
    late.sittings.insert(0, WovenStretch::plain(late.today - Days::new(23), Some(40.0), 300.0));
    assert!(project(&late).unwrap().reasons.picks_a_day > project(&scarf()).unwrap().reasons.picks_a_day);
    let mut unwoven = scarf();
    unwoven.sittings.push(WovenStretch::plain(unwoven.today, Some(20.0), -60.0));
    unwoven.left[0].picks += 60.0;
    let unwoven = project(&unwoven).unwrap();
    assert!(unwoven.off_loom.quantiles.p50 > project(&scarf()).unwrap().off_loom.quantiles.p50);
    let total = unwoven.woven.last().unwrap().1;
    assert!((total - 1038.0).abs() < 1e-9, "{total}");
    // A day with nothing but unweaving is no weaving day, and breaks nothing.
    let mut only = Question::new(date("2026-05-04"), 500.0);
    only.sittings.push(WovenStretch::plain(only.today, Some(15.0), -40.0));
    assert_eq!(project(&only).unwrap().reasons.weaving_days, 0);
}

#[test]
fn all_on_one_day_and_gaps_of_months_are_borne() {
    let today = date("2026-05-04");
    let mut question = Question::new(today, 300.0);
    question.sittings = (0..6).map(|_| WovenStretch::plain(today, Some(20.0), 50.0)).collect();
    let one_day = project(&question).unwrap();
    assert_eq!(one_day.reasons.weaving_days, 1);
    assert!(one_day.notes.contains(&Note::AskDaysAWeek));
    let mut months = scarf();
    for s in &mut months.sittings {
        s.day = s.day - Days::new(150);
    }
    let months = project(&months).unwrap();
    assert!(months.notes.contains(&Note::AskResting { days: 150 }));
    assert!(months.off_loom.quantiles.p50 > project(&scarf()).unwrap().off_loom.quantiles.p50);
}

#[test]
fn a_target_met_is_ready_to_cut_off_and_finishing_takes_its_days() {
    let mut question = scarf();
    question.left[0].picks = -12.0;
    let met = project(&question).unwrap();
    assert_eq!(met.state, ProjectionState::ReadyToCutOff);
    assert_eq!(met.off_loom.quantiles.p95, question.today);
    let days = [met.finished.quantiles.p10, met.finished.quantiles.p50, met.finished.quantiles.p90];
    assert_eq!(days.map(|d| (d - question.today).num_days()), [1, 2, 3]);
    assert!(met.fan_chart(20).is_empty());
    question.cut_off = Some(date("2026-05-03"));
    assert_eq!(project(&question).unwrap().state, ProjectionState::Finishing { since: date("2026-05-03") });
}

#[test]
fn a_resting_warp_has_no_date_but_says_what_it_would_be() {
    let mut question = scarf();
    question.resting_since = Some(date("2026-04-30"));
    let resting = project(&question).unwrap();
    assert_eq!(resting.state, ProjectionState::Resting { since: date("2026-04-30") });
    assert!(!resting.beyond_three_years && resting.off_loom.quantiles.p50 > question.today);
}

#[test]
fn beyond_three_years_it_says_not_at_this_pace() {
    let mut question = scarf();
    question.left[0].picks = 60_000.0;
    let far = project(&question).unwrap();
    assert_eq!(far.state, ProjectionState::NotAtThisPace);
    // A warp that rests is no sooner done.
    question.resting_since = Some(question.today);
    let resting = project(&question).unwrap();
    assert!(resting.beyond_three_years);
}

#[test]
fn a_border_goes_at_its_own_pace() {
    let mut question = scarf();
    let border = SectionKind::Other("border".into());
    // Two timed sittings of border at a third of the plain pace.
    for ago in [3, 2] {
        let day = question.today - Days::new(ago);
        question.sittings.push(WovenStretch { kind: border.clone(), ..WovenStretch::plain(day, Some(40.0), 45.0) });
    }
    let plain = project(&question).unwrap();
    question.left = vec![LeftToWeave { kind: border.clone(), picks: 620.0, picks_sd: 0.0 }];
    let slow = project(&question).unwrap();
    assert!(slow.off_loom.quantiles.p50 > plain.off_loom.quantiles.p50);
    let pace = slow.reasons.paces.iter().find(|p| p.kind == border).unwrap();
    assert_eq!(pace.timed_sittings, 2);
    assert!((68.0..140.0).contains(&pace.picks_per_hour), "{}", pace.picks_per_hour);
    // Pick-up not yet tried is slower by common practice.
    question.left[0].kind = SectionKind::PickUp;
    let pick_up = project(&question).unwrap();
    assert!(pick_up.off_loom.quantiles.p50 > plain.off_loom.quantiles.p50);
    assert_eq!(pick_up.reasons.paces.iter().find(|p| p.kind == SectionKind::PickUp).unwrap().timed_sittings, 0);
}

#[test]
fn what_she_says_of_her_days_replaces_what_her_sittings_suggest() {
    let mut question = scarf();
    question.availability.weekdays = Some([false, false, false, false, false, true, true]);
    let weekends = project(&question).unwrap();
    let span = weekends.off_loom.quantiles;
    for day in [span.p05, span.p10, span.p25, span.p50, span.p75, span.p90, span.p95] {
        assert!(matches!(day.weekday(), Weekday::Sat | Weekday::Sun), "{day} is no weekend");
    }
    let mut away = scarf();
    let holiday = DayRange { from: away.today, until: date("2026-05-26") };
    away.availability.away = vec![holiday];
    let away = project(&away).unwrap();
    assert!(away.off_loom.quantiles.p05 > holiday.until && away.off_loom.chance_by(holiday.until) == 0.0);
    let mut promised = scarf();
    promised.availability.every_day = vec![DayRange { from: promised.today, until: date("2026-05-10") }];
    let promised = project(&promised).unwrap();
    assert!(promised.off_loom.quantiles.p50 <= date("2026-05-10"), "{}", promised.off_loom.quantiles.p50);
    let mut often = scarf();
    often.availability.days_a_week = Some(7.0);
    assert!(project(&often).unwrap().off_loom.quantiles.p50 < project(&scarf()).unwrap().off_loom.quantiles.p50);
    // Days away in the past are not days of slow weaving.
    let mut was_away = scarf();
    was_away.availability.away = vec![DayRange { from: date("2026-04-15"), until: date("2026-04-19") }];
    let was_away = project(&was_away).unwrap();
    assert!(was_away.reasons.days_between < project(&scarf()).unwrap().reasons.days_between);
}

#[test]
fn the_gift_day_is_weighed_with_finishing_and_what_it_takes_makes_it() {
    let mut question = scarf();
    let gift = date("2026-05-25");
    question.gift_day = Some(gift);
    let projection = project(&question).unwrap();
    let chance = projection.gift_chance.unwrap();
    assert!(chance < projection.off_loom.chance_by(gift), "finishing takes days");
    let need = projection.requirement(Goal::Finished, gift, 0.8).unwrap();
    assert!((need.chance_now - chance).abs() < 1e-12);
    // Each way is tried out: weaving so much more, or so much less to weave, gives the chance asked for.
    let fewer = need.picks_fewer.unwrap();
    let mut shorter = question.clone();
    shorter.left[0].picks -= fewer;
    let reached = project(&shorter).unwrap().finished.chance_by(gift);
    assert!((0.78..0.86).contains(&reached), "{reached}");
    let minutes = need.minutes_a_day.unwrap();
    assert!(minutes > need.usual_minutes_a_day.unwrap());
    assert!((minutes / need.usual_minutes_a_day.unwrap() - need.times.unwrap()).abs() < 1e-9);
    assert!(need.days_a_week.is_none_or(|d| d <= 7.0 + 1e-9 && d > need.usual_days_a_week));
    // Tomorrow cannot be made by any weaving: finishing alone takes longer.
    let tomorrow = projection.requirement(Goal::Finished, question.today + Days::new(1), 0.8).unwrap();
    assert_eq!((tomorrow.times, tomorrow.days_a_week), (None, None));
    assert!(matches!(projection.requirement(Goal::Finished, gift, 1.0), Err(QuestionError::BadChance { .. })));
}

#[test]
fn doubt_about_what_is_left_and_set_up_still_to_do_count() {
    let mut doubtful = scarf();
    doubtful.left[0].picks_sd = 300.0;
    let (sure, doubtful) = (project(&scarf()).unwrap(), project(&doubtful).unwrap());
    assert!(doubtful.off_loom.quantiles.p90 > sure.off_loom.quantiles.p90);
    assert!(doubtful.off_loom.quantiles.p10 <= sure.off_loom.quantiles.p10);
    let mut set_up = scarf();
    set_up.set_up_minutes = 90.0;
    assert!(project(&set_up).unwrap().off_loom.quantiles.p50 > sure.off_loom.quantiles.p50);
}

#[test]
fn the_fan_starts_at_what_is_woven_and_ends_with_the_span() {
    let projection = project(&scarf()).unwrap();
    let fan = projection.fan_chart(40);
    let done = projection.woven.last().unwrap().1;
    assert_eq!(fan[0].day, date("2026-05-04"));
    assert_eq!(fan.last().unwrap().day, projection.off_loom.quantiles.p90);
    assert!(fan.iter().all(|p| done <= p.p10 && p.p10 <= p.p25 && p.p25 <= p.p50 && p.p50 <= p.p75 && p.p75 <= p.p90));
    assert!(fan.windows(2).all(|w| w[0].p50 <= w[1].p50 && w[0].p10 <= w[1].p10));
    assert!((fan.last().unwrap().p10 - done - 620.0).abs() < 15.0, "{}", fan.last().unwrap().p10 - done);
}

#[test]
fn what_is_no_weaving_is_refused_with_a_sentence() {
    let mut nan = scarf();
    nan.sittings[0].picks = Some(f64::NAN);
    let error = project(&nan).unwrap_err().to_string();
    assert_eq!(
        error,
        "the sitting of 2026-03-30 has picks of NaN, which is no amount of weaving; correct that sitting"
    );
    let mut none = scarf();
    none.availability.weekdays = Some([false; 7]);
    assert_eq!(project(&none), Err(QuestionError::NoWeavingDay));
    let mut backward = scarf();
    backward.availability.away = vec![DayRange { from: date("2026-06-02"), until: date("2026-06-01") }];
    assert!(matches!(project(&backward), Err(QuestionError::BackwardRange { .. })));
    let mut step = scarf();
    step.finishing[0].days = vec![(1, -1.0)];
    assert!(matches!(project(&step), Err(QuestionError::BadFinishing { .. })));
    let far = Question::new(NaiveDate::MAX, 100.0);
    assert!(matches!(project(&far), Err(QuestionError::TodayOutOfRange { .. })));
}
