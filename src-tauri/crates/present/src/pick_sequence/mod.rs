//! The editor of a pick sequence: what is wrong beside each field, and the cloth that the rows make.

use fellmark_cloth::quantity::Length;
use fellmark_cloth::sequence::{
    Float, FloatKind, Heddle, HeddleRow, Section, Sequence, Stick, lace, plain, warp_float, weft_float,
};

use crate::messages::error_view;
use crate::sequence::instruction::{heddle_instruction, instruction};
use crate::view::{ClothRow, ClothView, PickSequenceExample, PickSequenceForm, PickSequenceView};
use fellmark_model::Warp;
use fellmark_model::display_format::{DisplayFormat, Units};
use fellmark_model::forms::picks_in_units;
use fellmark_model::moments::Part;
use fellmark_model::sequence::{Row, read_typed_sequence, sticks};
use fellmark_reports::pick_sequence::{
    ASSUMED_SETT_PER_10CM, DrawingScale, DrawnCloth, DrawnPick, PickSequenceReport, RepeatedShed, pick_sequence_report,
};

/// Long floats that are named one by one; the rest are counted.
const MOST_NAMED: usize = 4;

/// What the editor shows of a form.
#[must_use]
pub fn view(form: &PickSequenceForm, format: &DisplayFormat) -> PickSequenceView {
    let typed = read_typed_sequence(form, format);
    let mut view = PickSequenceView {
        errors: typed.problems.iter().map(|problem| error_view(problem.clone(), format)).collect(),
        counts: String::new(),
        cloth: None,
        warnings: Vec::new(),
        notes: Vec::new(),
        mirrored: mirrored(&typed.sequence),
        examples: examples(),
    };
    if let Some(report) = pick_sequence_report(&typed) {
        view.counts = counts(&typed.sequence);
        view.warnings = warnings(&report, format);
        view.notes = notes(&report, format);
        let sticks = sticks(&typed.sequence);
        view.cloth = report.cloth.as_ref().map(|cloth| cloth_view(cloth, sticks, format));
    }
    view
}

fn warnings(report: &PickSequenceReport, format: &DisplayFormat) -> Vec<String> {
    let mut warnings = Vec::new();
    if report.mixes_looms {
        warnings.push("Some rows are words and some are numbers of sheds; a loom has one or the other.".into());
    }
    if report.numbered_shed_repeated {
        warnings.push("Two picks follow each other in one shed; the second would pull the first out.".into());
    }
    for repeated in &report.repeated_sheds {
        let sentence = repeated_shed_sentence(repeated);
        if !warnings.contains(&sentence) {
            warnings.push(sentence);
        }
    }
    warnings.extend(report.cloth.iter().flat_map(|cloth| float_warnings(cloth, format)));
    warnings.extend(report.refused.iter().map(|refused| crate::messages::sentence(&refused.to_string())));
    warnings
}

fn repeated_shed_sentence(repeated: &RepeatedShed) -> String {
    let joint = if repeated.at_a_join { ", where two sections or repeats meet," } else { "" };
    format!(
        "Pick {} of {}{joint} lies in the same shed as the pick before it, which would be pulled out.",
        repeated.row + 1,
        section_words(repeated.section)
    )
}

fn notes(report: &PickSequenceReport, format: &DisplayFormat) -> Vec<String> {
    let mut notes = Vec::new();
    if report.second_stick_assumed {
        notes.push("The second stick is drawn with the ends that the first one leaves down.".into());
    }
    notes.extend(report.straight_threading_shafts.map(|shafts| {
        format!("No threading is written down, so the ends are drawn straight through on shafts 1 to {shafts}.")
    }));
    if report.lifts_missing {
        notes.push(
            "What each shed lifts is not written down yet, so the cloth cannot be drawn; write it below the rows, one shed to \
             a line. The count keeps your place all the same."
                .into(),
        );
    }
    if report.repeat_is_odd {
        notes.push("The repeat is odd, so each one begins from the other side than the one before.".into());
    }
    notes.extend(report.scale.map(|scale| scale_words(scale, format)));
    notes
}

