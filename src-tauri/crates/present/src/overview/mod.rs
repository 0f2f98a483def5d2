//! Everything at a glance: the views of warps, sittings and the folder, made from the journal's state.

mod conflicts;
mod folder;
mod photos;
mod sittings;
mod warp;
mod warp_list;

use std::collections::BTreeMap;

use chrono::{NaiveDate, TimeZone};
use fellmark_journal::{DeviceInfo, Journal, RecordId};

pub use crate::running_sitting::RunningSitting;
use crate::view::{FolderView, FormatView, LoomView, WarpLine, WarpState};
pub use conflicts::conflict_views;
use fellmark_model as model;
use fellmark_model::display_format::{DisplayFormat, Units};
use fellmark_model::display_text::display_text;
use fellmark_model::running::Running;
use fellmark_reports::report_cache::ReportCache;

/// How figures are written, for the interface.
#[must_use]
pub fn format_view(format: &DisplayFormat) -> FormatView {
    let (length_unit, density_unit) = match format.units {
        Units::Metric => ("cm", "picks per 10\u{a0}cm"),
        Units::Imperial => ("in", "picks per inch"),
    };
    let mass_unit = match format.weights {
        Units::Metric => "g",
        Units::Imperial => "oz",
    };
    FormatView {
        units: format.units.word().into(),
        weights: format.weights.word().into(),
        length_unit: length_unit.into(),
        mass_unit: mass_unit.into(),
        density_unit: density_unit.into(),
    }
}

/// A look at an open journal on a day. What was calculated for an earlier look is not calculated again.
pub struct Presenter<'a> {
    journal: &'a Journal,
    report_cache: &'a mut ReportCache,
    format: &'a DisplayFormat,
    today: NaiveDate,
}

impl<'a> Presenter<'a> {
    /// Looks at a journal as it now is.
    #[must_use]
    pub fn new(
        journal: &'a Journal,
        report_cache: &'a mut ReportCache,
        format: &'a DisplayFormat,
        today: NaiveDate,
    ) -> Self {
        report_cache.refresh(journal.state());
        Self { journal, report_cache, format, today }
    }

    /// One warp with its three answers, while a sitting on it is going on if one is.
    #[must_use]
    pub fn loom(&mut self, warp: &RecordId, running: Option<&Running>) -> Option<LoomView> {
        warp::view(self, warp, running.map(|running| (Some(&running.sitting), running.picks)))
    }

    /// The warp that is woven on: the one that is shown, if it is on the loom, else the first that is.
    #[must_use]
    pub fn woven_on(&self, shown: Option<&RecordId>) -> Option<RecordId> {
        let mut on = warp_list::in_order(self);
        on.retain(|one| one.state == WarpState::OnTheLoom);
        let found = on.iter().find(|one| Some(&one.id) == shown).or(on.first());
        found.map(|one| one.id.clone())
    }

    /// Every warp as a line, those on the loom first, then the latest begun.
    #[must_use]
    pub fn warp_lines(&mut self) -> Vec<WarpLine> {
        warp_list::all(self)
    }

    /// The folder and how it is doing, days as they are in a time zone.
    #[must_use]
    pub fn folder(&self, zone: &impl TimeZone) -> FolderView {
        folder::view(self, zone)
    }
}

/// One warp with its three answers, for a single look; `running_picks` are those of a sitting that is going on.
#[must_use]
pub fn warp_view(
    journal: &Journal,
    warp: &RecordId,
    running_picks: i64,
    format: &DisplayFormat,
    today: NaiveDate,
) -> Option<LoomView> {
    let mut report_cache = ReportCache::new();
    let going = (running_picks != 0).then_some((None, running_picks));
    warp::view(&mut Presenter::new(journal, &mut report_cache, format, today), warp, going)
}

/// Every warp as a line, for a single look.
#[must_use]
pub fn warp_lines(journal: &Journal, format: &DisplayFormat, today: NaiveDate) -> Vec<WarpLine> {
    Presenter::new(journal, &mut ReportCache::new(), format, today).warp_lines()
}

/// The folder and how it is doing, for a single look.
#[must_use]
pub fn folder(journal: &Journal, format: &DisplayFormat, today: NaiveDate, zone: &impl TimeZone) -> FolderView {
    Presenter::new(journal, &mut ReportCache::new(), format, today).folder(zone)
}

/// Picks that one press counts on a warp.
#[must_use]
pub fn picks_per_tap(journal: &Journal, warp: &RecordId) -> i64 {
    model::warp_log(journal.state(), warp).map_or(1, |log| log.warp.picks_per_tap)
}

/// All devices, with names fit to be shown.
pub(crate) fn devices(journal: &Journal) -> Vec<DeviceInfo> {
    let shown = |device: DeviceInfo| DeviceInfo { name: display_text(&device.name), ..device };
    journal.devices().into_iter().map(shown).collect()
}

fn device_names(journal: &Journal) -> BTreeMap<String, String> {
    devices(journal).into_iter().map(|device| (device.id.to_string(), device.name)).collect()
}

fn name_of<'a>(device: &'a str, names: &'a BTreeMap<String, String>) -> &'a str {
    names.get(device).map_or(device, String::as_str)
}
