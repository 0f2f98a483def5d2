//! The display, and how many windows may stand on it at once.

use std::io::{BufRead, BufReader};
use std::process::Stdio;
use std::sync::{Condvar, Mutex, OnceLock, PoisonError};

use super::process::{Group, tied};

/// Windows at once: two cores drive no more without slowing each other past the patience of the tests.
const PLACES: usize = 2;

static FREE: Mutex<usize> = Mutex::new(PLACES);
static FREED: Condvar = Condvar::new();

/// Places on the display, held until dropped.
pub struct Stage {
    places: usize,
}

impl Stage {
    /// Waits until this many windows may be opened. A test takes all it needs at once, so that no two wait for each other.
    pub fn for_windows(places: usize) -> Self {
        assert!((1..=PLACES).contains(&places), "there are {PLACES} places");
        let free = FREE.lock().unwrap_or_else(PoisonError::into_inner);
        let mut free = FREED.wait_while(free, |free| *free < places).unwrap_or_else(PoisonError::into_inner);
        *free -= places;
        Self { places }
    }
}

impl Drop for Stage {
    fn drop(&mut self) {
        *FREE.lock().unwrap_or_else(PoisonError::into_inner) += self.places;
        FREED.notify_all();
    }
}

/// The one display of this test process, as `:7`.
pub fn display() -> &'static str {
    static DISPLAY: OnceLock<String> = OnceLock::new();
    DISPLAY.get_or_init(|| {
        let (tell, told) = std::sync::mpsc::channel();
        // The server ends with the thread that started it, so that thread stays.
        std::thread::spawn(move || {
            let mut server = tied("Xvfb");
            // Without -noreset the server starts over when its last window closes, and now and then hangs the next one.
            // The display's own pointer lies in its middle: on one so large it is beside every window, so that none of them is
            // told of it when another opens or closes above.
            server.args("-displayfd 1 -screen 0 2800x2000x24 -nolisten tcp -noreset".split(' '));
            let mut server = Group::start(server.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::null()));
            let mut number = String::new();
            let printed = server.child().stdout.take().expect("its output is piped");
            BufReader::new(printed).read_line(&mut number).expect("Xvfb says its display's number");
            assert!(!number.trim().is_empty(), "Xvfb did not start");
            tell.send(format!(":{}", number.trim())).expect("someone waits for it");
            loop {
                std::thread::park();
            }
        });
        told.recv().expect("Xvfb starts")
    })
}
