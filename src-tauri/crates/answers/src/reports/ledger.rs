//! Weft yarns as ledgers: what each had at first, what was woven with it, what is left and what that is good for.
//!
//! A yarn is woven from when it is taken up until another one is; the first one written down is on the shuttle at the start. What
//! this cloth takes is told best by two weighings with cloth between them; without them by the length of a pick; and where a yarn
//! has neither, by what another yarn of the same cloth was found to take.

use fellmark_cloth::Refused;
use fellmark_cloth::change::Allowance;
use fellmark_cloth::measurement_errors::MeasurementErrors;
use fellmark_cloth::quantity::{Length, Mass, Quantity, YarnNumber};
use fellmark_cloth::span::Estimate;
use fellmark_cloth::state::{PickLength, PicksIn, ReedWidth, UnderTension, WovenLength};
use fellmark_cloth::tape_and_counts::PickCount;
use fellmark_cloth::weft::pick_from_reed;
use fellmark_cloth::weft_left::{ScaleReading, WeftLeft, length_from_label, weft_left_by_length, weft_left_by_scale};

use crate::model::moments::{Timeline, Weighed, YarnLeft};
use crate::model::{Warp, WarpLog, Weft};
use crate::reports::progress::Progress;
use crate::reports::reach::USUAL_ALLOWANCE_PERCENT;

/// Cloth between two weighings below which they tell nothing, millimetres.
const LEAST_BETWEEN_MM: f64 = 10.0;
/// How far off a yarn's use may be that is taken from another yarn, as a share.
const OTHER_YARN_SHARE: f64 = 0.2;
/// From this share of a yarn left down it is half gone; and above this one mirroring is still worth a word.
const HALF_GONE: (f64, f64) = (0.42, 0.55);

/// How a yarn's reach is known.
#[derive(Clone, Debug, PartialEq)]
pub enum KnownBy {
    /// Two weighings with cloth between.
    Scale {
        /// The first, grams.
        first_g: f64,
        /// The last, grams.
        last_g: f64,
        /// Cloth woven with it between, millimetres.
        between_mm: f64,
    },
    /// Its length and the length of a pick.
    Length {
        /// Length at the last measure, millimetres.
        from_mm: f64,
        /// Whether it was measured or weighed since the start.
        later: bool,
        /// Used since, millimetres.
        used_mm: f64,
        /// Of one pick, millimetres.
        pick_mm: f64,
    },
    /// As another yarn of this cloth, which has this name.
    AsOther(String),
    /// Its length by weight, as it was at the start.
    Label,
}

/// One yarn.
#[derive(Clone, Debug)]
pub struct Ledger<'a> {
    /// The yarn.
    pub yarn: &'a Weft,
    /// Whether it is the one being woven.
    pub in_use: bool,
    /// Cloth woven with it, millimetres.
    pub woven_mm: f64,
    /// The last weighing or measure.
    pub last_left: Option<Weighed>,
    /// What is left and how far it goes; nothing when it is not known.
    pub left: Option<WeftLeft>,
    /// Why.
    pub known_by: Vec<KnownBy>,
    /// Share of it that is left by now.
    pub share_left: Option<f64>,
}

/// What happened with one yarn, in order.
#[derive(Default)]
struct Account {
    woven_mm: f64,
    picks: f64,
    /// What was left, and cloth and picks woven with it by then.
    left: Vec<(Weighed, f64, f64)>,
}

impl Ledger<'_> {
    /// Its name, or a word for one without.
    #[must_use]
    pub fn name(&self) -> &str {
        self.yarn.name.as_deref().unwrap_or("the weft")
    }

    /// Whether half of it is gone, or as good as.
    #[must_use]
    pub fn is_half_gone(&self) -> bool {
        self.share_left.is_some_and(|share| (HALF_GONE.0..=HALF_GONE.1).contains(&share)) && self.woven_mm > 0.0
    }
}

/// The length of a pick as reckoned from the width in the reed.
#[must_use]
pub fn pick_length(warp: &Warp) -> Option<PickLength> {
    let reed = ReedWidth::from_mm(warp.reed_width_mm?).ok()?;
    let allowance = Allowance::from_percent(warp.weft_allowance_percent.unwrap_or(USUAL_ALLOWANCE_PERCENT)).ok()?;
    pick_from_reed(reed, allowance).ok()
}

