//! The pick sequence as she wrote it, and the place in it.

use fellmark_cloth::sequence::{Heddle, HeddleRow, Section, Sequence, Shed, Stick, Where, rows_from_words};
use fellmark_cloth::state::{PicksIn, UnderTension, WovenLength};

use crate::fields;
use crate::forms::FieldMap;
use crate::measures::Reader;
use crate::model::{Rows, WarpLog};
use crate::moments::{Course, Part, PlaceSaid};
use crate::progress::Progress;
use crate::view::{PlaceDue, PlaceForm, PlaceSection, PlaceView, Places, Trouble};

/// One row: on a rigid heddle, or a numbered shed of another loom.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Row {
    Heddle(HeddleRow),
    Shed(Shed),
}

/// Reads the rows of a section.
pub(crate) fn read(rows: &[String]) -> Result<Vec<Row>, String> {
    if rows.is_empty() {
        return Ok(Vec::new());
    }
    let numbers: Option<Vec<Row>> = rows
        .iter()
        .flat_map(|row| row.split([',', ';', ' ']))
        .filter(|word| !word.is_empty())
        .map(|word| word.parse().ok().filter(|n| (1..=999).contains(n)).map(|n| Row::Shed(Shed(n))))
        .collect();
    if let Some(numbers) = numbers {
        return Ok(numbers);
    }
    rows_from_words(&rows.join("\n")).map(|rows| rows.into_iter().map(Row::Heddle).collect()).map_err(|error| {
        let text = error.to_string();
        let mut letters = text.chars();
        let first = letters.next().map(|c| c.to_uppercase().to_string()).unwrap_or_default();
        format!(
            "{first}{}. Write one row to a line: up, down, stick, or up + stick; on another loom the numbers of the sheds.",
            letters.as_str()
        )
    })
}

/// Whether rows can be read; the sentence says what is wrong.
///
/// # Errors
/// A row is not understood.
pub fn check_rows(rows: &[String]) -> Result<(), String> {
    read(rows).map(|_| ())
}

/// Whether a sequence is written down at all.
#[must_use]
pub fn has_rows(rows: &Rows) -> bool {
    !(rows.opening.is_empty() && rows.repeat.is_empty())
}

pub(crate) fn sequence(rows: &Rows) -> Option<Sequence<Row>> {
    let sequence = Sequence {
        opening: read(&rows.opening).ok()?,
        repeat: read(&rows.repeat).ok()?,
        balance: read(&rows.balance).ok()?,
        closing: read(&rows.closing).ok()?,
    };
    sequence.check().ok()?;
    has_rows(rows).then_some(sequence)
}

pub(crate) fn sticks(sequence: &Sequence<Row>) -> usize {
    let rows = [&sequence.opening, &sequence.repeat, &sequence.balance, &sequence.closing];
    let heddle_rows = rows.iter().flat_map(|rows| rows.iter()).filter_map(|row| match row {
        Row::Heddle(row) => Some(*row),
        Row::Shed(_) => None,
    });
    Sequence::repeating(heddle_rows.collect()).sticks()
}

pub(crate) fn instruction(row: &Row, sticks: usize) -> String {
    match row {
        Row::Heddle(row) => row.instruction(sticks),
        Row::Shed(shed) => shed.instruction(),
    }
}

/// Whether two rows open the same shed, so that the second pick would pull the first one out.
fn same_shed(one: &Row, other: &Row) -> bool {
    let opened = |row: &HeddleRow| {
        let on_edge = row.stick == Stick::OnEdge || row.second == Stick::OnEdge;
        match row.heddle {
            // Some keep the heddle down while the stick stands on edge; the shed is the same.
            Heddle::Down if on_edge => HeddleRow { heddle: Heddle::AtRest, ..*row },
            // With the slot ends up a flat stick lifts nothing more.
            Heddle::Down => HeddleRow::DOWN,
            Heddle::Up | Heddle::AtRest => *row,
        }
    };
    match (one, other) {
        (Row::Heddle(one), Row::Heddle(other)) => opened(one) == opened(other),
        (Row::Shed(one), Row::Shed(other)) => one == other,
        _ => false,
    }
}

