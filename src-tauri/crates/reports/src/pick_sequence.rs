//! The cloth that a typed pick sequence makes, and what is doubtful about it: two picks in one shed, long floats.

use fellmark_cloth::Refused;
use fellmark_cloth::quantity::Length;
use fellmark_cloth::sequence::{
    Drawdown, Float, FloatKind, HeddleRow, LONG_FLOAT_MM, NumberedSheds, PickUpAcross, RigidWarp, Section, Sequence,
    Shed, WeavingDraft, same_sheds,
};
use fellmark_cloth::state::{EndsIn, PicksIn, UnderTension};

use fellmark_model::sequence::{PickUpEnds, Row, TypedSequence};
use fellmark_model::shafts;

/// Repeats that are drawn, so that the join from one to the next is seen.
const REPEATS: u64 = 2;
/// Picks that are drawn at least: a short repeat is drawn more often, so that cloth is seen and not a strip of it.
const LEAST_PICKS: u64 = 16;
/// Picks beyond which only one repeat is drawn: more would be too fine to see.
const MOST_PICKS: u64 = 160;
/// Slot ends drawn, about.
const SLOT_ENDS: usize = 13;
/// Ends drawn of a loom with numbered sheds: slots and holes of the same width.
const SHAFT_ENDS: usize = 2 * SLOT_ENDS - 1;
/// Ends per 10 cm where no sett is given: ten to the inch, a common heddle. Common practice, no source.
pub const ASSUMED_SETT_PER_10CM: f64 = 10.0 / 25.4 * 100.0;

/// What a pick sequence amounts to. A figure that could not be calculated because of [`Self::refused`] is empty.
#[derive(Clone, Debug, Default)]
pub struct PickSequenceReport {
    /// Some rows name heddle positions and some numbered sheds; a loom has one or the other.
    pub mixes_looms: bool,
    /// Nothing says what a second stick holds: it is drawn with the ends that the first one leaves down.
    pub second_stick_assumed: bool,
    /// No threading is typed: the ends are drawn straight through on so many shafts.
    pub straight_threading_shafts: Option<u16>,
    /// What the numbered sheds lift is not typed, so that no cloth can be drawn.
    pub lifts_missing: bool,
    /// Two picks follow each other in one numbered shed whose lifts are not known.
    pub numbered_shed_repeated: bool,
    /// Picks in the same shed as the pick before, in order of weaving.
    pub repeated_sheds: Vec<RepeatedShed>,
    /// The repeat has an odd number of picks: the next one begins from the other side.
    pub repeat_is_odd: bool,
    /// The scale of the drawing.
    pub scale: Option<DrawingScale>,
    /// The cloth, if it can be drawn.
    pub cloth: Option<DrawnCloth>,
    /// Why drawing stopped.
    pub refused: Option<Refused>,
}

/// A pick that lies in the same shed as the one before it, which would be pulled out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RepeatedShed {
    /// Section of the pick.
    pub section: Section,
    /// Row in its section, from 0.
    pub row: usize,
    /// Whether it is the first row of a section or repeat.
    pub at_a_join: bool,
}

/// The densities that were typed for the drawing; what is `None` is assumed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DrawingScale {
    /// Ends per 10 cm; assumed: [`ASSUMED_SETT_PER_10CM`].
    pub sett_per_10cm: Option<f64>,
    /// Picks per 10 cm; assumed: as many as ends.
    pub picks_per_10cm: Option<f64>,
}

/// Cloth drawn pick by pick.
#[derive(Clone, Debug)]
pub struct DrawnCloth {
    /// Ends across.
    pub ends: usize,
    /// Picks in order of weaving.
    pub picks: Vec<DrawnPick>,
    /// Ends per cm ÷ picks per cm: the height of a pick in widths of an end.
    pub pick_per_end: f64,
    /// Every float; a weft float's thread is an index into the picks.
    pub floats: Vec<Float>,
    /// Length beyond which a float is long.
    pub long_float: Length,
}

