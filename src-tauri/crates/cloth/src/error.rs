//! Why a value was refused, as a sentence for the person who entered it.

use thiserror::Error;

/// A value or a combination of values that the arithmetic refuses. The text is a whole sentence without a full
/// stop, fit to be shown beside the field.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum Refused {
    /// NaN.
    #[error("{what} has to be a number")]
    NotANumber {
        /// What was being entered, e.g. "a length".
        what: &'static str,
    },
    /// Infinite, either way.
    #[error("{what} can't be endless")]
    Endless {
        /// What was being entered.
        what: &'static str,
    },
    /// Below zero where only zero or more makes sense.
    #[error("{what} can't be less than nothing")]
    Negative {
        /// What was being entered.
        what: &'static str,
    },
    /// Zero where something is needed.
    #[error("{what} can't be zero")]
    Zero {
        /// What was being entered.
        what: &'static str,
    },
    /// More than any loom or shelf holds.
    #[error("{what} of {value} {unit} is too much to be meant: {most} {unit} is the most taken here")]
    TooMuch {
        /// What was being entered.
        what: &'static str,
        /// As entered, in `unit`.
        value: f64,
        /// The largest accepted, in `unit`.
        most: f64,
        /// The unit of both.
        unit: &'static str,
    },
    /// Less than can be meant.
    #[error("{what} of {value} {unit} is too little to be meant: {least} {unit} is the least taken here")]
    TooLittle {
        /// What was being entered.
        what: &'static str,
        /// As entered, in `unit`.
        value: f64,
        /// The smallest accepted, in `unit`.
        least: f64,
        /// The unit of both.
        unit: &'static str,
    },
    /// Values that are well formed each, but can't be together.
    #[error("{0}")]
    DoesNotFit(String),
    /// Text that could not be read as a measure.
    #[error("\u{201c}{text}\u{201d} can't be read as {what}: {why}")]
    Unreadable {
        /// What was expected, e.g. "a length".
        what: &'static str,
        /// The text, cut short if it is long.
        text: String,
        /// What is wrong with it.
        why: String,
    },
}

/// The limits within which a value is taken.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Limits {
    pub what: &'static str,
    pub unit: &'static str,
    pub least: f64,
    pub most: f64,
    pub zero: bool,
}

impl Limits {
    /// The value itself if it lies within the limits.
    pub(crate) fn take(&self, value: f64) -> Result<f64, Refused> {
        let what = self.what;
        if value.is_nan() {
            Err(Refused::NotANumber { what })
        } else if value.is_infinite() {
            Err(Refused::Endless { what })
        } else if value < 0.0 && self.least >= 0.0 {
            Err(Refused::Negative { what })
        } else if value == 0.0 && self.least >= 0.0 {
            // Also turns -0.0 into 0.0.
            if self.zero { Ok(0.0) } else { Err(Refused::Zero { what }) }
        } else if value > self.most {
            Err(Refused::TooMuch { what, value: tidy(value), most: self.most, unit: self.unit })
        } else if value < self.least {
            Err(Refused::TooLittle { what, value: tidy(value), least: self.least, unit: self.unit })
        } else {
            Ok(value)
        }
    }
}

/// Four significant figures, so that a sentence does not end in sixteen digits.
fn tidy(value: f64) -> f64 {
    if value == 0.0 || !value.is_finite() {
        return value;
    }
    let scale = 10f64.powf(3.0 - value.abs().log10().floor());
    let rounded = (value * scale).round() / scale;
    if rounded.is_finite() { rounded } else { value }
}

/// A share with its limits: finite, and within `least..=most` (both as shares, 1 = 100 %).
pub(crate) fn share(what: &'static str, value: f64, least: f64, most: f64) -> Result<f64, Refused> {
    let limits = Limits { what, unit: "%", least: least * 100.0, most: most * 100.0, zero: true };
    limits.take(value * 100.0)?;
    Ok(value)
}
