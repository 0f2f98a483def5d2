//! From the yarn to the piece: the sizes that so much yarn makes, width against length, which yarn limits, what is
//! left.

use crate::change::{Allowance, DrawIn};
use crate::error::Refused;
use crate::quantity::{Length, Quantity};
use crate::span::{Coverage, Estimate, Span};
use crate::state::{
    EndsIn, Finished, FinishedLength, FinishedWidth, InReed, PickLength, PicksIn, ReedWidth, UnderTension, WarpLength,
};
use crate::warp::{LengthChanges, WarpLayout};

/// How the piece is to be woven, apart from its size.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct SizePlan {
    /// Ends in the reed.
    #[serde(rename = "sett_per_cm")]
    pub sett: EndsIn<InReed>,
    /// Ends beyond those the width asks for (selvedges).
    pub extra_ends: u32,
    /// Picks on the loom.
    #[serde(rename = "picks_per_cm")]
    pub picks: PicksIn<UnderTension>,
    /// What happens to length.
    pub changes: LengthChanges,
    /// Width in the reed against finished width.
    pub draw_in: DrawIn<Finished>,
    /// Named allowance of a pick over the width in the reed.
    pub pick_allowance: Allowance,
    /// Warp that becomes no cloth: loom waste, fringes beyond it, header, gaps; all pieces together.
    #[serde(rename = "not_cloth_mm")]
    pub not_cloth: WarpLength,
    /// Weft set aside: hemstitching, joins.
    #[serde(rename = "weft_reserve_mm")]
    pub weft_reserve: Length,
    /// Pieces of one size.
    pub pieces: u32,
}

/// The yarn there is, as well as it is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Yarn {
    /// One yarn for the warp, another for the weft.
    Separate {
        /// For the warp.
        warp: Estimate<Length>,
        /// For the weft.
        weft: Estimate<Length>,
    },
    /// One yarn for both.
    Shared(Estimate<Length>),
}

/// Which yarn ends first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Limit {
    /// The warp yarn.
    Warp,
    /// The weft yarn.
    Weft,
    /// One yarn for both ends with both.
    Both,
}

/// A size that the yarn makes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Size {
    /// Ends across.
    pub ends: u32,
    /// Width in the reed.
    pub reed: ReedWidth,
    /// Finished width.
    pub width: FinishedWidth,
    /// Finished length of each piece; nothing where the yarn does not even cover the waste.
    pub length: Span<FinishedLength>,
    /// Which yarn limits, going by what is likely.
    pub limit: Limit,
    /// Warp to wind for the likely length.
    pub warp: WarpLength,
    /// Warp yarn left over at the likely length, going by what is likely.
    pub warp_yarn_left: Length,
    /// Weft yarn left over likewise.
    pub weft_yarn_left: Length,
}

impl Size {
    /// Finished area of all pieces together in m², likely.
    pub fn area_m2(&self, pieces: u32) -> f64 {
        self.width.m() * self.length.likely.m() * f64::from(pieces)
    }
}

/// What a layout takes. Weights follow from [`YarnNumber::mass_of`](crate::quantity::YarnNumber::mass_of).
#[derive(Debug, Clone, PartialEq)]
pub struct Needs {
    /// Ends across.
    pub ends: u32,
    /// Width in the reed.
    pub reed: ReedWidth,
    /// Warp to wind, not rounded.
    pub warp: WarpLength,
    /// Yarn in the warp: ends × length.
    pub warp_yarn: Length,
    /// Picks of each piece, hems and all, not rounded to repeats.
    pub picks_of_pieces: Vec<f64>,
    /// Length of a pick.
    pub pick: PickLength,
    /// Weft in all pieces, the reserve included.
    pub weft_yarn: Length,
}

/// Yarn that a width takes: so much per mm of woven cloth (all pieces together), and so much whatever the length.
struct Takes {
    ends: u32,
    reed: ReedWidth,
    warp_per_woven: f64,
    warp_fixed: f64,
    weft_per_woven: f64,
    weft_fixed: f64,
}

impl SizePlan {
    fn check(&self) -> Result<(), Refused> {
        if self.pieces == 0 {
            return Err(Refused::Zero { what: "the number of pieces" });
        }
        Ok(())
    }

