//! What interlaces with what: rows drawn down to floats with their length in threads and in mm.

use crate::error::Refused;
use crate::quantity::Length;
use crate::state::{EndsIn, MeasuredState, PicksIn};

/// A float longer than this is worth naming: it catches on rings and buttons. Common practice, no source; wear decides.
pub const LONG_FLOAT_MM: f64 = 12.7;

/// More crossings than a drawdown is for.
const MOST_CROSSINGS: usize = 20_000_000;

/// Says which ends a row raises.
pub trait WeavingDraft<R> {
    /// Ends across.
    fn ends(&self) -> usize;
    /// For every end, whether it is up while the shuttle passes.
    /// # Errors
    /// If the row opens no shed on this warp.
    fn raised(&self, row: &R) -> Result<Vec<bool>, Refused>;
}

/// Two picks in one shed: the second pulls the first out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SameShed {
    /// The pick that lies in the same shed as the one before it, from 0 in the order written out with two repeats.
    pub pick: usize,
    /// Whether it is the first row of a repeat, so that repeat and repeat (or border and repeat) don't follow each
    /// other.
    pub at_a_join: bool,
}

/// Finds picks that lie in the same shed as the one before, within sections and where they join; two repeats are
/// written out so that the join from repeat to repeat is seen.
/// # Errors
/// If a row opens no shed, or the sequence is absurdly long.
pub fn same_sheds<R: Clone>(
    sequence: &super::Sequence<R>,
    draft: &impl WeavingDraft<R>,
) -> Result<Vec<SameShed>, Refused> {
    let rows = sequence.written_out(2)?;
    let lengths = [sequence.opening.len(), sequence.repeat.len(), sequence.repeat.len(), sequence.balance.len()];
    let joins: Vec<usize> = lengths
        .iter()
        .scan(0, |at, len| {
            *at += len;
            Some(*at)
        })
        .collect();
    let mut found = Vec::new();
    let mut before: Option<Vec<bool>> = None;
    for (pick, row) in rows.iter().enumerate() {
        let raised = draft.raised(row)?;
        if before.as_ref() == Some(&raised) {
            found.push(SameShed { pick, at_a_join: joins.contains(&pick) });
        }
        before = Some(raised);
    }
    Ok(found)
}

/// Which thread floats, and on which side.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FloatKind {
    /// Weft over several ends, on the face.
    WeftOnFace,
    /// Weft under several ends, seen on the back.
    WeftOnBack,
    /// An end over several picks, on the face.
    WarpOnFace,
    /// An end under several picks, seen on the back.
    WarpOnBack,
}

impl FloatKind {
    /// Whether the weft floats.
    pub fn is_weft(self) -> bool {
        matches!(self, Self::WeftOnFace | Self::WeftOnBack)
    }
}

/// A thread that crosses more than one thread before it interlaces.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Float {
    /// Which thread, which side.
    pub kind: FloatKind,
    /// The pick (for weft) or the end (for warp) that floats, from 0.
    pub thread: usize,
    /// The first thread it crosses, from 0.
    pub from: usize,
    /// How many threads it crosses.
    pub over: usize,
    /// Its length: threads crossed ÷ their density, in the state of the densities given.
    pub length: Length,
    /// It never interlaces: an end that is always up (or down), or a pick under all ends.
    pub loose: bool,
}

impl Float {
    /// Whether it is longer than a limit ([`LONG_FLOAT_MM`] where nobody says), or never ends.
    pub fn is_longer_than(&self, limit: Length) -> bool {
        self.loose || self.length > limit
    }
}

/// The cloth as drawn: for each pick, which ends are up.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Drawdown {
    rows: Vec<Vec<bool>>,
    ends: usize,
    repeats: bool,
}

impl Drawdown {
    /// Draws rows that are woven once.
    /// # Errors
    /// If a row opens no shed, or there are absurdly many crossings.
    pub fn once<R>(draft: &impl WeavingDraft<R>, rows: &[R]) -> Result<Self, Refused> {
        Self::draw(draft, rows, false)
    }

    /// Draws a repeat: after the last row comes the first again.
    /// # Errors
    /// As [`Self::once`].
    pub fn repeat<R>(draft: &impl WeavingDraft<R>, rows: &[R]) -> Result<Self, Refused> {
        Self::draw(draft, rows, true)
    }

