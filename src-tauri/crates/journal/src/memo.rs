//! Memos: files of this device's own that spare the next start some work, and may be lost or torn at any time without harm.

use std::fs;
use std::path::Path;
use std::thread::JoinHandle;

use crate::ids::Key;

/// Bytes of the check at the end of a memo.
const CHECK_BYTES: usize = 16;

/// Keeps a memo, on a thread of its own; an earlier one stays when its bytes cannot be made or written.
pub(crate) fn keep(
    dir: &Path,
    name: &str,
    make: impl FnOnce() -> std::io::Result<Vec<u8>> + Send + 'static,
) -> Option<JoinHandle<()>> {
    let (temp, target) = (dir.join(format!("{name}.tmp")), dir.join(name));
    let write = move || {
        let kept = make().and_then(|bytes| fs::write(&temp, bytes)).and_then(|()| fs::rename(&temp, target));
        if kept.is_err() {
            let _ = fs::remove_file(temp);
        }
    };
    std::thread::Builder::new().spawn(write).ok()
}

/// Ends a memo with a check of all its bytes.
pub(crate) fn with_check(mut bytes: Vec<u8>) -> Vec<u8> {
    let check = Key::of_rest(&bytes);
    bytes.extend_from_slice(&check.bytes());
    bytes
}

/// What stands before the check; nothing when that does not hold.
pub(crate) fn checked(bytes: &[u8]) -> Option<&[u8]> {
    let (rest, check) = bytes.split_last_chunk::<CHECK_BYTES>()?;
    (Key::of_rest(rest) == Key::from_bytes(*check)).then_some(rest)
}

/// A memo cut at every place, and with every byte changed.
#[cfg(test)]
pub(crate) fn broken(whole: &[u8]) -> impl Iterator<Item = Vec<u8>> {
    let cut = (0..whole.len()).map(|length| whole.get(..length).unwrap_or_default().to_vec());
    let changed = (0..whole.len()).map(|at| whole.iter().enumerate().map(|(i, b)| b ^ u8::from(i == at)).collect());
    cut.chain(changed)
}
