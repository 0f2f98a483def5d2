//! When an entry was written: a hybrid logical clock whose text sorts as its time does.

use std::fmt;
use std::sync::Arc;

use chrono::{DateTime, Datelike, NaiveDateTime, TimeDelta, Utc};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use smol_str::SmolStr;

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
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct At(SmolStr);

const STAMP: &str = "%Y-%m-%dT%H:%M:%S%.3fZ";
/// Bytes of the time without the counter.
const STAMP_BYTES: usize = 24;

impl At {
    /// Takes a text as it stands in an entry. Any text up to 64 bytes is kept, since a line is never lost
    /// for its time.
    pub(crate) fn carried(text: &str) -> Option<Self> {
        (text.len() <= 64).then(|| Self(text.into()))
    }

    /// The text.
    #[must_use]
    pub fn as_str(&self) -> &str {
        self.0.as_str()
    }

    /// The time, if the text is one.
    #[must_use]
    pub fn time(&self) -> Option<DateTime<Utc>> {
        let stamp = self.as_str().get(..STAMP_BYTES)?;
        NaiveDateTime::parse_from_str(stamp, STAMP).ok().map(|naive| naive.and_utc())
    }

    fn parts(&self) -> Option<(DateTime<Utc>, u16)> {
        let counter = self.as_str().get(STAMP_BYTES..)?.strip_prefix('.')?;
        Some((self.time()?, u16::from_str_radix(counter, 16).ok()?))
    }
}

impl Serialize for At {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        s.serialize_str(self.as_str())
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
        write!(f, "At({})", self.as_str())
    }
}

impl fmt::Display for At {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.as_str())
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
    /// that one wrong clock does not drag all others along.
    pub(crate) fn seen(&mut self, at: &At, now: DateTime<Utc>) {
        if self.latest.as_ref().is_some_and(|latest| at <= latest) {
            return;
        }
        let Some((time, count)) = at.parts() else { return };
        self.latest = Some(at.clone());
        let most = within_years(now + TimeDelta::hours(24));
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
        At(format!("{}.{:04x}", next.0.format(STAMP), next.1).into())
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
        assert_eq!(first.as_str(), "2026-03-04T05:06:07.000Z.0000");
        assert_eq!(again.as_str(), "2026-03-04T05:06:07.000Z.0001");
        assert!(first < again, "{first} {again}");
        // More than a day back: the clock was set right again, and the new time is believed.
        assert_eq!(back.time(), Some(day(1970)));
        assert!(clock.next(day(2027)) > again);
    }

    #[test]
    fn a_clock_far_ahead_is_followed_for_a_day_only() {
        let mut ahead = Hlc::default();
        let far = ahead.next(day(2099));
        let mut here = Hlc::default();
        here.seen(&far, day(2026));
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
            clock.seen(&At(format!("{}.{counter:04x}", time.format(STAMP)).into()), now);
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
