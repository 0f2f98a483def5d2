//! Plans that are saved for later, as they were typed: a field for each member of the form. The members are frozen on disk.

use chrono::NaiveDate;
use fellmark_journal::{EntrySet, Place, Record, RecordId};
use serde_json::{Map, Value, json};

use crate::display_format::{DisplayFormat, Units};
use crate::fields::kind;
use crate::forms::FieldMap;
use crate::forms::PlanForm;
use crate::measures::Reader;
use crate::typed_words::rows_in_english;
use crate::{Language, approximate};

/// What a member of the plan's form measures, so that a bare figure gets its unit before other devices read it.
#[derive(Clone, Copy)]
enum MeasureKind {
    Length,
    Yarn,
    Mass,
    Density,
    YarnNumber,
}

impl MeasureKind {
    fn of_member(member: &str) -> Option<Self> {
        Some(match member {
            "length"
            | "width"
            | "further"
            | "edge_length"
            | "reed_width"
            | "waste"
            | "header"
            | "sample"
            | "gap"
            | "sample_warp"
            | "sample_reed"
            | "sample_length"
            | "sample_width"
            | "sample_length_washed"
            | "sample_width_washed"
            | "loom_width" => Self::Length,
            "warp_have" | "weft_have" => Self::Yarn,
            "warp_mass" | "weft_mass" => Self::Mass,
            "sett" | "wraps" | "picks" => Self::Density,
            "warp_count" | "weft_count" => Self::YarnNumber,
            _ => return None,
        })
    }

    /// What a bare figure is taken in.
    fn default_unit(self, format: &DisplayFormat) -> &'static str {
        let units = if matches!(self, Self::Mass) { format.weights } else { format.units };
        match (self, units) {
            (Self::Length, Units::Metric) => " cm",
            (Self::Length, Units::Imperial) => " in",
            (Self::Yarn, Units::Metric) => " m",
            (Self::Yarn, Units::Imperial) => " yd",
            (Self::Mass, Units::Metric) => " g",
            (Self::Mass, Units::Imperial) => " oz",
            (Self::Density, Units::Metric) => " per 10 cm",
            (Self::Density, Units::Imperial) => " per inch",
            (Self::YarnNumber, Units::Metric) => " m/100 g",
            (Self::YarnNumber, Units::Imperial) => " yd/lb",
        }
    }
}

/// A figure with its unit and with a point for its decimal mark: every device reads it alike, whatever its settings.
fn with_unit(member: &str, text: &str, format: &DisplayFormat) -> String {
    let Some(kind) = MeasureKind::of_member(member) else { return text.to_owned() };
    let bare = text.chars().any(|c| c.is_ascii_digit())
        && text.chars().all(|c| c.is_ascii_digit() || c.is_whitespace() || ".,;\u{d7}".contains(c));
    let text =
        if format.decimal_mark == ',' && !text.contains(", ") { text.replace(',', ".") } else { text.to_owned() };
    if bare { format!("{}{}", text.trim_end(), kind.default_unit(format)) } else { text }
}

/// What was typed in the reader's language, spelled so that a reader of any language's program understands it.
fn without_language(member: &str, text: &str, format: &DisplayFormat, today: NaiveDate) -> String {
    match member {
        "opening" | "repeat" | "balance" | "closing" => rows_in_english(text, format.language).join("\n"),
        "gift_on" => {
            let day = (Reader { format, today }).day(member, text).ok().flatten();
            day.map_or_else(|| text.to_owned(), |day| day.to_string())
        }
        "warp_have" | "weft_have" | "warp_mass" | "weft_mass" if format.language != Language::English => {
            let parsed = approximate::parse(text, format.language);
            if parsed.rough { format!("about {}", with_unit(member, &parsed.figure, format)) } else { text.to_owned() }
        }
        _ => text.to_owned(),
    }
}

/// The form as the journal stores it: a field for each member, `null` for an empty one.
pub fn stored_fields(form: &PlanForm, format: &DisplayFormat, today: NaiveDate) -> FieldMap {
    let Ok(Value::Object(members)) = serde_json::to_value(form) else { return FieldMap::new() };
    let kept = members.into_iter().map(|(member, value)| {
        let value = match value {
            Value::String(text) if text.trim().is_empty() => Value::Null,
            Value::String(text) => {
                json!(with_unit(&member, &without_language(&member, text.trim(), format, today), format))
            }
            Value::Bool(false) => Value::Null,
            other => other,
        };
        (member, value)
    });
    kept.collect()
}

