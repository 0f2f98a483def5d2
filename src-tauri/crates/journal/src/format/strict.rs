//! JSON read strictly: a name that comes twice in one object is an error, not a choice. What is read is only checked;
//! other readers may then take it as it stands.

use std::borrow::Cow;
use std::fmt;

use serde::Deserialize;
use serde::de::{Deserializer, Error, MapAccess, SeqAccess, Visitor};

/// A name of an object's member, borrowed where it has no escapes.
#[derive(Deserialize)]
pub(crate) struct Name<'a>(#[serde(borrow)] pub(crate) Cow<'a, str>);

/// An object without duplicate names, at any depth.
pub(crate) struct StrictObject;

/// A value without duplicate names, at any depth, and without numbers out of range.
pub(crate) struct StrictValue;

impl<'de> Deserialize<'de> for StrictObject {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        d.deserialize_map(Checker).map(|()| Self)
    }
}

impl<'de> Deserialize<'de> for StrictValue {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        d.deserialize_any(Checker).map(|()| Self)
    }
}

/// An error if a name comes twice.
pub(crate) fn refuse_duplicates<E: Error>(names: &mut [Cow<'_, str>]) -> Result<(), E> {
    names.sort_unstable();
    if names.windows(2).any(|pair| pair[0] == pair[1]) { Err(E::custom("a name comes twice")) } else { Ok(()) }
}

struct Checker;

impl<'de> Visitor<'de> for Checker {
    type Value = ();
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a JSON value")
    }
    fn visit_unit<E: Error>(self) -> Result<(), E> {
        Ok(())
    }
    fn visit_bool<E: Error>(self, _: bool) -> Result<(), E> {
        Ok(())
    }
    fn visit_i64<E: Error>(self, _: i64) -> Result<(), E> {
        Ok(())
    }
    fn visit_u64<E: Error>(self, _: u64) -> Result<(), E> {
        Ok(())
    }
    fn visit_f64<E: Error>(self, value: f64) -> Result<(), E> {
        if value.is_finite() { Ok(()) } else { Err(E::custom("not a finite number")) }
    }
    fn visit_str<E: Error>(self, _: &str) -> Result<(), E> {
        Ok(())
    }
    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<(), A::Error> {
        while items.next_element::<StrictValue>()?.is_some() {}
        Ok(())
    }
    fn visit_map<A: MapAccess<'de>>(self, mut members: A) -> Result<(), A::Error> {
        let mut names = Vec::with_capacity(8);
        while let Some((Name(name), StrictValue)) = members.next_entry()? {
            names.push(name);
        }
        refuse_duplicates(&mut names)
    }
}