    fn takes(&self, width: FinishedWidth) -> Result<Takes, Refused> {
        let reed = self.draw_in.before(width)?;
        let ends = crate::reed::ends(reed, self.sett)?.saturating_add(self.extra_ends);
        if ends == 0 {
            return Err(Refused::DoesNotFit("this width is less than one end".into()));
        }
        let pick: PickLength = crate::weft::pick_from_reed(reed, self.pick_allowance)?;
        Ok(Takes {
            ends,
            reed,
            warp_per_woven: f64::from(ends) / self.changes.weaving.ratio(),
            warp_fixed: f64::from(ends) * self.not_cloth.mm(),
            weft_per_woven: self.picks.density().per_cm() / 10.0 * pick.mm(),
            weft_fixed: self.weft_reserve.mm(),
        })
    }

    /// What a layout takes at a finished width: lengths by the layout and its changes, everything across by this plan.
    /// # Errors
    /// If the width is less than an end or wider than a loom, or a sum is absurd.
    pub fn needs(&self, layout: &WarpLayout, width: FinishedWidth) -> Result<Needs, Refused> {
        let takes = self.takes(width)?;
        let warp = layout.warp_needed()?;
        let picks_of_pieces = (0..layout.pieces.len())
            .map(|piece| Ok(crate::weft::picks(self.picks, layout.woven_length(piece)?)))
            .collect::<Result<Vec<f64>, Refused>>()?;
        let pick = crate::weft::pick_from_reed(takes.reed, self.pick_allowance)?;
        let weft = crate::weft::weft_yarn(picks_of_pieces.iter().sum(), pick)? + self.weft_reserve;
        Ok(Needs {
            ends: takes.ends,
            reed: takes.reed,
            warp,
            warp_yarn: crate::warp::warp_yarn(takes.ends, warp)?,
            picks_of_pieces,
            pick,
            weft_yarn: weft,
        })
    }

    /// The length that the yarn makes at a finished width.
    /// # Errors
    /// If the width is less than an end or wider than a loom, or there are no pieces.
    pub fn size_at(&self, yarn: &Yarn, width: FinishedWidth, coverage: Coverage) -> Result<Size, Refused> {
        self.check()?;
        let takes = self.takes(width)?;
        let shortest = |chance: f64| self.woven_mm_with_chance(&takes, yarn, chance);
        let tail = (1.0 - coverage.share()) / 2.0;
        let to_finished = self.changes.woven_to_finished().ratio() / f64::from(self.pieces);
        let finished = |woven_mm: f64| FinishedLength::nearest(woven_mm * to_finished);
        let woven = shortest(0.5);
        let length = Span {
            low: finished(shortest(1.0 - tail)),
            likely: finished(woven),
            high: finished(shortest(tail)),
            coverage,
        };
        let used = (takes.warp_fixed + woven * takes.warp_per_woven, takes.weft_fixed + woven * takes.weft_per_woven);
        let (limit, warp_left, weft_left) = match yarn {
            Yarn::Separate { warp, weft } => {
                let by_warp = (warp.likely.mm() - takes.warp_fixed) / takes.warp_per_woven;
                let by_weft = (weft.likely.mm() - takes.weft_fixed) / takes.weft_per_woven;
                let limit = if by_warp <= by_weft { Limit::Warp } else { Limit::Weft };
                (limit, warp.likely.mm() - used.0, weft.likely.mm() - used.1)
            }
            Yarn::Shared(all) => (Limit::Both, all.likely.mm() - used.0 - used.1, all.likely.mm() - used.0 - used.1),
        };
        Ok(Size {
            ends: takes.ends,
            reed: takes.reed,
            width,
            length,
            limit,
            warp: WarpLength::nearest(used.0 / f64::from(takes.ends)),
            warp_yarn_left: Length::nearest(warp_left),
            weft_yarn_left: Length::nearest(weft_left),
        })
    }