/// Whether anything is typed at all: where the plan starts from, and choices that are the usual ones, are not yet a plan.
#[must_use]
pub fn has_content(form: &PlanForm) -> bool {
    let plain = PlanForm { way: String::new(), ..form.clone() };
    let chosen =
        [("take_up_of", "off_loom"), ("edge", "none"), ("weave", "plain"), ("k", "usual"), ("finish", "washed")];
    stored_fields(&plain, &DisplayFormat::default(), NaiveDate::MIN).into_iter().any(|(member, value)| {
        let usual = chosen.iter().any(|(name, word)| *name == member && value == json!(word));
        let sure = member.ends_with("_sure") && value == json!("label");
        !value.is_null() && !usual && !sure
    })
}

fn stored_form(record: &Record) -> PlanForm {
    let Ok(Value::Object(members)) = serde_json::to_value(PlanForm::default()) else { return PlanForm::default() };
    let held: Map<String, Value> = members
        .into_iter()
        .map(|(member, empty)| {
            let held = record.get(&member).filter(|held| held.is_string() == empty.is_string() && !held.is_null());
            let value = held.cloned().unwrap_or(empty);
            (member, value)
        })
        .collect();
    serde_json::from_value(held.into()).unwrap_or_default()
}

/// The plans that are saved and neither begun nor removed, the oldest first.
#[must_use]
pub fn saved_plans(state: &EntrySet) -> Vec<(RecordId, PlanForm)> {
    let mut records: Vec<&Record> = state.of_shelf().filter(|record| is_saved_plan(record)).collect();
    records.sort_by(|a, b| (&a.first_at, &a.id).cmp(&(&b.first_at, &b.id)));
    records.into_iter().map(|record| (record.id.clone(), stored_form(record))).collect()
}

/// The record of a saved plan; `None` where it was begun or removed.
#[must_use]
pub fn saved_plan<'a>(state: &'a EntrySet, id: &RecordId) -> Option<&'a Record> {
    state.record(id).filter(|record| is_saved_plan(record))
}

fn is_saved_plan(record: &Record) -> bool {
    record.kind.as_str() == kind::PLAN && record.place == Place::Shelf && record.is_visible()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_plan_typed_in_german_is_read_in_french() {
        let today = NaiveDate::from_ymd_opt(2026, 11, 25).unwrap();
        let german = DisplayFormat::of_locale("de-DE").in_language(Language::German);
        let french = DisplayFormat::of_locale("fr-FR").in_language(Language::French);
        let form = PlanForm {
            repeat: "oben\nKamm unten, Stab hinten".into(),
            warp_have: "etwa 300".into(),
            gift_on: "21. Dez.".into(),
            ..PlanForm::default()
        };
        let stored = stored_fields(&form, &german, today);
        assert_eq!(stored["repeat"], json!("up\nheddle down, stick back"));
        assert_eq!(stored["warp_have"], json!("about 300 m"));
        assert_eq!(stored["gift_on"], json!("2026-12-21"));
        let read = Reader { format: &french, today };
        assert_eq!(read.day("gift_on", "2026-12-21").unwrap(), NaiveDate::from_ymd_opt(2026, 12, 21));
        assert!(approximate::parse("about 300 m", french.language).rough);
        assert_eq!(rows_in_english("up\nheddle down, stick back", french.language), ["up", "heddle down, stick back"]);
    }

    #[test]
    fn bare_figures_get_their_unit_and_written_ones_stay() {
        let metric = DisplayFormat::default();
        let imperial = metric.in_units(Units::Imperial);
        let german = DisplayFormat::of_locale("de-DE");
        for (member, text, format, wanted) in [
            ("length", "180", &metric, "180 cm"),
            ("length", "72", &imperial, "72 in"),
            ("length", "72 1/2 in", &metric, "72 1/2 in"),
            ("length", "1,85 m", &german, "1.85 m"),
            ("further", "60; 40", &metric, "60; 40 cm"),
            ("sett", "40/10", &metric, "40/10"),
            ("sett", "10", &imperial, "10 per inch"),
            ("warp_have", "300", &metric, "300 m"),
            ("warp_count", "400", &metric, "400 m/100 g"),
            ("waste", "as usual", &metric, "as usual"),
            ("name", "12", &metric, "12"),
            ("shrinkage_percent", "8", &metric, "8"),
        ] {
            assert_eq!(with_unit(member, text, format), wanted, "{member}");
        }
        let empty =
            PlanForm { way: "yarn".into(), edge: "none".into(), weft_sure: "label".into(), ..PlanForm::default() };
        assert!(!has_content(&empty) && has_content(&PlanForm { one_yarn: true, ..empty }));
        let members = serde_json::to_value(PlanForm::default()).unwrap();
        assert!([fellmark_journal::GONE, crate::fields::ACT].iter().all(|own| members.get(*own).is_none()));
    }
}
