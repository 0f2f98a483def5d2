//! Export and import.

use fellmark_journal::RecordId;
use fellmark_journal::photos::StoredPhoto;
use fellmark_present::export::{self, ExportRequest, ExportedFile};
use fellmark_present::import::{self, OnProgress};
use fellmark_present::messages::error_view;
use fellmark_present::record_sheet;
use fellmark_present::view::{ErrorView, ImportForm, ImportView};

use crate::Session;

impl Session {
    /// Makes a file to be written out.
    ///
    /// # Errors
    /// There is no such list or picture, or the warp is not known.
    pub fn export(&mut self, request: &ExportRequest) -> Result<ExportedFile, ErrorView> {
        let (format, today) = (self.format(), self.clock.today());
        export::export_file(&self.journal, &mut self.reports, request, &format, today)
    }

    /// The pictures that a warp's record sheet shows, and the long side in pixels they have there: to be made small without the session
    /// before the sheet is exported.
    #[must_use]
    pub fn pictures_of_sheet(&self, warp: &RecordId) -> Vec<(StoredPhoto, u32)> {
        record_sheet::pictures(&self.journal, warp)
    }

    /// What a table would bring in, before anything is written. `progress` is given how far it is, and may stop it.
    ///
    /// # Errors
    /// The table cannot be read, or it was stopped.
    pub fn preview_import(&mut self, form: &ImportForm, progress: OnProgress<'_>) -> Result<ImportView, ErrorView> {
        let (format, today) = (self.format(), self.clock.today());
        import::preview(self.journal.state(), &mut self.reports, form, &format, today, progress)
            .map_err(|error| error_view(error, &format))
    }

    /// Brings a table in as one action. `progress` is given how far it is, and may stop it before anything is written.
    ///
    /// # Errors
    /// The table cannot be read or written, or it was stopped.
    pub fn import(&mut self, form: &ImportForm, progress: OnProgress<'_>) -> Result<ImportView, ErrorView> {
        self.run_with_reports(|commands, reports| import::import_table(commands, reports, form, progress))
    }
}
