//! The command line's plan: the same calculation as in the window, as text and as JSON, and the warp it becomes.

use fellmark_tests::command_line as fell;
use serde_json::{Value, json};

const RUNNER: [&str; 14] = [
    "plan",
    "--length",
    "72 in",
    "--width",
    "10 in",
    "--sett",
    "10 epi",
    "--waste",
    "20 in",
    "--warp-per-100",
    "111.1111",
    "--shrinkage",
    "10",
    "--why",
];

#[test]
fn a_wish_is_calculated_and_begun() {
    let home = tempfile::tempdir().unwrap();
    let home = home.path();
    let begun = fell::json_of(home, &[&RUNNER[..], &["--name", "Runner", "--begin"]].concat());
    let plain = &begun["plan"]["plain"];
    // 72 in at 10 % and 10 % and 20 in of waste: 108.9 in; the rule of thumb has 92.
    let inches = |value: &Value| value.as_f64().unwrap() / 25.4;
    assert!((inches(&plain["warp_exact_mm"]) - 108.89).abs() < 0.01, "{plain}");
    assert!((inches(&plain["rule_of_thumb_mm"]) - 92.0).abs() < 1e-6);
    let warps = fell::json_of(home, &["warps"]);
    assert_eq!(warps["warps"][0]["id"], begun["warp"]);
    assert_eq!(warps["warps"][0]["name"], json!("Runner"));

    // Nothing is written where nothing is begun; what was planned can be copied.
    let copied = fell::json_of(home, &["plan", "--copy", "Runner"]);
    assert_eq!(copied["plan"]["plain"]["warp_mm"], plain["warp_mm"]);
    assert_eq!(fell::json_of(home, &["warps"])["warps"].as_array().unwrap().len(), 1);
    let text = String::from_utf8(fell::run(home, &RUNNER).stdout).unwrap();
    for words in ["Wind ", "Warp to wind", "rounded up", "By the common rule", "at the loom"] {
        assert!(text.contains(words), "{words} in {text}");
    }
    fell::json_of(home, &["undo"]);
    assert_eq!(fell::json_of(home, &["warps"])["warps"][0]["state"], json!("removed"));
}

#[test]
fn the_yarn_makes_a_piece_and_bad_input_names_its_argument() {
    let home = tempfile::tempdir().unwrap();
    let home = home.path();
    fell::json_of(home, &[&RUNNER[..], &["--begin"]].concat());
    let yarn =
        ["plan", "--from", "yarn", "--warp-have", "300 m", "--weft-have", "200 m", "--sett", "40", "--width", "25 cm"];
    let plan = fell::json_of(home, &yarn)["plan"].clone();
    let point = &plan["curve"]["points"][plan["curve"]["chosen"].as_u64().unwrap() as usize];
    assert_eq!(point["width_mm"], json!(250.0));
    assert!(point["words"].as_str().unwrap().contains("ends first"));
    for (argument, value) in [("--sett", "wide"), ("--draw-in", "lots"), ("--waste", "a bit")] {
        let output = fell::run(home, &["plan", "--length", "1 m", argument, value]);
        assert_eq!(output.status.code(), Some(2));
        let said = String::from_utf8(output.stderr).unwrap();
        assert!(said.starts_with(argument), "{said}");
    }
    let output = fell::run(home, &["plan", "--begin"]);
    assert_eq!(output.status.code(), Some(2), "too little is known");
}

/// A plan needs no log: it is answered where there is no folder, and nothing is made there.
#[test]
fn a_plan_needs_no_folder() {
    let home = tempfile::tempdir().unwrap();
    let plan = fell::json_of(home.path(), &RUNNER);
    assert_eq!(plan["plan"]["plain"]["warp_exact_mm"].as_f64().map(f64::round), Some(2766.0));
    assert!(!home.path().join("folder").exists());
    let saved = fell::run(home.path(), &["plan", "--saved", "Runner"]);
    assert_eq!(saved.status.code(), Some(4), "a saved plan is looked for in a folder");
}
