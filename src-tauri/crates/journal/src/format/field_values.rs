//! The fields that an entry writes, with their values, as the merge takes them.

use std::fmt;

use serde::de::{Deserialize, Deserializer, MapAccess, Visitor};
use serde_json::Value;
use smol_str::SmolStr;

use super::strict::Name;

/// Fields with their values, in the order of the names, each once. A list: most entries write a handful.
#[derive(Debug, Default)]
pub(crate) struct FieldValues(Vec<(SmolStr, Value)>);

impl FieldValues {
    /// The names, in order.
    pub(crate) fn names(&self) -> impl Iterator<Item = &SmolStr> {
        self.0.iter().map(|(name, _)| name)
    }

    /// Whether a field is written.
    pub(crate) fn contains(&self, name: &str) -> bool {
        self.position(name).is_some()
    }

    /// A field's value.
    pub(crate) fn get(&self, name: &str) -> Option<&Value> {
        self.position(name).map(|at| &self.0[at].1)
    }

    /// A field's value, which is null from now on.
    pub(crate) fn take(&mut self, name: &str) -> Option<Value> {
        self.position(name).map(|at| self.0[at].1.take())
    }

    fn position(&self, name: &str) -> Option<usize> {
        self.0.binary_search_by(|(known, _)| known.as_str().cmp(name)).ok()
    }
}

impl<'de> Deserialize<'de> for FieldValues {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        d.deserialize_map(Members)
    }
}

struct Members;

impl<'de> Visitor<'de> for Members {
    type Value = FieldValues;
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("an object")
    }
    fn visit_map<A: MapAccess<'de>>(self, mut members: A) -> Result<FieldValues, A::Error> {
        let mut values = Vec::with_capacity(8);
        while let Some((Name(name), value)) = members.next_entry()? {
            values.push((SmolStr::new(name), value));
        }
        // The journal writes them in order.
        values.sort_by(|(one, _): &(SmolStr, Value), (other, _)| one.cmp(other));
        Ok(FieldValues(values))
    }
}
