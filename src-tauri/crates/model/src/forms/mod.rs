//! From what the weaver typed to the journal's fields, and back into a form.
//!
//! A form is read as a whole: the first field that cannot be understood is named, with what to type instead, and nothing is
//! written. A change writes only the fields that differ, so that two devices that change different fields do not meet.

mod import;
mod notes;
mod off;
mod off_loom;
mod pick_sequence;
mod place;
mod plan;
mod sitting;
mod warp;

use chrono::NaiveDate;
use fellmark_cloth::fibre::Fibre;
use fellmark_cloth::learned::Finishing;
use fellmark_cloth::take_up::POSSIBLE_WARP_PER_100;
use serde_json::{Map, Value, json};

use fellmark_cloth::quantity::per_10cm_to_per_inch;

use crate::availability;
use crate::display_format::{DisplayFormat, Units};
use crate::fields;
use crate::measures::Reader;
use crate::piece_lengths;
use crate::{ClothState, Language, UserError, WarpLog, messages};

pub use import::ImportForm;
pub use notes::{ReadingForm, YarnForm, YarnLeftForm};
pub use off::OffForm;
pub use off_loom::read_off_form;
pub use pick_sequence::PickSequenceForm;
pub use place::PlaceForm;
pub use plan::PlanForm;
pub use sitting::SittingForm;
pub use warp::WarpForm;

/// Fields of a record as they are written; `null` takes a value away.
pub type FieldMap = Map<String, Value>;

/// A density as it is written in these units.
#[must_use]
pub fn picks_in_units(picks_per_10cm: f64, units: Units) -> f64 {
    match units {
        Units::Metric => picks_per_10cm,
        Units::Imperial => per_10cm_to_per_inch(picks_per_10cm),
    }
}

/// The fields of a warp and of its weft yarn as read from a form.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct WarpFields {
    /// Fields of the warp.
    pub warp: FieldMap,
    /// Fields of the weft yarn; all `null` when none was named.
    pub weft: FieldMap,
}

