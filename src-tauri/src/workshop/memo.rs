//! What was reckoned of each warp, carried over to the next start in this device's own data, never in the folder.

use std::fs;
use std::io::{self, Write};
use std::path::Path;

use fellmark_answers::reckoned::Reckonings;
use fellmark_journal::State;

const NAME: &str = "reckoned.memo";
/// More bytes than a memo of any folder has.
const MOST_BYTES: u64 = 64 << 20;
/// From so many warps reckoned at a start on, a new memo is worth writing: with fewer the next start is as quick.
const WORTH_WRITING: usize = 8;

/// Reckons the warps of a state, as far as no memo tells what they amount to; `keep` says whether a new memo may be left.
pub(super) fn brought_up(local: &Path, state: &State, keep: bool) -> Reckonings {
    let path = local.join(NAME);
    let mut reckonings = read(&path).map(|bytes| Reckonings::from_memo(&bytes)).unwrap_or_default();
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

/// Never in place, so that no reader finds half of it; one that a power cut tore is known by its check.
fn write(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let dir = path.parent().unwrap_or(Path::new("."));
    let mut file = tempfile::NamedTempFile::new_in(dir)?;
    file.write_all(bytes)?;
    file.persist(path)?;
    Ok(())
}
