//! When an entry was written: a hybrid logical clock whose text sorts as its time does.

use std::cmp::Ordering;
use std::fmt;
use std::sync::Arc;

use chrono::{DateTime, Datelike, NaiveDateTime, TimeDelta, Utc};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::strict::Name;

/// Where the journal reads the time.
#[derive(Clone)]
pub struct TimeSource(Arc<dyn Fn() -> DateTime<Utc> + Send + Sync>);

impl TimeSource {
    /// The system's clock.
    #[must_use]
    pub fn system() -> Self {
        Self(Arc::new(Utc::now))
    }

    /// A clock that stands still.
    #[must_use]
    pub fn fixed(at: DateTime<Utc>) -> Self {
        Self(Arc::new(move || at))
    }

    /// Any source of the time.
    #[must_use]
    pub fn from_fn(now: impl Fn() -> DateTime<Utc> + Send + Sync + 'static) -> Self {
        Self(Arc::new(now))
    }

    /// The time now.
    #[must_use]
    pub fn now(&self) -> DateTime<Utc> {
        (self.0)()
    }
}

impl fmt::Debug for TimeSource {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Clock")
    }
}

/// When an entry was written, `2026-05-31T18:04:05.123Z.0000`: UTC to the millisecond, then a counter of
/// four hex digits for what happens within one. Compared as text. It orders what is shown; it never decides
/// what survives, so a wrong clock loses nothing.
#[derive(Clone, PartialEq, Eq, Hash)]
pub struct At(Text);

/// There are many times, and nearly all have one form: they need no text of their own.
#[derive(Clone, PartialEq, Eq, Hash)]
enum Text {
    /// A text of the usual form: its decimal digits as one number, and its counter. Numbers are in the order of their texts.
    Usual { digits: u64, counter: u16 },
    /// Any other.
    Other(Box<str>),
}

/// The usual form: `0` stands for a decimal digit, `x` for a lower-case hex digit.
const USUAL: &[u8; 29] = b"0000-00-00T00:00:00.000Z.xxxx";

const STAMP: &str = "%Y-%m-%dT%H:%M:%S%.3fZ";
/// Bytes of the time without the counter.
const STAMP_BYTES: usize = 24;

impl At {
    /// Takes a text as it stands in an entry. Any text up to 64 bytes is kept, since a line is never lost
    /// for its time.
    pub(crate) fn carried(text: &str) -> Option<Self> {
        (text.len() <= 64).then(|| Self(usual(text.as_bytes()).unwrap_or_else(|| Text::Other(text.into()))))
    }

    /// The text of a time in four-digit years and a counter.
    fn of(time: DateTime<Utc>, counter: u16) -> Self {
        let text = format!("{}.{counter:04x}", time.format(STAMP));
        Self(usual(text.as_bytes()).unwrap_or_else(|| Text::Other(text.into())))
    }

    /// The time, if the text is one.
    #[must_use]
    pub fn time(&self) -> Option<DateTime<Utc>> {
        let text = self.to_string();
        let stamp = text.get(..STAMP_BYTES)?;
        NaiveDateTime::parse_from_str(stamp, STAMP).ok().map(|naive| naive.and_utc())
    }

    fn parts(&self) -> Option<(DateTime<Utc>, u16)> {
        let counter = match &self.0 {
            Text::Usual { counter, .. } => *counter,
            Text::Other(text) => u16::from_str_radix(text.get(STAMP_BYTES..)?.strip_prefix('.')?, 16).ok()?,
        };
        Some((self.time()?, counter))
    }
}

/// The number and the counter of a text of the usual form.
fn usual(text: &[u8]) -> Option<Text> {
    let text: &[u8; USUAL.len()] = text.try_into().ok()?;
    let (mut digits, mut counter) = (0, 0);
    for (byte, form) in text.iter().zip(USUAL) {
        match (form, byte) {
            (b'0', b'0'..=b'9') => digits = digits * 10 + u64::from(byte - b'0'),
            (b'x', b'0'..=b'9') => counter = counter << 4 | u16::from(byte - b'0'),
            (b'x', b'a'..=b'f') => counter = counter << 4 | u16::from(byte - b'a' + 10),
            (b'0' | b'x', _) => return None,
            _ if byte == form => {}
            _ => return None,
        }
    }
    Some(Text::Usual { digits, counter })
}

