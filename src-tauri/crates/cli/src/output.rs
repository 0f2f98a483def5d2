//! What is printed, and the exit codes.

use std::io::{IsTerminal, Write};
use std::process::ExitCode;

use fellmark_model::display_text::display_text;
use fellmark_present::figures::loose;
use fellmark_present::view::ErrorView;
use serde_json::{Value, json};

/// How a command ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// Done.
    Done,
    /// Done, and something needs attention.
    Attention,
    /// Something typed cannot be understood.
    BadInput,
    /// Nothing of that name or id.
    NotFound,
    /// The folder cannot be used, or neither it nor this device's own data can be written.
    NoFolder,
}

impl Outcome {
    /// The exit code.
    pub fn code(self) -> ExitCode {
        ExitCode::from(match self {
            Self::Done => 0,
            Self::Attention => 1,
            Self::BadInput => 2,
            Self::NotFound => 3,
            Self::NoFolder => 4,
        })
    }
}

/// What a command prints.
pub struct Output {
    /// For people.
    pub text: String,
    /// For programs.
    pub json: Value,
    /// How it ended.
    pub outcome: Outcome,
    /// Whether it is a file's content, which is printed as it is.
    pub exact: bool,
}

/// Every text in it for programs: the spaces within measures are plain ones.
fn loosened(value: Value) -> Value {
    match value {
        Value::String(text) => loose(&text).into(),
        Value::Array(items) => items.into_iter().map(loosened).collect(),
        Value::Object(members) => members.into_iter().map(|(name, value)| (name, loosened(value))).collect(),
        other => other,
    }
}

impl Output {
    /// This text, which is no file's content.
    pub fn new(text: impl Into<String>, json: Value, outcome: Outcome) -> Self {
        Self { text: text.into(), json, outcome, exact: false }
    }

    /// Done, with this text.
    pub fn done(text: impl Into<String>, json: Value) -> Self {
        Self::new(text, json, Outcome::Done)
    }

    /// A file's content.
    pub fn exact(text: impl Into<String>, json: Value) -> Self {
        Self { exact: true, ..Self::done(text, json) }
    }

    /// Prints it.
    pub fn print(&self, as_json: bool) -> ExitCode {
        let text = match (as_json, self.exact) {
            (true, true) => format!("{:#}", self.json),
            (true, false) => format!("{:#}", loosened(self.json.clone())),
            (false, true) => self.text.clone(),
            (false, false) => display_text(&loose(&self.text)),
        };
        // A file's content goes to a file as it is, and to a screen without what steers it.
        let text = if std::io::stdout().is_terminal() { display_text(&text) } else { text };
        if !text.is_empty() {
            // A closed pipe is the reader's way of saying enough.
            let _ = writeln!(std::io::stdout(), "{}", text.trim_end_matches('\n'));
        }
        self.outcome.code()
    }
}

/// Why a command was not done.
pub struct Failure {
    /// The sentence, with the argument it belongs to.
    pub error: ErrorView,
    /// The exit code.
    pub outcome: Outcome,
}

impl Failure {
    /// Nothing of that name.
    pub fn not_found(sentence: impl Into<String>) -> Self {
        Self { error: ErrorView::new(sentence), outcome: Outcome::NotFound }
    }

    /// The folder cannot be used.
    pub fn folder(sentence: impl Into<String>) -> Self {
        Self { error: ErrorView::new(sentence), outcome: Outcome::NoFolder }
    }

    /// Something typed cannot be understood; or a disk refused what it would have become.
    pub fn input(error: ErrorView) -> Self {
        let outcome = if error.is_of_storage { Outcome::NoFolder } else { Outcome::BadInput };
        Self { error, outcome }
    }

    /// Prints it on standard error; as JSON `{"error": {"field": ..., "sentence": ...}}`.
    pub fn print(&self, as_json: bool) -> ExitCode {
        let text = if as_json { json!({ "error": self.error }).to_string() } else { self.error.to_string() };
        let _ = writeln!(std::io::stderr(), "{}", display_text(&loose(&text)));
        self.outcome.code()
    }
}
