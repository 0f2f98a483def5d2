//! Predicts cases whose end is known: `backtest CASES.jsonl` prints one line of JSON for each case.

use std::io::Write;
use std::process::ExitCode;

#[path = "../../forecast/cases.rs"]
mod cases;

fn predict(path: &str) -> Result<(), String> {
    let text = std::fs::read_to_string(path).map_err(|error| format!("{path} cannot be read: {error}"))?;
    let mut out = std::io::stdout().lock();
    for (number, line) in text.lines().enumerate().filter(|(_, line)| !line.trim().is_empty()) {
        let at = |error: String| format!("{path}, line {}: {error}", number + 1);
        let prediction = cases::Case::read(line).and_then(|case| case.prediction()).map_err(at)?;
        writeln!(out, "{prediction}").map_err(|error| format!("the predictions cannot be written: {error}"))?;
    }
    Ok(())
}

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let done = match arguments.as_slice() {
        [path] => predict(path),
        _ => Err("give one file of cases: backtest CASES.jsonl".into()),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("backtest: {error}");
            ExitCode::FAILURE
        }
    }
}
