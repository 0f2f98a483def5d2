//! Words put together, the same everywhere.

/// A text with a capital first.
pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|c| c.to_uppercase().to_string()).unwrap_or_default() + letters.as_str()
}

/// "Mondays, Fridays and Sundays".
pub(crate) fn listed<S: AsRef<str>>(names: &[S]) -> String {
    let names: Vec<&str> = names.iter().map(AsRef::as_ref).collect();
    match names.as_slice() {
        [first @ .., last] if !first.is_empty() => format!("{} and {last}", first.join(", ")),
        names => names.concat(),
    }
}

/// A number of things as messages take it.
pub(crate) fn count(things: impl TryInto<i64>) -> i64 {
    things.try_into().unwrap_or(i64::MAX)
}

/// "two"; in figures above twelve.
pub(crate) fn small_number(number: i64) -> String {
    const WORDS: [&str; 13] =
        ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
    usize::try_from(number)
        .ok()
        .and_then(|n| WORDS.get(n))
        .map_or_else(|| number.to_string(), |word| (*word).to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn none_one_two_and_many_are_listed() {
        assert_eq!(listed::<&str>(&[]), "");
        assert_eq!(listed(&["hem"]), "hem");
        assert_eq!(listed(&["hem", "wash"]), "hem and wash");
        assert_eq!(listed(&["hem", "wash", "dry"]), "hem, wash and dry");
    }

    #[test]
    fn numbers_are_words_as_long_as_they_are_short() {
        assert_eq!([-1, 0, 2, 12, 13].map(small_number), ["-1", "no", "two", "twelve", "13"]);
    }

    #[test]
    fn a_capital_is_put_first() {
        assert_eq!(["", "das", "élan"].map(capital), ["", "Das", "Élan"]);
    }
}