impl Ord for At {
    fn cmp(&self, other: &Self) -> Ordering {
        match (&self.0, &other.0) {
            (Text::Usual { digits, counter }, Text::Usual { digits: of_other, counter: counter_of_other }) => {
                (digits, counter).cmp(&(of_other, counter_of_other))
            }
            _ => self.to_string().cmp(&other.to_string()),
        }
    }
}

impl PartialOrd for At {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Serialize for At {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        s.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for At {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        let Name(text) = Name::deserialize(d)?;
        Self::carried(&text).ok_or_else(|| serde::de::Error::custom("longer than 64 bytes"))
    }
}

impl fmt::Debug for At {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "At({self})")
    }
}

impl fmt::Display for At {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (mut digits, mut counter) = match &self.0 {
            Text::Usual { digits, counter } => (*digits, *counter),
            Text::Other(text) => return f.write_str(text),
        };
        let mut text = *USUAL;
        for byte in text.iter_mut().rev() {
            match byte {
                b'0' => {
                    *byte += (digits % 10) as u8;
                    digits /= 10;
                }
                b'x' => {
                    *byte = b"0123456789abcdef"[usize::from(counter & 15)];
                    counter >>= 4;
                }
                _ => {}
            }
        }
        f.write_str(std::str::from_utf8(&text).map_err(|_| fmt::Error)?)
    }
}

/// The clock's state: the latest time written or seen.
#[derive(Debug, Clone, Default)]
pub(crate) struct Hlc {
    last: Option<(DateTime<Utc>, u16)>,
    /// The latest text seen: what is not later need not be read as a time.
    latest: Option<At>,
}

impl Hlc {
    /// Takes note of an entry seen. A time more than 24 hours ahead of `now` counts as 24 hours ahead, so
    /// that one wrong clock does not drag all others along. The clock is read only where that matters.
    pub(crate) fn seen(&mut self, at: &At, now: impl FnOnce() -> DateTime<Utc>) {
        if self.latest.as_ref().is_some_and(|latest| at <= latest) {
            return;
        }
        let Some((time, count)) = at.parts() else { return };
        self.latest = Some(at.clone());
        let most = within_years(now() + TimeDelta::hours(24));
        let seen = if time > most { (most, 0) } else { (time, count) };
        if self.last.is_none_or(|last| seen > last) {
            self.last = Some(seen);
        }
    }

    /// The time for a new entry: later than all that was written or seen, within 24 hours of `now`.
    pub(crate) fn next(&mut self, now: DateTime<Utc>) -> At {
        let now = to_millis(within_years(now));
        let most = now + TimeDelta::hours(24);
        let next = match self.last {
            Some((last, _)) if last > most => (now, 0),
            Some((last, count)) if last >= now => match count.checked_add(1) {
                Some(count) => (last, count),
                None => (last + TimeDelta::milliseconds(1), 0),
            },
            _ => (now, 0),
        };
        self.last = Some(next);
        At::of(next.0, next.1)
    }
}

/// Keeps the year at four digits, so that text sorts as time.
fn within_years(time: DateTime<Utc>) -> DateTime<Utc> {
    if time.year() < 1 {
        DateTime::UNIX_EPOCH
    } else if time.year() > 9990 {
        DateTime::from_timestamp(253_000_000_000, 0).unwrap_or(DateTime::UNIX_EPOCH)
    } else {
        time
    }
}

