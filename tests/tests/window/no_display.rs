//! On a machine without a display.

use std::process::Command;

use fellmark_tests::window::app;

#[test]
fn a_display_that_cannot_be_reached_is_a_sentence_and_no_panic() {
    for display in [None, Some(":9999"), Some("no.such.host:0")] {
        let home = tempfile::tempdir().unwrap();
        let mut program = Command::new(app());
        program
            .env_clear()
            .env("HOME", home.path())
            .env("LC_ALL", "C.UTF-8")
            .envs(display.map(|name| ("DISPLAY", name)));
        let output = program.output().unwrap();
        let printed = String::from_utf8(output.stderr).unwrap();
        assert_eq!(output.status.code(), Some(1), "{printed}");
        assert!(printed.contains("The window could not be opened") && printed.contains("`fell`"), "{printed}");
        assert!(!printed.contains("panicked"), "{printed}");
    }
}
