//! What comes from outside does no harm: to a terminal, to a spreadsheet, to other files, to the machine.

use std::fs;
use std::os::unix::fs::PermissionsExt;
use std::path::Path;
use std::process::Command;

use fellmark_tests::command_line::CommandLineDevice;
use fellmark_tests::journal::picture;

const FIGURES: [&str; 6] = ["--wound", "3 m", "--waste", "50 cm", "--picks", "40"];

fn begin(device: &CommandLineDevice, name: &str) {
    device.json(&[&["begin", name], &FIGURES[..]].concat());
}

#[test]
fn text_that_begins_like_a_formula_is_text_and_comes_back_as_it_was() {
    let device = CommandLineDevice::new("laptop");
    let (name, note) = ("=HYPERLINK(\"x\")", "+1-1|cmd");
    begin(&device, name);
    device.json(&["log", name, "--picks", "30", "--note", note]);
    device.json(&["log", name, "--picks=-3", "--note=-3"]);
    let table = device.json(&["export", "sittings"])["csv"].as_str().unwrap().to_owned();
    let mut reader = csv::Reader::from_reader(table.as_bytes());
    let cells: Vec<String> =
        reader.records().flat_map(|row| row.unwrap().iter().map(str::to_owned).collect::<Vec<_>>()).collect();
    let runs = |cell: &String| cell.starts_with(['=', '+', '-', '@', '\t']) && cell.parse::<f64>().is_err();
    assert!(!cells.iter().any(runs), "{table}");
    assert!(
        cells.contains(&format!("'{name}")) && cells.contains(&format!("'{note}")) && cells.contains(&"-3".to_owned())
    );

    let other = CommandLineDevice::new("other");
    begin(&other, name);
    let file = other.home().join("sittings.csv");
    fs::write(&file, &table).unwrap();
    // The ids of the table's warp are of another folder.
    let without_ids = table.replacen("warp_id", "old_warp_id", 1);
    fs::write(&file, without_ids).unwrap();
    other.json(&["import", file.to_str().unwrap()]);
    let again = other.json(&["export", "sittings"])["csv"].as_str().unwrap().to_owned();
    assert!(again.contains(&format!("'{note}")) && !again.contains(&format!("''{note}")), "{again}");
    let sittings = other.json(&["sittings", name]);
    let notes: Vec<&str> =
        sittings["sittings"].as_array().unwrap().iter().filter_map(|one| one["note"].as_str()).collect();
    assert!(notes.contains(&note) && notes.contains(&"-3"), "{notes:?}");
}

#[test]
fn names_do_not_steer_the_terminal_or_the_order_of_writing() {
    let device = CommandLineDevice::new("laptop");
    begin(&device, "A\u{1b}[2Jscarf\u{7}\u{202e}drah");
    for shown in
        [device.text(&["warps"]), device.text(&["answers"]), device.refused(&["sittings", "A\u{1b}]0;x\u{7}"], 3)]
    {
        let steering =
            |letter: char| (letter.is_control() && letter != '\n') || ('\u{202a}'..='\u{202e}').contains(&letter);
        assert!(!shown.contains(steering), "{shown:?}");
    }
    assert!(device.text(&["warps"]).contains("A[2Jscarfdrah"));
}

