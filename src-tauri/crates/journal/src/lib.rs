//! The journal: entries, their merge, the folder of plain JSON files, watching it, photos.
//!
//! Three rules hold throughout. *One writer per file*: a device writes only files of its own. *What is written is
//! never changed, only superseded*: an [`Entry`] is immutable and names, in `over`, what it replaces. *Reading is a
//! union*: every readable entry counts, whatever the name of its file, and the [`EntrySet`] is a pure function of
//! the set of entries. `docs/format.md` describes the folder for people.
//!
//! | Module | What is in it |
//! |---|---|
//! | `format` | one entry, one file of entries, ids, times: text to values and back |
//! | `merge` | the merge rule, alone |
//! | `record`, `entry_set` | what a set of entries amounts to |
//! | `store` | the folder and this device's own data: reading, appending, outbox, local replica, watching |
//! | `photos` | photographs: made ready, stored, found again |
//! | `running_log` | the sitting that runs now |
//!
//! The journal stores fields; what they mean is for the layers above. It opens no socket and starts no program.
//!
//! # Limitations
//! A change of a file that keeps both its size and its time is seen at the next start, not before. A file longer
//! than 32 MiB is read to that length, and a line longer than 1 MiB is refused; the journal itself writes neither.

mod entry_set;
mod error;
mod format;
mod journal;
mod merge;
pub mod photos;
mod record;
mod running_log;
mod store;

pub use entry_set::EntrySet;
pub use error::Error;
pub use format::clock::{At, TimeSource};
pub use format::entry::{Entry, EntryDraft, GONE, LINE_MAX_BYTES, Refusal, WRITTEN_MAX_BYTES};
pub use format::ids::{DeviceId, IdError, Key, Kind, Place, RecordId};
#[cfg(feature = "schema")]
pub use format::schema;
pub use format::segment::{FORMAT, Head, LineProblem, SCHEMA, SEGMENT_MAX_BYTES, Segment, render};
pub use journal::{ChangedRecords, Journal, Options};
pub use merge::Presence;
pub use photos::{PhotoAdded, PhotoError};
pub use record::{CompetingValue, Field, Fields, Record};
pub use running_log::RunningLog;
pub use store::append::Written;
pub use store::disk::{Disk, DiskFile, NodeKind, Stat, SystemDisk, private_dir};
pub use store::files::FILE_MAX_BYTES;
pub use store::marker::{Marker, journal_in};
pub use store::progress::{ReadProgress, ReadProgressListener};
pub use store::status::{DeviceInfo, FolderState, Problem, ProblemKind, Status};
pub use store::watch::{Watcher, watch};
