//! What was noticed on the way, for her to know or to answer.

use chrono::NaiveDate;
use serde::Serialize;

use crate::reasons::{AmountWriter, DateWriter, in_picks};

/// Something noticed about the entries or the answer.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(tag = "note", rename_all = "kebab-case")]
pub enum Note {
    /// Sittings after today, left out.
    FutureSittings {
        /// How many.
        sittings: usize,
    },
    /// A forgotten timer, reckoned shorter.
    LongSitting {
        /// The day.
        day: NaiveDate,
        /// What was entered.
        minutes_entered: f64,
        /// What it counts as; `None` when her pace is not yet known, so it counts for none.
        minutes_reckoned: Option<f64>,
    },
    /// More than 3,000 picks an hour: asked about, left out of pace.
    FastSitting {
        /// The day.
        day: NaiveDate,
        /// Picks entered.
        picks: f64,
        /// Minutes entered.
        minutes: f64,
    },
    /// Sittings without picks, reckoned from their minutes or from a usual sitting.
    PicksGuessed {
        /// How many.
        sittings: usize,
    },
    /// Sittings without minutes: they count for the date, not for pace.
    MinutesMissing {
        /// How many.
        sittings: usize,
    },
    /// Nothing woven yet: reckoned from earlier warps.
    FromEarlierWarps {
        /// How many.
        warps: usize,
    },
    /// Nothing woven yet and no earlier warp: reckoned from common practice.
    FromCommonPractice,
    /// Nothing woven for long: is the warp resting?
    AskResting {
        /// Days since the last weaving day, days away not counted.
        days: u32,
    },
    /// Much faster of late than usual: it may be a sprint, and the span is the wider for it.
    FasterOfLate,
    /// A few weaving days say little: asking about how many days a week she weaves would help.
    AskDaysAWeek,
}

/// "9 h", "8 h 30 min", "48 min".
fn hours(minutes: f64) -> String {
    let whole = minutes.round().max(0.0);
    match ((whole / 60.0).floor(), whole % 60.0) {
        (0.0, rest) => format!("{rest:.0}\u{a0}min"),
        (hours, 0.0) => format!("{hours:.0}\u{a0}h"),
        (hours, rest) => format!("{hours:.0}\u{a0}h\u{a0}{rest:.0}\u{a0}min"),
    }
}

fn count(n: usize) -> String {
    match n {
        1 => "one sitting".into(),
        2 => "two sittings".into(),
        3 => "three sittings".into(),
        _ => format!("{n} sittings"),
    }
}

impl Note {
    /// The note as a sentence; `date` writes a day as she is used to reading it.
    #[must_use]
    pub fn sentence(&self, date: DateWriter<'_>) -> String {
        self.sentence_of(date, &in_picks)
    }

    /// The same where picks may stand for something else, such as lengths.
    #[must_use]
    pub fn sentence_of(&self, date: DateWriter<'_>, amount: AmountWriter<'_>) -> String {
        let mut text = match self {
            Self::FutureSittings { sittings } => {
                let (verb, were) = if *sittings == 1 { ("lies", "was") } else { ("lie", "were") };
                format!(
                    "{} {verb} in the future and {were} left out of your pace; is the date right?",
                    count(*sittings)
                )
            }
            Self::LongSitting { day, minutes_entered, minutes_reckoned: Some(minutes) } => {
                format!(
                    "the {} of the sitting on {} count as {}, going by the others",
                    hours(*minutes_entered),
                    date(*day),
                    hours(*minutes)
                )
            }
            Self::LongSitting { day, minutes_entered, minutes_reckoned: None } => {
                format!(
                    "the {} of the sitting on {} look like a forgotten timer and are not counted",
                    hours(*minutes_entered),
                    date(*day)
                )
            }
            Self::FastSitting { day, picks, minutes } => {
                let (picks, minutes) = (amount(*picks), hours(*minutes));
                format!("{picks} in {minutes} on {}? This was left out of your pace", date(*day))
            }
            Self::PicksGuessed { sittings } => {
                format!(
                    "{} with neither picks nor a length: reckoned from minutes, or as a usual sitting",
                    count(*sittings)
                )
            }
            Self::MinutesMissing { sittings } => {
                format!("{} without minutes: counted for the date, not for your pace", count(*sittings))
            }
            Self::FromEarlierWarps { warps: 1 } => {
                "no sitting here tells of your pace yet, so this goes by your earlier warp".into()
            }
            Self::FromEarlierWarps { warps } => {
                format!("no sitting here tells of your pace yet, so this goes by your {warps} earlier warps")
            }
            Self::FromCommonPractice => {
                "no sitting tells of your pace yet, so this goes by common practice, not by you; expect it to move"
                    .into()
            }
            Self::AskResting { days } => format!("nothing was woven for {days} days; is this warp resting?"),
            Self::FasterOfLate => {
                "you have woven faster of late than is usual for you, which may not last; the span is the wider for it"
                    .into()
            }
            Self::AskDaysAWeek => "about how many days a week do you weave? Saying so would narrow this".into(),
        };
        if let Some(first) = text.get(..1) {
            let upper = first.to_uppercase();
            text.replace_range(..1, &upper);
        }
        if !text.ends_with('?') {
            text.push('.');
        }
        text
    }
}