fn cloth_view(cloth: &DrawnCloth, sticks: usize, format: &DisplayFormat) -> ClothView {
    let row = |pick: &DrawnPick| ClothRow {
        up: pick.ends_up.iter().map(|up| if *up { '1' } else { '0' }).collect(),
        section: part(pick.section).word().to_owned(),
        words: instruction(&pick.instruction, sticks),
        long: pick
            .long_floats
            .iter()
            .filter_map(|(first, last)| Some([u32::try_from(*first).ok()?, u32::try_from(*last).ok()?]))
            .collect(),
    };
    ClothView {
        ends: cloth.ends,
        rows: cloth.picks.iter().map(row).collect(),
        pick_per_end: cloth.pick_per_end,
        text: cloth_sentence(cloth, format),
    }
}

/// What the floats' lengths rest on: the sett and the picks that were given, or what was assumed instead.
fn scale_words(scale: DrawingScale, format: &DisplayFormat) -> String {
    let per = match format.units {
        Units::Metric => "10\u{a0}cm",
        Units::Imperial => "an inch",
    };
    let shown = |per_10cm: f64| format.number(picks_in_units(per_10cm, format.units), 1);
    let usual = shown(ASSUMED_SETT_PER_10CM);
    match (scale.sett_per_10cm.map(shown), scale.picks_per_10cm.map(shown)) {
        (Some(sett), Some(picks)) => format!("Drawn to scale with {sett} ends and {picks} picks to {per}."),
        (Some(sett), None) => {
            format!("Drawn with {sett} ends to {per}. No picks are written down, so as many picks are assumed.")
        }
        (None, Some(picks)) => format!(
            "Drawn with {picks} picks to {per}. No sett is written down, so {usual} ends are assumed: a common heddle. Floats \
             across the ends are longer or shorter with another."
        ),
        (None, None) => format!(
            "Neither sett nor picks are written down, so {usual} to {per} of both are assumed: a common heddle. Floats are \
             longer or shorter with others."
        ),
    }
}

fn part(section: Section) -> Part {
    match section {
        Section::Opening => Part::Opening,
        Section::Repeat => Part::Repeat,
        Section::Balance => Part::Balance,
        Section::Closing => Part::Closing,
    }
}

fn section_words(section: Section) -> &'static str {
    match section {
        Section::Opening => "the opening border",
        Section::Repeat => "the repeat",
        Section::Balance => "the balance",
        Section::Closing => "the closing border",
    }
}

/// A float's length: shorter than what a tape is read to.
fn show_float(length: Length, format: &DisplayFormat) -> String {
    match format.units {
        Units::Metric => format!("{}\u{a0}mm", format.number(length.mm(), 1)),
        Units::Imperial => format!("{}\u{a0}in", format.number(length.inches(), 2)),
    }
}

/// Names what is too long or never woven in, each kind and length once.
fn float_warnings(cloth: &DrawnCloth, format: &DisplayFormat) -> Vec<String> {
    let mut named: Vec<String> = Vec::new();
    for float in cloth.long_floats() {
        let sentence = match (float.loose, float.kind.is_weft()) {
            (true, true) => pick_words(cloth, float).map(|pick| format!("Pick {pick} is held by no end.")),
            (true, false) => Some("Some ends are never woven in.".to_owned()),
            (false, _) => long_float_sentence(cloth, float, format),
        };
        named.extend(sentence.filter(|sentence| !named.contains(sentence)));
    }
    let more = named.len().saturating_sub(MOST_NAMED);
    named.truncate(MOST_NAMED);
    if more > 0 {
        named.push(format!("And {more} more long floats."));
    }
    named
}

/// "2 of the repeat": the pick of a weft float.
fn pick_words(cloth: &DrawnCloth, float: &Float) -> Option<String> {
    let pick = cloth.picks.get(float.thread)?;
    Some(format!("{} of {}", pick.row + 1, section_words(pick.section)))
}

/// "In pick 2 of the repeat the weft floats over 5 ends, 12.7 mm: long enough to catch."
fn long_float_sentence(cloth: &DrawnCloth, float: &Float, format: &DisplayFormat) -> Option<String> {
    let length = show_float(float.length, format);
    let threads = float.over;
    let over = if matches!(float.kind, FloatKind::WeftOnFace | FloatKind::WarpOnFace) { "over" } else { "under" };
    if float.kind.is_weft() {
        let pick = pick_words(cloth, float)?;
        return Some(format!("In pick {pick} the weft floats {over} {threads} ends, {length}: long enough to catch."));
    }
    Some(format!("Ends float {over} {threads} picks, {length}: long enough to catch."))
}

