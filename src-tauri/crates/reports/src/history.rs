//! What the finished warps show together: how long finishing takes, what they teach, how they were woven.

use std::borrow::Cow;
use std::cmp::Reverse;

use fellmark_journal::RecordId;
use fellmark_projection::EarlierWarp;

use fellmark_model::WarpState;

use crate::learned::WarpSample;
use crate::warp_summary::WarpSummary;

/// So many warps, the latest, show how the weaver weaves now. The projection counts no more than 40
/// gaps between weaving days, and so many warps have them even where each was woven on three days.
const LATEST: usize = 24;
/// Of each kind of weave at least so many count, however long ago they were: its pace is known from nothing else.
const OF_EACH_KIND: usize = 6;

/// What the warps that are off the loom show for the others, and for plans.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct History {
    warps: Vec<RecordId>,
    /// Days the finishing steps of each took, by the step's name in small letters.
    pub waiting_days: Vec<Vec<(String, i64)>>,
    /// What each has to teach.
    pub samples: Vec<WarpSample>,
    counted: Vec<RecordId>,
    /// Sittings of the latest.
    pub earlier: Vec<EarlierWarp>,
}

impl History {
    /// The history that these warps make.
    #[must_use]
    pub fn of<'a>(all: impl IntoIterator<Item = &'a WarpSummary>) -> Self {
        let off: Vec<&WarpSummary> = all.into_iter().filter(|one| one.state == WarpState::OffTheLoom).collect();
        let counted = counted(&off);
        Self {
            warps: off.iter().map(|one| one.id.clone()).collect(),
            waiting_days: off.iter().map(|one| one.waiting_days.clone()).collect(),
            samples: off.iter().map(|one| one.samples.clone().unwrap_or_default()).collect(),
            counted: counted.iter().map(|one| one.id.clone()).collect(),
            earlier: counted
                .iter()
                .map(|one| EarlierWarp { sittings: one.weave_kinds.sittings(one.sittings.iter().copied()) })
                .collect(),
        }
    }

    /// The history without one warp: no warp is history to itself.
    #[must_use]
    pub fn without(&self, warp: &RecordId) -> Cow<'_, Self> {
        let Some(at) = self.warps.iter().position(|id| id == warp) else { return Cow::Borrowed(self) };
        let mut others = self.clone();
        others.warps.remove(at);
        others.waiting_days.remove(at);
        others.samples.remove(at);
        if let Some(at) = others.counted.iter().position(|id| id == warp) {
            others.counted.remove(at);
            others.earlier.remove(at);
        }
        Cow::Owned(others)
    }
}

/// The warps that show how the weaver weaves, the latest first.
fn counted<'a>(off: &[&'a WarpSummary]) -> Vec<&'a WarpSummary> {
    let mut latest_first = off.to_vec();
    latest_first.sort_by_cached_key(|one| (Reverse(one.last_woven_on()), one.id.clone()));
    let mut seen: Vec<(&fellmark_projection::SectionKind, usize)> = Vec::new();
    let mut counted = Vec::new();
    for one in latest_first {
        let mut wanted = counted.len() < LATEST;
        for kind in one.weave_kinds.kinds() {
            match seen.iter_mut().find(|(of, _)| *of == kind) {
                Some((_, count)) => {
                    wanted |= *count < OF_EACH_KIND;
                    *count += 1;
                }
                None => {
                    wanted = true;
                    seen.push((kind, 1));
                }
            }
        }
        if wanted {
            counted.push(one);
        }
    }
    counted
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::progress::Progress;
    use crate::warp_report::WarpReport;
    use fellmark_model::tests::{log, sitting};

    /// A finished warp woven on one day of November.
    fn finished(nth: u32, day: u32, pick_up: bool) -> WarpSummary {
        let mut log = log();
        log.warp.id = format!("w{nth:019}").parse().unwrap();
        log.warp.state = WarpState::OffTheLoom;
        log.warp.weave = pick_up.then(|| "pick_up".to_owned());
        log.sittings = vec![sitting(day, Some(100), None)];
        let progress = Progress::of(&log, 0);
        WarpSummary::of_report(&WarpReport { log, progress })
    }

    #[test]
    fn the_latest_are_used_and_some_of_each_kind() {
        let mut all: Vec<WarpSummary> = (0..60).map(|n| finished(n, 2 + n % 20, false)).collect();
        all.extend((60..70).map(|n| finished(n, 1, true)));
        let history = History::of(&all);
        assert_eq!((history.samples.len(), history.earlier.len()), (70, LATEST + OF_EACH_KIND));
        let first = |warp: &EarlierWarp| warp.sittings.first().map(|sitting| sitting.day);
        assert!(history.earlier.windows(2).all(|pair| first(&pair[0]) >= first(&pair[1])));
        let others = history.without(&all[19].id);
        assert_eq!((others.samples.len(), others.earlier.len()), (69, LATEST + OF_EACH_KIND - 1));
        assert_eq!(history.without(&"another".parse().unwrap()).as_ref(), &history);
    }
}
