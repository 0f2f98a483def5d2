//! Telling how far the reading of a folder is, and hearing that it is to stop.

use std::fmt;
use std::ops::ControlFlow;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, PoisonError};

/// How far the reading of a folder is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct HowFar {
    /// Files read so far.
    pub files_read: usize,
    /// Files in all; none while it is still looked up which there are.
    pub files: Option<usize>,
}

/// Who is told how far the reading is. The answer is whether to go on; the reading waits for it, and asks on one thread at a time.
#[derive(Clone)]
pub struct Told(Arc<dyn Fn(HowFar) -> ControlFlow<()> + Send + Sync>);

impl Told {
    /// Tells it so.
    pub fn new(tell: impl Fn(HowFar) -> ControlFlow<()> + Send + Sync + 'static) -> Self {
        Self(Arc::new(tell))
    }
}

impl fmt::Debug for Told {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Told")
    }
}

/// One reading that is told of. With nobody to tell it costs nothing and goes on to its end.
#[derive(Debug, Default)]
pub(crate) struct Telling {
    told: Option<Told>,
    files_read: Mutex<usize>,
    stopped: AtomicBool,
}

impl Telling {
    /// Begins one, and tells it before anything is asked of the disk.
    pub(crate) fn to(told: Option<Told>) -> Self {
        let telling = Self { told, ..Self::default() };
        telling.looking(|| ());
        telling
    }

    /// Whether the answer was to stop. What was read then is not all there is.
    pub(crate) fn is_stopped(&self) -> bool {
        self.stopped.load(Ordering::Relaxed)
    }

    /// Looks up which files a directory holds, unless it was stopped; then tells it.
    pub(crate) fn looking<R: Default>(&self, work: impl FnOnce() -> R) -> R {
        self.part(0, None, work)
    }

    /// Reads so many of the files, unless it was stopped; then tells it.
    pub(crate) fn reading<R: Default>(&self, part: usize, files: usize, work: impl FnOnce() -> R) -> R {
        self.part(part, Some(files), work)
    }

    fn part<R: Default>(&self, more: usize, files: Option<usize>, work: impl FnOnce() -> R) -> R {
        if self.is_stopped() {
            return R::default();
        }
        let done = work();
        if let Some(Told(told)) = &self.told {
            // Held while it is told, so that the counts come in order.
            let mut files_read = self.files_read.lock().unwrap_or_else(PoisonError::into_inner);
            *files_read += more;
            if !self.is_stopped() && told(HowFar { files_read: *files_read, files }).is_break() {
                self.stopped.store(true, Ordering::Relaxed);
            }
        }
        done
    }
}
