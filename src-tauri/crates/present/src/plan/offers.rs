//! Values that can be taken over into the plan's form, each with what stands behind it.

use chrono::NaiveDate;
use fellmark_cloth::quantity::ThreadDensity;
use fellmark_cloth::state::ReedWidth;

use super::words::{
    ashenhurst_words, density_figure, earlier_warps_words, fibre_and_finish_words, per_unit, weave_words,
};
use crate::figures::show_length;
use crate::messages::sentence;
use crate::view::{PlanFill, PlanOffer};
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::measures::Reader;
use fellmark_model::plan::{MeasuredTakeUp, PlanInputs};
use fellmark_reports::plan::{
    Assumptions, Candidate, PlanReport, Sett, SettSource, Source, WasteCandidate, WidthCandidate,
};

/// A share of interlacings above which the sett is two thirds of the wraps, as in twill; below it is half of them.
const TWO_THIRDS_ROOM: f64 = 0.6;

/// All offers of a plan.
pub(super) fn offers(inputs: &PlanInputs, report: &PlanReport, format: &DisplayFormat) -> Vec<PlanOffer> {
    let mut offers = Offers { format, list: Vec::new() };
    if let Some(assumptions) = &report.assumptions {
        offers.lengthwise(assumptions);
        offers.widths(assumptions);
        offers.pick_allowance(assumptions);
        offers.waste(assumptions);
    }
    if let Some(sett) = &report.sett {
        offers.sett(sett, inputs);
    }
    if let Some(loom) = report.sizes.as_ref().and_then(|sizes| sizes.assumed_loom_width) {
        offers.loom_width(loom);
    }
    offers.list
}

fn source_words(source: Source) -> String {
    match source {
        Source::EarlierWarps { warps, alike } => {
            format!("{}, {alike} of them like this one", earlier_warps_words(warps))
        }
        Source::Sample => "your sample".into(),
        Source::FibreAndFinish { fibre, finishing, across } => fibre_and_finish_words(fibre, finishing, across),
        Source::CommonPractice | Source::Form => "common practice, no source".into(),
    }
}

struct Offers<'a> {
    format: &'a DisplayFormat,
    list: Vec<PlanOffer>,
}

