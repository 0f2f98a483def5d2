//! Rows of a rigid heddle as people write them: "up, stick, up, down", "up + stick", "down and second stick".

use super::{Heddle, HeddleRow, Stick};
use crate::error::Refused;

/// Longer than any repeat that is written by hand.
const LONGEST: usize = 20_000;

/// Reads rows from words, one row between semicolons, middle dots or line ends, or where there are none of these
/// between commas; a number and × (or x) before a row
/// repeats it. "stick" alone is the heddle at rest with the stick on edge; with the heddle up it is slid forward flat.
/// "edge" and "flat" say it outright; "second" or "2" means the second stick.
///
/// # Errors
/// If a word is not known, or a row says nothing about heddle or stick.
pub fn rows_from_words(text: &str) -> Result<Vec<HeddleRow>, Refused> {
    let refuse = |row: &str, why: &str| Refused::Unreadable {
        what: "a row",
        text: row.chars().filter(|c| !c.is_control()).take(40).collect(),
        why: why.to_owned(),
    };
    if text.len() > LONGEST {
        return Err(Refused::DoesNotFit("that is too long for a sequence".into()));
    }
    let mut rows = Vec::new();
    let between: &[char] = &[';', '\n', '\r', '\u{b7}', '\u{2022}'];
    // Where rows are set apart otherwise, a comma stands within one: "heddle up, stick forward and flat".
    let between = if text.contains(between) { between } else { &[','] };
    for part in text.split(between) {
        let part = part.trim();
        if part.is_empty() {
            continue;
        }
        let lower = part.to_lowercase();
        let (times, words) = counted(&lower).ok_or_else(|| refuse(part, "a row is woven 1 to 1000 times"))?;
        let row = row(words).map_err(|why| refuse(part, &why))?;
        rows.extend(std::iter::repeat_n(row, times));
        if rows.len() > LONGEST {
            return Err(Refused::DoesNotFit("that is too long for a sequence".into()));
        }
    }
    if rows.is_empty() {
        return Err(refuse(text, "nothing is written"));
    }
    Ok(rows)
}

/// "3 x up": how often, and the rest.
fn counted(part: &str) -> Option<(usize, &str)> {
    let digits = part.bytes().take_while(u8::is_ascii_digit).count();
    let rest = part[digits..].trim_start();
    let (Some(rest), true) = (rest.strip_prefix(['x', '\u{d7}']), digits > 0) else { return Some((1, part)) };
    let times = part[..digits].parse().ok()?;
    (1..=1000).contains(&times).then_some((times, rest))
}

fn row(words: &str) -> Result<HeddleRow, String> {
    let mut heddle = None;
    let mut place = None;
    let mut used = false;
    let mut second = false;
    for word in words.split(|c: char| c.is_whitespace() || matches!(c, '+' | '&' | '(' | ')' | '.' | ',')) {
        match word {
            "" | "heddle" | "and" | "on" | "the" | "forward" | "pick-up" | "pickup" | "first" | "at" | "a" => {}
            "up" | "u" => heddle = Some(Heddle::Up),
            "down" | "d" => heddle = Some(Heddle::Down),
            "rest" | "neutral" => heddle = Some(Heddle::AtRest),
            "stick" | "sticks" | "s" => used = true,
            "edge" => place = Some(Stick::OnEdge),
            "flat" => place = Some(Stick::ForwardFlat),
            "back" => place = Some(Stick::AtBack),
            "second" | "2" => second = true,
            other => return Err(format!("\u{201c}{other}\u{201d} is not known here")),
        }
    }
    used |= second || place.is_some_and(|place| place != Stick::AtBack);
    let heddle = match (heddle, used) {
        (Some(heddle), _) => heddle,
        (None, true) => Heddle::AtRest,
        (None, false) => return Err("say what the heddle or the stick does".into()),
    };
    let stick = match (used, place) {
        (false, _) => Stick::AtBack,
        (true, Some(place)) => place,
        (true, None) if heddle == Heddle::AtRest => Stick::OnEdge,
        (true, None) => Stick::ForwardFlat,
    };
    if heddle == Heddle::AtRest && stick != Stick::OnEdge {
        return Err("with the heddle at rest a stick has to stand on edge to open a shed".into());
    }
    let row = HeddleRow::of(heddle, stick);
    Ok(if second { row.on_second() } else { row })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn repeats_in_words() {
        assert_eq!(
            rows_from_words("up \u{b7} stick \u{b7} up \u{b7} down").unwrap(),
            crate::sequence::weft_float().repeat
        );
        assert_eq!(rows_from_words("Down, up + stick, down, up").unwrap(), crate::sequence::warp_float().repeat);
        assert_eq!(rows_from_words("2 x up, heddle down").unwrap().len(), 3);
        assert_eq!(
            rows_from_words("heddle down, stick at the back; heddle at rest, stick forward and on edge").unwrap(),
            [HeddleRow::DOWN, HeddleRow::STICK]
        );
        assert_eq!(rows_from_words("up and second stick").unwrap(), [HeddleRow::UP_AND_STICK.on_second()]);
        assert!(rows_from_words("up, stick at the back").is_err());
    }

    #[test]
    fn what_is_not_understood_is_said() {
        for text in ["", " , ", "sideways", "at rest the", "0 x up", "9999 x up", "forward"] {
            assert!(rows_from_words(text).is_err(), "{text}");
        }
    }
}
