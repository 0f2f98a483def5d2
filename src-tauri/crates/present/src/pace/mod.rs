//! Pace compared over finished and running warps. Warps are compared, never people.

mod charts;

use chrono::NaiveDate;
use fellmark_journal::{EntrySet, RecordId};

use crate::chart::{Frame, Ink, svg};
use crate::figures::{show_length, show_minutes};
use crate::view::{ErrorView, PaceChoice, PaceRow, PaceView};
use fellmark_model::WarpState;
use fellmark_model::display_format::{DisplayFormat, Units};
use fellmark_model::measures::Reader;
use fellmark_reports::pace::{PaceFigures, all_pace_figures, middle_length_mm};
use fellmark_reports::report_cache::ReportCache;

/// What is asked about pace.
#[derive(Clone, Debug, PartialEq)]
pub struct PaceQuery {
    /// The length that parts short from long, as typed; empty takes one in the middle.
    pub split: String,
    /// The warp that is looked at over its own time.
    pub within: Option<RecordId>,
    /// How pictures are drawn.
    pub frame: Frame,
}

impl Default for PaceQuery {
    fn default() -> Self {
        Self { split: String::new(), within: None, frame: Frame { width: 720.0, text: 16.0, ink: Ink::Page } }
    }
}

/// One length of weaving as hours are stated for it: a metre or a yard, in millimetres, and its name.
pub(crate) fn long_unit(format: &DisplayFormat) -> (f64, &'static str) {
    match format.units {
        Units::Metric => (1000.0, "m"),
        Units::Imperial => (914.4, "yd"),
    }
}

/// Everything on pace, for a single look.
#[must_use]
pub fn view(state: &EntrySet, ask: &PaceQuery, format: &DisplayFormat, today: NaiveDate) -> PaceView {
    view_of(&ReportCache::of_state(state), ask, format, today)
}

/// Everything on pace, of warps with a report.
#[must_use]
pub fn view_of(warps: &ReportCache, ask: &PaceQuery, format: &DisplayFormat, today: NaiveDate) -> PaceView {
    let all = all_pace_figures(warps.summaries().map(AsRef::as_ref), today);
    let (split_mm, split_trouble) =
        match (Reader { format, today }).length("split", fellmark_model::messages::the_length(), &ask.split) {
            Ok(length) => (length.or_else(|| middle_length_mm(&all)), None),
            Err(error) => (middle_length_mm(&all), Some(crate::messages::text(&error.message, format))),
        };
    let choices: Vec<&PaceFigures> = all.iter().filter(|one| one.over_time.len() >= charts::FEWEST_SITTINGS).collect();
    let asked = ask.within.as_ref().and_then(|id| choices.iter().find(|one| one.id == *id).copied());
    let within = asked.or_else(|| choices.first().copied());
    let mut charts = Vec::new();
    for (what, (chart, view)) in [
        ("length", charts::against_length(&all, format)),
        ("split", charts::short_against_long(&all, split_mm, format)),
        ("within", charts::within(within, &all, format)),
    ] {
        let svg = chart.map(|chart| svg(&chart, &ask.frame)).unwrap_or_default();
        charts.push(crate::view::ChartView { what: what.into(), svg, ..view });
    }
    let read = Reader { format, today };
    PaceView {
        rows: all.iter().map(|one| row(one, format)).collect(),
        counted: charts::counted(&all),
        charts,
        split: if ask.split.trim().is_empty() {
            split_mm.map(|mm| read.show_length_for_form((mm / 10.0).round() * 10.0)).unwrap_or_default()
        } else {
            ask.split.clone()
        },
        split_trouble,
        within: choices.iter().map(|one| PaceChoice { id: one.id.to_string(), name: one.name.clone() }).collect(),
        within_shown: within.map(|one| one.id.to_string()),
    }
}

/// One picture as a file of its own.
///
/// # Errors
/// There is no such picture, or nothing to draw yet.
pub fn picture(
    warps: &ReportCache,
    what: &str,
    ask: &PaceQuery,
    format: &DisplayFormat,
    today: NaiveDate,
) -> Result<String, ErrorView> {
    let frame = Frame { width: 960.0, text: 18.0, ink: Ink::Picture };
    let view = view_of(warps, &PaceQuery { frame, ..ask.clone() }, format, today);
    let found = view.charts.into_iter().find(|chart| chart.what == what && !chart.svg.is_empty());
    found.map(|chart| chart.svg).ok_or_else(|| ErrorView::new("There is nothing to draw yet in this picture."))
}

fn row(one: &PaceFigures, format: &DisplayFormat) -> PaceRow {
    let (unit_mm, unit) = long_unit(format);
    let number =
        |value: Option<f64>, places: usize| value.map(|value| format.number(value, places)).unwrap_or_default();
    PaceRow {
        id: one.id.to_string(),
        number: one.number.to_string(),
        name: one.name.clone(),
        state: state_words(one).into(),
        length: one.length_mm.map(|mm| show_length(mm, format)).unwrap_or_default(),
        hours: if one.hours > 0.0 { show_minutes(one.hours * 60.0) } else { String::new() },
        sittings: one.sittings.to_string(),
        days: one.days.to_string(),
        picks_per_hour: number(one.picks_per_hour, 0),
        length_per_hour: one.mm_per_hour().map(|mm| show_length(mm, format)).unwrap_or_default(),
        hours_per_length: one
            .hours_per_mm()
            .map(|hours| format!("{} h/{unit}", format.number(hours * unit_mm, 1)))
            .unwrap_or_default(),
    }
}

pub(crate) fn state_words(one: &PaceFigures) -> &'static str {
    match one.state {
        WarpState::OffTheLoom if one.finished => "finished",
        WarpState::OffTheLoom => "off the loom",
        WarpState::Resting => "resting",
        WarpState::OnTheLoom | WarpState::Removed => "on the loom",
    }
}
