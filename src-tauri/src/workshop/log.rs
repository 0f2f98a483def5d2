//! What can be done to any record, and reading what is typed.

use fellmark_answers::present::understood::understand;
use fellmark_answers::present::view::{AppView, Understood, UserError};

use super::{Session, id, today};

impl Session {
    /// Removes a record.
    pub fn remove(&mut self, record: &str) -> Result<AppView, UserError> {
        let record = id(record)?;
        self.write(|pen| pen.remove(&record))?;
        Ok(self.view())
    }

    /// Restores a record.
    pub fn restore(&mut self, record: &str) -> Result<AppView, UserError> {
        let record = id(record)?;
        self.write(|pen| pen.restore(&record))?;
        Ok(self.view())
    }

    /// Picks one of two answers.
    pub fn resolve(&mut self, record: &str, field: &str, key: &str) -> Result<AppView, UserError> {
        let record = id(record)?;
        self.write(|pen| pen.settle(&record, field, key))?;
        Ok(self.view())
    }

    /// Takes back what was done last; with what she should know of it besides.
    pub fn undo(&mut self) -> Result<(AppView, Option<String>), UserError> {
        let undone = self.write(|pen| pen.undo())?;
        let journal = &self.opened()?.journal;
        let note = undone.and_then(|found| fellmark_answers::present::undo::undone(&found, journal).note);
        Ok((self.view(), note))
    }

    /// What a typed measure is understood as.
    pub fn interpret(&self, what: &str, text: &str) -> Understood {
        understand(what, text, &self.format(), today())
    }
}