/// Reads the warp's form.
///
/// # Errors
/// The first field that cannot be understood, with a sentence.
pub fn read_warp_form(form: &WarpForm, format: &DisplayFormat, today: NaiveDate) -> Result<WarpFields, UserError> {
    let read = Reader { format, today };
    let name = form.name.trim();
    if name.is_empty() {
        return Err(UserError::at("name", messages::warp_without_name()));
    }
    let mut warp = FieldMap::new();
    let mut put = |field: &str, value: Value| warp.insert(field.to_owned(), value);
    put(fields::warp::NAME, json!(name));
    put(fields::warp::BEGUN_ON, json!(read.day("begun_on", &form.begun_on)?.unwrap_or(today)));
    let wound = read.length("wound", messages::the_warp_wound(), &form.wound)?;
    let waste = read.length_or_zero("waste", messages::the_loom_waste(), &form.waste)?;
    if let (Some(wound), Some(waste)) = (wound, waste)
        && waste >= wound
    {
        return Err(UserError::at("waste", messages::waste_as_long_as_warp()));
    }
    put(fields::warp::WOUND_MM, json!(wound));
    put(fields::warp::WASTE_MM, json!(waste));
    let pieces = read_pieces(form, &read, &mut put)?;
    let wanted_state = match form.wanted_state.as_str() {
        "" => ClothState::Finished,
        word => ClothState::from_word(word)
            .ok_or_else(|| UserError::at("wanted_state", messages::unknown_wanted_state()))?,
    };
    put(fields::warp::WANTED_STATE, json!(wanted_state.word()));
    put(
        fields::warp::SHRINKAGE_PERCENT,
        json!(read.number_between(
            "shrinkage_percent",
            messages::the_shrinkage(),
            &form.shrinkage_percent,
            -20.0,
            60.0,
            messages::unit_percent()
        )?),
    );
    let fibre = Fibre::named_in(&form.fibre).map(Fibre::word);
    put(fields::warp::FIBRE, json!(fibre));
    let finish = Finishing::from_word(&form.finish);
    put(fields::warp::FINISH, json!((finish == Finishing::Fulled).then(|| finish.word())));
    put(fields::warp::PIECES, json!(pieces));
    put(fields::warp::FRINGE_MM, json!(read.length_or_zero("fringe", messages::the_fringe(), &form.fringe)?));
    put(fields::warp::FRINGE_FROM_WASTE, json!(form.fringe_from_waste));
    let gap = read.length_or_zero("gap", messages::the_gap(), &form.gap)?;
    put(fields::warp::GAP_MM, json!(gap.filter(|mm| *mm > 0.0)));
    put(fields::warp::PICKS_PER_10CM, json!(read.density("picks", &form.picks)?));
    put(fields::warp::SETT_ENDS_PER_10CM, json!(read.density("sett", &form.sett)?));
    put(fields::warp::WARP_PER_100_CLOTH, json!(read_take_up(&read, &form.warp_per_100)?));
    put(fields::warp::REED_WIDTH_MM, json!(read.length("reed_width", messages::the_reed_width(), &form.reed_width)?));
    put(
        fields::warp::WEFT_ALLOWANCE_PERCENT,
        json!(read.number_between(
            "weft_allowance_percent",
            messages::the_weft_allowance(),
            &form.weft_allowance_percent,
            -20.0,
            100.0,
            messages::unit_percent()
        )?),
    );
    put(fields::warp::WEAVE, json!(one_of("weave", &form.weave, &["plain", "pick_up"])?));
    let per_tap = one_of("picks_per_tap", &form.picks_per_tap, &["1", "2"])?;
    // One is what is taken where nothing is said.
    put(fields::warp::PICKS_PER_TAP, json!(per_tap.filter(|word| word == "2").map(|_| 2)));
    for (field, member, text) in [
        (fields::warp::STICK_EDGE_ENDS, "stick_edge_ends", &form.stick_edge_ends),
        (fields::warp::STICK_UP_ENDS, "stick_up_ends", &form.stick_up_ends),
        (fields::warp::STICK_DOWN_ENDS, "stick_down_ends", &form.stick_down_ends),
    ] {
        put(field, json!(read.whole_between(member, messages::the_slot_ends(), text, 0, 500)?));
    }
    for (field, member, text) in [
        (fields::warp::OPENING_ROWS, "opening", &form.opening),
        (fields::warp::REPEAT_ROWS, "repeat", &form.repeat),
        (fields::warp::BALANCE_ROWS, "balance", &form.balance),
        (fields::warp::CLOSING_ROWS, "closing", &form.closing),
    ] {
        put(field, json!(read_rows(member, text, format.language)?));
    }
    let lines = |text: &str| -> Vec<String> {
        text.lines().map(str::trim).filter(|line| !line.is_empty()).map(str::to_owned).collect()
    };
    crate::shafts::threading(&form.threading).map_err(|why| UserError::at("threading", why))?;
    crate::shafts::lifts(&form.shed_lifts).map_err(|why| UserError::at("shed_lifts", why))?;
    put(fields::warp::THREADING, json!(lines(&form.threading)));
    put(fields::warp::SHED_LIFTS, json!(lines(&form.shed_lifts)));
    put(fields::warp::GIFT_ON, json!(read.day("gift_on", &form.gift_on)?));
    put(
        fields::warp::DAYS_A_WEEK,
        json!(read.number_between(
            "days_a_week",
            messages::the_days_a_week(),
            &form.days_a_week,
            0.1,
            7.0,
            messages::unit_days()
        )?),
    );
    put(fields::warp::MINUTES_A_DAY, json!(read.minutes("minutes_a_day", &form.minutes_a_day)?));
    availability::read_form(form, &read, &mut |field, value| {
        put(field, value);
    })?;
    put(fields::warp::FOR_CHILD, json!(form.for_child));
    put(fields::warp::NOTE, json!(some_text(&form.note)));
    let mut weft = FieldMap::new();
    weft.insert(fields::weft::NAME.into(), json!(some_text(&form.weft_name)));
    let mass = read.roughly(&form.weft_mass, |read, text| read.mass("weft_mass", messages::the_weft_mass(), text))?;
    let length =
        read.roughly(&form.weft_length, |read, text| read.length("weft_length", messages::the_weft_length(), text))?;
    weft.extend(start_of_yarn(mass, length));
    Ok(WarpFields { warp, weft })
}

/// The length wanted, one for all pieces or one for each; how many pieces there are.
fn read_pieces(
    form: &WarpForm,
    read: &Reader<'_>,
    put: &mut impl FnMut(&str, Value) -> Option<Value>,
) -> Result<i64, UserError> {
    let lengths = piece_lengths::read(read, "wanted", &messages::the_wanted_length(), &form.wanted)?;
    let typed = read.whole_between("pieces", messages::the_number_of_pieces(), &form.pieces, 1, 200)?;
    let counted = i64::try_from(lengths.len()).unwrap_or(1);
    if let Some(typed) = typed.filter(|typed| counted > 1 && *typed != counted) {
        return Err(UserError::at("pieces", messages::pieces_and_lengths_differ(counted, typed)));
    }
    let mean = (!lengths.is_empty()).then(|| lengths.iter().sum::<f64>() / counted as f64);
    let alike = lengths.windows(2).all(|pair| pair[0] == pair[1]);
    put(fields::warp::WANTED_MM, json!(mean));
    put(fields::warp::WANTED_EACH_MM, if alike { Value::Null } else { json!(lengths) });
    Ok(if counted > 1 { counted } else { typed.unwrap_or(1) })
}

