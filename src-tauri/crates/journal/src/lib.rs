//! The journal: entries, their merge, the folder of plain JSON files, watching it, photos.
//!
//! Three rules hold throughout. *One writer per file*: a device writes only files of its own. *What is written is
//! never changed, only answered*: an [`Entry`] is immutable and names, in `over`, what it answers. *Reading is a
//! union*: every readable entry counts, whatever the name of its file, and the [`State`] is a pure function of
//! the set of entries. `docs/format.md` describes the folder for people.
//!
//! The journal stores fields; what they mean is for the layers above. It opens no socket and starts no program.
//!
//! # Limitations
//! A change of a file that keeps both its size and its time is seen at the next start, not before. A file longer
//! than 32 MiB is read to that length, and a line longer than 1 MiB is refused; the journal itself writes neither.

mod cell;
mod cells;
mod check;
mod clock;
mod disk;
mod enter;
mod entry;
mod error;
mod fields;
mod grow;
mod ids;
mod index;
mod journal;
mod keep;
mod keys;
mod latest;
mod library;
mod local;
mod marker;
mod memo;
pub mod photo;
mod photo_store;
mod pool;
mod quick;
mod read;
mod reading;
mod record;
mod relay;
pub mod running;
mod save;
#[cfg(feature = "schema")]
pub mod schema;
mod segment;
mod shadow;
mod sheet;
mod slug;
mod sound;
mod state;
mod status;
mod strict;
mod text;
mod threads;
mod told;
mod watch;

pub use clock::{At, Clock};
pub use disk::{Disk, DiskFile, NodeKind, Stat, SystemDisk};
pub use entry::{Draft, Entry, GONE, LINE_MAX_BYTES, Refusal, WRITTEN_MAX_BYTES};
pub use error::Error;
pub use fields::Fields;
pub use ids::{DeviceId, IdError, Key, Kind, Place, RecordId};
pub use journal::{Changes, Journal, Options};
pub use marker::{Marker, journal_in};
pub use photo::PhotoError;
pub use photo_store::PhotoAdded;
pub use reading::FILE_MAX_BYTES;
pub use record::{Answer, Field, Presence, Record};
pub use running::RunningLog;
pub use save::Written;
pub use segment::{FORMAT, Head, SCHEMA, SEGMENT_MAX_BYTES, Segment, Wrong, render};
pub use state::State;
pub use status::{DeviceInfo, FolderState, Problem, Status};
pub use told::{HowFar, Told};
pub use watch::{Watcher, watch};
