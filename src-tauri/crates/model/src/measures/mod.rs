//! Measures and days as they are typed: read in any unit, and written back into a form as they would be typed.

mod days;

use chrono::NaiveDate;
use fellmark_cloth::quantity::{Length, Mass, YarnSystem};
use fellmark_cloth::read::{self, DecimalMark, DensityUnit, LengthUnit, MassUnit, YarnLabel};
use fellmark_cloth::write::{self, InchFraction, Shown};

use crate::display_format::{DisplayFormat, Units};
use crate::{Message, UserError, messages};

/// As much of what was typed is named in a message.
const MOST_LETTERS_NAMED: usize = 40;
/// Longest sitting that is taken without asking, minutes.
const LONGEST_SITTING_MINUTES: f64 = 24.0 * 60.0;

impl DisplayFormat {
    /// The decimal mark as the arithmetic's readers and writers take it.
    #[must_use]
    pub fn mark(&self) -> DecimalMark {
        if self.decimal_mark == ',' { DecimalMark::Comma } else { DecimalMark::Point }
    }

    /// The unit of a bare length.
    pub fn length_unit(&self) -> LengthUnit {
        match self.units {
            Units::Metric => LengthUnit::Cm,
            Units::Imperial => LengthUnit::Inch,
        }
    }

    fn yarn_unit(&self) -> LengthUnit {
        match self.units {
            Units::Metric => LengthUnit::M,
            Units::Imperial => LengthUnit::Yard,
        }
    }

    /// The unit of a bare mass.
    pub fn mass_unit(&self) -> MassUnit {
        match self.weights {
            Units::Metric => MassUnit::G,
            Units::Imperial => MassUnit::Ounce,
        }
    }

    /// The system of a bare yarn number: what ball bands say.
    #[must_use]
    pub fn yarn_system(&self) -> YarnSystem {
        match self.units {
            Units::Metric => YarnSystem::MetresPer100g,
            Units::Imperial => YarnSystem::YardsPerPound,
        }
    }

    fn density_unit(&self) -> DensityUnit {
        match self.units {
            Units::Metric => DensityUnit::Per10Cm,
            Units::Imperial => DensityUnit::PerInch,
        }
    }
}

/// Reads what is typed into one field after another.
#[derive(Clone, Copy)]
pub struct Reader<'a> {
    /// How figures are written.
    pub format: &'a DisplayFormat,
    /// Today.
    pub today: NaiveDate,
}

fn blank(text: &str) -> bool {
    text.trim().is_empty()
}

/// The beginning of what was typed, as long as a message names it.
#[must_use]
pub fn shortened(text: &str) -> String {
    text.chars().take(MOST_LETTERS_NAMED).collect()
}

