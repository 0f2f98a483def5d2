//! What happens to a device in one step.

/// How often each of them happens among the others.
pub const STEPS: [(u64, Step); 17] = [
    (30, Step::Log),
    (14, Step::Correct),
    (6, Step::Remove),
    (6, Step::Restore),
    (8, Step::Undo),
    (14, Step::Kill),
    (14, Step::Carry),
    (6, Step::CarryPart),
    (3, Step::Copy),
    (4, Step::OldVersion),
    (6, Step::Clock),
    (4, Step::Disk),
    (4, Step::LocalDisk),
    (3, Step::CutReplica),
    (3, Step::Link),
    (2, Step::NoMarkers),
    (3, Step::Plant),
];

#[derive(Clone, Copy, Debug)]
pub enum Step {
    /// A sitting is logged.
    Log,
    /// A sitting is corrected by the device that logged it.
    Correct,
    Remove,
    Restore,
    /// A device takes back what it did last, where that is known.
    Undo,
    /// A command is killed while it runs.
    Kill,
    /// A synchroniser carries some files.
    Carry,
    /// A synchroniser is stopped in the middle of a file.
    CarryPart,
    /// A copy of the folder is put by.
    Copy,
    /// A file comes back as it was in an earlier copy.
    OldVersion,
    /// A device's clock jumps.
    Clock,
    /// The disk of one device's folder becomes full or read-only, or is as it should be again.
    Disk,
    /// The disk of one device's own data becomes full, or is as it should be again.
    LocalDisk,
    /// The end of a device's local replica is lost.
    CutReplica,
    /// A directory of the folder is a link out of it for a while.
    Link,
    /// All markers of devices go from a folder, and it is marked again.
    NoMarkers,
    /// A file turns up that nobody should trust.
    Plant,
}
