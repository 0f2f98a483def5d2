//! The JSON Schema of the folder's files, made from the very types that write them.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::Serialize;
use serde_json::Value;

use super::clock::At;
use super::entry::Rest;
use super::ids::{DeviceId, Key, Kind, RecordId};
use super::segment::Head;
use crate::store::marker::Marker;

/// A file of entries: `shelf/<device>.0001.json`, `warps/<name>-<id8>/<device>.0001.json`.
#[derive(Serialize, JsonSchema)]
#[schemars(title = "A file of entries")]
struct EntriesFile {
    #[serde(flatten)]
    head: Head,
    /// The entries, one to a line.
    entries: Vec<EntryShape<'static>>,
}

/// One entry: written once, never changed.
#[derive(Serialize, JsonSchema)]
#[schemars(title = "Entry", rename = "Entry")]
struct EntryShape<'a> {
    /// The first 128 bits of the SHA-256 of the bytes that follow `"key":"…",` up to the closing brace of the
    /// entry and with it.
    key: Key,
    #[serde(flatten)]
    rest: Rest<'a>,
}

/// The schema of a file of entries.
#[must_use]
pub fn entries_file() -> Value {
    schemars::schema_for!(EntriesFile).to_value()
}

/// The schema of a device's marker, `devices/<device>.json`.
#[must_use]
pub fn marker() -> Value {
    schemars::schema_for!(Marker).to_value()
}

macro_rules! text_schema {
    ($type:ty, $name:literal, $pattern:literal, $description:literal) => {
        impl JsonSchema for $type {
            fn schema_name() -> Cow<'static, str> {
                $name.into()
            }
            fn json_schema(_: &mut SchemaGenerator) -> Schema {
                json_schema!({ "type": "string", "pattern": $pattern, "description": $description })
            }
        }
    };
}

text_schema!(RecordId, "RecordId", "^[A-Za-z0-9_-]{1,64}$", "The id of one record: random, never reused.");
text_schema!(DeviceId, "DeviceId", "^[A-Za-z0-9_-]{1,64}$", "The id of one device: a word and a random end.");
text_schema!(Key, "Key", "^[0-9a-f]{32}$", "The key of an entry.");
text_schema!(Kind, "Kind", "^[A-Za-z0-9_-]{1,64}$", "What sort of record it is, such as warp, sitting or yarn.");
text_schema!(
    At,
    "At",
    "^.{0,64}$",
    "When it was written, by the writer's clock: 2026-05-31T18:04:05.123Z and a counter, .0000. Sorts as text."
);
