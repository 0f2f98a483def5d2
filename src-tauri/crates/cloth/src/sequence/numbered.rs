//! Numbered sheds, for looms with shafts.

use std::collections::{BTreeMap, BTreeSet};

use super::interlacement::WeavingDraft;
use crate::error::Refused;

/// The number of a shed: a treadle, a lever pattern, a line of the lift plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize)]
#[serde(transparent)]
pub struct Shed(pub u16);

/// Which shaft each end is on, and which shafts each shed lifts.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub struct NumberedSheds {
    /// The shaft of each end from the left, over one repeat of the threading.
    pub threading: Vec<u16>,
    /// Shafts that each shed lifts.
    pub lifts: BTreeMap<Shed, BTreeSet<u16>>,
}

impl NumberedSheds {
    /// Sheds that lift every other shaft of an evenly numbered loom: 1 lifts the odd, 2 the even ones.
    pub fn plain(ends: usize) -> Self {
        let shaft = |end: usize| if end.is_multiple_of(2) { 1 } else { 2 };
        Self {
            threading: (0..ends).map(shaft).collect(),
            lifts: BTreeMap::from([(Shed(1), BTreeSet::from([1])), (Shed(2), BTreeSet::from([2]))]),
        }
    }
}

impl WeavingDraft<Shed> for NumberedSheds {
    fn ends(&self) -> usize {
        self.threading.len()
    }

    fn raised(&self, row: &Shed) -> Result<Vec<bool>, Refused> {
        let Some(shafts) = self.lifts.get(row) else {
            return Err(Refused::DoesNotFit(format!("shed {} is used, and nothing says what it lifts", row.0)));
        };
        Ok(self.threading.iter().map(|shaft| shafts.contains(shaft)).collect())
    }
}
