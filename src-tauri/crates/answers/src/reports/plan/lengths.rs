//! The warp of a plan, stretch by stretch, and the yarn in it.

use fellmark_cloth::Refused;
use fellmark_cloth::quantity::{Length, Mass, YarnNumber};
use fellmark_cloth::sequence::Fitted;
use fellmark_cloth::state::{FinishedLength, WarpLength, WovenLength};
use fellmark_cloth::warp::{Segment, SegmentKind, WarpWish, warp_by_rule_of_thumb, warp_yarn};
use fellmark_cloth::weft::{hemstitch_reserve, picks, weft_yarn};

use super::basis::{Basis, ByScale};
use super::cloth::{Across, Sett, density_figure, per, weft_count};
use super::typed::{EdgeKind, Typed};
use crate::model::display_format::{DisplayFormat, Units};
use crate::model::measures::{show_length, show_mass, show_yarn};
use crate::model::piece_lengths;
use crate::present::view::{Answer, Band, BandKind, PlanFigure, Standing, WarpPicture};
use crate::reports::progress::whole_picks;

/// Steps a warp is rounded up to: what a warping peg or board is set to.
const STEP_METRIC_MM: f64 = 50.0;
const STEP_IMPERIAL_MM: f64 = 50.8;
/// Widths of cloth that a hemstitching tail takes (three to four; common practice, no source).
const HEMSTITCH_WIDTHS: f64 = 4.0;
/// Metres of picks, measured in the reed, for which the scale's figure is told.
const PER_REED_M: f64 = 100.0;
/// What the common rule of thumb adds at each end, inches.
const THUMB_INCHES: f64 = 10.0;

/// A plan's lengths.
#[derive(Clone, Debug)]
pub(super) struct Lengths {
    pub wish: WarpWish,
    pub segments: Vec<Segment>,
    pub exact: WarpLength,
    pub wound: WarpLength,
    pub finished: FinishedLength,
    pub woven: WovenLength,
    pub woven_each: Vec<WovenLength>,
}

/// Reckons them; `wound` is what the yarn gives, where it is the yarn that says.
///
/// # Errors
/// A length that leaves the limits.
pub(super) fn lengths(wish: WarpWish, wound: Option<WarpLength>, format: &DisplayFormat) -> Result<Lengths, Refused> {
    let step = Length::from_mm(match format.units {
        Units::Metric => STEP_METRIC_MM,
        Units::Imperial => STEP_IMPERIAL_MM,
    })?;
    let exact = wish.warp_needed()?;
    let wound = match wound {
        Some(wound) => wound,
        None => exact.rounded_up_to(step)?,
    };
    let woven_each = (0..wish.pieces.len()).map(|i| wish.woven_length(i)).collect::<Result<Vec<_>, _>>()?;
    Ok(Lengths {
        segments: wish.segments()?,
        exact,
        wound,
        finished: wish.pieces.iter().map(|piece| piece.finished).sum(),
        woven: woven_each.iter().copied().sum(),
        woven_each,
        wish,
    })
}

impl Lengths {
    /// Warp in stretches of these kinds.
    fn warp_in(&self, kinds: &[SegmentKind]) -> WarpLength {
        self.segments.iter().filter(|one| kinds.contains(&one.kind)).map(|one| one.warp).sum()
    }
}

pub(super) fn figure(id: &str, label: &str, value: String, why: Vec<String>) -> PlanFigure {
    PlanFigure { id: id.into(), label: label.into(), value, why }
}

/// As [`piece_lengths::words`] has it.
pub(super) fn pieces_words(lengths: &[FinishedLength], format: &DisplayFormat) -> String {
    if lengths.is_empty() {
        return "nothing".into();
    }
    piece_lengths::words(&lengths.iter().map(|one| one.mm()).collect::<Vec<_>>(), format)
}

