//! Plans that are saved for later, as they are listed.

use fellmark_journal::EntrySet;

use crate::view::{PlanForm, PlanKept};

/// The saved plans, the latest last. `typed` is what was typed on this device and is not saved as it stands, with the record of
/// the plan it came from.
#[must_use]
pub fn saved_plans(state: &EntrySet, typed: Option<&(PlanForm, String)>) -> Vec<PlanKept> {
    let saved = fellmark_model::plan::saved_plans(state);
    let mut plans: Vec<PlanKept> =
        saved.into_iter().map(|(record, form)| listed(record.to_string(), String::new(), form)).collect();
    if let Some((form, from)) = typed
        && !plans.iter().any(|plan| plan.record == *from && plan.form == *form)
    {
        plans.push(listed(String::new(), from.clone(), form.clone()));
    }
    plans
}

fn listed(record: String, from: String, form: PlanForm) -> PlanKept {
    let name = form.name.trim().to_owned();
    let line = line(&form);
    PlanKept { record, from, name: if name.is_empty() { line.clone() } else { name }, line, form }
}

/// A plan in a line: its sizes, or the yarn it starts from, as they were typed.
fn line(form: &PlanForm) -> String {
    let texts = |parts: &[&String]| {
        let typed: Vec<&str> = parts.iter().map(|text| text.trim()).filter(|text| !text.is_empty()).collect();
        typed.join(" \u{d7} ")
    };
    let yarn = texts(&[if form.warp_have.trim().is_empty() { &form.warp_mass } else { &form.warp_have }]);
    let size = texts(&[&form.width, &form.length]);
    match form.way.as_str() {
        "yarn" if !yarn.is_empty() => format!("from {yarn} of warp yarn"),
        _ if !size.is_empty() => size,
        _ => "only begun to be planned".into(),
    }
}
