//! Errors as she reads them: one place that turns every error into a sentence, and the form's field it belongs to.

pub use crate::model::import::STOPPED;
use crate::present::view::UserError;

impl UserError {
    /// A sentence that belongs to no field.
    #[must_use]
    pub fn new(sentence: impl Into<String>) -> Self {
        Self { field: None, sentence: sentence.into() }
    }

    /// A sentence that belongs to a field of a form.
    #[must_use]
    pub fn at(field: &str, sentence: impl Into<String>) -> Self {
        Self { field: Some(field.to_owned()), sentence: sentence.into() }
    }
}

impl std::fmt::Display for UserError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match &self.field {
            Some(field) => write!(f, "{field}: {}", self.sentence),
            None => f.write_str(&self.sentence),
        }
    }
}

impl std::error::Error for UserError {}

impl From<fellmark_journal::Error> for UserError {
    fn from(error: fellmark_journal::Error) -> Self {
        let field = matches!(error, fellmark_journal::Error::Stopped { .. }).then(|| STOPPED.to_owned());
        Self { field, sentence: sentence(&error.to_string()) }
    }
}

/// A text as a whole sentence: a capital first, a full stop at the end.
#[must_use]
pub fn sentence(text: &str) -> String {
    let mut letters = text.trim().chars();
    let mut whole = letters.next().map(|c| c.to_uppercase().to_string()).unwrap_or_default() + letters.as_str();
    if !whole.is_empty() && !whole.ends_with(['.', '?', '!']) {
        whole.push('.');
    }
    whole
}
