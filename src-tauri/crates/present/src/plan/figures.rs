//! The figures of a plan, each with its reasons.

use fellmark_cloth::quantity::{Mass, YarnNumber};
use fellmark_cloth::warp::SegmentKind;

use super::sizes;
use super::words::{density_words, earlier_warps_words, figure, pieces_words, source_in_brackets};
use crate::figures::{show_length, show_mass, show_yarn};
use crate::messages::sentence;
use crate::view::PlanFigure;
use fellmark_model::display_format::{DisplayFormat, Units};
use fellmark_model::plan::{EdgeKind, MeasuredTakeUp, PlanInputs};
use fellmark_reports::plan::{Assumptions, PlanReport, Sett, WarpLengths, WeftNeed, Widths, YarnNeed};

/// Pieces whose length on the loom is stated one by one.
const MOST_PIECES_TOLD: usize = 12;
/// Metres of picks, measured in the reed, for which the scale's figure is given.
const PER_REED_M: f64 = 100.0;

/// All figures of a plan.
pub(super) fn figures(inputs: &PlanInputs, report: &PlanReport, format: &DisplayFormat) -> Vec<PlanFigure> {
    let mut figures = Vec::new();
    if let Some(sizes) = &report.sizes {
        figures.extend(sizes::figures(sizes, inputs, format));
    }
    let (Some(assumptions), Some(sett)) = (&report.assumptions, &report.sett) else { return figures };
    let show = Show { inputs, assumptions, format };
    let lengths = report.lengths.as_ref();
    figures.extend(lengths.map(|lengths| show.warp(lengths)));
    match report.widths {
        Some(widths) => figures.extend(show.ends_and_reed(&widths, sett)),
        None => figures.extend(report.reed_width_wanted.map(|reed| show.reed_width_wanted(reed.mm()))),
    }
    let (Some(widths), Some(lengths)) = (report.widths, lengths) else { return figures };
    if let Some(yarn) = report.warp_yarn {
        figures.push(show.warp_yarn(&yarn, &widths, lengths));
    }
    if let Some(weft) = report.weft {
        figures.push(show.to_weave(lengths));
        figures.push(show.picks(&weft, lengths, sett));
        figures.extend(show.repeats(report, lengths));
        figures.push(show.weft_yarn(&weft, &widths));
    }
    figures
}

struct Show<'a> {
    inputs: &'a PlanInputs,
    assumptions: &'a Assumptions,
    format: &'a DisplayFormat,
}

