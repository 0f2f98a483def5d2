//! A sitting as it stands in the list.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use fellmark_journal::RecordId;

use super::name_of;
use crate::dates::DateText;
use crate::figures::{show_mass, show_measured, show_minutes};
use crate::fill_forms::show_sitting_form;
use crate::view::{PhotoView, SittingLine};
use fellmark_model::Sitting;
use fellmark_model::display_format::DisplayFormat;

pub(super) fn sitting_line(
    sitting: &Sitting,
    devices: &BTreeMap<String, String>,
    photos: &BTreeMap<RecordId, Vec<PhotoView>>,
    format: &DisplayFormat,
    today: NaiveDate,
) -> SittingLine {
    SittingLine {
        id: sitting.id.to_string(),
        day: format.weekday_date(sitting.on, today),
        line: sitting_words(sitting, format),
        note: sitting.note.clone(),
        device: name_of(&sitting.by, devices).to_owned(),
        photos: photos.get(&sitting.id).cloned().unwrap_or_default(),
        contested: sitting.contested,
        form: show_sitting_form(sitting, format),
        seen: sitting.seen.iter().map(ToString::to_string).collect(),
    }
}

/// "42 min, 118 picks, 41 cm from the start"; rough figures each with an "about".
fn sitting_words(sitting: &Sitting, format: &DisplayFormat) -> String {
    let mut parts = Vec::new();
    let about = if sitting.rough { "about " } else { "" };
    if let Some(minutes) = sitting.minutes {
        parts.push(format!("{about}{}", show_minutes(minutes)));
    }
    match sitting.picks {
        Some(1) => parts.push(format!("{about}1 pick")),
        Some(picks) if picks < 0 => parts.push(format!("{about}{} picks unwoven", -picks)),
        Some(picks) => parts.push(format!("{about}{picks} picks")),
        None => {}
    }
    if let Some(tape) = sitting.tape {
        let from = if tape.from_mark { "from the mark" } else { "from the start" };
        let relaxed = if tape.relaxed { ", relaxed" } else { "" };
        parts.push(format!("{about}{} {from}{relaxed}", show_measured(tape.mm, format)));
    }
    if let Some(mass) = sitting.weft_left_g {
        parts.push(format!("{about}{} of weft left", show_mass(mass, format)));
    }
    if sitting.pick_begun {
        parts.push("got up within a pick".into());
    }
    if sitting.mark_set {
        parts.push("mark set".into());
    }
    if sitting.rough {
        parts.push("rough figures".into());
    }
    if parts.is_empty() { "only a note".into() } else { parts.join(", ") }
}
