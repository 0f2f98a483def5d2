//! The web view's own data under the identifier of earlier versions (the keys chosen for tapping, the sound of a tap).

use std::io;
use std::path::Path;

/// The identifier of version 0.1.0 and before.
const FORMER: &str = "fellmark.journal";
/// Today's, as in `tauri.conf.json`.
pub const IDENTIFIER: &str = "org.fellmark.Fellmark";

/// Moves the folder of the former identifier to today's, if there is one and today's is not there yet.
///
/// # Errors
/// The folder cannot be moved; nothing of it is lost then.
pub fn take_over(data: &Path) -> io::Result<()> {
    let (former, today) = (data.join(FORMER), data.join(IDENTIFIER));
    if former.is_dir() && !today.exists() { std::fs::rename(former, today) } else { Ok(()) }
}

#[cfg(test)]
mod tests {
    use super::{FORMER, IDENTIFIER, take_over};

    #[test]
    fn identifier_is_the_configured_one() {
        let configuration: serde_json::Value = serde_json::from_str(include_str!("../tauri.conf.json")).unwrap();
        assert_eq!(configuration["identifier"], IDENTIFIER);
    }

    #[test]
    fn data_of_the_former_identifier_are_taken_over_once() {
        let data = tempfile::tempdir().unwrap();
        take_over(data.path()).unwrap();
        assert!(!data.path().join(IDENTIFIER).exists());
        std::fs::create_dir(data.path().join(FORMER)).unwrap();
        std::fs::write(data.path().join(FORMER).join("keys"), "space").unwrap();
        take_over(data.path()).unwrap();
        assert_eq!(std::fs::read_to_string(data.path().join(IDENTIFIER).join("keys")).unwrap(), "space");
        // What today's version has stored meanwhile stays.
        std::fs::create_dir(data.path().join(FORMER)).unwrap();
        std::fs::write(data.path().join(FORMER).join("keys"), "enter").unwrap();
        take_over(data.path()).unwrap();
        assert_eq!(std::fs::read_to_string(data.path().join(IDENTIFIER).join("keys")).unwrap(), "space");
    }
}
