//! How far the reading of a folder is, reported to the window once it takes long; and stopping it. Beside the workspace, which is
//! locked meanwhile.

use std::ops::ControlFlow;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread::JoinHandle;
use std::time::Duration;

use fellmark_journal::{ReadProgress, ReadProgressListener};
use serde::Serialize;

/// A reading that is done sooner is not reported.
const FIRST_REPORT: Duration = Duration::from_millis(500);
/// Between two reports, so that the page is not flooded.
const BETWEEN_REPORTS: Duration = Duration::from_millis(100);

/// How many files of a folder are read.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct FilesRead {
    done: usize,
    /// In all; nothing while it is still looked up which there are.
    of: Option<usize>,
}

impl From<ReadProgress> for FilesRead {
    fn from(ReadProgress { files_read: done, files: of }: ReadProgress) -> Self {
        Self { done, of }
    }
}

/// Reports to the window: nothing when the reading is over.
type Report = dyn Fn(Option<FilesRead>) + Send + Sync;

/// The readings of folders, one after another.
#[derive(Clone)]
pub struct FolderProgress {
    stop: Arc<AtomicBool>,
    report: Arc<Report>,
}

impl FolderProgress {
    /// Readings that are reported so.
    pub fn new(report: impl Fn(Option<FilesRead>) + Send + Sync + 'static) -> Self {
        Self { stop: Arc::default(), report: Arc::new(report) }
    }

    /// Stops the one that goes on, as soon as the disk answers what was asked of it.
    pub fn stop(&self) {
        self.stop.store(true, Ordering::Relaxed);
    }

    /// Begins one.
    pub(crate) fn begin(&self) -> OneReading {
        self.stop.store(false, Ordering::Relaxed);
        let latest = Arc::default();
        let (going_on, is_over) = channel();
        let (report, seen) = (Arc::clone(&self.report), Arc::clone(&latest));
        // Reported by a thread of its own: a disk that does not answer keeps the reading itself from reporting anything.
        let reporter = std::thread::Builder::new().spawn(move || report_until(&is_over, &seen, &*report)).ok();
        OneReading { stop: Arc::clone(&self.stop), latest, going_on: Some(going_on), reporter }
    }
}

/// One reading; dropped, it is over, and the window knows it.
pub(crate) struct OneReading {
    stop: Arc<AtomicBool>,
    /// Nothing before the disk is asked for anything: another window may be waited for.
    latest: Arc<Mutex<Option<FilesRead>>>,
    /// Dropped when it is over.
    going_on: Option<Sender<()>>,
    reporter: Option<JoinHandle<()>>,
}

impl OneReading {
    /// For the journal that is read.
    pub(crate) fn listener(&self) -> ReadProgressListener {
        let (stop, latest) = (Arc::clone(&self.stop), Arc::clone(&self.latest));
        ReadProgressListener::new(move |progress| {
            *latest.lock().unwrap_or_else(PoisonError::into_inner) = Some(progress.into());
            if stop.load(Ordering::Relaxed) { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
        })
    }
}

impl Drop for OneReading {
    fn drop(&mut self) {
        self.going_on.take();
        if let Some(reporter) = self.reporter.take() {
            // Its last report must reach the window before what came of the reading does.
            let _ = reporter.join();
        }
    }
}

fn report_until(is_over: &Receiver<()>, latest: &Mutex<Option<FilesRead>>, report: &Report) {
    let mut wait = FIRST_REPORT;
    let mut has_reported = false;
    while is_over.recv_timeout(wait) == Err(RecvTimeoutError::Timeout) {
        wait = BETWEEN_REPORTS;
        let now = *latest.lock().unwrap_or_else(PoisonError::into_inner);
        // Reported even where nothing came since: at the start the page may not have listened yet.
        if now.is_some() {
            has_reported = true;
            report(now);
        }
    }
    if has_reported {
        report(None);
    }
}
