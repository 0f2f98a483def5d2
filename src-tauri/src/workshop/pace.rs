//! Pace compared.

use fellmark_answers::present::chart::{Frame, Ink};
use fellmark_answers::present::view::{PaceView, UserError};
use fellmark_answers::reports::pace::{self, Ask};

use super::{Session, id, today};

impl Session {
    /// Pace over finished and running warps.
    pub fn pace(&mut self, split: String, within: Option<&str>, size: (f64, f64)) -> Result<PaceView, UserError> {
        let format = self.format();
        let within = within.map(id).transpose()?;
        let frame = Frame { width: size.0, text: size.1, ink: Ink::Page };
        let open = self.opened()?;
        open.reckonings.bring_up(open.journal.state());
        Ok(pace::view_of(&open.reckonings, &Ask { split, within, frame }, &format, today()))
    }
}