/// Every yarn of a warp with its account.
///
/// # Errors
/// A figure leaves the limits.
pub fn ledgers<'a>(log: &'a WarpLog, progress: &Progress) -> Result<Vec<Ledger<'a>>, Refused> {
    let (accounts, in_use) = accounts(log, progress);
    let reckoner = Reckoner {
        errors: MeasurementErrors::default(),
        rate: progress.picks_per_mm.and_then(|rate| PicksIn::from_per_10cm(rate * 100.0).ok()),
        pick: pick_length(&log.warp),
        woven_sd_mm: progress.woven.map_or(0.0, |woven| woven.standard_deviation()),
    };
    let mut all = Vec::new();
    for (index, (yarn, account)) in log.wefts.iter().zip(&accounts).enumerate() {
        let mut known_by = Vec::new();
        let left = reckoner.left(yarn, account, &mut known_by)?;
        all.push(Ledger {
            yarn,
            in_use: index == in_use,
            woven_mm: account.woven_mm,
            last_left: account.left.last().map(|(left, ..)| *left),
            left,
            known_by,
            share_left: None,
        });
    }
    let measured = accounts.iter().zip(&all).find_map(|(account, ledger)| {
        Some((grams_per_mm(account, ledger.yarn)?, ledger.name().to_owned(), ledger.yarn.id.clone()))
    });
    if let Some((per_mm, name, whose)) = measured {
        for (account, ledger) in accounts.iter().zip(&mut all) {
            if ledger.left.is_none() && ledger.yarn.id != whose {
                ledger.left = reckoner.as_other(account, ledger.yarn, per_mm)?;
                if ledger.left.is_some() {
                    ledger.known_by.push(KnownBy::AsOther(name.clone()));
                }
            }
        }
    }
    for (account, ledger) in accounts.iter().zip(&mut all) {
        ledger.share_left = reckoner.share_left(account, ledger);
    }
    Ok(all)
}

/// Shares what was woven out among the yarns; and which one is on the shuttle.
fn accounts(log: &WarpLog, progress: &Progress) -> (Vec<Account>, usize) {
    let mut accounts: Vec<Account> = log.wefts.iter().map(|_| Account::default()).collect();
    let course = Timeline::of(log, progress.running_picks);
    let rate = progress.picks_per_mm.unwrap_or(0.0);
    let which = |id: &fellmark_journal::RecordId| log.wefts.iter().position(|weft| weft.id == *id);
    let (mut now, mut at) = (0, 0.0);
    for (step, to) in course.steps.iter().zip(&progress.steps_mm) {
        let length = to - at;
        at = *to;
        if let Some(account) = accounts.get_mut(now) {
            account.woven_mm += length;
            account.picks += match step.picks {
                PickCount::Counted(picks) | PickCount::Guessed(picks) => picks as f64,
                PickCount::Unknown => length * rate,
            };
        }
        if let Some((yarn, left)) = step.observed.weighed {
            let index = yarn.map_or(Some(now), which);
            if let Some(account) = index.and_then(|index| accounts.get_mut(index)) {
                account.left.push((left, account.woven_mm, account.picks));
            }
        }
        if let Some(index) = step.observed.joined.and_then(which) {
            now = index;
        }
    }
    (accounts, now)
}

/// What the scale said, the shuttle taken off.
#[derive(Clone, Copy)]
struct OnScale {
    grams: f64,
    rough: bool,
    /// Cloth woven with the yarn by then, millimetres.
    woven_mm: f64,
}

impl OnScale {
    fn reading(self) -> Result<ScaleReading, Refused> {
        Ok(ScaleReading { shown: Mass::from_g(self.grams)?, tare: Mass::ZERO, rough: self.rough })
    }
}

/// Weighings in order, the start first.
fn weighings(account: &Account, yarn: &Weft) -> Vec<OnScale> {
    let start = yarn.start_mass_g.map(|grams| OnScale { grams, rough: yarn.start_mass_rough, woven_mm: 0.0 });
    let later = account.left.iter().filter_map(|(found, woven_mm, _)| match found.left {
        YarnLeft::Mass(grams) => Some(OnScale { grams, rough: found.rough, woven_mm: *woven_mm }),
        YarnLeft::Length(_) => None,
    });
    start.into_iter().chain(later).collect()
}

