//! What the changes of finishing steps share.

use chrono::NaiveDate;
use fellmark_journal::RecordId;

use super::Commands;
use crate::fields::kind;
use crate::finishing::laid_out;
use crate::forms::FieldMap;
use crate::{UserError, WarpLog, messages, warp_log};

/// Longest name of a step, in characters.
const NAME_MOST: usize = 60;

/// The name of a step without spaces at its ends, cut to its greatest length.
pub(super) fn step_name(name: &str) -> Result<String, UserError> {
    let name = name.trim();
    if name.is_empty() {
        return Err(UserError::at("step", messages::step_without_name()));
    }
    Ok(name.chars().take(NAME_MOST).collect())
}

impl Commands<'_> {
    pub(super) fn log_of_step(&self, warp: &RecordId) -> Result<WarpLog, UserError> {
        warp_log(self.journal.state(), warp).ok_or_else(|| UserError::new(messages::unknown_warp()))
    }

    /// Changes one step; where none was written yet the usual ones are written along with it.
    pub(super) fn write_step(&mut self, warp: &RecordId, step: &RecordId, set: FieldMap) -> Result<(), UserError> {
        let log = self.log_of_step(warp)?;
        let mut drafts = laid_out(self.journal.state(), &log);
        match drafts.iter_mut().find(|draft| draft.of == *step) {
            Some(draft) => draft.set.extend(set),
            None => drafts.extend(self.change(self.record(step, kind::FINISHING)?, &set, &[])),
        }
        self.act(drafts)
    }

    /// The day on which a step was done; none where nothing is typed.
    pub(super) fn done_on(&self, field: &str, text: &str) -> Result<Option<NaiveDate>, UserError> {
        let day = self.reader().day(field, text)?;
        if day.is_some_and(|day| day > self.today) {
            return Err(UserError::at(field, messages::step_day_in_future()));
        }
        Ok(day)
    }
}
