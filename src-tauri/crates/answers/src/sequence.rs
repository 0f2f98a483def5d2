//! The pick sequence as she wrote it, and the place in it.

use fellmark_cloth::sequence::{Heddle, HeddleRow, Section, Sequence, Shed, Stick, Where, rows_from_words};
use fellmark_cloth::state::{PicksIn, UnderTension, WovenLength};

use crate::model::Rows;
use crate::progress::Progress;
use crate::view::PlaceView;

/// One row: on a rigid heddle, or a numbered shed of another loom.
#[derive(Clone, Debug, PartialEq)]
enum Row {
    Heddle(HeddleRow),
    Shed(Shed),
}

/// Reads the rows of a section.
fn read(rows: &[String]) -> Result<Vec<Row>, String> {
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

fn sequence(rows: &Rows) -> Option<Sequence<Row>> {
    let sequence = Sequence {
        opening: read(&rows.opening).ok()?,
        repeat: read(&rows.repeat).ok()?,
        balance: read(&rows.balance).ok()?,
        closing: read(&rows.closing).ok()?,
    };
    sequence.check().ok()?;
    has_rows(rows).then_some(sequence)
}

fn sticks(sequence: &Sequence<Row>) -> usize {
    let rows = [&sequence.opening, &sequence.repeat, &sequence.balance, &sequence.closing];
    let heddle_rows = rows.iter().flat_map(|rows| rows.iter()).filter_map(|row| match row {
        Row::Heddle(row) => Some(*row),
        Row::Shed(_) => None,
    });
    Sequence::repeating(heddle_rows.collect()).sticks()
}

fn instruction(row: &Row, sticks: usize) -> String {
    match row {
        Row::Heddle(row) => row.instruction(sticks),
        Row::Shed(shed) => shed.instruction(),
    }
}

/// The place after so many net picks: what comes next, and where that is. Repeats go on until she says otherwise, so that the
/// closing border never begins by itself.
#[must_use]
pub fn place(rows: &Rows, net_picks: i64, progress: &Progress) -> Option<PlaceView> {
    let sequence = sequence(rows)?;
    let sticks = sticks(&sequence);
    match sequence.place(net_picks, None) {
        Where::BeforeStart { picks } => {
            let first = sequence.opening.first().or_else(|| sequence.repeat.first())?;
            let (heddle, stick) = positions(first, sticks);
            Some(PlaceView {
                last: None,
                next: instruction(first, sticks),
                place: format!("{picks} picks before the first"),
                row: 1,
                rows: sequence.opening.len().max(sequence.repeat.len()),
                heddle,
                stick,
            })
        }
        Where::Weaving(at) => {
            let (heddle, stick) = positions(&at.next, sticks);
            let row = at.row + 1;
            let place = match (at.section, at.repeat) {
                (Section::Opening, _) => format!("pick {row} of {} in the opening border", at.rows),
                (Section::Repeat, Some(repeat)) => {
                    let more =
                        repeats_to_come(&sequence, progress).map(|n| format!(", about {n} to go")).unwrap_or_default();
                    format!("pick {row} of {} in repeat {}{more}", at.rows, repeat + 1)
                }
                (Section::Repeat, None) => format!("pick {row} of {} in the repeat", at.rows),
                (Section::Balance, _) => format!("pick {row} of {} in the balance", at.rows),
                (Section::Closing, _) => format!("pick {row} of {} in the closing border", at.rows),
            };
            Some(PlaceView {
                last: at.last.as_ref().map(|row| instruction(row, sticks)),
                next: instruction(&at.next, sticks),
                place,
                row,
                rows: at.rows,
                heddle,
                stick,
            })
        }
        Where::Done { last, .. } => Some(PlaceView {
            last: last.as_ref().map(|row| instruction(row, sticks)),
            next: "the end of the sequence".into(),
            place: "all rows are woven".into(),
            row: 0,
            rows: 0,
            heddle: None,
            stick: None,
        }),
    }
}

/// Whole repeats that the cloth still to weave has room for, balance and closing border set aside.
fn repeats_to_come(sequence: &Sequence<Row>, progress: &Progress) -> Option<u64> {
    let rate = PicksIn::<UnderTension>::from_per_10cm(progress.picks_per_mm? * 100.0).ok()?;
    let left = WovenLength::from_mm(progress.to_weave_mm?.max(0.0)).ok()?;
    let rest = Sequence { opening: Vec::new(), ..sequence.clone() };
    rest.fitted(left, rate).ok().map(|fitted| fitted.repeats)
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

    fn rows(repeat: &[&str]) -> Rows {
        let repeat = repeat.iter().map(|row| (*row).to_owned()).collect();
        Rows { opening: vec!["up".into(), "down".into()], repeat, ..Rows::default() }
    }

    fn after(net_picks: i64, rows: &Rows) -> PlaceView {
        place(rows, net_picks, &Progress::of(&crate::model::tests::log(), 0)).unwrap()
    }

    #[test]
    fn the_place_follows_net_picks() {
        let rows = rows(&["up", "stick", "up", "down"]);
        let start = after(0, &rows);
        assert_eq!((start.last, start.place.as_str()), (None, "pick 1 of 2 in the opening border"));
        let third = after(3, &rows);
        assert_eq!(third.next, "heddle at rest, stick forward and on edge");
        assert_eq!((third.heddle.as_deref(), third.stick.as_deref()), (Some("rest"), Some("edge")));
        assert!(third.place.starts_with("pick 2 of 4 in repeat 1"));
        assert_eq!(third.last.as_deref(), Some("heddle up, stick at the back"));
        assert!(after(6, &rows).place.starts_with("pick 1 of 4 in repeat 2"));
    }

    #[test]
    fn numbers_are_sheds_of_another_loom() {
        let rows = Rows { repeat: vec!["1 2 3 4".into()], ..Rows::default() };
        assert_eq!(after(1, &rows).heddle, None);
        assert!(after(1, &rows).place.starts_with("pick 2 of 4"));
    }

    #[test]
    fn a_row_that_is_no_row_is_named() {
        let sentence = check_rows(&["up".into(), "sideways".into()]).unwrap_err();
        assert!(sentence.contains("sideways") && sentence.contains("up + stick"), "{sentence}");
    }

    #[test]
    fn no_rows_no_place() {
        assert!(place(&Rows::default(), 3, &Progress::of(&crate::model::tests::log(), 0)).is_none());
    }
}
