//! Weft yarns as ledgers: what each had at first, what was woven with it, what is left and what that is good for.
//!
//! A yarn is woven from when it is taken up until another one is; the first one written down is on the shuttle at the start. What
//! this cloth takes is best known from two weighings with cloth between them; without them by the length of a pick; and where a yarn
//! has neither, by what another yarn of the same cloth was found to take.

use fellmark_cloth::Refused;
use fellmark_cloth::change::Allowance;
use fellmark_cloth::measurement_errors::MeasurementErrors;
use fellmark_cloth::quantity::{Length, LengthBalance, Mass, Quantity, YarnNumber};
use fellmark_cloth::span::Estimate;
use fellmark_cloth::state::{PickLength, PicksIn, ReedWidth, UnderTension, WovenLength};
use fellmark_cloth::tape_and_counts::PickCount;
use fellmark_cloth::weft::{USUAL_PICK_ALLOWANCE_PERCENT, pick_from_reed};
use fellmark_cloth::weft_left::{
    LEAST_CLOTH_BETWEEN_WEIGHINGS_MM, ScaleReading, WeftLeft, YarnAfterPicks, is_half_gone, length_from_label,
    share_left_by_scale, weft_left_as_other_yarn, weft_left_by_length, weft_left_by_scale, weft_per_length,
    yarn_after_picks,
};

use crate::progress::Progress;
use fellmark_model::moments::{Timeline, Weighed, YarnLeft};
use fellmark_model::{Warp, WarpLog, Weft};

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
        self.share_left.is_some_and(is_half_gone) && self.woven_mm > 0.0
    }
}

/// The length of a pick, from the width in the reed.
#[must_use]
pub fn pick_length(warp: &Warp) -> Option<PickLength> {
    let reed = ReedWidth::from_mm(warp.reed_width_mm?).ok()?;
    let allowance =
        Allowance::from_percent(warp.weft_allowance_percent.unwrap_or(USUAL_PICK_ALLOWANCE_PERCENT)).ok()?;
    pick_from_reed(reed, allowance).ok()
}

