//! Hours at the loom where nothing is known of the weaver's own pace: by common practice, row by row.

use fellmark_cloth::learned::{RowShares, SpeedPrior};
use fellmark_cloth::sequence::Stick;
use fellmark_cloth::state::WovenLength;
use fellmark_model::Rows;
use fellmark_model::sequence::{self, Row};

/// Hours at the loom.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HoursSpan {
    /// At the fast pace.
    pub low: f64,
    /// At the likely pace.
    pub likely: f64,
    /// At the slow pace.
    pub high: f64,
}

/// How many of the rows are woven how: of the repeat, or where there is none of all rows. Without rows all of it is plain, or all of
/// it rows with a stick.
#[must_use]
pub fn row_shares(rows: &Rows, is_pick_up: bool) -> RowShares {
    let unknown = if is_pick_up { RowShares { plain: 0.0, stick: 1.0, by_hand: 0.0 } } else { RowShares::PLAIN };
    let Some(sequence) = sequence::sequence(rows) else { return unknown };
    let all = [&sequence.opening, &sequence.balance, &sequence.closing];
    let counted: Vec<&Row> =
        if sequence.repeat.is_empty() { all.into_iter().flatten().collect() } else { sequence.repeat.iter().collect() };
    let share =
        |is: fn(&Row) -> bool| counted.iter().filter(|row| is(row)).count() as f64 / counted.len().max(1) as f64;
    // A second stick cannot pass the first: what it lifts is picked up anew (common practice, no source).
    let by_hand = share(|row| matches!(row, Row::Heddle(row) if row.second != Stick::AtBack));
    let stick =
        share(|row| matches!(row, Row::Heddle(row) if row.second == Stick::AtBack && row.stick != Stick::AtBack));
    RowShares { plain: 1.0 - by_hand - stick, stick, by_hand }
}

/// The hours that a length of cloth takes at a speed; nine weavers in ten lie between low and high.
#[must_use]
pub fn usual_hours(cloth: WovenLength, speed: SpeedPrior) -> HoursSpan {
    let inches = cloth.inches();
    HoursSpan { low: inches / speed.fast, likely: inches / speed.usual, high: inches / speed.slow }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn rows(repeat: &[&str]) -> Rows {
        Rows { repeat: repeat.iter().map(|row| (*row).to_owned()).collect(), ..Rows::default() }
    }

    #[test]
    fn one_stick_row_in_four_leaves_three_plain() {
        let shares = row_shares(&rows(&["up", "stick", "up", "down"]), true);
        assert_eq!(shares, RowShares { plain: 0.75, stick: 0.25, by_hand: 0.0 });
        let two_sticks = row_shares(&rows(&["up", "second stick"]), true);
        assert_eq!(two_sticks, RowShares { plain: 0.5, stick: 0.0, by_hand: 0.5 });
        assert_eq!(row_shares(&Rows::default(), false), RowShares::PLAIN);
        // 1016 picks at 45 to 10 cm are 225.8 cm, 88.9 in: 88.9 x (0.75 / 12 + 0.25 / 9.6) = 7.87 h.
        let hours = usual_hours(WovenLength::from_cm(1016.0 / 4.5).unwrap(), shares.speed());
        assert!((hours.likely - 7.87).abs() < 0.01, "{hours:?}");
    }
}