/// The warp to wind, with its reckoning.
pub(super) fn warp_figure(lengths: &Lengths, basis: &Basis, typed: &Typed, format: &DisplayFormat) -> PlanFigure {
    let length = |mm: f64| show_length(mm, format);
    let number = |value: f64| format.number(value, 1);
    let pieces: Vec<FinishedLength> = lengths.wish.pieces.iter().map(|piece| piece.finished).collect();
    let mut why = Vec::new();
    let mut cloth = format!("{} finished", pieces_words(&pieces, format));
    if typed.edge == EdgeKind::Hem && typed.edge_mm.is_some() {
        cloth.push_str(&format!(" and a hem of {} at each end of each", length(typed.edge_mm.unwrap_or(0.0))));
    }
    let (wash, from) = basis.wash;
    why.push(format!(
        "{cloth}, \u{f7} (1 \u{2212} {}\u{a0}%) for the wash{}{}: {} to weave, measured tight on the loom.",
        number(wash.shrinkage_percent()),
        from.words(),
        match basis.release {
            Some((release, from)) => format!(
                ", \u{f7} (1 \u{2212} {}\u{a0}%) for what it loses off the loom{}",
                number(release.shrinkage_percent()),
                from.words()
            ),
            None => String::new(),
        },
        length(lengths.woven.mm()),
    ));
    let cloth_warp = lengths.warp_in(&[SegmentKind::Cloth, SegmentKind::Hem]);
    let (per_100, from) = basis.take_up;
    why.push(format!(
        "100 of cloth {} uses {} of warp{}: {} of warp in the cloth.",
        basis.take_up_of,
        number(per_100),
        from.words(),
        length(cloth_warp.mm())
    ));
    let fringe = lengths.warp_in(&[SegmentKind::Fringe]);
    let waste_left = lengths.warp_in(&[SegmentKind::TieOn, SegmentKind::Unweavable]);
    let from_waste = basis.waste.0.less(waste_left);
    if fringe.mm() > 0.0 {
        let out = if from_waste.mm() > 0.0 {
            format!(", of which {} come out of the loom waste", length(from_waste.mm()))
        } else {
            String::new()
        };
        why.push(format!("{} of fringe{out}.", length(fringe.mm())));
    }
    for (kinds, what) in [
        (&[SegmentKind::Header][..], "for the header"),
        (&[SegmentKind::Sample], "for the sample"),
        (&[SegmentKind::Gap], "between pieces"),
    ] {
        let warp = lengths.warp_in(kinds);
        if warp.mm() > 0.0 {
            why.push(format!("{} {what}.", length(warp.mm())));
        }
    }
    why.push(format!(
        "{} of loom waste{}, once for the whole warp.",
        length(basis.waste.0.mm()),
        basis.waste.1.words()
    ));
    if typed.from_yarn {
        why.push(format!("Together {}: all that the yarn gives at this width.", length(lengths.wound.mm())));
    } else {
        let step = if format.units == Units::Metric { "5 cm" } else { "2 in" };
        why.push(format!(
            "Together {}, rounded up to the next {step}: a warp is never wound short.",
            length(lengths.exact.mm())
        ));
    }
    figure("warp", "Warp to wind", length(lengths.wound.mm()), why)
}

