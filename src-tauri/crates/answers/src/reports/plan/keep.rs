//! From a plan to the warp on the loom, and from an earlier warp back to a plan.

use std::cmp::Reverse;

use chrono::NaiveDate;
use fellmark_cloth::change::Change;
use fellmark_cloth::state::{Finished, UnderTension, WovenLength};
use fellmark_journal::{Draft, Kind, Place, RecordId, State};
use serde_json::json;

use super::reckon_exactly;
use super::typed::{EdgeKind, TakeUp, read_form, usual_system};
use crate::model::commands::Commands;
use crate::model::display_format::DisplayFormat;
use crate::model::fields::{self, kind};
use crate::model::forms::{FieldMap, changed, picks_in_units};
use crate::model::measures::Reader;
use crate::model::piece_lengths;
use crate::model::{self, ClothState, Fields, WarpLog};
use crate::model::{UserError, messages::ready_sentence};
use crate::present::view::{EarlierPlan, PlanForm, PlanView, WarpState};
use crate::reports::reckoned::{ReportCache, Summary};

/// Most earlier warps that are offered to be copied.
const MOST_COPIES: usize = 40;

/// The plan as the journal keeps it beside its warp: what the warp's own fields do not hold.
fn plan_fields(form: &PlanForm, view: &PlanView, format: &DisplayFormat, today: NaiveDate) -> FieldMap {
    use fields::plan;
    let typed = read_form(form, format, today);
    let percent = |shrinkage: Option<f64>| json!(shrinkage);
    let (edge, edge_mm) = match typed.edge {
        EdgeKind::Plain => (None, None),
        EdgeKind::Fringe => (Some("fringe"), typed.edge_mm),
        EdgeKind::Hem => (Some("hem"), typed.edge_mm),
    };
    let relaxed = match typed.take_up {
        Some(TakeUp::Relaxed(warp_use)) => Some(100.0 + warp_use.crimp().percent()),
        _ => None,
    };
    let above_zero = |mm: f64| (mm > 0.0).then_some(mm);
    let set = [
        (plan::FINISHED_LENGTHS_MM, json!(view.plain.finished_mm)),
        (plan::FINISHED_WIDTH_MM, json!(view.plain.finished_width_mm)),
        (plan::ENDS, json!(view.plain.ends)),
        (plan::SETT_ENDS_PER_10CM, json!(typed.sett.map(|sett| sett.density().per_10cm()))),
        (plan::EDGE, json!(edge)),
        (plan::EDGE_MM, json!(edge_mm)),
        (plan::WEAVE, json!(Some(form.weave.as_str()).filter(|word| *word == "twill"))),
        (plan::WARP_PER_100_OFF_LOOM, json!(relaxed)),
        (plan::RELEASE_PERCENT, percent(typed.release.map(|change| change.shrinkage_percent()))),
        (plan::WASH_PERCENT, percent(typed.wash.map(|change| change.shrinkage_percent()))),
        (plan::DRAW_IN_PERCENT, percent(typed.draw_in.map(|change| change.shrinkage_percent()))),
        (plan::WIDTH_LOSS_PERCENT, percent(typed.width_wash.map(|change| change.shrinkage_percent()))),
        (plan::WASTE_MM, json!(typed.waste.map(|waste| waste.mm()))),
        (plan::HEADER_MM, json!(above_zero(typed.header.0.mm()))),
        (plan::SAMPLE_MM, json!(above_zero(typed.sample.0.mm()))),
        (plan::GAP_MM, json!(above_zero(typed.gap.0.mm()))),
        (plan::WARP_TEX, json!(typed.warp_count.map(|count| count.tex()))),
        (plan::WEFT_TEX, json!(typed.weft_count.map(|count| count.tex()))),
        (plan::HOURS, json!(view.plain.hours.map(|hours| hours[1]))),
    ];
    let set: FieldMap = set.into_iter().map(|(field, value)| (field.to_owned(), value)).collect();
    changed(&set, |_| None)
}

impl Commands<'_> {
    /// Begins the warp a plan has become, and keeps the plan beside it; its id. A plan that was kept on the shelf leaves it.
    ///
    /// # Errors
    /// A field that cannot be read, or too little is known to wind a warp.
    pub fn begin_planned(
        &mut self,
        warps: &mut ReportCache,
        form: &PlanForm,
        kept: Option<&RecordId>,
    ) -> Result<RecordId, UserError> {
        warps.bring_up(self.journal.state());
        let (view, exact) = reckon_exactly(&warps.history(), form, &self.format, self.today);
        if let Some(trouble) = view.troubles.first() {
            return Err(UserError { field: trouble.field.clone(), message: ready_sentence(&trouble.sentence) });
        }
        let Some(begin) = &view.begin else { return Err(UserError::new(ready_sentence(view.headline))) };
        let (id, mut drafts) = self.begin_drafts(begin)?;
        if let Some(warp) = drafts.iter_mut().find(|draft| draft.of == id) {
            warp.set.extend(exact);
        }
        let beside = plan_fields(form, &view, &self.format, self.today);
        drafts.push(Draft::new(Place::warp(&id), RecordId::new(), Kind::fixed(kind::PLAN), beside));
        drafts.extend(kept.and_then(|kept| self.plan_is_begun(kept)));
        self.act(drafts)?;
        Ok(id)
    }
}

/// The latest begun of the warps as plans to copy, the latest first. Of the others no record is read.
#[must_use]
pub fn copies(state: &State, warps: &mut ReportCache, format: &DisplayFormat) -> Vec<EarlierPlan> {
    warps.bring_up(state);
    let mut known: Vec<&Summary> =
        warps.summaries().map(AsRef::as_ref).filter(|one| one.state != WarpState::Removed).collect();
    known.sort_by_key(|one| (Reverse(one.begun_on), one.id.clone()));
    let offered = known.into_iter().take(MOST_COPIES).filter_map(|one| model::warp_log(state, &one.id));
    offered
        .map(|log| EarlierPlan {
            warp: log.warp.id.to_string(),
            name: log.warp.name.clone(),
            form: copy(state, &log, format),
        })
        .collect()
}

