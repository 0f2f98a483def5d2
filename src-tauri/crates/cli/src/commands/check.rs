//! Looking a folder over; nothing is changed, and no device is needed.

use std::path::Path;

use fellmark_journal::Journal;
use serde_json::json;

use crate::output::{Failure, Outcome, Output};

/// Lists what is wrong with a folder.
pub fn check(folder: &Path) -> Result<Output, Failure> {
    if !folder.is_dir() {
        return Err(Failure::folder(format!("{} is no folder that can be read. Check the path.", folder.display())));
    }
    let problems = Journal::check(folder);
    let text = if problems.is_empty() {
        "Nothing is wrong with this folder.".to_owned()
    } else {
        let lines = problems.iter().map(|problem| match problem.line {
            Some(line) => format!("{}, line {line}: {} {}", problem.file.display(), problem.what, problem.do_what),
            None => format!("{}: {} {}", problem.file.display(), problem.what, problem.do_what),
        });
        lines.collect::<Vec<_>>().join("\n")
    };
    let json = json!({ "problems": problems.iter().map(|problem| json!({
        "file": problem.file, "line": problem.line, "what": problem.what, "advice": problem.do_what,
    })).collect::<Vec<_>>() });
    let outcome = if problems.is_empty() { Outcome::Done } else { Outcome::Attention };
    Ok(Output::new(text, json, outcome))
}