impl Reader<'_> {
    /// Reads a figure that may be given roughly: "about 120 m". Whether it was goes with it.
    ///
    /// # Errors
    /// As what reads the figure.
    pub fn roughly<T>(
        &self,
        text: &str,
        read: impl Fn(&Self, &str) -> Result<Option<T>, UserError>,
    ) -> Result<Option<(T, bool)>, UserError> {
        let parsed = crate::approximate::parse(text, self.format.language);
        Ok(read(self, &parsed.figure)?.map(|figure| (figure, parsed.rough)))
    }

    /// A length above zero, in millimetres.
    ///
    /// # Errors
    /// The text is no length.
    pub fn length(&self, field: &str, what: Message, text: &str) -> Result<Option<f64>, UserError> {
        match self.length_or_zero(field, what.clone(), text)? {
            Some(mm) if mm <= 0.0 => Err(UserError::at(field, messages::cannot_be_zero(what))),
            length => Ok(length),
        }
    }

    /// A length, in millimetres; zero is taken.
    ///
    /// # Errors
    /// The text is no length.
    pub fn length_or_zero(&self, field: &str, what: Message, text: &str) -> Result<Option<f64>, UserError> {
        if blank(text) {
            return Ok(None);
        }
        let unit = if field == "weft_length" { self.format.yarn_unit() } else { self.format.length_unit() };
        let unreadable = match (self.format.units, field) {
            (_, "weft_length") => messages::unreadable_yarn_length,
            (Units::Metric, _) => messages::unreadable_length_metric,
            (Units::Imperial, _) => messages::unreadable_length_imperial,
        };
        match read::length(text, unit, self.format.mark()) {
            Ok(length) => Ok(Some(length.mm())),
            Err(error) => Err(UserError::at(field, unreadable(error.to_string(), what))),
        }
    }

    /// A weight above zero, in grams.
    ///
    /// # Errors
    /// The text is no weight.
    pub fn mass(&self, field: &str, what: Message, text: &str) -> Result<Option<f64>, UserError> {
        match self.mass_or_zero(field, what.clone(), text)? {
            Some(grams) if grams <= 0.0 => Err(UserError::at(field, messages::cannot_be_zero(what))),
            mass => Ok(mass),
        }
    }

    /// A weight, in grams; zero is taken.
    ///
    /// # Errors
    /// The text is no weight.
    pub fn mass_or_zero(&self, field: &str, what: Message, text: &str) -> Result<Option<f64>, UserError> {
        if blank(text) {
            return Ok(None);
        }
        match read::mass(text, self.format.mass_unit(), self.format.mark()) {
            Ok(mass) => Ok(Some(mass.g())),
            Err(error) => Err(UserError::at(field, messages::unreadable_mass(error.to_string(), what))),
        }
    }

    /// Picks or, in a field of that name, ends of the sett, per 10 cm.
    ///
    /// # Errors
    /// The text is no density.
    pub fn density(&self, field: &str, text: &str) -> Result<Option<f64>, UserError> {
        if blank(text) {
            return Ok(None);
        }
        match read::density(text, self.format.density_unit(), self.format.mark()) {
            Ok(density) => Ok(Some(density.per_10cm())),
            Err(error) if field == "sett" => Err(UserError::at(field, messages::unreadable_sett(error.to_string()))),
            Err(error) => Err(UserError::at(field, messages::unreadable_picks(error.to_string()))),
        }
    }

    /// A yarn number as a label has it.
    ///
    /// # Errors
    /// The text is no yarn number, or its system can't be told.
    pub fn yarn_label(&self, field: &str, text: &str) -> Result<Option<YarnLabel>, UserError> {
        if blank(text) {
            return Ok(None);
        }
        read::yarn_label(text, self.format.yarn_system(), self.format.mark())
            .map(Some)
            .map_err(|error| UserError::at(field, messages::unreadable_yarn_number(error.to_string())))
    }

    /// A plain number; a per cent sign behind it is taken.
    ///
    /// # Errors
    /// The text is no number.
    pub fn number(&self, field: &str, what: Message, text: &str) -> Result<Option<f64>, UserError> {
        if blank(text) {
            return Ok(None);
        }
        match read::percent(text, self.format.mark()) {
            Ok(number) => Ok(Some(number)),
            Err(error) => Err(UserError::at(field, messages::unreadable_number(error.to_string(), what))),
        }
    }

    /// A number within limits.
    ///
    /// # Errors
    /// The text is no number, or one outside the limits.
    pub fn number_between(
        &self,
        field: &str,
        what: Message,
        text: &str,
        least: f64,
        most: f64,
        unit: Message,
    ) -> Result<Option<f64>, UserError> {
        match self.number(field, what.clone(), text)? {
            Some(number) if !(least..=most).contains(&number) => {
                Err(UserError::at(field, messages::number_out_of_range(what, number, unit, least, most)))
            }
            number => Ok(number),
        }
    }

    /// A whole number within limits.
    ///
    /// # Errors
    /// The text is no whole number, or one outside the limits.
    pub fn whole_between(
        &self,
        field: &str,
        what: Message,
        text: &str,
        least: i64,
        most: i64,
    ) -> Result<Option<i64>, UserError> {
        if blank(text) {
            return Ok(None);
        }
        let number = read::whole_number(text).map_err(|error| {
            UserError::at(field, messages::unreadable_whole_number(error.to_string(), what.clone()))
        })?;
        if (least..=most).contains(&number) {
            return Ok(Some(number));
        }
        Err(UserError::at(field, messages::whole_number_out_of_range(what, number, least, most)))
    }

    /// Minutes: `42`, `1:20`, `1 h 20`, `1.5 h`, `90 min`.
    ///
    /// # Errors
    /// The text is no time, or longer than a day.
    pub fn minutes(&self, field: &str, text: &str) -> Result<Option<f64>, UserError> {
        if blank(text) {
            return Ok(None);
        }
        let unreadable = || UserError::at(field, messages::unreadable_minutes(shortened(text)));
        let minutes = read_minutes(text).ok_or_else(unreadable)?;
        if minutes > LONGEST_SITTING_MINUTES {
            return Err(UserError::at(field, messages::sitting_longer_than_a_day()));
        }
        Ok(Some(minutes).filter(|minutes| *minutes > 0.0))
    }

    /// A day as `YYYY-MM-DD` or in the locale's order, with the name of its month, or "today" and "yesterday"; words
    /// of the reader's language or English.
    ///
    /// # Errors
    /// The text is no day of the calendar.
    pub fn day(&self, field: &str, text: &str) -> Result<Option<NaiveDate>, UserError> {
        let text = text.trim();
        let understood = || crate::typed_words::understood(self.format.language);
        match text.to_lowercase().as_str() {
            "" => return Ok(None),
            word if understood().any(|words| words.today.contains(&word)) => return Ok(Some(self.today)),
            word if understood().any(|words| words.yesterday.contains(&word)) => return Ok(self.today.pred_opt()),
            _ => {}
        }
        days::read(text, self.format.month_first)
            .or_else(|| days::with_a_month_name(text, self.format.language, self.today))
            .map(Some)
            .ok_or_else(|| UserError::at(field, messages::unreadable_day(shortened(text), self.today, self.today)))
    }

    /// A time of day as `HH:MM`.
    ///
    /// # Errors
    /// The text is no time of day.
    pub fn time(&self, field: &str, text: &str) -> Result<Option<String>, UserError> {
        if blank(text) {
            return Ok(None);
        }
        read_time(text)
            .map(|time| Some(time.format("%H:%M").to_string()))
            .ok_or_else(|| UserError::at(field, messages::unreadable_time(shortened(text))))
    }

    /// A length as it is put back into a form: with its unit, no rounding that a tape could see.
    #[must_use]
    pub fn show_length_for_form(&self, mm: f64) -> String {
        self.for_form(mm, self.format.length_unit())
    }

    /// A length of yarn as it is put back into a form.
    #[must_use]
    pub fn show_yarn_length_for_form(&self, mm: f64) -> String {
        self.for_form(mm, self.format.yarn_unit())
    }

    fn for_form(&self, mm: f64, unit: LengthUnit) -> String {
        let shown = Shown { unit, fraction: InchFraction::Sixteenth, mark: self.format.mark() };
        Length::from_mm(mm).map(|length| write::length(length, shown)).unwrap_or_default()
    }

    /// A weight as it is put back into a form.
    #[must_use]
    pub fn show_mass_for_form(&self, grams: f64) -> String {
        Mass::from_g(grams)
            .map(|mass| write::mass(mass, self.format.mass_unit(), self.format.mark()))
            .unwrap_or_default()
    }
}

