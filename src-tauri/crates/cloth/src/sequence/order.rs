//! The order of picks and the place in it.
//!
//! Invariants: total = opening border + n × repeat + balance + closing border; an even repeat brings the shuttle back
//! to its side; a piece finishes on a whole repeat and its balance.

use crate::error::Refused;
use crate::state::{PicksIn, UnderTension, WovenLength};

/// More rows than anyone writes out; keeps a mistyped file from filling the memory.
const MOST_ROWS: usize = 100_000;

/// A sequence of rows of one kind.
#[derive(Debug, Clone, PartialEq, Eq, Default, serde::Serialize, serde::Deserialize)]
pub struct Sequence<R> {
    /// Woven once at the start.
    #[serde(default = "Vec::new")]
    pub opening: Vec<R>,
    /// Woven again and again.
    pub repeat: Vec<R>,
    /// Woven once after the last repeat so that it ends as it began.
    #[serde(default = "Vec::new")]
    pub balance: Vec<R>,
    /// Woven once at the end.
    #[serde(default = "Vec::new")]
    pub closing: Vec<R>,
}

/// A part of the sequence.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Section {
    /// The opening border.
    Opening,
    /// A repeat.
    Repeat,
    /// The balance after the last repeat.
    Balance,
    /// The closing border.
    Closing,
}

/// The next pick.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PickPosition<R> {
    /// Where it lies.
    pub section: Section,
    /// Which repeat it is, from 0; `None` outside of repeats.
    pub repeat: Option<u64>,
    /// Its row within the section, from 0.
    pub row: usize,
    /// How many rows the section has.
    pub rows: usize,
    /// What to do.
    pub next: R,
    /// What the last pick beaten was, `None` at the very start.
    pub last: Option<R>,
}

/// Where a net number of picks leads.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Where<R> {
    /// More was unwoven than woven: so many picks before the first.
    BeforeStart {
        /// Picks missing to the start.
        picks: u64,
    },
    /// In the sequence.
    Weaving(PickPosition<R>),
    /// The last pick is woven.
    Done {
        /// Picks woven beyond it.
        beyond: u64,
        /// The last pick of the sequence.
        last: Option<R>,
    },
}

/// Whole repeats in a length, centred.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fitted {
    /// Whole repeats.
    pub repeats: u64,
    /// Picks of the whole sequence with these repeats.
    pub picks: u64,
    /// Their length under tension.
    pub length: WovenLength,
    /// Picks that remain of the length wanted; share them between the borders so that the pattern sits in the middle.
    pub remaining: u64,
    /// Of these, to add to the opening border.
    pub to_opening: u64,
    /// Of these, to add to the closing border (one more than the opening if they are odd).
    pub to_closing: u64,
}

/// The side the shuttle lies on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Side {
    /// Left.
    Left,
    /// Right.
    Right,
}

impl Side {
    /// Where a shuttle that started here lies after so many picks, woven or unwoven: each pick takes it across. Joins
    /// and second shuttles break the rule; start again from what is seen then.
    #[must_use]
    pub fn after(self, net_picks: i64) -> Self {
        match (self, net_picks.rem_euclid(2)) {
            (side, 0) => side,
            (Self::Left, _) => Self::Right,
            (Self::Right, _) => Self::Left,
        }
    }
}

impl<R: Clone> Sequence<R> {
    /// A repeat alone.
    pub fn repeating(repeat: Vec<R>) -> Self {
        Self { opening: Vec::new(), repeat, balance: Vec::new(), closing: Vec::new() }
    }

    /// Refuses a sequence without any row, or with absurdly many.
    /// # Errors
    /// In these cases.
    pub fn check(&self) -> Result<(), Refused> {
        let rows = self.outside_repeats() + self.repeat.len();
        if rows == 0 {
            return Err(Refused::DoesNotFit("a sequence needs at least one row".into()));
        }
        if rows > MOST_ROWS {
            return Err(Refused::DoesNotFit(format!("a sequence of {rows} rows is too long to be meant")));
        }
        Ok(())
    }

