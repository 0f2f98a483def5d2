//! What a plan is calculated with where the form is empty: a woven sample, earlier warps, else common practice. Every value is
//! with its source, and with the other values that could be taken over into the form.

use fellmark_cloth::Refused;
use fellmark_cloth::change::{Allowance, DrawIn, ExtentChange, Release, WashLength};
use fellmark_cloth::fibre::Fibre;
use fellmark_cloth::learned::{
    Finishing, Learned, LearnedEstimates, Likeness, PastWarp, USUAL_RELAXATION, WastePrior, fibre_prior, learn,
    waste_priors,
};
use fellmark_cloth::span::{Coverage, Span};
use fellmark_cloth::state::{Across, Finished, UnderTension, WarpLength};
use fellmark_cloth::take_up::USUAL_WARP_PER_100;
use fellmark_cloth::warp::LengthChanges;
use fellmark_cloth::weft::{USUAL_PICK_ALLOWANCE_PERCENT, allowance_over_reed};

use fellmark_model::plan::{MeasuredTakeUp, PlanInputs};

/// Loss of length and of width in the wash, and draw-in, where nothing is known: a tenth each (common practice, no source).
const USUAL_LOSS_PERCENT: f64 = 10.0;

/// Where a value comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Source {
    /// Typed into the form.
    Form,
    /// A sample that was woven and washed.
    Sample,
    /// Earlier warps.
    EarlierWarps {
        /// How many there are.
        warps: usize,
        /// How many of these are like the plan in everything.
        alike: usize,
    },
    /// Cases of others with the same fibre and finish.
    FibreAndFinish {
        /// The fibre.
        fibre: Fibre,
        /// How it is finished.
        finishing: Finishing,
        /// Whether the width is meant, and not the length.
        across: bool,
    },
    /// Common practice, without a source.
    CommonPractice,
}

impl Source {
    fn of_learnt<C>(learnt: &Learned<C>) -> Self {
        Self::EarlierWarps { warps: learnt.warps, alike: learnt.alike }
    }

    /// How many earlier warps the value comes from.
    #[must_use]
    pub fn warps(self) -> usize {
        if let Self::EarlierWarps { warps, .. } = self { warps } else { 0 }
    }
}

/// A value with its source.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Assumed<T> {
    /// The value.
    pub value: T,
    /// Where it comes from.
    pub source: Source,
}

impl<T> Assumed<T> {
    fn new(value: T, source: Source) -> Self {
        Self { value, source }
    }

    fn learnt(learnt: Learned<T>) -> Self {
        Self { source: Source::of_learnt(&learnt), value: learnt.value }
    }
}

/// A value that can be taken over into the form.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Candidate<T> {
    /// The value.
    pub value: T,
    /// Where it comes from.
    pub source: Source,
    /// Whether the plan is calculated with it for now, because the field is empty.
    pub in_use: bool,
}

/// The value a plan is calculated with, and what can be taken over in its place.
#[derive(Clone, Debug)]
pub struct Assumption<T> {
    /// What the plan is calculated with.
    pub used: Assumed<T>,
    /// What can be taken over; nothing that was typed.
    pub candidates: Vec<Candidate<T>>,
}

impl<T: Copy> Assumption<T> {
    /// Takes what was typed, else the first of the candidates: sample, earlier warps, common practice.
    fn settle(
        form: Option<T>,
        sample: Option<T>,
        learnt: Option<Assumed<T>>,
        practice: Assumed<T>,
        offer_practice: OfferPractice,
    ) -> Self {
        let form = form.map(|value| Assumed::new(value, Source::Form));
        let sample = sample.map(|value| Assumed::new(value, Source::Sample));
        let practice_source = practice.source;
        let used = form.or(sample).or(learnt).unwrap_or(practice);
        let practice = match offer_practice {
            OfferPractice::Always => Some(practice),
            OfferPractice::IfUsed => Some(practice).filter(|_| used.source == practice_source),
        };
        let candidates = [sample, learnt, practice].into_iter().flatten();
        let candidates = candidates
            .map(|Assumed { value, source }| Candidate { value, source, in_use: source == used.source })
            .collect();
        Self { used, candidates }
    }
}