    /// The woven length (all pieces) that is reached with a probability, in mm.
    fn woven_mm_with_chance(&self, takes: &Takes, yarn: &Yarn, chance: f64) -> f64 {
        let reached = |woven: f64| {
            let warp = takes.warp_fixed + woven * takes.warp_per_woven;
            let weft = takes.weft_fixed + woven * takes.weft_per_woven;
            match yarn {
                Yarn::Separate { warp: a, weft: b } => {
                    a.chance_of_at_least(Length::nearest(warp)) * b.chance_of_at_least(Length::nearest(weft))
                }
                Yarn::Shared(all) => all.chance_of_at_least(Length::nearest(warp + weft)),
            }
        };
        let (mut low, mut high) = (0.0, 1e7);
        for _ in 0..100 {
            let middle = (low + high) / 2.0;
            if reached(middle) >= chance { low = middle } else { high = middle }
        }
        low
    }

    /// The set of sizes from one width to another, in so many steps.
    /// # Errors
    /// As [`Self::size_at`], or if there are no steps or more than 10 000.
    pub fn sizes(
        &self,
        yarn: &Yarn,
        narrowest: FinishedWidth,
        widest: FinishedWidth,
        steps: u32,
        coverage: Coverage,
    ) -> Result<Vec<Size>, Refused> {
        if steps == 0 || steps > 10_000 {
            return Err(Refused::DoesNotFit("between 1 and 10 000 widths can be tried".into()));
        }
        let by = (widest.mm() - narrowest.mm()) / f64::from(steps.saturating_sub(1).max(1));
        (0..steps)
            .map(|i| self.size_at(yarn, FinishedWidth::from_mm(narrowest.mm() + f64::from(i) * by)?, coverage))
            .collect()
    }