    fn outside_repeats(&self) -> usize {
        self.opening.len() + self.balance.len() + self.closing.len()
    }

    /// Picks in all: opening + n × repeat + balance + closing.
    pub fn picks(&self, repeats: u64) -> u64 {
        repeats.saturating_mul(self.repeat.len() as u64).saturating_add(self.outside_repeats() as u64)
    }

    /// Whether a repeat brings the shuttle back to its side.
    pub fn returns_the_shuttle(&self) -> bool {
        self.repeat.len().is_multiple_of(2)
    }

    /// The row of a pick, counted from 0; `repeats` is `None` while the number of repeats is open.
    pub fn row(&self, pick: u64, repeats: Option<u64>) -> Option<(Section, Option<u64>, usize, &R)> {
        let mut at = pick;
        let opening = self.opening.len() as u64;
        if at < opening {
            return Self::find(&self.opening, Section::Opening, None, at);
        }
        at -= opening;
        let rows = self.repeat.len() as u64;
        if rows > 0 && repeats.is_none_or(|n| at / rows < n) {
            return Self::find(&self.repeat, Section::Repeat, Some(at / rows), at % rows);
        }
        // Without repeats in it, an open sequence ends with its opening.
        at -= repeats?.saturating_mul(rows);
        if let Some(found) = Self::find(&self.balance, Section::Balance, None, at) {
            return Some(found);
        }
        Self::find(&self.closing, Section::Closing, None, at - self.balance.len() as u64)
    }

    fn find(rows: &[R], section: Section, repeat: Option<u64>, at: u64) -> Option<(Section, Option<u64>, usize, &R)> {
        let row = usize::try_from(at).ok()?;
        Some((section, repeat, row, rows.get(row)?))
    }

    fn rows_of(&self, section: Section) -> usize {
        match section {
            Section::Opening => self.opening.len(),
            Section::Repeat => self.repeat.len(),
            Section::Balance => self.balance.len(),
            Section::Closing => self.closing.len(),
        }
    }

    /// Where a net number of picks leads, whatever was woven and unwoven on the way.
    pub fn place(&self, net_picks: i64, repeats: Option<u64>) -> Where<R> {
        let Ok(woven) = u64::try_from(net_picks) else {
            return Where::BeforeStart { picks: net_picks.unsigned_abs() };
        };
        let before = |pick: u64| pick.checked_sub(1).and_then(|last| self.row(last, repeats)).map(|(.., r)| r.clone());
        match self.row(woven, repeats) {
            Some((section, repeat, row, next)) => Where::Weaving(PickPosition {
                section,
                repeat,
                row,
                rows: self.rows_of(section),
                next: next.clone(),
                last: before(woven),
            }),
            None => {
                let total = match repeats {
                    Some(n) => self.picks(n),
                    None => self.opening.len() as u64,
                };
                Where::Done { beyond: woven.saturating_sub(total), last: before(total) }
            }
        }
    }

    /// The rows in order, with so many repeats.
    /// # Errors
    /// If that is absurdly many.
    pub fn written_out(&self, repeats: u64) -> Result<Vec<R>, Refused> {
        let picks = self.picks(repeats);
        if picks > MOST_ROWS as u64 {
            return Err(Refused::DoesNotFit(format!("{picks} rows are too many to write out")));
        }
        Ok((0..picks).filter_map(|pick| self.row(pick, Some(repeats)).map(|(.., row)| row.clone())).collect())
    }

