//! Taking out and bringing in.

use fellmark_answers::present::import::{self, OnProgress};
use fellmark_answers::present::messages::error_view;
use fellmark_answers::present::take_out::{self, Taken, Wanted};
use fellmark_answers::present::view::{AppView, ImportForm, ImportView, UserError};

use super::{Session, id, today};

impl Session {
    /// Makes a file to be taken out.
    pub fn export(&mut self, what: String, warp: Option<&str>, split: String) -> Result<Taken, UserError> {
        let format = self.format();
        let warp = warp.map(id).transpose()?;
        let open = self.opened()?;
        take_out::take(&open.journal, &mut open.reckonings, &Wanted { what, warp, split }, &format, today())
    }

    /// What a table would bring in, before anything is written.
    pub fn preview_import(&mut self, form: &ImportForm, heed: OnProgress<'_>) -> Result<ImportView, UserError> {
        let format = self.format();
        let open = self.opened()?;
        import::preview(open.journal.state(), &mut open.reckonings, form, &format, today(), heed)
            .map_err(|error| error_view(error, &format))
    }

    /// Brings a table in as one action.
    pub fn import(&mut self, form: &ImportForm, heed: OnProgress<'_>) -> Result<(AppView, ImportView), UserError> {
        let view = self.write_knowing(|pen, warps| import::import_table(pen, warps, form, heed))?;
        Ok((self.view(), view))
    }
}