/// Control characters but line breaks, and whatever turns the order of writing.
fn steers(letter: char) -> bool {
    (letter.is_control() && !matches!(letter, '\n' | '\r'))
        || matches!(letter, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

#[test]
fn hostile_names_are_plain_text_in_sheet_picture_and_tables() {
    let device = CommandLineDevice::new("phone\u{202e}\u{1b}[31m<i>");
    let name = "<script>alert(1)</script>\"&'\u{202e}drah\u{2066}\u{1b}[2J\u{9b}31m";
    begin(&device, name);
    device.json(&["log", name, "--picks", "30", "--note", name]);
    let other = CommandLineDevice::on("other", &device.folder());
    for what in ["sittings", "warps", "pace", "sheet", "progress"] {
        let output = other.run(&["export", what, "--warp", name]);
        let exported = String::from_utf8(output.stdout).unwrap();
        assert!(output.status.success() && exported.contains("alert(1)"), "{what}: {exported}");
        assert!(!exported.contains(steers), "{what}: {exported:?}");
        if matches!(what, "sheet" | "progress") {
            assert!(!exported.contains("<script") && !exported.contains("<i>"), "{what}: {exported}");
        }
    }
    for command in ["warps", "answers", "devices", "check"] {
        let shown = other.text(&[command]);
        assert!(!shown.contains(steers), "{command}: {shown:?}");
    }
    // Exported and imported again, nothing is new.
    let table = device.json(&["export", "sittings"])["csv"].as_str().unwrap().to_owned();
    let file = device.home().join("sittings.csv");
    fs::write(&file, table).unwrap();
    let before = device.json(&["export", "everything"]);
    assert!(device.refused(&["import", file.to_str().unwrap()], 2).contains("here already"));
    assert_eq!(device.json(&["export", "everything"]), before);
}

#[test]
fn units_of_the_pace_table_stand_in_its_headings_alone() {
    let device = CommandLineDevice::new("laptop");
    begin(&device, "Scarf");
    device.json(&["log", "Scarf", "--picks", "30", "--minutes", "45", "--measured", "10 cm"]);
    let table = device.json(&["export", "pace"])["text"].as_str().unwrap().to_owned();
    let mut reader = csv::Reader::from_reader(table.as_bytes());
    let headings = reader.headers().unwrap().clone();
    let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    assert_eq!(rows.len(), 1);
    let mut figures = 0;
    for (heading, cell) in
        headings.iter().zip(&rows[0]).filter(|(heading, _)| !["warp", "warp_id", "state"].contains(heading))
    {
        assert!(cell.is_empty() || cell.parse::<f64>().is_ok(), "{heading}: {cell}");
        figures += usize::from(!cell.is_empty());
    }
    assert!(figures >= 6, "{table}");
    assert!(
        headings.iter().any(|heading| heading == "length_cm")
            && headings.iter().any(|heading| heading == "hours_per_m")
    );
}

#[test]
fn an_export_replaces_a_file_only_when_told_to() {
    let device = CommandLineDevice::new("laptop");
    begin(&device, "Scarf");
    let file = device.home().join("sittings.csv");
    fs::write(&file, "mine").unwrap();
    let to = file.to_str().unwrap();
    for what in ["sittings", "everything", "pace"] {
        let sentence = device.refused(&["export", what, "--to", to], 2);
        assert!(sentence.contains(to) && sentence.contains("--overwrite"), "{sentence}");
        assert_eq!(fs::read_to_string(&file).unwrap(), "mine");
    }
    device.json(&["export", "sittings", "--to", to, "--overwrite"]);
    assert!(fs::read_to_string(&file).unwrap().starts_with("warp,"));
    let left: Vec<_> = fs::read_dir(device.home()).unwrap().map(|entry| entry.unwrap().file_name()).collect();
    assert!(!left.iter().any(|name| name.to_string_lossy().contains(".tmp")), "{left:?}");
}

#[test]
fn only_its_owner_may_read_what_a_device_keeps() {
    let device = CommandLineDevice::new("laptop");
    begin(&device, "Scarf");
    let data = device.home().join("data/fellmark/command-line");
    let local = fs::read_dir(&data).unwrap().next().unwrap().unwrap().path();
    let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
    assert_eq!(mode(&local), 0o700);
    // What an earlier version left open is closed.
    fs::set_permissions(&local, fs::Permissions::from_mode(0o755)).unwrap();
    device.json(&["warps"]);
    assert_eq!(mode(&local), 0o700);
}

#[test]
fn what_is_no_table_is_one_refusal_and_not_thousands_of_rows() {
    let device = CommandLineDevice::new("laptop");
    begin(&device, "Scarf");
    let file = device.home().join("picture.csv");
    let path = file.to_str().unwrap();
    fs::write(&file, picture(400, 300)).unwrap();
    assert!(device.refused(&["import", path], 2).contains("no table"));
    fs::write(&file, format!("Date,{}\n", vec!["a"; 300].join(","))).unwrap();
    assert!(device.refused(&["import", path], 2).contains("columns"));
    let row = "2026-10-01,40\n";
    fs::write(&file, format!("Date,Minutes\n{}", row.repeat((16 << 20) / row.len() + 1))).unwrap();
    assert!(device.refused(&["import", path], 2).contains("16 MB"));
}

/// A grey picture whose pixels need 196 MB is added by a program that may use 600 MB of address space, libraries and stacks included.
/// Shrinking it in one step would need 650 MB for the pixels alone.
#[test]
fn a_large_picture_needs_no_more_memory_than_its_pixels_and_a_little() {
    let device = CommandLineDevice::new("laptop");
    begin(&device, "Scarf");
    let sitting = device.json(&["log", "Scarf", "--picks", "5"])["sitting"].as_str().unwrap().to_owned();
    let file = device.home().join("large.png");
    let plain = image::GrayImage::from_pixel(14_000, 14_000, image::Luma([90]));
    plain.save(&file).unwrap();
    let fell = device.command(&["photo", &sitting, file.to_str().unwrap()]);
    let mut limited = Command::new("sh");
    limited.args(["-c", "ulimit -v 600000; exec \"$0\" \"$@\""]).arg(fell.get_program()).args(fell.get_args());
    for (name, value) in fell.get_envs() {
        match value {
            Some(value) => limited.env(name, value),
            None => limited.env_remove(name),
        };
    }
    let output = limited.output().unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
}
