//! An invented weaver, from whom earlier warps and an unfinished one with a known end are drawn with a fixed seed.

use chrono::{Datelike, Days, NaiveDate};
use fellmark_projection::{EarlierWarp, LeftToWeave, Question, SectionKind, WovenStretch};

use fellmark_tests::backtest::mersenne::Random;

/// How the weaver works.
#[derive(Debug, Clone, Copy)]
pub struct Weaver {
    /// Mean days from one weaving day to the next.
    pub gap: f64,
    /// Shape of the gaps' gamma law: 8 is steady, 1 haphazard, 0.4 bursts and lulls.
    pub steadiness: f64,
    /// Median picks on a weaving day.
    pub picks: f64,
    /// Standard deviation of ln of the picks.
    pub picks_spread: f64,
    /// Standard deviation of ln of a whole warp's mean gap: times of life.
    pub seasons: f64,
}

/// A number in 0 … 1, 1 excluded, by 53 bits.
pub fn share(random: &mut Random) -> f64 {
    let (high, low) = (random.word() >> 5, random.word() >> 6);
    (f64::from(high) * 67_108_864.0 + f64::from(low)) / 9_007_199_254_740_992.0
}

/// A standard normal value (Box & Muller 1958).
fn normal(random: &mut Random) -> f64 {
    let radius = (-2.0 * (1.0 - share(random)).ln()).sqrt();
    radius * (std::f64::consts::TAU * share(random)).cos()
}

/// A gamma value with mean 1 (Marsaglia & Tsang 2000, with their boost below shape 1).
fn gamma(random: &mut Random, shape: f64) -> f64 {
    let boosted = if shape < 1.0 { shape + 1.0 } else { shape };
    let d = boosted - 1.0 / 3.0;
    let c = 1.0 / (9.0 * d).sqrt();
    let drawn = loop {
        let x = normal(random);
        let v = (1.0 + c * x).powi(3);
        if v > 0.0 && (1.0 - share(random)).ln() < 0.5 * x * x + d - d * v + d * v.ln() {
            break d * v;
        }
    };
    let boost = if shape < 1.0 { (1.0 - share(random)).powf(1.0 / shape) } else { 1.0 };
    drawn * boost / shape
}

impl Weaver {
    /// A weaver drawn from many: from nearly daily to every tenth day, from steady to bursty.
    pub fn drawn(random: &mut Random) -> Self {
        Self {
            gap: (0.9 + 0.6 * normal(random)).exp().clamp(1.0, 12.0),
            steadiness: [6.0, 2.0, 1.0, 0.5][random.index(4)],
            picks: (4.8 + 0.6 * normal(random)).exp(),
            picks_spread: 0.3 + 0.4 * share(random),
            seasons: 0.25 + 0.3 * share(random),
        }
    }

    /// One warp of `target` picks begun on `first`: its sittings to the one that reaches the target.
    pub fn warp(&self, random: &mut Random, first: NaiveDate, target: f64) -> Vec<WovenStretch> {
        let mean = self.gap * (self.seasons * normal(random)).exp();
        let mut sittings = Vec::new();
        let (mut day, mut woven) = (first, 0.0);
        while woven < target {
            let picks = (self.picks * (self.picks_spread * normal(random)).exp()).round().max(1.0);
            woven += picks;
            sittings.push(WovenStretch::plain(day, Some((picks / 3.0).round().max(1.0)), picks));
            day = day + Days::new((mean * gamma(random, self.steadiness)).round().max(1.0) as u64);
        }
        sittings
    }
}

/// A question about an unfinished warp, and the day its last pick was woven.
pub struct Drawn {
    /// The question.
    pub question: Question,
    /// The end, for scoring.
    pub end: NaiveDate,
}

/// Draws a warp after `earlier` finished ones, asked about on its `sitting`-th sitting's day.
pub fn draw(random: &mut Random, weaver: &Weaver, earlier: usize, sitting: usize) -> Drawn {
    let mut first = NaiveDate::from_ymd_opt(2021, 1, 4).unwrap_or_default();
    let target = weaver.picks * (12.0 + 20.0 * share(random));
    let mut warps = Vec::new();
    for _ in 0..earlier {
        let earlier_target = target * (0.6 + 0.8 * share(random));
        let sittings = weaver.warp(random, first, earlier_target);
        first = sittings.iter().map(|s| s.day).max().unwrap_or(first) + Days::new(14);
        warps.push(EarlierWarp { sittings });
    }
    let all = weaver.warp(random, first, target);
    let end = all.iter().map(|s| s.day).max().unwrap_or(first);
    let so_far: Vec<WovenStretch> = all.into_iter().take(sitting).collect();
    let today = so_far.iter().map(|s| s.day).max().unwrap_or(first);
    let woven: f64 = so_far.iter().filter_map(|s| s.picks).sum();
    let mut question = Question::new(today, (target - woven).max(1.0));
    question.sittings = so_far;
    question.earlier = warps;
    Drawn { question, end }
}

/// Any question at all, sound or odd, for what must hold always.
pub fn any(random: &mut Random) -> Question {
    let weaver = Weaver::drawn(random);
    let (earlier, sitting) = (random.index(4), random.index(12));
    let mut question = draw(random, &weaver, earlier, sitting + 1).question;
    if random.index(6) == 0 {
        question.sittings.clear();
    }
    for s in &mut question.sittings {
        match random.index(12) {
            0 => s.minutes = None,
            1 => s.minutes = Some(540.0),
            2 => s.picks = s.picks.map(|p| -p),
            3 => s.picks = None,
            4 => s.day = s.day + Days::new(40),
            5 => s.kind = SectionKind::PickUp,
            6 => s.rough = true,
            _ => {}
        }
    }
    if random.index(4) == 0 {
        let border = SectionKind::Other("border".into());
        question.left.push(LeftToWeave { kind: border, picks: 80.0, picks_sd: 20.0 });
    }
    if random.index(4) == 0 {
        question.availability.weekdays =
            Some([0, 1, 2, 3, 4, 5, 6].map(|d| d >= 5 || d == question.today.weekday() as usize));
    }
    question
}