impl Offers<'_> {
    fn percent(&self, value: f64) -> String {
        format!("{}\u{a0}%", self.format.number(value, 1))
    }

    /// A number as it is typed.
    fn typed_number(&self, value: f64) -> String {
        self.format.form_number(value, 1)
    }

    fn typed_length(&self, mm: f64) -> String {
        Reader { format: self.format, today: NaiveDate::MIN }.show_length_for_form(mm)
    }

    /// Offers a value that was assumed. It stands beside the first of the fields it fills.
    fn assumed<T>(&mut self, candidate: &Candidate<T>, button: String, fills: &[(&str, String)]) {
        let Some((field, _)) = fills.first() else { return };
        let line = format!("{button}: {}.", source_words(candidate.source));
        self.list.push(PlanOffer {
            field: (*field).to_owned(),
            line: if candidate.in_use { format!("Empty counts as {line}") } else { sentence(&line) },
            button,
            fills: fills
                .iter()
                .map(|(field, text)| PlanFill { field: (*field).to_owned(), text: text.clone() })
                .collect(),
            warps: candidate.source.warps(),
            in_use: candidate.in_use,
        });
    }

    /// Offers a loss for one field.
    fn loss<T>(&mut self, field: &str, candidate: &Candidate<T>, percent: f64) {
        self.assumed(candidate, self.percent(percent), &[(field, self.typed_number(percent))]);
    }

    fn lengthwise(&mut self, assumptions: &Assumptions) {
        let release = &assumptions.release_candidate;
        self.loss("release_percent", release, release.value.shrinkage_percent());
        for candidate in &assumptions.wash.candidates {
            self.loss("shrinkage_percent", candidate, candidate.value.shrinkage_percent());
        }
        for candidate in &assumptions.take_up.candidates {
            let (of, words) = match candidate.value {
                MeasuredTakeUp::Relaxed(_) => ("off_loom", "off the loom"),
                MeasuredTakeUp::UnderTension(_) => ("under_tension", "on the loom"),
            };
            let figure = self.typed_number(candidate.value.warp_per_100());
            let button = format!("{figure} for 100 {words}");
            self.assumed(candidate, button, &[("warp_per_100", figure), ("take_up_of", of.to_owned())]);
        }
    }

    fn widths(&mut self, assumptions: &Assumptions) {
        for candidate in &assumptions.width_candidates {
            match candidate.value {
                WidthCandidate::Both { draw_in, wash } => {
                    let (draw_in, wash) = (draw_in.shrinkage_percent(), wash.shrinkage_percent());
                    let button = format!("{} and {} in the wash", self.percent(draw_in), self.percent(wash));
                    let fills = [
                        ("draw_in_percent", self.typed_number(draw_in)),
                        ("width_shrinkage_percent", self.typed_number(wash)),
                    ];
                    self.assumed(candidate, button, &fills);
                }
                WidthCandidate::InAll(all) => {
                    let percent = all.shrinkage_percent();
                    let button = format!("{} in all, wash included", self.percent(percent));
                    let fills =
                        [("draw_in_percent", self.typed_number(percent)), ("width_shrinkage_percent", "0".to_owned())];
                    self.assumed(candidate, button, &fills);
                }
                WidthCandidate::DrawIn(draw_in) => {
                    self.loss("draw_in_percent", candidate, draw_in.shrinkage_percent());
                }
                WidthCandidate::Wash(wash) => {
                    self.loss("width_shrinkage_percent", candidate, wash.shrinkage_percent());
                }
            }
        }
    }

    fn pick_allowance(&mut self, assumptions: &Assumptions) {
        for candidate in &assumptions.pick_allowance.candidates {
            self.loss("weft_allowance_percent", candidate, candidate.value.percent());
        }
    }

    fn waste(&mut self, assumptions: &Assumptions) {
        for candidate in &assumptions.waste_candidates {
            match candidate {
                WasteCandidate::EarlierWarps(candidate) => {
                    let mm = candidate.value.mm();
                    self.assumed(candidate, show_length(mm, self.format), &[("waste", self.typed_length(mm))]);
                }
                WasteCandidate::Loom { prior, span, in_use } => {
                    let length = |mm: f64| show_length(mm, self.format);
                    let likely = length(span.likely.mm());
                    let range = format!("{} to {}", length(span.low.mm()), length(span.high.mm()));
                    let start = if *in_use { "Empty counts as " } else { "" };
                    self.list.push(PlanOffer {
                        field: "waste".into(),
                        line: format!("{start}{likely}: {range} on a {} ({}).", prior.loom, prior.source),
                        button: format!("{likely}, {}", prior.loom),
                        fills: vec![PlanFill { field: "waste".into(), text: self.typed_length(span.likely.mm()) }],
                        warps: 0,
                        in_use: *in_use,
                    });
                }
            }
        }
    }

    fn sett(&mut self, sett: &Sett, inputs: &PlanInputs) {
        let source = sett.ends.map(|(_, source)| source);
        let figure = |density| density_figure(density, self.format);
        let start = |this| if source == Some(this) { "Empty counts as " } else { "" };
        let weave = weave_words(inputs.weave);
        let by_wraps = sett.by_wraps.zip(inputs.wraps).map(|(by_wraps, wraps)| {
            let share = if inputs.weave.weave().room() > TWO_THIRDS_ROOM { "two thirds" } else { "half" };
            let line = format!("{}{share} of {} wraps, for {weave}.", start(SettSource::Wraps), figure(wraps));
            (by_wraps, sentence(&line))
        });
        let by_number = sett.largest.map(|(largest, ordinary)| {
            let line = format!(
                "{}{}: 80\u{a0}% of the largest sett, {} {}, by Ashenhurst\u{2019}s rule with k = {}, in {weave}.",
                start(SettSource::YarnNumber),
                figure(ordinary),
                figure(largest),
                per_unit(self.format),
                ashenhurst_words(inputs.ashenhurst),
            );
            (ordinary, sentence(&line))
        });
        if let Some((density, line)) = by_wraps {
            self.density("sett", density, line, source == Some(SettSource::Wraps));
        }
        if let Some((density, line)) = by_number {
            self.density("sett", density, line, source == Some(SettSource::YarnNumber));
        }
        if let (false, Some(picks)) = (sett.picks_given, sett.picks) {
            let figure = density_figure(picks.density(), self.format);
            let line = format!("Empty counts as {figure}: as many picks as ends, a balanced cloth.");
            self.density("picks", picks.density(), line, true);
        }
    }

    fn density(&mut self, field: &str, density: ThreadDensity, line: String, in_use: bool) {
        let figure = density_figure(density, self.format);
        self.list.push(PlanOffer {
            field: field.into(),
            line,
            button: format!("{figure} {}", per_unit(self.format)),
            fills: vec![PlanFill { field: field.into(), text: figure.replace('\u{2212}', "-") }],
            warps: 0,
            in_use,
        });
    }

    fn loom_width(&mut self, loom: ReedWidth) {
        let shown = show_length(loom.mm(), self.format);
        self.list.push(PlanOffer {
            field: "loom_width".into(),
            line: format!("Empty counts as {shown}: a common rigid heddle."),
            button: shown,
            fills: vec![PlanFill { field: "loom_width".into(), text: self.typed_length(loom.mm()) }],
            warps: 0,
            in_use: true,
        });
    }
}
