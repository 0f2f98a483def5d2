//! Spans hold the truth as often as they say, in a seeded simulation of people who measure as [`MeasurementErrors`] has it.

use fellmark_cloth::change::WarpUse;
use fellmark_cloth::learned::{Likeness, PastWarp, WarpMeasurements, learn};
use fellmark_cloth::measurement_errors::MeasurementErrors;
use fellmark_cloth::quantity::{Length, LengthBalance, Mass};
use fellmark_cloth::sizes_from_yarn::{SizePlan, Yarn};
use fellmark_cloth::span::{Coverage, Estimate};
use fellmark_cloth::state::{FinishedLength, FinishedWidth, PicksIn, RelaxedLength, WarpLength, WovenLength};
use fellmark_cloth::take_up::Crimp;
use fellmark_cloth::tape_and_counts::{Observation, PickCount, TapeReading, cloth_woven};
use fellmark_cloth::warp_left::{WarpMark, WarpOnLoom, reach};
use fellmark_cloth::weft_left::{ScaleReading, weft_left_by_scale};

const CASES: usize = 4000;

/// SplitMix64: the same numbers on every machine.
struct Dice(u64);

impl Dice {
    fn unit(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }
    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }
    fn normal(&mut self) -> f64 {
        let (a, b) = (self.unit().max(1e-300), self.unit());
        (-2.0 * a.ln()).sqrt() * (2.0 * std::f64::consts::PI * b).cos()
    }
}

/// The share of cases that hold, with the spans claiming `coverage`.
fn share(seed: u64, mut holds: impl FnMut(&mut Dice) -> bool) -> f64 {
    let mut dice = Dice(seed);
    (0..CASES).filter(|_| holds(&mut dice)).count() as f64 / CASES as f64
}

fn near(what: &str, got: f64, low: f64, high: f64) {
    println!("{what}: {got:.3}");
    assert!((low..=high).contains(&got), "{what}: {got:.3} of spans that claim 0.8 hold");
}

fn tape(dice: &mut Dice, mm: f64, errors: &MeasurementErrors) -> f64 {
    (mm + dice.normal() * errors.tape_mm.hypot(mm * errors.tape_share)).max(0.0)
}

/// Sittings of about 250 mm whose rate wanders; the truth in mm and what was written down.
fn sittings(dice: &mut Dice, n: usize, measured: &[usize], errors: &MeasurementErrors) -> (f64, Vec<Observation>) {
    let base = dice.between(2.5, 7.0);
    let mut truth = 0.0;
    let mut log = Vec::new();
    for i in 0..n {
        let picks = (base * dice.between(20.0, 30.0)).round();
        let rate = base * (1.0 + errors.rate_share * dice.normal());
        truth += picks / rate * 10.0;
        let noted = (picks * (1.0 + errors.count_share * dice.normal())).round();
        let tape_reading =
            measured.contains(&i).then(|| TapeReading::Total(WovenLength::from_mm(tape(dice, truth, errors)).unwrap()));
        log.push(Observation { picks: PickCount::Counted(noted as i64), tape: tape_reading });
    }
    (truth, log)
}

#[test]
fn woven_length() {
    let errors = MeasurementErrors::default();
    for (what, n, measured) in [
        ("tape at the end", 4, vec![1, 3]),
        ("one sitting after the tape", 4, vec![0, 1, 2]),
        ("three sittings after the tape", 8, vec![1, 3, 4]),
        ("one tape long ago", 8, vec![1]),
    ] {
        let got = share(11, |dice| {
            let (truth, log) = sittings(dice, n, &measured, &errors);
            let span = cloth_woven(&log, None, None, &errors).unwrap().total.span(Coverage::FOUR_IN_FIVE);
            span.holds(WovenLength::from_mm(truth).unwrap())
        });
        near(what, got, 0.765, 0.835);
    }
}

#[test]
fn few_false_alarms_are_raised() {
    let errors = MeasurementErrors::default();
    let reported = share(12, |dice| {
        let (_, log) = sittings(dice, 8, &[1, 3, 5, 7], &errors);
        !cloth_woven(&log, None, None, &errors).unwrap().discrepancies.is_empty()
    });
    println!("false alarms: {reported:.3}");
    assert!(reported < 0.05, "{reported}");
}

