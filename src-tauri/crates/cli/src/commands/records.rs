//! What can be done to any record, and to the folder as a whole.

use fellmark_model as model;
use fellmark_model::display_format::Units;
use serde_json::json;

use super::{Runner, refused};
use crate::args::UnitArg;
use crate::output::{Failure, Output};

impl Runner {
    pub(super) fn remove(&mut self, record: &str) -> Result<Output, Failure> {
        let id = self.find_record(record)?;
        self.session.remove(&id).map_err(refused)?;
        Ok(Output::done("Removed; `restore` brings it back.", json!({ "record": id })))
    }

    pub(super) fn restore(&mut self, record: &str) -> Result<Output, Failure> {
        let id = self.find_record(record)?;
        self.session.restore(&id).map_err(refused)?;
        Ok(Output::done("Restored.", json!({ "record": id })))
    }

    pub(super) fn resolve(&mut self, record: &str, field: &str, key: &str) -> Result<Output, Failure> {
        let id = self.find_record(record)?;
        self.session.resolve(&id, field, key).map_err(refused)?;
        Ok(Output::done("Settled.", json!({ "record": id, "field": field })))
    }

    pub(super) fn undo(&mut self) -> Result<Output, Failure> {
        let undone = self.session.undo().map_err(refused)?;
        let text = undone.as_ref().map_or_else(
            || "There is nothing of this device to take back.".to_owned(),
            |undone| {
                let note = undone.note.iter().map(|note| format!("\n{note}"));
                format!("Taken back: {}.{}", undone.what, note.collect::<String>())
            },
        );
        let (what, note) = undone.map(|undone| (undone.what, undone.note)).unzip();
        Ok(Output::done(text, json!({ "undone": what, "note": note.flatten() })))
    }

    pub(super) fn write_back(&mut self) -> Result<Output, Failure> {
        self.session.write_back().map_err(refused)?;
        let status = self.session.journal().status();
        Ok(Output::done("Written back.", json!({ "waiting": status.waiting_to_write, "vanished": status.vanished })))
    }

    pub(super) fn mark_folder(&mut self) -> Result<Output, Failure> {
        self.session.mark_folder_again().map_err(|error| Failure::folder(error.to_string()))?;
        let waiting = self.session.journal().status().waiting_to_write;
        Ok(Output::done("Marked again.", json!({ "waiting": waiting })))
    }

    pub(super) fn units(&mut self, units: UnitArg, weights: Option<UnitArg>) -> Result<Output, Failure> {
        let units: Units = units.into();
        let weights = weights.map_or(units, Units::from);
        self.session.set_units(units).map_err(refused)?;
        self.session.set_weights(weights).map_err(refused)?;
        Ok(Output::done(
            format!("Units: {}, weights: {}.", units.word(), weights.word()),
            json!({ "units": units.word(), "weights": weights.word() }),
        ))
    }

    pub(super) fn sample(&mut self) -> Result<Output, Failure> {
        if model::warp_logs(self.session.state()).values().next().is_some() {
            return Err(Failure::folder(
                "This folder already holds a log. The invented example needs an empty folder of its own.",
            ));
        }
        self.session.fill_with_sample().map_err(refused)?;
        Ok(Output::done("Filled with an invented example.", json!({ "sample": true })))
    }
}
