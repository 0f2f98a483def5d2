//! The pick-up across the width, balanced at both edges.
//!
//! With u up, d down, a down at each edge and k groups, slot ends N = 2a + k·u + (k−1)·d.

use crate::error::Refused;

/// A pick-up on slot ends: a down, then u up and d down in turn, a down.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
pub struct PickUpAcross {
    /// Down at each edge (a).
    pub edge_down: usize,
    /// Up in each group (u).
    pub up: usize,
    /// Down between groups (d).
    pub down: usize,
    /// Groups that are up (k).
    pub groups: usize,
}

/// A pick-up fitted to a number of slot ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Fitting {
    /// Balanced on exactly these slot ends, if that is possible.
    pub exact: Option<PickUpAcross>,
    /// Otherwise the nearest with fewer slot ends.
    pub with_fewer: Option<PickUpAcross>,
    /// And the nearest with more.
    pub with_more: Option<PickUpAcross>,
}

/// Wider than any reed.
const MOST: usize = 100_000;

impl PickUpAcross {
    /// N = 2a + k·u + (k−1)·d.
    pub fn slot_ends(&self) -> usize {
        let between = self.groups.saturating_sub(1).saturating_mul(self.down);
        self.edge_down
            .saturating_mul(2)
            .saturating_add(self.groups.saturating_mul(self.up))
            .saturating_add(between)
            .min(MOST)
    }

    /// Which slot ends are up, from one edge to the other; the same from both.
    pub fn charge(&self) -> Vec<bool> {
        let period = self.up.saturating_add(self.down).max(1);
        let n = self.slot_ends();
        (0..n)
            .map(|slot| {
                slot >= self.edge_down
                    && slot < n.saturating_sub(self.edge_down)
                    && (slot - self.edge_down) % period < self.up
            })
            .collect()
    }

    /// The largest balanced pick-up on so many slot ends with at least `least_edge` down at each edge; where none comes
    /// out even, the nearest with fewer and with more.
    /// # Errors
    /// If `up` or `down` is nothing, the width is absurd, or not even one group fits.
    pub fn fitted(slot_ends: usize, up: usize, down: usize, least_edge: usize) -> Result<Fitting, Refused> {
        if up == 0 || down == 0 {
            return Err(Refused::Zero { what: "the number of ends up or down in a group" });
        }
        if [slot_ends, up, down, least_edge].iter().any(|n| *n > MOST) {
            return Err(Refused::DoesNotFit("that is wider than any reed".into()));
        }
        let on = |slots: usize| -> Option<Self> {
            let room = slots.checked_sub(2 * least_edge)?;
            let most_groups = (room + down) / (up + down);
            // A group less changes the remainder's parity only if up + down is odd: two tries are enough.
            (1..=most_groups).rev().take(2).find_map(|groups| {
                let edges = slots - groups * up - (groups - 1) * down;
                edges.is_multiple_of(2).then_some(Self { edge_down: edges / 2, up, down, groups })
            })
        };
        let exact = on(slot_ends);
        if exact.is_some() {
            return Ok(Fitting { exact, with_fewer: None, with_more: None });
        }
        let with_fewer = (1..=2).find_map(|fewer| on(slot_ends.checked_sub(fewer)?));
        let least = up + 2 * least_edge;
        let with_more = (1..=2).find_map(|more| on(slot_ends + more)).or_else(|| on(least.max(slot_ends + 1)));
        if with_fewer.is_none() && slot_ends < least {
            return Err(Refused::DoesNotFit(format!(
                "one group of {up} with {least_edge} down at each edge takes {least} slot ends, and there are {slot_ends}"
            )));
        }
        Ok(Fitting { exact: None, with_fewer, with_more })
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn the_formula() {
        let p = PickUpAcross { edge_down: 3, up: 2, down: 1, groups: 4 };
        assert_eq!(p.slot_ends(), 2 * 3 + 4 * 2 + 3);
        let charge = p.charge();
        assert_eq!(charge.len(), 17);
        assert_eq!(charge.iter().filter(|up| **up).count(), 8);
        let mut mirrored = charge.clone();
        mirrored.reverse();
        assert_eq!(charge, mirrored);
    }

    #[test]
    fn fitting_keeps_the_edges_even() {
        // 1 up, 1 down: the rest is odd on an even number of slot ends, whatever the groups.
        let even = PickUpAcross::fitted(20, 1, 1, 2).unwrap();
        assert_eq!(even.exact, None);
        assert_eq!((even.with_fewer.unwrap().slot_ends(), even.with_more.unwrap().slot_ends()), (19, 21));
        let odd = PickUpAcross::fitted(21, 1, 1, 2).unwrap().exact.unwrap();
        assert_eq!((odd.groups, odd.edge_down), (9, 2));
        let twos = PickUpAcross::fitted(20, 2, 1, 1).unwrap().exact.unwrap();
        assert_eq!(twos.slot_ends(), 20);
        assert!(PickUpAcross::fitted(3, 2, 1, 1).is_err());
        assert!(PickUpAcross::fitted(20, 0, 1, 1).is_err());
        assert!(PickUpAcross::fitted(usize::MAX, 1, 1, 1).is_err());
    }
}
