//! The yarn that is in use, and what is typed of the yarn that is left.

use fellmark_journal::RecordId;

use crate::approximate;
use crate::measures::Reader;
use crate::moments::{Timeline, Weighed, YarnLeft};
use crate::{UserError, WarpLog, Weft, messages};

/// The yarn that is on the shuttle: the one taken up last, at first the first one written down.
#[must_use]
pub fn yarn_in_use(log: &WarpLog) -> Option<&Weft> {
    let timeline = Timeline::of(log, 0);
    let known = |id: &RecordId| log.wefts.iter().find(|weft| weft.id == *id);
    timeline.steps.iter().rev().find_map(|step| step.observed.joined.and_then(known)).or_else(|| log.wefts.first())
}

/// A weight or a length; a bare figure is a weight. What was taken off for the shuttle goes with it.
///
/// # Errors
/// It is neither, or the shuttle that is to be taken off is not known.
pub fn parse_yarn_left(
    field: &str,
    text: &str,
    on_shuttle: bool,
    tare_g: Option<f64>,
    read: Reader<'_>,
) -> Result<(Weighed, Option<f64>), UserError> {
    let (text, said) = approximate::on_shuttle(text);
    let parsed = approximate::parse(text, read.format.language);
    let (text, rough) = (&*parsed.figure, parsed.rough);
    match read.mass_or_zero(field, messages::the_yarn_left(), text) {
        Ok(Some(grams)) if on_shuttle || said => {
            let (grams, tare_g) = without_shuttle(field, grams, tare_g)?;
            Ok((Weighed { left: YarnLeft::Mass(grams), rough }, Some(tare_g)))
        }
        Ok(Some(grams)) => Ok((Weighed { left: YarnLeft::Mass(grams), rough }, None)),
        Ok(None) => Err(UserError::at(field, messages::nothing_left_written())),
        Err(no_mass) => match read.length_or_zero(field, messages::the_yarn_left(), text) {
            // A shuttle adds no length.
            Ok(Some(mm)) => Ok((Weighed { left: YarnLeft::Length(mm), rough }, None)),
            _ => Err(no_mass),
        },
    }
}

/// The yarn alone, and what was taken off: grams.
///
/// # Errors
/// What the shuttle weighs is not known, or it weighs more than the scale showed.
pub fn without_shuttle(field: &str, shown_g: f64, tare_g: Option<f64>) -> Result<(f64, f64), UserError> {
    let Some(tare_g) = tare_g else {
        return Err(UserError::at(field, messages::shuttle_weight_unknown()));
    };
    if tare_g > shown_g {
        return Err(UserError::at(field, messages::shuttle_heavier_than_shown(tare_g, shown_g)));
    }
    Ok((shown_g - tare_g, tare_g))
}
