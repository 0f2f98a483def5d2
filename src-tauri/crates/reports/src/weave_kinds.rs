//! Which part of the work is plain and which is pick-up, so that a border still to come is not counted at the pace of the
//! repeat, nor the repeat at that of a border.

use chrono::NaiveDate;
use fellmark_projection::{LeftToWeave, SectionKind, WovenStretch};

use crate::progress::Progress;
use fellmark_model::sequence::{self, Row};
use fellmark_model::{Warp, WarpLog};

/// What a sitting wove.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SittingWoven {
    /// The day.
    pub on: NaiveDate,
    /// Minutes at the loom.
    pub minutes: Option<f64>,
    /// Net picks: counted, or by the tape; nothing where neither is known.
    pub picks: Option<f64>,
    /// Whether they were counted.
    pub counted: bool,
    /// Whether the figures are rough.
    pub rough: bool,
}

impl SittingWoven {
    /// What each sitting of a warp wove, in the order of the log.
    pub fn all<'a>(log: &'a WarpLog, progress: &'a Progress) -> impl Iterator<Item = Self> + 'a {
        log.sittings.iter().zip(&progress.sitting_picks).map(|(sitting, picks)| Self {
            on: sitting.on,
            minutes: sitting.minutes,
            picks: *picks,
            counted: sitting.picks.is_some(),
            rough: sitting.rough,
        })
    }
}

/// The kinds along the cloth: opening border, then repeats, at the end the closing border.
#[derive(Clone, Debug, PartialEq)]
pub struct WeaveKinds {
    opening: (f64, SectionKind),
    middle: SectionKind,
    closing: (f64, SectionKind),
}

impl WeaveKinds {
    /// The kinds of a warp: as its rows have it where there is one piece; else all of it is of the warp's kind.
    #[must_use]
    pub fn of(warp: &Warp) -> Self {
        let whole = match warp.weave.as_deref() {
            Some("pick_up") => SectionKind::PickUp,
            _ => SectionKind::Plain,
        };
        let alike = Self { opening: (0.0, whole.clone()), middle: whole.clone(), closing: (0.0, whole.clone()) };
        if warp.pieces != 1 {
            return alike;
        }
        let Some(sequence) = sequence::sequence(&warp.rows) else { return alike };
        let kind = |rows: &[Row]| {
            let worked = sequence::sticks(&fellmark_cloth::sequence::Sequence::repeating(rows.to_vec())) > 0;
            if worked { SectionKind::PickUp } else { SectionKind::Plain }
        };
        let middle = if sequence.repeat.is_empty() { whole } else { kind(&sequence.repeat) };
        Self {
            opening: (sequence.opening.len() as f64, kind(&sequence.opening)),
            closing: (sequence.closing.len() as f64, kind(&sequence.closing)),
            middle,
        }
    }

    /// The kinds there are, each once.
    pub fn kinds(&self) -> impl Iterator<Item = &SectionKind> {
        let (opening, closing) = (&self.opening, &self.closing);
        let borders = [opening, closing].into_iter().filter(|(picks, kind)| *picks > 0.0 && *kind != self.middle);
        // Both borders may be of one kind.
        let borders = borders.map(|(_, kind)| kind).take(if opening.1 == closing.1 { 1 } else { 2 });
        borders.chain(std::iter::once(&self.middle))
    }

    /// Picks of each kind between two counts of picks from the start; the closing border is not looked for.
    fn between(&self, from: f64, to: f64) -> Vec<(SectionKind, f64)> {
        let (border, kind) = &self.opening;
        let in_border = (to.min(*border) - from.max(0.0)).max(0.0);
        if in_border <= 0.0 || *kind == self.middle {
            return vec![(self.middle.clone(), to - from)];
        }
        let rest = to - from - in_border;
        if rest <= 0.0 {
            vec![(kind.clone(), to - from)]
        } else {
            vec![(kind.clone(), in_border), (self.middle.clone(), rest)]
        }
    }

