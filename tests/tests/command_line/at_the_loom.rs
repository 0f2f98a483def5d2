//! What is noted at the loom, on the command line: place, readings, yarns, the sequence drawn.

use std::process::Output;

use fellmark_tests::command_line::CommandLineDevice;
use serde_json::{Value, json};

struct Loom {
    device: CommandLineDevice,
    warp: String,
}

impl Loom {
    /// An invented warp with a sequence: 31 picks per 10 cm, 1.6 m wanted in two pieces.
    fn new() -> Self {
        let mut loom = Self { device: CommandLineDevice::new("loom"), warp: "Grey runner".into() };
        let rows = "--opening-row up --opening-row down --repeat-row up --repeat-row stick --repeat-row up --repeat-row down \
                    --closing-row up --closing-row down";
        let figures = "--wound 4m --waste 45cm --wanted 80cm --wanted-state under_tension --pieces 2 --picks 31 \
                       --warp-per-100 110 --width 30cm --weft grey --weft-mass 90g";
        let words: Vec<&str> =
            ["begin", "Grey runner"].into_iter().chain(figures.split(' ')).chain(rows.split(' ')).collect();
        let words: Vec<&str> = words.into_iter().filter(|word| !word.is_empty()).collect();
        let begun = loom.json(&words);
        loom.warp = begun["warp"].as_str().unwrap().to_owned();
        loom
    }

    fn run(&self, arguments: &[&str]) -> Output {
        self.device.run(arguments)
    }

    fn json(&self, arguments: &[&str]) -> Value {
        self.device.json(arguments)
    }

    fn on(&self, command: &str, arguments: &[&str]) -> Value {
        self.json(&[&[command, self.warp.as_str()], arguments].concat())
    }

    fn refused(&self, arguments: &[&str]) -> Value {
        let output = self.run(&[&["--json"], arguments].concat());
        assert_eq!(output.status.code(), Some(2), "{}", String::from_utf8_lossy(&output.stderr));
        serde_json::from_slice::<Value>(&output.stderr).unwrap()["error"].clone()
    }

    fn log(&self, figures: &[&str]) -> Value {
        self.on("log", figures)
    }
}

#[test]
fn the_place_is_set_and_taken_back() {
    let loom = Loom::new();
    loom.log(&["--picks", "5"]);
    let listed = loom.on("place", &[]);
    assert_eq!(listed["places"]["now"], json!({ "piece": "1", "section": "repeat", "repeat": "1", "row": "4" }));
    let set = loom.on("place", &["--section", "repeat", "--repeat", "9", "--row", "2"]);
    assert!(set["place"]["place"].as_str().unwrap().starts_with("pick 2 of 4 in repeat 9"), "{set}");
    loom.log(&["--picks", "3"]);
    let now = loom.on("place", &[]);
    assert!(now["place"]["place"].as_str().unwrap().starts_with("pick 1 of 4 in repeat 10"), "{now}");
    assert_eq!(loom.on("answers", &[])["answers"][0]["figures"]["picks"], 8);

    // After the closing border comes the next piece.
    loom.on("place", &["--section", "closing", "--row", "2"]);
    loom.log(&["--picks", "1"]);
    let now = loom.on("place", &[]);
    assert_eq!((&now["place"]["piece"], &now["place"]["row"]), (&json!("piece 2 of 2"), &json!(1)));

    let trouble = loom.refused(&["place", &loom.warp, "--section", "repeat", "--row", "5"]);
    assert_eq!(trouble["field"], "--row");
    let trouble = loom.refused(&["place", &loom.warp, "--section", "middle"]);
    assert_eq!(trouble["field"], "--section");
    let noted = loom.on("measurements", &[]);
    assert_eq!(noted["measurements"].as_array().unwrap().len(), 2, "{noted}");
}

