//! The command line: plans kept for later, pieces of different sizes, pictures of pace.

use std::path::Path;

use fellmark_tests::command_line as fell;
use serde_json::{Value, json};

#[test]
fn a_plan_is_kept_changed_and_begun() {
    let home = tempfile::tempdir().unwrap();
    let home = home.path();
    let kept =
        fell::json_of(home, &["plan", "--length", "180", "--further", "2 x 15 cm", "--name", "Winter", "--save"]);
    let id = kept["saved"].as_str().unwrap();
    let plans = fell::json_of(home, &["plans"])["plans"].clone();
    assert_eq!((plans[0]["record"].as_str(), &plans[0]["form"]["length"]), (Some(id), &json!("180 cm")));
    // By name, over what was kept.
    fell::json_of(home, &["plan", "--saved", "Winter", "--width", "25 cm", "--sett", "40", "--save"]);
    let plans = fell::json_of(home, &["plans"])["plans"].clone();
    assert_eq!((plans.as_array().unwrap().len(), &plans[0]["form"]["width"]), (1, &json!("25 cm")));
    // Another plan stands beside it, and keeping one leaves the other as it was.
    let reported = |home: &Path| {
        let plans = fell::json_of(home, &["plans"])["plans"].clone();
        let one = |plan: &Value| [&plan["name"], &plan["form"]["length"], &plan["form"]["width"]].map(Value::clone);
        plans.as_array().unwrap().iter().map(one).collect::<Vec<_>>()
    };
    let other = fell::json_of(home, &["plan", "--length", "90", "--name", "Spring", "--save"])["saved"].clone();
    let winter = ["Winter", "180 cm", "25 cm"].map(Value::from);
    assert_eq!(reported(home), [winter.clone(), ["Spring", "90 cm", ""].map(Value::from)]);
    fell::json_of(home, &["plan", "--saved", "Spring", "--width", "30 cm", "--save"]);
    assert_eq!(reported(home), [winter.clone(), ["Spring", "90 cm", "30 cm"].map(Value::from)]);
    fell::json_of(home, &["remove", other.as_str().unwrap()]);
    assert_eq!(reported(home), [winter]);
    assert_eq!(fell::run(home, &["plan", "--saved", "Summer"]).status.code(), Some(3));
    assert_eq!(fell::run(home, &["plan", "--save"]).status.code(), Some(2), "nothing is planned");
    // Removed and restored.
    fell::json_of(home, &["remove", id]);
    assert_eq!(fell::json_of(home, &["plans"])["plans"], json!([]));
    fell::json_of(home, &["undo"]);
    assert_eq!(fell::json_of(home, &["plans"])["plans"].as_array().unwrap().len(), 1);

    // Begun it is a warp with each piece's own length, and no plan any more.
    let warp = fell::json_of(home, &["plan", "--saved", id, "--begin"])["warp"].as_str().unwrap().to_owned();
    assert_eq!(fell::json_of(home, &["plans"])["plans"], json!([]));
    let records = fell::json_of(home, &["export", "everything"])["records"].clone();
    let fields = &records.as_array().unwrap().iter().find(|one| one["id"] == json!(warp)).unwrap()["fields"];
    assert_eq!(fields["wanted_each_mm"], json!([1800.0, 150.0, 150.0]));
    fell::json_of(home, &["undo"]);
    assert_eq!(fell::json_of(home, &["plans"])["plans"].as_array().unwrap().len(), 1);
}

#[test]
fn pieces_of_different_sizes_are_begun_and_changed() {
    let home = tempfile::tempdir().unwrap();
    let home = home.path();
    fell::json_of(
        home,
        &["begin", "Scarf and rugs", "--wanted", "180, 15, 15 cm", "--wound", "290 cm", "--gap", "2 cm"],
    );
    let wanted =
        |home: &Path| fell::json_of(home, &["answers"])["answers"][0]["figures"]["wanted_mm"].as_f64().unwrap();
    assert_eq!(wanted(home), 2100.0);
    let refused = fell::run(home, &["change", "Scarf and rugs", "--pieces", "2"]);
    assert_eq!(refused.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&refused.stderr).contains("--pieces"));
    fell::json_of(home, &["change", "Scarf and rugs", "--wanted", "180; 3 x 15 cm"]);
    assert_eq!(wanted(home), 2250.0);
    // Taken out as a table and brought into an empty folder they are the same.
    let csv = fell::json_of(home, &["export", "warps"])["csv"].as_str().unwrap().to_owned();
    let other = tempfile::tempdir().unwrap();
    std::fs::create_dir(other.path().join("folder")).unwrap();
    std::fs::write(other.path().join("warps.csv"), csv).unwrap();
    fell::json_of(other.path(), &["begin", "First"]);
    fell::json_of(other.path(), &["import", other.path().join("warps.csv").to_str().unwrap()]);
    let answers = fell::json_of(other.path(), &["answers", "Scarf and rugs"])["answers"][0]["figures"].clone();
    assert_eq!(answers["wanted_mm"], json!(2250.0));
}

#[test]
fn the_pictures_of_pace_are_written() {
    let home = tempfile::tempdir().unwrap();
    let home = home.path();
    std::fs::create_dir(home.join("folder")).unwrap();
    fell::json_of(home, &["sample"]);
    for picture in ["length", "split", "within"] {
        let file = home.join(format!("{picture}.svg"));
        fell::json_of(home, &["pace", "--picture", picture, "--split", "2 m", "--to", file.to_str().unwrap()]);
        let svg = std::fs::read_to_string(&file).unwrap();
        assert!(svg.starts_with("<svg") && svg.ends_with("</svg>"), "{picture}");
        // Colours of its own: no page is needed to see it.
        assert!(svg.contains("fill=\"#") && !svg.contains("class="), "{picture}");
    }
    let said = fell::json_of(home, &["pace", "--picture", "length"]);
    assert!(said["text"].as_str().unwrap().starts_with("<svg"));
    assert_eq!(fell::run(home, &["pace", "--to", "x.svg"]).status.code(), Some(2), "only a picture goes into a file");
    assert_eq!(fell::run(home, &["pace", "--picture", "length", "--split", "wide"]).status.code(), Some(2));
}
