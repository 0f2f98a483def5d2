//! A warp's record sheet: one page that needs nothing else, to print or to keep, with its pictures in it.

use std::fmt::Write;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use chrono::NaiveDate;
use fellmark_journal::photos::StoredPhoto;
use fellmark_journal::{Journal, RecordId};

use crate::cautions::caution_view;
use crate::chart::escape;
use crate::dates::DateText;
use crate::messages::declared::cautions as messages;
use crate::messages::text;
use crate::palette::{PAPER, PRINT, PRINT_RULE};
use crate::view::LoomView;
use crate::warp_on_paper;
use fellmark_model as model;
use fellmark_model::display_format::DisplayFormat;
use fellmark_reports::cautions::cautions_on_paper;

/// Long side of the pictures in the sheet, pixels.
const PHOTO_SIDE_PX: u32 = 900;

/// A4, black on white; nothing is torn from its heading, and no row or picture over two pages.
const STYLE: &str = "body{font-family:'Noto Sans','DejaVu Sans',sans-serif;color:var(--print);background:var(--paper);max-width:46rem;margin:2rem auto;\
padding:0 1rem;line-height:1.4;orphans:3;widows:3}h1,h2{font-family:Palatino,Georgia,'DejaVu Serif',serif;font-weight:400;\
break-after:avoid}h1{margin:0}h2{font-size:1.25rem;margin:1.4rem 0 .4rem}p{margin:.4rem 0}\
table{border-collapse:collapse;width:100%}th,td{text-align:left;vertical-align:top;border-top:1px solid var(--rule);\
padding:.2rem .75rem .2rem 0;font-weight:400}tbody th{font-weight:600;white-space:nowrap;width:1%}thead th{font-size:.85rem;\
border-top:0}.wide tbody th{white-space:normal;width:auto}.wide td{white-space:nowrap}tr,figure{break-inside:avoid}thead{display:table-header-group}\
.figures{columns:2;column-gap:2.5rem}.figures div{break-inside:avoid;display:flex;justify-content:space-between;gap:1rem;\
border-top:1px solid var(--rule);padding:.2rem 0}.figures dt{font-weight:600}.figures dd{margin:0;text-align:right}dl{margin:0}\
.warp svg{width:100%;height:auto}figure{margin:.6rem 0}.pictures{display:grid;grid-template-columns:1fr 1fr;gap:.8rem}\
.pictures figure{margin:0}img{width:100%;height:auto;max-height:20rem;object-fit:contain;object-position:left}figcaption,.small\
{font-size:.85rem}section{break-inside:auto}.keep{break-inside:avoid}@page{size:A4;margin:16mm 15mm}@media print{body{margin:0;\
padding:0;max-width:none;font-size:10.5pt}}";

fn figures(out: &mut String, rows: &[(&str, String)]) {
    out.push_str("<dl class=\"figures\">");
    for (what, value) in rows.iter().filter(|(_, value)| !value.trim().is_empty()) {
        let _ = write!(out, "<div><dt>{}</dt><dd>{}</dd></div>", escape(what), escape(value));
    }
    out.push_str("</dl>");
}

fn table(out: &mut String, rows: &[(&str, String)]) {
    out.push_str("<table><tbody>");
    for (what, value) in rows.iter().filter(|(_, value)| !value.trim().is_empty()) {
        let value = escape(value).replace('\n', "<br>");
        let _ = write!(out, "<tr><th scope=\"row\">{}</th><td>{value}</td></tr>", escape(what));
    }
    out.push_str("</tbody></table>");
}

/// The pictures of a warp's sheet and the size they have on it. Whoever makes these small copies first, without holding the journal,
/// has [`html`] find them ready.
#[must_use]
pub fn pictures(journal: &Journal, warp: &RecordId) -> Vec<(StoredPhoto, u32)> {
    let log = model::warp_log(journal.state(), warp);
    let photos = log.iter().flat_map(|log| &log.photos);
    photos.filter_map(|photo| Some((journal.stored_photo(warp, &photo.hash).ok()?, PHOTO_SIDE_PX))).collect()
}

