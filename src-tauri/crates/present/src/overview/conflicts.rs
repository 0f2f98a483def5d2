//! Fields that hold two answers, and records removed here and edited there.

use std::collections::BTreeMap;
use std::sync::Arc;

use chrono::NaiveDate;
use fellmark_journal::{Entry, GONE, Journal, Presence, Record};
use serde_json::Value;

use super::{device_names, name_of};
use crate::dates::DateText;
use crate::figures::{show_length, show_mass, show_minutes};
use crate::view::{ConflictView, ConflictingValue};
use fellmark_model::WarpLog;
use fellmark_model::commands::ContestedRecord;
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::fields::{self, kind};
use fellmark_model::forms::picks_in_units;

/// The fields of a warp and of what belongs to it that hold two answers.
#[must_use]
pub fn conflict_views(journal: &Journal, log: &WarpLog, format: &DisplayFormat, today: NaiveDate) -> Vec<ConflictView> {
    let devices = device_names(journal);
    let mut all = Vec::new();
    for record in &log.conflicting_records {
        let whose = whose(record, log, format, today);
        if record.presence == Presence::RemovedHereEditedThere {
            all.push(ConflictView {
                record: record.id.to_string(),
                field: GONE.into(),
                what: format!("{whose}: removed on one device, changed on another"),
                answers: removed_or_changed(journal, record, &devices),
            });
        }
        for (field, answers) in record.conflicts().filter(|(field, _)| *field != fields::ACT) {
            let used = record.get(field);
            all.push(ConflictView {
                record: record.id.to_string(),
                field: field.to_owned(),
                what: format!("{whose}: {}", field_words(field)),
                answers: answers
                    .iter()
                    .map(|answer| ConflictingValue {
                        key: answer.key.to_string(),
                        value: value_words(field, &answer.value, format, today),
                        device: name_of(answer.by.as_str(), &devices).to_owned(),
                        in_use: Some(&answer.value) == used,
                    })
                    .collect(),
            });
        }
    }
    all
}

/// The two ways out for a record that was removed on one device and changed on another.
fn removed_or_changed(journal: &Journal, record: &Record, devices: &BTreeMap<String, String>) -> Vec<ConflictingValue> {
    let heads = || record.heads.iter().filter_map(|key| journal.state().entry(*key)).map(Arc::as_ref);
    let removes = |entry: &&Entry| entry.set().get(GONE).and_then(Value::as_bool) == Some(true);
    let removal = heads().rfind(removes);
    let unseen =
        |entry: &&Entry| !removes(entry) && removal.is_none_or(|removal| !removal.over().contains(&entry.key()));
    let change = heads().rfind(unseen);
    let by = |entry: Option<&Entry>| {
        entry.map_or_else(String::new, |entry| name_of(entry.by().as_str(), devices).to_owned())
    };
    // It stays until somebody chooses.
    [
        (ContestedRecord::Removed, "Keep it removed", by(removal), false),
        (ContestedRecord::Restored, "Restore it with the change", by(change), true),
    ]
    .map(|(chosen, words, device, in_use)| ConflictingValue {
        key: chosen.key().to_owned(),
        value: words.to_owned(),
        device,
        in_use,
    })
    .into()
}

fn whose(record: &Record, log: &WarpLog, format: &DisplayFormat, today: NaiveDate) -> String {
    match record.kind.as_str() {
        kind::SITTING => {
            let sitting = log.sittings.iter().find(|sitting| sitting.id == record.id);
            sitting.map_or_else(|| "a sitting".into(), |sitting| format.weekday_date(sitting.on, today))
        }
        kind::WEFT => "the weft".into(),
        kind::PLACE => "a place in the sequence".into(),
        kind::READING => "a measure".into(),
        kind::WEIGHING => "a weighing".into(),
        kind::JOIN => "a yarn taken up".into(),
        kind::PHOTO => "a photo".into(),
        _ => log.warp.name.clone(),
    }
}

/// A field in words: the journal's name without its unit.
fn field_words(field: &str) -> String {
    let plain = field.strip_suffix("_mm").or_else(|| field.strip_suffix("_g")).unwrap_or(field);
    plain.replace('_', " ")
}

fn value_words(field: &str, value: &Value, format: &DisplayFormat, today: NaiveDate) -> String {
    match value {
        Value::Null => "nothing".into(),
        Value::Bool(true) => "yes".into(),
        Value::Bool(false) => "no".into(),
        Value::Number(number) => {
            let number = number.as_f64().unwrap_or(0.0);
            if field.ends_with("_mm") {
                show_length(number, format)
            } else if field.ends_with("_g") {
                show_mass(number, format)
            } else if field == fields::sitting::MINUTES {
                show_minutes(number)
            } else if field == fields::warp::PICKS_PER_10CM {
                format.number(picks_in_units(number, format.units), 2)
            } else {
                format.number(number, 2)
            }
        }
        Value::String(text) => {
            text.parse::<NaiveDate>().map_or_else(|_| text.replace('_', " "), |day| format.weekday_date(day, today))
        }
        Value::Array(items) if field.ends_with("_mm") => {
            crate::figures::show_piece_lengths(&items.iter().filter_map(Value::as_f64).collect::<Vec<_>>(), format)
        }
        Value::Array(items) => items.iter().filter_map(Value::as_str).collect::<Vec<_>>().join("; "),
        Value::Object(_) => "something this version does not know".into(),
    }
}
