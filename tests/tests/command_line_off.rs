//! The command line off the loom: cutting off, finishing, and what it taught.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

use std::path::Path;
use std::process::{Command, Output};

use fellmark_tests::window::command_line;
use serde_json::Value;

fn run(home: &Path, arguments: &[&str]) -> Output {
    Command::new(command_line())
        .args(["--folder", home.join("folder").to_str().unwrap(), "--today", "2026-11-25", "--json"])
        .args(arguments)
        .env("HOME", home)
        .env("XDG_DATA_HOME", home.join("data"))
        .env("LC_ALL", "en_GB.UTF-8")
        .env_remove("FELLMARK_FOLDER")
        .output()
        .unwrap()
}

fn json(home: &Path, arguments: &[&str]) -> Value {
    let output = run(home, arguments);
    assert!(output.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    serde_json::from_slice(&output.stdout).unwrap()
}

#[test]
fn a_warp_is_cut_off_and_teaches_the_next() {
    let home = tempfile::tempdir().unwrap();
    let home = home.path();
    let figures = ["--wound", "250 cm", "--wanted", "180", "--wanted-state", "under_tension", "--picks", "40"];
    json(home, &[&["begin", "Sea runner"], figures.as_slice()].concat());
    json(home, &["log", "Sea runner", "--picks", "720", "--minutes", "360", "--measured", "180 cm"]);
    json(home, &["cut-off", "Sea runner", "--front", "20 cm", "--thrums", "30 cm", "--on", "2026-11-20"]);
    json(home, &["step", "Sea runner", "hem", "--on", "2026-11-21"]);
    json(home, &["step", "Sea runner", "Mend the selvedge", "--add"]);
    json(home, &["cut-off", "Sea runner", "--finished", "162 cm"]);
    let off = json(home, &["came-out", "Sea runner"])["came_out"].clone();
    let steps: Vec<(&str, &Value)> =
        off["steps"].as_array().unwrap().iter().map(|s| (s["name"].as_str().unwrap(), &s["done_on"])).collect();
    assert_eq!(steps.len(), 5);
    assert_eq!((steps[0].0, steps[0].1.as_str()), ("Hem", Some("2026-11-21")));
    assert_eq!((steps[4].0, steps[4].1.as_str()), ("Mend the selvedge", None));
    // 200 of warp in 180 of cloth; 162 of 180.
    let told = |what: &str| {
        let lessons = off["lessons"].as_array().unwrap();
        lessons.iter().find(|lesson| lesson["what"] == what).unwrap()["value"].as_str().unwrap().to_owned()
    };
    assert_eq!((told("Take-up").as_str(), told("Length lost").as_str()), ("111.1", "10"));
    assert_eq!(off["form"]["on"], "2026-11-20", "measuring later leaves the day as it was");

    let refused = run(home, &["step", "Sea runner", "iron"]);
    assert_eq!(refused.status.code(), Some(3));
    let refused = run(home, &["cut-off", "Sea runner", "--finished", "9 m"]);
    assert_eq!(refused.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&refused.stderr).contains("--finished"));
}