/// A spot in the sequences of a warp's pieces.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Spot {
    /// Which piece, from 0.
    piece: u32,
    /// Whole repeats of this piece, once she went on to its balance or closing border.
    repeats: Option<u64>,
    /// Picks of this piece before the next one.
    index: i64,
}

impl Spot {
    const START: Self = Self { piece: 0, repeats: None, index: 0 };

    fn of(said: &PlaceSaid, sequence: &Sequence<Row>) -> Self {
        let rows = |rows: &[Row]| i64::try_from(rows.len()).unwrap_or(i64::MAX);
        let row = |of: &[Row]| i64::try_from(said.row).unwrap_or(0).min((rows(of) - 1).max(0));
        let repeat = i64::try_from(said.repeat).unwrap_or(0);
        let before = rows(&sequence.opening) + repeat * rows(&sequence.repeat);
        let (repeats, index) = match said.part {
            Part::Opening => (None, row(&sequence.opening)),
            Part::Repeat => (None, before + row(&sequence.repeat)),
            Part::Balance => (Some(said.repeat), before + row(&sequence.balance)),
            Part::Closing => (Some(said.repeat), before + rows(&sequence.balance) + row(&sequence.closing)),
        };
        Self { piece: said.piece, repeats, index }
    }

    /// Further on by so many picks; what goes beyond the end of a piece begins the next one.
    fn moved(self, picks: i64, sequence: &Sequence<Row>, pieces: u32) -> Self {
        let mut spot = Self { index: self.index.saturating_add(picks), ..self };
        while let Some(repeats) = spot.repeats
            && spot.piece + 1 < pieces
            && let Ok(whole) = i64::try_from(sequence.picks(repeats))
            && spot.index >= whole
        {
            spot = Self { piece: spot.piece + 1, repeats: None, index: spot.index - whole };
        }
        spot
    }

    fn at(self, sequence: &Sequence<Row>) -> Where<Row> {
        sequence.place(self.index, self.repeats)
    }
}

/// Where she is, and what she beat last: after a section was begun on purpose that is the row woven before it.
fn spot_now(log: &WarpLog, sequence: &Sequence<Row>, running_picks: i64) -> (Spot, Option<Row>) {
    let course = Course::of(log, running_picks);
    let pieces = log.warp.pieces;
    let said: Vec<(&PlaceSaid, i64)> =
        log.moments.places.iter().filter_map(|said| Some((said, course.picks_since(&said.when)?))).collect();
    let spot_of = |which: Option<&(&PlaceSaid, i64)>, picks: i64| match which {
        Some((said, _)) => Spot::of(said, sequence).moved(picks, sequence, pieces),
        None => Spot::START.moved(picks, sequence, pieces),
    };
    let Some((last, earlier)) = said.split_last() else {
        let spot = spot_of(None, course.picks());
        return (spot, last_of(&spot.at(sequence)));
    };
    let (place, since) = *last;
    let spot = spot_of(Some(last), since);
    if since == 0 && place.row == 0 && place.part != Part::Repeat {
        let before = earlier.last();
        let picks = before.map_or_else(|| course.picks(), |(_, since)| *since);
        return (spot, last_of(&spot_of(before, picks).at(sequence)));
    }
    (spot, last_of(&spot.at(sequence)))
}

fn last_of(at: &Where<Row>) -> Option<Row> {
    match at {
        Where::Weaving(at) => at.last.clone(),
        Where::Done { last, .. } => last.clone(),
        Where::BeforeStart { .. } => None,
    }
}

fn picks_words(picks: usize) -> String {
    if picks == 1 { "1 pick".into() } else { format!("{picks} picks") }
}