#[test]
fn readings_set_tape_beside_picks_and_a_warp_mark_corrects() {
    let loom = Loom::new();
    let logged = loom.log(&["--picks", "155", "--measured", "52 cm"]);
    assert!(logged["messages"].to_string().contains("52 cm by the tape, 50 cm by the picks"), "{logged}");
    let moved = loom.on("measure", &["--mark-set", "yes"]);
    assert!(moved["messages"].to_string().contains("52 cm from the start"), "{moved}");
    loom.log(&["--picks", "30"]);
    let noted = loom.on("measure", &["--measured", "10 cm", "--from", "mark"]);
    assert!(noted["messages"].to_string().contains("62 cm by the tape"), "{noted}");
    let mark = loom.on("measure", &["--warp-mark", "70 cm"]);
    // 70 of warp for 62 of cloth.
    assert!(mark["messages"].to_string().contains("100 of cloth take 112.9 of warp"), "{mark}");
    let left = |loom: &Loom| loom.on("answers", &[])["answers"][0]["figures"]["warp_left_mm"].as_f64().unwrap();
    // 4000 wound, 450 waste, 700 in the cloth.
    assert!((left(&loom) - 2850.0).abs() < 0.5, "{}", left(&loom));
    let undone = loom.json(&["undo"]);
    assert_eq!(undone["undone"], "the measure was noted");
    assert!((left(&loom) - (3550.0 - 620.0 * 1.1)).abs() < 0.5, "{}", left(&loom));
    let trouble = loom.refused(&["measure", &loom.warp, "--measured", "a hand"]);
    assert_eq!(trouble["field"], "--measured");
}

#[test]
fn yarns_have_ledgers_of_their_own() {
    let loom = Loom::new();
    loom.on("add-yarn", &["--name", "walnut", "--mass", "60 g"]);
    let sitting = loom.log(&["--picks", "155", "--measured", "50 cm", "--weft-left", "40 g"]);
    let within = sitting["sitting"].as_str().unwrap();
    // Taken up within that sitting, after 93 picks: 30 cm with grey, 20 with walnut.
    loom.on("measure", &["--yarn", "walnut", "--within", within, "--after-picks", "93", "--left", "grey=60 g"]);
    let yarns = loom.on("yarns", &[])["yarns"].clone();
    assert_eq!((&yarns[0]["in_use"], &yarns[1]["in_use"]), (&json!(false), &json!(true)));
    assert!(yarns[0]["line"].as_str().unwrap().contains("30 cm woven with it"), "{yarns}");
    assert!(yarns[1]["line"].as_str().unwrap().contains("40 g left"), "what was weighed at the end is walnut: {yarns}");
    // 20 g for 20 cm, 40 g left; 30 g for 30 cm, 60 g left.
    assert_eq!(
        (&yarns[0]["reach"], &yarns[1]["reach"]),
        (&json!("enough for about another 60 cm"), &json!("enough for about another 40 cm"))
    );
    let weft = &loom.on("answers", &[])["answers"][0]["weft_reach"];
    assert!(weft["why"].to_string().contains("one after another"), "{weft}");
    loom.on("change-yarn", &["walnut", "--mass", "50 g"]);
    let trouble = loom.refused(&["measure", &loom.warp, "--left", "60 g"]);
    assert_eq!(trouble["field"], "--left");
    let trouble = loom.refused(&["measure", &loom.warp, "--left", "grey=plenty"]);
    assert_eq!(trouble["field"], "--left");
}

#[test]
fn a_sequence_is_drawn_in_letters() {
    let loom = Loom::new();
    let output = loom.run(&["draw", &loom.warp]);
    let text = String::from_utf8(output.stdout).unwrap();
    assert!(text.contains("the longest weft float crosses 3 ends, 7.6 mm"), "{text}");
    let drawn: Vec<&str> = text.lines().filter(|line| line.starts_with(['|', '-'])).collect();
    // Three repeats, so that at least sixteen picks are seen.
    assert_eq!(drawn.len(), 2 + 3 * 4 + 2);
    // The first pick lies at the bottom: heddle up, hole ends over the weft.
    assert!(drawn.last().unwrap().starts_with("-|-|-|"), "{text}");
    loom.json(&["stretch", "45"]);
    assert_eq!(loom.refused(&["stretch", "often"])["field"], "--stretch");
}

