//! The place in the sequence.

use super::*;
use crate::view::PlaceView;
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::forms::PlaceForm;
use fellmark_model::measures::Reader;
use fellmark_model::moments::tests::moment;
use fellmark_model::moments::{Part, PlaceSaid};
use fellmark_model::sequence::{check_rows, read_place};
use fellmark_model::tests::{log, sitting};
use fellmark_model::{Rows, WarpLog};
use fellmark_reports::progress::Progress;

fn rows(repeat: &[&str]) -> Rows {
    let words = |rows: &[&str]| rows.iter().map(|row| (*row).to_owned()).collect();
    Rows {
        opening: words(&["up", "down"]),
        repeat: words(repeat),
        balance: words(&["up", "stick"]),
        closing: words(&["up", "down", "up"]),
    }
}

fn lace() -> Rows {
    rows(&["up", "stick", "up", "down"])
}

/// A warp with one sitting of so many picks.
fn woven(picks: i64, rows: Rows) -> WarpLog {
    let mut log = log();
    log.warp.rows = rows;
    log.sittings = vec![sitting(2, Some(picks), None)];
    log
}

fn at(log: &WarpLog) -> PlaceView {
    place(log, &Progress::of(log, 0), &DisplayFormat::default()).unwrap()
}

fn said(log: &WarpLog, part: Part, piece: u32, repeat: u64, row: usize) -> PlaceSaid {
    let last = log.sittings.last().map(|sitting| sitting.id.clone());
    PlaceSaid { when: moment(last.as_ref(), None, 2), piece, part, repeat, row }
}

#[test]
fn the_place_follows_net_picks() {
    let start = at(&woven(0, lace()));
    assert_eq!((start.last, start.place.as_str()), (None, "pick 1 of 2 in the opening border"));
    assert_eq!(start.left, "2 picks left in the opening border");
    let third = at(&woven(3, lace()));
    assert_eq!(third.next, "heddle at rest, stick forward and on edge");
    assert_eq!((third.heddle.as_deref(), third.stick.as_deref()), (Some("rest"), Some("edge")));
    assert_eq!(third.then.as_deref(), Some("heddle up, stick at the back"));
    assert!(third.place.starts_with("pick 2 of 4 in repeat 1"));
    assert_eq!(third.last.as_deref(), Some("heddle up, stick at the back"));
    assert!(at(&woven(6, lace())).place.starts_with("pick 1 of 4 in repeat 2"));
}

#[test]
fn she_says_where_she_is_and_no_pick_is_lost() {
    let mut log = woven(6, lace());
    log.moments.places = vec![said(&log, Part::Repeat, 0, 4, 2)];
    assert!(at(&log).place.starts_with("pick 3 of 4 in repeat 5"), "{}", at(&log).place);
    assert_eq!(Progress::of(&log, 0).picks, 6);
    // Picks woven and unwoven since go on from there; a correction before it does not move it.
    log.sittings.push(sitting(3, Some(3), None));
    assert!(at(&log).place.starts_with("pick 2 of 4 in repeat 6"));
    log.sittings[0].picks = Some(60);
    assert!(at(&log).place.starts_with("pick 2 of 4 in repeat 6"));
    log.sittings.push(sitting(4, Some(-5), None));
    assert!(at(&log).place.starts_with("pick 1 of 4 in repeat 5"));
}

#[test]
fn what_was_said_within_a_sitting_counts_from_there() {
    let mut log = woven(6, lace());
    let id = log.sittings[0].id.clone();
    log.moments.places =
        vec![PlaceSaid { when: moment(Some(&id), Some(4), 2), piece: 0, part: Part::Repeat, repeat: 0, row: 0 }];
    assert!(at(&log).place.starts_with("pick 3 of 4 in repeat 1"));
    // And it goes with the sitting when that is removed.
    log.removed = std::mem::take(&mut log.sittings);
    assert!(at(&log).place.starts_with("pick 1 of 2 in the opening border"));
}

