//! Why something that a person asked for could not be done.

use crate::message::Message;
use crate::messages;

/// Why something could not be done: a message, and the form's field it belongs to.
#[derive(Clone, Debug, PartialEq)]
pub struct UserError {
    /// Name of the field in the form, or nothing.
    pub field: Option<String>,
    /// What happened and what to do.
    pub message: Message,
}

/// [`UserError::field`] of an error that says only that the person stopped it.
pub const STOPPED: &str = "stopped";

impl UserError {
    /// An error that belongs to no field.
    #[must_use]
    pub fn new(message: Message) -> Self {
        Self { field: None, message }
    }

    /// An error that belongs to a field of a form.
    #[must_use]
    pub fn at(field: &str, message: Message) -> Self {
        Self { field: Some(field.to_owned()), message }
    }

    /// The same error at another field.
    #[must_use]
    pub fn moved_to(self, field: &str) -> Self {
        Self { field: Some(field.to_owned()), ..self }
    }
}

/// For developers and logs, as [`Message`]'s is.
impl std::fmt::Display for UserError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match &self.field {
            Some(field) => write!(f, "{field}: {}", self.message),
            None => write!(f, "{}", self.message),
        }
    }
}

impl std::error::Error for UserError {}

impl From<fellmark_journal::Error> for UserError {
    fn from(error: fellmark_journal::Error) -> Self {
        let field = matches!(error, fellmark_journal::Error::Stopped { .. }).then(|| STOPPED.to_owned());
        let message = if error.is_of_storage() { messages::storage_error } else { messages::journal_error };
        Self { field, message: message(error.to_string()) }
    }
}