    /// The sittings as the projection takes them: one over two kinds becomes two, its minutes shared by picks.
    #[must_use]
    pub fn sittings(&self, sittings: impl IntoIterator<Item = SittingWoven>) -> Vec<WovenStretch> {
        let sittings = sittings.into_iter();
        let mut at = 0.0_f64;
        let mut all = Vec::with_capacity(sittings.size_hint().0);
        for sitting in sittings {
            let picks = sitting.picks;
            let stretch = |kind: SectionKind, minutes: Option<f64>, picks: Option<f64>| WovenStretch {
                day: sitting.on,
                minutes,
                picks,
                kind,
                rough: sitting.rough,
                continues: false,
            };
            match picks {
                Some(net) if net > 0.0 => {
                    for (nth, (kind, part)) in self.between(at, at + net).into_iter().enumerate() {
                        let minutes = sitting.minutes.map(|minutes| minutes * part / net);
                        all.push(WovenStretch { continues: nth > 0, ..stretch(kind, minutes, Some(part)) });
                    }
                }
                _ => all.push(stretch(self.middle.clone(), sitting.minutes, picks)),
            }
            at += picks.unwrap_or(0.0);
        }
        all
    }

    /// What is left, by kind; the spread of the count goes with the middle.
    #[must_use]
    pub fn left(&self, woven: f64, left: f64, sd: f64) -> Vec<LeftToWeave> {
        let (border, kind) = &self.closing;
        let closing = if *kind == self.middle { 0.0 } else { border.min(left.max(0.0)) };
        let mut all: Vec<LeftToWeave> = self
            .between(woven.max(0.0), woven.max(0.0) + left - closing)
            .into_iter()
            .map(|(kind, picks)| LeftToWeave { kind, picks, picks_sd: 0.0 })
            .collect();
        if closing > 0.0 {
            all.push(LeftToWeave { kind: kind.clone(), picks: closing, picks_sd: 0.0 });
        }
        if let Some(middle) = all.iter_mut().find(|part| part.kind == self.middle) {
            middle.picks_sd = sd;
        } else if let Some(first) = all.first_mut() {
            first.picks_sd = sd;
        }
        all
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use fellmark_model::Rows;
    use fellmark_model::tests::{log, sitting};

    fn rows(count: usize, row: &str) -> Vec<String> {
        vec![row.to_owned(); count]
    }

    fn bordered() -> WeaveKinds {
        let mut warp = log().warp;
        let repeat = ["up", "stick", "up", "down"].map(str::to_owned).to_vec();
        warp.rows = Rows { opening: rows(20, "up"), repeat, balance: Vec::new(), closing: rows(30, "down") };
        WeaveKinds::of(&warp)
    }

    #[test]
    fn a_sitting_over_border_and_repeat_becomes_two() {
        let mut log = log();
        log.sittings = vec![sitting(1, Some(50), None), sitting(2, Some(-10), None), sitting(3, Some(40), None)];
        let reported = bordered().sittings(SittingWoven::all(&log, &Progress::of(&log, 0)));
        // One over two kinds is still one sitting.
        let continued: Vec<bool> = reported.iter().map(|part| part.continues).collect();
        assert_eq!(continued, [false, true, false, false]);
        let parts: Vec<(SectionKind, Option<f64>, Option<f64>)> =
            reported.into_iter().map(|part| (part.kind, part.picks, part.minutes)).collect();
        assert_eq!(
            parts,
            [
                (SectionKind::Plain, Some(20.0), Some(16.0)),
                (SectionKind::PickUp, Some(30.0), Some(24.0)),
                (SectionKind::PickUp, Some(-10.0), Some(40.0)),
                (SectionKind::PickUp, Some(40.0), Some(40.0)),
            ]
        );
    }

    #[test]
    fn the_border_still_to_come_is_of_its_own_kind() {
        let left = bordered().left(80.0, 200.0, 12.0);
        let parts: Vec<(SectionKind, f64, f64)> =
            left.into_iter().map(|part| (part.kind, part.picks, part.picks_sd)).collect();
        assert_eq!(parts, [(SectionKind::PickUp, 170.0, 12.0), (SectionKind::Plain, 30.0, 0.0)]);
        let near_the_end = bordered().left(280.0, 10.0, 0.0);
        assert_eq!(near_the_end.iter().map(|part| part.picks).sum::<f64>(), 10.0);
    }

    #[test]
    fn without_rows_all_is_of_the_warp_s_kind() {
        let mut warp = log().warp;
        warp.weave = Some("pick_up".into());
        let left = WeaveKinds::of(&warp).left(0.0, 100.0, 3.0);
        assert_eq!((left.len(), left[0].kind.clone(), left[0].picks), (1, SectionKind::PickUp, 100.0));
    }
}
