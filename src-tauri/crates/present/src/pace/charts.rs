//! Charts of pace and the sentences beside them, which say no more than the figures bear.

use fellmark_projection::{FEWEST_FOR_SLOPE, Shift, Slope, shift, theil_sen};

use super::long_unit;
use crate::chart::{Chart, ChartAxis, ChartLine, Point, Scale};
use crate::figures::show_length;
use crate::view::ChartView;
use fellmark_model::WarpState;
use fellmark_model::display_format::{DisplayFormat, Units};
use fellmark_reports::pace::PaceFigures;

/// Intervals hold four times in five, as everywhere.
const CONFIDENCE: f64 = 0.8;
/// Fewer timed sittings than this do not tell whether a warp slows.
pub const FEWEST_SITTINGS: usize = 5;

fn empty(title: &str, sentences: Vec<String>) -> ChartView {
    ChartView {
        what: String::new(),
        title: title.into(),
        sentences,
        svg: String::new(),
        columns: Vec::new(),
        rows: Vec::new(),
    }
}

/// What the figures count.
pub fn counted(all: &[PaceFigures]) -> Vec<String> {
    if all.is_empty() {
        return vec!["Nothing has been woven yet. Each warp stands here from its first sitting on.".into()];
    }
    let mut lines = vec![
        "Time at the loom is counted gross, short interruptions included; setting up and finishing are not in it. Lengths are under \
         tension. Paces are sums divided, never rates averaged."
            .to_owned(),
    ];
    let untimed: usize = all.iter().map(|one| one.untimed).sum();
    if untimed > 0 {
        lines.push(format!("{} without minutes: they count for the length, not for the pace.", sittings(untimed)));
    }
    let shortened: usize = all.iter().map(|one| one.shortened).sum();
    if shortened > 0 {
        lines.push(format!("{} far longer than usual: reckoned shorter, as a forgotten timer.", sittings(shortened)));
    }
    lines
}

fn sittings(n: usize) -> String {
    if n == 1 { "1 sitting is".into() } else { format!("{n} sittings are") }
}

/// Warps whose length and pace are known: (length in long units, hours for one, warp).
fn known<'a>(all: &'a [PaceFigures], format: &DisplayFormat) -> Vec<(f64, f64, &'a PaceFigures)> {
    let (unit_mm, _) = long_unit(format);
    all.iter().filter_map(|one| Some((one.length_mm? / unit_mm, one.hours_per_mm()? * unit_mm, one))).collect()
}

fn axes(known: &[(f64, f64, &PaceFigures)], format: &DisplayFormat) -> (ChartAxis, ChartAxis) {
    let (_, unit) = long_unit(format);
    let write = |value: f64, places: usize| format.number(value, places);
    (
        ChartAxis {
            name: format!("length woven, {unit}"),
            scale: Scale::holding(known.iter().map(|one| one.0), true, write),
        },
        ChartAxis {
            name: format!("hours for a {}", long_name(format)),
            scale: Scale::holding(known.iter().map(|one| one.1), true, write),
        },
    )
}

fn long_name(format: &DisplayFormat) -> &'static str {
    if format.units == Units::Metric { "metre" } else { "yard" }
}

fn point(one: &(f64, f64, &PaceFigures)) -> Point {
    Point { x: one.0, y: one.1, label: one.2.number.to_string(), filled: one.2.state == WarpState::OffTheLoom }
}

fn table(known: &[(f64, f64, &PaceFigures)], format: &DisplayFormat) -> (Vec<String>, Vec<Vec<String>>) {
    let columns = ["No.", "Warp", "Length woven", &format!("Hours for a {}", long_name(format))];
    let rows = known.iter().map(|(_, hours, one)| {
        vec![
            one.number.to_string(),
            one.name.clone(),
            one.length_mm.map(|mm| show_length(mm, format)).unwrap_or_default(),
            format.number(*hours, 2),
        ]
    });
    (columns.map(str::to_owned).to_vec(), rows.collect())
}

/// How hours for a metre go with the length of the warp.
pub fn against_length(all: &[PaceFigures], format: &DisplayFormat) -> (Option<Chart>, ChartView) {
    let title = "Pace against length";
    let known = known(all, format);
    if known.is_empty() {
        let sentences = "No warp with a length and minutes yet, so there is nothing to compare.";
        return (None, empty(title, vec![sentences.into()]));
    }
    let points: Vec<(f64, f64)> = known.iter().map(|(x, y, _)| (*x, *y)).collect();
    let slope = theil_sen(&points, CONFIDENCE);
    let (x, y) = axes(&known, format);
    let mut lines = Vec::new();
    if let Some(slope) = &slope {
        lines.push(line_through(slope, &points, &y.scale));
    }
    let sentences = vec![slope_words(slope.as_ref(), known.len(), format)];
    let (columns, rows) = table(&known, format);
    let chart = Chart {
        text: format!("{title}. {}", sentences.join(" ")),
        x,
        y,
        points: known.iter().map(point).collect(),
        lines,
        areas: Vec::new(),
        upright: None,
    };
    let ring = if known.iter().any(|(.., one)| one.state != WarpState::OffTheLoom) {
        " A ring is a warp still on its loom."
    } else {
        ""
    };
    let legend = format!("Each number is a warp of the table above.{ring}");
    (Some(chart), ChartView { columns, rows, ..empty(title, [sentences, vec![legend]].concat()) })
}

