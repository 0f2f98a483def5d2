//! What was reckoned of each warp, carried over to the next start in this device's own data, never in the folder.

use std::fs;
use std::io;
use std::path::Path;

use fellmark_answers::reports::reckoned::ReportCache;
use fellmark_journal::State;

const NAME: &str = "reckoned.memo";
/// More bytes than a memo of any folder has.
const MOST_BYTES: u64 = 64 << 20;
/// From so many warps reckoned at a start on, a new memo is worth writing: with fewer the next start is as quick.
const WORTH_WRITING: usize = 8;

/// Reckons the warps of a state, as far as no memo tells what they amount to; `keep` says whether a new memo may be left.
pub(super) fn brought_up(local: &Path, state: &State, keep: bool) -> ReportCache {
    let path = local.join(NAME);
    let mut reckonings = read(&path).map(|bytes| ReportCache::from_memo(&bytes)).unwrap_or_default();
    let reckoned = reckonings.bring_up(state);
    if keep
        && reckoned >= WORTH_WRITING
        && let Some(bytes) = reckonings.memo()
    {
        // Without it the next start reckons again; nothing is lost.
        std::thread::spawn(move || write(&path, &bytes).ok());
    }
    reckonings
}

fn read(path: &Path) -> Option<Vec<u8>> {
    let fits = fs::metadata(path).is_ok_and(|about| about.is_file() && about.len() <= MOST_BYTES);
    fits.then(|| fs::read(path).ok()).flatten()
}

/// Never in place, so that no reader finds half of it; one that a power cut tore is known by its check. Only the program that holds
/// the journal's lock writes here, and what it did not finish is written over.
fn write(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let unfinished = path.with_extension("new");
    fs::write(&unfinished, bytes)?;
    fs::rename(&unfinished, path)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use fellmark_answers::model::commands::Commands;
    use fellmark_answers::model::display_format::DisplayFormat;
    use fellmark_answers::present::view::WarpForm;
    use fellmark_journal::{Journal, Options};

    /// A journal of so many warps.
    fn journal(place: &Path, warps: usize) -> Journal {
        let mut journal =
            Journal::open(Options::new(place.join("log"), place.join("local"), "laptop").create()).unwrap();
        for n in 0..warps {
            let today = "2026-11-25".parse().unwrap();
            let mut pen = Commands { journal: &mut journal, format: DisplayFormat::default(), today };
            pen.begin_warp(&WarpForm { name: format!("warp {n}"), ..WarpForm::default() }).unwrap();
        }
        journal
    }

    /// Waits until the memo is there that is written meanwhile.
    fn wait_for(path: &Path) -> Vec<u8> {
        for _ in 0..500 {
            if let Ok(bytes) = fs::read(path) {
                return bytes;
            }
            std::thread::sleep(std::time::Duration::from_millis(10));
        }
        Vec::new()
    }

    #[test]
    fn the_next_start_reckons_nothing_and_a_broken_memo_costs_nothing_else() {
        let place = tempfile::tempdir().unwrap();
        let (local, path) = (place.path().join("local"), place.path().join("local").join(NAME));
        let journal = journal(place.path(), WORTH_WRITING);
        let count = |keep: bool| brought_up(&local, journal.state(), keep).count();
        assert_eq!(count(false), WORTH_WRITING as u64);
        assert!(!path.exists(), "who only looks leaves nothing");
        assert_eq!(count(true), WORTH_WRITING as u64);
        let memo = wait_for(&path);
        assert!(!memo.is_empty());
        assert_eq!(count(true), 0);
        for broken in [&memo[..memo.len() / 2], b"nonsense", b""] {
            fs::write(&path, broken).unwrap();
            assert_eq!(count(false), WORTH_WRITING as u64);
        }
        fs::remove_file(&path).unwrap();
        fs::create_dir(&path).unwrap();
        assert_eq!(count(true), WORTH_WRITING as u64);
    }

    #[test]
    fn a_few_warps_are_not_worth_a_memo() {
        let place = tempfile::tempdir().unwrap();
        let journal = journal(place.path(), WORTH_WRITING - 1);
        let local = place.path().join("local");
        assert_eq!(brought_up(&local, journal.state(), true).count(), WORTH_WRITING as u64 - 1);
        assert!(!local.join(NAME).exists());
    }
}