/// The place a warp is at: what comes next, and where that is. Repeats go on until she says otherwise, so that the
/// closing border never begins by itself; after it the next piece begins.
#[must_use]
pub fn place(log: &WarpLog, progress: &Progress) -> Option<PlaceView> {
    let sequence = sequence(&log.warp.rows)?;
    let sticks = sticks(&sequence);
    let (spot, last) = spot_now(log, &sequence, progress.running_picks);
    let piece = (log.warp.pieces > 1).then(|| format!("piece {} of {}", spot.piece + 1, log.warp.pieces));
    let begun = progress.running_picks == 0
        && log.running.is_none()
        && log.sittings.last().is_some_and(|sitting| sitting.pick_begun);
    let mut view = PlaceView {
        last: last.as_ref().map(|row| instruction(row, sticks)),
        next: String::new(),
        then: None,
        place: String::new(),
        left: String::new(),
        piece,
        warning: None,
        due: None,
        begun,
        row: 0,
        rows: 0,
        heddle: None,
        stick: None,
    };
    match spot.at(&sequence) {
        Where::BeforeStart { picks } => {
            let first = sequence.opening.first().or_else(|| sequence.repeat.first())?;
            (view.heddle, view.stick) = positions(first, sticks);
            view.next = instruction(first, sticks);
            view.place = format!("{} before the first", picks_words(usize::try_from(picks).unwrap_or(usize::MAX)));
            (view.row, view.rows) = (1, sequence.opening.len().max(sequence.repeat.len()));
        }
        Where::Weaving(at) => {
            (view.heddle, view.stick) = positions(&at.next, sticks);
            view.next = instruction(&at.next, sticks);
            (view.row, view.rows) = (at.row + 1, at.rows);
            if let Where::Weaving(after) = spot.moved(1, &sequence, log.warp.pieces).at(&sequence) {
                view.then = Some(instruction(&after.next, sticks));
            }
            let room = Room::of(&sequence, progress, spot);
            let row = view.row;
            let place = match (at.section, at.repeat) {
                (Section::Opening, _) => format!("pick {row} of {} in the opening border", at.rows),
                (Section::Repeat, repeat) => {
                    let more = room.and_then(|room| room.repeats()).map(|n| format!(", about {n} to go"));
                    let which = repeat.map_or(0, |repeat| repeat) + 1;
                    format!("pick {row} of {} in repeat {which}{}", at.rows, more.unwrap_or_default())
                }
                (Section::Balance, _) => format!("pick {row} of {} in the balance", at.rows),
                (Section::Closing, _) => format!("pick {row} of {} in the closing border", at.rows),
            };
            view.place = place;
            view.left = format!("{} left", picks_words(at.rows - at.row));
            if at.section == Section::Repeat {
                view.due = room.and_then(|room| room.due(at.row, spot.piece, log.warp.pieces, at.repeat.unwrap_or(0)));
            }
            if last.as_ref().is_some_and(|last| same_shed(last, &at.next)) {
                view.warning = Some(
                    "The last pick lies in this same shed and would be pulled out. Weave one in between, or change the                      sequence."
                        .into(),
                );
            }
        }
        Where::Done { .. } => {
            view.next = "the end of the sequence".into();
            view.place = "all rows are woven".into();
        }
    }
    Some(view)
}

/// How many picks the piece being woven still has room for, and what its sequence takes of them.
#[derive(Clone, Copy)]
struct Room {
    picks: i64,
    repeat: i64,
    balance: i64,
    closing: i64,
}

impl Room {
    fn of(sequence: &Sequence<Row>, progress: &Progress, spot: Spot) -> Option<Self> {
        let end_of_piece = progress.piece_ends_mm.get(spot.piece as usize).or(progress.piece_ends_mm.last())?;
        let to_end_of_piece = end_of_piece - progress.woven_mm();
        let left = WovenLength::from_mm(to_end_of_piece.max(0.0)).ok()?;
        let rate = PicksIn::<UnderTension>::from_per_10cm(progress.picks_per_mm? * 100.0).ok()?;
        let count = |rows: &[Row]| i64::try_from(rows.len()).unwrap_or(i64::MAX);
        Some(Self {
            picks: rate.threads_in(left).round() as i64,
            repeat: count(&sequence.repeat),
            balance: count(&sequence.balance),
            closing: count(&sequence.closing),
        })
    }

    /// Whole repeats there is room for, balance and closing border set aside.
    fn repeats(self) -> Option<i64> {
        let for_repeats = self.picks - self.balance - self.closing;
        (self.repeat > 0 && for_repeats >= 0).then(|| for_repeats / self.repeat)
    }