#[test]
fn the_next_piece_begins_after_the_closing_border() {
    let mut log = woven(6, lace());
    log.warp.pieces = 2;
    log.moments.places = vec![said(&log, Part::Balance, 0, 1, 0)];
    assert_eq!(at(&log).place, "pick 1 of 2 in the balance");
    for (picks, place, piece) in [
        (2, "pick 1 of 3 in the closing border", "piece 1 of 2"),
        (4, "pick 3 of 3 in the closing border", "piece 1 of 2"),
        (5, "pick 1 of 2 in the opening border", "piece 2 of 2"),
        (7, "pick 1 of 4 in repeat 1", "piece 2 of 2"),
    ] {
        let mut on = log.clone();
        on.sittings.push(sitting(3, Some(picks), None));
        assert!(at(&on).place.starts_with(place), "{picks}: {}", at(&on).place);
        assert_eq!(at(&on).piece.as_deref(), Some(piece));
    }
    // The last piece ends.
    log.moments.places = vec![said(&log, Part::Closing, 1, 1, 2)];
    log.sittings.push(sitting(3, Some(1), None));
    assert_eq!(at(&log).place, "all rows are woven");
    assert_eq!(at(&log).last.as_deref(), Some("heddle up, stick at the back"));
}

#[test]
fn two_picks_in_one_shed_are_warned_of() {
    // The repeat ends with up, and so does what came before the balance that begins with up.
    let mut log = woven(6, rows(&["down", "stick", "down", "up"]));
    assert_eq!(at(&log).warning, None);
    log.moments.places = vec![said(&log, Part::Balance, 0, 1, 0)];
    assert!(at(&log).warning.unwrap().contains("same shed"));
    let odd = woven(3, Rows { repeat: vec!["up".into(), "down".into(), "up".into()], ..Rows::default() });
    assert!(at(&odd).warning.is_some(), "an odd repeat meets itself");
    let edge = Rows { repeat: vec!["stick".into(), "down, stick on edge".into()], ..Rows::default() };
    assert!(at(&woven(1, edge)).warning.is_some(), "the stick on edge, with the heddle at rest or down");
}

#[test]
fn the_end_is_offered_when_another_repeat_would_be_too_long() {
    // 1.8 m at 40 picks per 10 cm are 720 picks: 2 + 178 repeats + 2 + 3 leave one over.
    let early = at(&woven(2 + 4 * 177, lace()));
    assert!(early.due.is_none() && early.place.contains("about 1 repeat ("), "{}", early.place);
    let due = at(&woven(2 + 4 * 178, lace())).due.unwrap();
    assert_eq!((due.to.section.as_str(), due.to.repeat.as_str()), ("balance", "178"));
    assert!(at(&woven(3 + 4 * 178, lace())).due.is_none(), "not in the middle of a repeat");
}

#[test]
fn a_place_is_chosen_within_the_sequence() {
    let log = woven(6, lace());
    let format = fellmark_model::display_format::DisplayFormat::default();
    let read = Reader { format: &format, today: chrono::NaiveDate::MIN };
    let form =
        |section: &str, row: &str| PlaceForm { section: section.into(), row: row.into(), ..PlaceForm::default() };
    let set = read_place(&form("repeat", "3"), &log, 0, read).unwrap();
    assert_eq!((&set["repeat"], &set["row"], &set["piece"]), (&2.into(), &3.into(), &1.into()));
    assert_eq!(read_place(&form("repeat", "5"), &log, 0, read).unwrap_err().field.as_deref(), Some("row"));
    assert_eq!(read_place(&form("middle", "1"), &log, 0, read).unwrap_err().field.as_deref(), Some("section"));
    let places = places(&log, 0).unwrap();
    assert_eq!((places.sections.len(), places.now.repeat.as_str()), (4, "2"));
}

#[test]
fn numbers_are_sheds_of_another_loom() {
    let numbers = woven(1, Rows { repeat: vec!["1 2 3 4".into()], ..Rows::default() });
    assert_eq!(at(&numbers).heddle, None);
    assert!(at(&numbers).place.starts_with("pick 2 of 4"));
}

#[test]
fn a_row_that_is_no_row_is_named() {
    let message = check_rows(&["up".into(), "sideways".into()]).unwrap_err();
    let sentence = crate::messages::text(&message, &fellmark_model::display_format::DisplayFormat::default());
    assert!(sentence.contains("sideways") && sentence.contains("up + stick"), "{sentence}");
}

#[test]
fn no_rows_no_place() {
    let log = woven(3, Rows::default());
    assert!(place(&log, &Progress::of(&log, 0), &DisplayFormat::default()).is_none());
}
