//! The same log as a spreadsheet: how long an office suite takes to open it and work out what each warp took, beside Fellmark.
//!
//! `spreadsheet [WARPS] [SITTINGS]`: one sheet with a row for each sitting, one with the sums of each warp (picks, minutes, picks an hour),
//! recalculated without a window by LibreOffice, whose start is measured with an empty sheet and taken off. Fellmark reads and checks
//! all files and works out every warp's answers with `fell answers --all`, its start included.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::fmt::Write;
use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use fellmark_tests::twenty_years;

const ROUNDS: usize = 3;

fn main() {
    let mut words = std::env::args().skip(1);
    let fell = words.next().expect("usage: spreadsheet FELL [WARPS] [SITTINGS]");
    let warps: usize = words.next().map_or(40, |word| word.parse().expect("a number of warps"));
    let sittings: usize = words.next().map_or(3_000, |word| word.parse().expect("a number of sittings"));
    let root = tempfile::tempdir().unwrap();
    let mut rows = Vec::new();
    twenty_years::generate(root.path(), warps, sittings, |entry, set| {
        if entry.kind().as_str() == "sitting" && set.contains_key("minutes") {
            let warp = entry.place().warp_id().unwrap().to_string();
            rows.push((warp, set["minutes"].as_f64().unwrap(), set["picks"].as_f64().unwrap()));
        }
    });
    let (full, empty) = (root.path().join("log.fods"), root.path().join("empty.fods"));
    fs::write(&full, sheet(&rows)).unwrap();
    fs::write(&empty, sheet(&[])).unwrap();

    let profile = root.path().join("profile");
    let recalculated = |file: &Path| {
        let out = root.path().join("out");
        timed(
            Command::new("soffice")
                .arg(format!("-env:UserInstallation=file://{}", profile.display()))
                .args([
                    "--headless",
                    "--convert-to",
                    "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true,false,false,false,2",
                ])
                .arg("--outdir")
                .arg(&out)
                .arg(file),
        )
    };
    let answered = || {
        timed(
            Command::new(&fell)
                .arg("--folder")
                .arg(root.path().join("log"))
                .arg("--local")
                .arg(root.path().join("answers"))
                .args(["--device", "bench", "--json", "answers", "--all"]),
        )
    };
    // The first of each makes what later ones find: a profile, a replica.
    recalculated(&empty);
    recalculated(&full);
    answered();
    let sums =
        fs::read_dir(root.path().join("out")).unwrap().flatten().map(|file| fs::read_to_string(file.path()).unwrap());
    let worked_out = sums.map(|text| text.lines().filter(|line| line.contains(',')).count()).max().unwrap_or(0);
    assert!(worked_out >= warps, "the suite wrote {worked_out} rows of sums for {warps} warps");
    let (mut sheet_times, mut start_times, mut own_times) = (Vec::new(), Vec::new(), Vec::new());
    for _ in 0..ROUNDS {
        start_times.push(recalculated(&empty));
        sheet_times.push(recalculated(&full));
        own_times.push(answered());
    }
    let (start, whole, own) = (median(&mut start_times), median(&mut sheet_times), median(&mut own_times));
    let recalculation = whole.saturating_sub(start);
    println!(
        "{warps} warps, {sittings} sittings: the spreadsheet {recalculation:.1?} (and {start:.1?} to start), Fellmark {own:.1?}"
    );
    println!(
        "ratio: the same log as a spreadsheet over Fellmark | {:.2} |",
        recalculation.as_secs_f64() / own.as_secs_f64()
    );
}

fn timed(command: &mut Command) -> Duration {
    let began = Instant::now();
    let status =
        command.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null()).status().expect("it is installed");
    assert!(status.code().is_some_and(|code| code < 2), "{command:?}: {status}");
    began.elapsed()
}

fn median(times: &mut [Duration]) -> Duration {
    times.sort();
    times[times.len() / 2]
}

/// An OpenDocument spreadsheet in one XML file: the sittings, and for each warp its sums as formulas without results.
fn sheet(rows: &[(String, f64, f64)]) -> String {
    let mut out = String::from(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?><office:document xmlns:office=\"urn:oasis:names:tc:opendocument:xmlns:office:1.0\" \
         xmlns:table=\"urn:oasis:names:tc:opendocument:xmlns:table:1.0\" xmlns:text=\"urn:oasis:names:tc:opendocument:xmlns:text:1.0\" \
         xmlns:of=\"urn:oasis:names:tc:opendocument:xmlns:of:1.2\" office:version=\"1.3\" \
         office:mimetype=\"application/vnd.oasis.opendocument.spreadsheet\"><office:body><office:spreadsheet><table:table table:name=\"Sittings\">",
    );
    let text = |out: &mut String, text: &str| {
        let _ =
            write!(out, "<table:table-cell office:value-type=\"string\"><text:p>{text}</text:p></table:table-cell>");
    };
    for (warp, minutes, picks) in rows {
        out.push_str("<table:table-row>");
        text(&mut out, warp);
        for value in [minutes, picks] {
            let _ = write!(out, "<table:table-cell office:value-type=\"float\" office:value=\"{value}\"/>");
        }
        out.push_str("</table:table-row>");
    }
    out.push_str("</table:table><table:table table:name=\"Warps\">");
    let mut warps: Vec<&str> = rows.iter().map(|(warp, ..)| warp.as_str()).collect();
    warps.dedup();
    let last = rows.len();
    for (nth, warp) in warps.iter().enumerate() {
        let row = nth + 1;
        out.push_str("<table:table-row>");
        text(&mut out, warp);
        for column in ["B", "C"] {
            let _ = write!(
                out,
                "<table:table-cell table:formula=\"of:=SUMIF([$Sittings.$A$1:.$A${last}];[.A{row}];[$Sittings.${column}$1:.${column}${last}])\"/>"
            );
        }
        let _ = write!(out, "<table:table-cell table:formula=\"of:=[.C{row}]/[.B{row}]*60\"/></table:table-row>");
    }
    out.push_str("</table:table></office:spreadsheet></office:body></office:document>\n");
    out
}
