//! One entry: the unit that is written once and never changed.

use std::collections::BTreeMap;
use std::fmt;
use std::ops::Range;
use std::sync::{Arc, OnceLock};

use serde::de::{Error as _, MapAccess, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use serde_json::value::RawValue;
use serde_json::{Map, Value};

use super::clock::At;
use super::field_values::FieldValues;
use super::ids::{DeviceId, Key, Kind, Place, RecordId};
use super::strict::{Name, StrictObject, StrictValue, refuse_duplicates};

/// Longest line that is read, in bytes. A longer one is refused and said.
pub const LINE_MAX_BYTES: usize = 1 << 20;
/// Longest line that is written, in bytes.
pub const WRITTEN_MAX_BYTES: usize = 128 << 10;

/// The field that says a record was removed. It is the one field whose meaning the journal knows.
pub const GONE: &str = "gone";

const OPENING: &[u8] = b"{\"key\":\"";

/// Something to be written: the values of some fields of one record.
#[derive(Debug, Clone, PartialEq)]
pub struct EntryDraft {
    /// The warp or the shelf the record belongs to.
    pub place: Place,
    /// The record.
    pub of: RecordId,
    /// What sort of record it is.
    pub kind: Kind,
    /// The heads of the record that were on the writer's screen, exactly ([`crate::Record::heads`]).
    pub over: Vec<Key>,
    /// The fields and their values. A field not named here is left as it is.
    pub set: Map<String, Value>,
}

impl EntryDraft {
    /// The first entry of a new record.
    #[must_use]
    pub fn new(place: Place, of: RecordId, kind: Kind, set: Map<String, Value>) -> Self {
        Self { place, of, kind, over: Vec::new(), set }
    }
}

/// An immutable entry, with the very bytes of its line.
#[derive(Debug, Clone)]
pub struct Entry {
    key: Key,
    of: RecordId,
    kind: Kind,
    place: Place,
    by: DeviceId,
    at: At,
    over: Box<[Key]>,
    /// The line, or the whole file in which it stands: the entries of a file share its text.
    text: Arc<str>,
    /// Where in the text the line stands.
    line: Range<u32>,
    /// Where in the text the fields stand.
    set_range: Range<u32>,
    /// The fields, once they were asked for: records hold their values, and few entries are looked at besides.
    set: OnceLock<Box<Map<String, Value>>>,
}

/// Why a line is no entry.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Refusal {
    /// It does not begin as an entry does.
    Shape,
    /// Its key is not the hash of the rest: torn or changed.
    Key,
    /// Its key holds, but what it says cannot be understood (nesting, duplicate names, a value out of range).
    Meaning,
    /// It is longer than [`LINE_MAX_BYTES`].
    Long,
}

/// An entry's line after the key, in its fixed order.
#[derive(Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub(crate) struct Rest<'a> {
    /// The record it is about.
    of: &'a RecordId,
    /// What sort of record that is.
    kind: &'a Kind,
    /// The warp it belongs to; absent when it belongs to the shelf.
    #[serde(skip_serializing_if = "Option::is_none")]
    warp: Option<&'a RecordId>,
    /// The device that wrote it.
    by: &'a DeviceId,
    /// When, by that device's clock.
    at: &'a At,
    /// The entries of the record that stood on the writer's screen.
    over: &'a [Key],
    /// The fields and their values, units in the names; `gone` says whether the record was removed.
    #[serde(serialize_with = "by_name")]
    set: &'a Map<String, Value>,
}

/// Writes an object with its names in order, so that a line does not depend on how maps are built.
fn by_name<S: Serializer>(map: &Map<String, Value>, s: S) -> Result<S::Ok, S::Error> {
    let sorted: BTreeMap<&String, ByName<'_>> = map.iter().map(|(name, value)| (name, ByName(value))).collect();
    s.collect_map(sorted)
}

struct ByName<'a>(&'a Value);