/// One pick of the drawing.
#[derive(Clone, Debug)]
pub struct DrawnPick {
    /// For each end, whether it lies over the weft.
    pub ends_up: Vec<bool>,
    /// Its section.
    pub section: Section,
    /// Row in its section, from 0.
    pub row: usize,
    /// What is done for it.
    pub instruction: Row,
    /// Long floats on the face, as first and last end from 0.
    pub long_floats: Vec<(usize, usize)>,
}

impl DrawnCloth {
    /// The float that crosses most threads, of weft or of warp; threads that are never woven in are left out.
    #[must_use]
    pub fn longest_float(&self, weft: bool) -> Option<&Float> {
        let of_kind = self.floats.iter().filter(|float| float.kind.is_weft() == weft && !float.loose);
        of_kind.max_by_key(|float| float.over)
    }

    /// Floats that are long or never woven in.
    pub fn long_floats(&self) -> impl Iterator<Item = &Float> {
        self.floats.iter().filter(|float| float.is_longer_than(self.long_float))
    }
}

/// Draws a typed sequence; nothing where something in it is wrong or no rows are typed.
#[must_use]
pub fn pick_sequence_report(typed: &TypedSequence) -> Option<PickSequenceReport> {
    if !typed.problems.is_empty() || typed.sequence.check().is_err() {
        return None;
    }
    let scale = DrawingScale { sett_per_10cm: typed.sett_per_10cm, picks_per_10cm: typed.picks_per_10cm };
    let mut report = PickSequenceReport::default();
    let drawn = match rows_by_loom(&typed.sequence) {
        RowsByLoom::Heddle(rows) => report.draw_on_heddle(&rows, typed, scale),
        RowsByLoom::Sheds(rows) => report.draw_on_sheds(&rows, typed, scale),
        RowsByLoom::Mixed => {
            report.mixes_looms = true;
            Ok(())
        }
    };
    report.refused = drawn.err();
    Some(report)
}

enum RowsByLoom {
    Heddle(Sequence<HeddleRow>),
    Sheds(Sequence<Shed>),
    Mixed,
}

fn rows_by_loom(sequence: &Sequence<Row>) -> RowsByLoom {
    let heddle = |row: &Row| if let Row::Heddle(row) = row { Some(*row) } else { None };
    let shed = |row: &Row| if let Row::Shed(shed) = row { Some(*shed) } else { None };
    if let Some(rows) = all_rows(sequence, heddle) {
        return RowsByLoom::Heddle(rows);
    }
    all_rows(sequence, shed).map_or(RowsByLoom::Mixed, RowsByLoom::Sheds)
}

/// The sequence with every row converted; `None` where one cannot be.
fn all_rows<R>(sequence: &Sequence<Row>, convert: impl Fn(&Row) -> Option<R>) -> Option<Sequence<R>> {
    let section = |rows: &[Row]| rows.iter().map(&convert).collect::<Option<Vec<R>>>();
    Some(Sequence {
        opening: section(&sequence.opening)?,
        repeat: section(&sequence.repeat)?,
        balance: section(&sequence.balance)?,
        closing: section(&sequence.closing)?,
    })
}

/// The pick-up across the width that is drawn.
fn drawn_pick_up(ends: PickUpEnds) -> PickUpAcross {
    let PickUpEnds { edge_down, up, down } = ends;
    let groups = (SLOT_ENDS.saturating_sub(2 * edge_down) + down) / (up + down);
    PickUpAcross { edge_down, up, down, groups: groups.clamp(2, 7) }
}

