//! Generic sequences to start from, as handbooks of the rigid heddle have them (common practice, no source; the lace
//! block of six picks with five to balance after Burton 1984, seen in an excerpt).

use super::{HeddleRow, Sequence};

const UP: HeddleRow = HeddleRow::UP;
const DOWN: HeddleRow = HeddleRow::DOWN;
const STICK: HeddleRow = HeddleRow::STICK;
const BOTH: HeddleRow = HeddleRow::UP_AND_STICK;

/// Plain weave.
pub fn plain() -> Sequence<HeddleRow> {
    Sequence::repeating(vec![UP, DOWN])
}

/// Weft floats: up · stick · up · down, between plain borders.
pub fn weft_float() -> Sequence<HeddleRow> {
    Sequence {
        opening: vec![UP, DOWN, UP, DOWN],
        repeat: vec![UP, STICK, UP, DOWN],
        balance: vec![UP, STICK, UP],
        closing: vec![DOWN, UP, DOWN, UP],
    }
}

/// Warp floats: down · up and stick · down · up, between plain borders.
pub fn warp_float() -> Sequence<HeddleRow> {
    Sequence {
        opening: vec![DOWN, UP, DOWN, UP],
        repeat: vec![DOWN, BOTH, DOWN, UP],
        balance: vec![DOWN, BOTH, DOWN],
        closing: vec![UP, DOWN, UP, DOWN],
    }
}

/// Lace: up · stick · up · stick · up · down, between plain borders.
pub fn lace() -> Sequence<HeddleRow> {
    Sequence {
        opening: vec![UP, DOWN, UP, DOWN],
        repeat: vec![UP, STICK, UP, STICK, UP, DOWN],
        balance: vec![UP, STICK, UP, STICK, UP],
        closing: vec![DOWN, UP, DOWN, UP],
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::sequence::{Drawdown, FloatKind, PickUpAcross, RigidWarp, same_sheds};
    use crate::state::{ThreadsIn, UnderTension};

    #[test]
    fn every_example_can_be_woven() {
        let warp = RigidWarp::for_pick_up(&PickUpAcross { edge_down: 2, up: 1, down: 1, groups: 5 });
        for (sequence, face) in [
            (plain(), None),
            (weft_float(), Some(FloatKind::WeftOnFace)),
            (warp_float(), Some(FloatKind::WarpOnFace)),
            (lace(), Some(FloatKind::WeftOnFace)),
        ] {
            assert_eq!(same_sheds(&sequence, &warp).unwrap(), []);
            assert!(sequence.returns_the_shuttle());
            let floats = Drawdown::repeat(&warp, &sequence.repeat)
                .unwrap()
                .floats(
                    ThreadsIn::<_, UnderTension>::from_per_inch(10.0).unwrap(),
                    ThreadsIn::from_per_inch(10.0).unwrap(),
                )
                .unwrap();
            assert!(floats.iter().all(|float| !float.loose));
            match face {
                None => assert!(floats.is_empty()),
                Some(kind) => assert!(floats.iter().any(|float| float.kind == kind && float.over >= 3)),
            }
        }
    }
}
