//! Looking a folder over; nothing is changed, and no device is needed.

use fellmark_present::folder_words::{problem_advice, problem_sentence};
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
            Some(line) => format!(
                "{}, line {line}: {} {}",
                problem.file.display(),
                problem_sentence(&problem.kind),
                problem_advice(&problem.kind)
            ),
            None => format!(
                "{}: {} {}",
                problem.file.display(),
                problem_sentence(&problem.kind),
                problem_advice(&problem.kind)
            ),
        });
        lines.collect::<Vec<_>>().join("\n")
    };
    let json = json!({ "problems": problems.iter().map(|problem| json!({
        "file": problem.file, "line": problem.line, "what": problem_sentence(&problem.kind), "advice": problem_advice(&problem.kind),
    })).collect::<Vec<_>>() });
    let outcome = if problems.is_empty() { Outcome::Done } else { Outcome::Attention };
    Ok(Output::new(text, json, outcome))
}