/// A time of day: `19:40`, `19.40`, `7:40 pm`, `7 p.m.`.
fn read_time(text: &str) -> Option<chrono::NaiveTime> {
    let text = text.trim().to_lowercase().replace("a.m.", "am").replace("p.m.", "pm");
    let (clock, half) = match (text.strip_suffix("am"), text.strip_suffix("pm")) {
        (Some(clock), _) => (clock.trim_end(), Some(0)),
        (_, Some(clock)) => (clock.trim_end(), Some(12)),
        _ => (text.as_str(), None),
    };
    let figures = |text: &str| {
        let plain = (1..=2).contains(&text.len()) && text.chars().all(|c| c.is_ascii_digit());
        if plain { text.parse::<u32>().ok() } else { None }
    };
    let (hours, minutes) = match clock.split_once([':', '.']) {
        Some((hours, minutes)) => (figures(hours)?, figures(minutes).filter(|_| minutes.len() == 2)?),
        // A figure alone is an hour only where it is said which half of the day it is in.
        None => (half.and_then(|_| figures(clock))?, 0),
    };
    let hours = match half {
        Some(half) => (1..=12).contains(&hours).then_some(hours % 12 + half)?,
        None => hours,
    };
    chrono::NaiveTime::from_hms_opt(hours, minutes, 0)
}

/// Reads a length of time into minutes; nothing when it is none.
fn read_minutes(text: &str) -> Option<f64> {
    let text = text.trim().to_lowercase().replace(',', ".");
    let number = |text: &str| {
        let text = text.trim();
        let plain = !text.is_empty() && text.chars().all(|c| c.is_ascii_digit() || c == '.');
        if plain { text.parse::<f64>().ok().filter(|n| n.is_finite()) } else { None }
    };
    if let Some((hours, minutes)) = text.split_once(':') {
        return Some(number(hours)? * 60.0 + number(minutes).filter(|minutes| *minutes < 60.0)?);
    }
    let strip = |text: &str, units: &[&str]| {
        units.iter().find_map(|unit| text.trim().strip_suffix(unit).map(|rest| rest.trim().to_owned()))
    };
    let minute_words = ["minutes", "minute", "mins", "min", "m"];
    let hour_words = ["hours", "hour", "hrs", "hr", "h"];
    let has_hours = text.find('h');
    if let Some(at) = has_hours {
        let hours = number(&text[..at])?;
        let rest = text[at..].trim_start_matches(|c: char| c.is_ascii_alphabetic()).trim();
        // "1 h", "1 hour": only the unit may follow the figure.
        let unit: String = text[at..].chars().take_while(char::is_ascii_alphabetic).collect();
        if !hour_words.contains(&unit.as_str()) {
            return None;
        }
        let minutes =
            if rest.is_empty() { 0.0 } else { number(&strip(rest, &minute_words).unwrap_or_else(|| rest.to_owned()))? };
        return Some(hours * 60.0 + minutes);
    }
    number(&strip(&text, &minute_words).unwrap_or(text))
}

#[cfg(test)]
mod tests;
