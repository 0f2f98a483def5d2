//! From a chart to SVG.

use std::fmt::Write;

use super::{Chart, Frame, Ink};
use crate::palette::{INK, INK_SOFT, LINE, MADDER, SHEET, THREAD};

/// Text that is safe between tags and in attributes of HTML and XML. Control characters, and others that XML 1.0 has no way to write,
/// are dropped.
#[must_use]
pub fn escape(text: &str) -> String {
    let is_writable = |letter: &char| {
        matches!(letter, '\n' | '\t') || !letter.is_control() && !matches!(letter, '\u{fffe}' | '\u{ffff}')
    };
    quick_xml::escape::escape(text.chars().filter(is_writable).collect::<String>()).into_owned()
}

/// What a thing is drawn with: a class on the page, attributes in a picture. The colours are those of the page's light theme.
fn drawn(role: &str, ink: Ink) -> String {
    if ink == Ink::Page {
        return format!("class=\"chart-{role}\"");
    }
    match role {
        "axis" => format!("stroke=\"{LINE}\" stroke-width=\"1\" fill=\"none\""),
        "grid" => format!("stroke=\"{THREAD}\" stroke-width=\"1\" fill=\"none\""),
        "words" => format!("fill=\"{INK_SOFT}\" stroke=\"none\""),
        "label" => format!("fill=\"{INK}\" stroke=\"none\""),
        "area" => format!("fill=\"{INK}\" fill-opacity=\"0.12\" stroke=\"none\""),
        "line" => format!("stroke=\"{INK}\" stroke-width=\"2.5\" fill=\"none\""),
        "dashed" => format!("stroke=\"{INK}\" stroke-width=\"2\" stroke-dasharray=\"6 5\" fill=\"none\""),
        "point" => format!("fill=\"{MADDER}\" stroke=\"{MADDER}\" stroke-width=\"2.5\""),
        "ring" => format!("fill=\"{SHEET}\" stroke=\"{MADDER}\" stroke-width=\"2.5\""),
        "upright" => format!("stroke=\"{INK}\" stroke-width=\"1.5\" stroke-dasharray=\"2 4\" fill=\"none\""),
        _ => format!("fill=\"{SHEET}\" stroke=\"none\""),
    }
}

/// About how wide a text is, in letters' sizes: measured widths of a page's letters differ by a tenth or so.
const LETTER_WIDE: f64 = 0.56;
const FAMILY: &str = "Noto Sans, DejaVu Sans, sans-serif";

