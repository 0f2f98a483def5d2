//! How far the reading of a folder is, told to the window once it takes long; and stopping it. Beside the workshop, which is held
//! meanwhile.

use std::ops::ControlFlow;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread::JoinHandle;
use std::time::Duration;

use fellmark_journal::{ReadProgress, ReadProgressListener};
use serde::Serialize;

/// A reading that is done sooner is not told of.
const TOLD_FROM: Duration = Duration::from_millis(500);
/// Between two tellings, so that the page is not flooded.
const TOLD_EVERY: Duration = Duration::from_millis(100);

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

/// Tells the window: nothing when the reading is over.
type Tell = dyn Fn(Option<FilesRead>) + Send + Sync;

/// The readings of folders, one after another.
#[derive(Clone)]
pub struct FolderReading {
    stop: Arc<AtomicBool>,
    tell: Arc<Tell>,
}

impl FolderReading {
    /// Readings of which the window is told so.
    pub fn new(tell: impl Fn(Option<FilesRead>) + Send + Sync + 'static) -> Self {
        Self { stop: Arc::default(), tell: Arc::new(tell) }
    }

    /// Stops the one that goes on, as soon as the disk answers what was asked of it.
    pub fn stop(&self) {
        self.stop.store(true, Ordering::Relaxed);
    }

    /// Begins one.
    pub fn begin(&self) -> OneReading {
        self.stop.store(false, Ordering::Relaxed);
        let latest = Arc::default();
        let (going_on, is_over) = channel();
        let (tell, told) = (Arc::clone(&self.tell), Arc::clone(&latest));
        // Told by a thread of its own: a disk that does not answer keeps the reading itself from telling anything.
        let teller = std::thread::Builder::new().spawn(move || tell_until(&is_over, &told, &*tell)).ok();
        OneReading { stop: Arc::clone(&self.stop), latest, going_on: Some(going_on), teller }
    }
}

/// One reading; dropped, it is over, and the window knows it.
pub struct OneReading {
    stop: Arc<AtomicBool>,
    /// Nothing before the disk is asked for anything: another window may be waited for.
    latest: Arc<Mutex<Option<FilesRead>>>,
    /// Dropped when it is over.
    going_on: Option<Sender<()>>,
    teller: Option<JoinHandle<()>>,
}

impl OneReading {
    /// For the journal that is read.
    pub fn listener(&self) -> ReadProgressListener {
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
        if let Some(teller) = self.teller.take() {
            // What it told last must reach the window before what came of the reading does.
            let _ = teller.join();
        }
    }
}

fn tell_until(is_over: &Receiver<()>, latest: &Mutex<Option<FilesRead>>, tell: &Tell) {
    let mut wait = TOLD_FROM;
    let mut is_told = false;
    while is_over.recv_timeout(wait) == Err(RecvTimeoutError::Timeout) {
        wait = TOLD_EVERY;
        let now = *latest.lock().unwrap_or_else(PoisonError::into_inner);
        // Told even where nothing came since: at the start the page may not have listened yet.
        if now.is_some() {
            is_told = true;
            tell(now);
        }
    }
    if is_told {
        tell(None);
    }
}
