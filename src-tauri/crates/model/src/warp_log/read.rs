//! Reading one record.

use chrono::NaiveDate;
use fellmark_cloth::fibre::Fibre;
use fellmark_cloth::learned::Finishing;
use fellmark_journal::{Presence, Record};
use serde_json::Value;

use super::{ClothState, Photo, Rows, Sitting, Tape, Warp, Weft};
use crate::WarpState;
use crate::availability::StatedAvailability;
use crate::display_text::display_text;
use crate::fields;
use crate::off_loom;

/// Typed look-ups in a record.
pub struct TypedFields<'a>(pub &'a Record);

impl TypedFields<'_> {
    fn value(&self, field: &str) -> Option<&Value> {
        self.0.get(field).filter(|value| !value.is_null())
    }

    /// Text that is not empty, fit to be shown.
    #[must_use]
    pub fn text(&self, field: &str) -> Option<String> {
        self.value(field)?.as_str().filter(|text| !text.is_empty()).map(display_text)
    }

    /// A finite number.
    #[must_use]
    pub fn number(&self, field: &str) -> Option<f64> {
        self.value(field)?.as_f64().filter(|number| number.is_finite())
    }

    /// A whole number that a float could name, too: further out nothing is counted.
    #[must_use]
    pub fn whole(&self, field: &str) -> Option<i64> {
        /// 2^53, rounded down.
        const MOST: i64 = 9_000_000_000_000_000;
        let value = self.value(field)?;
        let number = value.as_i64().or_else(|| Some(value.as_f64()?.round() as i64))?;
        (-MOST..=MOST).contains(&number).then_some(number)
    }

    /// A day.
    #[must_use]
    pub fn day(&self, field: &str) -> Option<NaiveDate> {
        self.value(field)?.as_str()?.parse().ok()
    }

    /// A yes.
    #[must_use]
    pub fn flag(&self, field: &str) -> bool {
        self.value(field).and_then(Value::as_bool).unwrap_or(false)
    }

    /// A list of finite numbers; none where one of them is none.
    #[must_use]
    pub fn numbers(&self, field: &str) -> Vec<f64> {
        let list = self.value(field).and_then(Value::as_array);
        let number = |value: &Value| value.as_f64().filter(|number| number.is_finite());
        list.and_then(|items| items.iter().map(number).collect()).unwrap_or_default()
    }

    /// A list of texts.
    #[must_use]
    pub fn texts(&self, field: &str) -> Vec<String> {
        let list = self.value(field).and_then(Value::as_array);
        list.map(|items| items.iter().filter_map(|item| item.as_str().map(display_text)).collect()).unwrap_or_default()
    }
}

fn positive(number: f64) -> Option<f64> {
    (number > 0.0).then_some(number)
}

pub(super) fn read_warp(record: &Record) -> Warp {
    let get = TypedFields(record);
    let state = match get.text(fields::warp::STATE).as_deref() {
        _ if record.presence == Presence::Gone => WarpState::Removed,
        Some("resting") => WarpState::Resting,
        Some("off_the_loom") => WarpState::OffTheLoom,
        _ => WarpState::OnTheLoom,
    };
    let wanted_mm = get.number(fields::warp::WANTED_MM).and_then(positive);
    let pieces = get.whole(fields::warp::PIECES).and_then(|n| u32::try_from(n).ok()).unwrap_or(1).clamp(1, 200);
    Warp {
        id: record.id.clone(),
        seen: record.heads.clone(),
        name: get.text(fields::warp::NAME).unwrap_or_else(|| "a warp without a name".into()),
        begun_on: get.day(fields::warp::BEGUN_ON),
        state,
        state_on: get.day(fields::warp::STATE_ON),
        wound_mm: get.number(fields::warp::WOUND_MM).and_then(positive),
        waste_mm: get.number(fields::warp::WASTE_MM).filter(|mm| *mm >= 0.0),
        wanted_mm,
        wanted_each_mm: read_each(&get, wanted_mm, pieces),
        wanted_state: get
            .text(fields::warp::WANTED_STATE)
            .and_then(|word| ClothState::from_word(&word))
            .unwrap_or_default(),
        fibre: get.text(fields::warp::FIBRE).and_then(|word| Fibre::named_in(&word)),
        finish: Finishing::from_word(&get.text(fields::warp::FINISH).unwrap_or_default()),
        shrinkage_percent: get.number(fields::warp::SHRINKAGE_PERCENT).filter(|percent| *percent < 100.0),
        pieces,
        fringe_mm: get.number(fields::warp::FRINGE_MM).and_then(positive).unwrap_or(0.0),
        fringe_from_waste: get.flag(fields::warp::FRINGE_FROM_WASTE),
        gap_mm: get.number(fields::warp::GAP_MM).and_then(positive).unwrap_or(0.0),
        picks_per_10cm: get.number(fields::warp::PICKS_PER_10CM).and_then(positive),
        sett_per_10cm: get.number(fields::warp::SETT_ENDS_PER_10CM).and_then(positive),
        warp_per_100: get.number(fields::warp::WARP_PER_100_CLOTH).and_then(positive),
        reed_width_mm: get.number(fields::warp::REED_WIDTH_MM).and_then(positive),
        weft_allowance_percent: get.number(fields::warp::WEFT_ALLOWANCE_PERCENT),
        weave: get.text(fields::warp::WEAVE),
        rows: Rows {
            opening: get.texts(fields::warp::OPENING_ROWS),
            repeat: get.texts(fields::warp::REPEAT_ROWS),
            balance: get.texts(fields::warp::BALANCE_ROWS),
            closing: get.texts(fields::warp::CLOSING_ROWS),
        },
        threading: get.texts(fields::warp::THREADING),
        shed_lifts: get.texts(fields::warp::SHED_LIFTS),
        picks_per_tap: get.whole(fields::warp::PICKS_PER_TAP).unwrap_or(1).clamp(1, 2),
        stick: read_stick(&get),
        gift_on: get.day(fields::warp::GIFT_ON),
        days_a_week: get.number(fields::warp::DAYS_A_WEEK).filter(|days| *days > 0.0 && *days <= 7.0),
        minutes_a_day: get.number(fields::warp::MINUTES_A_DAY).filter(|minutes| *minutes > 0.0 && *minutes <= 1440.0),
        said: StatedAvailability::of(&get),
        for_child: get.flag(fields::warp::FOR_CHILD),
        note: get.text(fields::warp::NOTE),
        off: off_loom::read(&get),
        planned_hours: None,
        planned_edge: None,
        learned_release: None,
    }
}

