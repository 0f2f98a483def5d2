//! What the reckoning rests on where the form is empty: a woven sample, earlier warps, else common practice. Each is said to be
//! what it is, and each is offered to be taken over; none is written into the form by itself.

use fellmark_cloth::Refused;
use fellmark_cloth::change::{Allowance, Change, DrawIn, Release, WashLength};
use fellmark_cloth::learnt::{LearnedEstimates, Learnt, Likeness, Past, learn, waste_priors};
use fellmark_cloth::span::Coverage;
use fellmark_cloth::state::{Across, Finished, UnderTension, WarpLength};
use fellmark_cloth::warp::Changes;

use super::typed::{TakeUp, Typed};
use crate::model::display_format::DisplayFormat;
use crate::model::measures::{Reader, show_length};
use crate::present::view::{PlanFill, PlanOffer};
use crate::reports::reach::{USUAL_ALLOWANCE_PERCENT, USUAL_WARP_PER_100};

/// Loss of length and of width in the wash, and draw-in, where nothing is known: a tenth each (common practice, no source).
const USUAL_LOSS_PERCENT: f64 = 10.0;

/// Where a figure comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum From {
    /// Typed.
    Given,
    /// A sample that was woven and washed.
    Sample,
    /// So many earlier warps, so many of them alike in everything.
    Learnt(usize, usize),
    /// Common practice.
    Practice,
}

impl From {
    /// What stands behind the figure, to follow it in a sentence; nothing where she gave it herself.
    pub fn words(self) -> String {
        match self {
            Self::Given => String::new(),
            Self::Sample => " (from your sample)".into(),
            Self::Learnt(1, _) => " (from 1 earlier warp)".into(),
            Self::Learnt(n, _) => format!(" (from {n} earlier warps)"),
            Self::Practice => " (common practice, no source)".into(),
        }
    }

    fn warps(self) -> usize {
        if let Self::Learnt(warps, _) = self { warps } else { 0 }
    }

    fn offer_words(self) -> String {
        match self {
            Self::Learnt(n, alike) => {
                let warps = if n == 1 { "1 earlier warp".to_owned() } else { format!("{n} earlier warps") };
                format!("{warps}, {alike} of them like this one")
            }
            Self::Sample => "your sample".into(),
            Self::Practice | Self::Given => "common practice, no source".into(),
        }
    }
}

/// Everything the reckoning takes for granted.
#[derive(Clone, Debug)]
pub(super) struct Basis {
    pub changes: Changes,
    pub take_up: (f64, From),
    /// Of which cloth that take-up is.
    pub take_up_of: &'static str,
    pub release: Option<(Release, From)>,
    pub wash: (WashLength, From),
    pub draw_in: (DrawIn<UnderTension>, From),
    pub width: (DrawIn<Finished>, From),
    pub allowance: (Allowance, From),
    pub waste: (WarpLength, From),
    /// What the weft of this name weighed, where earlier warps were woven with it.
    pub by_scale: Option<ByScale>,
    pub offers: Vec<PlanOffer>,
}

/// What picks of a yarn weighed in earlier warps: grams for a metre of pick measured in the reed, and how many warps tell it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct ByScale {
    pub g_per_m: f64,
    pub warps: usize,
}

struct Shelf<'a> {
    format: &'a DisplayFormat,
    offers: Vec<PlanOffer>,
}

impl Shelf<'_> {
    fn percent(&self, value: f64) -> String {
        format!("{}\u{a0}%", self.format.number(value, 1))
    }

    fn text(&self, value: f64) -> String {
        self.format.form_number(value, 1)
    }

    fn offer(&mut self, what: String, from: From, fills: &[(&str, String)], in_use: bool) {
        let Some((field, _)) = fills.first() else { return };
        let line = format!("{what}: {}.", from.offer_words());
        self.offers.push(PlanOffer {
            field: (*field).to_owned(),
            line: if in_use { format!("Empty counts as {line}") } else { crate::present::trouble::sentence(&line) },
            button: what,
            fills: fills
                .iter()
                .map(|(field, text)| PlanFill { field: (*field).to_owned(), text: text.clone() })
                .collect(),
            warps: from.warps(),
            in_use,
        });
    }
}

