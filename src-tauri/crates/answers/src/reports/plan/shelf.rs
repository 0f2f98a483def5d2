//! Plans that were not begun: kept on the shelf as they were typed, carried to every device, removed with undo.

use fellmark_journal::{Draft, GONE, Kind, Place, Record, RecordId, State};
use serde_json::{Map, Value, json};

use crate::model::commands::Commands;
use crate::model::display_format::{DisplayFormat, Units};
use crate::model::fields::kind;
use crate::model::forms::{FieldMap, changed};
use crate::model::{UserError, messages};
use crate::present::view::{PlanForm, PlanKept};

/// What a member of the plan's form measures, so that a bare figure gets its unit before it travels.
#[derive(Clone, Copy)]
enum Measures {
    Length,
    Yarn,
    Mass,
    Density,
    Count,
}

impl Measures {
    fn of(member: &str) -> Option<Self> {
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
            "warp_count" | "weft_count" => Self::Count,
            _ => return None,
        })
    }

    /// What a bare figure is taken in.
    fn unit(self, units: Units) -> &'static str {
        match (self, units) {
            (Self::Length, Units::Metric) => " cm",
            (Self::Length, Units::Imperial) => " in",
            (Self::Yarn, Units::Metric) => " m",
            (Self::Yarn, Units::Imperial) => " yd",
            (Self::Mass, Units::Metric) => " g",
            (Self::Mass, Units::Imperial) => " oz",
            (Self::Density, Units::Metric) => " per 10 cm",
            (Self::Density, Units::Imperial) => " per inch",
            (Self::Count, Units::Metric) => " m/100 g",
            (Self::Count, Units::Imperial) => " yd/lb",
        }
    }
}

/// A figure that says its unit, with a point for its decimal mark: it is read alike by everyone.
fn plain(member: &str, text: &str, format: &DisplayFormat) -> String {
    let Some(measures) = Measures::of(member) else { return text.to_owned() };
    let bare = text.chars().any(|c| c.is_ascii_digit())
        && text.chars().all(|c| c.is_ascii_digit() || c.is_whitespace() || ".,;\u{d7}".contains(c));
    let text =
        if format.decimal_mark == ',' && !text.contains(", ") { text.replace(',', ".") } else { text.to_owned() };
    if bare { format!("{}{}", text.trim_end(), measures.unit(format.units)) } else { text }
}

/// The form as the journal keeps it: a field for each member, nothing for an empty one.
fn fields_of(form: &PlanForm, format: &DisplayFormat) -> FieldMap {
    let Ok(Value::Object(members)) = serde_json::to_value(form) else { return FieldMap::new() };
    let kept = members.into_iter().map(|(member, value)| {
        let value = match value {
            Value::String(text) if text.trim().is_empty() => Value::Null,
            Value::String(text) => json!(plain(&member, text.trim(), format)),
            Value::Bool(false) => Value::Null,
            other => other,
        };
        (member, value)
    });
    kept.collect()
}

/// Whether something is typed at all: the way taken is not yet a plan.
#[must_use]
pub fn says_something(form: &PlanForm) -> bool {
    let plain = PlanForm { way: String::new(), ..form.clone() };
    let chosen = [("take_up_of", "off_loom"), ("edge", "none"), ("weave", "plain"), ("k", "usual")];
    fields_of(&plain, &DisplayFormat::default()).into_iter().any(|(member, value)| {
        let usual = chosen.iter().any(|(name, word)| *name == member && value == json!(word));
        let sure = member.ends_with("_sure") && value == json!("label");
        !value.is_null() && !usual && !sure
    })
}

fn form_of(record: &Record) -> PlanForm {
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

/// A plan in a line: its sizes, or the yarn it starts from, as they were typed.
#[must_use]
pub fn line(form: &PlanForm) -> String {
    let texts = |parts: &[&String]| {
        let typed: Vec<&str> = parts.iter().map(|text| text.trim()).filter(|text| !text.is_empty()).collect();
        typed.join(" \u{d7} ")
    };
    let yarn = || texts(&[if form.warp_have.trim().is_empty() { &form.warp_mass } else { &form.warp_have }]);
    let (size, yarn) = (texts(&[&form.width, &form.length]), yarn());
    match form.way.as_str() {
        "yarn" if !yarn.is_empty() => format!("from {yarn} of warp yarn"),
        _ if !size.is_empty() => size,
        _ => "only begun to be planned".into(),
    }
}

fn shown(record: String, from: String, form: PlanForm) -> PlanKept {
    let name = form.name.trim().to_owned();
    PlanKept { record, from, name: if name.is_empty() { line(&form) } else { name }, line: line(&form), form }
}

/// The plans that were kept and neither begun nor removed, the latest kept last; `typed` is what was typed on this device and is
/// not kept as it stands, with the plan it came from.
#[must_use]
pub fn kept(state: &State, typed: Option<&(PlanForm, String)>) -> Vec<PlanKept> {
    let mut records: Vec<&Record> =
        state.of_shelf().filter(|record| record.kind.as_str() == kind::PLAN && record.is_visible()).collect();
    records.sort_by(|a, b| (&a.first_at, &a.id).cmp(&(&b.first_at, &b.id)));
    let mut plans: Vec<PlanKept> =
        records.into_iter().map(|record| shown(record.id.to_string(), String::new(), form_of(record))).collect();
    if let Some((form, from)) = typed
        && !plans.iter().any(|plan| plan.record == *from && plan.form == *form)
    {
        plans.push(shown(String::new(), from.clone(), form.clone()));
    }
    plans
}

impl Commands<'_> {
    /// Keeps a plan that is not begun: anew, or over the one it came from; its record.
    ///
    /// # Errors
    /// Nothing is typed, or it could not be written.
    pub fn keep_plan(&mut self, form: &PlanForm, from: Option<&RecordId>) -> Result<RecordId, UserError> {
        if !says_something(form) {
            return Err(UserError::new(messages::ready_sentence(
                "Nothing is planned yet, so there is nothing to keep. Type what you know.",
            )));
        }
        let set = fields_of(form, &self.format);
        let held = from.and_then(|id| self.kept_plan(id));
        let Some(record) = held else {
            let id = RecordId::new();
            let draft = Draft::new(Place::Shelf, id.clone(), Kind::fixed(kind::PLAN), changed(&set, |_| None));
            self.act(vec![draft])?;
            return Ok(id);
        };
        let id = record.id.clone();
        let draft = self.change(record, &set, &[]);
        self.act(draft.into_iter().collect())?;
        Ok(id)
    }

    fn kept_plan(&self, id: &RecordId) -> Option<&Record> {
        let record = self.journal.state().record(id)?;
        (record.kind.as_str() == kind::PLAN && record.place == Place::Shelf && record.is_visible()).then_some(record)
    }

    /// The entry that takes a kept plan off the shelf because its warp is begun.
    pub(super) fn plan_is_begun(&self, id: &RecordId) -> Option<Draft> {
        let mut set = FieldMap::new();
        set.insert(GONE.into(), json!(true));
        self.kept_plan(id).map(|record| Draft::on(record, set))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

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
            assert_eq!(plain(member, text, format), wanted, "{member}");
        }
        let empty =
            PlanForm { way: "yarn".into(), edge: "none".into(), weft_sure: "label".into(), ..PlanForm::default() };
        assert!(!says_something(&empty) && says_something(&PlanForm { one_yarn: true, ..empty }));
        let members = serde_json::to_value(PlanForm::default()).unwrap();
        assert!([GONE, crate::model::fields::ACT].iter().all(|own| members.get(*own).is_none()));
    }
}
