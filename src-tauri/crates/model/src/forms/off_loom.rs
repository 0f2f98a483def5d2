//! The form of what came off the loom, read into fields.

use chrono::NaiveDate;
use serde_json::json;

use super::{FieldMap, OffForm};
use crate::display_format::DisplayFormat;
use crate::fields::off;
use crate::measures::Reader;
use crate::{UserError, messages};

/// Cloth that is this much longer after the wash than before it was measured wrongly one of the two times.
const MOST_GROWTH_IN_THE_WASH: f64 = 1.15;
/// Cloth off the loom that is this much longer than the warp: stretch under tension does not reach so far.
const MOST_OFF_OF_WOUND: f64 = 1.05;

/// Reads the form of what came off the loom of a warp of this length.
///
/// # Errors
/// The first field that cannot be understood, or that cannot be true beside the others.
pub fn read_off_form(
    form: &OffForm,
    wound_mm: Option<f64>,
    format: &DisplayFormat,
    today: NaiveDate,
) -> Result<FieldMap, UserError> {
    let read = Reader { format, today };
    let front = read.length_or_zero("front", messages::the_front_length(), &form.front)?;
    let thrums = read.length_or_zero("thrums", messages::the_thrums(), &form.thrums)?;
    if let Some(wound) = wound_mm
        && front.unwrap_or(0.0) + thrums.unwrap_or(0.0) >= wound
    {
        return Err(UserError::at("thrums", messages::cut_off_as_long_as_warp()));
    }
    let off_loom = read.length("off_loom", messages::the_off_loom_length(), &form.off_loom)?;
    let finished = read.length("finished", messages::the_finished_length(), &form.finished)?;
    for (field, cloth) in [("off_loom", off_loom), ("finished", finished)] {
        if wound_mm.zip(cloth).is_some_and(|(wound, cloth)| cloth > wound * MOST_OFF_OF_WOUND) {
            return Err(UserError::at(field, messages::cloth_longer_than_warp()));
        }
    }
    no_growth("finished", off_loom, finished)?;
    let off_loom_width = read.length("off_loom_width", messages::the_off_loom_width(), &form.off_loom_width)?;
    let finished_width = read.length("finished_width", messages::the_finished_width(), &form.finished_width)?;
    no_growth("finished_width", off_loom_width, finished_width)?;
    let mut fields = FieldMap::new();
    for (field, figure) in [
        (off::FRONT_MM, front),
        (off::THRUMS_MM, thrums),
        (off::OFF_LOOM_MM, off_loom),
        (off::FELL_WIDTH_MM, read.length("fell_width", messages::the_fell_width(), &form.fell_width)?),
        (off::OFF_LOOM_WIDTH_MM, off_loom_width),
        (off::WEFT_OVER_G, read.mass_or_zero("weft_over", messages::the_weft_over(), &form.weft_over)?),
        (off::FINISHED_MM, finished),
        (off::FINISHED_WIDTH_MM, finished_width),
        (off::FINISHED_MASS_G, read.mass("finished_mass", messages::the_weight(), &form.finished_mass)?),
    ] {
        fields.insert(field.to_owned(), json!(figure));
    }
    Ok(fields)
}

fn no_growth(field: &str, before: Option<f64>, after: Option<f64>) -> Result<(), UserError> {
    match before.zip(after) {
        Some((before, after)) if after > before * MOST_GROWTH_IN_THE_WASH => {
            Err(UserError::at(field, messages::growth_in_the_wash()))
        }
        _ => Ok(()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn warp() -> crate::Warp {
        crate::tests::log().warp
    }

    #[test]
    fn figures_that_cannot_be_true_together_are_refused_at_their_field() {
        let format = DisplayFormat::default();
        let refused =
            |form: OffForm| read_off_form(&form, warp().wound_mm, &format, NaiveDate::MIN).unwrap_err().field.unwrap();
        let text = |text: &str| text.to_owned();
        assert_eq!(refused(OffForm { front: text("1 m"), thrums: text("1.6 m"), ..OffForm::default() }), "thrums");
        assert_eq!(refused(OffForm { off_loom: text("280 cm"), ..OffForm::default() }), "off_loom");
        let washed = OffForm { off_loom: text("150 cm"), finished: text("180 cm"), ..OffForm::default() };
        assert_eq!(refused(washed), "finished");
        assert_eq!(refused(OffForm { finished_mass: text("a lot"), ..OffForm::default() }), "finished_mass");
    }
}
