//! By how much one group of values is above another: a robust shift with its interval.

use serde::Serialize;

use crate::math;

/// How much higher the second group is than the first.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Shift {
    /// The median of all differences second − first (Hodges and Lehmann 1963).
    pub by: f64,
    /// Lower end of the interval.
    pub low: f64,
    /// Upper end of the interval.
    pub high: f64,
    /// Values in the first group.
    pub first: usize,
    /// Values in the second.
    pub second: usize,
}

impl Shift {
    /// Whether the interval leaves zero out: only then do these values show that the groups differ.
    #[must_use]
    pub fn is_clear(&self) -> bool {
        self.low > 0.0 || self.high < 0.0
    }
}

/// Up to this many values in the larger group the exact distribution is used; above, the normal approximation.
const EXACT_UP_TO: usize = 40;
/// More values than this are refused: differences grow with the product.
const MOST_VALUES: usize = 2000;

/// The Hodges–Lehmann shift from `first` to `second` with a two-sided interval of at least `confidence` (0 to 1), by inverting the
/// Mann–Whitney test. Calculated without ties, it is a little too wide where values are equal.
///
/// `None` when there are too few values for such an interval (it takes 1/C(m+n, m) ≤ (1 − confidence)/2), or more than 2,000.
#[must_use]
pub fn shift(first: &[f64], second: &[f64], confidence: f64) -> Option<Shift> {
    let finite = |values: &[f64]| values.iter().copied().filter(|value| value.is_finite()).collect::<Vec<f64>>();
    let (first, second) = (finite(first), finite(second));
    let (m, n) = (first.len(), second.len());
    let sensible = m >= 1 && n >= 1 && m.max(n) <= MOST_VALUES && confidence > 0.0 && confidence < 1.0;
    if !sensible {
        return None;
    }
    let mut differences: Vec<f64> = second.iter().flat_map(|b| first.iter().map(move |a| b - a)).collect();
    differences.sort_by(f64::total_cmp);
    let tail = (1.0 - confidence) / 2.0;
    // The largest number of differences that may be left out at each end.
    let out = if m.max(n) <= EXACT_UP_TO { exact_cut(m, n, tail)? } else { approximate_cut(m, n, tail)? };
    let count = differences.len();
    let (low, high) = (*differences.get(out)?, *differences.get(count.checked_sub(1 + out)?)?);
    let by = if count % 2 == 1 {
        differences[count / 2]
    } else {
        f64::midpoint(differences[count / 2 - 1], differences[count / 2])
    };
    (low <= high).then_some(Shift { by, low, high, first: m, second: n })
}

/// The largest u with P(U <= u) <= tail, of the Mann–Whitney statistic without ties; `None` when even u = 0 is likelier.
fn exact_cut(m: usize, n: usize, tail: f64) -> Option<usize> {
    // Chance of each U by the recursion of Mann and Whitney 1947, group sizes growing one by one:
    // p(u; m, n) = m/(m+n) · p(u − n; m − 1, n) + n/(m+n) · p(u; m, n − 1).
    let mut rows: Vec<Vec<f64>> = vec![vec![1.0]; n + 1];
    for i in 1..=m {
        let mut next: Vec<Vec<f64>> = vec![vec![1.0]];
        for j in 1..=n {
            let mut chances = vec![0.0; i * j + 1];
            let (with_first, with_second) = (i as f64 / (i + j) as f64, j as f64 / (i + j) as f64);
            for (u, chance) in rows[j].iter().enumerate() {
                chances[u + j] += with_first * chance;
            }
            for (u, chance) in next[j - 1].iter().enumerate() {
                chances[u] += with_second * chance;
            }
            next.push(chances);
        }
        rows = next;
    }
    let mut sum = 0.0;
    let mut found = None;
    for (u, chance) in rows[n].iter().enumerate() {
        sum += chance;
        // The last bits of a sum of chances must not decide.
        if sum > tail + 1e-12 {
            break;
        }
        found = Some(u);
    }
    // Leaving out u differences at an end keeps the shifts whose U is above u.
    found
}

fn approximate_cut(m: usize, n: usize, tail: f64) -> Option<usize> {
    let (m, n) = (m as f64, n as f64);
    let spread = (m * n * (m + n + 1.0) / 12.0).sqrt();
    let u = (m * n / 2.0 + math::normal_quantile(tail) * spread - 0.5).floor();
    (u >= 0.0).then_some(u as usize)
}