/// The rule of thumb beside it, and what it leaves out.
///
/// # Errors
/// A length that leaves the limits.
pub(super) fn thumb(lengths: &Lengths, format: &DisplayFormat) -> Result<(WarpLength, Answer), Refused> {
    let at_each_end = Length::from_inches(THUMB_INCHES)?;
    let thumb = warp_by_rule_of_thumb(lengths.finished, at_each_end)?;
    let length = |mm: f64| show_length(mm, format);
    let difference = thumb.minus(lengths.wound);
    let compared = if difference.short().mm() >= 5.0 {
        format!("{} less than reckoned here", length(difference.short().mm()))
    } else if difference.over().mm() >= 5.0 {
        format!("{} more than reckoned here", length(difference.over().mm()))
    } else {
        "the same as reckoned here".into()
    };
    let cloth = lengths.warp_in(&[SegmentKind::Cloth, SegmentKind::Hem]);
    let beyond = lengths.warp_in(&[SegmentKind::Fringe, SegmentKind::Header, SegmentKind::Sample, SegmentKind::Gap]);
    let mut more = vec![format!(
        "It leaves out what take-up and the wash{} eat: {}.",
        if lengths.finished < finished_with_hems(lengths) { ", and the hems," } else { "" },
        length(cloth.minus(WarpLength::new(lengths.finished.length())?).mm())
    )];
    if beyond.mm() > 0.0 {
        more.push(format!("It leaves out fringe, header, sample and gaps: {}.", length(beyond.mm())));
    }
    let waste = lengths.wish.waste.total();
    more.push(format!(
        "Its {} are there for the loom waste, which is {} here.",
        length(at_each_end.mm() * 2.0),
        length(waste.mm())
    ));
    let answer = Answer {
        headline: format!(
            "By the common rule, finished length and {} at each end, it would be {}: {compared}.",
            length(at_each_end.mm()),
            length(thumb.mm())
        ),
        more,
        why: vec![format!(
            "{} + 2 \u{d7} {} = {} (common practice, no source).",
            length(lengths.finished.mm()),
            length(at_each_end.mm()),
            length(thumb.mm())
        )],
        standing: if difference.is_short() { Standing::Short } else { Standing::Well },
    };
    Ok((thumb, answer))
}

fn finished_with_hems(lengths: &Lengths) -> FinishedLength {
    lengths.segments.iter().map(|segment| segment.finished).sum()
}

/// Ends, widths, yarns and picks, as figures and as numbers.
#[derive(Clone, Debug, Default)]
pub(super) struct Threads {
    pub figures: Vec<PlanFigure>,
    pub warp_yarn: Option<(Length, Option<Mass>)>,
    pub weft_yarn: Option<(Length, Option<Mass>)>,
    pub picks: Option<f64>,
}

fn yarn_words(
    yarn: Length,
    count: Option<YarnNumber>,
    format: &DisplayFormat,
) -> Result<(String, Option<Mass>), Refused> {
    let mass = count.map(|count| count.mass_of(yarn)).transpose()?;
    let length = show_yarn(yarn.m(), format);
    Ok((mass.map_or_else(|| length.clone(), |mass| format!("{length}, {}", show_mass(mass.g().round(), format))), mass))
}

/// Ends and warp yarn.
///
/// # Errors
/// A figure that leaves the limits.
pub(super) fn across_figures(
    across: &Across,
    lengths: Option<&Lengths>,
    sett: &Sett,
    basis: &Basis,
    typed: &Typed,
    format: &DisplayFormat,
    into: &mut Threads,
) -> Result<(), Refused> {
    let Some((ends_in, _)) = sett.ends else { return Ok(()) };
    let length = |mm: f64| show_length(mm, format);
    let density = format!("{} {}", density_figure(ends_in.density(), format), per(format));
    into.figures.push(figure(
        "ends",
        "Ends",
        across.ends.to_string(),
        vec![format!("{} in the reed \u{d7} {density} = {} whole ends.", length(across.reed.mm()), across.ends)],
    ));
    let (width, from) = basis.width;
    into.figures.push(figure(
        "reed_width",
        "Width in the reed",
        length(across.reed.mm()),
        vec![format!(
            "{} finished \u{f7} (1 \u{2212} {}\u{a0}%) for draw-in and wash together{}, to whole ends.",
            length(across.finished.mm()),
            format.number(width.shrinkage_percent(), 1),
            from.words()
        )],
    ));
    let Some(lengths) = lengths else { return Ok(()) };
    let yarn = warp_yarn(across.ends, lengths.wound)?;
    let (words, mass) = yarn_words(yarn, typed.warp_count, format)?;
    let mut why =
        vec![format!("{} ends \u{d7} {} = {}.", across.ends, length(lengths.wound.mm()), show_yarn(yarn.m(), format))];
    why.extend(weight_why(typed.warp_count, mass, format));
    into.figures.push(figure("warp_yarn", "Warp yarn", words, why));
    into.warp_yarn = Some((yarn, mass));
    weft_figures(across, lengths, sett, basis, typed, format, into)
}

