//! One entry: the unit that is written once and never changed.

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::ops::Range;
use std::sync::{Arc, OnceLock};

use serde::{Deserialize, Serialize, Serializer};
use serde_json::{Map, Value};

use crate::clock::At;
use crate::ids::{DeviceId, Key, Kind, Place, RecordId};
use crate::quick;
use crate::strict::StrictMap;

/// Longest line that is read, in bytes. A longer one is refused and said.
pub const LINE_MAX_BYTES: usize = 1 << 20;
/// Longest line that is written, in bytes.
pub const WRITTEN_MAX_BYTES: usize = 128 << 10;

/// The field that says a record was removed. It is the one field whose meaning the journal knows.
pub const GONE: &str = "gone";

const OPENING: &[u8] = b"{\"key\":\"";

/// Something to be written: the values of some fields of one record.
#[derive(Debug, Clone, PartialEq)]
pub struct Draft {
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

impl Draft {
    /// The first entry of a new record.
    #[must_use]
    pub fn new(place: Place, of: RecordId, kind: Kind, set: Map<String, Value>) -> Self {
        Self { place, of, kind, over: Vec::new(), set }
    }

    /// An entry that answers all that stands in a record as it was shown.
    #[must_use]
    pub fn on(record: &crate::Record, set: Map<String, Value>) -> Self {
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
    pub fn removal(record: &crate::Record) -> Self {
        Self::on(record, Map::from_iter([(GONE.to_owned(), Value::Bool(true))]))
    }

    /// The restoring of a record as it was shown.
    #[must_use]
    pub fn restoring(record: &crate::Record) -> Self {
        Self::on(record, Map::from_iter([(GONE.to_owned(), Value::Bool(false))]))
    }
}

/// An immutable entry, with the very bytes of its line.
#[derive(Debug, Clone)]
pub struct Entry {
    key: Key,
    of: RecordId,
    at: At,
    over: Box<[Key]>,
    common: Arc<Common>,
    /// Where the line stands in its text.
    line: Range<u32>,
    /// Where in the text the fields begin, which end one before the line; 0 where they were read with the line.
    set_from: u32,
    /// The fields; worked out when they are asked for.
    set: OnceLock<Box<Map<String, Value>>>,
}

/// What many entries of a file have in common.
#[derive(Debug)]
struct Common {
    kind: Kind,
    place: Place,
    by: DeviceId,
    /// The text their lines stand in, which is their file's when many were read at once.
    text: Arc<String>,
}

impl Common {
    fn is(&self, kind: &str, warp: Option<&str>, by: &str) -> bool {
        self.kind.as_str() == kind && self.place.warp_id().map(RecordId::as_str) == warp && self.by.as_str() == by
    }
}

/// Reads the lines of one text, which the entries keep.
pub(crate) struct Lines {
    text: Arc<String>,
    /// What lines had in common, the latest last.
    common: Vec<Arc<Common>>,
}

/// So many kinds of lines are kept in sight.
const COMMON_MAX: usize = 8;

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
#[derive(Deserialize)]
struct Read<'a> {
    of: RecordId,
    kind: Kind,
    warp: Option<RecordId>,
    by: DeviceId,
    #[serde(borrow)]
    at: Cow<'a, str>,
    #[serde(default)]
    over: Vec<Key>,
    set: StrictMap,
}

impl Entry {
    /// Where the rest of a line begins: after the opening, the key, a quote and a comma.
    pub(crate) const AFTER_KEY: usize = OPENING.len() + Key::DIGITS + 2;

    /// Makes the entry a draft becomes when `by` writes it at `at`.
    ///
    /// # Errors
    /// [`Refusal::Long`] when the line would pass [`WRITTEN_MAX_BYTES`], [`Refusal::Meaning`] when what was
    /// given could not be read back (nesting deeper than a reader follows).
    pub fn from_draft(draft: Draft, by: &DeviceId, at: At) -> Result<Self, Refusal> {
        let Draft { place, of, kind, over, set } = draft;
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
        let text = std::str::from_utf8(line).map_err(|_| Refusal::Meaning)?;
        Lines::of(Arc::new(text.to_owned())).of_checked(key, 0..text.len())
    }

    fn says_the_same(&self, read: &Read<'_>) -> bool {
        self.of == read.of
            && *self.kind() == read.kind
            && self.place().warp_id() == read.warp.as_ref()
            && *self.by() == read.by
            && self.at.as_str() == read.at
            && *self.over == *read.over
            && serde_json::from_str::<Map<String, Value>>(self.set_text()).is_ok_and(|set| set == read.set.0)
    }

    /// The key a line carries, if the line begins as an entry does; not compared with the rest.
    #[must_use]
    pub fn claimed_key(line: &[u8]) -> Option<Key> {
        let key = line.strip_prefix(OPENING)?.get(..Key::DIGITS)?;
        Key::from_hex(key)
    }

