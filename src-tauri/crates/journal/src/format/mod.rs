//! How the journal is written: entries, files of entries, ids and times, as text and as values.

pub(crate) mod canonicalize;
pub(crate) mod clock;
pub(crate) mod entry;
pub(crate) mod field_values;
pub(crate) mod ids;
#[cfg(feature = "schema")]
pub mod schema;
pub(crate) mod segment;
pub(crate) mod slug;
pub(crate) mod strict;
