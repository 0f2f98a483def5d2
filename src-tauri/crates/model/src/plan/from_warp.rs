//! An earlier warp copied into the form of a new plan.

use chrono::NaiveDate;
use fellmark_cloth::change::ExtentChange;
use fellmark_cloth::quantity::YarnNumber;
use fellmark_cloth::state::{Finished, UnderTension, WovenLength};
use fellmark_journal::EntrySet;

use crate::display_format::DisplayFormat;
use crate::fields::{kind, plan};
use crate::forms::PlanForm;
use crate::forms::picks_in_units;
use crate::measures::Reader;
use crate::piece_lengths;
use crate::{ClothState, TypedFields, WarpLog};

/// The finished length of each piece as the warp's record has it; `None` where it cannot be derived.
fn finished_each_mm(log: &WarpLog) -> Option<Vec<f64>> {
    let warp = &log.warp;
    let wanted = warp.wanted_of_each_mm();
    match warp.wanted_state {
        ClothState::Finished => Some(wanted),
        // The wash is not known apart from the release.
        ClothState::OffLoom => None,
        ClothState::UnderTension => {
            let loss =
                ExtentChange::<_, UnderTension, Finished>::from_shrinkage_percent(warp.shrinkage_percent?).ok()?;
            let after = |mm| loss.after(WovenLength::from_mm(mm).ok()?).ok().map(|finished| finished.mm());
            wanted.into_iter().map(after).collect()
        }
    }
}

/// Writes finished lengths into the form: the first and how many follow that equal it, the rest as further pieces.
fn put_lengths(form: &mut PlanForm, lengths_mm: &[f64], read: &Reader<'_>) {
    let Some(first) = lengths_mm.first() else { return };
    let same = lengths_mm.iter().take_while(|one| (*one - first).abs() < 0.01).count();
    form.length = read.show_length_for_form(*first);
    form.pieces = same.to_string();
    form.further = piece_lengths::show(&lengths_mm[same..], read.format);
}

/// Writes figures into the form as they are typed.
struct FormWriter<'a> {
    read: Reader<'a>,
}

impl FormWriter<'_> {
    fn length(&self, mm: Option<f64>) -> String {
        mm.map(|mm| self.read.show_length_for_form(mm)).unwrap_or_default()
    }

    fn percent(&self, value: Option<f64>) -> String {
        value.map(|value| self.read.format.form_number(value, 1)).unwrap_or_default()
    }

    fn density(&self, per_10cm: Option<f64>) -> String {
        let format = self.read.format;
        per_10cm.map(|n| format.form_number(picks_in_units(n, format.units), 3)).unwrap_or_default()
    }

    fn yarn_number(&self, tex: Option<f64>) -> String {
        let number = tex.and_then(|tex| YarnNumber::try_from(tex).ok());
        let format = self.read.format;
        let text = |number| fellmark_cloth::write::yarn_number(number, format.yarn_system(), format.mark());
        number.map(text).unwrap_or_default()
    }
}

/// An earlier warp as the form of a plan: what its plan had where it was planned, else what its record has.
#[must_use]
pub fn plan_form_from_warp(state: &EntrySet, log: &WarpLog, format: &DisplayFormat) -> PlanForm {
    let write = FormWriter { read: Reader { format, today: NaiveDate::MIN } };
    let mut form = form_of_warp(log, &write);
    let planned = state.of_warp(&log.warp.id).find(|record| record.kind.as_str() == kind::PLAN);
    if let Some(record) = planned.filter(|record| record.is_visible()) {
        put_planned(&mut form, &TypedFields(record), &write);
    }
    form
}

/// What the warp's own record has.
fn form_of_warp(log: &WarpLog, write: &FormWriter<'_>) -> PlanForm {
    let warp = &log.warp;
    let rows = |rows: &[String]| rows.join("\n");
    let above_zero = |mm: f64| Some(mm).filter(|mm| *mm > 0.0);
    let mut form = PlanForm {
        pieces: warp.pieces.to_string(),
        edge: if warp.fringe_mm > 0.0 { "fringe".into() } else { String::new() },
        edge_length: write.length(above_zero(warp.fringe_mm)),
        fringe_from_waste: warp.fringe_from_waste,
        picks: write.density(warp.picks_per_10cm),
        reed_width: write.length(warp.reed_width_mm),
        weave: warp.weave.clone().unwrap_or_default(),
        weft_name: log.wefts.first().and_then(|weft| weft.name.clone()).unwrap_or_default(),
        opening: rows(&warp.rows.opening),
        repeat: rows(&warp.rows.repeat),
        balance: rows(&warp.rows.balance),
        closing: rows(&warp.rows.closing),
        warp_per_100: write.percent(warp.warp_per_100),
        take_up_of: "under_tension".into(),
        // The log keeps the loss from the loom to finished in one figure.
        release_percent: if warp.shrinkage_percent.is_some() { "0".into() } else { String::new() },
        shrinkage_percent: write.percent(warp.shrinkage_percent),
        weft_allowance_percent: write.percent(warp.weft_allowance_percent),
        waste: write.length(warp.waste_mm),
        gap: write.length(above_zero(warp.gap_mm)),
        ..PlanForm::default()
    };
    put_lengths(&mut form, &finished_each_mm(log).unwrap_or_default(), &write.read);
    form
}

/// What the plan beside the warp has goes before what the warp's record has.
fn put_planned(form: &mut PlanForm, get: &TypedFields<'_>, write: &FormWriter<'_>) {
    let length = |field: &str| write.length(get.number(field));
    let percent = |field: &str| write.percent(get.number(field));
    form.width = length(plan::FINISHED_WIDTH_MM);
    if !form.width.is_empty() {
        form.reed_width = String::new();
    }
    put_lengths(form, &get.numbers(plan::FINISHED_LENGTHS_MM), &write.read);
    form.sett = write.density(get.number(plan::SETT_ENDS_PER_10CM));
    form.edge = get.text(plan::EDGE).unwrap_or_default();
    form.edge_length = length(plan::EDGE_MM);
    if let Some(weave) = get.text(plan::WEAVE) {
        form.weave = weave;
    }
    form.fibre = get.text(plan::FIBRE).unwrap_or_default();
    form.finish = get.text(plan::FINISH).unwrap_or_default();
    form.take_up_of = "off_loom".into();
    form.warp_per_100 = percent(plan::WARP_PER_100_OFF_LOOM);
    form.release_percent = percent(plan::RELEASE_PERCENT);
    form.shrinkage_percent = percent(plan::WASH_PERCENT);
    form.draw_in_percent = percent(plan::DRAW_IN_PERCENT);
    form.width_shrinkage_percent = percent(plan::WIDTH_LOSS_PERCENT);
    form.waste = length(plan::WASTE_MM);
    form.header = length(plan::HEADER_MM);
    form.sample = length(plan::SAMPLE_MM);
    form.gap = length(plan::GAP_MM);
    form.warp_count = write.yarn_number(get.number(plan::WARP_TEX));
    form.weft_count = write.yarn_number(get.number(plan::WEFT_TEX));
}
