//! The merge, by cases made at random: several devices, any order of arrival, any subset of lines, clocks wrong by
//! years. Rules that look right and are not are planted on purpose and must fail the same properties.

mod model;

use std::sync::Arc;

use fellmark_journal::{Entry, EntrySet};
use model::{MergeCase, Rule, Writer, by_state, check, plan, view_by};
use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestError, TestRng, TestRunner};

fn runner(cases: u32) -> TestRunner {
    let config = Config { cases, failure_persistence: None, max_shrink_iters: 0, ..Config::default() };
    TestRunner::new_with_rng(config, TestRng::deterministic_rng(RngAlgorithm::ChaCha))
}

/// Runs all properties for a way to view a set of entries; the first failure in words, or none.
fn first_failure(cases: u32, writer: Writer, view: model::View) -> Option<String> {
    let result = runner(cases).run(&plan(), |plan| {
        let case = MergeCase::play(&plan, writer);
        check(&case, view).map_err(TestCaseError::fail)
    });
    match result {
        Ok(()) => None,
        Err(TestError::Fail(reason, _)) => Some(reason.message().to_owned()),
        Err(TestError::Abort(reason)) => panic!("{reason}"),
    }
}

#[test]
fn nothing_is_lost_whatever_arrives_and_when() {
    assert_eq!(first_failure(4_000, Writer::Right, by_state), None);
}

#[test]
fn the_state_is_what_a_slow_reading_of_the_rules_gives() {
    let slow: model::View = |entries| view_by(Rule::Right, entries);
    assert_eq!(first_failure(500, Writer::Right, slow), None);
    let same = runner(2_000).run(&plan(), |plan| {
        let case = MergeCase::play(&plan, Writer::Right);
        prop_assert_eq!(by_state(&case.all()), slow(&case.all()));
        Ok(())
    });
    same.unwrap();
}

/// Each planted rule, and the words of the property it must break.
#[test]
fn planted_rules_that_look_right_are_caught() {
    let planted: [(&str, Writer, model::View, &str); 7] = [
        ("the last write wins", Writer::Right, |e| view_by(Rule::LastWriteWins, e), "hidden unseen"),
        ("removal wins", Writer::Right, |e| view_by(Rule::RemovalWins, e), "removed unseen"),
        ("edits always win", Writer::Right, |e| view_by(Rule::EditWins, e), "not removed"),
        ("over hides fields not written", Writer::Right, |e| view_by(Rule::OverAllFields, e), "hidden unseen"),
        ("over hides older entries", Writer::Right, |e| view_by(Rule::OverByTime, e), "not settled"),
        ("what comes first wins", Writer::Right, |e| view_by(Rule::FirstCome, e), "order"),
        ("over names what was not on the screen", Writer::OverTooWide, by_state, "hidden unseen"),
    ];
    for (name, writer, view, property) in planted {
        let failure = first_failure(2_000, writer, view).unwrap_or_else(|| panic!("“{name}” was not caught"));
        assert!(failure.contains(property), "“{name}” was caught, but by: {failure}");
    }
}

proptest! {
    #![proptest_config(Config { cases: 256, failure_persistence: None, ..Config::default() })]

    #[test]
    fn merging_is_commutative_associative_and_idempotent(
        plan in plan(),
        parts in proptest::collection::vec(0u8..8, 0..80),
    ) {
        let all = MergeCase::play(&plan, Writer::Right).all();
        // Three overlapping subsets of the lines.
        let subset = |bit: u8| {
            let mut state = EntrySet::new();
            for (i, entry) in all.iter().enumerate() {
                if parts.get(i).copied().unwrap_or(7) & (1 << bit) != 0 {
                    state.insert(Arc::clone(entry));
                }
            }
            state
        };
        let (a, b, c) = (subset(0), subset(1), subset(2));
        let merged = |x: &EntrySet, y: &EntrySet| { let mut z = x.clone(); z.merge(y); z };
        let reported = |state: &EntrySet| state.records().cloned().collect::<Vec<_>>();
        prop_assert_eq!(reported(&merged(&a, &b)), reported(&merged(&b, &a)));
        prop_assert_eq!(reported(&merged(&merged(&a, &b), &c)), reported(&merged(&a, &merged(&b, &c))));
        prop_assert_eq!(reported(&merged(&a, &a)), reported(&a));
        prop_assert_eq!(merged(&a, &b), merged(&b, &a));
    }

    #[test]
    fn what_is_known_never_changes_what_is_kept_of_it(plan in plan()) {
        // A line survives the way to text and back, byte for byte.
        for entry in MergeCase::play(&plan, Writer::Right).all() {
            let again = Entry::from_line(entry.line().as_bytes()).unwrap();
            prop_assert_eq!(again.line(), entry.line());
            prop_assert_eq!((again.set(), again.over()), (entry.set(), entry.over()));
        }
    }
}
