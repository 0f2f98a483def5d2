//! Everything that can be exported, each as one file: lists as CSV, all as JSON, a warp's record sheet as a page that needs nothing
//! else, a picture of how far it is, and the pictures of pace.

mod records;

use chrono::NaiveDate;
use fellmark_journal::{Journal, RecordId};

pub use records::{everything, list_csv, sittings_csv, warps_csv};

use crate::overview::Presenter;
use crate::pace;
use crate::progress_picture;
use crate::record_sheet;
use crate::view::ErrorView;
use fellmark_model as model;
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::tables;
use fellmark_reports::pace::all_pace_figures;
use fellmark_reports::report_cache::ReportCache;

const MM_PER_CM: f64 = 10.0;
const MM_PER_M: f64 = 1000.0;

/// A file to be written.
#[derive(Clone, Debug, PartialEq)]
pub struct ExportedFile {
    /// The name it is offered under.
    pub name: String,
    /// What it holds.
    pub bytes: Vec<u8>,
}

/// What is asked for.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ExportRequest {
    /// A list's name, `everything`, `pace`, `sheet`, `progress`, or `chart-` and the picture's name.
    pub what: String,
    /// The warp it is about; lists are limited to it.
    pub warp: Option<RecordId>,
    /// The length that parts short from long, in the pictures of pace.
    pub split: String,
}

/// Makes the file.
///
/// # Errors
/// There is no such thing to take out, or it could not be made.
pub fn export_file(
    journal: &Journal,
    warps: &mut ReportCache,
    request: &ExportRequest,
    format: &DisplayFormat,
    today: NaiveDate,
) -> Result<ExportedFile, ErrorView> {
    let state = journal.state();
    let only = request.warp.as_ref();
    let warp_name = || {
        let warp = only.and_then(|id| model::warp(state, id));
        warp.map(|warp| file_name(&warp.name)).unwrap_or_else(|| "warp".into())
    };
    let of = only.map(|_| format!("-{}", warp_name())).unwrap_or_default();
    let text = |name: String, text: String| ExportedFile { name, bytes: text.into_bytes() };
    match request.what.as_str() {
        list if tables::list(list).is_some() => {
            Ok(text(format!("fellmark-{list}{of}.csv"), list_csv(state, list, only)?))
        }
        "everything" => Ok(text(format!("fellmark{of}.json"), format!("{:#}\n", everything(state, only)))),
        "pace" => {
            warps.refresh(state);
            Ok(text("fellmark-pace.csv".into(), pace_csv(warps, today)?))
        }
        "sheet" => {
            let view = shown(journal, warps, only, format, today)?;
            Ok(text(format!("{}.html", warp_name()), record_sheet::html(journal, &view, format, today)))
        }
        "progress" => {
            let view = shown(journal, warps, only, format, today)?;
            Ok(text(format!("{}.svg", warp_name()), progress_picture::svg(&view)))
        }
        other => match other.strip_prefix("chart-") {
            Some(chart) => {
                let ask = pace::PaceQuery {
                    split: request.split.clone(),
                    within: request.warp.clone(),
                    ..pace::PaceQuery::default()
                };
                warps.refresh(state);
                let drawn = pace::picture(warps, chart, &ask, format, today)?;
                Ok(text(format!("fellmark-pace-{chart}.svg"), drawn))
            }
            None => Err(ErrorView::new(format!("There is no \u{201c}{}\u{201d} to take out.", tables::short(other)))),
        },
    }
}

fn shown(
    journal: &Journal,
    warps: &mut ReportCache,
    warp: Option<&RecordId>,
    format: &DisplayFormat,
    today: NaiveDate,
) -> Result<crate::view::LoomView, ErrorView> {
    warp.and_then(|warp| Presenter::new(journal, warps, format, today).loom(warp, None))
        .ok_or_else(|| ErrorView::new("Which warp? Choose one that is known here."))
}

/// What each warp took, in metric figures with their unit in the heading, as in every exported table.
fn pace_csv(warps: &ReportCache, today: NaiveDate) -> Result<String, ErrorView> {
    let header = [
        "warp",
        "warp_id",
        "state",
        "length_cm",
        "hours",
        "sittings",
        "days",
        "picks_per_hour",
        "cm_per_hour",
        "hours_per_m",
    ];
    let figure = |value: Option<f64>| value.map(|value| tidy(value).to_string()).unwrap_or_default();
    let rows = all_pace_figures(warps.summaries().map(AsRef::as_ref), today).into_iter().map(|one| {
        vec![
            one.name.clone(),
            one.id.to_string(),
            pace::state_words(&one).to_owned(),
            figure(one.length_mm.map(|mm| mm / MM_PER_CM)),
            figure((one.hours > 0.0).then_some(one.hours)),
            one.sittings.to_string(),
            one.days.to_string(),
            figure(one.picks_per_hour),
            figure(one.mm_per_hour().map(|mm| mm / MM_PER_CM)),
            figure(one.hours_per_mm().map(|hours| hours * MM_PER_M)),
        ]
    });
    records::table(&header, rows)
}

/// To a thousandth: what a figure worked out from others can be trusted to, and more.
fn tidy(value: f64) -> f64 {
    (value * 1000.0).round() / 1000.0
}

/// A name that any file system takes.
#[must_use]
pub fn file_name(name: &str) -> String {
    let plain: String = name
        .chars()
        .map(|letter| if letter.is_ascii_alphanumeric() { letter.to_ascii_lowercase() } else { '-' })
        .collect();
    let parts: Vec<&str> = plain.split('-').filter(|part| !part.is_empty()).collect();
    let name: String = parts.join("-").chars().take(60).collect();
    if name.is_empty() { "warp".into() } else { name }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_suit_any_file_system() {
        assert_eq!(file_name("Grüner Läufer / 2 (invented)"), "gr-ner-l-ufer-2-invented");
        assert_eq!(file_name("../../x"), "x");
        assert_eq!(file_name("???"), "warp");
    }
}
