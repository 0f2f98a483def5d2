//! Numbers in text: whole, decimal with either mark, common fractions, mixed numbers, the printed fractions ½ to ⅞.

use super::DecimalMark;
use crate::error::Refused;

/// Longer than any measure; what is pasted in by mistake is not worth reading.
const LONGEST: usize = 64;

pub(super) fn unreadable(what: &'static str, text: &str, why: String) -> Refused {
    let mut shown: String = text.chars().filter(|c| !c.is_control()).take(40).collect();
    if text.chars().count() > 40 {
        shown.push('\u{2026}');
    }
    Refused::Unreadable { what, text: shown, why }
}

/// Walks over a cleaned copy of the text.
pub(super) struct Scanner {
    chars: Vec<char>,
    at: usize,
}

fn printed_fraction(c: char) -> Option<(f64, f64)> {
    Some(match c {
        '\u{bc}' => (1.0, 4.0),
        '\u{bd}' => (1.0, 2.0),
        '\u{be}' => (3.0, 4.0),
        '\u{2150}' => (1.0, 7.0),
        '\u{2151}' => (1.0, 9.0),
        '\u{2152}' => (1.0, 10.0),
        '\u{2153}' => (1.0, 3.0),
        '\u{2154}' => (2.0, 3.0),
        '\u{2155}' => (1.0, 5.0),
        '\u{2156}' => (2.0, 5.0),
        '\u{2157}' => (3.0, 5.0),
        '\u{2158}' => (4.0, 5.0),
        '\u{2159}' => (1.0, 6.0),
        '\u{215a}' => (5.0, 6.0),
        '\u{215b}' => (1.0, 8.0),
        '\u{215c}' => (3.0, 8.0),
        '\u{215d}' => (5.0, 8.0),
        '\u{215e}' => (7.0, 8.0),
        _ => return None,
    })
}

impl Scanner {
    /// Cleans the text: one kind of quotes, spaces, slashes and dashes; small letters.
    pub(super) fn new(text: &str) -> Result<Self, String> {
        let mut chars: Vec<char> = Vec::new();
        for c in text.trim().chars() {
            if chars.len() >= LONGEST {
                return Err("it is too long".into());
            }
            match c {
                '\u{2032}' | '\u{2019}' | '\u{2018}' | '\u{b4}' | '`' => chars.push('\''),
                '\u{2033}' | '\u{201d}' | '\u{201c}' | '\u{201e}' => chars.push('"'),
                '\u{2044}' | '\u{2215}' => chars.push('/'),
                '\u{2212}' | '\u{2013}' | '\u{2010}' | '\u{2011}' => chars.push('-'),
                c if c.is_whitespace() || c == '\u{feff}' => chars.push(' '),
                c => chars.extend(c.to_lowercase()),
            }
            if chars.ends_with(&['\'', '\'']) {
                chars.truncate(chars.len() - 2);
                chars.push('"');
            }
        }
        if chars.iter().all(|c| *c == ' ') {
            return Err("nothing is written".into());
        }
        Ok(Self { chars, at: 0 })
    }

    fn peek(&self) -> Option<char> {
        self.chars.get(self.at).copied()
    }

    fn skip_spaces(&mut self) {
        while self.peek() == Some(' ') {
            self.at += 1;
        }
    }

    pub(super) fn at_end(&mut self) -> bool {
        self.skip_spaces();
        self.at >= self.chars.len()
    }

    /// Takes a leading minus.
    pub(super) fn minus(&mut self) -> bool {
        self.skip_spaces();
        let there = self.peek() == Some('-');
        if there {
            self.at += 1;
        }
        there
    }

    fn take_while(&mut self, keep: impl Fn(char) -> bool) -> String {
        let mut taken = String::new();
        while let Some(c) = self.peek().filter(|c| keep(*c)) {
            taken.push(c);
            self.at += 1;
        }
        taken
    }

    /// A unit: letters with a full stop after them, or one quote or sign. Empty if none comes next.
    pub(super) fn word(&mut self) -> String {
        self.skip_spaces();
        if let Some(sign) = self.peek().filter(|c| matches!(c, '\'' | '"' | '#')) {
            self.at += 1;
            return sign.to_string();
        }
        let word = self.take_while(char::is_alphabetic);
        if !word.is_empty() && self.peek() == Some('.') {
            self.at += 1;
        }
        word
    }

    /// What is left, cleaned.
    pub(super) fn rest_spaced(&mut self) -> String {
        let rest = self.chars[self.at..].iter().collect();
        self.at = self.chars.len();
        rest
    }

    /// Takes a slash.
    pub(super) fn slash(&mut self) -> bool {
        self.skip_spaces();
        let there = self.peek() == Some('/');
        if there {
            self.at += 1;
        }
        there
    }

    /// What is left, without spaces.
    pub(super) fn rest_without_spaces(&mut self) -> String {
        let rest = self.chars[self.at..].iter().filter(|c| **c != ' ').collect();
        self.at = self.chars.len();
        rest
    }

