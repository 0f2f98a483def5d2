//! Ends and ticks of a scale.

/// A scale from one end to the other, with its ticks.
#[derive(Clone, Debug, PartialEq)]
pub struct Scale {
    /// Lower end.
    pub low: f64,
    /// Upper end.
    pub high: f64,
    /// Where ticks are, and what is written at them.
    pub ticks: Vec<(f64, String)>,
}

impl Scale {
    /// A scale that holds all values, with some five ticks at 1, 2 or 5 times a power of ten. `from_zero` begins it at zero.
    #[must_use]
    pub fn holding(
        values: impl IntoIterator<Item = f64>,
        from_zero: bool,
        write: impl Fn(f64, usize) -> String,
    ) -> Self {
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        for value in values.into_iter().filter(|value| value.is_finite()) {
            low = low.min(value);
            high = high.max(value);
        }
        if from_zero || low > high {
            low = low.min(0.0);
            high = high.max(0.0);
        }
        if low > high || high - low < f64::EPSILON * high.abs().max(1.0) {
            (low, high) = (low.min(high) - 0.5, low.max(high) + 0.5);
        }
        let step = step_for((high - low) / 5.0);
        let (first, last) = ((low / step).floor(), (high / step).ceil());
        let places = if step < 1.0 { (-step.log10()).ceil() as usize } else { 0 };
        let count = (last - first).round().clamp(1.0, 50.0) as usize;
        let ticks = (0..=count).map(|i| {
            let at = (first + i as f64) * step;
            (at, write(at, places))
        });
        Self { low: first * step, high: (first + count as f64) * step, ticks: ticks.collect() }
    }
}

/// The next of 1, 2, 5 times a power of ten that is not below `wanted`.
fn step_for(wanted: f64) -> f64 {
    let power = 10f64.powf(wanted.log10().floor());
    let times = [1.0, 2.0, 5.0].into_iter().find(|times| times * power >= wanted * (1.0 - 1e-9)).unwrap_or(10.0);
    times * power
}

#[cfg(test)]
mod tests {
    use super::*;

    fn labels(values: &[f64], from_zero: bool) -> Vec<String> {
        let scale = Scale::holding(values.iter().copied(), from_zero, |value, places| format!("{value:.places$}"));
        assert!(values.iter().all(|value| scale.low <= *value && *value <= scale.high), "{scale:?}");
        scale.ticks.into_iter().map(|(_, label)| label).collect()
    }

    #[test]
    fn ticks_are_round_and_hold_every_value() {
        assert_eq!(labels(&[0.7, 4.4], true), ["0", "1", "2", "3", "4", "5"]);
        assert_eq!(labels(&[1.31, 1.94], false), ["1.2", "1.4", "1.6", "1.8", "2.0"]);
        assert_eq!(labels(&[130.0, 480.0], true), ["0", "100", "200", "300", "400", "500"]);
    }

    #[test]
    fn one_value_or_none_still_has_a_scale() {
        assert!(labels(&[3.0], false).len() >= 2);
        assert!(labels(&[], true).len() >= 2);
        assert!(labels(&[f64::NAN.max(2.0), 2.0], false).len() >= 2);
    }
}