impl Serialize for ByName<'_> {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        match self.0 {
            Value::Object(map) => by_name(map, s),
            Value::Array(list) => s.collect_seq(list.iter().map(ByName)),
            plain => plain.serialize(s),
        }
    }
}

/// An entry's line as it is read. Members not named here are carried in the line itself.
struct EntryLine<'a> {
    of: RecordId,
    kind: Kind,
    warp: Option<RecordId>,
    by: DeviceId,
    at: At,
    over: Vec<Key>,
    /// The text of the fields' object, in which no name comes twice.
    set: &'a str,
}

impl<'de> Deserialize<'de> for EntryLine<'de> {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        d.deserialize_map(LineVisitor)
    }
}

struct LineVisitor;

impl<'de> Visitor<'de> for LineVisitor {
    type Value = EntryLine<'de>;
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("an entry")
    }
    fn visit_map<A: MapAccess<'de>>(self, mut members: A) -> Result<EntryLine<'de>, A::Error> {
        let mut names = Vec::with_capacity(8);
        let (mut of, mut kind, mut by, mut at, mut set) = (None, None, None, None, None);
        let (mut warp, mut over) = (None, Vec::new());
        while let Some(Name(name)) = members.next_key()? {
            match &*name {
                "of" => of = Some(members.next_value()?),
                "kind" => kind = Some(members.next_value()?),
                "warp" => warp = members.next_value()?,
                "by" => by = Some(members.next_value()?),
                "at" => at = Some(members.next_value()?),
                "over" => over = members.next_value()?,
                "set" => set = Some(members.next_value::<&RawValue>()?.get()),
                _ => _ = members.next_value::<StrictValue>()?,
            }
            names.push(name);
        }
        refuse_duplicates(&mut names)?;
        let missing = A::Error::missing_field;
        let set = set.ok_or_else(|| missing("set"))?;
        serde_json::from_str::<StrictObject>(set).map_err(A::Error::custom)?;
        Ok(EntryLine {
            of: of.ok_or_else(|| missing("of"))?,
            kind: kind.ok_or_else(|| missing("kind"))?,
            warp,
            by: by.ok_or_else(|| missing("by"))?,
            at: at.ok_or_else(|| missing("at"))?,
            over,
            set,
        })
    }
}

impl Entry {
    /// Makes the entry a draft becomes when `by` writes it at `at`.
    ///
    /// # Errors
    /// [`Refusal::Long`] when the line would pass [`WRITTEN_MAX_BYTES`], [`Refusal::Meaning`] when what was
    /// given could not be read back (nesting deeper than a reader follows).
    pub fn from_draft(draft: EntryDraft, by: &DeviceId, at: At) -> Result<Self, Refusal> {
        let EntryDraft { place, of, kind, over, set } = draft;
        let rest = Rest { of: &of, kind: &kind, warp: place.warp_id(), by, at: &at, over: &over, set: &set };
        let rest = serde_json::to_string(&rest).map_err(|_| Refusal::Meaning)?;
        let rest = rest.get(1..).unwrap_or_default();
        let key = Key::of_rest(rest.as_bytes());
        let line = format!("{{\"key\":\"{key}\",{rest}");
        if line.len() > WRITTEN_MAX_BYTES {
            return Err(Refusal::Long);
        }
        Self::from_line(line.as_bytes())
    }

    /// Reads one line without what surrounds it (no comma, no line end).
    ///
    /// # Errors
    /// Why it is no entry.
    pub fn from_line(line: &[u8]) -> Result<Self, Refusal> {
        let key = Self::checked_key(line)?;
        let text: Arc<str> = std::str::from_utf8(line).map_err(|_| Refusal::Meaning)?.into();
        Self::read(key, &text, 0..line.len())
    }

    /// Reads one line that stands in a text, which it shares.
    ///
    /// # Errors
    /// Why it is no entry.
    pub(crate) fn from_part(text: &Arc<str>, line: Range<usize>) -> Result<Self, Refusal> {
        let key = Self::checked_key(text.as_bytes().get(line.clone()).unwrap_or_default())?;
        Self::read(key, text, line)
    }

