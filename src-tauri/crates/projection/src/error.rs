//! What can be wrong with a question, as sentences.

use chrono::NaiveDate;

/// Why no projection can be made. Each sentence names the field and what to do about it.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum QuestionError {
    /// A number is not finite, or larger than any weaving can be.
    #[error("{field} is {value}, which is no amount of weaving; enter it again")]
    NotAnAmount {
        /// Which field, in words.
        field: String,
        /// The value given.
        value: f64,
    },
    /// A sitting carries an impossible number.
    #[error("the sitting of {day} has {field} of {value}, which is no amount of weaving; correct that sitting")]
    BadSitting {
        /// The sitting's day.
        day: NaiveDate,
        /// Which field, in words.
        field: &'static str,
        /// The value given.
        value: f64,
    },
    /// No day of the week is left to weave on.
    #[error("no day of the week is marked as a weaving day; mark at least one, or clear the choice")]
    NoWeavingDay,
    /// A range of days ends before it begins.
    #[error("the days {from} to {until} run backwards; exchange the two")]
    BackwardRange {
        /// First day given.
        from: NaiveDate,
        /// Last day given.
        until: NaiveDate,
    },
    /// The chances of a finishing step are not chances.
    #[error("the days of the finishing step \u{201c}{step}\u{201d} have no chance between 0 and 1; set its days again")]
    BadFinishing {
        /// The step's name.
        step: String,
    },
    /// `today` is so far away that the calendar ends before the horizon.
    #[error("the date {today} lies outside the calendar; set this device's date")]
    TodayOutOfRange {
        /// The day given as today.
        today: NaiveDate,
    },
    /// The chance is not between 0 and 1.
    #[error("a chance of {value} cannot be asked for; give one between 0 and 1")]
    BadChance {
        /// The chance given.
        value: f64,
    },
}
