//! What the rows of a table are read against: the warps that are here, and what is noted of them.

use std::collections::BTreeSet;

use chrono::NaiveDate;
use fellmark_journal::{EntryDraft, EntrySet, Kind, Place, RecordId};
use serde_json::{Value, json};

use super::headings::with_unit;
use super::{ID, KnownWarps, NONE, TableColumn, UnderstoodCell, WARP, WARP_ID, plain};
use crate::display_format::DisplayFormat;
use crate::fields::{self, kind, sitting};
use crate::forms::{FieldMap, ImportForm};
use crate::measures::Reader;
use crate::piece_lengths;
use crate::tables::{Column, ColumnType, List, read_exact, short, word, yes_no};
use crate::{Message, messages};

/// How the journal says that a warp was cut off.
const OFF_THE_LOOM: &str = "off_the_loom";

/// What rows are read against.
pub(super) struct RowResolver<'a> {
    state: &'a EntrySet,
    list: &'static List,
    columns: &'a [TableColumn],
    warp: Option<RecordId>,
    warps: &'a KnownWarps,
    ids: BTreeSet<RecordId>,
    /// Warps whose records are among what is the same.
    looked_at: BTreeSet<RecordId>,
    same: BTreeSet<String>,
    format: &'a DisplayFormat,
    today: NaiveDate,
}

impl<'a> RowResolver<'a> {
    pub(super) fn new(
        state: &'a EntrySet,
        warps: &'a KnownWarps,
        list: &'static List,
        form: &ImportForm,
        columns: &'a [TableColumn],
        format: &'a DisplayFormat,
        today: NaiveDate,
    ) -> Self {
        Self {
            state,
            list,
            columns,
            warp: form.warp.parse().ok(),
            warps,
            ids: BTreeSet::new(),
            looked_at: BTreeSet::new(),
            same: BTreeSet::new(),
            format,
            today,
        }
    }

    /// The entry of a row, and its cells as they were understood.
    pub(super) fn row(&mut self, cells: &[String]) -> Result<(EntryDraft, Vec<UnderstoodCell>), Message> {
        let mut set = FieldMap::new();
        let (mut warp_id, mut warp_name, mut id) = (None, None, None);
        let mut shown = Vec::new();
        for (column, text) in self.columns.iter().zip(cells.iter().map(String::as_str).chain(std::iter::repeat(""))) {
            match column.field.as_str() {
                NONE => continue,
                WARP => warp_name = Some(text.trim()).filter(|text| !text.is_empty()),
                WARP_ID => warp_id = parsed(text)?,
                ID => id = parsed(text)?,
                field => {
                    let Some(of) = self.list.columns.iter().find(|of| of.field == field) else {
                        return Err(messages::unknown_field(short(field)));
                    };
                    // A heading with its unit says how the figures are written; one without may stand over either unit.
                    let has_unit = ["_mm", "_g", "_percent", "_10cm"].iter().any(|unit| field.ends_with(unit));
                    let value = match plain(&column.heading) == field {
                        true if has_unit => read_exact(of, text),
                        true => read_exact(of, text).or_else(|_| self.read_as_typed(of, &column.heading, text)),
                        false => self.read_as_typed(of, &column.heading, text),
                    };
                    let value = value.map_err(|why| messages::in_column((self.list.name, of.field), why))?;
                    let ends_warp = self.ends_there(column) && !value.is_null();
                    if ends_warp {
                        set.insert(fields::warp::STATE.into(), json!(OFF_THE_LOOM));
                    }
                    let typed = text.trim().to_owned();
                    shown.push(UnderstoodCell { typed, understood: Some((of, value.clone())), ends_warp });
                    if !value.is_null() {
                        set.insert(field.to_owned(), value);
                    }
                    continue;
                }
            }
            shown.push(UnderstoodCell { typed: text.trim().to_owned(), understood: None, ends_warp: false });
        }
        if let Some(missing) = self.list.needs.iter().find(|field| !set.contains_key(**field)) {
            return Err(messages::missing_field((self.list.name, *missing)));
        }
        self.sensible(&set)?;
        self.known(&set)?;
        let place = self.place(warp_id, warp_name, &mut id)?;
        if let Some(id) = &id
            && (self.state.record(id).is_some() || !self.ids.insert(id.clone()))
        {
            return Err(messages::known_by_its_id());
        }
        let id = id.unwrap_or_else(RecordId::new);
        self.look_for_the_same(&place, &set);
        if !self.same.insert(likeness(self.list, place.warp_id(), &set)) {
            return Err(messages::known_already());
        }
        if self.list.kind == kind::SITTING && set.contains_key(sitting::MEASURED_MM) {
            set.entry(sitting::MEASURED_FROM).or_insert(json!("start"));
            set.entry(sitting::MEASURED_TENSION).or_insert(json!("tight"));
        }
        let kind = Kind::fixed(self.list.kind);
        Ok((EntryDraft::new(place, id, kind, set), shown))
    }

