//! What happens to a device in one step.

/// How often each of them happens among the others.
pub const STEPS: [(u64, RunStep); 17] = [
    (30, RunStep::Log),
    (14, RunStep::Correct),
    (6, RunStep::Remove),
    (6, RunStep::Restore),
    (8, RunStep::Undo),
    (14, RunStep::Kill),
    (14, RunStep::Carry),
    (6, RunStep::CarryPart),
    (3, RunStep::Copy),
    (4, RunStep::OldVersion),
    (6, RunStep::Clock),
    (4, RunStep::Disk),
    (4, RunStep::LocalDisk),
    (3, RunStep::CutReplica),
    (3, RunStep::Link),
    (2, RunStep::NoMarkers),
    (3, RunStep::Plant),
];

#[derive(Clone, Copy, Debug)]
pub enum RunStep {
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