#[test]
fn a_missed_interval_is_mostly_noticed() {
    let errors = MeasurementErrors::default();
    let noticed = share(13, |dice| {
        let (_, mut log) = sittings(dice, 3, &[0, 1], &errors);
        // 20 in marks: two more are passed, one is forgotten.
        let (apart, at) = (508.0, 1016.0 + dice.between(20.0, 480.0));
        let before = match log[1].tape {
            Some(TapeReading::Total(total)) => total.mm(),
            _ => unreachable!(),
        };
        let rate = (0..2)
            .map(|i| match log[i].picks {
                PickCount::Counted(n) => n as f64,
                _ => 0.0,
            })
            .sum::<f64>()
            / before;
        log[2].picks = PickCount::Counted(((at - before).max(100.0) * rate).round() as i64);
        log[2].tape = Some(TapeReading::FromMarks {
            marks: 1,
            apart: WovenLength::from_mm(apart).unwrap(),
            from_last: WovenLength::from_mm(at - 2.0 * apart).unwrap(),
        });
        let w = cloth_woven(&log, None, None, &errors).unwrap();
        w.discrepancies.iter().any(|n| {
            matches!(
                n,
                fellmark_cloth::tape_and_counts::Discrepancy::MissedInterval(m) if m.intervals == 1
            )
        })
    });
    println!("noticed: {noticed:.3}");
    assert!(noticed > 0.9, "{noticed}");
}

#[test]
fn warp_left_and_the_chance_that_it_reaches() {
    for mark in [false, true] {
        let mut bins = [(0.0, 0.0, 0.0); 5];
        let got = share(14, |dice| {
            let truth_u = dice.between(-0.03, 0.15);
            let (wound, waste) = (dice.between(2000.0, 5000.0), dice.between(350.0, 600.0));
            let woven_true = (wound - waste) / (1.0 + truth_u) * dice.between(0.2, 0.8);
            let (u_sd, wound_sd, waste_sd, woven_sd) = (0.03, 20.0, 40.0, 12.0);
            let reported = |dice: &mut Dice, x: f64, sd: f64| x + sd * dice.normal();
            let loom = WarpOnLoom {
                wound: Estimate::even(WarpLength::from_mm(reported(dice, wound, wound_sd)).unwrap(), wound_sd),
                not_cloth: Estimate::even(WarpLength::from_mm(reported(dice, waste, waste_sd)).unwrap(), waste_sd),
                warp_use: WarpUse::from_crimp(Crimp::from_percent(reported(dice, truth_u, u_sd) * 100.0).unwrap()),
                warp_use_deviation: u_sd,
                mark: mark.then(|| {
                    let at = woven_true * 0.9;
                    WarpMark {
                        along: WarpLength::from_mm(reported(dice, at * (1.0 + truth_u), 5.0)).unwrap(),
                        woven: WovenLength::from_mm(reported(dice, at, 8.0)).unwrap(),
                        along_deviation_mm: 5.0,
                        woven_deviation_mm: 8.0,
                    }
                }),
            };
            let stated_woven = reported(dice, woven_true, woven_sd);
            let woven = Estimate::even(WovenLength::from_mm(stated_woven).unwrap(), woven_sd);
            let left = loom.left(&woven).unwrap();
            let truth = (wound - waste) / (1.0 + truth_u) - woven_true;
            let wanted = WovenLength::from_mm((truth + 100.0 * dice.normal()).max(1.0)).unwrap();
            let chance = reach(&left.cloth, wanted).chance;
            let bin = &mut bins[((chance * 5.0) as usize).min(4)];
            *bin = (bin.0 + 1.0, bin.1 + chance, bin.2 + f64::from(u8::from(truth >= wanted.mm())));
            left.cloth.span(Coverage::FOUR_IN_FIVE).holds(LengthBalance::from_mm(truth).unwrap())
        });
        near(if mark { "warp left after a mark" } else { "warp left" }, got, 0.77, 0.83);
        for (n, said, came) in bins {
            // Said and come true, fifth by fifth. What is wanted lies around the truth, so the extremes are rarer than
            // said.
            assert!((said / n - came / n).abs() < 0.2, "said {:.2}, came true {:.2}", said / n, came / n);
        }
    }
}

