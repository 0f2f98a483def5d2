//! French words; the weaving terms are those of the glossary.

use super::TypedWords;
use pure_rust_locales::Locale;

pub(super) const WORDS: TypedWords = TypedWords {
    locale: Locale::fr_FR,
    row: &[
        ("haut", "up"),
        ("bas", "down"),
        ("peigne", "heddle"),
        ("repos", "rest"),
        ("neutre", "neutral"),
        ("baguette", "stick"),
        ("baguettes", "sticks"),
        ("chant", "edge"),
        ("plat", "flat"),
        ("arrière", "back"),
        ("avant", "forward"),
        ("première", "first"),
        ("deuxième", "second"),
        ("seconde", "second"),
        ("avec", ""),
        ("et", "and"),
        ("en", ""),
        ("au", ""),
        ("à", ""),
        ("sur", ""),
        ("la", ""),
        ("le", ""),
        ("l", ""),
    ],
    further_weekdays: &[],
    weekend: &["weekend", "weekends"],
    weekdays: &["semaine"],
    every_day: &["tous les jours", "chaque jour"],
    beside_a_day: &["et", "le", "les", "tous", "chaque", "jour", "jours", "en", "de", "la"],
    shortest_weekday: 2,
    today: &["aujourd'hui", "aujourd’hui"],
    yesterday: &["hier"],
    rough_before: &["environ", "à peu près", "presque", "près de", "autour de", "à peine"],
    rough_behind: &["environ", "à peu près"],
};