/// When common practice is among the candidates.
#[derive(Clone, Copy)]
enum OfferPractice {
    Always,
    IfUsed,
}

/// A loss of width that can be taken over: from the reed to the fell, from the fell to finished, or both in one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WidthCandidate {
    /// Both losses.
    Both {
        /// From the reed to the fell.
        draw_in: DrawIn<UnderTension>,
        /// From the fell to finished.
        wash: ExtentChange<Across, UnderTension, Finished>,
    },
    /// From the reed to finished, where the two are not known apart.
    InAll(DrawIn<Finished>),
    /// From the reed to the fell.
    DrawIn(DrawIn<UnderTension>),
    /// From the fell to finished.
    Wash(ExtentChange<Across, UnderTension, Finished>),
}

/// Loom waste that can be taken over.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WasteCandidate {
    /// From earlier warps.
    EarlierWarps(Candidate<WarpLength>),
    /// From one way of warping a loom.
    Loom {
        /// The loom and where the figure is from.
        prior: WastePrior,
        /// Its range: low, likely, high, four times in five.
        span: Span<WarpLength>,
        /// Whether the plan is calculated with the likely one for now.
        in_use: bool,
    },
}

/// What the picks of a yarn weighed in earlier warps.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WeftByScale {
    /// Grams per metre of pick as measured in the reed.
    pub g_per_reed_metre: f64,
    /// How many warps it comes from.
    pub warps: usize,
}

/// Everything a plan is calculated with beside what is typed.
#[derive(Clone, Debug)]
pub struct Assumptions {
    /// What happens to length, from warp to finished cloth.
    pub changes: LengthChanges,
    /// Take-up of the warp.
    pub take_up: Assumption<MeasuredTakeUp>,
    /// Loss of length when the tension goes.
    pub release: Assumed<Release>,
    /// The same from earlier warps or as it is usual, to be taken over.
    pub release_candidate: Candidate<Release>,
    /// Loss of length in the wash.
    pub wash: Assumption<WashLength>,
    /// Draw-in from the reed to the fell.
    pub draw_in: Assumed<DrawIn<UnderTension>>,
    /// Loss of width from the reed to finished.
    pub width: Assumed<DrawIn<Finished>>,
    /// Losses of width to be taken over, with their source and whether they are used for now.
    pub width_candidates: Vec<Candidate<WidthCandidate>>,
    /// What a pick is longer than the reed is wide.
    pub pick_allowance: Assumption<Allowance>,
    /// Loom waste.
    pub waste: Assumed<WarpLength>,
    /// Loom waste to be taken over.
    pub waste_candidates: Vec<WasteCandidate>,
    /// What the weft of this name weighed, where earlier warps were woven with it.
    pub weft_by_scale: Option<WeftByScale>,
}

impl Assumptions {
    /// Settles what the plan is calculated with.
    ///
    /// # Errors
    /// Figures that cannot be together.
    pub(super) fn settle(inputs: &PlanInputs, learned: &LearnedEstimates) -> Result<Self, Refused> {
        // A sample is of this very cloth, so it counts in full and by itself.
        let sample = learn(&[PastWarp { measured: inputs.woven_sample, like: Likeness::FULL }]);
        let learned_release = learned.release.map(Assumed::learnt);
        let usual_release = Release::from_shrinkage_percent(USUAL_RELAXATION.usual_percent)?;
        let without_form = learned_release.unwrap_or(Assumed::new(usual_release, Source::CommonPractice));
        let release = inputs.release.map_or(without_form, |value| Assumed::new(value, Source::Form));
        let in_use = inputs.release.is_none();
        let release_candidate = Candidate { value: without_form.value, source: without_form.source, in_use };
        let wash = Assumption::settle(
            inputs.wash,
            sample.wash.map(|learnt| learnt.value),
            learned.wash.map(Assumed::learnt),
            usual_wash(inputs)?,
            OfferPractice::IfUsed,
        );
        let take_up = settle_take_up(inputs, learned, &sample)?;
        let release_value = release.value;
        let changes = match take_up.used.value {
            MeasuredTakeUp::Relaxed(warp_use) => {
                LengthChanges::from_relaxed(warp_use, Some(release_value), wash.used.value)?
            }
            MeasuredTakeUp::UnderTension(weaving) => {
                LengthChanges { weaving, release: release_value, wash: wash.used.value }
            }
        };
        let (draw_in, width, width_candidates) = settle_width(inputs, learned, &sample)?;
        let pick_allowance = settle_pick_allowance(inputs, learned, width.value)?;
        let (waste, waste_candidates) = settle_waste(inputs, learned)?;
        Ok(Self {
            changes,
            take_up,
            release,
            release_candidate,
            wash,
            draw_in,
            width,
            width_candidates,
            pick_allowance,
            waste,
            waste_candidates,
            weft_by_scale: None,
        })
    }
}

