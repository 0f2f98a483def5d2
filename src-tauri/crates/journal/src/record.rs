//! What the entries of one record amount to. A pure function of the set of entries.

use std::ops::Index;
use std::sync::Arc;

use serde_json::{Map, Value};
use smol_str::SmolStr;

use crate::format::clock::At;
use crate::format::entry::{Entry, EntryDraft, GONE};
use crate::format::ids::{DeviceId, Key, Kind, Place, RecordId};
use crate::merge::{self, Change, Presence};

/// One record as it now stands.
#[derive(Debug, Clone, PartialEq)]
pub struct Record {
    /// Its id.
    pub id: RecordId,
    /// What sort of record it is.
    pub kind: Kind,
    /// The warp or shelf it belongs to.
    pub place: Place,
    /// Its fields, without the one that says it was removed.
    pub fields: Fields,
    /// Whether it is there.
    pub presence: Presence,
    /// The entries that stand: what an entry written over what is shown must name in `over`.
    pub heads: Vec<Key>,
    /// When its first entry was written, by the writer's clock.
    pub first_at: At,
    /// When its last entry was written.
    pub last_at: At,
    /// The device that wrote its first entry.
    pub by: DeviceId,
}

/// A field's value, or the several that were given without sight of each other.
#[derive(Debug, Clone, PartialEq)]
pub enum Field {
    /// A plain value.
    Single(Value),
    /// Different values: all kept, none lost, until a person picks one. The latest, which is computed with meanwhile,
    /// is the last.
    Conflict(Vec<CompetingValue>),
}

/// One of the different values of a field in conflict.
#[derive(Debug, Clone, PartialEq)]
pub struct CompetingValue {
    /// The value.
    pub value: Value,
    /// The entry that gave it.
    pub key: Key,
    /// The device that wrote that.
    pub by: DeviceId,
    /// When, by its clock.
    pub at: At,
}

impl EntryDraft {
    /// An entry that answers all that stands in a record as it was shown.
    #[must_use]
    pub fn on(record: &Record, set: Map<String, Value>) -> Self {
        Self {
            place: record.place.clone(),
            of: record.id.clone(),
            kind: record.kind.clone(),
            over: record.heads.clone(),
            set,
        }
    }

    /// The removal of a record as it was shown.
    #[must_use]
    pub fn removal(record: &Record) -> Self {
        Self::on(record, Map::from_iter([(GONE.to_owned(), Value::Bool(true))]))
    }

    /// The restoring of a record as it was shown.
    #[must_use]
    pub fn restoring(record: &Record) -> Self {
        Self::on(record, Map::from_iter([(GONE.to_owned(), Value::Bool(false))]))
    }
}

impl Field {
    /// The value to compute with.
    #[must_use]
    pub fn used(&self) -> &Value {
        match self {
            Self::Single(value) => value,
            Self::Conflict(values) => values.last().map_or(&Value::Null, |latest| &latest.value),
        }
    }

    /// Whether there are several values to choose from.
    #[must_use]
    pub fn is_conflict(&self) -> bool {
        matches!(self, Self::Conflict(_))
    }
}

/// The fields of a record by name, in the order of the names. A list: most records have a handful, and there are many
/// records.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Fields(Box<[(SmolStr, Field)]>);

impl Fields {
    /// One field.
    #[must_use]
    pub fn get(&self, name: &str) -> Option<&Field> {
        self.0.iter().find(|(known, _)| known == name).map(|(_, field)| field)
    }

    /// Whether there is a field of that name.
    #[must_use]
    pub fn contains_key(&self, name: &str) -> bool {
        self.get(name).is_some()
    }

    /// The fields with their names, in the order of the names.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &Field)> {
        self.0.iter().map(|(name, field)| (name.as_str(), field))
    }

    /// The names, in order.
    pub fn keys(&self) -> impl Iterator<Item = &str> {
        self.iter().map(|(name, _)| name)
    }

    /// How many fields there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.0.len()
    }

    /// Whether there is none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

impl Index<&str> for Fields {
    type Output = Field;
    /// # Panics
    /// When there is no field of that name, as with any map.
    #[allow(clippy::expect_used, reason = "what indexing means")]
    fn index(&self, name: &str) -> &Field {
        self.get(name).expect("a field of that name")
    }
}

