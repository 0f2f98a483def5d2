//! A plan, calculated both ways: from the piece to the warp to wind, or from the yarn at hand to the piece it makes. Values with
//! units only; no text.

mod assumptions;
mod history;
mod lengths;
mod planned;
mod sett_and_widths;
mod sizes;
mod time;
mod yarn;

use chrono::NaiveDate;
use fellmark_cloth::Refused;
use fellmark_cloth::quantity::{ThreadDensity, YarnNumber};
use fellmark_cloth::reed::is_usual_sett;
use fellmark_cloth::sequence::Fitted;
use fellmark_cloth::sett::{Beat, BeatenIn};
use fellmark_cloth::state::{FinishedLength, ReedWidth};

pub use assumptions::{
    Assumed, Assumption, Assumptions, Candidate, Source, WasteCandidate, WeftByScale, WidthCandidate,
};
pub use lengths::{RuleOfThumb, WarpLengths};
pub use sett_and_widths::{Sett, SettSource, Widths};
pub use sizes::SizesFromYarn;
pub use time::{PaceBasis, PlanDays, PlanTime};
pub use yarn::{WeftNeed, YarnNeed};

use crate::history::History;
use fellmark_model::display_format::Units;
use fellmark_model::plan::{EdgeKind, PlanInputs, PlannedFigures};

/// Most finished lengths of pieces that are listed one by one.
pub const MOST_LISTED_PIECES: usize = 200;

/// Lengths that differ by less are one to a tape, millimetres.
const VISIBLE_DIFFERENCE_MM: f64 = 5.0;

/// A plan as far as it can be calculated; `None` is what is not known yet.
#[derive(Clone, Debug, Default)]
pub struct PlanReport {
    /// What was taken where the form is empty.
    pub assumptions: Option<Assumptions>,
    /// Ends, picks, and whether they fit.
    pub sett: Option<Sett>,
    /// From the yarn: the sizes it makes.
    pub sizes: Option<SizesFromYarn>,
    /// Width in the reed that was asked for, before it is rounded to whole ends.
    pub reed_width_wanted: Option<ReedWidth>,
    /// Ends and widths.
    pub widths: Option<Widths>,
    /// The warp, stretch by stretch.
    pub lengths: Option<WarpLengths>,
    /// The common rule of thumb beside it.
    pub rule_of_thumb: Option<RuleOfThumb>,
    /// Warp yarn.
    pub warp_yarn: Option<YarnNeed>,
    /// Picks and weft yarn.
    pub weft: Option<WeftNeed>,
    /// Whole repeats in the first piece, or why none fits; `None` where no sequence is written down.
    pub repeats: Option<Result<Fitted, Refused>>,
    /// Hours, and the day it can be finished if begun today.
    pub time: Option<PlanTime>,
    /// What to think about before winding.
    pub warnings: Vec<PlanWarning>,
    /// What is still to be typed.
    pub missing: Vec<MissingInput>,
    /// The figures of the warp it becomes; `None` while too little is known.
    pub planned: Option<PlannedFigures>,
    /// Why the calculation ended early: each figure can be meant, but together they cannot.
    pub error: Option<PlanError>,
}

/// Why a plan cannot be calculated to its end.
#[derive(Clone, Debug, PartialEq)]
pub enum PlanError {
    /// The arithmetic refused a figure.
    Refused(Refused),
    /// The yarn does not reach even for the part of the warp that becomes no cloth.
    YarnTooShort,
}

impl From<Refused> for PlanError {
    fn from(refused: Refused) -> Self {
        Self::Refused(refused)
    }
}

/// What is still to be typed, in the order in which it is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MissingInput {
    /// How much warp yarn there is.
    WarpYarn,
    /// How much weft yarn there is.
    WeftYarn,
    /// The finished length.
    Length,
    /// The finished width, or the width in the reed.
    Width,
    /// The sett, or the yarn it follows from.
    Sett,
    /// The yarn's number, for weights.
    YarnNumber,
}

