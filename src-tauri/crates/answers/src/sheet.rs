//! A warp's record sheet: one page that needs nothing else, to print or to keep, with its pictures in it.

use std::fmt::Write;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use chrono::NaiveDate;
use fellmark_journal::Journal;

use crate::chart::escape;
use crate::manner::Manner;
use crate::model;
use crate::view::LoomView;

/// Long side of the pictures in the sheet, pixels.
const PHOTO_SIDE_PX: u32 = 900;

const STYLE: &str = "body{font-family:'Noto Sans','DejaVu Sans',sans-serif;color:#000;background:#fff;max-width:46rem;margin:2rem auto;\
padding:0 1rem;line-height:1.45}h1,h2{font-family:Palatino,Georgia,serif;font-weight:400}table{border-collapse:collapse;width:100%}\
th,td{text-align:left;vertical-align:top;border-top:1px solid #bbb;padding:.25rem .75rem .25rem 0;font-weight:400}\
tbody th{font-weight:600}figure{margin:1rem 0;break-inside:avoid}img{max-width:100%;max-height:22rem}figcaption,.small{font-size:.85rem;\
color:#444}tr{break-inside:avoid}h2{break-after:avoid}@page{margin:15mm}@media print{body{margin:0;padding:0}}";

fn table(out: &mut String, rows: &[(&str, String)]) {
    out.push_str("<table><tbody>");
    for (what, value) in rows.iter().filter(|(_, value)| !value.trim().is_empty()) {
        let value = escape(value).replace('\n', "<br>");
        let _ = write!(out, "<tr><th scope=\"row\">{}</th><td>{value}</td></tr>", escape(what));
    }
    out.push_str("</tbody></table>");
}

/// The sheet as HTML.
#[must_use]
pub fn html(journal: &Journal, view: &LoomView, manner: &Manner, today: NaiveDate) -> String {
    let form = &view.form;
    let mut out = format!(
        "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width\">\
         <title>{0}</title><style>{STYLE}</style></head><body><h1>{0}</h1><p class=\"small\">Record sheet of {1}</p>",
        escape(&view.name),
        escape(&manner.date(today, today))
    );
    let log = view.id.parse().ok().and_then(|id| model::warp_log(journal.state(), &id));
    if let Some(note) = log.as_ref().and_then(|log| log.warp.note.as_deref()) {
        let _ = write!(out, "<p>{}</p>", escape(note).replace('\n', "<br>"));
    }
    out.push_str("<h2>Planned</h2>");
    let pieces = if form.pieces == "1" { String::new() } else { form.pieces.clone() };
    table(
        &mut out,
        &[
            ("Begun on", form.begun_on.clone()),
            ("Gift day", form.gift_on.clone()),
            ("Warp wound", form.wound.clone()),
            ("Loom waste", form.waste.clone()),
            ("Length wanted", form.wanted.clone()),
            ("Pieces", pieces),
            ("Fringe", form.fringe.clone()),
            ("Width in the reed", form.reed_width.clone()),
            (crate::desk::manner_view(manner).density_unit.as_str(), form.picks.clone()),
            ("Warp for 100 of cloth", form.warp_per_100.clone()),
            ("Length lost, per cent", form.shrinkage_percent.clone()),
            (
                "Weft",
                [form.weft_name.as_str(), form.weft_mass.as_str(), form.weft_length.as_str()].join(" ").trim().into(),
            ),
            ("Opening border", form.opening.clone()),
            ("Repeat", form.repeat.clone()),
            ("Balance", form.balance.clone()),
            ("Closing border", form.closing.clone()),
        ],
    );
    out.push_str("<h2>How it stands</h2>");
    for answer in [&view.where_am_i, &view.when] {
        let _ = write!(out, "<p>{}</p>", escape(&answer.headline));
    }
    let off = &view.off;
    if !off.came_out.is_empty() {
        out.push_str(
            "<h2>Planned, and as it came out</h2><table><thead><tr><th>Figure</th><th>Planned</th><th>Came out</th><th>Difference</th>\
             </tr></thead><tbody>",
        );
        for row in &off.came_out {
            let _ = write!(
                out,
                "<tr><th scope=\"row\">{}</th><td>{}</td><td>{}</td><td>{}</td></tr>",
                escape(&row.what),
                escape(&row.planned),
                escape(&row.came_out),
                escape(&row.difference)
            );
        }
        out.push_str("</tbody></table><h2>Finishing</h2>");
        let steps: Vec<(&str, String)> = off
            .steps
            .iter()
            .map(|step| (step.name.as_str(), if step.done.is_empty() { "not done".into() } else { step.done.clone() }))
            .collect();
        table(&mut out, &steps);
    }
    sittings(&mut out, journal, view);
    out.push_str("</body></html>\n");
    out
}

/// Its sittings, the first first, each with its pictures.
fn sittings(out: &mut String, journal: &Journal, view: &LoomView) {
    if view.sittings.is_empty() {
        return;
    }
    out.push_str("<h2>Sittings</h2><table><thead><tr><th>Day</th><th>What was done</th></tr></thead><tbody>");
    for sitting in view.sittings.iter().rev() {
        let note = sitting.note.as_deref().map(|note| format!("<br>{}", escape(note))).unwrap_or_default();
        let _ = write!(
            out,
            "<tr><th scope=\"row\">{}</th><td>{}{note}</td></tr>",
            escape(&sitting.day),
            escape(&sitting.line)
        );
    }
    out.push_str("</tbody></table>");
    let Some(log) = view.id.parse().ok().and_then(|id| model::warp_log(journal.state(), &id)) else { return };
    for sitting in &log.sittings {
        let day = view.sittings.iter().find(|line| line.id == sitting.id.as_str()).map(|line| line.day.as_str());
        for photo in log.photos.iter().filter(|photo| photo.sitting.as_ref() == Some(&sitting.id)) {
            // A picture that has not arrived is left out; the sheet is of what is here.
            let Ok(bytes) = journal.thumbnail(&log.warp.id, &photo.hash, PHOTO_SIDE_PX) else { continue };
            let day = escape(day.unwrap_or_default());
            let _ = write!(
                out,
                "<figure><img alt=\"Photo of {day}\" src=\"data:image/jpeg;base64,{}\"><figcaption>{day}</figcaption></figure>",
                STANDARD.encode(bytes)
            );
        }
    }
}