    /// The id of the record that a line is about, if that stands where this program writes it; not looked at further.
    pub(crate) fn claimed_id(line: &[u8]) -> Option<&[u8]> {
        let id = line.get(Self::AFTER_KEY..)?.strip_prefix(b"\"of\":\"")?;
        id.get(..memchr::memchr(b'"', id)?)
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
        &self.common.kind
    }
    /// The warp or shelf it belongs to.
    #[must_use]
    pub fn place(&self) -> &Place {
        &self.common.place
    }
    /// The device that wrote it.
    #[must_use]
    pub fn by(&self) -> &DeviceId {
        &self.common.by
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
        // What was taken unread was found to be an object without a name twice, and reads as one.
        self.set.get_or_init(|| Box::new(serde_json::from_str(self.set_text()).unwrap_or_default()))
    }
    /// The fields as text, where nobody has read them yet.
    pub(crate) fn unread_set(&self) -> Option<&str> {
        self.set.get().is_none().then(|| self.set_text())
    }
    /// Whether the fields may say that the record was removed or restored; `false` is certain.
    pub(crate) fn may_say_gone(&self) -> bool {
        self.set_from == 0 || Self::may_be_gone(self.set_text())
    }
    /// The same of fields as text without escapes in their names.
    pub(crate) fn may_be_gone(set: &str) -> bool {
        memchr::memmem::find(set.as_bytes(), b"\"gone\"").is_some()
    }
    fn set_text(&self) -> &str {
        let end = (self.line.end as usize).saturating_sub(1);
        self.common.text.get(self.set_from as usize..end).unwrap_or_default()
    }
    /// The line, byte for byte as it was written.
    #[must_use]
    pub fn line(&self) -> &str {
        self.common.text.get(self.line.start as usize..self.line.end as usize).unwrap_or_default()
    }
    /// What orders entries where an order is shown: time, then key.
    pub(crate) fn order(&self) -> (&At, Key) {
        (&self.at, self.key)
    }
}

impl Lines {
    pub(crate) fn of(text: Arc<String>) -> Self {
        Self { text, common: Vec::new() }
    }

    /// Reads a line that stands in the text.
    pub(crate) fn read(&mut self, line: Range<usize>) -> Result<Entry, Refusal> {
        let key = Entry::checked_key(self.text.as_bytes().get(line.clone()).unwrap_or_default())?;
        self.of_checked(key, line)
    }

    fn of_checked(&mut self, key: Key, line: Range<usize>) -> Result<Entry, Refusal> {
        let text = Arc::clone(&self.text);
        let bare = text.get(line.clone()).ok_or(Refusal::Meaning)?;
        let short = |at: usize| u32::try_from(at).map_err(|_| Refusal::Long);
        let place = short(line.start)?..short(line.end)?;
        if let Some(parts) = quick::parts(bare, Entry::AFTER_KEY)
            && let Some(at) = At::carried(parts.at)
        {
            let entry = Entry {
                key,
                of: RecordId::of_checked(parts.of),
                at,
                over: parts.over.into_boxed_slice(),
                common: self.common(parts.kind, parts.warp, parts.by).ok_or(Refusal::Meaning)?,
                set_from: short(line.start + parts.set.start)?,
                set: OnceLock::new(),
                line: place,
            };
            debug_assert!(
                serde_json::from_str::<Read<'_>>(bare).is_ok_and(|read| entry.says_the_same(&read)),
                "the short way took what the general one does not: {bare}"
            );
            return Ok(entry);
        }
        // In a file the line would end elsewhere.
        if bare.contains('\n') || !bare.ends_with('}') {
            return Err(Refusal::Shape);
        }
        // Members that are only carried must be what every reader takes, too.
        serde_json::from_str::<StrictMap>(bare).map_err(|_| Refusal::Meaning)?;
        let read: Read<'_> = serde_json::from_str(bare).map_err(|_| Refusal::Meaning)?;
        let warp = read.warp.as_ref().map(RecordId::as_str);
        Ok(Entry {
            key,
            at: At::carried(&read.at).ok_or(Refusal::Meaning)?,
            over: read.over.into_boxed_slice(),
            common: self.common(read.kind.as_str(), warp, read.by.as_str()).ok_or(Refusal::Meaning)?,
            of: read.of,
            set_from: 0,
            set: OnceLock::from(Box::new(read.set.0)),
            line: place,
        })
    }

    /// What a line has in common with others; `None` when a word is no id.
    fn common(&mut self, kind: &str, warp: Option<&str>, by: &str) -> Option<Arc<Common>> {
        if let Some(known) = self.common.iter().rev().find(|common| common.is(kind, warp, by)) {
            return Some(Arc::clone(known));
        }
        let place = match warp {
            Some(warp) => Place::Warp { id: warp.parse().ok()? },
            None => Place::Shelf,
        };
        let text = Arc::clone(&self.text);
        let common = Arc::new(Common { kind: Kind::new(kind).ok()?, place, by: by.parse().ok()?, text });
        if self.common.len() == COMMON_MAX {
            self.common.remove(0);
        }
        self.common.push(Arc::clone(&common));
        Some(common)
    }
}

impl PartialEq for Entry {
    fn eq(&self, other: &Self) -> bool {
        self.key == other.key
    }
}
impl Eq for Entry {}