/// What to think about before winding.
#[derive(Clone, Debug, PartialEq)]
pub enum PlanWarning {
    /// From the yarn all pieces are of one size; the further lengths are not counted.
    FurtherPiecesIgnored,
    /// The picks are hard to beat in, or cannot be.
    HardToBeat(BeatenIn),
    /// The sett is larger than the largest of this yarn.
    SettAboveLargest {
        /// As typed.
        sett: ThreadDensity,
        /// By Ashenhurst's rule.
        largest: ThreadDensity,
    },
    /// The warp is wider than the loom.
    WiderThanLoom {
        /// Width in the reed.
        reed: ReedWidth,
        /// Widest that the loom takes.
        loom: ReedWidth,
    },
    /// Nobody weaves with yarn this fine or this thick.
    UnusualYarn(YarnNumber),
    /// No hand loom is warped so openly or so closely.
    UnusualSett(ThreadDensity),
    /// Fringe or hem is wanted, and its length is not typed.
    EdgeLengthMissing,
    /// The yarn reaches the length that is planned only one time in two.
    ReachesOneTimeInTwo {
        /// What is planned of each piece.
        planned: FinishedLength,
        /// What the yarn reaches nine times in ten.
        nine_in_ten: FinishedLength,
    },
}

/// Calculates a plan as far as it is typed, with what earlier warps show. Never fails: an error is part of the report, beside
/// the figures that were found before it.
#[must_use]
pub fn plan_report(history: &History, inputs: &PlanInputs, units: Units, today: NaiveDate) -> PlanReport {
    let mut report = PlanReport::default();
    if let Err(error) = report.calculate(history, inputs, units, today) {
        report.error = Some(error);
    }
    report
}

impl PlanReport {
    fn calculate(
        &mut self,
        history: &History,
        inputs: &PlanInputs,
        units: Units,
        today: NaiveDate,
    ) -> Result<(), PlanError> {
        let learned = history::learned(history, inputs);
        let mut assumptions = Assumptions::settle(inputs, &learned.cloth)?;
        assumptions.weft_by_scale = history::weft_by_scale(history, inputs);
        let assumptions = &*self.assumptions.insert(assumptions);
        let sett = self.sett.insert(Sett::settle(inputs, assumptions)?).clone();
        self.reed_width_wanted = sett_and_widths::reed_width_wanted(inputs, assumptions)?;
        if inputs.from_yarn {
            self.calculate_from_yarn(inputs, &sett, units)?;
        } else {
            self.calculate_from_piece(inputs, &sett, units)?;
        }
        self.calculate_yarn(inputs, &sett)?;
        self.warnings.extend(self.warnings_of(inputs, &sett));
        self.missing = self.missing_of(inputs, &sett);
        if let (Some(lengths), Some(weft)) = (&self.lengths, &self.weft) {
            let pace = learned.picks_per_hour.as_ref();
            self.time = time::plan_time(inputs, weft.picks, lengths.woven, history, pace, today);
        }
        self.planned = planned::planned_figures(self, inputs);
        Ok(())
    }

    fn calculate_from_piece(&mut self, inputs: &PlanInputs, sett: &Sett, units: Units) -> Result<(), PlanError> {
        let Some(assumptions) = &self.assumptions else { return Ok(()) };
        if let (Some(wanted), Some((ends_in, _))) = (self.reed_width_wanted, sett.ends) {
            self.widths = Some(Widths::for_reed_width(wanted, ends_in, assumptions)?);
        }
        if let Some(length) = inputs.length {
            let mut pieces = vec![length; inputs.pieces.try_into().unwrap_or(1)];
            pieces.extend(&inputs.further);
            let wish = lengths::warp_wish(inputs, inputs.edge, assumptions, &pieces)?;
            self.lengths = Some(WarpLengths::of_wish(wish, None, units)?);
        }
        Ok(())
    }

