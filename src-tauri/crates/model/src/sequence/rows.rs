//! The rows as the weaver wrote them, read.

use fellmark_cloth::sequence::{Heddle, HeddleRow, Sequence, Shed, Stick, rows_from_words};
use fellmark_cloth::state::{PicksIn, UnderTension, WovenLength};

use crate::{Message, Rows, messages};

/// One row: on a rigid heddle, or a numbered shed of another loom.
#[derive(Clone, Debug, PartialEq)]
pub enum Row {
    /// A row of a rigid heddle.
    Heddle(HeddleRow),
    /// A numbered shed.
    Shed(Shed),
}

/// Reads the rows of a section.
pub fn read(rows: &[String]) -> Result<Vec<Row>, Message> {
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
    rows_from_words(&rows.join("\n"))
        .map(|rows| rows.into_iter().map(Row::Heddle).collect())
        .map_err(|error| messages::unreadable_rows(error.to_string()))
}

/// Checks that rows can be read; the message says what is wrong.
///
/// # Errors
/// A row is not understood.
pub fn check_rows(rows: &[String]) -> Result<(), Message> {
    read(rows).map(|_| ())
}

/// Whether a sequence is written down at all.
#[must_use]
pub fn has_rows(rows: &Rows) -> bool {
    !(rows.opening.is_empty() && rows.repeat.is_empty())
}

/// The pick sequence of the rows; nothing where they cannot be read.
pub fn sequence(rows: &Rows) -> Option<Sequence<Row>> {
    let sequence = Sequence {
        opening: read(&rows.opening).ok()?,
        repeat: read(&rows.repeat).ok()?,
        balance: read(&rows.balance).ok()?,
        closing: read(&rows.closing).ok()?,
    };
    sequence.check().ok()?;
    has_rows(rows).then_some(sequence)
}

/// How many pick-up sticks the sequence uses.
pub fn sticks(sequence: &Sequence<Row>) -> usize {
    let rows = [&sequence.opening, &sequence.repeat, &sequence.balance, &sequence.closing];
    let heddle_rows = rows.iter().flat_map(|rows| rows.iter()).filter_map(|row| match row {
        Row::Heddle(row) => Some(*row),
        Row::Shed(_) => None,
    });
    Sequence::repeating(heddle_rows.collect()).sticks()
}

/// Whether two rows open the same shed, so that the second pick would pull the first one out.
pub fn same_shed(one: &Row, other: &Row) -> bool {
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

/// Where heddle and sticks stand for a row.
pub fn positions(row: &Row, sticks: usize) -> (Option<String>, Option<String>) {
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

/// Whole repeats that a piece of this length under tension holds, centred; nothing where no repeat is written down.
pub fn fitted(
    rows: &Rows,
    length: WovenLength,
    rate: PicksIn<UnderTension>,
) -> Option<Result<fellmark_cloth::sequence::Fitted, fellmark_cloth::Refused>> {
    let sequence = sequence(rows).filter(|sequence| !sequence.repeat.is_empty())?;
    Some(sequence.fitted(length, rate))
}
