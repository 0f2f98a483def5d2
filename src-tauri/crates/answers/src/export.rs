//! Taking the log out: CSV for spreadsheets, JSON for programs. Figures are metric with their unit in the column's name, and
//! dates `YYYY-MM-DD`, whatever the screen shows: a table that is taken out is read by programs.

use fellmark_journal::{Field, Presence, RecordId, State};
use serde_json::{Map, Value, json};

use crate::model::{self, WarpLog};
use crate::view::{Trouble, WarpState};

fn number(value: Option<f64>) -> String {
    value.map(|number| number.to_string()).unwrap_or_default()
}

fn yes(value: bool) -> String {
    if value { "yes" } else { "" }.into()
}

fn wanted<'a>(state: &State, only: Option<&'a RecordId>) -> impl Iterator<Item = WarpLog> + use<'a> {
    let logs = model::warp_logs(state);
    logs.into_values().filter(move |log| only.is_none_or(|id| log.warp.id == *id))
}

fn table(header: &[&str], rows: impl Iterator<Item = Vec<String>>) -> Result<String, Trouble> {
    let broken = |error: &dyn std::fmt::Display| Trouble::new(format!("The table could not be made: {error}."));
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(header).map_err(|error| broken(&error))?;
    for row in rows {
        writer.write_record(row).map_err(|error| broken(&error))?;
    }
    let bytes = writer.into_inner().map_err(|error| broken(&error))?;
    String::from_utf8(bytes).map_err(|error| broken(&error))
}

/// Every sitting that was not removed, as CSV.
///
/// # Errors
/// The table could not be made.
pub fn sittings_csv(state: &State, only: Option<&RecordId>) -> Result<String, Trouble> {
    let header = [
        "warp",
        "warp_id",
        "sitting_id",
        "on",
        "started",
        "minutes",
        "picks",
        "measured_mm",
        "measured_from",
        "measured_tension",
        "mark_set",
        "weft_left_g",
        "rough",
        "note",
        "device",
    ];
    let rows = wanted(state, only).filter(|log| log.warp.state != WarpState::Removed).flat_map(|log| {
        let (name, id) = (log.warp.name.clone(), log.warp.id.to_string());
        log.sittings.into_iter().map(move |sitting| {
            let tape = sitting.tape;
            let word = |say: fn(&model::Tape) -> &'static str| tape.as_ref().map(say).unwrap_or_default().to_owned();
            vec![
                name.clone(),
                id.clone(),
                sitting.id.to_string(),
                sitting.on.to_string(),
                sitting.started.unwrap_or_default(),
                number(sitting.minutes),
                sitting.picks.map(|picks| picks.to_string()).unwrap_or_default(),
                number(tape.map(|tape| tape.mm)),
                word(|tape| if tape.from_mark { "mark" } else { "start" }),
                word(|tape| if tape.relaxed { "relaxed" } else { "tight" }),
                yes(sitting.mark_set),
                number(sitting.weft_left_g),
                yes(sitting.rough),
                sitting.note.unwrap_or_default(),
                sitting.by,
            ]
        })
    });
    table(&header, rows)
}

/// Every warp that was not removed, as CSV.
///
/// # Errors
/// The table could not be made.
pub fn warps_csv(state: &State, only: Option<&RecordId>) -> Result<String, Trouble> {
    let header = [
        "warp",
        "warp_id",
        "state",
        "state_on",
        "begun_on",
        "wound_mm",
        "waste_mm",
        "wanted_mm",
        "wanted_state",
        "pieces",
        "fringe_mm",
        "shrinkage_percent",
        "picks_per_10cm",
        "warp_per_100_cloth",
        "reed_width_mm",
        "gift_on",
        "sittings",
        "picks",
        "minutes",
        "note",
    ];
    let rows = wanted(state, only).filter(|log| log.warp.state != WarpState::Removed).map(|log| {
        let warp = &log.warp;
        let state = match warp.state {
            WarpState::OnTheLoom => "on_the_loom",
            WarpState::Resting => "resting",
            WarpState::OffTheLoom => "off_the_loom",
            WarpState::Removed => "removed",
        };
        let picks: i64 = log.sittings.iter().filter_map(|sitting| sitting.picks).sum();
        let minutes: f64 = log.sittings.iter().filter_map(|sitting| sitting.minutes).sum();
        vec![
            warp.name.clone(),
            warp.id.to_string(),
            state.to_owned(),
            warp.state_on.map(|day| day.to_string()).unwrap_or_default(),
            warp.begun_on.map(|day| day.to_string()).unwrap_or_default(),
            number(warp.wound_mm),
            number(warp.waste_mm),
            number(warp.wanted_mm),
            warp.wanted_state.word().to_owned(),
            warp.pieces.to_string(),
            number(Some(warp.fringe_mm).filter(|mm| *mm > 0.0)),
            number(warp.shrinkage_percent),
            number(warp.picks_per_10cm),
            number(warp.warp_per_100),
            number(warp.reed_width_mm),
            warp.gift_on.map(|day| day.to_string()).unwrap_or_default(),
            log.sittings.len().to_string(),
            picks.to_string(),
            number(Some(minutes).filter(|minutes| *minutes > 0.0)),
            warp.note.clone().unwrap_or_default(),
        ]
    });
    table(&header, rows)
}

/// Every record with its fields, removed ones and fields with two answers included: the state of the journal, the same on every
/// device that holds the same entries.
#[must_use]
pub fn everything(state: &State, only: Option<&RecordId>) -> Value {
    let records = state.records().filter(|record| only.is_none_or(|id| record.place.warp_id() == Some(id)));
    let records = records.map(|record| {
        let mut fields = Map::new();
        let mut two_answers = Map::new();
        for (name, field) in &record.fields {
            fields.insert(name.clone(), field.used().clone());
            if let Field::Two { answers, .. } = field {
                let values =
                    answers.iter().map(|answer| json!({ "value": answer.value, "by": answer.by, "key": answer.key }));
                two_answers.insert(name.clone(), values.collect());
            }
        }
        json!({
            "id": record.id,
            "kind": record.kind,
            "warp": record.place.warp_id(),
            "presence": match record.presence {
                Presence::Here => "here",
                Presence::Gone => "gone",
                Presence::RemovedHereEditedThere => "removed_here_edited_there",
            },
            "fields": fields,
            "two_answers": two_answers,
        })
    });
    json!({ "records": records.collect::<Vec<_>>() })
}