impl PickSequenceReport {
    fn draw_on_heddle(
        &mut self,
        rows: &Sequence<HeddleRow>,
        typed: &TypedSequence,
        scale: DrawingScale,
    ) -> Result<(), Refused> {
        let pick_up = drawn_pick_up(typed.pick_up);
        let mut warp = RigidWarp::for_pick_up(&pick_up);
        if rows.sticks() == 2 {
            let slots = warp.stick.len();
            let inside = |slot: usize| slot >= pick_up.edge_down && slot < slots.saturating_sub(pick_up.edge_down);
            warp.second = warp.stick.iter().enumerate().map(|(slot, up)| inside(slot) && !up).collect();
            self.second_stick_assumed = true;
        }
        self.draw(rows, &typed.sequence, &warp, scale)
    }

    fn draw_on_sheds(
        &mut self,
        rows: &Sequence<Shed>,
        typed: &TypedSequence,
        scale: DrawingScale,
    ) -> Result<(), Refused> {
        if !typed.lifts.is_empty() {
            let (warp, shafts) = shafts::warp_for_drawing(&typed.threading, typed.lifts.clone(), SHAFT_ENDS);
            self.straight_threading_shafts = shafts;
            return self.draw(rows, &typed.sequence, &warp, scale);
        }
        let sections = [&rows.opening, &rows.repeat, &rows.balance, &rows.closing];
        if sections.iter().any(|rows| rows.iter().any(|shed| shed.0 > 2)) {
            // Without lifts, the numbers show no more than two picks in one shed.
            let order = rows.written_out(REPEATS)?;
            self.numbered_shed_repeated = order.windows(2).any(|pair| pair[0] == pair[1]);
            self.lifts_missing = true;
            return Ok(());
        }
        self.draw(rows, &typed.sequence, &NumberedSheds::plain(SHAFT_ENDS), scale)
    }

    fn draw<R: Clone>(
        &mut self,
        rows: &Sequence<R>,
        sequence: &Sequence<Row>,
        warp: &impl WeavingDraft<R>,
        scale: DrawingScale,
    ) -> Result<(), Refused> {
        let enough = |repeats: &u64| rows.picks(*repeats) >= LEAST_PICKS || rows.repeat.is_empty();
        let filling = (REPEATS..=LEAST_PICKS).find(enough).unwrap_or(REPEATS);
        let repeats = if rows.picks(REPEATS) > MOST_PICKS { 1 } else { filling };
        let order = rows.written_out(repeats)?;
        for same in same_sheds(rows, warp)? {
            let Some((section, _, row, _)) = sequence.row(same.pick as u64, Some(REPEATS)) else { continue };
            self.repeated_sheds.push(RepeatedShed { section, row, at_a_join: same.at_a_join });
        }
        self.repeat_is_odd = !sequence.repeat.is_empty() && !sequence.returns_the_shuttle();
        let drawing = Drawdown::once(warp, &order)?;
        self.scale = Some(scale);
        let sett = EndsIn::<UnderTension>::from_per_10cm(scale.sett_per_10cm.unwrap_or(ASSUMED_SETT_PER_10CM))?;
        let density =
            PicksIn::<UnderTension>::from_per_10cm(scale.picks_per_10cm.unwrap_or_else(|| sett.density().per_10cm()))?;
        let floats = drawing.floats(sett, density)?;
        let long_float = Length::from_mm(LONG_FLOAT_MM)?;
        let long_on_face = |pick: usize| {
            let long = |float: &&Float| {
                float.kind == FloatKind::WeftOnFace && float.thread == pick && float.is_longer_than(long_float)
            };
            floats.iter().filter(long).map(|float| (float.from, float.from + float.over - 1)).collect()
        };
        let picks = drawing.rows().iter().enumerate().filter_map(|(pick, ends_up)| {
            let (section, _, row, instruction) = sequence.row(pick as u64, Some(repeats))?;
            Some(DrawnPick {
                ends_up: ends_up.clone(),
                section,
                row,
                instruction: instruction.clone(),
                long_floats: long_on_face(pick),
            })
        });
        self.cloth = Some(DrawnCloth {
            ends: drawing.ends(),
            picks: picks.collect(),
            pick_per_end: sett.density().per_cm() / density.density().per_cm(),
            floats,
            long_float,
        });
        Ok(())
    }
}