/// The robust line from the shortest to the longest, cut where it would leave the picture; dashed while it may as well be level.
fn line_through(slope: &Slope, points: &[(f64, f64)], y: &Scale) -> ChartLine {
    let ends =
        points.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), (x, _)| (low.min(*x), high.max(*x)));
    let at = |x: f64| (x, (slope.intercept + slope.per_unit * x).clamp(y.low, y.high));
    ChartLine { corners: vec![at(ends.0), at(ends.1)], dashed: !slope.is_clear() }
}

/// A slope in hours for a metre, per metre longer, said as people would.
fn slope_words(slope: Option<&Slope>, points: usize, format: &DisplayFormat) -> String {
    let unit = long_name(format);
    let Some(slope) = slope else {
        let warps = if points == 1 { "One warp is".to_owned() } else { format!("{points} warps are") };
        return format!(
            "{warps} too few to tell how pace goes with length; it takes {FEWEST_FOR_SLOPE}, of different lengths."
        );
    };
    let minutes = |hours: f64| format.number((hours * 60.0).abs(), 0);
    let span = format!(
        "four times in five between {} and {}",
        signed(slope.low * 60.0, format),
        signed(slope.high * 60.0, format)
    );
    if slope.is_clear() {
        let way = if slope.per_unit > 0.0 { "more" } else { "less" };
        format!(
            "For each {unit} a warp is longer, a {unit} takes some {} minutes {way} ({span} minutes), by {points} warps. That they go \
             together does not say that one makes the other: yarn, sett and pattern differ too.",
            minutes(slope.per_unit)
        )
    } else {
        format!(
            "These {points} warps do not tell whether longer ones go slower or quicker: for each {unit} longer, {span} minutes for a \
             {unit}."
        )
    }
}

fn signed(value: f64, format: &DisplayFormat) -> String {
    let text = format.number(value, 0);
    if value > 0.0 && text != "0" { format!("+{text}") } else { text }
}

/// Short against long, parted at a length.
pub fn short_against_long(
    all: &[PaceFigures],
    split_mm: Option<f64>,
    format: &DisplayFormat,
) -> (Option<Chart>, ChartView) {
    let title = "Short against long";
    let known = known(all, format);
    let Some(split_mm) = split_mm.filter(|_| !known.is_empty()) else {
        return (
            None,
            empty(title, vec!["No warp with a length and minutes yet, so there is nothing to part.".into()]),
        );
    };
    let (unit_mm, _) = long_unit(format);
    let split = split_mm / unit_mm;
    let (short, long): (Vec<_>, Vec<_>) = known.iter().copied().partition(|(length, ..)| *length <= split);
    let hours = |side: &[(f64, f64, &PaceFigures)]| side.iter().map(|one| one.1).collect::<Vec<f64>>();
    let found = shift(&hours(&short), &hours(&long), CONFIDENCE);
    let sentences = vec![shift_words(found.as_ref(), short.len(), long.len(), split_mm, format)];
    let (x, y) = axes(&known, format);
    let middle = |side: &[(f64, f64, &PaceFigures)]| median(&hours(side));
    let mut lines = Vec::new();
    for (side, ends) in [(&short, (x.scale.low, split)), (&long, (split, x.scale.high))] {
        if let Some(level) = middle(side) {
            lines.push(ChartLine { corners: vec![(ends.0, level), (ends.1, level)], dashed: false });
        }
    }
    let (columns, rows) = table(&known, format);
    let upright = (x.scale.low < split && split < x.scale.high).then(|| (split, show_length(split_mm, format)));
    let chart = Chart {
        text: format!("{title}. {}", sentences.join(" ")),
        x,
        y,
        points: known.iter().map(point).collect(),
        lines,
        areas: Vec::new(),
        upright,
    };
    let legend = "The level lines are the middle warp of each side.".to_owned();
    (Some(chart), ChartView { columns, rows, ..empty(title, [sentences, vec![legend]].concat()) })
}

fn median(values: &[f64]) -> Option<f64> {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let n = sorted.len();
    match n {
        0 => None,
        _ if n % 2 == 1 => sorted.get(n / 2).copied(),
        _ => Some(f64::midpoint(*sorted.get(n / 2 - 1)?, *sorted.get(n / 2)?)),
    }
}

