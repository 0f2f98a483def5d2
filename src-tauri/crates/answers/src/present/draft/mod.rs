//! A pick sequence while it is written: what is wrong beside each field, and the cloth it makes with its floats true.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;
use fellmark_cloth::Refused;
use fellmark_cloth::quantity::Length;
use fellmark_cloth::sequence::{
    Draft, Drawdown, Float, FloatKind, Heddle, HeddleRow, LONG_FLOAT_MM, NumberedSheds, PickUpAcross, RigidWarp,
    Section, Sequence, Shed, Stick, lace, plain, same_sheds, warp_float, weft_float,
};
use fellmark_cloth::state::{EndsIn, PicksIn, UnderTension};

use crate::model::Warp;
use crate::model::display_format::{DisplayFormat, Units};
use crate::model::forms::picks_in_units;
use crate::model::measures::Reader;
use crate::model::moments::Part;
use crate::model::sequence::{Row, instruction, read, sticks};
use crate::present::view::{ClothRow, ClothView, DraftExample, DraftForm, DraftView, UserError};

/// Repeats that are drawn, so that the join from one to the next is seen.
const REPEATS: u64 = 2;
/// Picks that are drawn at least: a short repeat is drawn more often, so that the cloth is seen and not a strip of it.
const LEAST_PICKS: u64 = 16;
/// Picks beyond which a sequence is not drawn whole: it would be finer than the eye.
const MOST_PICKS: u64 = 160;
/// Slot ends drawn, about.
const SLOTS: usize = 13;
/// Ends to the inch where no sett is given: a common heddle.
const USUAL_SETT_PER_INCH: f64 = 10.0;
/// Long floats named one by one; the rest are counted.
const MOST_NAMED: usize = 4;

/// Reads and draws a sequence.
#[must_use]
pub fn draw(form: &DraftForm, format: &DisplayFormat) -> DraftView {
    let mut view = DraftView {
        troubles: Vec::new(),
        counts: String::new(),
        cloth: None,
        warnings: Vec::new(),
        notes: Vec::new(),
        mirrored: String::new(),
        examples: examples(),
    };
    let lines = |text: &str| -> Vec<String> {
        text.lines().map(str::trim).filter(|row| !row.is_empty()).map(str::to_owned).collect()
    };
    use crate::present::messages::text as text_of;
    let mut section = |field: &str, text: &str| match read(&lines(text)) {
        Ok(rows) => rows,
        Err(message) => {
            view.troubles.push(UserError::at(field, text_of(&message, format)));
            Vec::new()
        }
    };
    let sequence = Sequence {
        opening: section("opening", &form.opening),
        repeat: section("repeat", &form.repeat),
        balance: section("balance", &form.balance),
        closing: section("closing", &form.closing),
    };
    view.mirrored = mirrored(&sequence);
    let read = Reader { format, today: NaiveDate::MIN };
    let stick = match pick_up(form, read) {
        Ok(stick) => stick,
        Err(trouble) => {
            view.troubles.push(trouble);
            None
        }
    };
    let threading = crate::model::shafts::threading(&form.threading);
    let lifts = crate::model::shafts::lifts(&form.shed_lifts);
    view.troubles.extend(threading.as_ref().err().map(|why| UserError::at("threading", text_of(why, format))));
    view.troubles.extend(lifts.as_ref().err().map(|why| UserError::at("shed_lifts", text_of(why, format))));
    if !view.troubles.is_empty() || sequence.check().is_err() {
        return view;
    }
    view.counts = counts(&sequence);
    // Nonsense in these two is told beside their own fields; the cloth is drawn without them meanwhile.
    let sett = read.density("sett", &form.sett).ok().flatten();
    let picks = read.density("picks", &form.picks).ok().flatten();
    let drawn = match halves(&sequence) {
        Halves::Heddle(rows) => on_heddle(&rows, &sequence, stick, (sett, picks), format, &mut view),
        Halves::Sheds(rows) => {
            let shafts = (threading.unwrap_or_default(), lifts.unwrap_or_default());
            on_sheds(&rows, &sequence, shafts, (sett, picks), format, &mut view)
        }
        Halves::Mixed => {
            view.warnings
                .push("Some rows are words and some are numbers of sheds; a loom has one or the other.".into());
            Ok(())
        }
    };
    if let Err(error) = drawn {
        view.warnings.push(crate::present::trouble::sentence(&error.to_string()));
    }
    view
}