    /// The widest that the yarn makes at a wanted length of each piece (likely), up to the widest the loom takes.
    /// `None` if not even a few ends reach.
    /// # Errors
    /// As [`Self::size_at`].
    pub fn widest_for(
        &self,
        yarn: &Yarn,
        length: FinishedLength,
        loom: ReedWidth,
        coverage: Coverage,
    ) -> Result<Option<Size>, Refused> {
        self.check()?;
        let most = crate::reed::ends(loom, self.sett)?;
        let (mut low, mut high) = (0, most);
        let at = |ends: u32| -> Result<Size, Refused> {
            let reed = crate::reed::width_of(ends, self.sett)?;
            self.size_at(yarn, self.draw_in.after(reed)?, coverage)
        };
        // A tenth of a millimetre forgives rounding.
        let reaches = |size: &Size| size.length.likely.mm() + 0.1 >= length.mm();
        while low < high {
            let middle = high - (high - low) / 2;
            if reaches(&at(middle)?) { low = middle } else { high = middle - 1 }
        }
        if low == 0 { Ok(None) } else { at(low).map(Some) }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn plan() -> SizePlan {
        SizePlan {
            sett: EndsIn::from_per_10cm(40.0).unwrap(),
            extra_ends: 0,
            picks: PicksIn::from_per_10cm(40.0).unwrap(),
            changes: LengthChanges::NONE,
            draw_in: DrawIn::NONE,
            pick_allowance: Allowance::NONE,
            not_cloth: WarpLength::from_cm(50.0).unwrap(),
            weft_reserve: Length::ZERO,
            pieces: 1,
        }
    }

    fn m(x: f64) -> Length {
        Length::from_m(x).unwrap()
    }

    fn cm(x: f64) -> FinishedWidth {
        FinishedWidth::from_cm(x).unwrap()
    }

    #[test]
    fn the_shorter_yarn_limits_and_the_other_is_left_over() {
        // 25 cm: 100 ends; 250 m make 2.5 m of warp, 2 m of cloth; 800 picks of 25 cm take 200 m.
        let yarn = Yarn::Separate { warp: Estimate::exact(m(250.0)), weft: Estimate::exact(m(300.0)) };
        let size = plan().size_at(&yarn, cm(25.0), Coverage::default()).unwrap();
        assert_eq!((size.ends, size.limit), (100, Limit::Warp));
        assert!((size.length.likely.m() - 2.0).abs() < 1e-6);
        assert!((size.weft_yarn_left.m() - 100.0).abs() < 1e-3 && size.warp_yarn_left.m() < 1e-3);
        assert!((size.warp.m() - 2.5).abs() < 1e-6);
        let yarn = Yarn::Separate { warp: Estimate::exact(m(250.0)), weft: Estimate::exact(m(100.0)) };
        let size = plan().size_at(&yarn, cm(25.0), Coverage::default()).unwrap();
        assert_eq!(size.limit, Limit::Weft);
        assert!((size.length.likely.m() - 1.0).abs() < 1e-6);
    }

    #[test]
    fn one_yarn_for_both() {
        let yarn = Yarn::Shared(Estimate::exact(m(450.0)));
        let size = plan().size_at(&yarn, cm(25.0), Coverage::default()).unwrap();
        // 100 ends × (0.5 + L) + 100·L of weft = 450 m.
        assert!((size.length.likely.m() - 2.0).abs() < 1e-6);
        assert_eq!(size.limit, Limit::Both);
    }

    #[test]
    fn a_roughly_known_yarn_gives_a_span() {
        let yarn = Yarn::Separate { warp: Estimate::factor(m(250.0), 0.06), weft: Estimate::exact(m(1000.0)) };
        let span = plan().size_at(&yarn, cm(25.0), Coverage::default()).unwrap().length;
        // 250 m ÷ and × e^(1.2816·0.06), of which 50 m are waste.
        let e = (1.281_551_565_544_6f64 * 0.06).exp();
        assert!((span.low.m() - (2.5 / e - 0.5)).abs() < 1e-5 && (span.high.m() - (2.5 * e - 0.5)).abs() < 1e-5);
    }

    #[test]
    fn wider_is_shorter_and_the_widest_is_found() {
        let yarn = Yarn::Separate { warp: Estimate::exact(m(250.0)), weft: Estimate::exact(m(220.0)) };
        let sizes = plan().sizes(&yarn, cm(10.0), cm(40.0), 7, Coverage::default()).unwrap();
        assert!(sizes.windows(2).all(|pair| pair[0].length.likely > pair[1].length.likely));
        let loom = ReedWidth::from_cm(60.0).unwrap();
        let two = FinishedLength::from_m(2.0).unwrap();
        let widest = plan().widest_for(&yarn, two, loom, Coverage::default()).unwrap().unwrap();
        assert_eq!(widest.ends, 100);
        let never = FinishedLength::from_m(900.0).unwrap();
        assert_eq!(plan().widest_for(&yarn, never, loom, Coverage::default()).unwrap(), None);
    }

    #[test]
    fn what_a_layout_needs_is_what_its_yarn_makes() {
        use crate::warp::{LoomWaste, Piece};
        let layout = WarpLayout {
            pieces: vec![Piece::plain(FinishedLength::from_m(2.0).unwrap())],
            gap: WarpLength::ZERO,
            header: WarpLength::ZERO,
            sample: WarpLength::ZERO,
            waste: LoomWaste::new(WarpLength::from_cm(20.0).unwrap(), WarpLength::from_cm(30.0).unwrap()),
            changes: LengthChanges::NONE,
        };
        let needs = plan().needs(&layout, cm(25.0)).unwrap();
        assert_eq!((needs.ends, needs.picks_of_pieces.as_slice()), (100, [800.0].as_slice()));
        assert!((needs.warp_yarn.m() - 250.0).abs() < 1e-9 && (needs.weft_yarn.m() - 200.0).abs() < 1e-9);
        let yarn = Yarn::Separate { warp: Estimate::exact(needs.warp_yarn), weft: Estimate::exact(needs.weft_yarn) };
        let size = plan().size_at(&yarn, cm(25.0), Coverage::default()).unwrap();
        assert!((size.length.likely.m() - 2.0).abs() < 1e-5);
    }

    #[test]
    fn nothing_makes_nothing() {
        let yarn = Yarn::Shared(Estimate::exact(Length::ZERO));
        let size = plan().size_at(&yarn, cm(25.0), Coverage::default()).unwrap();
        assert!(size.length.high.mm() < 1e-6);
        assert!(SizePlan { pieces: 0, ..plan() }.size_at(&yarn, cm(25.0), Coverage::default()).is_err());
        assert!(plan().size_at(&yarn, FinishedWidth::ZERO, Coverage::default()).is_err());
    }
}
