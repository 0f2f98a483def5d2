//! What the entries of one record amount to. A pure function of the set of entries.

use std::ops::Index;
use std::sync::Arc;

use serde_json::{Map, Value};
use smol_str::SmolStr;

use crate::format::clock::At;
use crate::format::entry::{Entry, EntryDraft, GONE};
use crate::format::ids::{DeviceId, Key, Kind, Place, RecordId};
use crate::merge::{self, Change, FieldHead, Presence};

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
        let mut changes: Vec<Change<'_>> =
            entries.iter().map(|entry| Change { entry, set: entry.field_values() }).collect();
        changes.sort_by(|a, b| a.entry.order().cmp(&b.entry.order()));
        // The entry that began the record names no other; a later one may carry an earlier time, if a clock is wrong.
        let first = changes.iter().find(|change| change.entry.over().is_empty()).or(changes.first())?.entry;
        let last = changes.last()?.entry;
        let heads = merge::heads(&changes);
        let presence = merge::presence(&changes, &heads);
        let mut standing: Vec<usize> = heads.iter().map(|head| head.at).collect();
        standing.sort_unstable();
        standing.dedup();
        let standing = standing.into_iter().map(|at| changes[at].entry.key()).collect();
        let fields = heads.chunk_by(|a, b| a.field == b.field).filter_map(|heads| {
            let name = &heads.first()?.field;
            (name != GONE).then(|| (name.clone(), field(heads, &mut changes)))
        });
        let mut list = Vec::with_capacity(heads.len());
        list.extend(fields);
        let fields = Fields(list.into_boxed_slice());
        Some(Self {
            id: first.of().clone(),
            kind: first.kind().clone(),
            place: first.place().clone(),
            fields,
            presence,
            heads: standing,
            first_at: first.at().clone(),
            last_at: last.at().clone(),
            by: first.by().clone(),
        })
    }
}

/// A field's value by its heads, which are in the order of their times. It takes the values out of the changes.
fn field(heads: &[FieldHead], changes: &mut [Change<'_>]) -> Field {
    let mut values: Vec<CompetingValue> = Vec::new();
    // Latest first, so that of equal values the latest is kept.
    for head in heads.iter().rev() {
        let Change { entry, set } = &mut changes[head.at];
        let Some(value) = set.take(&head.field) else { continue };
        if heads.len() == 1 {
            return Field::Single(value);
        }
        if !values.iter().any(|other| other.value == value) {
            values.push(CompetingValue { value, key: entry.key(), by: entry.by().clone(), at: entry.at().clone() });
        }
    }
    if values.len() > 1 {
        values.reverse();
        return Field::Conflict(values);
    }
    Field::Single(values.pop().map_or(Value::Null, |only| only.value))
}