    fn draw<R>(draft: &impl WeavingDraft<R>, rows: &[R], repeats: bool) -> Result<Self, Refused> {
        let ends = draft.ends();
        if ends.saturating_mul(rows.len()) > MOST_CROSSINGS {
            return Err(Refused::DoesNotFit("that is more cloth than can be drawn at once".into()));
        }
        let rows = rows.iter().map(|row| draft.raised(row)).collect::<Result<Vec<_>, _>>()?;
        Ok(Self { rows, ends, repeats })
    }

    /// Picks drawn.
    pub fn picks(&self) -> usize {
        self.rows.len()
    }

    /// Ends drawn.
    pub fn ends(&self) -> usize {
        self.ends
    }

    /// For each pick, whether each end is up (over the weft).
    pub fn rows(&self) -> &[Vec<bool>] {
        &self.rows
    }

    fn up(&self, pick: usize, end: usize) -> bool {
        self.rows.get(pick).and_then(|row| row.get(end)).copied().unwrap_or(false)
    }

    /// Every float over two threads or more, weft first, in order; lengths by densities of one state.
    /// # Errors
    /// If a length leaves the limits.
    pub fn floats<S: MeasuredState>(&self, sett: EndsIn<S>, picks: PicksIn<S>) -> Result<Vec<Float>, Refused> {
        let mut floats = Vec::new();
        for pick in 0..self.picks() {
            for run in runs(self.ends, false, true, |end| self.up(pick, end)) {
                let kind = if run.up { FloatKind::WeftOnBack } else { FloatKind::WeftOnFace };
                floats.push(run.float(kind, pick, sett.density())?);
            }
        }
        for end in 0..self.ends {
            for run in runs(self.picks(), self.repeats, self.repeats, |pick| self.up(pick, end)) {
                let kind = if run.up { FloatKind::WarpOnFace } else { FloatKind::WarpOnBack };
                floats.push(run.float(kind, end, picks.density())?);
            }
        }
        Ok(floats)
    }

    /// Where the weft goes from one side to the other, as a share of the ends it passes: 1 in plain weave, less with
    /// floats. Take-up goes by this.
    pub fn weft_intersections(&self) -> f64 {
        let pairs = self.ends.saturating_sub(1) * self.picks();
        let crossed: usize = self.rows.iter().map(|row| row.windows(2).filter(|pair| pair[0] != pair[1]).count()).sum();
        share(crossed, pairs)
    }

    /// The same for the warp along the picks.
    pub fn warp_intersections(&self) -> f64 {
        let n = self.picks();
        let steps = if self.repeats { n } else { n.saturating_sub(1) };
        let crossed: usize = (0..steps)
            .map(|pick| (0..self.ends).filter(|end| self.up(pick, *end) != self.up((pick + 1) % n, *end)).count())
            .sum();
        share(crossed, steps * self.ends)
    }
}

fn share(part: usize, of: usize) -> f64 {
    // Both at most MOST_CROSSINGS.
    #[allow(clippy::cast_precision_loss)]
    if of == 0 { 0.0 } else { part as f64 / of as f64 }
}

struct Run {
    from: usize,
    over: usize,
    up: bool,
    loose: bool,
}

impl Run {
    fn float(&self, kind: FloatKind, thread: usize, crossed: crate::quantity::ThreadDensity) -> Result<Float, Refused> {
        // At most MOST_CROSSINGS threads.
        #[allow(clippy::cast_precision_loss)]
        let length = crossed.length_of(self.over as f64)?;
        Ok(Float { kind, thread, from: self.from, over: self.over, length, loose: self.loose })
    }
}