/// The pick-up across the width; where nothing is said one up, one down.
fn pick_up(form: &DraftForm, read: Reader<'_>) -> Result<Option<PickUpAcross>, UserError> {
    let ends = |field: &str, text: &str, least: i64, usual: usize| {
        let given = read
            .whole_between(field, crate::model::messages::the_slot_ends(), text, least, 500)
            .map_err(|error| crate::present::messages::error_view(error, read.format))?;
        Ok::<_, UserError>(given.and_then(|n| usize::try_from(n).ok()).unwrap_or(usual))
    };
    let up = ends("stick_up_ends", &form.stick_up_ends, 1, 1)?;
    let down = ends("stick_down_ends", &form.stick_down_ends, 1, 1)?;
    let edge_down = ends("stick_edge_ends", &form.stick_edge_ends, 0, 1)?;
    let groups = (SLOTS.saturating_sub(2 * edge_down) + down) / (up + down);
    Ok(Some(PickUpAcross { edge_down, up, down, groups: groups.clamp(2, 7) }))
}

enum Halves {
    Heddle(Sequence<HeddleRow>),
    Sheds(Sequence<Shed>),
    Mixed,
}

fn halves(sequence: &Sequence<Row>) -> Halves {
    let heddle = |rows: &[Row]| -> Option<Vec<HeddleRow>> {
        rows.iter().map(|row| if let Row::Heddle(row) = row { Some(*row) } else { None }).collect()
    };
    let sheds = |rows: &[Row]| -> Option<Vec<Shed>> {
        rows.iter().map(|row| if let Row::Shed(shed) = row { Some(*shed) } else { None }).collect()
    };
    let Sequence { opening, repeat, balance, closing } = sequence;
    if let (Some(opening), Some(repeat), Some(balance), Some(closing)) =
        (heddle(opening), heddle(repeat), heddle(balance), heddle(closing))
    {
        return Halves::Heddle(Sequence { opening, repeat, balance, closing });
    }
    match (sheds(opening), sheds(repeat), sheds(balance), sheds(closing)) {
        (Some(opening), Some(repeat), Some(balance), Some(closing)) => {
            Halves::Sheds(Sequence { opening, repeat, balance, closing })
        }
        _ => Halves::Mixed,
    }
}

fn on_heddle(
    rows: &Sequence<HeddleRow>,
    sequence: &Sequence<Row>,
    stick: Option<PickUpAcross>,
    densities: (Option<f64>, Option<f64>),
    format: &DisplayFormat,
    view: &mut DraftView,
) -> Result<(), Refused> {
    let pick_up = stick.unwrap_or(PickUpAcross { edge_down: 1, up: 1, down: 1, groups: 6 });
    let mut warp = RigidWarp::for_pick_up(&pick_up);
    if rows.sticks() == 2 {
        // Nothing says what lies on a second stick; it is drawn with what the first leaves down between the edges.
        let slots = warp.stick.len();
        let inside = |slot: usize| slot >= pick_up.edge_down && slot < slots.saturating_sub(pick_up.edge_down);
        warp.second = warp.stick.iter().enumerate().map(|(slot, up)| inside(slot) && !up).collect();
        view.notes.push("The second stick is drawn with the ends that the first one leaves down.".into());
    }
    drawn(rows, sequence, &warp, densities, format, view)
}

fn on_sheds(
    rows: &Sequence<Shed>,
    sequence: &Sequence<Row>,
    (threading, lifts): (Vec<u16>, BTreeMap<Shed, BTreeSet<u16>>),
    densities: (Option<f64>, Option<f64>),
    format: &DisplayFormat,
    view: &mut DraftView,
) -> Result<(), Refused> {
    if !lifts.is_empty() {
        let (warp, note) = crate::model::shafts::warp(&threading, lifts, 2 * SLOTS - 1);
        view.notes.extend(note);
        return drawn(rows, sequence, &warp, densities, format, view);
    }
    let all = [&rows.opening, &rows.repeat, &rows.balance, &rows.closing];
    if all.iter().any(|rows| rows.iter().any(|shed| shed.0 > 2)) {
        // Without a threading and lifts, two picks in one shed are all that numbers tell.
        let mut order = sequence.written_out(REPEATS)?;
        order.dedup();
        if order.len() < sequence.written_out(REPEATS)?.len() {
            view.warnings.push("Two picks follow each other in one shed; the second would pull the first out.".into());
        }
        view.notes.push(
            "What each shed lifts is not written down yet, so the cloth cannot be drawn; write it below the rows, one shed to \
             a line. The count keeps your place all the same."
                .into(),
        );
        return Ok(());
    }
    drawn(rows, sequence, &NumberedSheds::plain(2 * SLOTS - 1), densities, format, view)
}

