//! Data cleaning: from sittings as they were entered to weaving days to calculate with.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;

use crate::error::QuestionError;
use crate::notes::Note;
use crate::question::{Question, SectionKind, WovenStretch};
use crate::section_pace::{SectionPaces, median};

/// More than this in any one field is a typing error.
const MOST_PICKS: f64 = 1e7;
const MOST_MINUTES: f64 = 1e5;
/// A sitting this many times the weaver's median is a forgotten timer; the limit stays between the two bounds, in minutes.
const LONG_TIMES: f64 = 4.0;
const LONG_LEAST: f64 = 240.0;
const LONG_MOST: f64 = 480.0;
/// Picks an hour above which an entry is asked about.
pub(crate) const FAST_PICKS_PER_HOUR: f64 = 3000.0;
/// Sittings a plan is spread over before anything is known; near the median of the development cases.
pub(crate) const PLAN_SITTINGS: f64 = 20.0;

/// One warp's weaving days, in picks of the common measure.
#[derive(Debug, Clone, Default, PartialEq)]
pub(crate) struct WeavingDays {
    /// (day, net amount above zero), by day.
    pub(crate) days: Vec<(NaiveDate, f64)>,
    /// Minutes at the loom on each weaving day that was timed, after cleaning.
    pub(crate) minutes: Vec<f64>,
    /// Net picks as the weaver counts them, of every kind.
    pub(crate) picks: f64,
    /// Net picks and minutes of the timed sittings, forgotten timers counted shorter.
    pub(crate) timed: (f64, f64),
    /// Sum over all days, those that came out below zero included.
    pub(crate) net: f64,
    /// The first and the last day with a sitting.
    pub(crate) span: Option<(NaiveDate, NaiveDate)>,
    /// (day, net picks of every kind and any sign), by day.
    pub(crate) every_day: Vec<(NaiveDate, f64)>,
}

impl WeavingDays {
    /// Each day with a sitting and its net picks, unweaving included.
    pub(crate) fn days_net(&self) -> impl Iterator<Item = (NaiveDate, f64)> + '_ {
        self.every_day.iter().copied()
    }

    /// Days between one weaving day and the next.
    pub(crate) fn gaps(&self) -> impl Iterator<Item = f64> + '_ {
        self.days.windows(2).map(|pair| (pair[1].0 - pair[0].0).num_days() as f64)
    }
}

/// A question after cleaning.
#[derive(Debug, Clone)]
pub(crate) struct CleanedQuestion {
    pub(crate) now: WeavingDays,
    pub(crate) earlier: Vec<WeavingDays>,
    /// Work left, in the common measure, and its standard deviation.
    pub(crate) left: f64,
    pub(crate) left_sd: f64,
    /// The same in plain picks, as the weaver counts them.
    pub(crate) left_picks: f64,
    pub(crate) kinds: SectionPaces,
    pub(crate) notes: Vec<Note>,
}

struct TypicalMinutes {
    median_minutes: Option<f64>,
    longest: f64,
}

fn typical_minutes(sittings: &[&WovenStretch]) -> TypicalMinutes {
    let minutes: Vec<f64> = sittings.iter().filter_map(|s| s.minutes).filter(|m| *m > 0.0).collect();
    let median_minutes = median(&minutes);
    let longest = median_minutes.map_or(LONG_MOST, |m| (LONG_TIMES * m).clamp(LONG_LEAST, LONG_MOST));
    TypicalMinutes { median_minutes, longest }
}

fn check(sitting: &WovenStretch) -> Result<(), QuestionError> {
    let bad = |field, value| QuestionError::BadSitting { day: sitting.day, field, value };
    if let Some(picks) = sitting.picks.filter(|p| p.is_nan() || p.abs() > MOST_PICKS) {
        return Err(bad("picks", picks));
    }
    if let Some(minutes) = sitting.minutes.filter(|m| m.is_nan() || m.abs() > MOST_MINUTES) {
        return Err(bad("minutes", minutes));
    }
    Ok(())
}

/// Compares two warps day by day.
fn in_day_order(a: &[(NaiveDate, f64)], b: &[(NaiveDate, f64)]) -> std::cmp::Ordering {
    let key = |day: &(NaiveDate, f64)| (day.0, day.1.to_bits());
    a.iter().map(key).cmp(b.iter().map(key))
}

/// By day, then by content, so that the order of entry cannot matter.
fn in_order(sittings: &[WovenStretch]) -> Vec<&WovenStretch> {
    let mut sorted: Vec<&WovenStretch> = sittings.iter().collect();
    let key = |v: Option<f64>| v.unwrap_or(f64::NEG_INFINITY);
    // What is equal in all of this is the same sitting here.
    sorted.sort_unstable_by(|a, b| {
        (a.day, &a.kind, a.rough)
            .cmp(&(b.day, &b.kind, b.rough))
            .then(key(a.picks).total_cmp(&key(b.picks)))
            .then(key(a.minutes).total_cmp(&key(b.minutes)))
    });
    sorted
}

