//! Chances as people say them.

/// A chance as people say it.
#[must_use]
pub fn chance_words(chance: f64) -> String {
    if chance >= 0.985 {
        "almost surely".into()
    } else if chance <= 0.015 {
        "hardly at all".into()
    } else {
        format!("{:.0} times in 100", (chance * 100.0).round())
    }
}