impl Show<'_> {
    fn length(&self, mm: f64) -> String {
        show_length(mm, self.format)
    }

    fn number(&self, value: f64) -> String {
        self.format.number(value, 1)
    }

    /// The warp to wind.
    fn warp(&self, lengths: &WarpLengths) -> PlanFigure {
        let mut why = vec![self.to_weave_why(lengths), self.take_up_why(lengths)];
        why.extend(self.fringe_why(lengths));
        for (kind, what) in [
            (SegmentKind::Header, "for the header"),
            (SegmentKind::Sample, "for the sample"),
            (SegmentKind::Gap, "between pieces"),
        ] {
            let warp = lengths.warp_in(&[kind]);
            if warp.mm() > 0.0 {
                why.push(format!("{} {what}.", self.length(warp.mm())));
            }
        }
        let waste = self.assumptions.waste;
        why.push(format!(
            "{} of loom waste{}, once for the whole warp.",
            self.length(waste.value.mm()),
            source_in_brackets(waste.source)
        ));
        let wound = self.length(lengths.wound.mm());
        why.push(if self.inputs.from_yarn {
            format!("Together {wound}: all that the yarn gives at this width.")
        } else {
            let step = if self.format.units == Units::Metric { "5 cm" } else { "2 in" };
            let exact = self.length(lengths.exact.mm());
            format!("Together {exact}, rounded up to the next {step}: a warp is never wound short.")
        });
        figure("warp", "Warp to wind", wound, why)
    }

    /// From the finished length to the length on the loom.
    fn to_weave_why(&self, lengths: &WarpLengths) -> String {
        let mut cloth = format!("{} finished", pieces_words(&lengths.finished_each(), self.format));
        if let (EdgeKind::Hem, Some(mm)) = (self.inputs.edge, self.inputs.edge_mm) {
            cloth.push_str(&format!(" and a hem of {} at each end of each", self.length(mm)));
        }
        let wash = self.assumptions.wash.used;
        let release = self.assumptions.release;
        let release = match release.value.shrinkage_percent() {
            0.0 => String::new(),
            percent => format!(
                ", \u{f7} (1 \u{2212} {}\u{a0}%) for what it loses off the loom{}",
                self.number(percent),
                source_in_brackets(release.source)
            ),
        };
        format!(
            "{cloth}, \u{f7} (1 \u{2212} {}\u{a0}%) for the wash{}{release}: {} to weave, measured tight on the loom.",
            self.number(wash.value.shrinkage_percent()),
            source_in_brackets(wash.source),
            self.length(lengths.woven.mm()),
        )
    }

    fn take_up_why(&self, lengths: &WarpLengths) -> String {
        let take_up = self.assumptions.take_up.used;
        let of = match take_up.value {
            MeasuredTakeUp::Relaxed(_) => "off the loom",
            MeasuredTakeUp::UnderTension(_) => "on the loom, tight",
        };
        format!(
            "100 of cloth {of} uses {} of warp{}: {} of warp in the cloth.",
            self.number(take_up.value.warp_per_100()),
            source_in_brackets(take_up.source),
            self.length(lengths.warp_in(&[SegmentKind::Cloth, SegmentKind::Hem]).mm())
        )
    }

    fn fringe_why(&self, lengths: &WarpLengths) -> Option<String> {
        let fringe = lengths.warp_in(&[SegmentKind::Fringe]);
        if fringe.mm() <= 0.0 {
            return None;
        }
        let waste_left = lengths.warp_in(&[SegmentKind::TieOn, SegmentKind::Unweavable]);
        let from_waste = self.assumptions.waste.value.less(waste_left);
        let out = if from_waste.mm() > 0.0 {
            format!(", of which {} come out of the loom waste", self.length(from_waste.mm()))
        } else {
            String::new()
        };
        Some(format!("{} of fringe{out}.", self.length(fringe.mm())))
    }

    fn ends_and_reed(&self, widths: &Widths, sett: &Sett) -> Vec<PlanFigure> {
        let Some((ends_in, _)) = sett.ends else { return Vec::new() };
        let density = density_words(ends_in.density(), self.format);
        let reed = self.length(widths.reed.mm());
        let width = self.assumptions.width;
        vec![
            figure(
                "ends",
                "Ends",
                widths.ends.to_string(),
                vec![format!("{reed} in the reed \u{d7} {density} = {} whole ends.", widths.ends)],
            ),
            figure(
                "reed_width",
                "Width in the reed",
                reed,
                vec![format!(
                    "{} finished \u{f7} (1 \u{2212} {}\u{a0}%) for draw-in and wash together{}, to whole ends.",
                    self.length(widths.finished.mm()),
                    self.number(width.value.shrinkage_percent()),
                    source_in_brackets(width.source)
                )],
            ),
        ]
    }

    fn reed_width_wanted(&self, reed_mm: f64) -> PlanFigure {
        let width = self.assumptions.width;
        let why = format!(
            "The finished width \u{f7} (1 \u{2212} {}\u{a0}%) for draw-in and wash together{}.",
            self.number(width.value.shrinkage_percent()),
            source_in_brackets(width.source)
        );
        figure("reed_width", "Width in the reed", self.length(reed_mm), vec![why])
    }

    /// "150 m, 60 g".
    fn yarn(&self, yarn: &YarnNeed) -> String {
        let length = show_yarn(yarn.length.m(), self.format);
        yarn.mass.map_or_else(|| length.clone(), |mass| format!("{length}, {}", self.mass(mass)))
    }

    fn mass(&self, mass: Mass) -> String {
        show_mass(mass.g().round(), self.format)
    }

    fn mass_why(&self, number: Option<YarnNumber>, mass: Option<Mass>) -> Option<String> {
        let (number, mass) = (number?, mass?);
        let system = self.format.yarn_system();
        let number = fellmark_cloth::write::yarn_number(number, system, self.format.mark());
        Some(format!("At {number} that weighs {}; labels err by a tenth either way.", self.mass(mass)))
    }

    fn warp_yarn(&self, yarn: &YarnNeed, widths: &Widths, lengths: &WarpLengths) -> PlanFigure {
        let wound = self.length(lengths.wound.mm());
        let mut why =
            vec![format!("{} ends \u{d7} {wound} = {}.", widths.ends, show_yarn(yarn.length.m(), self.format))];
        why.extend(self.mass_why(self.inputs.warp_yarn_number, yarn.mass));
        figure("warp_yarn", "Warp yarn", self.yarn(yarn), why)
    }

    fn to_weave(&self, lengths: &WarpLengths) -> PlanFigure {
        let pieces = lengths.woven_each.iter().take(MOST_PIECES_TOLD).enumerate();
        let why = pieces
            .map(|(i, one)| format!("Piece {}: weave until the tape says {}, tight.", i + 1, self.length(one.mm())))
            .collect();
        figure("to_weave", "To weave on the loom", self.length(lengths.woven.mm()), why)
    }

    fn picks(&self, weft: &WeftNeed, lengths: &WarpLengths, sett: &Sett) -> PlanFigure {
        let density = sett.picks.map_or_else(String::new, |picks| density_words(picks.density(), self.format));
        let balanced = if sett.picks_given { "" } else { " (as many picks as ends, since none are given)" };
        let (woven, picks) = (self.length(lengths.woven.mm()), self.format.number(weft.picks, 0));
        let why = format!("{woven} to weave \u{d7} {density}{balanced} = {picks}, not a pick short.");
        figure("picks", "Picks", picks, vec![why])
    }

    fn repeats(&self, report: &PlanReport, lengths: &WarpLengths) -> Option<PlanFigure> {
        let woven = lengths.woven_each.first()?;
        let fitted = match report.repeats.as_ref()? {
            Ok(fitted) => fitted,
            Err(refused) => {
                let why = vec![sentence(&refused.to_string())];
                return Some(figure("repeats", "Whole repeats", "none fits".into(), why));
            }
        };
        let mut why = vec![format!(
            "{} to weave hold {} picks in whole repeats, with borders and balance: {}.",
            self.length(woven.mm()),
            fitted.picks,
            self.length(fitted.length.mm())
        )];
        if fitted.remaining > 0 {
            why.push(format!(
                "{} picks are over: {} more in the opening border and {} more in the closing one, and the pattern sits in the \
                 middle.",
                fitted.remaining, fitted.to_opening, fitted.to_closing
            ));
        }
        if self.inputs.rows.repeat.len() % 2 == 1 {
            why.push(
                "The repeat has an odd number of picks, so the shuttle begins every other one from the other side."
                    .into(),
            );
        }
        Some(figure("repeats", "Whole repeats", format!("{} in each piece", fitted.repeats), why))
    }

    fn weft_yarn(&self, weft: &WeftNeed, widths: &Widths) -> PlanFigure {
        let allowance = self.assumptions.pick_allowance.used;
        let mut why = vec![format!(
            "{} picks \u{d7} {} each ({} in the reed and {}\u{a0}%{}) = {}.",
            self.format.number(weft.picks, 0),
            self.length(widths.pick.mm()),
            self.length(widths.reed.mm()),
            self.number(allowance.value.percent()),
            source_in_brackets(allowance.source),
            show_yarn(weft.in_picks.m(), self.format)
        )];
        if let Some(hemstitching) = weft.hemstitching {
            why.push(format!(
                "{} for hemstitching: four widths at each end of each piece (common practice, no source).",
                show_yarn(hemstitching.m(), self.format)
            ));
        }
        match (self.assumptions.weft_by_scale, weft.total.mass) {
            (Some(by_scale), Some(mass)) => why.push(format!(
                "On the scale: a pick of this yarn took {} to {} of reed (from {} woven with it), so this takes {}. That goes \
                 before the label.",
                show_mass(by_scale.g_per_reed_metre * PER_REED_M, self.format),
                show_yarn(PER_REED_M, self.format),
                earlier_warps_words(by_scale.warps),
                self.mass(mass)
            )),
            _ => why.extend(self.mass_why(self.inputs.weft_number_or_warp(), weft.total.mass)),
        }
        figure("weft_yarn", "Weft yarn", self.yarn(&weft.total), why)
    }
}
