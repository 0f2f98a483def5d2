//! Size of the release program, how soon it shows the three answers and a pick that was counted, how long what goes over all warps
//! takes, how the journal fares on a large folder, and the same log as a spreadsheet; in the end all ratios in one table.

use std::fs;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use crate::setup::{self, Purpose};
use crate::step::{self, StepResult};

/// Sets a performance mark in the first frame after the page says that it is ready.
const MARK: &str = "\
new MutationObserver(() => requestAnimationFrame(() => performance.mark('shown')))
  .observe(document.documentElement, { attributeFilter: ['data-ready'] });
";

const BLANK: &str = "\
<!doctype html><html lang=\"en\"><head><meta charset=\"utf-8\"><title>Blank</title><script src=\"mark.js\"></script></head>
<body><p>Blank</p><script src=\"ready.js\"></script></body></html>
";

/// Builds what is compared, starts each in turn, and prints what was measured.
pub fn bench() -> StepResult {
    setup::setup(Purpose::Benchmarks)?;
    let blank = folder("blank")?;
    write(&blank.join("index.html"), BLANK)?;
    write(&blank.join("mark.js"), MARK)?;
    write(&blank.join("ready.js"), "document.documentElement.dataset.ready = 'yes';\n")?;
    let real = folder("real")?;
    copy(&step::top().join("ui"), &real)?;
    let index = real.join("index.html");
    let page = fs::read_to_string(&index).map_err(|error| io_message(&index, &error))?;
    let marked = page.replacen("<head>", "<head><script src=\"mark.js\"></script>", 1);
    if marked == page {
        return Err(format!("{}: there is no <head> to put the mark into", index.display()));
    }
    write(&index, &marked)?;
    write(&real.join("mark.js"), MARK)?;

    let blank = build(Some(&blank))?;
    let real = build(Some(&real))?;
    let plain = build(None)?;
    let bytes = fs::metadata(&plain).map_err(|error| io_message(&plain, &error))?.len();
    println!("the release program: {bytes} bytes");
    let mut start = step::cargo("run", &["-p", "fellmark-tests", "--bin", "start", "--"]);
    let mut ratios = Vec::new();
    measured(start.arg(blank).arg(real), &mut ratios)?;
    for bench in ["press", "asked"] {
        measured(step::cargo("run", &["-p", "fellmark-tests", "--bin", bench, "--"]).arg(&plain), &mut ratios)?;
    }
    // A folder of twenty years: opening, one arriving file, one save; and what is reported of it.
    for bench in ["large", "project"] {
        let words = ["--release", "-p", "fellmark-tests", "--features", bench, "--bin", bench];
        measured(&mut step::cargo("run", &words), &mut ratios)?;
    }
    step::run(&mut step::cargo("build", &["--release", "-p", "fellmark-cli"]))?;
    let mut sheet = step::cargo("run", &["--release", "-p", "fellmark-tests", "--bin", "spreadsheet", "--"]);
    measured(sheet.arg(step::target().join("release/fell")), &mut ratios)?;
    println!("\n{:72} {:>7}  goal", "ratio", "");
    for ratio in ratios {
        let cells: Vec<&str> = ratio.split('|').map(str::trim).collect();
        if let [what, value, goal] = cells.as_slice() {
            println!("{what:72} {value:>7}  {goal}");
        }
    }
    Ok(())
}

/// Runs a benchmark, shows what it prints, and collects its ratios: lines like `ratio: WHAT | VALUE | GOAL`.
fn measured(command: &mut Command, ratios: &mut Vec<String>) -> StepResult {
    let name = step::written(command);
    let reported = |error: std::io::Error| format!("{name}: {error}");
    let mut child = command.stdout(Stdio::piped()).spawn().map_err(reported)?;
    if let Some(printed) = child.stdout.take() {
        for line in BufReader::new(printed).lines() {
            let line = line.map_err(reported)?;
            match line.strip_prefix("ratio: ") {
                Some(ratio) => ratios.push(ratio.to_owned()),
                None => println!("{line}"),
            }
        }
    }
    let status = child.wait().map_err(reported)?;
    if status.success() { Ok(()) } else { Err(format!("{name} failed ({status})")) }
}

/// Builds the release program, with another page if one is given, and gives where it lies.
pub fn build(page: Option<&Path>) -> Result<PathBuf, String> {
    // A web driver reads the marks.
    let mut cargo = step::cargo("build", &["--release", "-p", "fellmark", "--features", "automation"]);
    let built = step::target().join("release/fellmark");
    let Some(page) = page else {
        step::run(&mut cargo)?;
        return Ok(built);
    };
    // Tauri merges this into its configuration while building.
    step::run(
        cargo.env("TAURI_CONFIG", format!("{{\"build\":{{\"frontendDist\":{:?}}}}}", page.display().to_string())),
    )?;
    let kept = page.with_extension("program");
    fs::copy(&built, &kept).map_err(|error| io_message(&kept, &error))?;
    Ok(kept)
}

/// An empty folder beside the builds.
fn folder(name: &str) -> Result<PathBuf, String> {
    let folder = step::target().join("bench").join(name);
    if folder.exists() {
        fs::remove_dir_all(&folder).map_err(|error| io_message(&folder, &error))?;
    }
    fs::create_dir_all(&folder).map_err(|error| io_message(&folder, &error))?;
    Ok(folder)
}

fn write(path: &Path, text: &str) -> StepResult {
    fs::write(path, text).map_err(|error| io_message(path, &error))
}

fn copy(from: &Path, to: &Path) -> StepResult {
    for entry in fs::read_dir(from).map_err(|error| io_message(from, &error))? {
        let path = entry.map_err(|error| io_message(from, &error))?.path();
        let to = to.join(path.file_name().unwrap_or_default());
        if path.is_dir() {
            fs::create_dir_all(&to).map_err(|error| io_message(&to, &error))?;
            copy(&path, &to)?;
        } else {
            fs::copy(&path, &to).map_err(|error| io_message(&to, &error))?;
        }
    }
    Ok(())
}

fn io_message(path: &Path, error: &std::io::Error) -> String {
    format!("{}: {error}", path.display())
}
