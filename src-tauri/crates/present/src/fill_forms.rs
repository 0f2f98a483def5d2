//! Forms filled from what is known, to be changed.

use chrono::NaiveDate;
use fellmark_projection::DayRange;

use crate::figures::about_words;
use fellmark_model::availability::WEEK;
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::forms::{OffForm, SittingForm, WarpForm, YarnForm, picks_in_units};
use fellmark_model::measures::Reader;
use fellmark_model::piece_lengths;
use fellmark_model::typed_words::short_weekday;
use fellmark_model::{Rows, Sitting, Warp, WarpState, Weft};

/// A value as it is shown; empty where there is none.
pub(crate) fn optional<T>(value: Option<T>, show: impl Fn(T) -> String) -> String {
    value.map(show).unwrap_or_default()
}

/// The warp's form, filled from what is known.
#[must_use]
pub fn show_warp_form(warp: &Warp, weft: Option<&Weft>, format: &DisplayFormat) -> WarpForm {
    let read = Reader { format, today: NaiveDate::MIN };
    let percent = |value: Option<f64>| optional(value, |percent| format.form_number(percent, 2));
    let length = |value: Option<f64>| optional(value, |mm| read.show_length_for_form(mm));
    let rows = |rows: &[String]| rows.join("\n");
    let Rows { opening, repeat, balance, closing } = &warp.rows;
    let mut form = WarpForm {
        name: warp.name.clone(),
        begun_on: optional(warp.begun_on, |day| day.to_string()),
        wound: length(warp.wound_mm),
        waste: length(warp.waste_mm),
        wanted: if warp.wanted_each_mm.is_empty() {
            length(warp.wanted_mm)
        } else {
            piece_lengths::show(&warp.wanted_each_mm, format)
        },
        wanted_state: warp.wanted_state.word().into(),
        shrinkage_percent: percent(warp.shrinkage_percent),
        fibre: warp.fibre.map(|fibre| fibre.word().to_owned()).unwrap_or_default(),
        finish: if warp.fibre.is_some() { warp.finish.word().into() } else { String::new() },
        // Where each has its length they are counted from these.
        pieces: if warp.wanted_each_mm.is_empty() { warp.pieces.to_string() } else { String::new() },
        fringe: length(Some(warp.fringe_mm).filter(|mm| *mm > 0.0)),
        fringe_from_waste: warp.fringe_from_waste,
        gap: length(Some(warp.gap_mm).filter(|mm| *mm > 0.0)),
        picks: optional(warp.picks_per_10cm, |picks| format.form_number(picks_in_units(picks, format.units), 3)),
        sett: optional(warp.sett_per_10cm, |sett| format.form_number(picks_in_units(sett, format.units), 3)),
        warp_per_100: percent(warp.warp_per_100),
        reed_width: length(warp.reed_width_mm),
        weft_allowance_percent: percent(warp.weft_allowance_percent),
        weft_name: weft.and_then(|weft| weft.name.clone()).unwrap_or_default(),
        weft_mass: weft.map(|weft| show_yarn_form(weft, format).mass).unwrap_or_default(),
        weft_length: weft.map(|weft| show_yarn_form(weft, format).length).unwrap_or_default(),
        weave: warp.weave.clone().unwrap_or_default(),
        picks_per_tap: warp.picks_per_tap.to_string(),
        stick_edge_ends: optional(warp.stick, |[edge, ..]| edge.to_string()),
        stick_up_ends: optional(warp.stick, |[_, up, _]| up.to_string()),
        stick_down_ends: optional(warp.stick, |[_, _, down]| down.to_string()),
        opening: rows(opening),
        repeat: rows(repeat),
        balance: rows(balance),
        closing: rows(closing),
        threading: rows(&warp.threading),
        shed_lifts: rows(&warp.shed_lifts),
        gift_on: optional(warp.gift_on, |day| day.to_string()),
        days_a_week: optional(warp.days_a_week, |days| format.form_number(days, 1)),
        minutes_a_day: optional(warp.minutes_a_day, |minutes| format.form_number(minutes, 0)),
        for_child: warp.for_child,
        note: warp.note.clone().unwrap_or_default(),
        ..WarpForm::default()
    };
    show_availability(warp, &mut form, format);
    form
}

