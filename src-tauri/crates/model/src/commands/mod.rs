//! Every change to the log, one file for each; the window and the command line write through the same [`Commands`].

mod add_note;
mod add_photo;
mod add_step;
mod add_yarn;
mod begin_planned;
mod begin_warp;
mod change_step;
mod change_warp;
mod change_yarn;
mod correct_sitting;
mod cut_off;
mod import;
mod keep_plan;
mod log_sitting;
mod remove;
mod remove_step;
mod resolve;
mod restore;
mod set_place;
mod set_warp_state;
mod settings;
mod steps;
mod tick_step;

use chrono::NaiveDate;
use fellmark_journal::{EntryDraft, GONE, Journal, Key, Record, RecordId};
use serde_json::json;

use crate::display_format::DisplayFormat;
use crate::fields;
use crate::forms::{self, FieldMap};
use crate::measures::Reader;
use crate::undo::{self, Undoable};
use crate::{UserError, WarpLog, messages, warp_log};

pub use add_note::AddedNote;
pub use resolve::ContestedRecord;
pub use settings::{chosen_units, chosen_weights, is_example};

/// The sitting during which something is noted and the net picks it has by then; none beside the sittings.
pub type DuringSitting = Option<(RecordId, i64)>;

/// Writes changes into a journal.
pub struct Commands<'a> {
    /// The journal.
    pub journal: &'a mut Journal,
    /// How typed figures and dates are read.
    pub format: DisplayFormat,
    /// Today by the device's calendar.
    pub today: NaiveDate,
}

/// The fields that place a moment of a day: within the sitting that is going on, or after the last one up to that day.
fn moment_fields(log: &WarpLog, during: &DuringSitting, on: NaiveDate) -> FieldMap {
    let mut set = FieldMap::new();
    set.insert(fields::moment::ON.into(), json!(on));
    match during {
        Some((sitting, picks)) => {
            set.insert(fields::moment::SITTING.into(), json!(sitting));
            set.insert(fields::moment::PICKS_INTO.into(), json!(picks));
        }
        None => {
            if let Some(last) = log.sittings.iter().rev().find(|sitting| sitting.on <= on) {
                set.insert(fields::moment::SITTING.into(), json!(last.id));
            }
        }
    }
    set
}

impl Commands<'_> {
    /// Undoes the latest action of this device; what was undone, nothing when there is nothing to undo.
    ///
    /// # Errors
    /// It could not be written.
    pub fn undo(&mut self) -> Result<Option<Undoable>, UserError> {
        let Some(found) = undo::undoable(self.journal.state(), self.journal.device()) else { return Ok(None) };
        self.journal.write(found.drafts.clone())?;
        Ok(Some(found))
    }

    /// Removes a record or restores it.
    fn set_gone(&mut self, id: &RecordId, gone: bool) -> Result<(), UserError> {
        let record = self.any_record(id)?;
        let mut set = FieldMap::new();
        set.insert(GONE.into(), json!(gone));
        let draft = EntryDraft::on(record, set);
        self.act(vec![draft])
    }

    /// The entry that changes what differs from what was shown (`seen`); none when nothing does.
    fn change(&self, record: &Record, new: &FieldMap, seen: &[Key]) -> Option<EntryDraft> {
        let state = self.journal.state();
        let seen = if seen.is_empty() { &record.heads } else { seen };
        let held = |field: &str| {
            let entries = seen.iter().filter_map(|key| state.entry(*key)).filter(|entry| entry.of() == &record.id);
            let wrote = entries.filter(|entry| entry.set().contains_key(field)).collect();
            // What stood on the screen, not what a clock that was wrong calls the latest.
            undo::standing(wrote).and_then(|entry| entry.set().get(field).cloned())
        };
        let set = forms::changed(new, &self.format, held);
        (!set.is_empty()).then(|| {
            let mut draft = EntryDraft::on(record, set);
            draft.over = seen.to_vec();
            draft
        })
    }

    /// Writes one action: its entries carry its name, so that undo finds them together.
    fn act(&mut self, mut drafts: Vec<EntryDraft>) -> Result<(), UserError> {
        if drafts.is_empty() {
            return Ok(());
        }
        let act = undo::next_act(self.journal.state(), self.journal.device());
        for draft in &mut drafts {
            draft.set.insert(fields::ACT.into(), json!(act));
        }
        self.journal.write(drafts)?;
        Ok(())
    }

    fn any_record(&self, id: &RecordId) -> Result<&Record, UserError> {
        self.journal.state().record(id).ok_or_else(|| UserError::new(messages::unknown_record(id.to_string())))
    }

    /// A record of this kind.
    fn record(&self, id: &RecordId, kind: &str) -> Result<&Record, UserError> {
        let record = self.any_record(id)?;
        if record.kind.as_str() == kind {
            Ok(record)
        } else {
            Err(UserError::new(messages::wrong_kind(id.to_string(), kind, record.kind.to_string())))
        }
    }

    /// The log of a warp.
    fn log(&self, warp: &RecordId) -> Result<WarpLog, UserError> {
        warp_log(self.journal.state(), warp).ok_or_else(|| UserError::new(messages::unknown_warp_id(warp.to_string())))
    }

    fn reader(&self) -> Reader<'_> {
        Reader { format: &self.format, today: self.today }
    }
}