#[test]
fn yarn_is_weighed_on_its_shuttle_and_what_is_rough_goes_out_as_rough() {
    let loom = Loom::new();
    loom.log(&["--picks", "155", "--measured", "50 cm"]);
    let refused = loom.refused(&["measure", &loom.warp, "--left", "grey=68 g with the shuttle"]);
    assert!(refused["sentence"].as_str().unwrap().contains("What the empty shuttle weighs is not known"), "{refused}");
    loom.json(&["change-yarn", &loom.warp, "grey", "--tare", "28 g"]);
    loom.on("measure", &["--left", "grey=about 88 g with the shuttle"]);
    let yarn = &loom.on("yarns", &[])["yarns"][0];
    // Plain spaces: what is printed is for programs too.
    assert!(yarn["line"].as_str().unwrap().contains("about 60 g left when last weighed or measured"), "{yarn}");
    loom.log(&["--minutes", "about 40", "--picks", "60 or so", "--weft-left", "73 g on its shuttle"]);
    let sittings = loom.on("sittings", &[]);
    let line = sittings["sittings"][0]["line"].as_str().unwrap();
    assert!(line.contains("about 40 min, about 60 picks") && line.contains("about 45 g of weft left"), "{line}");

    let list = |what: &str| loom.json(&["export", what])["text"].as_str().unwrap().to_owned();
    let weighings = list("weighings");
    let [heading, row] = weighings.lines().collect::<Vec<_>>()[..] else { panic!("{weighings}") };
    assert!(heading.contains(",weft,left_g,left_mm,tare_g,rough,"), "{heading}");
    assert!(row.contains(",60.0,,28.0,yes,"), "{row}");
    for (what, column) in
        [("readings", "warp_mark_mm"), ("joins", "weft"), ("places", "section"), ("plans", "ends"), ("photos", "hash")]
    {
        assert!(list(what).lines().next().unwrap().contains(column), "{what}");
    }
}

#[test]
fn numbered_sheds_are_drawn_at_their_sett() {
    let loom = Loom::new();
    let figures = "--opening-row= --closing-row= --repeat-row=1 --repeat-row=2 --repeat-row=3 --repeat-row=4 --sett=60";
    let mut words = vec!["change", loom.warp.as_str()];
    words.extend(figures.split(' '));
    words.extend(["--shed-lift", "1: 1 2", "--shed-lift", "2: 2 3", "--shed-lift", "3: 3 4", "--shed-lift", "4: 4 1"]);
    loom.json(&words);
    let drawn = &loom.on("draw", &[])["sequence"];
    let text = drawn["cloth"]["text"].as_str().unwrap();
    assert!(text.contains("longest weft float crosses 2 ends, 3.3 mm"), "{text}");
    let refused = loom.refused(&["change", &loom.warp, "--threading", "1 2 x"]);
    assert_eq!(refused["field"], json!("--threading"));
}

/// 12 picks at 3 cm with a time, then 90 more at 25 cm without one: both on one day, in the order they were logged.
#[test]
fn sittings_of_one_day_without_a_time_stand_in_the_order_they_were_logged() {
    let device = CommandLineDevice::new("laptop");
    let _ = device.json(&["begin", "Scarf", "--wound", "250 cm", "--wanted", "150 cm", "--picks", "40"]);
    let _ = device.json(&["log", "Scarf", "--at", "20:00", "--picks", "12", "--measured", "3 cm"]);
    let logged = device.json(&["log", "Scarf", "--picks", "90", "--measured", "25 cm"]);
    assert!(!logged["messages"].to_string().contains("before"), "{logged}");
    let answer = device.json(&["answers", "Scarf"])["answers"][0].clone();
    assert_eq!(answer["figures"]["woven_mm"].as_f64(), Some(250.0), "{answer}");
    assert!(!answer.to_string().contains("The tape said 25"), "{answer}");
}

/// 20 cm with a mark at their end, then 15 cm more: 35 cm in all. Nothing says where the tape starts.
#[test]
fn the_tape_starts_at_the_last_mark_where_one_is_set() {
    let loom = Loom::new();
    let woven_mm = |loom: &Loom| loom.on("answers", &[])["answers"][0]["figures"]["woven_mm"].as_f64().unwrap();
    loom.log(&["--on", "2026-11-23", "--picks", "62", "--measured", "20 cm", "--mark-set", "yes"]);
    assert!((woven_mm(&loom) - 200.0).abs() < 0.5, "the first tape starts at the first pick: {}", woven_mm(&loom));
    let logged = loom.log(&["--picks", "46", "--measured", "15 cm"]);
    assert!((woven_mm(&loom) - 350.0).abs() < 0.5, "{}", woven_mm(&loom));
    assert!(logged["messages"].to_string().contains("35 cm by the tape"), "{logged}");
    // Between two sittings: 5 cm more, and the mark moved to 40 cm.
    loom.log(&["--picks", "15"]);
    loom.on("measure", &["--measured", "20 cm", "--mark-set", "yes"]);
    assert!((woven_mm(&loom) - 400.0).abs() < 0.5, "{}", woven_mm(&loom));
    // Who has unrolled the cloth says so, and a sitting of the day before the mark knows of none.
    loom.log(&["--picks", "31", "--measured", "50 cm", "--from", "start"]);
    assert!((woven_mm(&loom) - 500.0).abs() < 0.5, "{}", woven_mm(&loom));
    let earlier = loom.log(&["--on", "2026-11-22", "--picks", "31", "--measured", "10 cm"]);
    assert!(!earlier.to_string().contains("mark"), "{earlier}");
}