/// Runs of two or more that are alike; around the end if it `repeats`. All alike is `loose` if what is drawn is all
/// there is.
fn runs(n: usize, repeats: bool, whole: bool, up: impl Fn(usize) -> bool) -> Vec<Run> {
    if n == 0 {
        return Vec::new();
    }
    let start = if repeats { (1..n).find(|i| up(*i) != up(*i - 1)) } else { None };
    if (1..n).all(|i| up(i) == up(0)) {
        // A single row woven once, or a warp of one end, says nothing about interlacing.
        return if n > 1 || repeats { vec![Run { from: 0, over: n, up: up(0), loose: whole }] } else { Vec::new() };
    }
    let start = start.unwrap_or(0);
    let mut found = Vec::new();
    let mut from = 0;
    for i in 1..=n {
        let here = |i: usize| up((start + i) % n);
        if i == n || here(i) != here(from) {
            if i - from > 1 {
                found.push(Run { from: (start + from) % n, over: i - from, up: here(from), loose: false });
            }
            from = i;
        }
    }
    found
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::sequence::{HeddleRow, NumberedSheds, PickUpAcross, RigidWarp, Sequence, Shed, weft_float};
    use crate::state::UnderTension;

    fn ten<D: crate::state::Axis>() -> crate::state::ThreadsIn<D, UnderTension> {
        crate::state::ThreadsIn::from_per_inch(10.0).unwrap()
    }

    fn warp() -> RigidWarp {
        RigidWarp::for_pick_up(&PickUpAcross { edge_down: 1, up: 1, down: 1, groups: 2 })
    }

    #[test]
    fn plain_weave_has_no_floats() {
        let rows = [HeddleRow::UP, HeddleRow::DOWN];
        let drawn = Drawdown::repeat(&warp(), &rows).unwrap();
        assert!(drawn.floats(ten(), ten()).unwrap().is_empty());
        assert_eq!((drawn.weft_intersections(), drawn.warp_intersections()), (1.0, 1.0));
    }

    #[test]
    fn a_weft_float_over_three_ends_is_three_tenths_of_an_inch() {
        // Slot ends -, |, -, |, -: with the stick on edge the weft crosses two ends at each edge and three between.
        let drawn = Drawdown::repeat(&warp(), &weft_float().repeat).unwrap();
        let floats = drawn.floats(ten(), ten()).unwrap();
        let longest = floats.iter().filter(|f| f.kind == FloatKind::WeftOnFace).max_by_key(|f| f.over).unwrap();
        assert_eq!((longest.thread, longest.from, longest.over), (1, 3, 3));
        assert!((longest.length.inches() - 0.3).abs() < 1e-9);
        assert!(drawn.weft_intersections() < 1.0);
    }

    #[test]
    fn warp_floats_run_on_from_repeat_to_repeat() {
        // A hole end in up · stick · up · down: up, down, up, down. A slot end not picked: down, down, down, up.
        let drawn = Drawdown::repeat(&warp(), &weft_float().repeat).unwrap();
        let floats = drawn.floats(ten(), ten()).unwrap();
        let slot: Vec<_> = floats.iter().filter(|f| !f.kind.is_weft() && f.thread == 0).collect();
        assert_eq!(slot.len(), 1);
        assert_eq!((slot[0].kind, slot[0].from, slot[0].over), (FloatKind::WarpOnBack, 0, 3));
    }

    #[test]
    fn an_end_that_is_never_woven_in_is_named() {
        let mut sheds = NumberedSheds::plain(6);
        sheds.threading[3] = 7;
        let drawn = Drawdown::repeat(&sheds, &[Shed(1), Shed(2)]).unwrap();
        let floats = drawn.floats(ten(), ten()).unwrap();
        assert!(floats.iter().any(|f| f.loose && !f.kind.is_weft() && f.thread == 3));
    }

    #[test]
    fn two_picks_in_one_shed_are_found() {
        let sheds = |numbers: &[u16]| numbers.iter().map(|n| Shed(*n)).collect::<Vec<_>>();
        let draft = NumberedSheds::plain(6);
        // An odd repeat of plain weave meets itself at the join.
        let odd = Sequence::repeating(sheds(&[1, 2, 1]));
        assert_eq!(same_sheds(&odd, &draft).unwrap(), [SameShed { pick: 3, at_a_join: true }]);
        let within = Sequence::repeating(sheds(&[1, 1, 2]));
        assert_eq!(
            same_sheds(&within, &draft).unwrap(),
            [SameShed { pick: 1, at_a_join: false }, SameShed { pick: 4, at_a_join: false }]
        );
        let even = Sequence { opening: sheds(&[1]), ..Sequence::repeating(sheds(&[1, 2])) };
        assert_eq!(same_sheds(&even, &draft).unwrap(), [SameShed { pick: 1, at_a_join: true }]);
        assert!(same_sheds(&Sequence::repeating(sheds(&[9])), &draft).is_err());
    }
}