/// The chart as SVG.
#[must_use]
pub fn svg(chart: &Chart, frame: &Frame) -> String {
    let (em, ink) = (frame.text.clamp(8.0, 80.0), frame.ink);
    let width = frame.width.clamp(160.0, 4000.0);
    let wide = |text: &str| text.chars().count() as f64 * em * LETTER_WIDE;
    let left = chart.y.scale.ticks.iter().map(|(_, label)| wide(label)).fold(em, f64::max) + 0.9 * em;
    let last_tick = chart.x.scale.ticks.last().map_or(0.0, |(_, label)| wide(label) / 2.0);
    let right = width - last_tick.max(0.8 * em);
    let top = 2.6 * em;
    let foot = top + (0.5 * width).clamp(11.0 * em, 22.0 * em);
    let height = foot + 3.4 * em;
    let span = |scale: &super::Scale| if scale.high > scale.low { scale.high - scale.low } else { 1.0 };
    let x = |at: f64| left + (at - chart.x.scale.low) / span(&chart.x.scale) * (right - left);
    let y = |at: f64| foot - (at - chart.y.scale.low) / span(&chart.y.scale) * (foot - top);
    let path = |corners: &[(f64, f64)]| {
        let mut d = String::new();
        for (i, (at_x, at_y)) in corners.iter().enumerate() {
            let _ = write!(d, "{}{:.1} {:.1}", if i == 0 { 'M' } else { 'L' }, x(*at_x), y(*at_y));
        }
        d
    };
    let mut out = String::new();
    let _ = write!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width:.0} {height:.0}\" width=\"{width:.0}\" \
         height=\"{height:.0}\" role=\"img\" aria-label=\"{}\" font-family=\"{FAMILY}\" font-size=\"{em:.1}\">",
        escape(&chart.text)
    );
    if ink == Ink::Picture {
        let _ = write!(out, "<rect width=\"{width:.0}\" height=\"{height:.0}\" {}/>", drawn("ground", ink));
    }
    let words = drawn("words", ink);
    let _ = write!(out, "<text x=\"{:.1}\" y=\"{:.1}\" {words}>{}</text>", 0.0, 1.1 * em, escape(&chart.y.name));
    for (at, label) in &chart.y.scale.ticks {
        let _ = write!(
            out,
            "<path d=\"M{left:.1} {0:.1}H{right:.1}\" {1}/><text x=\"{2:.1}\" y=\"{3:.1}\" text-anchor=\"end\" {words}>{4}</text>",
            y(*at),
            drawn("grid", ink),
            left - 0.5 * em,
            y(*at) + 0.35 * em,
            escape(label)
        );
    }
    // Labels that would run into each other are left out; the ticks stay.
    let mut free = f64::NEG_INFINITY;
    for (at, label) in &chart.x.scale.ticks {
        let at = x(*at);
        let _ = write!(out, "<path d=\"M{at:.1} {foot:.1}v{:.1}\" {}/>", 0.4 * em, drawn("axis", ink));
        if at - wide(label) / 2.0 > free {
            free = at + wide(label) / 2.0 + 0.5 * em;
            let _ = write!(
                out,
                "<text x=\"{at:.1}\" y=\"{:.1}\" text-anchor=\"middle\" {words}>{}</text>",
                foot + 1.5 * em,
                escape(label)
            );
        }
    }
    let _ = write!(
        out,
        "<path d=\"M{left:.1} {foot:.1}H{right:.1}\" {}/><text x=\"{right:.1}\" y=\"{:.1}\" text-anchor=\"end\" {words}>{}</text>",
        drawn("axis", ink),
        foot + 2.9 * em,
        escape(&chart.x.name)
    );
    for area in &chart.areas {
        let _ = write!(out, "<path d=\"{}Z\" {}/>", path(area), drawn("area", ink));
    }
    for line in &chart.lines {
        let role = if line.dashed { "dashed" } else { "line" };
        let _ = write!(out, "<path d=\"{}\" {}/>", path(&line.corners), drawn(role, ink));
    }
    if let Some((at, label)) = &chart.upright {
        let at = x(*at);
        let anchor = if at > f64::midpoint(left, right) { "end" } else { "start" };
        let beside = if anchor == "end" { -0.4 * em } else { 0.4 * em };
        let _ = write!(
            out,
            "<path d=\"M{at:.1} {0:.1}V{foot:.1}\" {1}/><text x=\"{2:.1}\" y=\"{3:.1}\" text-anchor=\"{anchor}\" {4}>{5}</text>",
            top - 0.4 * em,
            drawn("upright", ink),
            at + beside,
            top - 0.1 * em,
            drawn("label", ink),
            escape(label)
        );
    }
    points(&mut out, chart, (em, right), ink, &x, &y);
    out.push_str("</svg>");
    out
}