fn learnt_from<C>(learnt: &Learnt<C>) -> From {
    From::Learnt(learnt.warps, learnt.alike)
}

/// The first there is: given, from the sample, learnt, practice.
fn settle<C: Copy>(
    given: Option<C>,
    sample: Option<C>,
    learnt: Option<Learnt<C>>,
    practice: Result<C, Refused>,
) -> Result<(C, From), Refused> {
    if let Some(value) = given {
        return Ok((value, From::Given));
    }
    if let Some(value) = sample {
        return Ok((value, From::Sample));
    }
    match learnt {
        Some(learnt) => Ok((learnt.value, learnt_from(&learnt))),
        None => Ok((practice?, From::Practice)),
    }
}

/// Settles what the reckoning rests on.
///
/// # Errors
/// Figures that cannot be together.
pub(super) fn settle_all(typed: &Typed, lessons: &LearnedEstimates, format: &DisplayFormat) -> Result<Basis, Refused> {
    let mut shelf = Shelf { format, offers: Vec::new() };
    // A sample tells what it tells, by itself: it is of this very cloth.
    let sample = learn(&[Past { measured: typed.woven_sample, like: Likeness::FULL }]);
    let release = match (typed.release, lessons.release) {
        (Some(release), _) => Some((release, From::Given)),
        (None, Some(learnt)) => Some((learnt.value, learnt_from(&learnt))),
        (None, None) => None,
    };
    if let Some(learnt) = lessons.release {
        let percent = learnt.value.shrinkage_percent();
        let fills = [("release_percent", shelf.text(percent))];
        shelf.offer(shelf.percent(percent), learnt_from(&learnt), &fills, typed.release.is_none());
    }
    let wash = settle(
        typed.wash,
        sample.wash.map(|learnt| learnt.value),
        lessons.wash,
        WashLength::from_shrinkage_percent(USUAL_LOSS_PERCENT),
    )?;
    for (value, from) in [
        sample.wash.map(|learnt| (learnt.value, From::Sample)),
        lessons.wash.map(|learnt| (learnt.value, learnt_from(&learnt))),
        (wash.1 == From::Practice).then_some(wash),
    ]
    .into_iter()
    .flatten()
    {
        let percent = value.shrinkage_percent();
        let fills = [("shrinkage_percent", shelf.text(percent))];
        shelf.offer(shelf.percent(percent), from, &fills, from == wash.1);
    }
    let (take_up, of, changes) = settle_take_up(typed, lessons, &sample, (release.map(|r| r.0), wash.0), &mut shelf)?;
    let (draw_in, width) = settle_width(typed, lessons, &sample, &mut shelf)?;
    let allowance = settle_allowance(typed, lessons, width.0, &mut shelf)?;
    let waste = settle_waste(typed, lessons, &mut shelf)?;
    Ok(Basis {
        changes,
        take_up,
        take_up_of: of,
        release,
        wash,
        draw_in,
        width,
        allowance,
        waste,
        by_scale: None,
        offers: shelf.offers,
    })
}

/// 100 of cloth uses so much warp.
fn per_100(take_up: TakeUp) -> f64 {
    100.0
        + match take_up {
            TakeUp::Relaxed(warp_use) => warp_use.crimp().percent(),
            TakeUp::Tight(warp_use) => warp_use.crimp().percent(),
        }
}