struct WarpSittings<'a> {
    /// By day.
    sittings: Vec<&'a WovenStretch>,
    typical: TypicalMinutes,
}

impl<'a> WarpSittings<'a> {
    /// (kind, picks, minutes) of every sitting whose pace is plausible.
    fn timed(&self) -> impl Iterator<Item = (&'a SectionKind, f64, f64)> + '_ {
        self.sittings.iter().filter_map(|s| match (s.picks, s.minutes) {
            (Some(picks), Some(minutes))
                if picks > 0.0
                    && minutes > 0.0
                    && minutes <= self.typical.longest
                    && picks / minutes * 60.0 <= FAST_PICKS_PER_HOUR
                    && !s.rough =>
            {
                Some((&s.kind, picks, minutes))
            }
            _ => None,
        })
    }

    fn median_picks(&self) -> Option<f64> {
        let picks: Vec<f64> = self.sittings.iter().filter_map(|s| s.picks).filter(|p| *p > 0.0).collect();
        median(&picks)
    }

    /// Minutes that a sitting counts for, and whether they replace what was entered.
    fn minutes(&self, sitting: &WovenStretch, kinds: &SectionPaces) -> (Option<f64>, bool) {
        match sitting.minutes.filter(|m| *m > 0.0) {
            Some(minutes) if minutes <= self.typical.longest => (Some(minutes), false),
            Some(_) => {
                let by_pace = match (sitting.picks, kinds.per_minute(&sitting.kind)) {
                    (Some(picks), Some(pace)) if picks > 0.0 => Some((picks / pace).min(self.typical.longest)),
                    _ => None,
                };
                // Where forgotten timers are all there is, their median is not the weaver's pace either.
                (by_pace.or(self.typical.median_minutes.filter(|m| *m <= self.typical.longest)), true)
            }
            None => (None, false),
        }
    }

    /// The days of this warp; `stand_in` is the amount of a sitting of which nothing is known.
    fn weaving_days(&self, kinds: &SectionPaces, stand_in: f64, notes: Option<&mut Vec<Note>>) -> WeavingDays {
        let median_picks = self.median_picks();
        let mut per_day: Vec<(NaiveDate, (f64, f64, f64))> = Vec::new();
        let mut found = Vec::new();
        let (mut guessed, mut untimed) = (0, 0);
        let (mut picks_sum, mut timed) = (0.0, (0.0, 0.0));
        for s in &self.sittings {
            let weight = kinds.weight(&s.kind);
            let (minutes, replaced) = self.minutes(s, kinds);
            let amount = s.picks.map(|p| p * weight).unwrap_or_else(|| {
                guessed += usize::from(!s.continues);
                match (minutes.filter(|_| !replaced), kinds.reference_per_minute) {
                    (Some(minutes), Some(pace)) => minutes * pace,
                    _ => median_picks.map_or(stand_in, |p| p * weight),
                }
            });
            if replaced {
                found.push(Note::LongSitting {
                    day: s.day,
                    minutes_entered: s.minutes.unwrap_or(0.0),
                    minutes_used: minutes,
                });
            } else if minutes.is_none() {
                untimed += usize::from(!s.continues);
            } else if let (Some(picks), Some(minutes)) = (s.picks, minutes)
                && picks / minutes * 60.0 > FAST_PICKS_PER_HOUR
            {
                found.push(Note::FastSitting { day: s.day, picks, minutes });
            }
            picks_sum += amount / weight;
            if let Some(minutes) = minutes {
                timed.0 += amount / weight;
                timed.1 += minutes;
            }
            // The sittings are in order of days.
            if per_day.last().is_none_or(|(day, _)| *day != s.day) {
                per_day.push((s.day, (0.0, 0.0, 0.0)));
            }
            if let Some((_, sums)) = per_day.last_mut() {
                sums.0 += amount;
                sums.1 += minutes.unwrap_or(0.0);
                sums.2 += amount / weight;
            }
        }
        if let Some(notes) = notes {
            notes.append(&mut found);
            if guessed > 0 {
                notes.push(Note::PicksGuessed { sittings: guessed });
            }
            if untimed > 0 {
                notes.push(Note::MinutesMissing { sittings: untimed });
            }
        }
        WeavingDays {
            days: per_day.iter().filter(|(_, v)| v.0 > 0.0).map(|(day, v)| (*day, v.0)).collect(),
            minutes: per_day.iter().filter(|(_, v)| v.1 > 0.0).map(|(_, v)| v.1).collect(),
            picks: picks_sum,
            timed,
            net: per_day.iter().map(|(_, v)| v.0).sum(),
            every_day: per_day.iter().map(|(day, v)| (*day, v.2)).collect(),
            span: per_day.first().zip(per_day.last()).map(|(first, last)| (first.0, last.0)),
        }
    }
}

fn with_typical_minutes<'a>(sittings: Vec<&'a WovenStretch>) -> WarpSittings<'a> {
    let typical = typical_minutes(&sittings);
    WarpSittings { sittings, typical }
}

