//! The one place where the time is read.

use std::time::{SystemTime, UNIX_EPOCH};

use chrono::{Local, NaiveDate};

/// The clock of this device, or one whose day is given.
#[derive(Clone, Copy, Debug, Default)]
pub struct DeviceClock {
    given_day: Option<NaiveDate>,
}

impl DeviceClock {
    /// A clock on which it is always this day; the time of day goes on.
    #[must_use]
    pub fn on(day: NaiveDate) -> Self {
        Self { given_day: Some(day) }
    }

    /// The day it is where this device is.
    #[must_use]
    pub fn today(self) -> NaiveDate {
        self.given_day.unwrap_or_else(|| Local::now().date_naive())
    }

    /// Milliseconds since 1970.
    #[must_use]
    pub fn now_ms(self) -> i64 {
        let since = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
        i64::try_from(since.as_millis()).unwrap_or(i64::MAX)
    }

    /// Day and time on the wall, to the minute, such as `2026-11-25T19:30`.
    #[must_use]
    pub fn local_minute(self) -> String {
        Local::now().format("%Y-%m-%dT%H:%M").to_string()
    }
}