    /// Whether a day in this column is the one the warp came off the loom: a foreign table that does not say how each warp stands
    /// gives that day and no other.
    fn ends_there(&self, column: &TableColumn) -> bool {
        let says_state = || self.columns.iter().any(|column| column.field == fields::warp::STATE);
        self.list.kind == kind::WARP
            && column.field == fields::warp::STATE_ON
            && plain(&column.heading) != fields::warp::STATE_ON
            && !says_state()
    }

    /// Takes in what is here of that which a row can be the same as: of other warps nothing is read.
    fn look_for_the_same(&mut self, place: &Place, set: &FieldMap) {
        let name = set.get(fields::warp::NAME).and_then(Value::as_str).filter(|_| self.list.kind == kind::WARP);
        let ids: Vec<RecordId> = match name {
            Some(name) => self.warps.by_name.get(&plain(name)).cloned().unwrap_or_default(),
            None => place.warp_id().cloned().into_iter().collect(),
        };
        for id in ids {
            if !self.looked_at.insert(id.clone()) {
                continue;
            }
            for record in self.state.of_warp(&id) {
                if record.kind.as_str() == self.list.kind && record.is_visible() {
                    let set =
                        record.fields.iter().map(|(name, field)| (name.to_owned(), field.used().clone())).collect();
                    self.same.insert(likeness(self.list, Some(&id), &set));
                }
            }
        }
    }

    fn place(
        &self,
        warp_id: Option<RecordId>,
        warp_name: Option<&str>,
        id: &mut Option<RecordId>,
    ) -> Result<Place, Message> {
        if self.list.kind == kind::WARP {
            return Ok(Place::warp(id.get_or_insert_with(RecordId::new)));
        }
        if let Some(warp) = warp_id.filter(|warp| self.warps.ids.contains(warp)) {
            return Ok(Place::warp(&warp));
        }
        if let Some(name) = warp_name {
            return match self.warps.by_name.get(&plain(name)).map(Vec::as_slice) {
                Some([one]) => Ok(Place::warp(one)),
                Some(_) => Err(messages::several_warps_of_name(short(name))),
                None => Err(messages::no_warp_of_name(short(name))),
            };
        }
        self.warp
            .clone()
            .filter(|warp| self.warps.ids.contains(warp))
            .map(|warp| Place::warp(&warp))
            .ok_or_else(messages::row_without_warp)
    }

    /// A cell as people write it, in the unit of its heading or else of the settings, and in the order of day and month of the settings.
    fn read_as_typed(&self, of: &Column, heading: &str, text: &str) -> Result<Value, Message> {
        let text = text.trim();
        if text.is_empty() {
            return Ok(Value::Null);
        }
        let with_unit = with_unit(heading, of.column_type, text);
        let text = with_unit.as_deref().unwrap_or(text);
        let read = Reader { format: self.format, today: self.today };
        let field = if of.field == fields::weft::START_LENGTH_MM { "weft_length" } else { of.field };
        let reported = match of.column_type {
            ColumnType::Text => return Ok(json!(text)),
            ColumnType::Word(words) => return word(words, text),
            ColumnType::YesNo => return yes_no(text),
            ColumnType::Lines => return read_exact(of, text),
            ColumnType::Measures => {
                piece_lengths::read(&read, field, &messages::the_length(), text).map(|lengths| json!(lengths))
            }
            ColumnType::Day => return self.day(text),
            ColumnType::Time => read.time(field, text).map(|time| json!(time)),
            ColumnType::Length => read.length_or_zero(field, messages::the_length(), text).map(|mm| json!(mm)),
            ColumnType::Mass => read.mass_or_zero(field, messages::the_weight(), text).map(|grams| json!(grams)),
            ColumnType::Minutes => read.minutes(field, text).map(|minutes| json!(minutes)),
            ColumnType::Density => read.density(field, text).map(|density| json!(density)),
            ColumnType::Number => read.number(field, messages::the_figure(), text).map(|number| json!(number)),
            ColumnType::Whole => {
                read.whole_between(field, messages::the_figure(), text, -100_000, 100_000).map(|whole| json!(whole))
            }
        };
        reported.map_err(|error| error.message)
    }

