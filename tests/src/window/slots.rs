//! The display, and how many windows may be open on it at once.

use std::io::{BufRead, BufReader};
use std::process::Stdio;
use std::sync::{Condvar, Mutex, OnceLock, PoisonError};

use super::process::{Group, tied};

/// Windows at once: two cores drive no more without slowing each other down past the time limits of the tests.
const SLOTS: usize = 2;

static FREE: Mutex<usize> = Mutex::new(SLOTS);
static FREED: Condvar = Condvar::new();

/// Slots for windows on the display, held until dropped.
pub struct WindowSlots {
    count: usize,
}

impl WindowSlots {
    /// Waits until this many windows may be opened. A test takes all it needs at once, so that no two wait for each other.
    pub fn take(count: usize) -> Self {
        assert!((1..=SLOTS).contains(&count), "there are {SLOTS} slots");
        let free = FREE.lock().unwrap_or_else(PoisonError::into_inner);
        let mut free = FREED.wait_while(free, |free| *free < count).unwrap_or_else(PoisonError::into_inner);
        *free -= count;
        Self { count }
    }
}

impl Drop for WindowSlots {
    fn drop(&mut self) {
        *FREE.lock().unwrap_or_else(PoisonError::into_inner) += self.count;
        FREED.notify_all();
    }
}

/// The one display of this test process, as `:7`.
pub fn display() -> &'static str {
    static DISPLAY: OnceLock<String> = OnceLock::new();
    DISPLAY.get_or_init(|| {
        let (sender, receiver) = std::sync::mpsc::channel();
        // The server ends with the thread that started it, so that thread stays.
        std::thread::spawn(move || {
            let mut server = tied("Xvfb");
            // Without -noreset the server starts over when its last window closes, and now and then hangs the next one.
            // The display's own pointer is in its middle: on one so large it is beside every window, so that none of them
            // receives its events when another opens or closes above.
            server.args("-displayfd 1 -screen 0 2800x2000x24 -nolisten tcp -noreset".split(' '));
            let mut server = Group::start(server.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::null()));
            let mut number = String::new();
            let printed = server.child().stdout.take().expect("its output is piped");
            BufReader::new(printed).read_line(&mut number).expect("Xvfb says its display's number");
            assert!(!number.trim().is_empty(), "Xvfb did not start");
            sender.send(format!(":{}", number.trim())).expect("someone waits for it");
            loop {
                std::thread::park();
            }
        });
        receiver.recv().expect("Xvfb starts")
    })
}