fn drawn<R: Clone>(
    rows: &Sequence<R>,
    sequence: &Sequence<Row>,
    warp: &impl Draft<R>,
    (sett, picks): (Option<f64>, Option<f64>),
    format: &DisplayFormat,
    view: &mut DraftView,
) -> Result<(), Refused> {
    let enough = |repeats: &u64| rows.picks(*repeats) >= LEAST_PICKS || rows.repeat.is_empty();
    let wide = (REPEATS..=LEAST_PICKS).find(enough).unwrap_or(REPEATS);
    let repeats = if rows.picks(REPEATS) > MOST_PICKS { 1 } else { wide };
    let order = rows.written_out(repeats)?;
    let shown: Vec<&Row> =
        (0..rows.picks(repeats)).filter_map(|pick| Some(sequence.row(pick, Some(repeats))?.3)).collect();
    let where_is = |pick: usize| sequence.row(pick as u64, Some(repeats)).map(|(section, _, row, _)| (section, row));
    for same in same_sheds(rows, warp)? {
        let at = sequence.row(same.pick as u64, Some(2)).map(|(section, _, row, _)| (section, row));
        let joint = if same.at_a_join { ", where two sections or repeats meet," } else { "" };
        if let Some((section, row)) = at {
            let sentence = format!(
                "Pick {} of {}{joint} lies in the same shed as the pick before it, which would be pulled out.",
                row + 1,
                section_words(section)
            );
            if !view.warnings.contains(&sentence) {
                view.warnings.push(sentence);
            }
        }
    }
    if !sequence.repeat.is_empty() && !sequence.returns_the_shuttle() {
        view.notes.push("The repeat is odd, so each one begins from the other side than the one before.".into());
    }
    let drawing = Drawdown::once(warp, &order)?;
    view.notes.push(scale_words(sett, picks, format));
    let usual = USUAL_SETT_PER_INCH / 25.4 * 100.0;
    let sett = EndsIn::<UnderTension>::from_per_10cm(sett.unwrap_or(usual))?;
    let rate = PicksIn::<UnderTension>::from_per_10cm(picks.unwrap_or(sett.density().per_10cm()))?;
    let floats = drawing.floats(sett, rate)?;
    name_floats(&floats, &where_is, format, view)?;
    let limit = Length::from_mm(LONG_FLOAT_MM)?;
    let sticks = sticks(sequence);
    let lines = drawing.rows().iter().zip(&shown).enumerate().map(|(pick, (up, row))| ClothRow {
        up: up.iter().map(|up| if *up { '1' } else { '0' }).collect(),
        section: where_is(pick).map(|(section, _)| part(section).word().to_owned()).unwrap_or_default(),
        words: instruction(row, sticks),
        long: floats
            .iter()
            .filter(|float| float.kind == FloatKind::WeftOnFace && float.thread == pick && float.is_longer_than(limit))
            .filter_map(|float| {
                Some([u32::try_from(float.from).ok()?, u32::try_from(float.from + float.over - 1).ok()?])
            })
            .collect(),
    });
    view.cloth = Some(ClothView {
        ends: drawing.ends(),
        rows: lines.collect(),
        pick_per_end: sett.density().per_cm() / rate.density().per_cm(),
        text: text_of(&floats, &drawing, format),
    });
    Ok(())
}