/// Loss of length in the wash before anything is known of the weaver's own: from fibre and finish, else as it is usual.
fn usual_wash(inputs: &PlanInputs) -> Result<Assumed<WashLength>, Refused> {
    let known = inputs.fibre.and_then(|fibre| Some((fibre, fibre_prior(fibre, inputs.finish)?.length)));
    match known {
        Some((fibre, loss)) => Ok(Assumed::new(
            WashLength::from_shrinkage_percent(loss.usual)?,
            Source::FibreAndFinish { fibre, finishing: inputs.finish, across: false },
        )),
        None => Ok(Assumed::new(WashLength::from_shrinkage_percent(USUAL_LOSS_PERCENT)?, Source::CommonPractice)),
    }
}

/// Loss of width from the reed to finished, from fibre and finish; nothing where no case reports one.
fn width_of_fibre(inputs: &PlanInputs) -> Result<Option<Assumed<DrawIn<Finished>>>, Refused> {
    let known = inputs.fibre.and_then(|fibre| Some((fibre, fibre_prior(fibre, inputs.finish)?.width_in_all?)));
    let Some((fibre, loss)) = known else { return Ok(None) };
    let source = Source::FibreAndFinish { fibre, finishing: inputs.finish, across: true };
    Ok(Some(Assumed::new(DrawIn::from_shrinkage_percent(loss.usual)?, source)))
}

fn settle_take_up(
    inputs: &PlanInputs,
    learned: &LearnedEstimates,
    sample: &LearnedEstimates,
) -> Result<Assumption<MeasuredTakeUp>, Refused> {
    let relaxed = |learnt: Learned<_>| Assumed::new(MeasuredTakeUp::Relaxed(learnt.value), Source::of_learnt(&learnt));
    let tight =
        |learnt: Learned<_>| Assumed::new(MeasuredTakeUp::UnderTension(learnt.value), Source::of_learnt(&learnt));
    let usual = ExtentChange::from_yarn_per_100(USUAL_WARP_PER_100)?;
    Ok(Assumption::settle(
        inputs.take_up,
        sample.relaxed_use.map(|learnt| MeasuredTakeUp::Relaxed(learnt.value)),
        learned.relaxed_use.map(relaxed).or(learned.weaving.map(tight)),
        Assumed::new(MeasuredTakeUp::Relaxed(usual), Source::CommonPractice),
        OfferPractice::IfUsed,
    ))
}

/// What a pick is longer than the reed is wide: as typed, else as the picks of earlier warps were. These are known against the
/// finished width; the widths of this plan turn that into a share of the reed's.
fn settle_pick_allowance(
    inputs: &PlanInputs,
    learned: &LearnedEstimates,
    width: DrawIn<Finished>,
) -> Result<Assumption<Allowance>, Refused> {
    let learnt = learned.weft_use.and_then(|learnt| {
        let allowance = allowance_over_reed(learnt.value, width).ok()?;
        Some(Assumed::new(allowance, Source::of_learnt(&learnt)))
    });
    let usual = Allowance::from_percent(USUAL_PICK_ALLOWANCE_PERCENT)?;
    let usual = Assumed::new(usual, Source::CommonPractice);
    Ok(Assumption::settle(inputs.pick_allowance, None, learnt, usual, OfferPractice::Always))
}

type SettledWidth = (Assumed<DrawIn<UnderTension>>, Assumed<DrawIn<Finished>>, Vec<Candidate<WidthCandidate>>);

