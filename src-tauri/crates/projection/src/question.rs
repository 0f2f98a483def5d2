//! The input of a projection: everything it may use.

use chrono::{Datelike, NaiveDate};
use serde::{Deserialize, Serialize};

/// What is woven in a stretch of cloth; each kind has a pace of its own.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SectionKind {
    /// Plain weave.
    #[default]
    Plain,
    /// WeavingDays with a pick-up stick.
    PickUp,
    /// Any other the weaver names, such as a border.
    Other(String),
}

/// One stretch at the loom, or the part of it woven in one kind of section.
///
/// A sitting over two kinds is given as two, with its minutes shared between them.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct WovenStretch {
    /// The day it began, by the weaver's own calendar.
    pub day: NaiveDate,
    /// Minutes at the loom, interruptions included; missing never blocks the date.
    pub minutes: Option<f64>,
    /// Picks woven less picks unwoven; negative when more was taken out. `None` when not counted or measured
    /// (a length alone is turned into picks by the caller, by the picks per length of the cloth).
    pub picks: Option<f64>,
    /// What was woven.
    pub kind: SectionKind,
    /// Entered from memory: counts in full for the date, but not for pace per hour.
    pub rough: bool,
    /// The rest of a sitting whose beginning is another stretch: no sitting of its own where sittings are counted.
    #[serde(default)]
    pub continues: bool,
}

impl WovenStretch {
    /// A counted sitting in plain weave.
    #[must_use]
    pub fn plain(day: NaiveDate, minutes: Option<f64>, picks: f64) -> Self {
        Self { day, minutes, picks: Some(picks), kind: SectionKind::Plain, rough: false, continues: false }
    }
}

/// Work still to be woven in one kind of section.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LeftToWeave {
    /// What is to be woven.
    pub kind: SectionKind,
    /// Picks still to weave; zero or less when the target is met.
    pub picks: f64,
    /// Standard deviation of that number, in picks; 0 when it is counted.
    pub picks_sd: f64,
}

/// An earlier warp of the same weaver, finished.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct EarlierWarp {
    /// All its sittings, in any order.
    pub sittings: Vec<WovenStretch>,
}

/// A run of days, both ends included.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct DayRange {
    /// First day.
    pub from: NaiveDate,
    /// Last day.
    pub until: NaiveDate,
}

impl DayRange {
    /// Whether `day` is one of them.
    #[must_use]
    pub fn contains(&self, day: NaiveDate) -> bool {
        self.from <= day && day <= self.until
    }
}

/// The days that the weaver states. They replace what the sittings suggest.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct Availability {
    /// The days of the week the weaver works on, Monday first; `None` when not stated.
    pub weekdays: Option<[bool; 7]>,
    /// About how many days a week the weaver works, 0 < days <= 7; `None` when not stated.
    pub days_a_week: Option<f64>,
    /// Days on which the weaver will not or did not weave: away, ill, another piece on the loom.
    pub away: Vec<DayRange>,
    /// Days on every one of which the weaver intends to weave ("every evening this week").
    pub every_day: Vec<DayRange>,
}

impl Availability {
    /// Whether the weaver is away on `day`.
    #[must_use]
    pub fn is_away(&self, day: NaiveDate) -> bool {
        self.away.iter().any(|range| range.contains(day))
    }

    /// Whether the weaver intends to weave on `day`.
    #[must_use]
    pub fn is_promised(&self, day: NaiveDate) -> bool {
        self.every_day.iter().any(|range| range.contains(day))
    }

    /// Whether the stated days of the week allow `day`; true when none are stated.
    #[must_use]
    pub fn allows_weekday(&self, day: NaiveDate) -> bool {
        self.weekdays.is_none_or(|days| days[day.weekday().num_days_from_monday() as usize])
    }
}

/// A step between the last pick and the finished piece, with the days it takes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct FinishingStep {
    /// What is done, in the weaver's words.
    pub name: String,
    /// (whole days, weight): the weights are scaled to sum to 1.
    pub days: Vec<(u32, f64)>,
}

/// Hem or fringe, wash, dry, press: one day for 1 in 4, two for 1 in 2, three for 1 in 4.
/// Common practice, no source.
#[must_use]
pub fn usual_finishing() -> Vec<FinishingStep> {
    vec![FinishingStep { name: "hem or fringe, wash, dry, press".into(), days: vec![(1, 0.25), (2, 0.5), (3, 0.25)] }]
}

/// Everything a projection may use. Build with [`Question::new`] and set what is known.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Question {
    /// The current date.
    pub today: NaiveDate,
    /// Sittings on this warp, in any order. Those after `today` are left out and noted.
    pub sittings: Vec<WovenStretch>,
    /// What is left to weave, per kind of section; in any order.
    pub left: Vec<LeftToWeave>,
    /// Earlier finished warps of the same weaver, in any order.
    pub earlier: Vec<EarlierWarp>,
    /// The days that the weaver states.
    pub availability: Availability,
    /// Steps still to do after the last pick. Empty means none.
    pub finishing: Vec<FinishingStep>,
    /// Hours of weaving that the plan expects for what is left, by common practice; used only before the first
    /// sitting of a weaver without earlier warps.
    pub plan_hours: Option<f64>,
    /// Minutes that the weaver states to weave on a weaving day; used only before the first sitting of a weaver without earlier
    /// warps, with the stated days and `plan_hours`.
    #[serde(default)]
    pub stated_minutes: Option<f64>,
    /// Minutes of set-up (warping, threading) still to be done before weaving; 0 when the warp is on.
    pub set_up_minutes: f64,
    /// The day the piece is to be given.
    pub gift_day: Option<NaiveDate>,
    /// Since when the warp rests, when the weaver has put it aside.
    pub resting_since: Option<NaiveDate>,
    /// The day it was cut off the loom, when it is off: only finishing is left.
    pub cut_off: Option<NaiveDate>,
}

impl Question {
    /// A question with nothing but a day and counted plain picks left; usual finishing, no history.
    #[must_use]
    pub fn new(today: NaiveDate, picks_left: f64) -> Self {
        Self {
            today,
            sittings: Vec::new(),
            left: vec![LeftToWeave { kind: SectionKind::Plain, picks: picks_left, picks_sd: 0.0 }],
            earlier: Vec::new(),
            availability: Availability::default(),
            finishing: usual_finishing(),
            plan_hours: None,
            stated_minutes: None,
            set_up_minutes: 0.0,
            gift_day: None,
            resting_since: None,
            cut_off: None,
        }
    }
}
