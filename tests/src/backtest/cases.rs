//! Cases with a known end, as lines of JSON, and what the projection says of them.

use chrono::NaiveDate;
use fellmark_projection::{DateQuantiles, EarlierWarp, Question, WovenStretch, project};
use serde::{Deserialize, Serialize};

/// One stretch at the loom.
#[derive(Debug, Clone, Deserialize)]
pub struct CaseSitting {
    /// Date and time of its start; only the date is used.
    pub start: String,
    /// Minutes, when known.
    pub minutes: Option<f64>,
    /// Picks, negative when unwoven.
    pub picks: Option<f64>,
}

/// An earlier finished warp.
#[derive(Debug, Clone, Deserialize)]
pub struct CaseWarp {
    /// Its sittings.
    pub sittings: Vec<CaseSitting>,
}

/// One case.
#[derive(Debug, Clone, Deserialize)]
pub struct Case {
    /// Its name.
    pub id: String,
    /// The kind of source it was made from.
    pub source: String,
    /// How far along it is: `p25` a quarter of the picks, `n3` after three sittings.
    pub stage: String,
    /// The day it is asked on.
    pub today: NaiveDate,
    /// Picks in all.
    pub target_picks: f64,
    /// Sittings so far.
    pub sittings: Vec<CaseSitting>,
    /// Earlier warps.
    #[serde(default)]
    pub history: Vec<CaseWarp>,
    /// The day it was reached; for scoring alone, never shown to the projection.
    pub actual_finish: Option<NaiveDate>,
}

/// The days predicted for one case.
#[derive(Debug, Clone, Copy, Serialize)]
pub struct Prediction<'a> {
    id: &'a str,
    #[serde(flatten)]
    span: DateQuantiles,
}

/// The date at the head of a date and time.
pub fn day(start: &str) -> Result<NaiveDate, String> {
    start
        .get(..10)
        .and_then(|date| date.parse().ok())
        .ok_or_else(|| format!("{start:?} does not begin with a date such as 2026-05-31"))
}

fn sittings(list: &[CaseSitting]) -> Result<Vec<WovenStretch>, String> {
    list.iter()
        .map(|s| {
            let plain = WovenStretch::plain(day(&s.start)?, s.minutes, 0.0);
            Ok(WovenStretch { picks: s.picks, ..plain })
        })
        .collect()
}

impl Case {
    /// Reads one line.
    pub fn read(line: &str) -> Result<Self, String> {
        serde_json::from_str(line).map_err(|error| format!("not a case: {error}"))
    }

    /// The question this case asks. Picks missing from a sitting are unknown to it, and so count as not woven.
    pub fn question(&self) -> Result<Question, String> {
        let woven: f64 = self.sittings.iter().filter_map(|s| s.picks).sum();
        let mut question = Question::new(self.today, self.target_picks - woven);
        question.sittings = sittings(&self.sittings)?;
        for warp in &self.history {
            question.earlier.push(EarlierWarp { sittings: sittings(&warp.sittings)? });
        }
        Ok(question)
    }

    /// The days by which the last pick is woven.
    pub fn span(&self) -> Result<DateQuantiles, String> {
        Ok(project(&self.question()?).map_err(|error| error.to_string())?.off_loom.quantiles)
    }

    /// One line of predictions.
    pub fn prediction(&self) -> Result<String, String> {
        let prediction = Prediction { id: &self.id, span: self.span()? };
        serde_json::to_string(&prediction).map_err(|error| error.to_string())
    }
}
