//! Errors as they are shown: a sentence, and the field of a form that it belongs to.

use super::sentence;
use crate::view::ErrorView;
use fellmark_model::error::STOPPED;

impl ErrorView {
    /// A sentence that belongs to no field.
    #[must_use]
    pub fn new(sentence: impl Into<String>) -> Self {
        Self { field: None, sentence: sentence.into(), is_of_storage: false }
    }

    /// A sentence that belongs to a field of a form.
    #[must_use]
    pub fn at(field: &str, sentence: impl Into<String>) -> Self {
        Self { field: Some(field.to_owned()), sentence: sentence.into(), is_of_storage: false }
    }
}

impl std::fmt::Display for ErrorView {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match &self.field {
            Some(field) => write!(f, "{field}: {}", self.sentence),
            None => f.write_str(&self.sentence),
        }
    }
}

impl std::error::Error for ErrorView {}

impl From<fellmark_journal::Error> for ErrorView {
    fn from(error: fellmark_journal::Error) -> Self {
        let field = matches!(error, fellmark_journal::Error::Stopped { .. }).then(|| STOPPED.to_owned());
        Self { field, sentence: sentence(&error.to_string()), is_of_storage: error.is_of_storage() }
    }
}
