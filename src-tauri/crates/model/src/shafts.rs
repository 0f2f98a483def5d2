//! What the numbered sheds of a loom with shafts, or of several heddles, lift; and which shaft each end is on.

use std::collections::{BTreeMap, BTreeSet};

use fellmark_cloth::sequence::{NumberedSheds, Shed};

use crate::{Message, messages};

/// More shafts than this has no loom with numbered sheds at home.
const MOST_SHAFTS: u16 = 40;
/// Longest threading that is drawn.
const MOST_ENDS: usize = 400;

fn numbers(text: &str) -> Result<Vec<u16>, Message> {
    let mut all = Vec::new();
    for word in text.split([' ', ',', ';', '+', '\n', '\t', '\r']).filter(|word| !word.is_empty()) {
        let read = |word: &str| word.parse::<u16>().ok().filter(|shaft| (1..=MOST_SHAFTS).contains(shaft));
        let wrong = || {
            let word: String = word.chars().take(20).collect();
            messages::unknown_shaft(word, i64::from(MOST_SHAFTS))
        };
        match word.split_once(['-', '\u{2013}']) {
            Some((from, to)) => {
                let (from, to) = (read(from).ok_or_else(wrong)?, read(to).ok_or_else(wrong)?);
                if from <= to { all.extend(from..=to) } else { all.extend((to..=from).rev()) }
            }
            None => all.push(read(word).ok_or_else(wrong)?),
        }
        if all.len() > MOST_ENDS {
            return Err(messages::threading_too_long(MOST_ENDS as i64));
        }
    }
    Ok(all)
}

/// Reads a threading: the shaft of each end over one repeat. Empty is none.
///
/// # Errors
/// Something in it is no shaft.
pub fn threading(text: &str) -> Result<Vec<u16>, Message> {
    numbers(text)
}

/// Reads what each shed lifts, one shed to a line: "1: 1 2", or the shafts alone where the lines are in the sheds' order.
///
/// # Errors
/// A line that is not understood, or a shed that is there twice.
pub fn lifts(text: &str) -> Result<BTreeMap<Shed, BTreeSet<u16>>, Message> {
    let mut all = BTreeMap::new();
    for (at, line) in text.lines().map(str::trim).filter(|line| !line.is_empty()).enumerate() {
        let (shed, shafts) = match line.split_once([':', '=']) {
            Some((shed, shafts)) => {
                let shed = shed.trim().trim_start_matches("shed").trim();
                let number = shed.parse::<u16>().ok().filter(|n| (1..=999).contains(n));
                (number.ok_or_else(|| messages::unknown_shed(line))?, shafts)
            }
            None => (u16::try_from(at + 1).unwrap_or(u16::MAX), line),
        };
        let shafts: BTreeSet<u16> = numbers(shafts)?.into_iter().collect();
        if all.insert(Shed(shed), shafts).is_some() {
            return Err(messages::shed_twice(i64::from(shed)));
        }
    }
    Ok(all)
}

/// A warp of at least so many ends that shows what the sheds lift. Without a threading the ends are drawn straight through on the
/// shafts that the sheds lift; the second value is then their number.
#[must_use]
pub fn warp_for_drawing(
    threading: &[u16],
    lifts: BTreeMap<Shed, BTreeSet<u16>>,
    least_ends: usize,
) -> (NumberedSheds, Option<u16>) {
    let shafts = lifts.values().flatten().copied().max().unwrap_or(1);
    let assumed = threading.is_empty();
    let repeat: Vec<u16> = if assumed { (1..=shafts).collect() } else { threading.to_vec() };
    let times = least_ends.div_ceil(repeat.len().max(1)).max(1);
    (NumberedSheds { threading: repeat.repeat(times), lifts }, assumed.then_some(shafts))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn threadings_and_lifts_are_read_as_people_write_them() {
        assert_eq!(threading("1-4"), Ok(vec![1, 2, 3, 4]));
        assert_eq!(threading("1, 2, 3 4-1"), Ok(vec![1, 2, 3, 4, 3, 2, 1]));
        assert_eq!(threading("1 2 x"), Err(messages::unknown_shaft("x", 40)));
        assert!(threading("0").is_err() && threading("41").is_err() && threading(&"1-40 ".repeat(11)).is_err());
        let twill = lifts("1: 1 2\n2: 2+3\nshed 3 = 3, 4\n4: 4 1").unwrap();
        assert_eq!(twill, lifts("1 2\n2 3\n3 4\n1 4").unwrap());
        assert_eq!(lifts("1: 1\n1: 2"), Err(messages::shed_twice(1)));
        assert!(lifts("up: 1").is_err());
    }
}