/// Lengths a warp's record holds as they would be wished for again, one for each piece.
fn finished_mm(log: &WarpLog) -> Option<Vec<f64>> {
    let warp = &log.warp;
    let wanted = warp.wanted_of_each_mm();
    match warp.wanted_state {
        ClothState::Finished => Some(wanted),
        // The wash is not known apart from the release.
        ClothState::OffLoom => None,
        ClothState::UnderTension => {
            let loss = Change::<_, UnderTension, Finished>::from_shrinkage_percent(warp.shrinkage_percent?).ok()?;
            let after = |mm| loss.after(WovenLength::from_mm(mm).ok()?).ok().map(|finished| finished.mm());
            wanted.into_iter().map(after).collect()
        }
    }
}

/// Writes lengths into a plan: those alike at the beginning with their number, the rest as further ones.
fn put_lengths(form: &mut PlanForm, lengths_mm: &[f64], read: &Reader<'_>) {
    let Some(first) = lengths_mm.first() else { return };
    let same = lengths_mm.iter().take_while(|one| (*one - first).abs() < 0.01).count();
    form.length = read.show_length_for_form(*first);
    form.pieces = same.to_string();
    form.further = piece_lengths::show(&lengths_mm[same..], read.format);
}

/// A warp as a plan to copy.
#[must_use]
pub fn copy(state: &State, log: &WarpLog, format: &DisplayFormat) -> PlanForm {
    use fields::plan;
    let read = Reader { format, today: NaiveDate::MIN };
    let warp = &log.warp;
    let length = |mm: Option<f64>| mm.map(|mm| read.show_length_for_form(mm)).unwrap_or_default();
    let percent = |value: Option<f64>| value.map(|value| format.form_number(value, 1)).unwrap_or_default();
    let density = |per_10cm: Option<f64>| {
        per_10cm.map(|n| format.form_number(picks_in_units(n, format.units), 3)).unwrap_or_default()
    };
    let rows = |rows: &[String]| rows.join("\n");
    let mut form = PlanForm {
        pieces: warp.pieces.to_string(),
        edge: if warp.fringe_mm > 0.0 { "fringe".into() } else { String::new() },
        edge_length: length(Some(warp.fringe_mm).filter(|mm| *mm > 0.0)),
        fringe_from_waste: warp.fringe_from_waste,
        picks: density(warp.picks_per_10cm),
        reed_width: length(warp.reed_width_mm),
        weave: warp.weave.clone().unwrap_or_default(),
        weft_name: log.wefts.first().and_then(|weft| weft.name.clone()).unwrap_or_default(),
        opening: rows(&warp.rows.opening),
        repeat: rows(&warp.rows.repeat),
        balance: rows(&warp.rows.balance),
        closing: rows(&warp.rows.closing),
        warp_per_100: percent(warp.warp_per_100),
        take_up_of: "under_tension".into(),
        // The log keeps the loss from the loom to finished in one figure.
        release_percent: if warp.shrinkage_percent.is_some() { "0".into() } else { String::new() },
        shrinkage_percent: percent(warp.shrinkage_percent),
        weft_allowance_percent: percent(warp.weft_allowance_percent),
        waste: length(warp.waste_mm),
        gap: length(Some(warp.gap_mm).filter(|mm| *mm > 0.0)),
        ..PlanForm::default()
    };
    put_lengths(&mut form, &finished_mm(log).unwrap_or_default(), &read);
    let planned = state.of_warp(&warp.id).find(|record| record.kind.as_str() == kind::PLAN);
    let Some(record) = planned.filter(|record| record.is_visible()) else { return form };
    let get = Fields(record);
    let tex = |field: &str| {
        let count = get.number(field).and_then(|tex| fellmark_cloth::quantity::YarnNumber::try_from(tex).ok());
        let words = |count| fellmark_cloth::write::yarn_number(count, usual_system(format), format.mark());
        count.map(words).unwrap_or_default()
    };
    form.width = length(get.number(plan::FINISHED_WIDTH_MM));
    if !form.width.is_empty() {
        form.reed_width = String::new();
    }
    put_lengths(&mut form, &get.numbers(plan::FINISHED_LENGTHS_MM), &read);
    form.sett = density(get.number(plan::SETT_ENDS_PER_10CM));
    form.edge = get.text(plan::EDGE).unwrap_or_default();
    form.edge_length = length(get.number(plan::EDGE_MM));
    if let Some(weave) = get.text(plan::WEAVE) {
        form.weave = weave;
    }
    form.take_up_of = "off_loom".into();
    form.warp_per_100 = percent(get.number(plan::WARP_PER_100_OFF_LOOM));
    form.release_percent = percent(get.number(plan::RELEASE_PERCENT));
    form.shrinkage_percent = percent(get.number(plan::WASH_PERCENT));
    form.draw_in_percent = percent(get.number(plan::DRAW_IN_PERCENT));
    form.width_shrinkage_percent = percent(get.number(plan::WIDTH_LOSS_PERCENT));
    form.waste = length(get.number(plan::WASTE_MM));
    form.header = length(get.number(plan::HEADER_MM));
    form.sample = length(get.number(plan::SAMPLE_MM));
    form.gap = length(get.number(plan::GAP_MM));
    form.warp_count = tex(plan::WARP_TEX);
    form.weft_count = tex(plan::WEFT_TEX);
    form
}