    /// Whole repeats that fit in a length, with the picks that remain shared out so that the pattern is centred.
    /// # Errors
    /// If the borders and the balance alone are longer than that, or there is no repeat.
    pub fn fitted(&self, length: WovenLength, rate: PicksIn<UnderTension>) -> Result<Fitted, Refused> {
        if self.repeat.is_empty() {
            return Err(Refused::DoesNotFit("there is no repeat to fit".into()));
        }
        // A length of at most 10 km at 1000 picks per cm is 10⁹ picks.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let wanted = (rate.threads_in(length) + 1e-6).floor().max(0.0) as u64;
        let Some(for_repeats) = wanted.checked_sub(self.outside_repeats() as u64) else {
            return Err(Refused::DoesNotFit(format!(
                "the borders and the balance take {} picks, and the length holds {wanted}",
                self.outside_repeats()
            )));
        };
        let repeats = for_repeats / self.repeat.len() as u64;
        let remaining = for_repeats % self.repeat.len() as u64;
        let picks = self.picks(repeats);
        // At most 10⁹, see above.
        #[allow(clippy::cast_precision_loss)]
        let length = rate.extent_of(picks as f64)?;
        let to_opening = remaining / 2;
        Ok(Fitted { repeats, picks, length, remaining, to_opening, to_closing: remaining - to_opening })
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic)]
    use super::*;

    fn letters() -> Sequence<char> {
        let rows = |text: &str| text.chars().collect();
        Sequence { opening: rows("ab"), repeat: rows("wxyz"), balance: rows("wx"), closing: rows("c") }
    }

    fn next(net: i64, repeats: Option<u64>) -> char {
        match letters().place(net, repeats) {
            Where::Weaving(place) => place.next,
            Where::Done { .. } => '.',
            Where::BeforeStart { .. } => '<',
        }
    }

    #[test]
    fn the_place_after_any_number_of_picks() {
        let reported: String = (-1..15).map(|n| next(n, Some(2))).collect();
        assert_eq!(reported, "<abwxyzwxyzwxc..");
        assert_eq!(letters().picks(2), 13);
        let open: String = (0..12).map(|n| next(n, None)).collect();
        assert_eq!(open, "abwxyzwxyzwx");
        let written: String = letters().written_out(2).unwrap().into_iter().collect();
        assert_eq!(written, "abwxyzwxyzwxc");
    }

    #[test]
    fn the_last_pick_beaten_is_named() {
        let Where::Weaving(place) = letters().place(6, Some(2)) else { panic!() };
        assert_eq!((place.section, place.repeat, place.row, place.rows), (Section::Repeat, Some(1), 0, 4));
        assert_eq!((place.next, place.last), ('w', Some('z')));
        assert_eq!(letters().place(14, Some(2)), Where::Done { beyond: 1, last: Some('c') });
        assert_eq!(letters().place(-3, Some(2)), Where::BeforeStart { picks: 3 });
        assert_eq!(letters().place(i64::MIN, None), Where::BeforeStart { picks: 1 << 63 });
        let Where::Weaving(_) = letters().place(i64::MAX, None) else { panic!() };
    }

    #[test]
    fn whole_repeats_are_centred() {
        let rate = PicksIn::from_per_inch(10.0).unwrap();
        let fit = letters().fitted(WovenLength::from_inches(4.8).unwrap(), rate).unwrap();
        // 48 picks: 5 outside, 43 are 10 repeats of 4 and 3 over.
        assert_eq!((fit.repeats, fit.remaining, fit.to_opening, fit.to_closing), (10, 3, 1, 2));
        assert_eq!(fit.picks, 45);
        assert!(letters().fitted(WovenLength::from_inches(0.1).unwrap(), rate).is_err());
        assert!(Sequence::<char>::default().fitted(WovenLength::ZERO, rate).is_err());
    }

    #[test]
    fn an_even_repeat_returns_the_shuttle() {
        assert!(letters().returns_the_shuttle());
        assert_eq!(Side::Left.after(4), Side::Left);
        assert_eq!(Side::Left.after(3), Side::Right);
        assert_eq!(Side::Right.after(-1), Side::Left);
    }

    #[test]
    fn nothing_is_no_sequence() {
        assert!(Sequence::<char>::default().check().is_err());
        assert!(letters().check().is_ok());
        assert!(letters().written_out(u64::MAX).is_err());
        assert_eq!(Sequence::<char>::default().place(0, None), Where::Done { beyond: 0, last: None });
    }
}
