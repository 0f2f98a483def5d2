//! Rows on a rigid heddle with one or two pick-up sticks.
//!
//! A slot and a hole carry one end each, in turn. Heddle up lifts the hole ends over the slot ends, heddle down sinks
//! them. The stick is charged with the heddle *down*, on slot ends, and lies behind the heddle. On edge (heddle at
//! rest; some keep it down) it lifts its ends alone: the weft floats over all others. Slid forward flat with the heddle
//! up it lifts its ends along with the hole ends: these ends float over the weft. Common practice, no source.

use super::interlacement::WeavingDraft;
use super::pick_up::PickUpAcross;
use crate::error::Refused;

/// The heddle's position.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Heddle {
    /// In the upper notch: hole ends up.
    Up,
    /// In the lower notch: hole ends down, slot ends up.
    Down,
    /// In neither: hole and slot ends level.
    AtRest,
}

/// A pick-up stick's position.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Stick {
    /// Resting at the back, or not there.
    #[default]
    AtBack,
    /// Slid forward to the heddle, flat.
    ForwardFlat,
    /// Slid forward and turned on edge.
    OnEdge,
}

/// One pick.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
pub struct HeddleRow {
    /// The heddle.
    pub heddle: Heddle,
    /// The (first) stick.
    #[serde(default)]
    pub stick: Stick,
    /// The second stick.
    #[serde(default)]
    pub second: Stick,
}

impl HeddleRow {
    /// Heddle up.
    pub const UP: Self = Self::of(Heddle::Up, Stick::AtBack);
    /// Heddle down.
    pub const DOWN: Self = Self::of(Heddle::Down, Stick::AtBack);
    /// Heddle at rest, stick on edge: a weft float.
    pub const STICK: Self = Self::of(Heddle::AtRest, Stick::OnEdge);
    /// Heddle up, stick forward flat: a warp float.
    pub const UP_AND_STICK: Self = Self::of(Heddle::Up, Stick::ForwardFlat);

    /// A row with one stick.
    pub const fn of(heddle: Heddle, stick: Stick) -> Self {
        Self { heddle, stick, second: Stick::AtBack }
    }

    /// The same with the second stick so, the first at the back.
    #[must_use]
    pub const fn on_second(self) -> Self {
        Self { heddle: self.heddle, stick: Stick::AtBack, second: self.stick }
    }
}

/// How many sticks a set of rows uses: 0, 1 or 2.
pub(crate) fn sticks_used(rows: &[HeddleRow]) -> usize {
    if rows.iter().any(|row| row.second != Stick::AtBack) {
        2
    } else {
        usize::from(rows.iter().any(|row| row.stick != Stick::AtBack))
    }
}

impl super::Sequence<HeddleRow> {
    /// How many pick-up sticks it takes: 0, 1 or 2.
    pub fn sticks(&self) -> usize {
        [&self.opening, &self.repeat, &self.balance, &self.closing].iter().map(|r| sticks_used(r)).max().unwrap_or(0)
    }
}

/// Wider than any heddle; keeps a mistyped number from filling the memory.
const MOST_ENDS: usize = 100_000;

/// Whether an end lies in a slot or a hole.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Lies {
    /// In a slot.
    InSlot,
    /// In a hole.
    InHole,
}

/// A warp on a rigid heddle with its sticks charged.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub struct RigidWarp {
    /// Ends in all.
    pub ends: usize,
    /// Where the first end (at the left) lies.
    pub first: Lies,
    /// Which slot ends the first stick lifts, from the left; shorter than the slots means the rest is down.
    pub stick: Vec<bool>,
    /// The same for the second stick; empty if there is none.
    pub second: Vec<bool>,
}

impl RigidWarp {
    /// A warp exactly as wide as a pick-up, its first and last end in a slot.
    pub fn for_pick_up(pick_up: &PickUpAcross) -> Self {
        let slots = pick_up.slot_ends();
        Self { ends: (slots * 2).saturating_sub(1), first: Lies::InSlot, stick: pick_up.charge(), second: Vec::new() }
    }

    /// Slot ends in the warp.
    pub fn slot_ends(&self) -> usize {
        match self.first {
            Lies::InSlot => self.ends.div_ceil(2),
            Lies::InHole => self.ends / 2,
        }
    }