/// The lengths of pieces that are not alike. They count only while they agree with number and mean: a version that does not know
/// them changes those two alone, and is believed.
fn read_each(get: &TypedFields<'_>, mean_mm: Option<f64>, pieces: u32) -> Vec<f64> {
    let each = get.numbers(fields::warp::WANTED_EACH_MM);
    let Some(mean_mm) = mean_mm.filter(|_| each.len() > 1 && each.len() == pieces as usize) else { return Vec::new() };
    let apart = (each.iter().sum::<f64>() / f64::from(pieces) - mean_mm).abs();
    // What a form shows is rounded, and a change that no tape could see is not written.
    let agrees = apart <= f64::max(1.0, 2e-4 * mean_mm) && each.iter().all(|mm| *mm > 0.0);
    if agrees { each } else { Vec::new() }
}

/// The pick-up across the width; nothing unless the ends that are up are given.
fn read_stick(get: &TypedFields<'_>) -> Option<[usize; 3]> {
    let ends = |field: &str| get.whole(field).and_then(|n| usize::try_from(n).ok()).filter(|n| *n <= 500);
    let up = ends(fields::warp::STICK_UP_ENDS).filter(|n| *n > 0)?;
    let down = ends(fields::warp::STICK_DOWN_ENDS).filter(|n| *n > 0).unwrap_or(1);
    Some([ends(fields::warp::STICK_EDGE_ENDS).unwrap_or(1), up, down])
}

pub(super) fn read_weft(record: &Record) -> Weft {
    let get = TypedFields(record);
    Weft {
        id: record.id.clone(),
        seen: record.heads.clone(),
        first_at: record.first_at.to_string(),
        name: get.text(fields::weft::NAME),
        start_mass_g: get.number(fields::weft::START_MASS_G).and_then(positive),
        start_length_mm: get.number(fields::weft::START_LENGTH_MM).and_then(positive),
        start_mass_rough: get.flag(fields::weft::START_MASS_ROUGH),
        start_length_rough: get.flag(fields::weft::START_LENGTH_ROUGH),
        tare_g: get.number(fields::weft::TARE_G).and_then(positive),
    }
}

/// A tape reading as a sitting and a reading carry it.
pub fn read_tape(get: &TypedFields<'_>) -> Option<Tape> {
    get.number(fields::sitting::MEASURED_MM).and_then(positive).map(|mm| Tape {
        mm,
        from_mark: get.text(fields::sitting::MEASURED_FROM).as_deref() == Some("mark"),
        relaxed: get.text(fields::sitting::MEASURED_TENSION).as_deref() == Some("relaxed"),
        rough: get.flag(fields::sitting::ROUGH),
    })
}

/// A sitting without a day that can be read is dated by its first entry, so that it is never lost from sight.
pub(super) fn read_sitting(record: &Record) -> Sitting {
    let get = TypedFields(record);
    let tape = read_tape(&get);
    Sitting {
        id: record.id.clone(),
        seen: record.heads.clone(),
        on: get.day(fields::sitting::ON).unwrap_or_else(|| record.first_at.time().unwrap_or_default().date_naive()),
        started: get.text(fields::sitting::STARTED),
        first_at: record.first_at.to_string(),
        by: record.by.to_string(),
        minutes: get.number(fields::sitting::MINUTES).and_then(positive),
        picks: get.whole(fields::sitting::PICKS),
        tape,
        mark_set: get.flag(fields::sitting::MARK_SET),
        weft_left_g: get.number(fields::sitting::WEFT_LEFT_G).filter(|mass| *mass >= 0.0),
        pick_begun: get.flag(fields::sitting::PICK_BEGUN),
        note: get.text(fields::sitting::NOTE),
        rough: get.flag(fields::sitting::ROUGH),
        contested: record.presence == Presence::RemovedHereEditedThere,
    }
}

pub(super) fn read_photo(record: &Record) -> Option<Photo> {
    let get = TypedFields(record);
    Some(Photo {
        id: record.id.clone(),
        sitting: get.text(fields::photo::SITTING).and_then(|id| id.parse().ok()),
        hash: get.text(fields::photo::HASH)?,
    })
}
