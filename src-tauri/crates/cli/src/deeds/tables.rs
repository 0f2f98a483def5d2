//! Taking files out, bringing tables in, and pace.

use std::path::Path;

use fellmark_answers::present::import;
use fellmark_answers::present::take_out::{self, Wanted};
use fellmark_answers::present::view::{ImportForm, ImportView, UserError};
use fellmark_answers::reports::pace::{self, Ask};
use fellmark_answers::reports::reckoned::ReportCache;
use serde_json::json;

use super::{Desk, refused};
use crate::say::{Failure, Outcome, Said};
use crate::words::PacePicture;

impl Desk {
    pub(super) fn take_out(&self, what: &str, warp: Option<&str>, to: Option<&Path>) -> Result<Said, Failure> {
        let warp = warp.map(|warp| self.find_warp(warp)).transpose()?.map(|log| log.warp.id);
        self.taken(Wanted { what: what.to_owned(), warp, split: String::new() }, to)
    }

    /// To a file, or as text where none is named.
    fn taken(&self, wanted: Wanted, to: Option<&Path>) -> Result<Said, Failure> {
        let taken = take_out::take(&self.journal, &mut ReportCache::new(), &wanted, &self.format, self.today)
            .map_err(Failure::input)?;
        let Some(file) = to else {
            let text = String::from_utf8_lossy(&taken.bytes).into_owned();
            return Ok(Said::exact(text.clone(), json!({ "text": text })));
        };
        std::fs::write(file, &taken.bytes)
            .map_err(|error| Failure::folder(format!("{} cannot be written: {error}.", file.display())))?;
        Ok(Said::done(format!("Written to {}.", file.display()), json!({ "file": file })))
    }

    pub(super) fn import(
        &mut self,
        file: &Path,
        list: Option<&str>,
        warp: Option<&str>,
        look: bool,
    ) -> Result<Said, Failure> {
        let bytes = std::fs::read(file).map_err(|error| {
            Failure::input(UserError::at("FILE", format!("{} cannot be read: {error}.", file.display())))
        })?;
        let warp = warp.map(|warp| self.find_warp(warp)).transpose()?.map(|log| log.warp.id.to_string());
        let form = ImportForm {
            text: import::decode(&bytes),
            list: list.unwrap_or_default().to_owned(),
            warp: warp.unwrap_or_default(),
            ..ImportForm::default()
        };
        let view: ImportView = if look {
            import::preview(
                self.journal.state(),
                &mut ReportCache::new(),
                &form,
                &self.format,
                self.today,
                &mut |_, _| true,
            )
            .map_err(refused(self.format))?
        } else {
            import::import_table(&mut self.pen(), &mut ReportCache::new(), &form, &mut |_, _| true)
                .map_err(refused(self.format))?
        };
        let mut lines = vec![view.line.clone()];
        lines.extend(view.refused.iter().map(|row| format!("  line {}: {}", row.line, row.why)));
        let outcome = if view.refused.is_empty() { Outcome::Done } else { Outcome::Attention };
        Ok(Said::new(lines.join("\n"), json!({ "import": view }), outcome))
    }

    pub(super) fn pace(
        &self,
        split: Option<&str>,
        within: Option<&str>,
        picture: Option<PacePicture>,
        to: Option<&Path>,
    ) -> Result<Said, Failure> {
        let within = within.map(|warp| self.find_warp(warp)).transpose()?.map(|log| log.warp.id);
        let ask = Ask { split: split.unwrap_or_default().to_owned(), within, ..Ask::default() };
        let view = pace::view(self.journal.state(), &ask, &self.format, self.today);
        if let Some(sentence) = view.split_trouble {
            return Err(Failure::input(UserError::at("--split", sentence)));
        }
        if let Some(picture) = picture {
            return self.taken(Wanted { what: picture.word().to_owned(), warp: ask.within, split: ask.split }, to);
        }
        let mut lines: Vec<String> = view
            .rows
            .iter()
            .map(|row| {
                let figures = [
                    row.length.clone(),
                    row.hours.clone(),
                    format!("{} sittings", row.sittings),
                    format!("{} days", row.days),
                    if row.picks_per_hour.is_empty() {
                        String::new()
                    } else {
                        format!("{} picks an hour", row.picks_per_hour)
                    },
                    row.hours_per_length.clone(),
                ];
                let figures: Vec<String> = figures.into_iter().filter(|figure| !figure.is_empty()).collect();
                format!("{}  {} ({}): {}", row.number, row.name, row.state, figures.join(", "))
            })
            .collect();
        for chart in &view.charts {
            lines.push(format!("{}:", chart.title));
            lines.extend(chart.told.iter().map(|told| format!("  {told}")));
        }
        Ok(Said::done(lines.join("\n"), json!({ "pace": view })))
    }
}