/// Points above everything else; a label lies where the fewest others are in its way.
fn points(
    out: &mut String,
    chart: &Chart,
    (em, right): (f64, f64),
    ink: Ink,
    x: &impl Fn(f64) -> f64,
    y: &impl Fn(f64) -> f64,
) {
    let radius = 0.34 * em;
    for point in &chart.points {
        let role = if point.filled { "point" } else { "ring" };
        let _ = write!(
            out,
            "<circle cx=\"{:.1}\" cy=\"{:.1}\" r=\"{radius:.1}\" {}/>",
            x(point.x),
            y(point.y),
            drawn(role, ink)
        );
    }
    // (left, top, right, bottom) of what is taken.
    let mut taken: Vec<[f64; 4]> = chart
        .points
        .iter()
        .map(|point| [x(point.x) - radius, y(point.y) - radius, x(point.x) + radius, y(point.y) + radius])
        .collect();
    for point in chart.points.iter().filter(|point| !point.label.is_empty()) {
        let (at_x, at_y) = (x(point.x), y(point.y));
        let wide = point.label.chars().count() as f64 * em * LETTER_WIDE;
        let places = [
            (at_x + 0.6 * em, at_y + 0.35 * em),
            (at_x - 0.6 * em - wide, at_y + 0.35 * em),
            (at_x - wide / 2.0, at_y - 0.65 * em),
            (at_x - wide / 2.0, at_y + 1.4 * em),
        ];
        let boxed = |(left, base): (f64, f64)| [left, base - 0.8 * em, left + wide, base + 0.2 * em];
        let meets = |one: &[f64; 4], other: &[f64; 4]| {
            one[0] < other[2] && other[0] < one[2] && one[1] < other[3] && other[1] < one[3]
        };
        let in_the_way = |place: &(f64, f64)| {
            let own = boxed(*place);
            let outside = usize::from(own[2] > right + em) * 10;
            taken.iter().filter(|other| meets(&own, other)).count() + outside
        };
        let Some(place) = places.iter().min_by_key(|place| in_the_way(place)).copied() else { continue };
        taken.push(boxed(place));
        let _ = write!(
            out,
            "<text x=\"{:.1}\" y=\"{:.1}\" {}>{}</text>",
            place.0,
            place.1,
            drawn("label", ink),
            escape(&point.label)
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::{ChartAxis, ChartLine, Point, Scale};
    use super::*;

    fn chart() -> Chart {
        let scale = |values: &[f64]| Scale::holding(values.iter().copied(), true, |v, places| format!("{v:.places$}"));
        Chart {
            text: "a <chart> & \"more\"".into(),
            x: ChartAxis { name: "length, m".into(), scale: scale(&[1.0, 4.0]) },
            y: ChartAxis { name: "hours".into(), scale: scale(&[2.0, 3.0]) },
            points: vec![
                Point { x: 1.0, y: 2.0, label: "1".into(), filled: true },
                Point { x: 4.0, y: 3.0, label: "2".into(), filled: false },
            ],
            lines: vec![ChartLine { corners: vec![(1.0, 2.0), (4.0, 3.0)], dashed: false }],
            areas: vec![vec![(1.0, 1.9), (4.0, 2.9), (4.0, 3.1), (1.0, 2.1)]],
            upright: Some((2.0, "2 m".into())),
        }
    }

    #[test]
    fn on_the_page_it_has_classes_and_in_a_picture_colours_and_never_a_style() {
        let page = svg(&chart(), &Frame { width: 600.0, text: 16.0, ink: Ink::Page });
        assert!(page.contains("class=\"chart-point\"") && page.contains("class=\"chart-ring\"") && !page.contains('#'));
        let picture = svg(&chart(), &Frame { width: 600.0, text: 16.0, ink: Ink::Picture });
        assert!(picture.contains(&format!("fill=\"{MADDER}\"")) && !picture.contains("class="));
        assert!(!page.contains("style=") && !picture.contains("style="), "the page refuses inline styles");
        assert!(page.contains("a &lt;chart&gt; &amp; &quot;more&quot;"));
    }

    /// How light a colour such as `#fbf8f0` is, 0 to 1.
    fn lightness(colour: &str) -> f64 {
        let part = |at: usize| f64::from(u8::from_str_radix(&colour[at..at + 2], 16).unwrap()) / 255.0;
        0.2126 * part(1) + 0.7152 * part(3) + 0.0722 * part(5)
    }

    #[test]
    fn a_picture_has_its_size_a_light_ground_dark_words_and_all_that_is_drawn() {
        let picture = svg(&chart(), &Frame { width: 600.0, text: 16.0, ink: Ink::Picture });
        let after = |text: &'static str| picture.split(text).skip(1);
        let attribute = |name: &'static str| after(name).next().unwrap().split('"').next().unwrap();
        let (width, height) = (attribute(" width=\""), attribute(" height=\""));
        assert!(width == "600" && (200.0..500.0).contains(&height.parse::<f64>().unwrap()), "{width} {height}");
        assert_eq!(attribute(" viewBox=\""), format!("0 0 {width} {height}"));
        assert_eq!(attribute(" aria-label=\""), "a &lt;chart&gt; &amp; &quot;more&quot;");
        // On paper: the whole of it is light, and whatever is written stands out.
        let ground = after("<rect ").next().unwrap();
        assert!(ground.starts_with(&format!("width=\"{width}\" height=\"{height}\" fill=\"")), "{ground}");
        assert!(lightness(ground.split("fill=\"").nth(1).unwrap()) > 0.9, "{ground}");
        let words: Vec<&str> = after("<text ").collect();
        assert!(words.iter().all(|text| lightness(text.split("fill=\"").nth(1).unwrap()) < 0.4), "{words:?}");
        for word in ["hours", "length, m", "2 m"] {
            assert!(words.iter().any(|text| text.contains(&format!(">{word}</text>"))), "{word}");
        }
        assert_eq!(after("<circle ").count(), 2);
        assert!(after("<path ").any(|path| path.contains("stroke-width=\"2.5\"")), "the line");
    }

    #[test]
    fn text_is_escaped_and_what_xml_cannot_hold_is_dropped() {
        let safe = escape("a<b>&\"c\" 'd'\u{0}\u{8}\u{1f}\r\u{7f}\u{fffe}\u{ffff}\n\té\u{1f9f6}");
        assert_eq!(safe, "a&lt;b&gt;&amp;&quot;c&quot; &apos;d&apos;\n\té\u{1f9f6}");
        let whole = format!("<t a=\"{safe}\">{safe}</t>");
        let mut reader = quick_xml::Reader::from_str(&whole);
        while !matches!(reader.read_event().unwrap(), quick_xml::events::Event::Eof) {}
    }

    #[test]
    fn nothing_lies_outside_whatever_the_size() {
        for (width, text) in [(1200.0, 17.0), (300.0, 17.0), (288.0, 34.0)] {
            let drawn = svg(&chart(), &Frame { width, text, ink: Ink::Page });
            for x in drawn.split("x=\"").skip(1).filter_map(|rest| rest.split('"').next()?.parse::<f64>().ok()) {
                assert!((0.0..=width).contains(&x), "{x} of {width} in {drawn}");
            }
        }
    }
}
