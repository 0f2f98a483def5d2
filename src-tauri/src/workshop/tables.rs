//! Taking out and bringing in.

use fellmark_answers::model::import::{self, Heed};
use fellmark_answers::present::take_out::{self, Taken, Wanted};
use fellmark_answers::present::view::{Desk, ImportForm, ImportView, Trouble};

use super::{Workshop, id, today};

impl Workshop {
    /// Makes a file to be taken out.
    pub fn take_out(&mut self, what: String, warp: Option<&str>, split: String) -> Result<Taken, Trouble> {
        let manner = self.manner();
        let warp = warp.map(id).transpose()?;
        let open = self.opened()?;
        take_out::take(&open.journal, &mut open.reckonings, &Wanted { what, warp, split }, &manner, today())
    }

    /// What a table would bring in, before anything is written.
    pub fn preview_import(&mut self, form: &ImportForm, heed: Heed<'_>) -> Result<ImportView, Trouble> {
        let manner = self.manner();
        let open = self.opened()?;
        import::preview(open.journal.state(), &mut open.reckonings, form, &manner, today(), heed)
    }

    /// Brings a table in as one action.
    pub fn bring_in(&mut self, form: &ImportForm, heed: Heed<'_>) -> Result<(Desk, ImportView), Trouble> {
        let view = self.write_knowing(|pen, warps| pen.bring_in(warps, form, heed))?;
        Ok((self.desk(), view))
    }
}
