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
        let end = rest.iter().position(|b| matches!(b, b'"' | b'\\' | 0..0x20))?;
        if rest[end] != b'"' {
            return None;
        }
        let from = self.at + 1;
        self.at = from + end + 1;
        self.line.get(from..from + end)
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