    fn slot_of(&self, end: usize) -> Option<usize> {
        let first_is_slot = self.first == Lies::InSlot;
        (end.is_multiple_of(2) == first_is_slot).then_some(end / 2)
    }
}

impl WeavingDraft<HeddleRow> for RigidWarp {
    fn ends(&self) -> usize {
        self.ends
    }

    fn raised(&self, row: &HeddleRow) -> Result<Vec<bool>, Refused> {
        if self.ends > MOST_ENDS {
            return Err(Refused::DoesNotFit(format!("{} ends are more than any heddle holds", self.ends)));
        }
        for (stick, charge, which) in
            [(row.stick, &self.stick, "the stick"), (row.second, &self.second, "the second stick")]
        {
            if stick != Stick::AtBack && !charge.contains(&true) {
                return Err(Refused::DoesNotFit(format!("{which} is used, and no ends are picked up on it")));
            }
            if charge.len() > self.slot_ends() {
                return Err(Refused::DoesNotFit(format!(
                    "the pick-up is {} slot ends wide, and the warp has {}",
                    charge.len(),
                    self.slot_ends()
                )));
            }
        }
        let on_edge = row.stick == Stick::OnEdge || row.second == Stick::OnEdge;
        if row.heddle == Heddle::AtRest && !on_edge {
            return Err(Refused::DoesNotFit(
                "with the heddle at rest a stick has to stand on edge to open a shed".into(),
            ));
        }
        let lifted = |slot: usize| {
            let by =
                |stick: Stick, charge: &[bool]| stick != Stick::AtBack && charge.get(slot).copied().unwrap_or(false);
            by(row.stick, &self.stick) || by(row.second, &self.second)
        };
        Ok((0..self.ends)
            .map(|end| match (row.heddle, self.slot_of(end)) {
                (Heddle::Up, None) => true,
                (Heddle::Up, Some(slot)) => lifted(slot),
                // Some keep the heddle down while the stick stands on edge: its ends alone are up all the same.
                (Heddle::Down, Some(slot)) => !on_edge || lifted(slot),
                (Heddle::AtRest, Some(slot)) => lifted(slot),
                (Heddle::Down | Heddle::AtRest, None) => false,
            })
            .collect())
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn warp() -> RigidWarp {
        // Slot ends: down, up, up, down; ends s h s h s h s.
        RigidWarp::for_pick_up(&PickUpAcross { edge_down: 1, up: 2, down: 1, groups: 1 })
    }

    fn drawn(row: HeddleRow) -> String {
        warp().raised(&row).unwrap().iter().map(|up| if *up { '|' } else { '-' }).collect()
    }

    #[test]
    fn sheds_of_a_rigid_heddle() {
        assert_eq!(drawn(HeddleRow::UP), "-|-|-|-");
        assert_eq!(drawn(HeddleRow::DOWN), "|-|-|-|");
        assert_eq!(drawn(HeddleRow::STICK), "--|-|--");
        assert_eq!(drawn(HeddleRow::of(Heddle::Down, Stick::OnEdge)), "--|-|--");
        assert_eq!(drawn(HeddleRow::UP_AND_STICK), "-|||||-");
        assert_eq!(drawn(HeddleRow::of(Heddle::Down, Stick::ForwardFlat)), "|-|-|-|");
    }

    #[test]
    fn a_shed_needs_something_to_open_it() {
        for row in [HeddleRow::of(Heddle::AtRest, Stick::AtBack), HeddleRow::of(Heddle::AtRest, Stick::ForwardFlat)] {
            assert!(warp().raised(&row).unwrap_err().to_string().contains("on edge"));
        }
        assert!(warp().raised(&HeddleRow::STICK.on_second()).unwrap_err().to_string().contains("second stick"));
        let narrow = RigidWarp { ends: 3, ..warp() };
        assert!(narrow.raised(&HeddleRow::UP).is_err());
        assert!(RigidWarp { ends: usize::MAX, ..warp() }.raised(&HeddleRow::UP).is_err());
    }

    #[test]
    fn two_sticks_lift_their_own_ends() {
        let mut both = warp();
        both.second = vec![true, false, false, true];
        let raised = both.raised(&HeddleRow::STICK.on_second()).unwrap();
        assert_eq!(raised, [true, false, false, false, false, false, true]);
    }
}
