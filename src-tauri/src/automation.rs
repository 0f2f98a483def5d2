//! Keeps other programs from steering the window of a released program.
//!
//! The toolkit lets a web driver in when an environment variable asks for it. Tests and benchmarks need that; a weaver's window must
//! not be steered because of a variable that some other program has set.

use std::io;
use std::os::unix::process::CommandExt;
use std::process::Command;

/// The toolkit's variable.
const VARIABLE: &str = "TAURI_WEBVIEW_AUTOMATION";

/// Starts this program again without the variable, where it is set.
///
/// # Errors
/// The program cannot be started again; it must not go on with the variable set.
pub fn start_without() -> io::Result<()> {
    if std::env::var_os(VARIABLE).is_none() {
        return Ok(());
    }
    let program = std::env::current_exe()?;
    Err(Command::new(program).args(std::env::args_os().skip(1)).env_remove(VARIABLE).exec())
}