#[test]
fn times_are_read_in_twelve_hours_too() {
    let loom = Loom::new();
    let logged = loom.log(&["--at", "7:40 pm", "--picks", "9"]);
    let records = loom.json(&["export", "everything"])["records"].clone();
    let of = |id: &Value| records.as_array().unwrap().iter().find(|record| record["id"] == *id).unwrap().clone();
    assert_eq!(of(&logged["sitting"])["fields"]["started"], "19:40");
    assert_eq!(loom.refused(&["log", &loom.warp, "--at", "13:40 pm", "--picks", "9"])["field"], "--at");
}

#[test]
fn lengths_and_weights_have_units_of_their_own() {
    let loom = Loom::new();
    loom.json(&["units", "imperial", "--weights", "metric"]);
    loom.log(&["--picks", "62", "--measured", "8", "--weft-left", "70"]);
    let line = loom.on("sittings", &[])["sittings"][0]["line"].as_str().unwrap().to_owned();
    assert!(line.contains("8 in from the start") && line.contains("70 g of weft left"), "{line}");
    loom.json(&["--units", "metric", "--weights", "imperial", "log", &loom.warp, "--picks", "9", "--weft-left", "2"]);
    let line = loom.on("sittings", &[])["sittings"][0]["line"].as_str().unwrap().to_owned();
    assert!(line.contains("56.7 g") || line.contains("57 g"), "2 oz are 56.7 g: {line}");
    // Chosen together they are one again.
    loom.json(&["units", "imperial"]);
    let line = loom.on("sittings", &[])["sittings"][0]["line"].as_str().unwrap().to_owned();
    assert!(line.contains("2 oz"), "{line}");
}

/// `~/Weaving`, also where no shell has written it out; made only when that was asked for.
#[test]
fn a_missing_folder_is_created_only_after_asking() {
    let home = tempfile::tempdir().unwrap();
    let fell = |options: &[&str]| {
        let mut command = std::process::Command::new(fellmark_tests::window::command_line());
        command.args(["--folder", "~/Weaving", "--today", "2026-11-25"]).args(options);
        command.env("HOME", home.path()).env("XDG_DATA_HOME", home.path().join("data"));
        command.env_remove("FELLMARK_FOLDER").output().unwrap()
    };
    let refused = fell(&["begin", "Scarf"]);
    let said = String::from_utf8(refused.stderr).unwrap();
    assert_eq!(refused.status.code(), Some(4));
    assert!(said.contains("There is no folder") && said.contains("--create-folder"), "{said}");
    assert!(!home.path().join("Weaving").exists());
    assert!(fell(&["--create-folder", "begin", "Scarf"]).status.success());
    assert!(home.path().join("Weaving/devices").is_dir());
    assert!(fell(&["log", "Scarf", "--picks", "9"]).status.success());
}

/// At a terminal, which `script` is here, the answer is what is typed.
#[test]
fn at_a_terminal_it_asks_whether_to_create_the_folder() {
    for (answer, made) in [("n\n", false), ("y\n", true)] {
        let home = tempfile::tempdir().unwrap();
        let program = fellmark_tests::window::command_line().display().to_string();
        let mut command = std::process::Command::new("script");
        command.args(["-qec", &format!("{program} --folder ~/Weaving begin Scarf"), "/dev/null"]);
        command.env("HOME", home.path()).env("XDG_DATA_HOME", home.path().join("data")).env_remove("FELLMARK_FOLDER");
        command.stdin(std::process::Stdio::piped()).stdout(std::process::Stdio::piped());
        let mut child = command.spawn().unwrap();
        std::io::Write::write_all(child.stdin.as_mut().unwrap(), answer.as_bytes()).unwrap();
        let output = child.wait_with_output().unwrap();
        let said = String::from_utf8_lossy(&output.stdout).into_owned();
        assert!(said.contains("Create it? [y/N]"), "{said}");
        assert_eq!((output.status.success(), home.path().join("Weaving").exists()), (made, made), "{said}");
    }
}
