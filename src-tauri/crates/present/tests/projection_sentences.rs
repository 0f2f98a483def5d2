//! What a projection and its notes say, in each situation a warp can be in.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

use chrono::{Days, NaiveDate};
use fellmark_present::finish_date::{in_picks, note_sentence, projection_sentence};
use fellmark_projection::{EarlierWarp, Projection, Question, WovenStretch, project};

fn date(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

fn iso(day: NaiveDate) -> String {
    day.to_string()
}

fn sentence(projection: &Projection) -> String {
    projection_sentence(projection, &iso, &in_picks)
}

fn notes(question: &Question) -> Vec<String> {
    project(question).unwrap().notes.iter().map(|note| note_sentence(note, &iso, &in_picks)).collect()
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

/// An earlier warp: `n` evenings `gap` days apart, ending before `before`.
fn earlier(before: NaiveDate, n: u64, gap: u64, picks: f64) -> EarlierWarp {
    let sittings =
        (1..=n).map(|i| WovenStretch::plain(before - Days::new(i * gap), Some(picks / 3.0), picks)).collect();
    EarlierWarp { sittings }
}

#[test]
fn the_answer_is_one_sentence_of_the_weavers_own_numbers() {
    assert_eq!(
        sentence(&project(&scarf()).unwrap()),
        "You weave about every 5 days, some 129 picks a time; 620 picks are about 5 more sittings, so off the loom \
         most likely 2026-05-27; 4 times in 5 between 2026-05-13 and 2026-07-08."
    );
}

#[test]
fn a_rhythm_is_not_called_hers_after_one_or_two_days() {
    let today = date("2026-05-04");
    let says = |days_ago: &[u64], earlier: Vec<EarlierWarp>| {
        let mut question = Question::new(today, 620.0);
        question.earlier = earlier;
        for ago in days_ago {
            question.sittings.push(WovenStretch::plain(today - Days::new(*ago), Some(40.0), 130.0));
        }
        sentence(&project(&question).unwrap())
    };
    let little = |days: &str| format!("You have woven on {days} so far, which tells little: reckoned as about every ");
    assert!(says(&[0], vec![]).starts_with(&little("one day")), "{}", says(&[0], vec![]));
    assert!(says(&[1, 0], vec![]).starts_with(&little("2 days")), "{}", says(&[1, 0], vec![]));
    assert!(says(&[9, 6, 3, 0], vec![]).starts_with("You weave about every "));
    let known = says(&[1, 0], vec![earlier(today - Days::new(9), 20, 2, 100.0)]);
    assert!(known.starts_with("You weave "), "{known}");
}

#[test]
fn without_a_sitting_earlier_warps_are_named() {
    let today = date("2026-05-04");
    let mut known = Question::new(today, 1000.0);
    known.earlier = vec![earlier(today, 20, 2, 100.0), earlier(today - Days::new(90), 20, 2, 100.0)];
    let says = sentence(&project(&known).unwrap());
    assert!(says.starts_with("On earlier warps you wove every other day, some 100 picks a time;"), "{says}");
}

#[test]
fn minutes_that_cannot_be_right_are_named() {
    let mut question = scarf();
    question.sittings[3].minutes = Some(540.0);
    assert_eq!(
        notes(&question),
        ["The 9\u{a0}h of the sitting on 2026-04-14 count as 48\u{a0}min, going by the others."]
    );
    question.sittings[3].minutes = Some(1.0);
    assert_eq!(notes(&question)[0], "160 picks in 1\u{a0}min on 2026-04-14? This was left out of your pace.");
    question.sittings.truncate(1);
    question.sittings[0].minutes = Some(540.0);
    let note = &notes(&question)[0];
    assert!(note.ends_with("look like a forgotten timer and are not counted."), "{note}");
}

#[test]
fn future_sittings_are_asked_about() {
    let mut question = scarf();
    for days in [1, 400] {
        question.sittings.push(WovenStretch::plain(question.today + Days::new(days), Some(30.0), 500.0));
    }
    assert_eq!(
        notes(&question)[0],
        "Two sittings lie in the future and were left out of your pace; is the date right?"
    );
}

#[test]
fn a_warp_that_is_done_rests_or_takes_for_ever_says_so() {
    let mut met = scarf();
    met.left[0].picks = -12.0;
    assert!(sentence(&project(&met).unwrap()).starts_with("All picks are woven: ready to cut off."));
    let mut resting = scarf();
    resting.resting_since = Some(date("2026-04-30"));
    let says = sentence(&project(&resting).unwrap());
    assert!(says.starts_with("Resting since 2026-04-30, so it has no date."), "{says}");
    assert!(says.contains("taken up today, off the loom most likely"), "{says}");
    let mut far = scarf();
    far.left[0].picks = 60_000.0;
    let says = sentence(&project(&far).unwrap());
    assert!(says.ends_with("so not within three years at this pace."), "{says}");
    far.resting_since = Some(far.today);
    let says = sentence(&project(&far).unwrap());
    assert!(says.ends_with("taken up today, not within three years at this pace."), "{says}");
}