fn to_millis(time: DateTime<Utc>) -> DateTime<Utc> {
    DateTime::from_timestamp_millis(time.timestamp_millis()).unwrap_or(time)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(year: i32) -> DateTime<Utc> {
        chrono::NaiveDate::from_ymd_opt(year, 3, 4).and_then(|d| d.and_hms_opt(5, 6, 7)).unwrap_or_default().and_utc()
    }

    #[test]
    fn text_sorts_as_time() {
        let mut clock = Hlc::default();
        let first = clock.next(day(2026));
        let again = clock.next(day(2026));
        let back = clock.next(day(1970));
        assert_eq!(first.to_string(), "2026-03-04T05:06:07.000Z.0000");
        assert_eq!(again.to_string(), "2026-03-04T05:06:07.000Z.0001");
        assert!(first < again, "{first} {again}");
        // More than a day back: the clock was set right again, and the new time is believed.
        assert_eq!(back.time(), Some(day(1970)));
        assert!(clock.next(day(2027)) > again);
    }

    #[test]
    fn texts_of_any_form_come_back_and_are_in_the_order_of_their_texts() {
        let texts = [
            "",
            "2026",
            "2026-03-04T05:06:07.000Z.0000",
            "2026-03-04T05:06:07.000Z.000A",
            "2026-03-04T05:06:07.000Z.000a",
            "2026-03-04T05:06:07.000Z.00000",
            "2026-03-04T05:06:07.000Z.ffff",
            "2026-03-04T05:06:07.000Z.fffg",
            "2026-03-04T05:06:07.001Z.0000",
            "2026-03-04 05:06:07.001Z.0000",
            "2026-99-99T99:99:99.999Z.ffff",
            "9999-12-31T23:59:59.999Z.ffff",
            "10000-03-04T05:06:07.000Z.0000",
            "gestern",
        ];
        for one in texts {
            let at = At::carried(one).unwrap_or_else(|| At::of(day(1970), 0));
            assert_eq!(at.to_string(), one);
            for other in texts {
                assert_eq!(At::carried(other).map(|other| at.cmp(&other)), Some(one.cmp(other)), "{one} {other}");
            }
        }
    }

    #[test]
    fn a_clock_far_ahead_is_followed_for_a_day_only() {
        let mut ahead = Hlc::default();
        let far = ahead.next(day(2099));
        let mut here = Hlc::default();
        here.seen(&far, || day(2026));
        let next = here.next(day(2026));
        assert_eq!(next.time(), Some(day(2026) + TimeDelta::hours(24)));
        assert!(next < far);
    }

    fn hours(count: i64) -> TimeDelta {
        TimeDelta::hours(count)
    }

    #[test]
    fn a_clock_set_back_by_less_than_a_day_is_waited_for_and_by_more_believed() {
        let begun = day(2026);
        for (back, believed) in [(23, false), (24, false), (25, true)] {
            let mut clock = Hlc::default();
            clock.next(begun);
            let next = clock.next(begun - hours(back));
            let expected = if believed { (begun - hours(back), 0) } else { (begun, 1) };
            assert_eq!(next.parts(), Some(expected), "set back by {back} hours");
        }
    }

    #[test]
    fn an_entry_from_ahead_is_followed_for_a_day_only() {
        let now = day(2026);
        let seen_from = |time: DateTime<Utc>, counter: u16| {
            let mut clock = Hlc::default();
            clock.seen(&At::of(time, counter), || now);
            clock.next(now).parts()
        };
        assert_eq!(seen_from(now + hours(23), 7), Some((now + hours(23), 8)));
        assert_eq!(seen_from(now + hours(24), 7), Some((now + hours(24), 8)));
        assert_eq!(seen_from(now + hours(25), 7), Some((now + hours(24), 1)));
        assert_eq!(seen_from(now + hours(24 * 365), 7), Some((now + hours(24), 1)));
        // A counter that is full moves the time on by the least step.
        assert_eq!(seen_from(now + hours(1), 0xffff), Some((now + hours(1) + TimeDelta::milliseconds(1), 0)));
        // What is earlier than what was seen changes nothing.
        assert_eq!(seen_from(now - hours(1), 7), Some((now, 0)));
    }
}