/// Checks and cleans `question`.
pub(crate) fn clean(question: &Question) -> Result<CleanedQuestion, QuestionError> {
    let every = question.sittings.iter().chain(question.earlier.iter().flat_map(|w| &w.sittings));
    every.clone().try_for_each(check)?;
    for left in &question.left {
        for (field, value) in [("the picks left", left.picks), ("the doubt about the picks left", left.picks_sd)] {
            if value.is_nan() || value.abs() > MOST_PICKS {
                return Err(QuestionError::NotAnAmount { field: field.into(), value });
            }
        }
    }

    let mut notes = Vec::new();
    let all = in_order(&question.sittings);
    let (past, future): (Vec<_>, Vec<_>) = all.into_iter().partition(|s| s.day <= question.today);
    if !future.is_empty() {
        notes.push(Note::FutureSittings { sittings: future.iter().filter(|s| !s.continues).count() });
    }
    let now = with_typical_minutes(past);
    // An earlier warp's sittings after today are left out too.
    let earlier: Vec<WarpSittings<'_>> = question
        .earlier
        .iter()
        .map(|w| with_typical_minutes(in_order(&w.sittings).into_iter().filter(|s| s.day <= question.today).collect()))
        .filter(|w| !w.sittings.is_empty())
        .collect();

    let kinds = learn_kinds(question, &now, &earlier);
    let amount = |l: &crate::question::LeftToWeave| l.picks.max(0.0) * kinds.weight(&l.kind);
    let mut parts: Vec<_> = question.left.iter().collect();
    parts.sort_by(|a, b| a.kind.cmp(&b.kind).then(a.picks.total_cmp(&b.picks)));
    // A part woven past its target takes nothing off the parts still to come.
    let left: f64 = parts.iter().map(|l| amount(l)).sum();
    let left_picks: f64 = parts.iter().map(|l| l.picks.max(0.0)).sum();
    let variance: f64 =
        parts.iter().map(|l| (l.picks_sd * kinds.weight(&l.kind)) * (l.picks_sd * kinds.weight(&l.kind))).sum();
    let stand_in = left / PLAN_SITTINGS;
    let weaving_days = now.weaving_days(&kinds, stand_in, Some(&mut notes));
    // By first day, so that the order in which earlier warps are given cannot matter.
    let mut earlier: Vec<WeavingDays> = earlier.iter().map(|w| w.weaving_days(&kinds, stand_in, None)).collect();
    earlier.sort_by(|a, b| a.span.cmp(&b.span).then_with(|| in_day_order(&a.every_day, &b.every_day)));
    Ok(CleanedQuestion { now: weaving_days, earlier, left, left_sd: variance.sqrt(), left_picks, kinds, notes })
}

fn learn_kinds(question: &Question, now: &WarpSittings<'_>, earlier: &[WarpSittings<'_>]) -> SectionPaces {
    let mut timed: Vec<_> = now.timed().collect();
    timed.extend(earlier.iter().flat_map(WarpSittings::timed));
    // The kind most woven on this warp is the measure; so a single kind is measured in its own picks.
    let mut woven: BTreeMap<&SectionKind, f64> = BTreeMap::new();
    for s in &now.sittings {
        *woven.entry(&s.kind).or_insert(0.0) += s.picks.unwrap_or(0.0).max(0.0);
    }
    if woven.is_empty() {
        for left in &question.left {
            *woven.entry(&left.kind).or_insert(0.0) += left.picks.max(0.0);
        }
    }
    let plain = SectionKind::Plain;
    let reference = woven.iter().max_by(|a, b| a.1.total_cmp(b.1)).map_or(&plain, |(kind, _)| *kind);
    let mut wanted: BTreeSet<&SectionKind> = question.left.iter().map(|l| &l.kind).collect();
    wanted.extend(now.sittings.iter().map(|s| &s.kind));
    wanted.extend(earlier.iter().flat_map(|w| w.sittings.iter().map(|s| &s.kind)));
    SectionPaces::estimate(reference, wanted, &timed)
}