    fn calculate_from_yarn(&mut self, inputs: &PlanInputs, sett: &Sett, units: Units) -> Result<(), PlanError> {
        let Some(assumptions) = &self.assumptions else { return Ok(()) };
        let Some(sizes) = sizes::sizes_from_yarn(inputs, assumptions, sett, self.reed_width_wanted, units)? else {
            return Ok(());
        };
        let sizes = self.sizes.insert(sizes);
        if !inputs.further.is_empty() {
            self.warnings.push(PlanWarning::FurtherPiecesIgnored);
        }
        let Some((ends_in, _)) = sett.ends else { return Ok(()) };
        self.widths = Some(Widths::for_reed_width(sizes.size.reed, ends_in, assumptions)?);
        if sizes.finished == FinishedLength::ZERO {
            return Ok(());
        }
        // The span holds four times in five: below its lower end lies one time in ten.
        let hems = sizes.size.length.likely.less(sizes.finished);
        let nine_in_ten = sizes.size.length.low.less(hems);
        if sizes.finished.mm() - nine_in_ten.mm() >= VISIBLE_DIFFERENCE_MM {
            self.warnings.push(PlanWarning::ReachesOneTimeInTwo { planned: sizes.finished, nine_in_ten });
        }
        let pieces = vec![sizes.finished; inputs.pieces.try_into().unwrap_or(1)];
        let wish = lengths::warp_wish(inputs, inputs.edge, assumptions, &pieces)?;
        self.lengths = Some(WarpLengths::of_wish(wish, Some(sizes.size.warp), units)?);
        Ok(())
    }

    fn calculate_yarn(&mut self, inputs: &PlanInputs, sett: &Sett) -> Result<(), PlanError> {
        let (Some(assumptions), Some(lengths)) = (&self.assumptions, &self.lengths) else { return Ok(()) };
        self.rule_of_thumb = Some(RuleOfThumb::for_finished(lengths.finished)?);
        let Some(widths) = &self.widths else { return Ok(()) };
        self.warp_yarn = Some(yarn::warp_need(widths.ends, lengths.wound, inputs)?);
        let Some(picks_in) = sett.picks else { return Ok(()) };
        self.repeats = lengths
            .woven_each
            .first()
            .and_then(|woven| fellmark_model::sequence::fitted(&inputs.rows, *woven, picks_in));
        self.weft = Some(yarn::weft_need(widths, lengths, picks_in, assumptions, inputs)?);
        Ok(())
    }

    fn warnings_of(&self, inputs: &PlanInputs, sett: &Sett) -> Vec<PlanWarning> {
        let mut warnings = Vec::new();
        let mut yarns = vec![inputs.warp_yarn_number, inputs.weft_yarn_number];
        yarns.dedup();
        warnings.extend(yarns.into_iter().flatten().filter(|yarn| !yarn.is_usual()).map(PlanWarning::UnusualYarn));
        if let Some((ends, SettSource::Given)) = sett.ends
            && !is_usual_sett(ends)
        {
            warnings.push(PlanWarning::UnusualSett(ends.density()));
        }
        if let Some(beaten) = sett.beaten.filter(|beaten| beaten.beat != Beat::Possible) {
            warnings.push(PlanWarning::HardToBeat(beaten));
        }
        if let (Some((largest, _)), Some((ends, SettSource::Given))) = (sett.largest, sett.ends)
            && ends.density() > largest
        {
            warnings.push(PlanWarning::SettAboveLargest { sett: ends.density(), largest });
        }
        if let (Some(loom), Some(widths)) = (inputs.loom_width, &self.widths)
            && widths.reed > loom
        {
            warnings.push(PlanWarning::WiderThanLoom { reed: widths.reed, loom });
        }
        if inputs.edge != EdgeKind::Plain && inputs.edge_mm.is_none() {
            warnings.push(PlanWarning::EdgeLengthMissing);
        }
        warnings
    }

    fn missing_of(&self, inputs: &PlanInputs, sett: &Sett) -> Vec<MissingInput> {
        let mut missing = Vec::new();
        let mut need = |is_missing: bool, what| {
            if is_missing {
                missing.push(what);
            }
        };
        if inputs.from_yarn {
            need(inputs.warp_supply.is_none(), MissingInput::WarpYarn);
            need(!inputs.one_yarn && inputs.weft_supply.is_none(), MissingInput::WeftYarn);
        } else {
            need(inputs.length.is_none(), MissingInput::Length);
            need(inputs.width.is_none() && inputs.reed_width.is_none(), MissingInput::Width);
        }
        need(sett.ends.is_none(), MissingInput::Sett);
        if !missing.is_empty() && inputs.warp_yarn_number.is_none() && self.warp_yarn.is_some() {
            missing.push(MissingInput::YarnNumber);
        }
        missing
    }
}