/// Every yarn of a warp with its account.
///
/// # Errors
/// A figure leaves the limits.
pub fn ledgers<'a>(log: &'a WarpLog, progress: &Progress) -> Result<Vec<Ledger<'a>>, Refused> {
    let (accounts, in_use) = accounts(log, progress);
    let calculation = LedgerCalculation {
        errors: MeasurementErrors::default(),
        rate: progress.picks_per_mm.and_then(|rate| PicksIn::from_per_10cm(rate * 100.0).ok()),
        pick: pick_length(&log.warp),
        woven_deviation_mm: progress.woven.map_or(0.0, |woven| woven.standard_deviation()),
    };
    let mut all = Vec::new();
    // The yarn whose weighings show what this cloth takes, for those that have none.
    let mut measured = None;
    for (index, (yarn, account)) in log.wefts.iter().zip(&accounts).enumerate() {
        let (left, known_by) = calculation.left(yarn, account)?;
        all.push(Ledger {
            yarn,
            in_use: index == in_use,
            woven_mm: account.woven_mm,
            last_left: account.left.last().map(|(left, ..)| *left),
            left,
            known_by,
            share_left: calculation.share_left(account, yarn)?,
        });
        if measured.is_none()
            && let Some(pair) = WeighingPair::of(account, yarn)?
        {
            measured = Some((index, pair.g_per_m()?));
        }
    }
    if let Some((index, g_per_m)) = measured {
        let name = all.get(index).map(|ledger| ledger.name().to_owned()).unwrap_or_default();
        for (other, (account, ledger)) in accounts.iter().zip(&mut all).enumerate() {
            if ledger.left.is_none() && other != index {
                ledger.left = calculation.as_other(account, ledger.yarn, g_per_m)?;
                if ledger.left.is_some() {
                    ledger.known_by.push(KnownBy::AsOther(name.clone()));
                }
            }
        }
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

/// A weighing, and the cloth woven with the yarn by then.
#[derive(Clone, Copy)]
struct WeighingAt {
    reading: ScaleReading,
    woven_mm: f64,
}

impl WeighingAt {
    /// A weighing in grams, the shuttle taken off.
    fn new(grams: f64, rough: bool, woven_mm: f64) -> Result<Self, Refused> {
        let reading = ScaleReading { shown: Mass::from_g(grams)?, tare: Mass::ZERO, rough };
        Ok(Self { reading, woven_mm })
    }

    fn mass(self) -> Mass {
        self.reading.shown
    }
}

/// Weighings in order, the start first.
fn weighings(account: &Account, yarn: &Weft) -> Result<Vec<WeighingAt>, Refused> {
    let start = yarn.start_mass_g.map(|grams| WeighingAt::new(grams, yarn.start_mass_rough, 0.0));
    let later = account.left.iter().filter_map(|(found, woven_mm, _)| match found.left {
        YarnLeft::Mass(grams) => Some(WeighingAt::new(grams, found.rough, *woven_mm)),
        YarnLeft::Length(_) => None,
    });
    start.into_iter().chain(later).collect()
}

/// First and last weighing, where there is cloth between them to show what it takes.
#[derive(Clone, Copy)]
struct WeighingPair {
    first: WeighingAt,
    last: WeighingAt,
}

impl WeighingPair {
    fn of(account: &Account, yarn: &Weft) -> Result<Option<Self>, Refused> {
        let all = weighings(account, yarn)?;
        let (Some(first), Some(last)) = (all.first().copied(), all.last().copied()) else { return Ok(None) };
        let between_mm = last.woven_mm - first.woven_mm;
        let tells = between_mm >= LEAST_CLOTH_BETWEEN_WEIGHINGS_MM && last.mass() < first.mass();
        Ok(tells.then_some(Self { first, last }))
    }

    fn cloth_between(self) -> Result<WovenLength, Refused> {
        WovenLength::from_mm(self.last.woven_mm - self.first.woven_mm)
    }

    /// Grams for a metre woven.
    fn g_per_m(self) -> Result<f64, Refused> {
        weft_per_length(self.first.mass(), self.last.mass(), self.cloth_between()?)
    }
}

/// A length known once: measured, or weighed where its length by weight is known.
#[derive(Clone, Copy)]
struct KnownLength {
    length: Length,
    approximate: bool,
    /// Picks of the yarn by then.
    picks: f64,
}

/// The yarn number by what a yarn measured and weighed at first; `None` where one of them is not known.
///
/// # Errors
/// A figure leaves the limits.
pub fn yarn_number(yarn: &Weft) -> Result<Option<YarnNumber>, Refused> {
    match yarn.start_length_mm.zip(yarn.start_mass_g) {
        Some((mm, grams)) => YarnNumber::from_measured(Length::from_mm(mm)?, Mass::from_g(grams)?).map(Some),
        None => Ok(None),
    }
}

/// The last known length of a yarn.
fn known_length(yarn: &Weft, account: &Account) -> Result<Option<KnownLength>, Refused> {
    let by_weight = yarn_number(yarn)?.map(|number| (number, yarn.start_length_rough || yarn.start_mass_rough));
    for (found, _, picks) in account.left.iter().rev() {
        let (length, approximate) = match (found.left, by_weight) {
            (YarnLeft::Length(mm), _) => (Length::from_mm(mm)?, found.rough),
            (YarnLeft::Mass(grams), Some((number, rough))) => {
                (number.length_of(Mass::from_g(grams)?)?, found.rough || rough)
            }
            (YarnLeft::Mass(_), None) => continue,
        };
        return Ok(Some(KnownLength { length, approximate, picks: *picks }));
    }
    let Some(mm) = yarn.start_length_mm else { return Ok(None) };
    Ok(Some(KnownLength { length: Length::from_mm(mm)?, approximate: yarn.start_length_rough, picks: 0.0 }))
}

/// What all yarns of a warp are calculated with.
struct LedgerCalculation {
    errors: MeasurementErrors,
    rate: Option<PicksIn<UnderTension>>,
    pick: Option<PickLength>,
    woven_deviation_mm: f64,
}

impl LedgerCalculation {
    /// What is left of a yarn by its own figures, and how that is known.
    fn left(&self, yarn: &Weft, account: &Account) -> Result<(Option<WeftLeft>, Vec<KnownBy>), Refused> {
        if let Some((left, known_by)) = self.by_scale(yarn, account)? {
            return Ok((Some(left), known_by));
        }
        Ok(match self.by_length(yarn, account)? {
            Some((left, known_by)) => (Some(left), vec![known_by]),
            None => (None, Vec::new()),
        })
    }

    /// By the scale: the first and the last weighing with cloth between them, then what was woven since.
    fn by_scale(&self, yarn: &Weft, account: &Account) -> Result<Option<(WeftLeft, Vec<KnownBy>)>, Refused> {
        let Some(pair) = WeighingPair::of(account, yarn)? else { return Ok(None) };
        let between = pair.cloth_between()?;
        let estimate = Estimate::even(between, self.woven_deviation_mm.min(between.mm()));
        let (first, last) = (pair.first, pair.last);
        let left = weft_left_by_scale(first.reading, last.reading, &estimate, Mass::ZERO, self.rate, &self.errors)?;
        let mut left = left.after_weaving(WovenLength::nearest(account.woven_mm - last.woven_mm), self.rate);
        let mut known_by =
            vec![KnownBy::Scale { first_g: first.mass().g(), last_g: last.mass().g(), between_mm: between.mm() }];
        if let Some(number) = yarn_number(yarn)? {
            left.yarn = length_from_label(last.mass(), number, &self.errors).ok();
            known_by.push(KnownBy::Label);
        }
        Ok(Some((left, known_by)))
    }

    /// What is left of a yarn's known length after the picks since.
    fn after_picks(&self, yarn: &Weft, account: &Account) -> Result<Option<(KnownLength, YarnAfterPicks)>, Refused> {
        let (Some(pick), Some(known)) = (self.pick, known_length(yarn, account)?) else { return Ok(None) };
        let picks = (account.picks - known.picks).max(0.0);
        Ok(Some((known, yarn_after_picks(known.length, known.approximate, picks, pick, &self.errors)?)))
    }

    fn by_length(&self, yarn: &Weft, account: &Account) -> Result<Option<(WeftLeft, KnownBy)>, Refused> {
        let (Some(pick), Some(rate)) = (self.pick, self.rate) else { return Ok(None) };
        let Some((known, after)) = self.after_picks(yarn, account)? else { return Ok(None) };
        let left = weft_left_by_length(&after.left, yarn_number(yarn)?, pick, rate, Length::ZERO, &self.errors)?;
        let known_by = KnownBy::Length {
            from_mm: known.length.mm(),
            later: !account.left.is_empty(),
            used_mm: after.used.mm(),
            pick_mm: pick.mm(),
        };
        Ok(Some((left, known_by)))
    }

    /// As far by weight as another yarn of this cloth was found to go.
    fn as_other(&self, account: &Account, yarn: &Weft, g_per_m: f64) -> Result<Option<WeftLeft>, Refused> {
        let Some(last) = weighings(account, yarn)?.last().copied() else { return Ok(None) };
        let left = weft_left_as_other_yarn(last.reading, g_per_m, &self.errors)?;
        Ok(Some(left.after_weaving(WovenLength::nearest(account.woven_mm - last.woven_mm), self.rate)))
    }

    /// The share of a yarn that is left, of what it had at the start.
    fn share_left(&self, account: &Account, yarn: &Weft) -> Result<Option<f64>, Refused> {
        if let (Some(start_g), Some(pair)) = (yarn.start_mass_g, WeighingPair::of(account, yarn)?) {
            let since = LengthBalance::from_mm(account.woven_mm - pair.last.woven_mm)?;
            return Ok(Some(share_left_by_scale(Mass::from_g(start_g)?, pair.last.mass(), since, pair.g_per_m()?)));
        }
        let (Some(start_mm), Some((_, after))) = (yarn.start_length_mm, self.after_picks(yarn, account)?) else {
            return Ok(None);
        };
        Ok(Some((after.left.likely.mm() / start_mm).clamp(0.0, 1.0)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use fellmark_model::moments::tests::moment;
    use fellmark_model::moments::{Join, Weighing};
    use fellmark_model::tests::{log, sitting};

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