#[test]
fn weft_left_by_the_scale() {
    let errors = MeasurementErrors::default();
    for (what, low, high) in [("little used", 6.0, 15.0), ("much used", 20.0, 60.0)] {
        let got = share(15, |dice| {
            let per_mm = dice.between(0.02, 0.12);
            let mut woven = 0.0;
            let mut used = 0.0;
            let goal = dice.between(low, high);
            while used < goal {
                let mm = dice.between(150.0, 250.0).min((goal - used) / per_mm + 1.0);
                woven += mm;
                used += mm * per_mm * (1.0 + errors.rate_share * dice.normal());
            }
            let left = dice.between(15.0, 80.0);
            // What the rest makes, stretch by stretch.
            let (mut rest, mut truth) = (left, 0.0);
            while rest > 0.0 {
                let rate = per_mm * (1.0 + errors.rate_share * dice.normal());
                let mm = (rest / rate).min(250.0);
                truth += mm;
                rest -= mm * rate;
                if mm < 250.0 {
                    break;
                }
            }
            let scale = |dice: &mut Dice, g: f64| ScaleReading {
                shown: Mass::from_g(g + dice.between(-1.0, 1.0)).unwrap(),
                tare: Mass::ZERO,
                rough: false,
            };
            let (before, now) = (scale(dice, left + used), scale(dice, left));
            let woven = Estimate::even(WovenLength::from_mm(woven).unwrap(), 0.0);
            match weft_left_by_scale(before, now, &woven, Mass::ZERO, None, &errors) {
                Ok(reported) => reported.cloth.span(Coverage::FOUR_IN_FIVE).holds(WovenLength::from_mm(truth).unwrap()),
                Err(_) => false,
            }
        });
        near(what, got, 0.77, 0.84);
    }
}

#[test]
fn sizes_from_a_roughly_known_yarn() {
    let got = share(16, |dice| {
        let (warp_sd, weft_sd) = (0.08, 0.12);
        let (warp, weft) = (dice.between(150.0, 500.0), dice.between(100.0, 400.0));
        let plan = SizePlan {
            sett: fellmark_cloth::state::EndsIn::from_per_10cm(40.0).unwrap(),
            extra_ends: 0,
            picks: PicksIn::from_per_10cm(38.0).unwrap(),
            changes: fellmark_cloth::warp::LengthChanges::NONE,
            draw_in: fellmark_cloth::change::DrawIn::NONE,
            pick_allowance: fellmark_cloth::change::Allowance::NONE,
            not_cloth: WarpLength::from_cm(50.0).unwrap(),
            weft_reserve: Length::ZERO,
            pieces: 1,
        };
        let width = FinishedWidth::from_cm(25.0).unwrap();
        let reported = |dice: &mut Dice, m: f64, sd: f64| {
            Estimate::factor(Length::from_m(m * (sd * dice.normal()).exp()).unwrap(), sd)
        };
        let yarn = Yarn::Separate { warp: reported(dice, warp, warp_sd), weft: reported(dice, weft, weft_sd) };
        let span = plan.size_at(&yarn, width, Coverage::FOUR_IN_FIVE).unwrap().length;
        let exact = |m| Estimate::exact(Length::from_m(m).unwrap());
        let truth = Yarn::Separate { warp: exact(warp), weft: exact(weft) };
        let truth = plan.size_at(&truth, width, Coverage::FOUR_IN_FIVE).unwrap().length.likely;
        span.holds(FinishedLength::from_mm(truth.mm()).unwrap())
    });
    near("sizes", got, 0.765, 0.835);
}

#[test]
fn what_was_learnt_of_the_wash() {
    for n in [1, 3, 8] {
        let got = share(17, |dice| {
            let (mean, sd) = (dice.between(0.8, 0.98), dice.between(0.012, 0.03));
            let ratio = |dice: &mut Dice| mean + sd * dice.normal();
            let past: Vec<PastWarp> = (0..n)
                .map(|_| {
                    let before = dice.between(1000.0, 3000.0);
                    let after = before * ratio(dice);
                    PastWarp {
                        measured: WarpMeasurements {
                            off_loom: RelaxedLength::from_mm(before).ok(),
                            finished: FinishedLength::from_mm(after).ok(),
                            ..WarpMeasurements::default()
                        },
                        like: Likeness::FULL,
                    }
                })
                .collect();
            let wash = learn(&past).wash.unwrap();
            let next = ratio(dice);
            (next - wash.value.ratio()).abs() <= 1.281_551_565_5 * wash.deviation
        });
        near(&format!("wash after {n} warps"), got, 0.75, 0.83);
    }
}
