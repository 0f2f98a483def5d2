//! Sentences that must be true where a figure is nothing, sums that can be done again by hand, and days in the reader's order.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

use chrono::NaiveDate;
use fellmark_journal::{Journal, Options};
use fellmark_model::commands::Commands;
use fellmark_model::display_format::{DisplayFormat, Units};
use fellmark_present::overview;
use fellmark_present::understood::understand;
use fellmark_present::view::{LoomView, WarpForm};

fn today() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 11, 28).unwrap()
}

/// A warp that is begun today with these figures, and nothing woven.
fn begun(form: &WarpForm, format: DisplayFormat) -> LoomView {
    let place = tempfile::tempdir().unwrap();
    std::fs::create_dir(place.path().join("folder")).unwrap();
    let options = Options::new(place.path().join("folder"), place.path().join("local"), "laptop").create();
    let mut journal = Journal::open(options).unwrap();
    let warp = Commands { journal: &mut journal, format, today: today() }.begin_warp(form).unwrap();
    overview::warp_view(&journal, &warp, 0, &format, today()).unwrap()
}

/// 243 cm less 45 cm of waste at 110 to 100 make the 180 cm wanted and nothing more.
fn exactly_enough() -> WarpForm {
    WarpForm {
        name: "trial".into(),
        wound: "243 cm".into(),
        waste: "45 cm".into(),
        wanted: "180 cm".into(),
        wanted_state: "under_tension".into(),
        picks: "40".into(),
        warp_per_100: "110".into(),
        reed_width: "20 cm".into(),
        weft_length: "95 m".into(),
        ..WarpForm::default()
    }
}

#[test]
fn nothing_to_spare_is_said_and_not_counted() {
    let view = begun(&exactly_enough(), DisplayFormat::default());
    assert_eq!(view.warp_reach.headline, "Tight: just enough warp, with nothing to spare.");
    // 720 picks of 22 cm are 158.4 m.
    let just = WarpForm { weft_length: "158.4 m".into(), ..exactly_enough() };
    let view = begun(&just, DisplayFormat::default());
    assert_eq!(view.weft_reach.headline, "Tight: just enough weft, with nothing to spare.");
    // Where there is a length, it is said as ever.
    let more = WarpForm { wound: "265 cm".into(), ..exactly_enough() };
    let view = begun(&more, DisplayFormat::default());
    assert_eq!(view.warp_reach.headline, "Enough warp, with about 20\u{a0}cm of cloth to spare.");
}

#[test]
fn weft_that_was_never_measured_again_is_known_from_the_start() {
    let why = begun(&exactly_enough(), DisplayFormat::default()).weft_reach.why.join(" ");
    assert!(why.contains("95\u{a0}m at the start, nothing used since: a pick takes 22\u{a0}cm."), "{why}");
}

#[test]
fn the_sum_of_the_warp_can_be_done_again_by_hand() {
    // To whole centimetres it would read 168 - 51 = 118.
    let form = WarpForm { wound: "168.3 cm".into(), waste: "50.8 cm".into(), ..exactly_enough() };
    let why = begun(&form, DisplayFormat::default()).warp_reach.why.join(" ");
    assert!(why.contains("168.3\u{a0}cm wound \u{2212} 50.8\u{a0}cm loom waste"), "{why}");
    assert!(why.contains("= 117.5\u{a0}cm of warp left."), "{why}");
}

#[test]
fn a_day_is_taken_in_the_order_it_is_shown_in() {
    let us = DisplayFormat { month_first: true, units: Units::Imperial, ..DisplayFormat::default() };
    let shown = |text: &str, format: &DisplayFormat| understand("date", text, format, today());
    assert_eq!(shown("12/24/2026", &us).shown, "Thursday, December 24");
    assert_eq!(shown("24.12.2026", &DisplayFormat::default()).shown, "Thursday 24 December");
    let refused = shown("24/12/2026", &us).trouble.unwrap();
    assert_eq!(
        refused,
        "\u{201c}24/12/2026\u{201d} is no day of the calendar. Write a day as 2026-11-28, 11/28/2026 or 21 Dec."
    );
    let form = WarpForm { gift_on: "12/24/2026".into(), ..exactly_enough() };
    assert_eq!(begun(&form, us).form.gift_on, "2026-12-24");
}
