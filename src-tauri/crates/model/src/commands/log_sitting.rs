//! Logging a sitting.

use fellmark_journal::{EntryDraft, Kind, Place, RecordId};
use serde_json::{Value, json};

use super::Commands;
use crate::fields::{self, kind};
use crate::forms::{self, FieldMap, SittingForm};
use crate::yarn_left::{without_shuttle, yarn_in_use};
use crate::{UserError, approximate, messages};

impl Commands<'_> {
    /// Logs a sitting; its id.
    ///
    /// A sitting that was tapped in brings the `id` its first tap was given, so that it is logged once, whatever happens between
    /// writing it and forgetting the taps.
    ///
    /// # Errors
    /// The first field that cannot be understood, a sitting in which nothing is said, or no such warp.
    pub fn log_sitting(
        &mut self,
        warp: &RecordId,
        form: &SittingForm,
        id: Option<RecordId>,
    ) -> Result<RecordId, UserError> {
        let mut read = forms::read_sitting_form(form, &self.format, self.today)?;
        self.record(warp, kind::WARP)?;
        forms::start_at_last_mark(form, &mut read, &self.log(warp)?);
        self.take_shuttle_off(form, warp, &mut read)?;
        let set = forms::filled(&read);
        let says_something = set.keys().any(|field| {
            ![fields::sitting::ON, fields::sitting::STARTED, fields::sitting::ROUGH, fields::sitting::MARK_SET]
                .contains(&field.as_str())
        });
        if !says_something {
            return Err(UserError::at("picks", messages::empty_sitting()));
        }
        let id = id.unwrap_or_else(RecordId::new);
        self.act(vec![EntryDraft::new(Place::warp(warp), id.clone(), Kind::SITTING, set)])?;
        Ok(id)
    }

    /// Takes the shuttle of the yarn being woven off what the scale showed in a sitting's form.
    ///
    /// # Errors
    /// What it weighs is not known, or it weighs more than the scale showed.
    pub(super) fn take_shuttle_off(
        &self,
        form: &SittingForm,
        warp: &RecordId,
        read: &mut FieldMap,
    ) -> Result<(), UserError> {
        let (_, said) = approximate::on_shuttle(&form.weft_left);
        let Some(shown_g) = read.get(fields::sitting::WEFT_LEFT_G).and_then(Value::as_f64) else {
            return Ok(());
        };
        if !said && !form.weft_on_shuttle {
            return Ok(());
        }
        let log = self.log(warp)?;
        let tare_g = yarn_in_use(&log).and_then(|yarn| yarn.tare_g);
        let (grams, tare_g) = without_shuttle("weft_left", shown_g, tare_g)?;
        read.insert(fields::sitting::WEFT_LEFT_G.into(), json!(grams));
        read.insert(fields::sitting::WEFT_TARE_G.into(), json!(tare_g));
        Ok(())
    }
}
