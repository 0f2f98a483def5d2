//! Predicts cases whose end is known.
//!
//! `backtest CASES.jsonl` prints a line of JSON for each case; `backtest --table DIR` prints how the projection does
//! on the development cases in DIR; `backtest --time CASES.jsonl` prints how long one projection takes.

use std::io::Write;
use std::path::Path;
use std::process::ExitCode;
use std::time::Instant;

use fellmark_tests::backtest::{cases, table};

fn read(path: &str) -> Result<Vec<cases::Case>, String> {
    let text = std::fs::read_to_string(path).map_err(|error| format!("{path} cannot be read: {error}"))?;
    let lines = text.lines().enumerate().filter(|(_, line)| !line.trim().is_empty());
    lines
        .map(|(number, line)| cases::Case::read(line).map_err(|error| format!("{path}, line {}: {error}", number + 1)))
        .collect()
}

fn print(text: &str) -> Result<(), String> {
    std::io::stdout().lock().write_all(text.as_bytes()).map_err(|error| format!("cannot write: {error}"))
}

fn predict(path: &str) -> Result<(), String> {
    for case in read(path)? {
        let line = case.prediction().map_err(|error| format!("case {}: {error}", case.id))?;
        print(&format!("{line}\n"))?;
    }
    Ok(())
}

fn time(path: &str) -> Result<(), String> {
    let questions: Vec<_> = read(path)?.iter().map(cases::Case::question).collect::<Result<_, _>>()?;
    let mut micros = Vec::with_capacity(questions.len());
    for question in &questions {
        let start = Instant::now();
        let projection = fellmark_projection::project(question).map_err(|error| error.to_string())?;
        std::hint::black_box(projection);
        micros.push(start.elapsed().as_secs_f64() * 1e6);
    }
    micros.sort_by(f64::total_cmp);
    let at = |share: f64| micros[((micros.len() - 1) as f64 * share) as usize];
    print(&format!(
        "{} projections: median {:.0} µs, 99 in 100 within {:.0} µs, longest {:.0} µs\n",
        micros.len(),
        at(0.5),
        at(0.99),
        at(1.0)
    ))
}

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
    let done = match arguments.as_slice() {
        ["--table", folder] => table::table(Path::new(folder)).and_then(|text| print(&text)),
        ["--time", path] => time(path),
        [path] if !path.starts_with('-') => predict(path),
        _ => Err("give one file of cases: backtest CASES.jsonl, or --table DIR, or --time CASES.jsonl".into()),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("backtest: {error}");
            ExitCode::FAILURE
        }
    }
}
