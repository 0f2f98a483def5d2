//! Changing a weft yarn.

use fellmark_journal::{Key, RecordId};

use super::Commands;
use super::add_yarn::read_yarn_form;
use crate::UserError;
use crate::fields::kind;
use crate::forms::YarnForm;

impl Commands<'_> {
    /// Changes a weft yarn; `seen` are the entries that were on the screen (empty: what stands now).
    ///
    /// # Errors
    /// The first field that cannot be understood, or no such yarn.
    pub fn change_yarn(&mut self, yarn: &RecordId, form: &YarnForm, seen: &[Key]) -> Result<(), UserError> {
        let read = read_yarn_form(form, self.reader())?;
        let record = self.record(yarn, kind::WEFT)?;
        let drafts = self.change(record, &read, seen).into_iter().collect();
        self.act(drafts)
    }
}
