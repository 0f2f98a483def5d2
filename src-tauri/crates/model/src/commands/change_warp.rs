//! Changing a warp's figures.

use fellmark_journal::{Draft, Key, Kind, RecordId};

use super::Commands;
use crate::UserError;
use crate::fields::{self, kind};
use crate::forms::{self, WarpForm};

impl Commands<'_> {
    /// Changes a warp's figures; `seen` are the entries that were on her screen (empty: what stands now).
    ///
    /// # Errors
    /// The first field that cannot be understood, or that there is no such warp.
    pub fn change_warp(&mut self, warp: &RecordId, form: &WarpForm, seen: &[Key]) -> Result<(), UserError> {
        let read = forms::read_warp_form(form, &self.format, self.today)?;
        let record = self.record(warp, kind::WARP)?.clone();
        let mut drafts: Vec<Draft> = self.change(&record, &read.warp, seen).into_iter().collect();
        // The mean of lengths that did not change is no change either, though it is the mean of figures that the form rounds.
        let has_lengths = read.warp.get(fields::warp::WANTED_EACH_MM).is_some_and(|each| each.is_array());
        for draft in &mut drafts {
            if has_lengths && !draft.set.contains_key(fields::warp::WANTED_EACH_MM) {
                draft.set.remove(fields::warp::WANTED_MM);
            }
        }
        drafts.retain(|draft| !draft.set.is_empty());
        let log = crate::warp_log(self.journal.state(), warp);
        let weft = log.as_ref().and_then(|log| log.wefts.first());
        match weft.and_then(|weft| self.journal.state().record(&weft.id)) {
            Some(weft) => drafts.extend(self.change(weft, &read.weft, &[])),
            None => {
                let set = forms::filled(&read.weft);
                if !set.is_empty() {
                    drafts.push(Draft::new(record.place, RecordId::new(), Kind::fixed(kind::WEFT), set));
                }
            }
        }
        self.act(drafts)
    }
}
