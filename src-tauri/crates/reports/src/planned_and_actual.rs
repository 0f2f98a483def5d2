//! What was planned beside what was measured, for a warp that is off the loom, and where its finishing is.

use chrono::NaiveDate;

use fellmark_cloth::change::ExtentChange;
use fellmark_cloth::quantity::{ClothWeight, Mass, ThreadDensity};

use crate::learned;
use crate::progress::Progress;
use fellmark_model::finishing;
use fellmark_model::{ClothState, WarpLog};

/// A figure that is planned, measured, or both.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ComparedQuantity {
    /// Woven under tension, all pieces together; millimetres.
    WovenLength,
    /// Measured off the loom, all pieces together; millimetres.
    RelaxedLength,
    /// Measured after the wash, all pieces together; millimetres.
    FinishedLength,
    /// Length lost from the loom to finished; per cent.
    LengthLoss,
    /// Take-up as a share of the cloth; per cent.
    TakeUp,
    /// Loom waste; millimetres.
    LoomWaste,
    /// Width after the wash; millimetres.
    FinishedWidth,
    /// Width lost from the reed to finished; per cent.
    WidthLoss,
    /// Picks on the loom; per 10 cm.
    PicksOnLoom,
    /// Picks in the finished cloth; per 10 cm.
    PicksFinished,
    /// Weft at the start, and used; grams.
    WeftUsed,
    /// Weight of the finished cloth; grams.
    FinishedMass,
    /// Weight of the finished cloth by area; grams a square metre.
    ArealMass,
    /// Time at the loom; minutes.
    Minutes,
}

/// A planned figure beside the measured one, both in the unit of the [`ComparedQuantity`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Comparison {
    /// What is compared.
    pub quantity: ComparedQuantity,
    /// As it was planned.
    pub planned: Option<f64>,
    /// As it was measured.
    pub actual: Option<f64>,
}

/// All quantities of which a plan or a measure is known.
#[must_use]
pub fn comparisons(log: &WarpLog, progress: &Progress) -> Vec<Comparison> {
    let (warp, off) = (&log.warp, &log.warp.off);
    let measured = learned::measured(log, progress);
    let mut all = Vec::new();
    let mut add = |quantity: ComparedQuantity, planned: Option<f64>, actual: Option<f64>| {
        if planned.is_some() || actual.is_some() {
            all.push(Comparison { quantity, planned, actual });
        }
    };
    add(ComparedQuantity::WovenLength, progress.wanted_mm, progress.woven.map(|_| progress.woven_mm()));
    let wanted_as = |state: ClothState| {
        let each = warp.wanted_of_each_mm();
        (warp.wanted_state == state && !each.is_empty()).then(|| each.iter().sum())
    };
    add(ComparedQuantity::RelaxedLength, wanted_as(ClothState::OffLoom), off.off_loom_mm);
    let finished = wanted_as(ClothState::Finished).or_else(|| {
        // A length wanted as woven is finished after its loss, where one was planned for.
        let lost = warp.woven_to_finished(progress.relaxation.release);
        let known = warp.shrinkage_percent.is_some() || warp.usual_wash().is_some();
        progress.wanted_mm.filter(|_| known).map(|mm| mm * lost.ratio())
    });
    add(ComparedQuantity::FinishedLength, finished, off.finished_mm);
    add(
        ComparedQuantity::LengthLoss,
        warp.shrinkage_percent,
        measured
            .woven
            .zip(measured.finished)
            .and_then(|(woven, finished)| ExtentChange::between(woven, finished).ok())
            .map(ExtentChange::shrinkage_percent),
    );
    add(
        ComparedQuantity::TakeUp,
        warp.warp_per_100.map(|per_100| per_100 - 100.0),
        measured.weaving().ok().flatten().map(|weaving| weaving.crimp().percent()),
    );
    add(ComparedQuantity::LoomWaste, warp.waste_mm, measured.waste().map(|waste| waste.mm()));
    add(ComparedQuantity::FinishedWidth, None, off.finished_width_mm);
    let narrower = measured
        .reed
        .zip(measured.finished_width)
        .and_then(|(reed, finished)| ExtentChange::between(reed, finished).ok().map(ExtentChange::shrinkage_percent));
    add(ComparedQuantity::WidthLoss, None, narrower);
    let per_10cm = progress.picks_per_mm.filter(|_| progress.rate_measured).map(|per_mm| per_mm * 100.0);
    add(ComparedQuantity::PicksOnLoom, warp.picks_per_10cm, per_10cm);
    let picks = u32::try_from(progress.picks).ok().map(f64::from).filter(|picks| *picks > 0.0);
    let finished_density = picks.zip(measured.finished).and_then(|(picks, finished)| {
        ThreadDensity::from_counted(picks, finished.length()).ok().map(ThreadDensity::per_10cm)
    });
    add(ComparedQuantity::PicksFinished, None, finished_density);
    let start = log.wefts.first().and_then(|weft| weft.start_mass_g);
    add(ComparedQuantity::WeftUsed, start, learned::weft_used_g(log));
    add(ComparedQuantity::FinishedMass, None, off.finished_mass_g);
    let areal_mass =
        measured.finished.zip(measured.finished_width).zip(off.finished_mass_g).and_then(|((length, width), grams)| {
            let mass = Mass::from_g(grams).ok()?;
            ClothWeight::from_piece(mass, length.length(), width.length()).ok().map(ClothWeight::g_per_m2)
        });
    add(ComparedQuantity::ArealMass, None, areal_mass);
    add(ComparedQuantity::Minutes, None, Some(progress.minutes).filter(|minutes| *minutes > 0.0));
    all
}

