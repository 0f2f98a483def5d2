//! Entries in a file that some other program laid out anew: the line is put back as it was written, and its
//! key shows whether that succeeded.

use serde_json::Value;
use serde_json::value::RawValue;

use super::entry::{Entry, LINE_MAX_BYTES, Refusal};

/// Reads an entry from JSON that may be indented, escaped otherwise, or in another order.
pub(crate) fn entry(text: &str) -> Result<Entry, Refusal> {
    if text.len() > 4 * LINE_MAX_BYTES {
        return Err(Refusal::Long);
    }
    let compact = compact(text, false);
    let first = Entry::from_line(compact.as_bytes());
    if first.is_ok() {
        return first;
    }
    let unescaped = self::compact(text, true);
    if unescaped != compact
        && let Ok(entry) = Entry::from_line(unescaped.as_bytes())
    {
        return Ok(entry);
    }
    match in_order(&unescaped).map(|line| Entry::from_line(line.as_bytes())) {
        Some(Ok(entry)) => Ok(entry),
        // Text that has a key but does not hold it was changed; without one it is no entry at all.
        _ => first,
    }
}

/// JSON without white space between its parts; with `escapes`, strings are written as this program writes them.
fn compact(text: &str, escapes: bool) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find('"') {
        out.extend(rest[..at].chars().filter(|c| !c.is_ascii_whitespace()));
        let end = at + string_end(&rest.as_bytes()[at..]);
        let string = rest.get(at..end).unwrap_or(&rest[at..]);
        match serde_json::from_str::<String>(string) {
            Ok(plain) if escapes => out.push_str(&Value::String(plain).to_string()),
            _ => out.push_str(string),
        }
        rest = rest.get(end..).unwrap_or_default();
    }
    out.extend(rest.chars().filter(|c| !c.is_ascii_whitespace()));
    out
}

/// The length of the string that begins at the first byte (a quote), its closing quote included.
fn string_end(bytes: &[u8]) -> usize {
    let mut i = 1;
    while i < bytes.len() {
        match bytes[i] {
            b'"' => return i + 1,
            b'\\' => i += 2,
            _ => i += 1,
        }
    }
    bytes.len()
}

/// The members of an entry in the order they are written in.
fn in_order(text: &str) -> Option<String> {
    const ORDER: [&str; 8] = ["key", "of", "kind", "warp", "by", "at", "over", "set"];
    let mut members: std::collections::BTreeMap<String, &RawValue> = serde_json::from_str(text).ok()?;
    let mut out = String::with_capacity(text.len());
    for name in ORDER {
        if let Some(value) = members.remove(name) {
            out.push_str(if out.is_empty() { "{" } else { "," });
            out.push_str(&format!("\"{name}\":"));
            out.push_str(value.get());
        }
    }
    for (name, value) in members {
        out.push(',');
        out.push_str(&Value::String(name).to_string());
        out.push(':');
        out.push_str(value.get());
    }
    out.push('}');
    Some(out)
}

/// Every run of bytes that begins like an entry and closes within `most` bytes, wherever it stands.
pub(crate) fn objects(bytes: &[u8], most: usize) -> impl Iterator<Item = &str> {
    // Damage may begin an entry again and again without an end: the work is bounded by a few times the file.
    let mut budget = bytes.len().saturating_mul(4);
    let mut at = 0;
    std::iter::from_fn(move || {
        while at < bytes.len() && budget > 0 {
            let start = at + bytes[at..].iter().position(|b| *b == b'{')?;
            at = start + 1;
            let window = &bytes[start..bytes.len().min(start + most)];
            if !window[1..].trim_ascii_start().starts_with(b"\"key\"") {
                continue;
            }
            let (length, looked_at) = object_end(window);
            budget = budget.saturating_sub(looked_at);
            if let Some(length) = length
                && let Ok(text) = std::str::from_utf8(&window[..length])
            {
                at = start + length;
                return Some(text);
            }
        }
        None
    })
}

/// Where the object that begins at the first byte closes, and how many bytes were looked at.
fn object_end(bytes: &[u8]) -> (Option<usize>, usize) {
    let mut depth = 0usize;
    let mut i = 0;
    while i < bytes.len() {
        match bytes[i] {
            b'"' => {
                i += string_end(&bytes[i..]);
                continue;
            }
            b'{' | b'[' => depth += 1,
            b'}' | b']' => {
                depth = depth.saturating_sub(1);
                if depth == 0 {
                    return (Some(i + 1), i + 1);
                }
            }
            _ => {}
        }
        i += 1;
    }
    (None, bytes.len())
}
