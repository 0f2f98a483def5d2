//! Every command ends with the exit code that `docs/command-line.md` has for what happened.

use fellmark_tests::command_line::CommandLineDevice;

const DONE: i32 = 0;
const BAD_INPUT: i32 = 2;
const NOT_FOUND: i32 = 3;
const NO_FOLDER: i32 = 4;

#[test]
fn every_command_ends_as_its_description_says() {
    let device = CommandLineDevice::new("laptop");
    device.json(&["begin", "W", "--wound", "3 m", "--waste", "50 cm", "--picks", "40"]);
    let logged = device.json(&["log", "W", "--picks", "10"]);
    let sitting = logged["sitting"].as_str().unwrap();
    let cases: &[(i32, &[&str])] = &[
        (DONE, &["warps"]),
        (DONE, &["plans"]),
        (DONE, &["devices"]),
        (DONE, &["check"]),
        (DONE, &["write-back"]),
        (DONE, &["answers"]),
        (DONE, &["resolve"]),
        (DONE, &["pace"]),
        (DONE, &["export", "sittings"]),
        (DONE, &["sittings", "W"]),
        (DONE, &["place", "W"]),
        (DONE, &["measurements", "W"]),
        (DONE, &["yarns", "W"]),
        (DONE, &["draw", "W"]),
        (DONE, &["set-aside", "W"]),
        (DONE, &["resume", "W"]),
        (DONE, &["stretch", "off"]),
        (DONE, &["units", "metric"]),
        (BAD_INPUT, &["dance"]),
        (BAD_INPUT, &["begin", "V", "--wound", "seven ells"]),
        (BAD_INPUT, &["plan", "--length", "seven ells"]),
        (BAD_INPUT, &["change", "W", "--wound", "seven ells"]),
        (BAD_INPUT, &["log", "W"]),
        (BAD_INPUT, &["log", "W", "--picks", "many"]),
        (BAD_INPUT, &["log", "W", "--picks", "3", "--photo", "/nowhere/cloth.jpg"]),
        (BAD_INPUT, &["correct", sitting, "--picks", "many"]),
        (BAD_INPUT, &["photo", sitting, "/nowhere/cloth.jpg"]),
        (BAD_INPUT, &["measure", "W"]),
        (BAD_INPUT, &["measure", "W", "--measured", "NaN"]),
        (BAD_INPUT, &["add-yarn", "W", "--mass", "heavy"]),
        (BAD_INPUT, &["stretch", "soon"]),
        (BAD_INPUT, &["cut-off", "W", "--finished", "long"]),
        (BAD_INPUT, &["pace", "--split", "here"]),
        (BAD_INPUT, &["import", "/nowhere/table.csv"]),
        (BAD_INPUT, &["export", "weather"]),
        (BAD_INPUT, &["units", "furlong"]),
        (BAD_INPUT, &["mark-folder"]),
        (NOT_FOUND, &["answers", "nobody"]),
        (NOT_FOUND, &["change", "nobody", "--wound", "3 m"]),
        (NOT_FOUND, &["log", "nobody", "--picks", "3"]),
        (NOT_FOUND, &["correct", "nobody", "--picks", "3"]),
        (NOT_FOUND, &["photo", "nobody", "/nowhere/cloth.jpg"]),
        (NOT_FOUND, &["remove", "nobody"]),
        (NOT_FOUND, &["restore", "nobody"]),
        (NOT_FOUND, &["place", "nobody"]),
        (NOT_FOUND, &["measure", "nobody", "--measured", "10"]),
        (NOT_FOUND, &["measurements", "nobody"]),
        (NOT_FOUND, &["sittings", "nobody"]),
        (NOT_FOUND, &["yarns", "nobody"]),
        (NOT_FOUND, &["add-yarn", "nobody", "--name", "Red"]),
        (NOT_FOUND, &["change-yarn", "W", "nobody", "--name", "Red"]),
        (NOT_FOUND, &["draw", "nobody"]),
        (NOT_FOUND, &["set-aside", "nobody"]),
        (NOT_FOUND, &["resume", "nobody"]),
        (NOT_FOUND, &["cut-off", "nobody"]),
        (NOT_FOUND, &["results", "nobody"]),
        (NOT_FOUND, &["step", "nobody", "wash"]),
        (NOT_FOUND, &["resolve", "nobody", "picks", "0"]),
        (NO_FOLDER, &["sample"]),
        (NO_FOLDER, &["mark-folder", "--confirm"]),
        (DONE, &["undo"]),
    ];
    for (code, arguments) in cases {
        let output = device.run(arguments);
        let said = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(*code), "{arguments:?}: {said}");
        assert_eq!(said.is_empty(), *code == DONE, "{arguments:?}: {said}");
    }
    // Where there is no log every command that does not begin one says so, except a plan, which needs none; nothing is made.
    let missing = CommandLineDevice::on("laptop", &device.home().join("nowhere"));
    let begins = ["begin", "sample", "dance"];
    let opens = cases.iter().filter(|(code, arguments)| {
        let is_read_first = *code == BAD_INPUT && matches!(arguments[0], "export" | "units" | "mark-folder" | "plan");
        !begins.contains(&arguments[0]) && !is_read_first
    });
    for (_, arguments) in opens {
        missing.refused(arguments, NO_FOLDER);
    }
    assert!(!missing.folder().exists());
}
