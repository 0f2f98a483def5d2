//! Export, import, and pace.

use std::io::{ErrorKind, Read};
use std::path::Path;

use fellmark_present::export;
use fellmark_present::export::ExportRequest;
use fellmark_present::import;
use fellmark_present::pace::PaceQuery;
use fellmark_present::view::{ErrorView, ImportForm, ImportView};
use fellmark_session::{ExistingFile, save_file};
use serde_json::json;

use super::{Runner, refused};
use crate::args::{ExportWhat, PacePicture};
use crate::output::{Failure, Outcome, Output};

/// The file that something is exported to.
#[derive(Clone, Copy)]
pub(super) struct Target<'a> {
    pub(super) path: &'a Path,
    /// Whether a file that is there may be replaced.
    pub(super) overwrite: bool,
}

impl Target<'_> {
    fn write(self, bytes: &[u8]) -> Result<Output, Failure> {
        let path = self.path;
        let existing = if self.overwrite { ExistingFile::Replace } else { ExistingFile::Refuse };
        save_file(path, bytes, existing).map_err(|error| match error.kind() {
            ErrorKind::AlreadyExists => Failure::input(ErrorView::at(
                "--to",
                format!("{} is there already. Choose another name, or add --overwrite.", path.display()),
            )),
            _ => Failure::folder(format!("{} cannot be written: {error}.", path.display())),
        })?;
        Ok(Output::done(format!("Written to {}.", path.display()), json!({ "file": path })))
    }
}

/// A file's bytes: one more than are accepted, at most, so that a longer file is refused without being read.
fn read_table(file: &Path) -> std::io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    std::fs::File::open(file)?.take(import::MOST_BYTES_OF_EVERYTHING as u64 + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}

impl Runner {
    pub(super) fn export(
        &mut self,
        what: ExportWhat,
        warp: Option<&str>,
        to: Option<Target<'_>>,
    ) -> Result<Output, Failure> {
        let only = warp.map(|warp| self.find_warp(warp)).transpose()?.map(|log| log.warp.id);
        let state = self.session.state();
        let made = match what {
            ExportWhat::Sittings => export::sittings_csv(state, only.as_ref()),
            ExportWhat::Warps => export::warps_csv(state, only.as_ref()),
            ExportWhat::Everything => Ok(format!("{:#}", export::everything(state, only.as_ref()))),
            other => {
                let request = ExportRequest { what: other.word().to_owned(), warp: only, split: String::new() };
                return self.export_file(&request, to);
            }
        };
        let made = made.map_err(Failure::input)?;
        match to {
            None if what == ExportWhat::Everything => {
                let json = export::everything(state, only.as_ref());
                Ok(Output::exact(made, json))
            }
            None => Ok(Output::exact(made.clone(), json!({ "csv": made }))),
            Some(target) => target.write(made.as_bytes()),
        }
    }

    /// To a file, or as text where none is named.
    fn export_file(&mut self, request: &ExportRequest, to: Option<Target<'_>>) -> Result<Output, Failure> {
        let file = self.session.export(request).map_err(Failure::input)?;
        let Some(target) = to else {
            let text = String::from_utf8_lossy(&file.bytes).into_owned();
            return Ok(Output::exact(text.clone(), json!({ "text": text })));
        };
        target.write(&file.bytes)
    }

    pub(super) fn import(
        &mut self,
        file: &Path,
        list: Option<&str>,
        warp: Option<&str>,
        preview: bool,
    ) -> Result<Output, Failure> {
        let bytes = read_table(file).map_err(|error| {
            Failure::input(ErrorView::at("FILE", format!("{} cannot be read: {error}.", file.display())))
        })?;
        let warp = warp.map(|warp| self.find_warp(warp)).transpose()?.map(|log| log.warp.id.to_string());
        let form = ImportForm {
            text: import::decode(&bytes),
            list: list.unwrap_or_default().to_owned(),
            warp: warp.unwrap_or_default(),
            ..ImportForm::default()
        };
        let whole = &mut |_, _| true;
        let view: ImportView =
            if preview { self.session.preview_import(&form, whole) } else { self.session.import(&form, whole) }
                .map_err(refused)?;
        let mut lines = vec![view.line.clone()];
        lines.extend(view.refused.iter().map(|row| format!("  line {}: {}", row.line, row.why)));
        let outcome = if view.refused.is_empty() { Outcome::Done } else { Outcome::Attention };
        Ok(Output::new(lines.join("\n"), json!({ "import": view }), outcome))
    }

    pub(super) fn pace(
        &mut self,
        split: Option<&str>,
        within: Option<&str>,
        picture: Option<PacePicture>,
        to: Option<Target<'_>>,
    ) -> Result<Output, Failure> {
        let within = within.map(|warp| self.find_warp(warp)).transpose()?.map(|log| log.warp.id);
        let split = split.unwrap_or_default();
        let view = self.session.pace(split, within.clone(), PaceQuery::default().frame);
        if let Some(sentence) = view.split_trouble {
            return Err(Failure::input(ErrorView::at("--split", sentence)));
        }
        if let Some(picture) = picture {
            let request = ExportRequest { what: picture.word().to_owned(), warp: within, split: split.to_owned() };
            return self.export_file(&request, to);
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
            lines.extend(chart.sentences.iter().map(|reported| format!("  {reported}")));
        }
        Ok(Output::done(lines.join("\n"), json!({ "pace": view })))
    }
}