type Settled = ((f64, From), &'static str, Changes);

fn settle_take_up(
    typed: &Typed,
    lessons: &LearnedEstimates,
    sample: &LearnedEstimates,
    (release, wash): (Option<Release>, WashLength),
    shelf: &mut Shelf<'_>,
) -> Result<Settled, Refused> {
    let learnt = lessons
        .relaxed_use
        .map(|learnt| (TakeUp::Relaxed(learnt.value), learnt_from(&learnt)))
        .or_else(|| lessons.weaving.map(|learnt| (TakeUp::Tight(learnt.value), learnt_from(&learnt))));
    let sampled = sample.relaxed_use.map(|learnt| (TakeUp::Relaxed(learnt.value), From::Sample));
    let practice = || -> Result<(TakeUp, From), Refused> {
        let crimp = fellmark_cloth::change::Crimp::from_percent(USUAL_WARP_PER_100 - 100.0)?;
        Ok((TakeUp::Relaxed(Change::from_crimp(crimp)), From::Practice))
    };
    let used = match typed.take_up.map(|given| (given, From::Given)).or(sampled).or(learnt) {
        Some(used) => used,
        None => practice()?,
    };
    for (take_up, from) in [sampled, learnt, (used.1 == From::Practice).then_some(used)].into_iter().flatten() {
        let figure = per_100(take_up);
        let (of, word) = match take_up {
            TakeUp::Relaxed(_) => ("off_loom", "off the loom"),
            TakeUp::Tight(_) => ("under_tension", "on the loom"),
        };
        let fills = [("warp_per_100", shelf.text(figure)), ("take_up_of", of.to_owned())];
        let what = format!("{} for 100 {word}", shelf.text(figure));
        shelf.offer(what, from, &fills, from == used.1);
    }
    let (changes, of) = match used.0 {
        TakeUp::Relaxed(warp_use) => (Changes::from_relaxed(warp_use, release, wash)?, "off the loom"),
        TakeUp::Tight(weaving) => {
            (Changes { weaving, release: release.unwrap_or(Release::NONE), wash }, "on the loom, tight")
        }
    };
    Ok(((per_100(used.0), used.1), of, changes))
}

/// What a pick is longer than the reed is wide: as she says, else as the picks of earlier warps really were. These are known
/// against the finished width; the widths of this plan turn that into a share of the reed's, so that draw-in counts once.
fn settle_allowance(
    typed: &Typed,
    lessons: &LearnedEstimates,
    width: DrawIn<Finished>,
    shelf: &mut Shelf<'_>,
) -> Result<(Allowance, From), Refused> {
    let learnt = lessons.weft_use.and_then(|learnt| {
        let of_reed = (1.0 + learnt.value.crimp().percent() / 100.0) * width.ratio();
        let allowance = Allowance::from_percent((of_reed - 1.0) * 100.0).ok()?;
        Some((allowance, learnt_from(&learnt)))
    });
    let usual = (Allowance::from_percent(USUAL_ALLOWANCE_PERCENT)?, From::Practice);
    let used = typed.allowance.map(|given| (given, From::Given)).or(learnt).unwrap_or(usual);
    for (allowance, from) in learnt.into_iter().chain([usual]) {
        let percent = allowance.percent();
        let fills = [("weft_allowance_percent", shelf.text(percent))];
        shelf.offer(shelf.percent(percent), from, &fills, from == used.1);
    }
    Ok(used)
}

type Widths = ((DrawIn<UnderTension>, From), (DrawIn<Finished>, From));

fn settle_width(
    typed: &Typed,
    lessons: &LearnedEstimates,
    sample: &LearnedEstimates,
    shelf: &mut Shelf<'_>,
) -> Result<Widths, Refused> {
    let usual = DrawIn::<UnderTension>::from_shrinkage_percent(USUAL_LOSS_PERCENT)?;
    let draw_in = settle(typed.draw_in, None, lessons.draw_in, Ok(usual))?;
    let sampled = sample.width_in_all.map(|learnt| (learnt.value, From::Sample));
    let learnt = lessons.width_in_all.map(|learnt| (learnt.value, learnt_from(&learnt)));
    let known = sampled.or(learnt);
    let usual_loss = || Change::<Across, UnderTension, Finished>::from_shrinkage_percent(USUAL_LOSS_PERCENT);
    let in_all = match (typed.draw_in, typed.width_wash, known) {
        (Some(draw_in), Some(loss), _) => (draw_in.then(loss)?, From::Given),
        (Some(draw_in), None, Some((all, from))) => (draw_in.then(all.rest_after(draw_in)?)?, from),
        (Some(draw_in), None, None) => (draw_in.then(usual_loss()?)?, From::Practice),
        (None, Some(loss), _) => (draw_in.0.then(loss)?, draw_in.1),
        (None, None, Some((all, from))) => (all, from),
        (None, None, None) => (draw_in.0.then(usual_loss()?)?, From::Practice),
    };
    let both_empty = typed.draw_in.is_none() && typed.width_wash.is_none();
    for (all, from) in [sampled, learnt].into_iter().flatten() {
        let in_use = both_empty && from == in_all.1;
        match lessons.draw_in.map(|learnt| learnt.value) {
            Some(first) => {
                let (one, rest) = (first.shrinkage_percent(), all.rest_after(first)?.shrinkage_percent());
                let fills = [("draw_in_percent", shelf.text(one)), ("width_shrinkage_percent", shelf.text(rest))];
                shelf.offer(
                    format!("{} and {} in the wash", shelf.percent(one), shelf.percent(rest)),
                    from,
                    &fills,
                    in_use,
                );
            }
            None => {
                let percent = all.shrinkage_percent();
                let fills = [("draw_in_percent", shelf.text(percent)), ("width_shrinkage_percent", "0".to_owned())];
                shelf.offer(format!("{} in all, wash included", shelf.percent(percent)), from, &fills, in_use);
            }
        }
    }
    if known.is_none() {
        let usual = [("draw_in_percent", draw_in), ("width_shrinkage_percent", (usual, From::Practice))];
        for (field, (value, from)) in usual {
            let empty = if field == "draw_in_percent" { typed.draw_in.is_none() } else { typed.width_wash.is_none() };
            let percent = value.shrinkage_percent();
            if empty && from != From::Given {
                shelf.offer(shelf.percent(percent), from, &[(field, shelf.text(percent))], true);
            }
        }
    }
    Ok((draw_in, in_all))
}

fn settle_waste(
    typed: &Typed,
    lessons: &LearnedEstimates,
    shelf: &mut Shelf<'_>,
) -> Result<(WarpLength, From), Refused> {
    let format = shelf.format;
    let for_form =
        |waste: WarpLength| Reader { format, today: chrono::NaiveDate::MIN }.show_length_for_form(waste.mm());
    let learnt = lessons.waste.map(|learnt| (learnt.value, From::Learnt(learnt.warps, learnt.alike)));
    if let Some((waste, from)) = learnt {
        let fills = [("waste", for_form(waste.likely))];
        shelf.offer(show_length(waste.likely.mm(), format), from, &fills, typed.waste.is_none());
    }
    let mut usual = None;
    for prior in waste_priors() {
        let estimate = prior.estimate()?;
        let span = estimate.span(Coverage::FOUR_IN_FIVE);
        let range = format!("{} to {}", show_length(span.low.mm(), format), show_length(span.high.mm(), format));
        let in_use = usual.is_none() && typed.waste.is_none() && learnt.is_none();
        usual.get_or_insert(estimate.likely);
        let middle = show_length(estimate.likely.mm(), format);
        let line = format!("{range} on a {} ({})", prior.loom, prior.source);
        shelf.offers.push(PlanOffer {
            field: "waste".into(),
            line: if in_use { format!("Empty counts as {middle}: {line}.") } else { format!("{middle}: {line}.") },
            button: format!("{middle}, {}", prior.loom),
            fills: vec![PlanFill { field: "waste".into(), text: for_form(estimate.likely) }],
            warps: 0,
            in_use,
        });
    }
    Ok(match (typed.waste, learnt) {
        (Some(waste), _) => (waste, From::Given),
        (None, Some((waste, from))) => (waste.likely, from),
        (None, None) => (usual.unwrap_or(WarpLength::ZERO), From::Practice),
    })
}