/// First and last weighing where they tell what the cloth takes.
fn pair(account: &Account, yarn: &Weft) -> Option<(OnScale, OnScale)> {
    let all = weighings(account, yarn);
    let (first, last) = (*all.first()?, *all.last()?);
    (last.woven_mm - first.woven_mm >= LEAST_BETWEEN_MM && last.grams < first.grams).then_some((first, last))
}

fn grams_per_mm(account: &Account, yarn: &Weft) -> Option<f64> {
    pair(account, yarn).map(|(first, last)| (first.grams - last.grams) / (last.woven_mm - first.woven_mm))
}

struct Reckoner {
    errors: MeasurementErrors,
    rate: Option<PicksIn<UnderTension>>,
    pick: Option<PickLength>,
    woven_sd_mm: f64,
}

impl Reckoner {
    fn left(&self, yarn: &Weft, account: &Account, why: &mut Vec<KnownBy>) -> Result<Option<WeftLeft>, Refused> {
        if let Some(known) = self.by_scale(yarn, account, why)? {
            return Ok(Some(known));
        }
        self.by_length(yarn, account, why)
    }

    /// By the scale: the first and the last weighing with cloth between them, then what was woven since.
    fn by_scale(&self, yarn: &Weft, account: &Account, why: &mut Vec<KnownBy>) -> Result<Option<WeftLeft>, Refused> {
        let Some((first, last)) = pair(account, yarn) else { return Ok(None) };
        let (first_g, last_g, between_mm) = (first.grams, last.grams, last.woven_mm - first.woven_mm);
        let between = Estimate::even(WovenLength::from_mm(between_mm)?, self.woven_sd_mm.min(between_mm));
        let (from, to) = (first.reading()?, last.reading()?);
        let mut left = weft_left_by_scale(from, to, &between, Mass::ZERO, self.rate, &self.errors)?;
        self.take_off(&mut left, account.woven_mm - last.woven_mm)?;
        why.push(KnownBy::Scale { first_g, last_g, between_mm });
        if let (Some(start_mm), Some(start_g)) = (yarn.start_length_mm, yarn.start_mass_g) {
            let number = YarnNumber::from_measured(Length::from_mm(start_mm)?, Mass::from_g(start_g)?)?;
            left.yarn = length_from_label(Mass::from_g(last_g)?, number, &self.errors).ok();
            why.push(KnownBy::Label);
        }
        Ok(Some(left))
    }

    /// What was woven since is not possible any more.
    fn take_off(&self, left: &mut WeftLeft, since_mm: f64) -> Result<(), Refused> {
        if since_mm > 0.0 {
            let cloth = (left.cloth.likely.mm() - since_mm).max(0.0);
            left.cloth = Estimate::even(WovenLength::from_mm(cloth)?, left.cloth.standard_deviation());
            left.picks = self.rate.map(|rate| rate.threads_in(WovenLength::nearest(cloth)).floor());
        }
        Ok(())
    }

    /// The last known length, whether it was given roughly, and picks of it by then: measured, or weighed where its length by
    /// weight is known.
    fn length_known(yarn: &Weft, account: &Account) -> Option<(f64, bool, f64)> {
        let per_gram = yarn.start_length_mm.zip(yarn.start_mass_g).map(|(mm, grams)| mm / grams);
        let by_weight = yarn.start_length_rough || yarn.start_mass_rough;
        let later = account.left.iter().rev().find_map(|(found, _, picks)| match found.left {
            YarnLeft::Length(mm) => Some((mm, found.rough, *picks)),
            YarnLeft::Mass(grams) => per_gram.map(|per_gram| (grams * per_gram, found.rough || by_weight, *picks)),
        });
        later.or_else(|| yarn.start_length_mm.map(|mm| (mm, yarn.start_length_rough, 0.0)))
    }

