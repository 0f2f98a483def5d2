//! What the entries of one record amount to. A pure function of the set of entries.

use std::collections::{BTreeMap, HashMap};

use serde_json::Value;

use crate::clock::At;
use crate::entry::{Entry, GONE};
use crate::fields::{Fields, Plain};
use crate::ids::{DeviceId, Key, Kind, Place, RecordId};

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
    One(Value),
    /// Two answers, or more: all kept, none lost, until she picks one.
    Two {
        /// The answer used for computing meanwhile: the later one.
        used: Value,
        /// The different answers, the later last.
        answers: Vec<Answer>,
    },
}

/// One of several answers.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// The value.
    pub value: Value,
    /// The entry that gave it.
    pub key: Key,
    /// The device that wrote that.
    pub by: DeviceId,
    /// When, by its clock.
    pub at: At,
}

/// Whether a record is there.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Presence {
    /// It is.
    Here,
    /// It was removed, with all that stands in it on the remover's screen.
    Gone,
    /// It was removed on one device and edited on another without sight of that: it stays visible.
    RemovedHereEditedThere,
}

impl Field {
    /// The value to compute with.
    #[must_use]
    pub fn used(&self) -> &Value {
        match self {
            Self::One(value) | Self::Two { used: value, .. } => value,
        }
    }

    /// Whether there are several answers to settle.
    #[must_use]
    pub fn is_two(&self) -> bool {
        matches!(self, Self::Two { .. })
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

    /// The fields with several answers.
    pub fn unsettled(&self) -> impl Iterator<Item = (&str, &[Answer])> {
        self.fields.iter().filter_map(|(name, field)| match field {
            Field::One(_) => None,
            Field::Two { answers, .. } => Some((name.as_str(), answers.as_slice())),
        })
    }

    /// The usual case: a record that was written once.
    fn of_one(entry: &Entry) -> Self {
        let unread = entry.unread_set().and_then(|text| serde_json::from_str::<Plain>(text).ok());
        let mut fields = unread.map_or_else(
            || entry.set().iter().map(|(name, value)| (name.as_str(), Field::One(value.clone()))).collect(),
            |Plain(fields)| fields,
        );
        let is_head = !fields.is_empty();
        let gone = fields.remove(GONE) == Some(Field::One(Value::Bool(true)));
        Self {
            id: entry.of().clone(),
            kind: entry.kind().clone(),
            place: entry.place().clone(),
            fields,
            presence: if gone { Presence::Gone } else { Presence::Here },
            heads: if is_head { vec![entry.key()] } else { Vec::new() },
            first_at: entry.at().clone(),
            last_at: entry.at().clone(),
            by: entry.by().clone(),
        }
    }

    /// What the entries of one record amount to; `None` when there are none.
    pub(crate) fn of_entries(entries: &[&Entry]) -> Option<Self> {
        if let [only] = entries {
            return Some(Self::of_one(only));
        }
        let mut sorted = entries.to_vec();
        sorted.sort_by(|a, b| a.order().cmp(&b.order()));
        let last = *sorted.last()?;
        // The entry that began the record answers nothing; a later one may carry an earlier time, if a clock is
        // wrong.
        let first = *sorted.iter().find(|entry| entry.over().is_empty()).or(sorted.first())?;

        let standing = standing_writes(&sorted);
        let mut is_head = vec![false; sorted.len()];
        for &i in standing.values().flatten() {
            is_head[i] = true;
        }
        let presence = presence(&sorted, &standing, &is_head);
        let fields = standing
            .iter()
            .filter(|(name, _)| **name != GONE)
            .map(|(name, heads)| (*name, field(name, heads, &sorted)))
            .collect();
        let heads = sorted.iter().zip(&is_head).filter(|(_, head)| **head).map(|(entry, _)| entry.key()).collect();
        Some(Self {
            id: first.of().clone(),
            kind: first.kind().clone(),
            place: first.place().clone(),
            fields,
            presence,
            heads,
            first_at: first.at().clone(),
            last_at: last.at().clone(),
            by: first.by().clone(),
        })
    }
}

/// For each field the entries (as indices) whose write of it nothing replaces. An entry replaces another's
/// write of a field iff it names that entry in `over` and writes the same field.
fn standing_writes<'a>(sorted: &[&'a Entry]) -> BTreeMap<&'a str, Vec<usize>> {
    let mut namers: Vec<Vec<usize>> = vec![Vec::new(); sorted.len()];
    if sorted.len() > 1 {
        let by_key: HashMap<Key, usize> = sorted.iter().enumerate().map(|(i, entry)| (entry.key(), i)).collect();
        for (i, entry) in sorted.iter().enumerate() {
            for named in entry.over().iter().filter_map(|key| by_key.get(key)) {
                if *named != i && namers[*named].last() != Some(&i) {
                    namers[*named].push(i);
                }
            }
        }
    }
    let mut standing: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    for (i, entry) in sorted.iter().enumerate() {
        for name in entry.set().keys() {
            if !namers[i].iter().any(|&namer| sorted[namer].set().contains_key(name)) {
                standing.entry(name).or_default().push(i);
            }
        }
    }
    standing
}

fn presence(sorted: &[&Entry], standing: &BTreeMap<&str, Vec<usize>>, is_head: &[bool]) -> Presence {
    let says_gone = |i: usize| sorted[i].set().get(GONE) == Some(&Value::Bool(true));
    let removers: Vec<usize> =
        standing.get(GONE).map(|heads| heads.iter().copied().filter(|&i| says_gone(i)).collect()).unwrap_or_default();
    if removers.is_empty() {
        return Presence::Here;
    }
    let all_seen = (0..sorted.len()).filter(|i| is_head[*i] && !removers.contains(i)).all(|i| {
        let key = sorted[i].key();
        removers.iter().any(|&remover| sorted[remover].over().contains(&key))
    });
    if all_seen { Presence::Gone } else { Presence::RemovedHereEditedThere }
}

fn field(name: &str, heads: &[usize], sorted: &[&Entry]) -> Field {
    let mut answers: Vec<Answer> = Vec::new();
    // Latest first, so that of equal values the latest is kept.
    for &i in heads.iter().rev() {
        let entry = sorted[i];
        let Some(value) = entry.set().get(name) else { continue };
        if !answers.iter().any(|answer| answer.value == *value) {
            answers.push(Answer {
                value: value.clone(),
                key: entry.key(),
                by: entry.by().clone(),
                at: entry.at().clone(),
            });
        }
    }
    answers.reverse();
    match answers.as_slice() {
        [] => Field::One(Value::Null),
        [only] => Field::One(only.value.clone()),
        [.., last] => Field::Two { used: last.value.clone(), answers },
    }
}