fn weight_why(count: Option<YarnNumber>, mass: Option<Mass>, format: &DisplayFormat) -> Option<String> {
    let (count, mass) = (count?, mass?);
    let number = fellmark_cloth::write::yarn_number(count, super::typed::usual_system(format), format.mark());
    Some(format!("At {number} that weighs {}; labels err by a tenth either way.", show_mass(mass.g().round(), format)))
}

fn weft_figures(
    across: &Across,
    lengths: &Lengths,
    sett: &Sett,
    basis: &Basis,
    typed: &Typed,
    format: &DisplayFormat,
    into: &mut Threads,
) -> Result<(), Refused> {
    let Some(rate) = sett.picks else { return Ok(()) };
    let length = |mm: f64| show_length(mm, format);
    let density = format!("{} {}", density_figure(rate.density(), format), per(format));
    let balanced = if sett.picks_given { "" } else { " (as many picks as ends, since none are given)" };
    let woven = length(lengths.woven.mm());
    let count = whole_picks(picks(rate, lengths.woven));
    into.figures.push(figure(
        "to_weave",
        "To weave on the loom",
        woven.clone(),
        lengths
            .woven_each
            .iter()
            .take(12)
            .enumerate()
            .map(|(i, one)| format!("Piece {}: weave until the tape says {}, tight.", i + 1, length(one.mm())))
            .collect(),
    ));
    into.figures.push(figure(
        "picks",
        "Picks",
        format.number(count, 0),
        vec![format!("{woven} to weave \u{d7} {density}{balanced} = {}, not a pick short.", format.number(count, 0))],
    ));
    into.picks = Some(count);
    if let Some(figure) = repeats_figure(lengths, rate, typed, format) {
        into.figures.push(figure);
    }
    let yarn = weft_yarn(count, across.pick)?;
    let mut why = vec![format!(
        "{} picks \u{d7} {} each ({} in the reed and {}\u{a0}%{}) = {}.",
        format.number(count, 0),
        length(across.pick.mm()),
        length(across.reed.mm()),
        format.number(basis.allowance.0.percent(), 1),
        basis.allowance.1.words(),
        show_yarn(yarn.m(), format)
    )];
    let mut total = yarn;
    if typed.edge == EdgeKind::Fringe {
        let ends = u32::try_from(lengths.wish.pieces.len() * 2).unwrap_or(u32::MAX);
        let reserve = hemstitch_reserve(across.reed, HEMSTITCH_WIDTHS, ends)?;
        total = total + reserve;
        why.push(format!(
            "{} for hemstitching: four widths at each end of each piece (common practice, no source).",
            show_yarn(reserve.m(), format)
        ));
    }
    let (mut words, mut mass) = yarn_words(total, weft_count(typed), format)?;
    if let Some(ByScale { g_per_m, warps }) = basis.by_scale {
        // The hemstitching's yarn weighs as that of the picks.
        let share = if yarn.m() > 0.0 { total.m() / yarn.m() } else { 1.0 };
        let weighed = Mass::from_g(g_per_m * count * across.reed.mm() / 1000.0 * share)?;
        words = format!("{}, {}", show_yarn(total.m(), format), show_mass(weighed.g().round(), format));
        let behind = if warps == 1 { "1 earlier warp".to_owned() } else { format!("{warps} earlier warps") };
        why.push(format!(
            "On the scale: a pick of this yarn took {} to {} of reed (from {behind} woven with it), so this takes {}. That goes \
             before the label.",
            show_mass(g_per_m * PER_REED_M, format),
            show_yarn(PER_REED_M, format),
            show_mass(weighed.g().round(), format)
        ));
        mass = Some(weighed);
    } else {
        why.extend(weight_why(weft_count(typed), mass, format));
    }
    into.figures.push(figure("weft_yarn", "Weft yarn", words, why));
    into.weft_yarn = Some((total, mass));
    Ok(())
}