    fn by_length(&self, yarn: &Weft, account: &Account, why: &mut Vec<KnownBy>) -> Result<Option<WeftLeft>, Refused> {
        let (Some(pick), Some(rate)) = (self.pick, self.rate) else { return Ok(None) };
        let Some((from_mm, rough, picks)) = Self::length_known(yarn, account) else { return Ok(None) };
        let used_mm = (account.picks - picks).max(0.0) * pick.mm();
        let number = match yarn.start_length_mm.zip(yarn.start_mass_g) {
            Some((mm, grams)) => Some(YarnNumber::from_measured(Length::from_mm(mm)?, Mass::from_g(grams)?)?),
            None => None,
        };
        let left_mm = (from_mm - used_mm).max(0.0);
        // The start is known as a label or a niddy-noddy knows it, what was used as well as a pick is known.
        let about = if rough { self.errors.about_share } else { 0.0 };
        let share = self.errors.label_share.hypot(about);
        let sd = (from_mm * share).hypot(used_mm * self.errors.pick_share);
        let left = Estimate::even(Length::from_mm(left_mm)?, sd);
        why.push(KnownBy::Length { from_mm, later: !account.left.is_empty(), used_mm, pick_mm: pick.mm() });
        weft_left_by_length(&left, number, pick, rate, Length::ZERO, &self.errors).map(Some)
    }

    /// As heavy as another yarn of this cloth was found to be woven in.
    fn as_other(&self, account: &Account, yarn: &Weft, per_mm: f64) -> Result<Option<WeftLeft>, Refused> {
        let Some(last) = weighings(account, yarn).last().copied() else { return Ok(None) };
        let about = if last.rough { self.errors.about_share } else { 0.0 };
        let mut left = WeftLeft {
            mass: Some(Estimate::even(Mass::from_g(last.grams)?, self.errors.scale_g.hypot(last.grams * about))),
            yarn: None,
            cloth: Estimate::factor(WovenLength::from_mm(last.grams / per_mm)?, OTHER_YARN_SHARE.hypot(about)),
            picks: None,
        };
        self.take_off(&mut left, account.woven_mm - last.woven_mm)?;
        Ok(Some(left))
    }

