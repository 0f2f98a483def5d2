//! The screen stays awake while a sitting is woven: asked of the desktop, on a thread of its own, since a desktop may be slow to
//! answer and a tap must not wait for it.
//!
//! What is asked for ends by itself when no pick has come for as long as a pause takes, and with the program however it ends: the
//! desktop takes it back when the connection is gone.

#[cfg(target_os = "linux")]
mod desktop;
#[cfg(not(target_os = "linux"))]
mod elsewhere;

use std::sync::mpsc::{self, Receiver, RecvTimeoutError, Sender};
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

#[cfg(target_os = "linux")]
use desktop::DesktopInhibitor as Inhibitor;
#[cfg(not(target_os = "linux"))]
use elsewhere::NoInhibitor as Inhibitor;

/// A desktop that would not hold the screen is asked again only after so long.
const ASK_AGAIN: Duration = Duration::from_secs(60);
/// Longest wait for what the desktop said.
const PATIENCE: Duration = Duration::from_secs(10);

enum Wish {
    /// Keep it awake for so long, if nothing else is wished until then.
    For(Duration),
    /// It may go dark.
    No,
    /// Say whether it is held.
    Report(Sender<bool>),
}

/// Keeps the screen awake, or lets it go.
pub struct Awake {
    wishes: Mutex<Sender<Wish>>,
    /// What was wished last: until when, in milliseconds since 1970.
    last: Mutex<Option<i64>>,
}

impl Awake {
    /// Starts with a screen that may go dark.
    pub fn new() -> Self {
        let (wishes, wished) = mpsc::channel();
        std::thread::spawn(move || keep(&wished));
        Self { wishes: Mutex::new(wishes), last: Mutex::new(None) }
    }

    /// Keeps the screen awake until then, given the time now, both in milliseconds since 1970; without a time, or with one gone
    /// by, it may go dark. Costs nothing when that was wished before.
    pub fn until(&self, until_ms: Option<i64>, now_ms: i64) {
        let until_ms = until_ms.filter(|until| *until > now_ms);
        let mut last = self.last.lock().unwrap_or_else(PoisonError::into_inner);
        if *last == until_ms {
            return;
        }
        *last = until_ms;
        self.wish(match until_ms {
            Some(until) => Wish::For(Duration::from_millis(until.abs_diff(now_ms))),
            None => Wish::No,
        });
    }

    /// Whether the desktop keeps the screen awake now, after all that was wished so far; nothing where only the web view could.
    pub fn is_held(&self) -> Option<bool> {
        if !cfg!(target_os = "linux") {
            return None;
        }
        let (sender, receiver) = mpsc::channel();
        self.wish(Wish::Report(sender));
        Some(receiver.recv_timeout(PATIENCE).unwrap_or(false))
    }

    fn wish(&self, wish: Wish) {
        // Its thread ends only with this.
        let _ = self.wishes.lock().unwrap_or_else(PoisonError::into_inner).send(wish);
    }
}

fn keep(wished: &Receiver<Wish>) {
    let mut inhibitor: Option<Inhibitor> = None;
    let mut until: Option<Instant> = None;
    let mut refused: Option<Instant> = None;
    loop {
        let wish = match until {
            Some(until) => wished.recv_timeout(until.saturating_duration_since(Instant::now())),
            None => wished.recv().map_err(|_| RecvTimeoutError::Disconnected),
        };
        match wish {
            Ok(Wish::For(time)) => {
                until = Some(Instant::now() + time);
                let again = refused.is_none_or(|refused| refused.elapsed() > ASK_AGAIN);
                if again && !inhibitor.as_ref().is_some_and(Inhibitor::is_active) {
                    inhibitor = Inhibitor::ask();
                    refused = inhibitor.is_none().then(Instant::now);
                }
            }
            Ok(Wish::Report(sender)) => {
                // Whoever asked may have stopped waiting.
                let _ = sender.send(inhibitor.as_ref().is_some_and(Inhibitor::is_active));
            }
            Ok(Wish::No) | Err(RecvTimeoutError::Timeout) => {
                until = None;
                inhibitor = None;
            }
            Err(RecvTimeoutError::Disconnected) => return,
        }
    }
}
