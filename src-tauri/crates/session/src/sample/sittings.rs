//! Sittings as a weaver might have them: evenings and weekends, now and then a long pause, a tape laid on every few times.

use fellmark_present::view::SittingForm;

use super::seed::Seed;
use super::warps::{Rhythm, SampleWarp};

/// From one mark to the next, millimetres: what lies between front beam and fell on a small rigid-heddle loom can be measured, and
/// is less than 25 cm (common practice, no source). She sets the pin when so much is woven, and winds on.
pub const MARK_EVERY_MM: f64 = 200.0;

/// One invented sitting.
pub struct Made {
    /// Days before today.
    pub days_ago: u64,
    /// Its form, without day and note.
    pub form: SittingForm,
    /// Its picks when the mark was moved, each time [`MARK_EVERY_MM`] on.
    pub marks_at_picks: Vec<i64>,
}

/// The sittings of a warp, the last of them `last` days ago.
pub fn of(warp: &SampleWarp, seed: &mut Seed) -> Vec<Made> {
    let target = warp.woven_mm * warp.picks_per_mm;
    let mut woven = 0.0;
    let mut reported = Vec::new();
    while woven + 4.0 < target {
        let share = woven / target;
        let minutes = (warp.minutes * (1.0 + 0.35 * seed.even())).clamp(12.0, 150.0).round();
        let pace = warp.picks_per_hour * (1.0 + warp.drift * (share - 0.5)) * (1.0 + 0.09 * seed.even());
        let picks = (pace * minutes / 60.0).round().clamp(4.0, target - woven).round();
        // The last few picks belong to the last sitting.
        let picks = if target - woven - picks < 12.0 { target - woven } else { picks };
        woven += picks;
        reported.push((minutes, picks.round(), woven));
    }
    let count = reported.len();
    let mut days = vec![warp.last];
    for _ in 1..count {
        let latest = days.last().copied().unwrap_or(warp.last);
        days.push(latest + gap(warp.rhythm, seed));
    }
    days.reverse();
    let mut made = Vec::with_capacity(count);
    let mut marks = 0.0;
    for (index, ((minutes, picks, woven), days_ago)) in reported.into_iter().zip(days).enumerate() {
        let last = index + 1 == count;
        let measured = last || (index + 1).is_multiple_of(warp.measured_each);
        // The beat is not the same all along, and a tape is read to half a centimetre.
        let length = woven / warp.picks_per_mm * (1.0 + 0.012 * seed.even());
        let exact = if last { warp.woven_mm } else { length };
        let mut marks_at_picks = Vec::new();
        while (marks + 1.0) * MARK_EVERY_MM < exact {
            marks += 1.0;
            let at = picks - (woven - marks * MARK_EVERY_MM / exact * woven);
            marks_at_picks.push(at.round().clamp(1.0, picks) as i64);
        }
        let since_mark = exact - marks * MARK_EVERY_MM;
        let evening = format!("{}:{:02}", 19 + seed.below(2), [5, 10, 20, 40, 50][seed.below(5)]);
        made.push(Made {
            days_ago,
            form: SittingForm {
                started: if seed.share() < 0.7 { evening } else { String::new() },
                minutes: if seed.share() < 0.96 || last { minutes.to_string() } else { String::new() },
                picks: picks.to_string(),
                measured: if measured {
                    format!("{} mm", (since_mark / 5.0).round().max(1.0) * 5.0)
                } else {
                    String::new()
                },
                measured_from: if marks > 0.0 { "mark" } else { "start" }.into(),
                weft_left: weighed(warp, index, count, woven / target),
                ..SittingForm::default()
            },
            marks_at_picks,
        });
    }
    made
}

/// Weft is weighed about three times on its way down.
fn weighed(warp: &SampleWarp, index: usize, count: usize, share: f64) -> String {
    let Some((start, over)) = warp.weft_g else { return String::new() };
    let when = index + 1 == count || (index + 1).is_multiple_of((count / 3).max(1));
    if when { format!("{:.0} g", start - (start - over) * share) } else { String::new() }
}

fn gap(rhythm: Rhythm, seed: &mut Seed) -> u64 {
    let gaps: &[u64] = match rhythm {
        Rhythm::Evenings => &[1, 1, 1, 2, 2, 3, 4],
        Rhythm::NowAndThen => &[1, 2, 2, 3, 4, 5, 7],
        Rhythm::Bursts => &[1, 1, 1, 1, 2, 1, 11],
    };
    gaps[seed.below(gaps.len())]
}
