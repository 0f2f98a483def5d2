//! The command line off the loom: cutting off, finishing, and what was learned from it.

use fellmark_tests::command_line as fell;
use serde_json::Value;

#[test]
fn a_warp_is_cut_off_and_teaches_the_next() {
    let home = tempfile::tempdir().unwrap();
    let home = home.path();
    let figures = ["--wound", "250 cm", "--wanted", "180", "--wanted-state", "under_tension", "--picks", "40"];
    fell::json_of(home, &[&["begin", "Sea runner"], figures.as_slice()].concat());
    fell::json_of(home, &["log", "Sea runner", "--picks", "720", "--minutes", "360", "--measured", "180 cm"]);
    fell::json_of(home, &["cut-off", "Sea runner", "--front", "20 cm", "--thrums", "30 cm", "--on", "2026-11-20"]);
    fell::json_of(home, &["step", "Sea runner", "hem", "--on", "2026-11-21"]);
    fell::json_of(home, &["step", "Sea runner", "Mend the selvedge", "--add"]);
    fell::json_of(home, &["cut-off", "Sea runner", "--finished", "162 cm"]);
    let off = fell::json_of(home, &["results", "Sea runner"])["results"].clone();
    let steps: Vec<(&str, &Value)> =
        off["steps"].as_array().unwrap().iter().map(|s| (s["name"].as_str().unwrap(), &s["done_on"])).collect();
    assert_eq!(steps.len(), 7);
    assert_eq!((steps[1].0, steps[1].1.as_str()), ("Hem", Some("2026-11-21")));
    assert_eq!((steps[6].0, steps[6].1.as_str()), ("Mend the selvedge", None));
    // 200 of warp in 180 of cloth; 162 of 180.
    let reported = |what: &str| {
        let lessons = off["learned"].as_array().unwrap();
        lessons.iter().find(|lesson| lesson["what"] == what).unwrap()["value"].as_str().unwrap().to_owned()
    };
    assert_eq!((reported("Take-up").as_str(), reported("Length lost").as_str()), ("111.1", "10"));
    assert_eq!(off["form"]["on"], "2026-11-20", "measuring later leaves the day as it was");

    let refused = fell::run(home, &["step", "Sea runner", "iron"]);
    assert_eq!(refused.status.code(), Some(3));
    let refused = fell::run(home, &["cut-off", "Sea runner", "--finished", "9 m"]);
    assert_eq!(refused.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&refused.stderr).contains("--finished"));
}
