//! Sittings: logged, corrected, listed, with their photos.

use std::path::PathBuf;

use fellmark_journal::photos::Prepared;
use fellmark_present::fill_forms::show_sitting_form;
use fellmark_present::view::{ErrorView, SittingForm};
use fellmark_session::prepare_photo;
use serde_json::json;

use super::{Runner, refused};
use crate::args::SittingArgs;
use crate::output::{Failure, Outcome, Output};

impl Runner {
    pub(super) fn log(&mut self, warp: &str, sitting: SittingArgs, photo: &[PathBuf]) -> Result<Output, Failure> {
        let warp = self.find_warp(warp)?.warp.id;
        let mut form = SittingForm::default();
        sitting.over(&mut form);
        // Refused means that nothing was written, so the pictures are read first.
        let pictures = self.prepare_photos(photo)?;
        let logged = self.session.log_sitting(&warp, &form).map_err(refused)?;
        let mut lines = vec![format!("Logged: {}", logged.sitting)];
        lines.extend(logged.messages.iter().cloned());
        // The sitting is logged by now: a photo that a disk refuses does not make the command one that wrote nothing.
        let (mut photos, mut refused) = (Vec::new(), Vec::new());
        for (picture, file) in pictures.into_iter().zip(photo) {
            match self.session.add_photo(&logged.sitting, picture) {
                Ok(id) => photos.push(id),
                Err(error) => {
                    let file = file.display();
                    lines.push(format!("The photo {file} was not kept: {} The sitting is logged.", error.sentence));
                    refused.push(json!({ "file": file.to_string(), "sentence": error.sentence }));
                }
            }
        }
        let outcome = if refused.is_empty() { Outcome::Done } else { Outcome::Attention };
        let mut json =
            json!({ "sitting": logged.sitting, "warp": warp, "photos": photos, "messages": logged.messages });
        if !refused.is_empty() {
            json["photos_refused"] = refused.into();
        }
        Ok(Output::new(lines.join("\n"), json, outcome))
    }

    pub(super) fn correct(&mut self, sitting: &str, figures: SittingArgs) -> Result<Output, Failure> {
        let (log, index) = self.find_sitting(sitting)?;
        let held = &log.sittings[index];
        let mut form = show_sitting_form(held, &self.session.format());
        figures.over(&mut form);
        self.session.correct_sitting(&held.id, &form, &[]).map_err(refused)?;
        Ok(Output::done("Corrected.", json!({ "sitting": held.id })))
    }

    pub(super) fn photo(&mut self, sitting: &str, file: PathBuf) -> Result<Output, Failure> {
        let (log, index) = self.find_sitting(sitting)?;
        let sitting = log.sittings[index].id.clone();
        let mut photos = Vec::new();
        for picture in self.prepare_photos(&[file])? {
            photos.push(self.session.add_photo(&sitting, picture).map_err(refused)?);
        }
        Ok(Output::done("Kept.", json!({ "sitting": sitting, "photos": photos })))
    }

    fn prepare_photos(&self, files: &[PathBuf]) -> Result<Vec<Prepared>, Failure> {
        let format = self.session.format();
        let prepare = |file: &PathBuf| {
            let bytes = std::fs::read(file).map_err(|error| {
                Failure::input(ErrorView::at("--photo", format!("{} cannot be read: {error}.", file.display())))
            })?;
            prepare_photo(&bytes, &format).map_err(refused)
        };
        files.iter().map(prepare).collect()
    }

    pub(super) fn sittings(&mut self, warp: &str, removed: bool) -> Result<Output, Failure> {
        let view = self.find_view(warp)?;
        let shown = view.sittings.iter().chain(view.removed.iter().filter(|_| removed));
        let text: Vec<String> = shown.map(|line| format!("{}  {}: {}", line.id, line.day, line.line)).collect();
        let text = if text.is_empty() { "No sitting yet.".to_owned() } else { text.join("\n") };
        let mut json = json!({ "warp": view.id, "sittings": view.sittings });
        if removed {
            json["removed"] = json!(view.removed);
        }
        Ok(Output::done(text, json))
    }
}