/// The sheet as HTML.
#[must_use]
pub fn html(journal: &Journal, view: &LoomView, format: &DisplayFormat, today: NaiveDate) -> String {
    let form = &view.form;
    // It is kept for years: its days say their year.
    let dated = |day: NaiveDate| format.date(day, NaiveDate::MIN);
    let mut out = format!(
        "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width\">\
         <title>{0}</title><style>:root{{--print:{PRINT};--paper:{PAPER};--rule:{PRINT_RULE}}}{STYLE}</style></head><body><h1>{0}</h1><p class=\"small\">Record sheet of {1}</p>",
        escape(&view.name),
        escape(&dated(today))
    );
    let log = view.id.parse().ok().and_then(|id| model::warp_log(journal.state(), &id));
    if let Some(note) = log.as_ref().and_then(|log| log.warp.note.as_deref()) {
        let _ = write!(out, "<p>{}</p>", escape(note).replace('\n', "<br>"));
    }
    let _ = write!(
        out,
        "<figure class=\"warp\">{}<figcaption>{}</figcaption></figure>",
        warp_on_paper::svg(&view.picture),
        escape(&view.picture.text)
    );
    stands(&mut out, view);
    out.push_str("<h2>Planned</h2>");
    let pieces = if form.pieces == "1" { String::new() } else { form.pieces.clone() };
    let day = |text: &str| text.parse().map_or_else(|_| text.to_owned(), dated);
    let density = crate::overview::format_view(format).density_unit;
    let density = density.replacen('p', "P", 1);
    figures(
        &mut out,
        &[
            ("Begun on", day(&form.begun_on)),
            ("Gift day", day(&form.gift_on)),
            ("Warp wound", form.wound.clone()),
            ("Loom waste", form.waste.clone()),
            ("Length wanted", form.wanted.clone()),
            ("Pieces", pieces),
            ("Fringe", form.fringe.clone()),
            ("Between pieces", form.gap.clone()),
            ("Width in the reed", form.reed_width.clone()),
            (density.as_str(), form.picks.clone()),
            ("Warp for 100 of cloth", form.warp_per_100.clone()),
            ("Length lost, per cent", form.shrinkage_percent.clone()),
            (
                "Weft",
                [form.weft_name.as_str(), form.weft_mass.as_str(), form.weft_length.as_str()].join(" ").trim().into(),
            ),
        ],
    );
    // A row of the sequence is a few words: they stand one after the other, and leave the paper for what was woven.
    let rows = |text: &str| text.lines().collect::<Vec<_>>().join(" \u{b7} ");
    let sequence = [
        ("Opening border", rows(&form.opening)),
        ("Repeat", rows(&form.repeat)),
        ("Balance", rows(&form.balance)),
        ("Closing border", rows(&form.closing)),
    ];
    if sequence.iter().any(|(_, rows)| !rows.is_empty()) {
        out.push_str("<h2>Pick sequence</h2>");
        table(&mut out, &sequence);
    }
    let off = &view.off;
    if !off.planned_and_actual.is_empty() {
        out.push_str(
            "<h2>Planned, and as it came out</h2><table class=\"wide\"><thead><tr><th>Figure</th><th>Planned</th><th>Came out</th><th>Difference</th>\
             </tr></thead><tbody>",
        );
        for row in &off.planned_and_actual {
            let _ = write!(
                out,
                "<tr><th scope=\"row\">{}</th><td>{}</td><td>{}</td><td>{}</td></tr>",
                escape(&row.what),
                escape(&row.planned),
                escape(&row.actual),
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
    if let Some(log) = &log {
        cautions(&mut out, &log.warp, format);
    }
    out.push_str("</body></html>\n");
    out
}

/// How it stands, in sentences; once it is cut off, how far it is finished.
fn stands(out: &mut String, view: &LoomView) {
    let reported = if view.off.line.is_empty() {
        vec![
            view.progress.headline.as_str(),
            &view.warp_reach.headline,
            &view.weft_reach.headline,
            &view.finish_date.headline,
        ]
    } else {
        vec![view.off.line.as_str()]
    };
    out.push_str("<section class=\"keep\"><h2>How it stands</h2>");
    for sentence in reported {
        let _ = write!(out, "<p>{}</p>", escape(sentence));
    }
    out.push_str("</section>");
}

/// What may hurt someone at this warp, from the first pick to the wash.
fn cautions(out: &mut String, warp: &model::Warp, format: &DisplayFormat) {
    let _ = write!(out, "<h2>{}</h2><ul>", escape(&text(&messages::cautions_heading(), format)));
    for caution in cautions_on_paper(warp) {
        let shown = caution_view(caution, format);
        let _ = write!(
            out,
            "<li>{} <span class=\"small\">({})</span></li>",
            escape(&shown.sentence),
            escape(&shown.source)
        );
    }
    let _ = write!(out, "</ul><p class=\"small\">{}</p>", escape(&text(&messages::cautions_local_rules(), format)));
}

/// Its sittings, the first first, then its pictures.
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
    let mut pictures = String::new();
    for shown in &view.strip {
        let Some(photo) = log.photos.iter().find(|photo| photo.id.as_str() == shown.id) else { continue };
        // A picture that has not arrived is left out; the sheet is of what is here.
        let Ok(bytes) = journal.thumbnail(&log.warp.id, &photo.hash, PHOTO_SIDE_PX) else { continue };
        let reported = escape(&shown.text);
        let _ = write!(
            pictures,
            "<figure><img alt=\"Photo of {reported}\" src=\"data:image/jpeg;base64,{}\"><figcaption>{reported}</figcaption></figure>",
            STANDARD.encode(bytes)
        );
    }
    if !pictures.is_empty() {
        let _ = write!(out, "<h2>Pictures</h2><div class=\"pictures\">{pictures}</div>");
    }
}
