//! The merge rule.
//!
//! A journal is a *set of entries*; merging two of them is the union of the sets. What a record amounts to follows from
//! the set of its entries alone, in whatever order they came:
//!
//! 1. Every entry *writes* some fields of one record (`set`), and names the entries whose values its writer had on the
//!    screen (`over`).
//! 2. Entry B *replaces* entry A's value of a field if B names A in `over` and writes that field too.
//! 3. The *heads* of a field are the entries whose value of it nothing replaces. A field that was ever written has one.
//! 4. One head, or several with equal values: the field has a plain value. Several different ones: a *conflict*. All are
//!    kept and shown, and the latest is computed with, until a person picks one (an entry over all of them). A clock
//!    orders what is shown; it never decides what survives.
//! 5. A record is removed if a head of the field `gone` says `true`, and every other head was on the screen of somebody
//!    who removed it. Otherwise it was *removed here and edited there*: it stays visible until that is resolved.

use std::collections::HashMap;

use serde_json::Value;
use smol_str::SmolStr;

use crate::format::entry::{Entry, GONE};
use crate::format::field_values::FieldValues;
use crate::format::ids::Key;

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

/// An entry with the fields it writes.
pub(crate) struct Change<'a> {
    pub(crate) entry: &'a Entry,
    pub(crate) set: FieldValues,
}

/// An entry whose value of a field nothing replaces.
pub(crate) struct FieldHead {
    pub(crate) field: SmolStr,
    /// Its position among the record's entries.
    pub(crate) at: usize,
}

/// The heads of all fields of one record, by field and position. `changes` are all entries of that record, each once.
pub(crate) fn heads(changes: &[Change<'_>]) -> Vec<FieldHead> {
    let mut named_by: HashMap<Key, Vec<&Change<'_>>> = HashMap::new();
    for change in changes {
        // An entry cannot replace itself, whatever a damaged line says.
        for named in change.entry.over().iter().filter(|named| **named != change.entry.key()) {
            named_by.entry(*named).or_default().push(change);
        }
    }
    let mut heads = Vec::with_capacity(changes.iter().map(|change| change.set.names().count()).sum());
    for (at, change) in changes.iter().enumerate() {
        let newer = named_by.get(&change.entry.key()).map_or(&[][..], Vec::as_slice);
        let stands = |field: &&SmolStr| !newer.iter().any(|newer| newer.set.contains(field));
        heads.extend(change.set.names().filter(stands).map(|field| FieldHead { field: field.clone(), at }));
    }
    heads.sort_unstable_by(|a, b| (&a.field, a.at).cmp(&(&b.field, b.at)));
    heads
}

/// Whether a record is there, by the heads of its fields.
pub(crate) fn presence(changes: &[Change<'_>], heads: &[FieldHead]) -> Presence {
    let says_gone =
        |head: &&FieldHead| head.field == GONE && changes[head.at].set.get(GONE) == Some(&Value::Bool(true));
    let removers: Vec<usize> = heads.iter().filter(says_gone).map(|head| head.at).collect();
    if removers.is_empty() {
        return Presence::Here;
    }
    let seen_by_a_remover =
        |at: usize| removers.iter().any(|remover| changes[*remover].entry.over().contains(&changes[at].entry.key()));
    if heads.iter().all(|head| removers.contains(&head.at) || seen_by_a_remover(head.at)) {
        Presence::Gone
    } else {
        Presence::RemovedHereEditedThere
    }
}