/// A sitting's form, filled from what is known.
#[must_use]
pub fn show_sitting_form(sitting: &Sitting, format: &DisplayFormat) -> SittingForm {
    let read = Reader { format, today: NaiveDate::MIN };
    SittingForm {
        on: sitting.on.to_string(),
        started: sitting.started.as_deref().map(|time| format.time(time)).unwrap_or_default(),
        minutes: optional(sitting.minutes, |minutes| format.form_number(minutes, 1)),
        picks: optional(sitting.picks, |picks| picks.to_string()),
        measured: optional(sitting.tape, |tape| read.show_length_for_form(tape.mm)),
        measured_from: optional(sitting.tape, |tape| if tape.from_mark { "mark" } else { "start" }.into()),
        measured_tension: optional(sitting.tape, |tape| if tape.relaxed { "relaxed" } else { "tight" }.into()),
        mark_set: sitting.mark_set,
        weft_left: optional(sitting.weft_left_g, |mass| read.show_mass_for_form(mass)),
        weft_on_shuttle: false,
        pick_begun: sitting.pick_begun,
        note: sitting.note.clone().unwrap_or_default(),
        rough: sitting.rough,
    }
}

/// The form of a yarn, filled from what is known.
#[must_use]
pub fn show_yarn_form(weft: &Weft, format: &DisplayFormat) -> YarnForm {
    let read = Reader { format, today: NaiveDate::MIN };
    let (about_mass, about_length) = (about_words(weft.start_mass_rough), about_words(weft.start_length_rough));
    YarnForm {
        name: weft.name.clone().unwrap_or_default(),
        mass: optional(weft.start_mass_g, |mass| about_mass.to_owned() + &read.show_mass_for_form(mass)),
        length: optional(weft.start_length_mm, |mm| about_length.to_owned() + &read.show_yarn_length_for_form(mm)),
        tare: optional(weft.tare_g, |mass| read.show_mass_for_form(mass)),
    }
}

/// Fills what was said about the days of weaving into the warp's form.
fn show_availability(warp: &Warp, form: &mut WarpForm, format: &DisplayFormat) {
    let said = &warp.said;
    if let Some(days) = said.weekdays {
        let names = WEEK.iter().zip(days).filter(|(_, on)| *on).map(|(day, _)| short_weekday(*day, format.language));
        form.weaving_days = names.collect::<Vec<_>>().join(", ");
    }
    let text = |range: Option<DayRange>| {
        range.map(|range| (range.from.to_string(), range.until.to_string())).unwrap_or_default()
    };
    (form.away_from, form.away_until) = text(said.away);
    (form.every_day_from, form.every_day_until) = text(said.every_day);
}

/// The form of what came off the loom, filled from what is known.
#[must_use]
pub fn show_off_form(warp: &Warp, format: &DisplayFormat) -> OffForm {
    let read = Reader { format, today: NaiveDate::MIN };
    let length = |value: Option<f64>| optional(value, |mm| read.show_length_for_form(mm));
    let mass = |value: Option<f64>| optional(value, |grams| read.show_mass_for_form(grams));
    let off = &warp.off;
    OffForm {
        on: if warp.state == WarpState::OffTheLoom {
            optional(warp.state_on, |day| day.to_string())
        } else {
            "".into()
        },
        front: length(off.front_mm),
        thrums: length(off.thrums_mm),
        off_loom: length(off.off_loom_mm),
        fell_width: length(off.fell_width_mm),
        off_loom_width: length(off.off_loom_width_mm),
        weft_over: mass(off.weft_over_g),
        finished: length(off.finished_mm),
        finished_width: length(off.finished_width_mm),
        finished_mass: mass(off.finished_mass_g),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use fellmark_model::fields::off;
    use fellmark_model::forms::read_off_form as read_form;
    use fellmark_model::off_loom::OffMeasures;
    use serde_json::json;

    fn warp() -> Warp {
        fellmark_model::tests::log().warp
    }

    #[test]
    fn a_form_comes_back_as_it_was_kept() {
        let format = DisplayFormat::default();
        let form = OffForm {
            front: "18 cm".into(),
            thrums: "30 cm".into(),
            off_loom: "162 cm".into(),
            weft_over: "12 g".into(),
            finished: "151 cm".into(),
            finished_width: "20 cm".into(),
            finished_mass: "140 g".into(),
            ..OffForm::default()
        };
        let fields = read_form(&form, warp().wound_mm, &format, NaiveDate::MIN).unwrap();
        assert_eq!(fields[off::OFF_LOOM_MM], json!(1620.0));
        assert_eq!(fields[off::FELL_WIDTH_MM], json!(null));
        let off = OffMeasures {
            front_mm: Some(180.0),
            thrums_mm: Some(300.0),
            off_loom_mm: Some(1620.0),
            weft_over_g: Some(12.0),
            finished_mm: Some(1510.0),
            finished_width_mm: Some(200.0),
            finished_mass_g: Some(140.0),
            ..OffMeasures::default()
        };
        assert_eq!(show_off_form(&Warp { off, ..warp() }, &format), form);
    }
}