    /// Year first, or with points day first, or with strokes in the order of the settings unless it can only be the other.
    fn day(&self, text: &str) -> Result<Value, Message> {
        let parts: Vec<&str> = text.split(['-', '.', '/']).map(str::trim).filter(|part| !part.is_empty()).collect();
        let number = |index: usize| parts.get(index).and_then(|part| part.parse::<u32>().ok());
        let wrong = || messages::unreadable_day_of_row(short(text));
        let (Some(first), Some(second), Some(third), 3) = (number(0), number(1), number(2), parts.len()) else {
            return Err(wrong());
        };
        let (year, month, day) = if first > 31 {
            (first, second, third)
        } else if text.contains('/') && second <= 12 && (first > 12 || !self.format.month_first) {
            (third, second, first)
        } else if text.contains('/') {
            (third, first, second)
        } else {
            (third, second, first)
        };
        if !(1900..=2200).contains(&year) {
            return Err(wrong());
        }
        NaiveDate::from_ymd_opt(year as i32, month, day).map(|day| json!(day)).ok_or_else(wrong)
    }

    /// A yarn that a row names has to be here. A sitting need not be: what was noted in one that was removed stands so in the log.
    fn known(&self, set: &FieldMap) -> Result<(), Message> {
        let Some(id) = set.get(fields::weighing::WEFT).and_then(Value::as_str) else { return Ok(()) };
        let record = id.parse().ok().and_then(|id| self.state.record(&id));
        if record.is_some_and(|record| record.kind.as_str() == kind::WEFT) {
            return Ok(());
        }
        Err(messages::unknown_yarn_id(short(id)))
    }

    /// What no form would take either.
    fn sensible(&self, set: &FieldMap) -> Result<(), Message> {
        for (field, value) in set {
            let number = value.as_f64();
            let below_zero = number.is_some_and(|number| number < 0.0);
            if below_zero && (field.ends_with("_mm") || field.ends_with("_g") || field == sitting::MINUTES) {
                return Err(messages::below_zero(field.replace('_', " ")));
            }
            if field == sitting::MINUTES && number.is_some_and(|minutes| minutes > 24.0 * 60.0) {
                return Err(messages::row_longer_than_a_day());
            }
            let read = Reader { format: self.format, today: self.today };
            if field == sitting::STARTED && read.time(field, value.as_str().unwrap_or_default()).is_err() {
                return Err(messages::unreadable_start_of_row());
            }
        }
        let says = |field: &&String| {
            ![sitting::ON, sitting::STARTED, sitting::ROUGH, sitting::MARK_SET].contains(&field.as_str())
        };
        if self.list.kind == kind::SITTING && !set.keys().any(|field| says(&field)) {
            return Err(messages::empty_row());
        }
        Ok(())
    }
}

fn parsed(text: &str) -> Result<Option<RecordId>, Message> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(None);
    }
    text.parse().map(Some).map_err(|_| messages::unreadable_id(short(text)))
}

/// What two rows that are the same have in common: everything of a sitting, the name and beginning of a warp.
fn likeness(list: &List, warp: Option<&RecordId>, set: &FieldMap) -> String {
    let compared: Vec<&str> = match list.kind {
        kind::WARP => vec![fields::warp::NAME, fields::warp::BEGUN_ON],
        _ => list.columns.iter().map(|column| column.field).collect(),
    };
    // A sitting's measure is from the start and tight unless it says otherwise; a no and nothing are the same.
    let value = |field: &str| match set.get(field) {
        None | Some(Value::Null | Value::Bool(false)) => String::new(),
        Some(_) if field == sitting::MEASURED_FROM || field == sitting::MEASURED_TENSION => String::new(),
        Some(Value::Number(number)) => number.as_f64().map(|number| format!("{number:.3}")).unwrap_or_default(),
        Some(other) => other.to_string(),
    };
    let warp = if list.kind == kind::WARP { None } else { warp };
    let values = compared.into_iter().map(value);
    [warp.map(ToString::to_string).unwrap_or_default()].into_iter().chain(values).collect::<Vec<_>>().join("\u{1f}")
}
