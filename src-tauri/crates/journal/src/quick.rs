//! A short way through a line that stands as this program writes it: the members in their order, names of fields in
//! order, plain strings and plain numbers. It takes less than the general reader and never more, and what it does not
//! take goes to that one.

use std::ops::Range;

use crate::ids::{Key, is_id};

/// How deep values are followed on the short way.
const DEPTH_MAX: usize = 8;
/// Digits before and after the decimal point that are taken without looking at the value.
const DIGITS_MAX: usize = 15;

/// The parts of a line.
pub(crate) struct Parts<'a> {
    pub(crate) of: &'a str,
    pub(crate) kind: &'a str,
    pub(crate) warp: Option<&'a str>,
    pub(crate) by: &'a str,
    pub(crate) at: &'a str,
    pub(crate) over: Vec<Key>,
    /// Where in the line the fields' object stands; it has no name twice.
    pub(crate) set: Range<usize>,
}

/// Takes a line apart from `start`, where its key and the comma after it end.
pub(crate) fn parts(line: &str, start: usize) -> Option<Parts<'_>> {
    let mut c = Cursor { line, at: start };
    c.literal(b"\"of\":")?;
    let of = c.id()?;
    c.literal(b",\"kind\":")?;
    let kind = c.id()?;
    let warp = match c.literal(b",\"warp\":") {
        Some(()) => Some(c.id()?),
        None => None,
    };
    c.literal(b",\"by\":")?;
    let by = c.id()?;
    c.literal(b",\"at\":")?;
    let at = c.string()?;
    c.literal(b",\"over\":[")?;
    let mut over = Vec::new();
    if c.literal(b"]").is_none() {
        loop {
            over.push(Key::from_hex(c.string()?.as_bytes())?);
            if c.literal(b",").is_none() {
                break;
            }
        }
        c.literal(b"]")?;
    }
    c.literal(b",\"set\":")?;
    let from = c.at;
    c.object(0)?;
    let set = from..c.at;
    c.literal(b"}")?;
    (c.at == line.len()).then_some(Parts { of, kind, warp, by, at, over, set })
}

struct Cursor<'a> {
    line: &'a str,
    at: usize,
}

impl<'a> Cursor<'a> {
    fn rest(&self) -> &'a [u8] {
        self.line.as_bytes().get(self.at..).unwrap_or_default()
    }

    fn literal(&mut self, text: &[u8]) -> Option<()> {
        let found = self.rest().starts_with(text);
        self.at += if found { text.len() } else { 0 };
        found.then_some(())
    }

    /// A string without escapes.
    fn string(&mut self) -> Option<&'a str> {
        let rest = self.rest().strip_prefix(b"\"")?;
        let length = plain(rest);
        if rest.get(length) != Some(&b'"') {
            return None;
        }
        let from = self.at + 1;
        self.at = from + length + 1;
        self.line.get(from..from + length)
    }

    fn id(&mut self) -> Option<&'a str> {
        self.string().filter(|text| is_id(text))
    }

    fn object(&mut self, depth: usize) -> Option<()> {
        self.literal(b"{")?;
        if self.literal(b"}").is_some() {
            return Some(());
        }
        let mut before: Option<&str> = None;
        loop {
            let name = self.string()?;
            // Names in order cannot come twice.
            if before.is_some_and(|before| before >= name) {
                return None;
            }
            before = Some(name);
            self.literal(b":")?;
            self.value(depth + 1)?;
            if self.literal(b",").is_none() {
                return self.literal(b"}");
            }
        }
    }

    fn list(&mut self, depth: usize) -> Option<()> {
        self.literal(b"[")?;
        if self.literal(b"]").is_some() {
            return Some(());
        }
        loop {
            self.value(depth + 1)?;
            if self.literal(b",").is_none() {
                return self.literal(b"]");
            }
        }
    }

    fn value(&mut self, depth: usize) -> Option<()> {
        if depth > DEPTH_MAX {
            return None;
        }
        match self.rest().first()? {
            b'"' => self.string().map(|_| ()),
            b'{' => self.object(depth),
            b'[' => self.list(depth),
            b't' => self.literal(b"true"),
            b'f' => self.literal(b"false"),
            b'n' => self.literal(b"null"),
            _ => self.number(),
        }
    }

    fn digits(&mut self) -> Option<usize> {
        let count = self.rest().iter().take(DIGITS_MAX + 1).take_while(|b| b.is_ascii_digit()).count();
        self.at += count;
        (1..=DIGITS_MAX).contains(&count).then_some(count)
    }

    /// A number without an exponent.
    fn number(&mut self) -> Option<()> {
        let _ = self.literal(b"-");
        let leads_with_zero = self.rest().first() == Some(&b'0');
        if self.digits()? > 1 && leads_with_zero {
            return None;
        }
        if self.literal(b".").is_some() {
            self.digits()?;
        }
        (!matches!(self.rest().first(), Some(b'e' | b'E'))).then_some(())
    }
}

/// How many bytes stand before the first quote, backslash or control character.
fn plain(bytes: &[u8]) -> usize {
    const ONES: u64 = u64::from_le_bytes([1; 8]);
    const HIGHS: u64 = u64::from_le_bytes([0x80; 8]);
    // The high bit of a byte of these is set where it is 0, or below 0x20, and perhaps in bytes after such a one.
    let zero = |word: u64| word.wrapping_sub(ONES) & !word & HIGHS;
    let control = |word: u64| word.wrapping_sub(ONES * 0x20) & !word & HIGHS;
    let mut length = 0;
    let (words, last) = bytes.as_chunks::<8>();
    for word in words {
        let word = u64::from_le_bytes(*word);
        let ends = zero(word ^ (ONES * u64::from(b'"'))) | zero(word ^ (ONES * u64::from(b'\\'))) | control(word);
        if ends != 0 {
            return length + ends.trailing_zeros() as usize / 8;
        }
        length += 8;
    }
    let ends = last.iter().position(|b| matches!(b, b'"' | b'\\' | 0..0x20));
    length + ends.unwrap_or(last.len())
}

#[cfg(test)]
mod tests {
    use super::plain;

    #[test]
    fn a_string_ends_where_a_slow_look_finds_it() {
        for length in 0..20 {
            for at in 0..length {
                for byte in 0..=255u8 {
                    for around in [b'a', 0x80, 0xff, b'!', b'#', b'[', 0x20] {
                        let mut bytes = vec![around; length];
                        bytes[at] = byte;
                        let slow = bytes.iter().position(|b| matches!(b, b'"' | b'\\' | 0..0x20));
                        assert_eq!(plain(&bytes), slow.unwrap_or(length), "{bytes:?}");
                    }
                }
            }
        }
    }
}