    /// The share of a yarn that is left, of what it had at the start.
    fn share_left(&self, account: &Account, ledger: &Ledger<'_>) -> Option<f64> {
        if let (Some(start), Some(last)) = (ledger.yarn.start_mass_g, weighings(account, ledger.yarn).last())
            && let Some(per_mm) = grams_per_mm(account, ledger.yarn)
        {
            return Some(((last.grams - (account.woven_mm - last.woven_mm) * per_mm) / start).clamp(0.0, 1.0));
        }
        let start = ledger.yarn.start_length_mm?;
        let (from_mm, _, picks) = Self::length_known(ledger.yarn, account)?;
        let used = (account.picks - picks).max(0.0) * self.pick?.mm();
        Some(((from_mm - used) / start).clamp(0.0, 1.0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::moments::tests::moment;
    use crate::model::moments::{Join, Weighing};
    use crate::model::tests::{log, sitting};

    fn yarn(n: u32, mass: Option<f64>, length_m: Option<f64>) -> Weft {
        Weft {
            id: format!("y{n:019}").parse().unwrap(),
            seen: Vec::new(),
            first_at: n.to_string(),
            name: Some(format!("yarn {n}")),
            start_mass_g: mass,
            start_length_mm: length_m.map(|m| m * 1000.0),
            start_mass_rough: false,
            start_length_rough: false,
            tare_g: None,
        }
    }

    /// Two yarns, 100 picks (25 cm) with the first, then 60 (15 cm) with the second.
    fn two(first: Weft, second: Weft) -> WarpLog {
        let mut log = log();
        log.wefts = vec![first, second];
        log.sittings = vec![sitting(2, Some(100), Some(250.0)), sitting(3, Some(60), Some(400.0))];
        let after = log.sittings[0].id.clone();
        log.moments.joins = vec![Join { when: moment(Some(&after), None, 2), weft: log.wefts[1].id.clone() }];
        log
    }

    fn of(log: &WarpLog) -> Vec<Ledger<'_>> {
        ledgers(log, &Progress::of(log, 0)).unwrap()
    }

    #[test]
    fn each_yarn_is_charged_with_what_was_woven_with_it() {
        let mut log = two(yarn(1, Some(90.0), None), yarn(2, Some(60.0), None));
        log.sittings[0].weft_left_g = Some(65.0);
        log.sittings[1].weft_left_g = Some(48.0);
        let [first, second] = of(&log).try_into().unwrap();
        assert!((first.woven_mm - 250.0).abs() < 1e-6 && (second.woven_mm - 150.0).abs() < 1e-6);
        assert!(!first.in_use && second.in_use);
        // 25 g for 25 cm: 65 g are good for 65 cm. 12 g for 15 cm: 48 g are good for 60 cm.
        assert!((first.left.unwrap().cloth.likely.cm() - 65.0).abs() < 0.01);
        assert!((second.left.unwrap().cloth.likely.cm() - 60.0).abs() < 0.01);
    }

    #[test]
    fn a_weighing_within_a_sitting_counts_from_there() {
        let mut log = two(yarn(1, Some(90.0), None), yarn(2, None, None));
        log.moments.joins.clear();
        let id = log.sittings[1].id.clone();
        let when = moment(Some(&id), Some(20), 3);
        // After 100 + 20 picks, 30 cm: 30 g used, a gram to the centimetre; 10 cm more since.
        let found = Weighed { left: YarnLeft::Mass(60.0), rough: false };
        log.moments.weighings = vec![Weighing { when, weft: log.wefts[0].id.clone(), found }];
        let left = of(&log)[0].left.unwrap();
        assert!((left.cloth.likely.cm() - 50.0).abs() < 0.01, "{:?}", left.cloth);
    }

    #[test]
    fn by_length_a_yarn_loses_its_picks() {
        // 20 cm in the reed and a tenth: 22 cm a pick; 100 picks are 22 m of 100 m, 78 m are 354 picks, 88.6 cm.
        let log = two(yarn(1, None, Some(100.0)), yarn(2, None, None));
        let ledgers = of(&log);
        let left = ledgers[0].left.unwrap();
        assert_eq!(left.picks, Some(354.0));
        assert!((ledgers[0].share_left.unwrap() - 0.78).abs() < 1e-9);
        assert!(ledgers[1].left.is_none(), "nothing is known of the second");
    }

    #[test]
    fn a_yarn_of_which_only_the_weight_is_known_goes_as_the_other_went() {
        let mut log = two(yarn(1, Some(90.0), None), yarn(2, Some(60.0), None));
        log.sittings[0].weft_left_g = Some(65.0);
        let second = &of(&log)[1];
        assert_eq!(second.known_by, [KnownBy::AsOther("yarn 1".into())]);
        // 60 cm less the 15 woven with it.
        assert!((second.left.unwrap().cloth.likely.cm() - 45.0).abs() < 0.01);
    }

    #[test]
    fn what_was_given_roughly_widens_the_span_and_moves_nothing() {
        let span = |log: &WarpLog| {
            let left = of(log)[0].left.unwrap().cloth;
            (left.likely, left.standard_deviation())
        };
        let by_length = |rough| {
            let mut first = yarn(1, None, Some(100.0));
            first.start_length_rough = rough;
            span(&two(first, yarn(2, None, None)))
        };
        assert_eq!(by_length(false).0, by_length(true).0);
        assert!(by_length(true).1 > 1.4 * by_length(false).1, "{:?} {:?}", by_length(false), by_length(true));
        let by_scale = |start_rough, rough| {
            let mut log = two(Weft { start_mass_rough: start_rough, ..yarn(1, Some(90.0), None) }, yarn(2, None, None));
            let when = moment(Some(&log.sittings[0].id), None, 2);
            let found = Weighed { left: YarnLeft::Mass(40.0), rough };
            log.moments.weighings = vec![Weighing { when, weft: log.wefts[0].id.clone(), found }];
            span(&log)
        };
        let exact = by_scale(false, false);
        for rough in [by_scale(true, false), by_scale(false, true)] {
            assert_eq!(rough.0, exact.0);
            assert!(rough.1 > 1.2 * exact.1, "{exact:?} {rough:?}");
        }
    }

    #[test]
    fn half_gone_is_noticed_near_the_half() {
        let mut log = two(yarn(1, Some(90.0), None), yarn(2, None, None));
        log.moments.joins.clear();
        for (left, half) in [(70.0, false), (46.0, true), (40.0, true), (20.0, false)] {
            log.sittings[1].weft_left_g = Some(left);
            assert_eq!(of(&log)[0].is_half_gone(), half, "{left} g of 90");
        }
    }
}