/// What the floats' lengths rest on: the sett and the picks that were given, or what was assumed instead.
fn scale_words(sett: Option<f64>, picks: Option<f64>, format: &DisplayFormat) -> String {
    let per = match format.units {
        Units::Metric => "10\u{a0}cm",
        Units::Imperial => "an inch",
    };
    let shown = |per_10cm: f64| format.number(picks_in_units(per_10cm, format.units), 1);
    let usual = shown(USUAL_SETT_PER_INCH / 25.4 * 100.0);
    match (sett.map(shown), picks.map(shown)) {
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
fn name_floats(
    floats: &[Float],
    where_is: &impl Fn(usize) -> Option<(Section, usize)>,
    format: &DisplayFormat,
    view: &mut DraftView,
) -> Result<(), Refused> {
    let limit = Length::from_mm(LONG_FLOAT_MM)?;
    let mut named: Vec<String> = Vec::new();
    for float in floats.iter().filter(|float| float.is_longer_than(limit)) {
        let sentence = if float.loose {
            match float.kind.is_weft() {
                true => where_is(float.thread)
                    .map(|(section, row)| format!("Pick {} of {} is held by no end.", row + 1, section_words(section))),
                false => Some("Some ends are never woven in.".to_owned()),
            }
        } else {
            float_words(float, where_is, format)
        };
        named.extend(sentence.filter(|sentence| !named.contains(sentence)));
    }
    let more = named.len().saturating_sub(MOST_NAMED);
    view.warnings.extend(named.into_iter().take(MOST_NAMED));
    if more > 0 {
        view.warnings.push(format!("And {more} more long floats."));
    }
    Ok(())
}

/// "In pick 2 of the repeat the weft floats over 5 ends, 12.7 mm: long enough to catch."
fn float_words(
    float: &Float,
    where_is: &impl Fn(usize) -> Option<(Section, usize)>,
    format: &DisplayFormat,
) -> Option<String> {
    let long = show_float(float.length, format);
    let (n, over) = (
        float.over,
        if matches!(float.kind, FloatKind::WeftOnFace | FloatKind::WarpOnFace) { "over" } else { "under" },
    );
    if float.kind.is_weft() {
        let (section, row) = where_is(float.thread)?;
        let pick = format!("pick {} of {}", row + 1, section_words(section));
        return Some(format!("In {pick} the weft floats {over} {n} ends, {long}: long enough to catch."));
    }
    Some(format!("Ends float {over} {n} picks, {long}: long enough to catch."))
}

fn text_of(floats: &[Float], drawing: &Drawdown, format: &DisplayFormat) -> String {
    let (ends, picks) = (drawing.ends(), drawing.picks());
    let longest = |weft: bool| {
        let of_kind = floats.iter().filter(|float| float.kind.is_weft() == weft && !float.loose);
        of_kind.max_by_key(|float| float.over)
    };
    let mut parts = vec![format!("{picks} picks on {ends} ends")];
    match longest(true) {
        Some(float) => parts.push(format!(
            "the longest weft float crosses {} ends, {}",
            float.over,
            show_float(float.length, format)
        )),
        None => parts.push("no weft floats".into()),
    }
    if let Some(float) = longest(false) {
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

/// The opening border from its last pick to its first, as rows to write.
fn mirrored(sequence: &Sequence<Row>) -> String {
    sequence.opening.iter().rev().map(word_of).collect::<Vec<_>>().join("\n")
}

/// A row in the shortest words that read back as the same row.
fn word_of(row: &Row) -> String {
    let Row::Heddle(row) = row else {
        let Row::Shed(shed) = row else { return String::new() };
        return shed.0.to_string();
    };
    let plain = HeddleRow { second: Stick::AtBack, ..*row };
    match plain {
        _ if row.second != Stick::AtBack => row.instruction(2),
        HeddleRow::UP => "up".into(),
        HeddleRow::DOWN => "down".into(),
        HeddleRow::STICK => "stick".into(),
        HeddleRow::UP_AND_STICK => "up + stick".into(),
        HeddleRow { heddle: Heddle::Up | Heddle::Down | Heddle::AtRest, .. } => row.instruction(1),
    }
}

fn examples() -> Vec<DraftExample> {
    let all =
        [("Plain weave", plain()), ("Weft floats", weft_float()), ("Warp floats", warp_float()), ("Lace", lace())];
    let text = |rows: &[HeddleRow]| rows.iter().map(|row| word_of(&Row::Heddle(*row))).collect::<Vec<_>>().join("\n");
    all.into_iter()
        .map(|(name, sequence)| DraftExample {
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
pub fn form_of(warp: &Warp, format: &DisplayFormat) -> DraftForm {
    let text = |rows: &[String]| rows.join("\n");
    let rows = &warp.rows;
    let density = |per_10cm: f64| format.form_number(picks_in_units(per_10cm, format.units), 3);
    let ends = |of: usize| warp.stick.and_then(|ends| ends.get(of).map(ToString::to_string)).unwrap_or_default();
    DraftForm {
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
