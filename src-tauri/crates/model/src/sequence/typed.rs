//! A pick sequence as it is typed into its form, with what is wrong beside each field.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;
use fellmark_cloth::sequence::{Sequence, Shed};

use super::rows::{Row, read};
use crate::display_format::DisplayFormat;
use crate::forms::PickSequenceForm;
use crate::measures::Reader;
use crate::typed_words::rows_in_english;
use crate::{Message, UserError, messages, shafts};

/// Most slot ends that one group of a pick-up can have.
const MOST_SLOT_ENDS: i64 = 500;

/// A pick sequence as typed.
#[derive(Clone, Debug)]
pub struct TypedSequence {
    /// The rows that could be read; a section that could not is empty.
    pub sequence: Sequence<Row>,
    /// Slot ends of the pick-up.
    pub pick_up: PickUpEnds,
    /// Shaft of each end over one repeat of the threading; empty where none is typed.
    pub threading: Vec<u16>,
    /// Shafts that each numbered shed lifts; empty where none are typed.
    pub lifts: BTreeMap<Shed, BTreeSet<u16>>,
    /// Ends per 10 cm; `None` where nothing readable is typed.
    pub sett_per_10cm: Option<f64>,
    /// Picks per 10 cm; `None` where nothing readable is typed.
    pub picks_per_10cm: Option<f64>,
    /// What is wrong, each beside its own field. An unreadable sett or pick density is not among them: the warp's form, which
    /// has both fields, reports it.
    pub problems: Vec<UserError>,
}

/// Slot ends of a pick-up across the width.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PickUpEnds {
    /// Down at each edge.
    pub edge_down: usize,
    /// Up in each group.
    pub up: usize,
    /// Down between groups.
    pub down: usize,
}

impl PickUpEnds {
    /// One up, one down, which is what an empty form means.
    pub const ONE_UP_ONE_DOWN: Self = Self { edge_down: 1, up: 1, down: 1 };

    fn read(form: &PickSequenceForm, read: Reader<'_>) -> Result<Self, UserError> {
        let ends = |field: &str, text: &str, least: i64, usual: usize| {
            let given = read.whole_between(field, messages::the_slot_ends(), text, least, MOST_SLOT_ENDS)?;
            Ok::<_, UserError>(given.and_then(|n| usize::try_from(n).ok()).unwrap_or(usual))
        };
        let usual = Self::ONE_UP_ONE_DOWN;
        let up = ends("stick_up_ends", &form.stick_up_ends, 1, usual.up)?;
        let down = ends("stick_down_ends", &form.stick_down_ends, 1, usual.down)?;
        let edge_down = ends("stick_edge_ends", &form.stick_edge_ends, 0, usual.edge_down)?;
        Ok(Self { edge_down, up, down })
    }
}

/// Reads the form of a pick sequence.
#[must_use]
pub fn read_typed_sequence(form: &PickSequenceForm, format: &DisplayFormat) -> TypedSequence {
    let mut problems = Vec::new();
    let mut section = |field: &str, text: &str| {
        let rows = rows_in_english(text, format.language);
        or_problem(read(&rows).map_err(|message| UserError::at(field, message)), &mut problems).unwrap_or_default()
    };
    let sequence = Sequence {
        opening: section("opening", &form.opening),
        repeat: section("repeat", &form.repeat),
        balance: section("balance", &form.balance),
        closing: section("closing", &form.closing),
    };
    let read = Reader { format, today: NaiveDate::MIN };
    let pick_up = or_problem(PickUpEnds::read(form, read), &mut problems).unwrap_or(PickUpEnds::ONE_UP_ONE_DOWN);
    let at = |field: &'static str| move |message: Message| UserError::at(field, message);
    let threading = shafts::threading(&form.threading).map_err(at("threading"));
    let lifts = shafts::lifts(&form.shed_lifts).map_err(at("shed_lifts"));
    TypedSequence {
        sequence,
        pick_up,
        threading: or_problem(threading, &mut problems).unwrap_or_default(),
        lifts: or_problem(lifts, &mut problems).unwrap_or_default(),
        sett_per_10cm: read.density("sett", &form.sett).ok().flatten(),
        picks_per_10cm: read.density("picks", &form.picks).ok().flatten(),
        problems,
    }
}

fn or_problem<T>(read: Result<T, UserError>, problems: &mut Vec<UserError>) -> Option<T> {
    read.map_err(|error| problems.push(error)).ok()
}