    /// At the start of a repeat: that another one would make the piece longer than wanted by more than leaving it out makes it
    /// shorter.
    fn due(self, row: usize, piece: u32, pieces: u32, repeats_woven: u64) -> Option<PlaceDue> {
        let another = self.picks - self.balance - self.closing;
        if row != 0 || another * 2 >= self.repeat {
            return None;
        }
        let to = |part: Part, piece: u32, repeat: u64| PlaceForm {
            piece: (piece + 1).to_string(),
            section: part.word().into(),
            repeat: repeat.to_string(),
            row: "1".into(),
        };
        let (what, part) = match (self.balance > 0, self.closing > 0) {
            (true, _) => ("the balance", Part::Balance),
            (false, true) => ("the closing border", Part::Closing),
            (false, false) if piece + 1 < pieces => {
                return Some(PlaceDue {
                    sentence: "This piece is as long as wanted.".into(),
                    words: format!("Begin piece {}", piece + 2),
                    to: to(Part::Opening, piece + 1, 1),
                });
            }
            (false, false) => return None,
        };
        Some(PlaceDue {
            sentence: format!("Another whole repeat would be too long: {what} comes now."),
            words: format!("Begin {what}"),
            to: to(part, piece, repeats_woven),
        })
    }
}

fn section_name(part: Part) -> &'static str {
    match part {
        Part::Opening => "Opening border",
        Part::Repeat => "Repeat",
        Part::Balance => "Balance",
        Part::Closing => "Closing border",
    }
}

fn rows_of(sequence: &Sequence<Row>, part: Part) -> &[Row] {
    match part {
        Part::Opening => &sequence.opening,
        Part::Repeat => &sequence.repeat,
        Part::Balance => &sequence.balance,
        Part::Closing => &sequence.closing,
    }
}

/// The places she can go to, and where she is; nothing without a sequence.
#[must_use]
pub fn places(log: &WarpLog, running_picks: i64) -> Option<Places> {
    let sequence = sequence(&log.warp.rows)?;
    let sticks = sticks(&sequence);
    let (spot, _) = spot_now(log, &sequence, running_picks);
    let form = |piece: u32, part: Part, repeat: u64, row: usize| PlaceForm {
        piece: (piece + 1).to_string(),
        section: part.word().into(),
        repeat: repeat.to_string(),
        row: (row + 1).to_string(),
    };
    let now = match spot.at(&sequence) {
        Where::Weaving(at) => match at.section {
            Section::Opening => form(spot.piece, Part::Opening, 1, at.row),
            Section::Repeat => form(spot.piece, Part::Repeat, at.repeat.unwrap_or(0) + 1, at.row),
            Section::Balance => form(spot.piece, Part::Balance, spot.repeats.unwrap_or(0), at.row),
            Section::Closing => form(spot.piece, Part::Closing, spot.repeats.unwrap_or(0), at.row),
        },
        Where::BeforeStart { .. } | Where::Done { .. } => form(spot.piece, Part::Opening, 1, 0),
    };
    let sections = Part::ALL.into_iter().filter(|part| !rows_of(&sequence, *part).is_empty());
    Some(Places {
        now,
        pieces: log.warp.pieces,
        sections: sections
            .map(|part| PlaceSection {
                section: part.word().into(),
                name: section_name(part).into(),
                rows: rows_of(&sequence, part).iter().map(|row| instruction(row, sticks)).collect(),
            })
            .collect(),
    })
}

