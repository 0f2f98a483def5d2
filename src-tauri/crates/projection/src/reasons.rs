//! Why: the numbers an answer rests on, and one sentence made of them.

use chrono::NaiveDate;
use serde::Serialize;

use crate::kinds::KindPace;

/// What an answer rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Basis {
    /// Sittings on this warp.
    OwnSittings,
    /// Earlier warps of hers; nothing is woven on this one.
    EarlierWarps,
    /// Common practice; nothing is known of her.
    CommonPractice,
}

/// The numbers behind an answer. Plain numbers, so that any language can make its own sentence.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Reasons {
    /// What it rests on.
    pub basis: Basis,
    /// Days on which she wove on this warp.
    pub weaving_days: usize,
    /// Earlier warps behind it.
    pub earlier_warps: usize,
    /// Picks still to weave.
    pub picks_left: f64,
    /// Picks on a likely weaving day, of what is still to come.
    pub picks_a_day: f64,
    /// Days from one weaving day to the next, as they go at present.
    pub days_between: f64,
    /// Likely weaving days left, from.
    pub sittings_left_low: u32,
    /// Likely weaving days left, to.
    pub sittings_left_high: u32,
    /// Minutes of a likely weaving day; `None` when no sitting was timed.
    pub minutes_a_day: Option<f64>,
    /// Pace of each kind of section; empty when no sitting was timed.
    pub paces: Vec<KindPace>,
}

/// On so few days, without earlier warps, the usual rhythm of weavers still outweighs her own: it is not said to be hers.
const FEW_DAYS: usize = 3;

impl Reasons {
    pub(crate) fn sittings_range(sittings: f64) -> (u32, u32) {
        let (whole, part) = (sittings.floor(), sittings - sittings.floor());
        // 4.9 is about five, 4.5 is four or five.
        let low = if part > 0.75 { whole + 1.0 } else { whole };
        let high = if part < 0.1 { whole } else { whole + 1.0 };
        (low.clamp(1.0, 1e6) as u32, high.clamp(1.0, 1e6) as u32)
    }

    /// "4 or 5 more sittings".
    #[must_use]
    pub fn sittings_words(&self) -> String {
        match (self.sittings_left_low, self.sittings_left_high) {
            (_, 1) => "one more sitting".into(),
            (low, high) if high > 12 => format!("some {} more sittings", u32::midpoint(low, high)),
            (low, high) if low == high => format!("about {low} more sittings"),
            (low, high) => format!("{low} or {high} more sittings"),
        }
    }

    fn rhythm(&self) -> String {
        let d = self.days_between;
        if d < 1.3 {
            "about every day".into()
        } else if d < 1.75 {
            "two days in three".into()
        } else if d < 2.5 {
            "every other day".into()
        } else {
            format!("about every {d:.0} days")
        }
    }

    pub(crate) fn opening(&self, amount: AmountWriter<'_>) -> String {
        let rhythm = self.rhythm();
        let (picks, left) = (amount(self.picks_a_day), amount(self.picks_left));
        let sittings = self.sittings_words();
        let are = if left == "1 pick" { "is" } else { "are" };
        match self.basis {
            Basis::OwnSittings if self.earlier_warps == 0 && (1..=FEW_DAYS).contains(&self.weaving_days) => {
                let days =
                    if self.weaving_days == 1 { "one day".into() } else { format!("{} days", self.weaving_days) };
                format!(
                    "You have woven on {days} so far, which tells little: reckoned as {rhythm}, some {picks} a time; \
                     {left} {are} {sittings}"
                )
            }
            Basis::OwnSittings => {
                format!("You weave {rhythm}, some {picks} a time; {left} {are} {sittings}")
            }
            Basis::EarlierWarps => {
                format!("On earlier warps you wove {rhythm}, some {picks} a time; {left} {are} {sittings}")
            }
            Basis::CommonPractice => {
                format!("Nothing is known of your pace yet; as weaving commonly goes, {left} {are} {sittings}")
            }
        }
    }
}

/// Writes a number of picks: as "1 pick" and "300 picks", or as the length they stand for.
pub type AmountWriter<'a> = &'a dyn Fn(f64) -> String;

/// An amount that is counted in picks.
pub(crate) fn in_picks(picks: f64) -> String {
    if picks.round() == 1.0 { "1 pick".into() } else { format!("{picks:.0} picks") }
}

/// Writes a day as the reader is used to it.
pub type DateWriter<'a> = &'a dyn Fn(NaiveDate) -> String;