/// The fields of what a yarn weighed and measured at first, each with whether it was given roughly.
pub fn start_of_yarn(mass_g: Option<(f64, bool)>, length_mm: Option<(f64, bool)>) -> FieldMap {
    let mut set = FieldMap::new();
    for (field, about, figure) in [
        (fields::weft::START_MASS_G, fields::weft::START_MASS_ROUGH, mass_g),
        (fields::weft::START_LENGTH_MM, fields::weft::START_LENGTH_ROUGH, length_mm),
    ] {
        set.insert(field.into(), json!(figure.map(|(figure, _)| figure)));
        set.insert(about.into(), json!(figure.is_some_and(|(_, rough)| rough)));
    }
    set
}

fn read_take_up(read: &Reader<'_>, text: &str) -> Result<Option<f64>, UserError> {
    let Some(figure) = read.number("warp_per_100", messages::the_take_up(), text)? else { return Ok(None) };
    if POSSIBLE_WARP_PER_100.contains(&figure) {
        return Ok(Some(figure));
    }
    // A small figure is the share by which the warp is longer, and not the warp itself.
    let message = if (0.0..*POSSIBLE_WARP_PER_100.start()).contains(&figure) {
        messages::take_up_as_share(figure, figure, 100.0 + figure)
    } else {
        messages::impossible_take_up(figure)
    };
    Err(UserError::at("warp_per_100", message))
}

fn read_rows(member: &str, text: &str, language: Language) -> Result<Vec<String>, UserError> {
    let rows = crate::typed_words::rows_in_english(text, language);
    crate::sequence::check_rows(&rows).map_err(|message| UserError::at(member, message))?;
    Ok(rows)
}

fn one_of(member: &str, text: &str, words: &[&str]) -> Result<Option<String>, UserError> {
    match text.trim() {
        "" => Ok(None),
        word if words.contains(&word) => Ok(Some(word.to_owned())),
        other => {
            let choices = words.iter().map(|word| (*word).to_owned()).collect();
            Err(UserError::at(member, messages::not_one_of(other, choices)))
        }
    }
}

/// The text without white space at its ends; nothing where it is empty.
pub fn some_text(text: &str) -> Option<&str> {
    Some(text.trim()).filter(|text| !text.is_empty())
}

/// Reads a sitting's form.
///
/// # Errors
/// The first field that cannot be understood, with a sentence.
pub fn read_sitting_form(form: &SittingForm, format: &DisplayFormat, today: NaiveDate) -> Result<FieldMap, UserError> {
    let read = Reader { format, today };
    let mut fields = FieldMap::new();
    let mut put = |field: &str, value: Value| fields.insert(field.to_owned(), value);
    put(fields::sitting::ON, json!(read.day("on", &form.on)?.unwrap_or(today)));
    put(fields::sitting::STARTED, json!(read.time("started", &form.started)?));
    let minutes = read.roughly(&form.minutes, |read, text| read.minutes("minutes", text))?;
    let picks = read.roughly(&form.picks, |read, text| {
        read.whole_between("picks", messages::the_picks(), text, -100_000, 100_000)
    })?;
    let measured =
        read.roughly(&form.measured, |read, text| read.length("measured", messages::the_measured_length(), text))?;
    let (weft_left, _) = crate::approximate::on_shuttle(&form.weft_left);
    let weft = read.roughly(weft_left, |read, text| read.mass_or_zero("weft_left", messages::the_weft_left(), text))?;
    let roughly = [minutes.map(|it| it.1), picks.map(|it| it.1), measured.map(|it| it.1), weft.map(|it| it.1)];
    let measured = measured.map(|(mm, _)| mm);
    put(fields::sitting::MINUTES, json!(minutes.map(|(minutes, _)| minutes)));
    put(fields::sitting::PICKS, json!(picks.map(|(picks, _)| picks)));
    put(fields::sitting::MEASURED_MM, json!(measured));
    let from = one_of("measured_from", &form.measured_from, &["start", "mark"])?;
    let tension = one_of("measured_tension", &form.measured_tension, &["tight", "relaxed"])?;
    // Where nothing was measured, how it was measured says nothing.
    put(fields::sitting::MEASURED_FROM, json!(measured.and(Some(from.as_deref().unwrap_or("start")))));
    put(fields::sitting::MEASURED_TENSION, json!(measured.and(Some(tension.as_deref().unwrap_or("tight")))));
    put(fields::sitting::MARK_SET, json!(form.mark_set));
    put(fields::sitting::WEFT_LEFT_G, json!(weft.map(|(grams, _)| grams)));
    put(fields::sitting::PICK_BEGUN, json!(form.pick_begun));
    put(fields::sitting::NOTE, json!(some_text(&form.note)));
    // One figure given roughly makes the sitting's figures rough ones.
    put(fields::sitting::ROUGH, json!(form.rough || roughly.into_iter().flatten().any(|rough| rough)));
    Ok(fields)
}