/// Reads a place she chose into the journal's fields.
///
/// # Errors
/// There is no sequence, or no such place in it.
pub fn read_place(form: &PlaceForm, log: &WarpLog, running_picks: i64, read: Reader<'_>) -> Result<FieldMap, Trouble> {
    let Some(sequence) = sequence(&log.warp.rows) else {
        return Err(Trouble::new("This warp has no pick sequence yet. Write its rows down first."));
    };
    let (spot, _) = spot_now(log, &sequence, running_picks);
    let part = match form.section.trim() {
        "" => Part::Repeat,
        word => Part::from_word(word).ok_or_else(|| {
            Trouble::at(
                "section",
                format!("\u{201c}{word}\u{201d} is no section: opening, repeat, balance or closing."),
            )
        })?,
    };
    let rows = rows_of(&sequence, part).len();
    if rows == 0 {
        let name = section_name(part).to_lowercase();
        return Err(Trouble::at(
            "section",
            format!("The {name} has no rows. Choose another section, or write its rows."),
        ));
    }
    let pieces = i64::from(log.warp.pieces);
    let rows = i64::try_from(rows).unwrap_or(i64::MAX);
    let piece = read.whole_between("piece", "the piece", &form.piece, 1, pieces)?.unwrap_or(i64::from(spot.piece) + 1);
    let row = read.whole_between("row", "the row", &form.row, 1, rows)?.unwrap_or(1);
    let least = i64::from(part == Part::Repeat);
    let repeat = read.whole_between("repeat", "the repeat", &form.repeat, least, 1_000_000)?;
    let woven = match spot.at(&sequence) {
        Where::Weaving(at) => at.repeat.or(spot.repeats).unwrap_or(0),
        Where::BeforeStart { .. } => 0,
        Where::Done { .. } => spot.repeats.unwrap_or(0),
    };
    let repeat = repeat.unwrap_or_else(|| i64::try_from(woven).unwrap_or(0) + least);
    let mut set = FieldMap::new();
    set.insert(fields::place::PIECE.into(), serde_json::json!(piece));
    set.insert(fields::place::SECTION.into(), serde_json::json!(part.word()));
    if part != Part::Opening {
        set.insert(fields::place::REPEAT.into(), serde_json::json!(repeat));
    }
    set.insert(fields::place::ROW.into(), serde_json::json!(row));
    Ok(set)
}

/// Whole repeats that a piece of this length under tension holds, centred; nothing where no repeat is written down.
pub(crate) fn fitted(
    rows: &Rows,
    length: WovenLength,
    rate: PicksIn<UnderTension>,
) -> Option<Result<fellmark_cloth::sequence::Fitted, fellmark_cloth::Refused>> {
    let sequence = sequence(rows).filter(|sequence| !sequence.repeat.is_empty())?;
    Some(sequence.fitted(length, rate))
}

fn positions(row: &Row, sticks: usize) -> (Option<String>, Option<String>) {
    let Row::Heddle(row) = row else { return (None, None) };
    let heddle = match row.heddle {
        Heddle::Up => "up",
        Heddle::Down => "down",
        Heddle::AtRest => "rest",
    };
    let used = if row.second == Stick::AtBack { row.stick } else { row.second };
    let stick = match used {
        Stick::AtBack => "back",
        Stick::ForwardFlat => "forward",
        Stick::OnEdge => "edge",
    };
    (Some(heddle.into()), (sticks > 0).then(|| stick.into()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::tests::{log, sitting};
    use crate::moments::tests::moment;

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
        place(log, &Progress::of(log, 0)).unwrap()
    }

    fn said(log: &WarpLog, part: Part, piece: u32, repeat: u64, row: usize) -> PlaceSaid {
        let last = log.sittings.last().map(|sitting| sitting.id.clone());
        PlaceSaid { when: moment(last.as_ref(), None, 2), piece, part, repeat, row }
    }

    #[test]
    fn the_place_follows_net_picks() {
        let start = at(&woven(0, lace()));
        assert_eq!((start.last, start.place.as_str()), (None, "pick 1 of 2 in the opening border"));
        assert_eq!(start.left, "2 picks left");
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
        assert!(early.due.is_none() && early.place.contains("about 1 to go"), "{}", early.place);
        let due = at(&woven(2 + 4 * 178, lace())).due.unwrap();
        assert_eq!((due.to.section.as_str(), due.to.repeat.as_str()), ("balance", "178"));
        assert!(at(&woven(3 + 4 * 178, lace())).due.is_none(), "not in the middle of a repeat");
    }

    #[test]
    fn a_place_is_chosen_within_the_sequence() {
        let log = woven(6, lace());
        let manner = crate::manner::Manner::default();
        let read = Reader { manner: &manner, today: chrono::NaiveDate::MIN };
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
        let sentence = check_rows(&["up".into(), "sideways".into()]).unwrap_err();
        assert!(sentence.contains("sideways") && sentence.contains("up + stick"), "{sentence}");
    }

    #[test]
    fn no_rows_no_place() {
        let log = woven(3, Rows::default());
        assert!(place(&log, &Progress::of(&log, 0)).is_none());
    }
}
