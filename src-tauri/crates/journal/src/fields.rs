//! A record's fields, in a list: most records have a handful, and there are many records.

use std::cell::RefCell;
use std::collections::HashMap;
use std::fmt;
use std::ops::Index;
use std::sync::Arc;

use serde::de::{Deserialize, Deserializer, MapAccess, Visitor};
use serde_json::Value;

use crate::record::Field;

/// The fields of a record by name, in the order of the names.
#[derive(Clone, Default, PartialEq)]
pub struct Fields(Vec<(Arc<String>, Field)>);

/// How many names are kept once for all records; the program itself knows fewer.
const NAMES_MAX: usize = 256;

thread_local! {
    /// The names seen by this thread: one copy of each serves all records it works out.
    static NAMES: RefCell<HashMap<Box<str>, Arc<String>>> = RefCell::new(HashMap::new());
}

fn shared(name: &str) -> Arc<String> {
    NAMES.with_borrow_mut(|names| match names.get(name) {
        Some(shared) => Arc::clone(shared),
        None => {
            let shared = Arc::new(name.to_owned());
            if names.len() < NAMES_MAX {
                names.insert(name.into(), Arc::clone(&shared));
            }
            shared
        }
    })
}

impl Fields {
    /// One field.
    #[must_use]
    pub fn get(&self, name: &str) -> Option<&Field> {
        self.0.iter().find(|(known, _)| known.as_str() == name).map(|(_, field)| field)
    }

    /// Whether there is a field of that name.
    #[must_use]
    pub fn contains_key(&self, name: &str) -> bool {
        self.get(name).is_some()
    }

    /// The fields with their names, in the order of the names.
    pub fn iter(&self) -> impl Iterator<Item = (&String, &Field)> {
        self.into_iter()
    }

    /// The names, in order.
    pub fn keys(&self) -> impl Iterator<Item = &String> {
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

    pub(crate) fn remove(&mut self, name: &str) -> Option<Field> {
        let at = self.0.iter().position(|(known, _)| known.as_str() == name)?;
        Some(self.0.remove(at).1)
    }
}

impl<'a> FromIterator<(&'a str, Field)> for Fields {
    /// Of two fields of one name the last counts.
    fn from_iter<I: IntoIterator<Item = (&'a str, Field)>>(fields: I) -> Self {
        let fields = fields.into_iter();
        let mut list: Vec<(Arc<String>, Field)> = Vec::with_capacity(fields.size_hint().0);
        for (name, field) in fields {
            match list.last() {
                Some((last, _)) if last.as_str() >= name => {
                    match list.binary_search_by(|(n, _)| n.as_str().cmp(name)) {
                        Ok(at) => list[at].1 = field,
                        Err(at) => list.insert(at, (shared(name), field)),
                    }
                }
                _ => list.push((shared(name), field)),
            }
        }
        list.shrink_to_fit();
        Self(list)
    }
}

type Pair<'a> = fn(&'a (Arc<String>, Field)) -> (&'a String, &'a Field);

impl<'a> IntoIterator for &'a Fields {
    type Item = (&'a String, &'a Field);
    type IntoIter = std::iter::Map<std::slice::Iter<'a, (Arc<String>, Field)>, Pair<'a>>;
    fn into_iter(self) -> Self::IntoIter {
        self.0.iter().map(|(name, field)| (name, field))
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

impl fmt::Debug for Fields {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_map().entries(self).finish()
    }
}

/// Fields as they stand in one entry: each has one value.
pub(crate) struct Plain(pub(crate) Fields);

impl<'de> Deserialize<'de> for Plain {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        struct Object;
        impl<'de> Visitor<'de> for Object {
            type Value = Plain;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("an object")
            }
            fn visit_map<A: MapAccess<'de>>(self, mut access: A) -> Result<Plain, A::Error> {
                let mut list: Vec<(&'de str, Field)> = Vec::with_capacity(8);
                while let Some((name, value)) = access.next_entry::<&'de str, Value>()? {
                    list.push((name, Field::One(value)));
                }
                Ok(Plain(list.into_iter().collect()))
            }
        }
        d.deserialize_map(Object)
    }
}