fn cloth_sentence(cloth: &DrawnCloth, format: &DisplayFormat) -> String {
    let mut parts = vec![format!("{} picks on {} ends", cloth.picks.len(), cloth.ends)];
    match cloth.longest_float(true) {
        Some(float) => parts.push(format!(
            "the longest weft float crosses {} ends, {}",
            float.over,
            show_float(float.length, format)
        )),
        None => parts.push("no weft floats".into()),
    }
    if let Some(float) = cloth.longest_float(false) {
        parts.push(format!(
            "the longest warp float crosses {} picks, {}",
            float.over,
            show_float(float.length, format)
        ));
    }
    format!("The cloth as it would look: {}.", parts.join("; "))
}

fn counts(sequence: &Sequence<Row>) -> String {
    let mut parts = Vec::new();
    let picks = |n: usize| if n == 1 { "1 pick".to_owned() } else { format!("{n} picks") };
    for (rows, what) in [
        (&sequence.opening, "of opening border"),
        (&sequence.repeat, "to a repeat"),
        (&sequence.balance, "of balance"),
        (&sequence.closing, "of closing border"),
    ] {
        if !rows.is_empty() {
            parts.push(format!("{} {what}", picks(rows.len())));
        }
    }
    format!("{}.", parts.join(", "))
}

/// The opening border from its last pick to its first, as rows to type.
fn mirrored(sequence: &Sequence<Row>) -> String {
    sequence.opening.iter().rev().map(row_words).collect::<Vec<_>>().join("\n")
}

/// A row in the shortest words that are read as the same row.
fn row_words(row: &Row) -> String {
    let Row::Heddle(row) = row else {
        let Row::Shed(shed) = row else { return String::new() };
        return shed.0.to_string();
    };
    let plain = HeddleRow { second: Stick::AtBack, ..*row };
    match plain {
        _ if row.second != Stick::AtBack => heddle_instruction(row, 2),
        HeddleRow::UP => "up".into(),
        HeddleRow::DOWN => "down".into(),
        HeddleRow::STICK => "stick".into(),
        HeddleRow::UP_AND_STICK => "up + stick".into(),
        HeddleRow { heddle: Heddle::Up | Heddle::Down | Heddle::AtRest, .. } => heddle_instruction(row, 1),
    }
}

fn examples() -> Vec<PickSequenceExample> {
    let all =
        [("Plain weave", plain()), ("Weft floats", weft_float()), ("Warp floats", warp_float()), ("Lace", lace())];
    let text = |rows: &[HeddleRow]| rows.iter().map(|row| row_words(&Row::Heddle(*row))).collect::<Vec<_>>().join("\n");
    all.into_iter()
        .map(|(name, sequence)| PickSequenceExample {
            name: name.into(),
            opening: text(&sequence.opening),
            repeat: text(&sequence.repeat),
            balance: text(&sequence.balance),
            closing: text(&sequence.closing),
        })
        .collect()
}

/// The form of a warp's own sequence, with the densities it is woven at.
#[must_use]
pub fn filled_form(warp: &Warp, format: &DisplayFormat) -> PickSequenceForm {
    let text = |rows: &[String]| rows.join("\n");
    let rows = &warp.rows;
    let density = |per_10cm: f64| format.form_number(picks_in_units(per_10cm, format.units), 3);
    let ends = |of: usize| warp.stick.and_then(|ends| ends.get(of).map(ToString::to_string)).unwrap_or_default();
    PickSequenceForm {
        opening: text(&rows.opening),
        repeat: text(&rows.repeat),
        balance: text(&rows.balance),
        closing: text(&rows.closing),
        stick_edge_ends: ends(0),
        stick_up_ends: ends(1),
        stick_down_ends: ends(2),
        threading: text(&warp.threading),
        shed_lifts: text(&warp.shed_lifts),
        picks: warp.picks_per_10cm.map(density).unwrap_or_default(),
        sett: warp.sett_per_10cm.map(density).unwrap_or_default(),
    }
}

#[cfg(test)]
mod tests;