    /// A number: decimal, fraction, or a whole number with a fraction.
    pub(super) fn number(&mut self, mark: DecimalMark) -> Result<f64, String> {
        let first = self.start_of_number(mark)?;
        let Some((value, whole)) = first else { return self.printed().ok_or_else(|| self.no_number()) };
        if !whole {
            return Ok(value);
        }
        if let Some(fraction) = self.printed() {
            return Ok(value + fraction);
        }
        if let Some(below) = self.after_slash()? {
            return Ok(value / below);
        }
        // "14 3/8" and "14-3/8": only if a fraction really follows, else the next number is another measure.
        let here = self.at;
        self.skip_spaces();
        if self.peek() == Some('-') {
            self.at += 1;
        }
        if let Some(fraction) = self.printed() {
            return Ok(value + fraction);
        }
        if self.peek().is_some_and(|c| c.is_ascii_digit())
            && let Some((above, true)) = self.digits(mark)?
            && let Some(below) = self.after_slash()?
        {
            return Ok(value + above / below);
        }
        self.at = here;
        Ok(value)
    }

    /// Passes over words that are among these.
    pub(super) fn skip_words(&mut self, words: &[&str]) {
        loop {
            let here = self.at;
            let word = self.word();
            if !words.contains(&word.as_str()) {
                self.at = here;
                return;
            }
        }
    }

    /// A number where a slash means "per", unless a whole number and a space stand before the fraction: "12 1/2", but "40/10".
    pub(super) fn mixed_number(&mut self, mark: DecimalMark) -> Result<f64, String> {
        let here = self.at;
        let whole = self.plain_number(mark)?;
        let after = self.at;
        if matches!(self.peek(), Some(' ' | '-')) && whole.fract() == 0.0 {
            self.at += 1;
            if self.digits(mark)?.is_some_and(|(_, whole)| whole) && self.after_slash()?.is_some() {
                self.at = here;
                return self.number(mark);
            }
        }
        self.at = after;
        Ok(whole)
    }

    /// A number without common fractions, where a slash means "per".
    pub(super) fn plain_number(&mut self, mark: DecimalMark) -> Result<f64, String> {
        match self.start_of_number(mark)? {
            Some((value, true)) => Ok(value + self.printed().unwrap_or(0.0)),
            Some((value, false)) => Ok(value),
            None => self.printed().ok_or_else(|| self.no_number()),
        }
    }

    fn no_number(&self) -> String {
        match self.peek() {
            Some(c) => format!("a number is expected before \u{201c}{c}\u{201d}"),
            None => "a number is expected at the end".into(),
        }
    }

    fn start_of_number(&mut self, mark: DecimalMark) -> Result<Option<(f64, bool)>, String> {
        self.skip_spaces();
        if self.peek() == Some('-') {
            return Err("it can't be less than nothing".into());
        }
        self.digits(mark)
    }

    fn printed(&mut self) -> Option<f64> {
        let here = self.at;
        self.skip_spaces();
        if let Some((above, below)) = self.peek().and_then(printed_fraction) {
            self.at += 1;
            return Some(above / below);
        }
        self.at = here;
        None
    }

    /// The divisor if a slash and a whole number come next; leaves both alone otherwise.
    fn after_slash(&mut self) -> Result<Option<f64>, String> {
        let here = self.at;
        self.skip_spaces();
        if self.peek() == Some('/') {
            self.at += 1;
            self.skip_spaces();
            let below = self.take_while(|c| c.is_ascii_digit());
            if let Ok(below) = below.parse::<f64>() {
                return if below == 0.0 { Err("nothing can be divided by zero".into()) } else { Ok(Some(below)) };
            }
        }
        self.at = here;
        Ok(None)
    }

    /// Digits with decimal and grouping marks; true if it is a whole number written without any mark.
    fn digits(&mut self, mark: DecimalMark) -> Result<Option<(f64, bool)>, String> {
        let here = self.at;
        let run = self.take_while(|c| c.is_ascii_digit() || c == '.' || c == ',');
        if !run.chars().any(|c| c.is_ascii_digit()) {
            self.at = here;
            return Ok(None);
        }
        let plain = without_marks(&run, mark)?;
        let value = plain.parse::<f64>().map_err(|_| format!("\u{201c}{run}\u{201d} is no number"))?;
        Ok(Some((value, run.chars().all(|c| c.is_ascii_digit()))))
    }
}

/// The number with a point as its decimal mark and no grouping.
fn without_marks(run: &str, mark: DecimalMark) -> Result<String, String> {
    let marks: Vec<char> = run.chars().filter(|c| !c.is_ascii_digit()).collect();
    let own = if mark == DecimalMark::Comma { ',' } else { '.' };
    let Some(&last) = marks.last() else { return Ok(run.to_owned()) };
    let others_differ = marks.iter().any(|c| *c != last);
    if marks.len() == 1 {
        let (before, after) = run.split_once(last).unwrap_or((run, ""));
        if last != own && after.len() == 3 && (1..=3).contains(&before.len()) && before != "0" {
            return Err(format!("it could be {before}{after} or {before}{own}{after}; write it one of these ways"));
        }
        return Ok(format!("{before}.{after}"));
    }
    if others_differ && marks.iter().filter(|c| **c == last).count() == 1 {
        let (before, after) = run.rsplit_once(last).unwrap_or((run, ""));
        return Ok(format!("{}.{after}", grouped(before)?));
    }
    if others_differ {
        return Err("there is more than one decimal mark".into());
    }
    grouped(run)
}

/// Takes grouping marks out if they stand before every third digit.
fn grouped(run: &str) -> Result<String, String> {
    let groups: Vec<&str> = run.split(['.', ',']).collect();
    let fits = groups.iter().enumerate().all(
        |(i, group)| {
            if i == 0 { (1..=3).contains(&group.len()) } else { group.len() == 3 }
        },
    );
    if fits { Ok(groups.concat()) } else { Err("there is more than one decimal mark".into()) }
}
