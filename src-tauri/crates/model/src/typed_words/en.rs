//! English words, understood in every language. The words of a row are read by the arithmetic itself.

use super::TypedWords;
use pure_rust_locales::Locale;

pub(super) const WORDS: TypedWords = TypedWords {
    locale: Locale::en_GB,
    row: &[],
    further_weekdays: &[],
    weekend: &["weekend", "weekends"],
    weekdays: &["weekday", "weekdays"],
    every_day: &["every day", "daily"],
    beside_a_day: &["and", "on", "the", "every", "day", "days", "daily"],
    shortest_weekday: 3,
    today: &["today"],
    yesterday: &["yesterday"],
    rough_before: &[],
    rough_behind: &[],
};
