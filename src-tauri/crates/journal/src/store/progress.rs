//! How far the reading of a folder is, and stopping it.

use std::fmt;
use std::ops::ControlFlow;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, PoisonError};

/// How far the reading of a folder is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ReadProgress {
    /// Files read so far.
    pub files_read: usize,
    /// Files in all; none while it is still looked up which there are.
    pub files: Option<usize>,
}

/// Receives how far the reading is, and answers whether to go on. The reading waits for the answer, and asks on one thread at
/// a time.
#[derive(Clone)]
pub struct ReadProgressListener(Arc<dyn Fn(ReadProgress) -> ControlFlow<()> + Send + Sync>);

impl ReadProgressListener {
    /// A listener.
    pub fn new(listen: impl Fn(ReadProgress) -> ControlFlow<()> + Send + Sync + 'static) -> Self {
        Self(Arc::new(listen))
    }
}

impl fmt::Debug for ReadProgressListener {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("ReadProgressListener")
    }
}

/// Reports the progress of one reading. Without a listener the reading goes on to its end.
#[derive(Debug, Default)]
pub(crate) struct ProgressReporter {
    listener: Option<ReadProgressListener>,
    files_read: Mutex<usize>,
    stopped: AtomicBool,
}

impl ProgressReporter {
    /// Begins one, and reports before anything is asked of the disk.
    pub(crate) fn begin(listener: Option<ReadProgressListener>) -> Self {
        let reporter = Self { listener, ..Self::default() };
        reporter.step(0, None, || ());
        reporter
    }

    /// Whether the answer was to stop. What was read then is not all there is.
    pub(crate) fn is_stopped(&self) -> bool {
        self.stopped.load(Ordering::Relaxed)
    }

    /// Does a step of the reading, which reads `more` files of so many, unless it was stopped; then reports it.
    pub(crate) fn step<R: Default>(&self, more: usize, files: Option<usize>, work: impl FnOnce() -> R) -> R {
        if self.is_stopped() {
            return R::default();
        }
        let done = work();
        if let Some(ReadProgressListener(listen)) = &self.listener {
            // Held while it is reported, so that the counts come in order.
            let mut files_read = self.files_read.lock().unwrap_or_else(PoisonError::into_inner);
            *files_read += more;
            if !self.is_stopped() && listen(ReadProgress { files_read: *files_read, files }).is_break() {
                self.stopped.store(true, Ordering::Relaxed);
            }
        }
        done
    }
}