fn shift_words(found: Option<&Shift>, short: usize, long: usize, split_mm: f64, format: &DisplayFormat) -> String {
    let unit = long_name(format);
    let at = show_length(split_mm, format);
    let warps = |n: usize| if n == 1 { "1 warp".to_owned() } else { format!("{n} warps") };
    let sides = format!("{} of {at} or shorter, {} longer", warps(short), warps(long));
    let Some(found) = found else {
        return if short + long < 2 {
            "One warp is too few to compare short with long.".into()
        } else if short == 0 || long == 0 {
            format!("{sides}: there is nothing to compare at this length. Choose another one.")
        } else {
            format!("{sides}: too few to tell them apart. It takes three on each side, or two and four.")
        };
    };
    let span = format!(
        "four times in five between {} and {} minutes",
        signed(found.low * 60.0, format),
        signed(found.high * 60.0, format)
    );
    if found.is_clear() {
        let way = if found.by > 0.0 { "longer" } else { "less long" };
        let minutes = format.number((found.by * 60.0).abs(), 0);
        format!(
            "{sides}: a {unit} of a long one takes some {minutes} minutes {way} than a {unit} of a short one ({span})."
        )
    } else {
        format!("{sides}: no difference that these warps could tell ({span} for a {unit}).")
    }
}

/// Whether a warp slows from its first to its last pick.
pub fn within(shown: Option<&PaceFigures>, all: &[PaceFigures], format: &DisplayFormat) -> (Option<Chart>, ChartView) {
    let title = "Within one warp";
    let Some(one) = shown else {
        let sentences =
            format!("No warp has {FEWEST_SITTINGS} timed sittings yet, so none can be told to slow or to quicken.");
        return (None, empty(title, vec![sentences]));
    };
    let slope = theil_sen(&one.over_time, CONFIDENCE);
    let write = |value: f64, places: usize| format.number(value, places);
    let y = ChartAxis {
        name: "picks an hour".into(),
        scale: Scale::holding(one.over_time.iter().map(|(_, pace)| *pace), true, write),
    };
    let ticks = [0, 25, 50, 75, 100].map(|percent| (f64::from(percent) / 100.0, format!("{percent}\u{a0}%")));
    let x = ChartAxis {
        name: "share of its cloth woven".into(),
        scale: Scale { low: 0.0, high: 1.0, ticks: ticks.to_vec() },
    };
    let sentences = vec![within_words(one, slope.as_ref(), format), all_words(all)];
    let lines = slope.as_ref().map(|slope| line_through(slope, &one.over_time, &y.scale)).into_iter().collect();
    let rows = one.over_time.iter().zip(1..);
    let rows = rows.map(|((share, pace), n)| {
        vec![n.to_string(), format!("{}\u{a0}%", format.number(share * 100.0, 0)), format.number(*pace, 0)]
    });
    let columns = ["Sitting", "Share woven at its middle", "Picks an hour"].map(str::to_owned).to_vec();
    let view = ChartView { columns, rows: rows.collect(), ..empty(title, sentences.clone()) };
    let chart = Chart {
        text: format!("{}: {}", one.name, sentences.join(" ")),
        x,
        y,
        points: one.over_time.iter().map(|(x, y)| Point { x: *x, y: *y, label: String::new(), filled: true }).collect(),
        lines,
        areas: Vec::new(),
        upright: None,
    };
    (Some(chart), view)
}

fn within_words(one: &PaceFigures, slope: Option<&Slope>, format: &DisplayFormat) -> String {
    let n = one.over_time.len();
    let Some(slope) = slope else { return format!("{}: {n} timed sittings are too few to tell.", one.name) };
    let span = format!("four times in five between {} and {}", signed(slope.low, format), signed(slope.high, format));
    let change = format.number(slope.per_unit.abs(), 0);
    if !slope.is_clear() {
        return format!(
            "{}: its {n} timed sittings do not tell whether it slowed ({span} picks an hour from first to last pick).",
            one.name
        );
    }
    let way = if slope.per_unit < 0.0 { "slowed" } else { "quickened" };
    format!(
        "{} {way} by some {change} picks an hour from first to last pick ({span}), by {n} timed sittings.",
        one.name
    )
}