/// Where a new sitting's form leaves it open, its tape starts at the last mark if there is one on its day.
pub fn start_at_last_mark(form: &SittingForm, fields: &mut FieldMap, log: &WarpLog) {
    let on = fields.get(fields::sitting::ON).and_then(Value::as_str).and_then(|day| day.parse().ok());
    let measured = fields.get(fields::sitting::MEASURED_MM).is_some_and(|mm| !mm.is_null());
    if measured && form.measured_from.trim().is_empty() && on.is_some_and(|on| log.has_mark_by(on)) {
        fields.insert(fields::sitting::MEASURED_FROM.into(), json!("mark"));
    }
}

/// The fields of `new` that differ from what the record holds; a field that was never written and stays empty is left out.
///
/// A form shows rounded figures: one that comes back as it was shown is no change. Any other figure is one, however near.
#[must_use]
pub fn changed(new: &FieldMap, format: &DisplayFormat, held: impl Fn(&str) -> Option<Value>) -> FieldMap {
    // The mean of pieces of different lengths follows from them: where those are the same, it is no change of its own.
    let each = fields::warp::WANTED_EACH_MM;
    let pieces_are_the_same = new
        .get(each)
        .filter(|value| !is_nothing(value))
        .is_some_and(|value| held(each).is_some_and(|old| same(each, &old, value, format)));
    new.iter()
        .filter(|(field, value)| match held(field) {
            Some(_) if pieces_are_the_same && *field == fields::warp::WANTED_MM => false,
            Some(old) => !same(field, &old, value, format),
            None => !is_nothing(value),
        })
        .map(|(field, value)| (field.clone(), value.clone()))
        .collect()
}

/// The fields of a new record that say something.
#[must_use]
pub fn filled(new: &FieldMap) -> FieldMap {
    new.iter().filter(|(_, value)| !is_nothing(value)).map(|(field, value)| (field.clone(), value.clone())).collect()
}

fn is_nothing(value: &Value) -> bool {
    value.is_null() || value == &Value::Bool(false) || value.as_array().is_some_and(Vec::is_empty)
}

/// Equal, or what reading the old figure gives as a form shows it.
fn same(field: &str, old: &Value, new: &Value, format: &DisplayFormat) -> bool {
    if let (Some(old), Some(new)) = (old.as_array(), new.as_array()) {
        return old.len() == new.len() && old.iter().zip(new).all(|(old, new)| same(field, old, new, format));
    }
    let (Some(old_number), Some(new_number)) = (old.as_f64(), new.as_f64()) else { return old == new };
    let is_near = |one: f64| (one - new_number).abs() <= 1e-9 * one.abs().max(1.0);
    is_near(old_number) || read_as_shown(field, old_number, format).into_iter().any(is_near)
}

/// What reading gives of a figure as a form may show it.
fn read_as_shown(field: &str, old: f64, format: &DisplayFormat) -> Vec<f64> {
    let read = Reader { format, today: NaiveDate::MIN };
    let mark = format.mark();
    let rounded = |value: f64, places: usize| format!("{value:.places$}").parse::<f64>().ok();
    if field.ends_with("_mm") {
        let texts =
            [read.show_length_for_form(old), read.show_yarn_length_for_form(old), piece_lengths::show(&[old], format)];
        let lengths = texts.iter().map(|text| fellmark_cloth::read::length(text, format.length_unit(), mark));
        lengths.flatten().map(|length| length.mm()).collect()
    } else if field.ends_with("_g") {
        let mass = fellmark_cloth::read::mass(&read.show_mass_for_form(old), format.mass_unit(), mark);
        mass.into_iter().map(|mass| mass.g()).collect()
    } else if field.ends_with("_per_10cm") {
        let scale = picks_in_units(1.0, format.units);
        rounded(old * scale, 3).map(|shown| shown / scale).into_iter().collect()
    } else if field == fields::sitting::MINUTES || field == fields::warp::DAYS_A_WEEK {
        rounded(old, 1).into_iter().collect()
    } else {
        rounded(old, 2).into_iter().collect()
    }
}