/// A measure that is missing and would teach something.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MissingMeasure {
    /// The length off the loom.
    RelaxedLength,
    /// What was cut off in front, or the thrums.
    Waste,
    /// Length or width after the wash.
    Finished,
    /// A length on the loom.
    WovenLength,
    /// Warp, waste and cloth do not fit together: so much warp for 100 of cloth is no take-up of woven cloth.
    PossibleTakeUp(i64),
}

/// What is not measured and would teach something.
#[must_use]
pub fn missing_measures(log: &WarpLog, progress: &Progress) -> Vec<MissingMeasure> {
    let off = &log.warp.off;
    let mut missing: Vec<MissingMeasure> = [
        (off.off_loom_mm.is_none(), MissingMeasure::RelaxedLength),
        (off.front_mm.is_none() || off.thrums_mm.is_none(), MissingMeasure::Waste),
        (off.finished_mm.is_none() || off.finished_width_mm.is_none(), MissingMeasure::Finished),
        (!progress.rate_measured, MissingMeasure::WovenLength),
    ]
    .into_iter()
    .filter_map(|(missing, measure)| missing.then_some(measure))
    .collect();
    let measured = learned::measured(log, progress);
    if measured.weaving().is_err() || measured.relaxed_use().is_err() {
        let cloth_mm = measured.woven.map(|woven| woven.mm()).or(measured.off_loom.map(|off| off.mm()));
        let warp_mm = measured.warp_in_cloth().ok().flatten().map(|warp| warp.mm());
        let per_100 = warp_mm.zip(cloth_mm).map_or(0.0, |(warp, cloth)| warp / cloth * 100.0);
        missing.push(MissingMeasure::PossibleTakeUp(per_100.round() as i64));
    }
    missing
}

/// How far finishing is.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FinishingStatus {
    /// When the last step was done, if all are.
    pub finished_on: Option<NaiveDate>,
    /// When it was cut off.
    pub cut_on: Option<NaiveDate>,
    /// Names of the steps still to do, in lower case.
    pub to_do: Vec<String>,
}

impl FinishingStatus {
    /// The status of a warp that is off the loom.
    #[must_use]
    pub fn of_warp(log: &WarpLog) -> Self {
        let to_do = finishing::steps(log).into_iter().filter(|step| step.done_on.is_none());
        Self {
            finished_on: finishing::finished_on(log),
            cut_on: log.warp.state_on,
            to_do: to_do.map(|step| step.name.to_lowercase()).collect(),
        }
    }
}