/// The same over all warps, as a count.
fn all_words(all: &[PaceFigures]) -> String {
    let slopes: Vec<Slope> = all
        .iter()
        .filter(|one| one.over_time.len() >= FEWEST_SITTINGS)
        .filter_map(|one| theil_sen(&one.over_time, CONFIDENCE))
        .collect();
    let slower = slopes.iter().filter(|slope| slope.is_clear() && slope.per_unit < 0.0).count();
    let quicker = slopes.iter().filter(|slope| slope.is_clear() && slope.per_unit > 0.0).count();
    format!(
        "Of {} with enough timed sittings {slower} clearly slowed, {quicker} clearly quickened; one in five would seem to by chance.",
        if slopes.len() == 1 { "1 warp".to_owned() } else { format!("{} warps", slopes.len()) }
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use chrono::NaiveDate;

    fn warp(number: usize, metres: f64, hours_per_metre: f64) -> PaceFigures {
        PaceFigures {
            id: format!("w{number}").parse().unwrap(),
            number,
            name: format!("warp {number}"),
            state: WarpState::OffTheLoom,
            finished: true,
            first: NaiveDate::MIN,
            hours: metres * hours_per_metre,
            sittings: 6,
            days: 12,
            length_mm: Some(metres * 1000.0),
            picks_per_hour: Some(400.0 / hours_per_metre),
            picks_per_mm: Some(0.4),
            over_time: Vec::new(),
            shortened: 0,
            untimed: 0,
        }
    }

    #[test]
    fn three_warps_are_too_few_and_it_is_said() {
        let all = [warp(1, 1.0, 2.0), warp(2, 2.0, 1.5), warp(3, 3.0, 1.0)];
        let (chart, view) = against_length(&all, &DisplayFormat::default());
        assert!(view.sentences[0].starts_with("3 warps are too few"), "{:?}", view.sentences);
        assert!(chart.unwrap().lines.is_empty());
        let (_, view) = short_against_long(&all, Some(1500.0), &DisplayFormat::default());
        assert!(
            view.sentences[0].contains("1 warp of 150\u{a0}cm or shorter, 2 warps longer: too few"),
            "{:?}",
            view.sentences
        );
        assert!(against_length(&[], &DisplayFormat::default()).0.is_none());
    }

    #[test]
    fn a_clear_slope_is_shown_with_its_span_and_an_unclear_one_is_not() {
        // Reference values of this line: scipy 1.17.1, stats.theilslopes(y, x, 0.8): -0.12239, -0.18537, -0.08333.
        let points = [(1.05, 1.9), (1.6, 1.75), (2.2, 1.7), (3.1, 1.52), (4.4, 1.49), (2.9, 1.66)];
        let all: Vec<PaceFigures> = (1..).zip(points).map(|(n, (x, y))| warp(n, x, y)).collect();
        let (chart, view) = against_length(&all, &DisplayFormat::default());
        assert!(
            view.sentences[0]
                .contains("some 7 minutes less (four times in five between \u{2212}11 and \u{2212}5 minutes)"),
            "{:?}",
            view.sentences
        );
        assert!(!chart.unwrap().lines[0].dashed);
        let mut unclear = all;
        unclear[4] = warp(5, 4.4, 2.6);
        let (chart, view) = against_length(&unclear, &DisplayFormat::default());
        assert!(view.sentences[0].contains("do not tell"), "{:?}", view.sentences);
        assert!(chart.unwrap().lines[0].dashed);
    }

    #[test]
    fn short_and_long_are_parted_where_she_says() {
        let all: Vec<PaceFigures> = (1..)
            .zip([(1.0, 2.4), (1.2, 2.2), (1.4, 2.6), (3.0, 1.6), (3.5, 1.4), (4.0, 1.5)])
            .map(|(n, (x, y))| warp(n, x, y))
            .collect();
        let (chart, view) = short_against_long(&all, Some(2000.0), &DisplayFormat::default());
        assert!(
            view.sentences[0].starts_with(
                "3 warps of 200\u{a0}cm or shorter, 3 warps longer: a metre of a long one takes some 54 minutes less long"
            ),
            "{:?}",
            view.sentences
        );
        assert_eq!(chart.unwrap().upright, Some((2.0, "200\u{a0}cm".into())));
        let (_, view) = short_against_long(&all, Some(9000.0), &DisplayFormat::default());
        assert!(view.sentences[0].contains("nothing to compare"), "{:?}", view.sentences);
        assert_eq!(fellmark_reports::pace::middle_length_mm(&all), Some(2200.0));
    }

    #[test]
    fn a_warp_that_slows_is_reported() {
        let mut one = warp(1, 2.0, 2.0);
        one.over_time = (0..8).map(|i| (f64::from(i) / 8.0, 200.0 - 10.0 * f64::from(i) + f64::from(i % 2))).collect();
        let all = [one];
        let (chart, view) = within(all.first(), &all, &DisplayFormat::default());
        assert!(view.sentences[0].starts_with("warp 1 slowed by some 80 picks an hour"), "{:?}", view.sentences);
        assert!(
            view.sentences[1].starts_with("Of 1 warp with enough timed sittings 1 clearly slowed, 0"),
            "{:?}",
            view.sentences
        );
        assert_eq!(chart.unwrap().points.len(), 8);
        assert!(within(None, &[], &DisplayFormat::default()).1.sentences[0].contains("No warp has 5 timed sittings"));
    }
}