    /// Reads one line whose key holds.
    fn read(key: Key, text: &Arc<str>, range: Range<usize>) -> Result<Self, Refusal> {
        let line = text.get(range.clone()).ok_or(Refusal::Shape)?;
        // In a file the line would end elsewhere.
        if line.contains('\n') || !line.ends_with('}') {
            return Err(Refusal::Shape);
        }
        let EntryLine { of, kind, warp, by, at, over, set } =
            serde_json::from_str(line).map_err(|_| Refusal::Meaning)?;
        let set_start = (set.as_ptr() as usize).saturating_sub(text.as_ptr() as usize);
        let position = |at: usize| u32::try_from(at).map_err(|_| Refusal::Long);
        Ok(Self {
            key,
            of,
            kind,
            place: warp.map_or(Place::Shelf, |id| Place::Warp { id }),
            by,
            at,
            over: over.into_boxed_slice(),
            set_range: position(set_start)?..position(set_start + set.len())?,
            line: position(range.start)?..position(range.end)?,
            text: Arc::clone(text),
            set: OnceLock::new(),
        })
    }

    /// The key a line carries, if the line begins as an entry does; not compared with the rest.
    #[must_use]
    pub fn claimed_key(line: &[u8]) -> Option<Key> {
        let key = line.strip_prefix(OPENING)?.get(..Key::DIGITS)?;
        Key::from_hex(key)
    }

    fn checked_key(line: &[u8]) -> Result<Key, Refusal> {
        if line.len() > LINE_MAX_BYTES {
            return Err(Refusal::Long);
        }
        let key = Self::claimed_key(line).ok_or(Refusal::Shape)?;
        let rest =
            line.get(OPENING.len() + Key::DIGITS..).and_then(|rest| rest.strip_prefix(b"\",")).ok_or(Refusal::Shape)?;
        if Key::of_rest(rest) == key { Ok(key) } else { Err(Refusal::Key) }
    }

    /// The entry's key.
    #[must_use]
    pub fn key(&self) -> Key {
        self.key
    }
    /// The record it is about.
    #[must_use]
    pub fn of(&self) -> &RecordId {
        &self.of
    }
    /// What sort of record that is.
    #[must_use]
    pub fn kind(&self) -> &Kind {
        &self.kind
    }
    /// The warp or shelf it belongs to.
    #[must_use]
    pub fn place(&self) -> &Place {
        &self.place
    }
    /// The device that wrote it.
    #[must_use]
    pub fn by(&self) -> &DeviceId {
        &self.by
    }
    /// When it was written, by that device's clock.
    #[must_use]
    pub fn at(&self) -> &At {
        &self.at
    }
    /// The entries that were on the writer's screen.
    #[must_use]
    pub fn over(&self) -> &[Key] {
        &self.over
    }
    /// The fields and their values.
    #[must_use]
    pub fn set(&self) -> &Map<String, Value> {
        // It was found to be an object when the line was read.
        self.set.get_or_init(|| serde_json::from_str(self.part(&self.set_range)).unwrap_or_default())
    }
    /// The fields and their values, read anew.
    pub(crate) fn field_values(&self) -> FieldValues {
        serde_json::from_str(self.part(&self.set_range)).unwrap_or_default()
    }
    /// The line, byte for byte as it was written.
    #[must_use]
    pub fn line(&self) -> &str {
        self.part(&self.line)
    }
    fn part(&self, range: &Range<u32>) -> &str {
        self.text.get(range.start as usize..range.end as usize).unwrap_or_default()
    }
    /// What orders entries where an order is shown: time, then key.
    pub(crate) fn order(&self) -> (&At, Key) {
        (&self.at, self.key)
    }
}

impl PartialEq for Entry {
    fn eq(&self, other: &Self) -> bool {
        self.key == other.key
    }
}
impl Eq for Entry {}