fn repeats_figure(
    lengths: &Lengths,
    rate: fellmark_cloth::state::PicksIn<fellmark_cloth::state::UnderTension>,
    typed: &Typed,
    format: &DisplayFormat,
) -> Option<PlanFigure> {
    let woven = *lengths.woven_each.first()?;
    let fitted: Fitted = match crate::model::sequence::fitted(&typed.rows, woven, rate)? {
        Ok(fitted) => fitted,
        Err(why) => {
            return Some(figure(
                "repeats",
                "Whole repeats",
                "none fits".into(),
                vec![crate::present::trouble::sentence(&why.to_string())],
            ));
        }
    };
    let mut why = vec![format!(
        "{} to weave hold {} picks in whole repeats, with borders and balance: {}.",
        show_length(woven.mm(), format),
        fitted.picks,
        show_length(fitted.length.mm(), format)
    )];
    if fitted.remaining > 0 {
        why.push(format!(
            "{} picks are over: {} more in the opening border and {} more in the closing one, and the pattern sits in the middle.",
            fitted.remaining, fitted.to_opening, fitted.to_closing
        ));
    }
    if typed.rows.repeat.len() % 2 == 1 {
        why.push(
            "The repeat has an odd number of picks, so the shuttle begins every other one from the other side.".into(),
        );
    }
    Some(figure("repeats", "Whole repeats", format!("{} in each piece", fitted.repeats), why))
}

/// The warp of the plan, to scale.
pub(super) fn picture(lengths: &Lengths, format: &DisplayFormat) -> WarpPicture {
    let several = lengths.wish.pieces.len() > 1;
    let mut fell_mm = None;
    let mut at_mm = 0.0;
    let mut bands = Vec::new();
    for segment in &lengths.segments {
        let mm = segment.warp.mm();
        if mm < 0.5 {
            continue;
        }
        let piece = match segment.piece {
            Some(index) if several => format!(" of piece {}", index + 1),
            _ => String::new(),
        };
        let length = show_length(mm, format);
        let (kind, label) = match segment.kind {
            SegmentKind::TieOn => (BandKind::FrontWaste, format!("loom waste in front, {length}")),
            SegmentKind::Header => (BandKind::FrontWaste, format!("header, {length}")),
            SegmentKind::Sample => (BandKind::FrontWaste, format!("sample, {length}")),
            SegmentKind::Fringe => (BandKind::Fringe, format!("fringe{piece}, {length}")),
            SegmentKind::Gap => (BandKind::Fringe, format!("gap, {length}")),
            SegmentKind::Hem => (BandKind::ToWeave, format!("hem{piece}, {}", show_length(segment.woven.mm(), format))),
            SegmentKind::Cloth => {
                (BandKind::ToWeave, format!("to weave{piece}, {} of cloth", show_length(segment.woven.mm(), format)))
            }
            SegmentKind::Unweavable => (BandKind::BackWaste, format!("loom waste behind, {length}")),
        };
        if kind == BandKind::ToWeave {
            fell_mm.get_or_insert(at_mm);
        }
        if kind == BandKind::BackWaste {
            let spare = lengths.wound.minus(lengths.exact).over().mm();
            if spare >= 0.5 {
                let label = format!("to spare, {}", show_length(spare, format));
                let band = Band {
                    kind: BandKind::Spare,
                    from_mm: at_mm,
                    to_mm: at_mm + spare,
                    label,
                    sitting: None,
                    photo: None,
                };
                at_mm = band.to_mm;
                bands.push(band);
            }
        }
        bands.push(Band { kind, from_mm: at_mm, to_mm: at_mm + mm, label, sitting: None, photo: None });
        at_mm += mm;
    }
    let told: Vec<&str> = bands.iter().map(|band| band.label.as_str()).collect();
    WarpPicture {
        whole_mm: at_mm,
        fell_mm: fell_mm.unwrap_or(0.0),
        fell_label: "the fell, where the first pick will lie".into(),
        text: format!("The planned warp to scale, {} long: {}.", show_length(at_mm, format), told.join("; ")),
        bands,
        marks: Vec::new(),
    }
}