impl Record {
    /// A field's value to compute with.
    #[must_use]
    pub fn get(&self, field: &str) -> Option<&Value> {
        self.fields.get(field).map(Field::used)
    }

    /// Whether it is to be shown among what is there.
    #[must_use]
    pub fn is_visible(&self) -> bool {
        self.presence != Presence::Gone
    }

    /// The fields in conflict, with their different values, the latest last.
    pub fn conflicts(&self) -> impl Iterator<Item = (&str, &[CompetingValue])> {
        self.fields.iter().filter_map(|(name, field)| match field {
            Field::Single(_) => None,
            Field::Conflict(values) => Some((name, values.as_slice())),
        })
    }

    /// What the entries of one record amount to; `None` when there are none.
    pub(crate) fn from_entries(entries: &[Arc<Entry>]) -> Option<Self> {
        if let [only] = entries {
            return Some(Self::from_one(only));
        }
        let mut changes: Vec<Change<'_>> =
            entries.iter().map(|entry| Change { entry, set: entry.read_set() }).collect();
        changes.sort_by(|a, b| a.entry.order().cmp(&b.entry.order()));
        // The entry that began the record names no other; a later one may carry an earlier time, if a clock is wrong.
        let first = changes.iter().find(|change| change.entry.over().is_empty()).or(changes.first())?.entry;
        let last = changes.last()?.entry;
        let heads = merge::heads(&changes);
        let presence = merge::presence(&changes, &heads);
        let mut is_head = vec![false; changes.len()];
        heads.values().flatten().for_each(|at| is_head[*at] = true);
        let mut head_keys: Vec<Key> =
            changes.iter().zip(&is_head).filter(|(_, head)| **head).map(|(one, _)| one.entry.key()).collect();
        head_keys.shrink_to_fit();
        let fields = heads
            .iter()
            .filter(|(name, _)| **name != GONE)
            .map(|(name, heads)| (SmolStr::new(name), field(name, heads, &changes)));
        Some(Self {
            id: first.of().clone(),
            kind: first.kind().clone(),
            place: first.place().clone(),
            fields: Fields(fields.collect()),
            presence,
            heads: head_keys,
            first_at: first.at().clone(),
            last_at: last.at().clone(),
            by: first.by().clone(),
        })
    }

    /// The same where there is one entry, as most records have: nothing can replace it, so that all its values stand.
    fn from_one(entry: &Entry) -> Self {
        let set = entry.read_set();
        let is_gone = set.get(GONE) == Some(&Value::Bool(true));
        let heads = if set.is_empty() { Vec::new() } else { vec![entry.key()] };
        let fields = set.into_iter().filter(|(name, _)| name != GONE);
        Self {
            id: entry.of().clone(),
            kind: entry.kind().clone(),
            place: entry.place().clone(),
            fields: Fields(fields.map(|(name, value)| (name.into(), Field::Single(value))).collect()),
            presence: if is_gone { Presence::Gone } else { Presence::Here },
            heads,
            first_at: entry.at().clone(),
            last_at: entry.at().clone(),
            by: entry.by().clone(),
        }
    }
}

/// A field's value by its heads, which are in the order of their times.
fn field(name: &str, heads: &[usize], changes: &[Change<'_>]) -> Field {
    let mut values: Vec<CompetingValue> = Vec::new();
    // Latest first, so that of equal values the latest is kept.
    for Change { entry, set } in heads.iter().rev().map(|at| &changes[*at]) {
        let Some(value) = set.get(name) else { continue };
        if heads.len() == 1 {
            return Field::Single(value.clone());
        }
        if !values.iter().any(|other| other.value == *value) {
            let (key, by, at) = (entry.key(), entry.by().clone(), entry.at().clone());
            values.push(CompetingValue { value: value.clone(), key, by, at });
        }
    }
    values.reverse();
    match values.as_slice() {
        [] => Field::Single(Value::Null),
        [only] => Field::Single(only.value.clone()),
        _ => Field::Conflict(values),
    }
}