fn settle_width(
    inputs: &PlanInputs,
    learned: &LearnedEstimates,
    sample: &LearnedEstimates,
) -> Result<SettledWidth, Refused> {
    let usual_draw_in = DrawIn::<UnderTension>::from_shrinkage_percent(USUAL_LOSS_PERCENT)?;
    let usual_wash = ExtentChange::<Across, UnderTension, Finished>::from_shrinkage_percent(USUAL_LOSS_PERCENT)?;
    let learned_draw_in = learned.draw_in.map(Assumed::learnt);
    let draw_in = inputs
        .draw_in
        .map(|value| Assumed::new(value, Source::Form))
        .or(learned_draw_in)
        .unwrap_or(Assumed::new(usual_draw_in, Source::CommonPractice));
    let sampled = sample.width_in_all.map(|learnt| Assumed::new(learnt.value, Source::Sample));
    let learnt = learned.width_in_all.map(Assumed::learnt);
    let of_fibre = if sampled.is_none() && learnt.is_none() { width_of_fibre(inputs)? } else { None };
    let known = sampled.or(learnt).or(of_fibre);
    let width = match (inputs.draw_in, inputs.width_wash, known) {
        (Some(draw_in), Some(wash), _) => Assumed::new(draw_in.then(wash)?, Source::Form),
        (Some(draw_in), None, Some(Assumed { value: all, source })) => {
            // Drawn in by more than all that others lost leaves nothing to the wash.
            let all = if all.ratio() < draw_in.ratio() { all } else { draw_in.then(ExtentChange::NONE)? };
            Assumed::new(all, source)
        }
        (Some(draw_in), None, None) => Assumed::new(draw_in.then(usual_wash)?, Source::CommonPractice),
        (None, Some(wash), _) => Assumed::new(draw_in.value.then(wash)?, draw_in.source),
        (None, None, Some(known)) => known,
        (None, None, None) => Assumed::new(draw_in.value.then(usual_wash)?, Source::CommonPractice),
    };
    let both_empty = inputs.draw_in.is_none() && inputs.width_wash.is_none();
    let mut candidates = Vec::new();
    for Assumed { value: all, source } in [sampled, learnt, of_fibre].into_iter().flatten() {
        let value = match learned_draw_in {
            Some(Assumed { value: draw_in, .. }) => WidthCandidate::Both { draw_in, wash: all.rest_after(draw_in)? },
            None => WidthCandidate::InAll(all),
        };
        candidates.push(Candidate { value, source, in_use: both_empty && source == width.source });
    }
    if known.is_none() {
        if inputs.draw_in.is_none() {
            let value = WidthCandidate::DrawIn(draw_in.value);
            candidates.push(Candidate { value, source: draw_in.source, in_use: true });
        }
        if inputs.width_wash.is_none() {
            let value = WidthCandidate::Wash(usual_wash);
            candidates.push(Candidate { value, source: Source::CommonPractice, in_use: true });
        }
    }
    Ok((draw_in, width, candidates))
}

fn settle_waste(
    inputs: &PlanInputs,
    learned: &LearnedEstimates,
) -> Result<(Assumed<WarpLength>, Vec<WasteCandidate>), Refused> {
    let mut candidates = Vec::new();
    let learnt = learned.waste.map(|learnt| {
        let source = Source::EarlierWarps { warps: learnt.warps, alike: learnt.alike };
        Assumed::new(learnt.value.likely, source)
    });
    if let Some(Assumed { value, source }) = learnt {
        candidates.push(WasteCandidate::EarlierWarps(Candidate { value, source, in_use: inputs.waste.is_none() }));
    }
    let mut usual = None;
    for prior in waste_priors() {
        let estimate = prior.estimate()?;
        let in_use = usual.is_none() && inputs.waste.is_none() && learnt.is_none();
        usual.get_or_insert(estimate.likely);
        candidates.push(WasteCandidate::Loom { prior: *prior, span: estimate.span(Coverage::FOUR_IN_FIVE), in_use });
    }
    let form = inputs.waste.map(|value| Assumed::new(value, Source::Form));
    let practice = Assumed::new(usual.unwrap_or(WarpLength::ZERO), Source::CommonPractice);
    Ok((form.or(learnt).unwrap_or(practice), candidates))
}
