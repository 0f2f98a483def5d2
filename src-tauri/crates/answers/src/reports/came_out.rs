//! What was planned beside what came out, for a warp that is off the loom.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use crate::model::display_format::{DisplayFormat, Units};
use crate::model::finishing;
use crate::model::forms::{picks_in_units, show_density};
use crate::model::measures::{show_length, show_mass, show_minutes};
use crate::model::{ClothState, WarpLog};
use crate::present::view::{CameOut, OffView, StepView, WarpState};
use crate::present::words::listed;
use crate::reports::learnt::{self, Similarity, WarpSample};
use crate::reports::progress::Progress;

/// Differences smaller than this share are none: a tape is read to half a centimetre in a metre.
const TOLD_APART: f64 = 0.005;

/// Everything that is shown of a warp off the loom; `taught` is what lessons are learnt from, this warp's own included.
#[must_use]
pub fn view<'a>(
    log: &WarpLog,
    progress: &Progress,
    taught: impl IntoIterator<Item = &'a WarpSample>,
    format: &DisplayFormat,
    today: NaiveDate,
) -> OffView {
    let form = crate::present::fill_forms::show_off_form(&log.warp, format);
    if log.warp.state != WarpState::OffTheLoom {
        return OffView { form, ..OffView::default() };
    }
    let step = |step: finishing::Step| StepView {
        id: step.id.to_string(),
        name: step.name,
        done_on: step.done_on.map(|day| day.to_string()),
        done: step.done_on.map(|day| format.weekday_date(day, today)).unwrap_or_default(),
    };
    OffView {
        line: Stands::of(log).line(format, today),
        steps: finishing::steps(log).into_iter().map(step).collect(),
        came_out: came_out(log, progress, format, today),
        missing: missing(log, progress),
        lessons: learnt::lines(&learnt::from_taught(taught, &Similarity::of(log)), format),
        form,
    }
}

/// Where finishing stands.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Stands {
    /// When the last step was done, if all are.
    pub finished_on: Option<NaiveDate>,
    /// When it was cut off.
    pub cut_on: Option<NaiveDate>,
    /// Names of the steps still to do, in small letters.
    pub to_do: Vec<String>,
}

impl Stands {
    /// Where it stands on a warp that is off the loom.
    #[must_use]
    pub fn of(log: &WarpLog) -> Self {
        let to_do = finishing::steps(log).into_iter().filter(|step| step.done_on.is_none());
        Self {
            finished_on: finishing::finished_on(log),
            cut_on: log.warp.state_on,
            to_do: to_do.map(|step| step.name.to_lowercase()).collect(),
        }
    }

    /// As a sentence.
    #[must_use]
    pub fn line(&self, format: &DisplayFormat, today: NaiveDate) -> String {
        if let Some(day) = self.finished_on {
            return format!("Finished {}.", on(day, format, today));
        }
        let cut = self.cut_on.map(|day| format!("Cut off {}", on(day, format, today)));
        let cut = cut.unwrap_or_else(|| "Cut off".into());
        if self.to_do.is_empty() { format!("{cut}.") } else { format!("{cut}; still to do: {}.", listed(&self.to_do)) }
    }
}

fn on(day: NaiveDate, format: &DisplayFormat, today: NaiveDate) -> String {
    match (today - day).num_days() {
        0 | 1 => format.spoken_day(day, today),
        _ => format!("on {}", format.weekday_date(day, today)),
    }
}

/// What is not measured and would teach something.
fn missing(log: &WarpLog, progress: &Progress) -> Vec<String> {
    let off = &log.warp.off;
    let mut missing = Vec::new();
    let mut say = |unknown: bool, sentence: &str| {
        if unknown {
            missing.push(sentence.to_owned());
        }
    };
    say(off.off_loom_mm.is_none(), "Length off the loom: it tells how much the cloth gave when the tension went.");
    say(
        off.front_mm.is_none() || off.thrums_mm.is_none(),
        "What was cut off in front, and the thrums: they tell the loom waste and, with the warp wound, the real take-up.",
    );
    say(
        off.finished_mm.is_none() || off.finished_width_mm.is_none(),
        "Length and width after the wash: they tell what the next one must be woven longer and wider.",
    );
    say(
        !progress.rate_measured,
        "The length on the loom was never measured by a tape, so take-up and shrinkage cannot be told.",
    );
    missing
}

struct Rows<'a> {
    format: &'a DisplayFormat,
    rows: Vec<CameOut>,
}

impl Rows<'_> {
    /// A row of two figures; left out when neither is known.
    fn add(
        &mut self,
        what: &str,
        planned: Option<f64>,
        came_out: Option<f64>,
        show: impl Fn(f64, &DisplayFormat) -> String,
        difference: impl Fn(f64, &DisplayFormat) -> String,
    ) {
        if planned.is_none() && came_out.is_none() {
            return;
        }
        let text = |figure: Option<f64>| figure.map(|figure| show(figure, self.format)).unwrap_or_default();
        let told = planned.zip(came_out).map(|(planned, came_out)| {
            let off = came_out - planned;
            if off.abs() <= TOLD_APART * planned.abs() { "as planned".into() } else { difference(off, self.format) }
        });
        self.rows.push(CameOut {
            what: what.into(),
            planned: text(planned),
            came_out: text(came_out),
            difference: told.unwrap_or_default(),
        });
    }

    fn length(&mut self, what: &str, planned: Option<f64>, came_out: Option<f64>) {
        self.add(what, planned, came_out, show_length, |mm, format| {
            format!("{} {}", show_length(mm.abs(), format), if mm > 0.0 { "more" } else { "less" })
        });
    }

    fn percent(&mut self, what: &str, planned: Option<f64>, came_out: Option<f64>) {
        let show = |percent: f64, format: &DisplayFormat| format!("{}\u{a0}%", format.number(percent, 1));
        self.add(what, planned, came_out, show, |points, format| {
            format!("{} points {}", format.number(points.abs(), 1), if points > 0.0 { "more" } else { "less" })
        });
    }
}

/// The rows of the table.
#[must_use]
pub fn came_out(log: &WarpLog, progress: &Progress, format: &DisplayFormat, today: NaiveDate) -> Vec<CameOut> {
    let (warp, off) = (&log.warp, &log.warp.off);
    let measured = learnt::measured(log, progress);
    let of_all = if warp.pieces > 1 { format!(", {} pieces together", warp.pieces) } else { String::new() };
    let mut rows = Rows { format, rows: Vec::new() };
    let woven = progress.woven.map(|_| progress.woven_mm());
    rows.length(&format!("Woven on the loom{of_all}"), progress.wanted_mm, woven);
    let wanted_as = |state: ClothState| {
        let each = warp.wanted_of_each_mm();
        (warp.wanted_state == state && !each.is_empty()).then(|| each.iter().sum())
    };
    rows.length(&format!("Length off the loom{of_all}"), wanted_as(ClothState::OffLoom), off.off_loom_mm);
    let finished = wanted_as(ClothState::Finished).or_else(|| {
        // A length wanted as woven is finished after its loss, where one was reckoned with.
        warp.shrinkage_percent.and(progress.wanted_mm).map(|mm| mm * warp.finished_ratio())
    });
    rows.length(&format!("Length after the wash{of_all}"), finished, off.finished_mm);
    rows.percent(
        "Length lost from loom to finished",
        warp.shrinkage_percent,
        measured.woven.zip(measured.finished).map(|(woven, finished)| (1.0 - finished.mm() / woven.mm()) * 100.0),
    );
    rows.percent(
        "Take-up, of the cloth",
        warp.warp_per_100.map(|per_100| per_100 - 100.0),
        measured.weaving().ok().flatten().map(|weaving| weaving.crimp().percent()),
    );
    rows.length("Loom waste", warp.waste_mm, measured.waste().map(|waste| waste.mm()));
    rows.length("Width after the wash", None, off.finished_width_mm);
    let narrower = warp.reed_width_mm.zip(off.finished_width_mm).map(|(reed, width)| (1.0 - width / reed) * 100.0);
    rows.percent("Width lost from reed to finished", None, narrower);
    rows.add(
        "Picks on the loom",
        warp.picks_per_10cm,
        progress.picks_per_mm.filter(|_| progress.rate_measured).map(|per_mm| per_mm * 100.0),
        show_density,
        |more, format| {
            let typed = picks_in_units(more.abs(), format.units);
            format!("{} {}", format.number(typed, 1), if more > 0.0 { "more" } else { "fewer" })
        },
    );
    let picks = u32::try_from(progress.picks).ok().map(f64::from).filter(|picks| *picks > 0.0);
    let picks_finished = picks.zip(off.finished_mm).map(|(picks, mm)| picks / mm * 100.0);
    rows.add("Picks in the finished cloth", None, picks_finished, show_density, |_, _| String::new());
    let start = log.wefts.first().and_then(|weft| weft.start_mass_g);
    rows.add("Weft used", start, learnt::weft_used_g(log), show_mass, |grams, format| {
        format!("{} left over", show_mass(grams.abs(), format))
    });
    rows.add("Weight", None, off.finished_mass_g, show_mass, |_, _| String::new());
    let area = off.finished_mm.zip(off.finished_width_mm).map(|(length, width)| length * width / 1.0e6);
    let heavy = off.finished_mass_g.zip(area).filter(|(_, area)| *area > 0.0).map(|(grams, area)| grams / area);
    let per_area = |g_per_m2: f64, format: &DisplayFormat| match format.units {
        Units::Metric => format!("{}\u{a0}g to the square metre", format.number(g_per_m2, 0)),
        // One ounce is 28.349 523 125 g and a yard 0.9144 m, exactly.
        Units::Imperial => {
            format!("{}\u{a0}oz to the square yard", format.number(g_per_m2 * 0.9144 * 0.9144 / 28.349_523_125, 1))
        }
    };
    rows.add("Weight of the cloth", None, heavy, per_area, |_, _| String::new());
    let minutes = Some(progress.minutes).filter(|minutes| *minutes > 0.0);
    rows.add("Time at the loom", None, minutes, |minutes, _| show_minutes(minutes), |_, _| String::new());
    if let Some(day) = finishing::finished_on(log) {
        let gift = warp.gift_on;
        rows.rows.push(CameOut {
            what: "Finished".into(),
            planned: gift.map(|day| format.date(day, today)).unwrap_or_default(),
            came_out: format.date(day, today),
            difference: gift.map(|gift| days_apart((day - gift).num_days())).unwrap_or_default(),
        });
    }
    rows.rows
}

fn days_apart(late: i64) -> String {
    let days = if late.abs() == 1 { "1 day".to_owned() } else { format!("{} days", late.abs()) };
    match late {
        0 => "on the day".into(),
        late if late > 0 => format!("{days} late"),
        _ => format!("{days} early"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::off_loom::OffMeasures;
    use crate::model::tests::{log, sitting};

    fn finished() -> WarpLog {
        let mut log = log();
        log.warp.state = WarpState::OffTheLoom;
        log.warp.state_on = "2026-11-10".parse().ok();
        log.warp.shrinkage_percent = Some(8.0);
        log.sittings = vec![sitting(2, Some(720), Some(1800.0))];
        log.warp.off = OffMeasures {
            front_mm: Some(180.0),
            thrums_mm: Some(300.0),
            finished_mm: Some(1620.0),
            finished_width_mm: Some(180.0),
            finished_mass_g: Some(60.0),
            ..OffMeasures::default()
        };
        log
    }

    fn row(rows: &[CameOut], what: &str) -> [String; 3] {
        let row = rows.iter().find(|row| row.what == what).unwrap_or_else(|| panic!("{what} in {rows:?}")).clone();
        [row.planned, row.came_out, row.difference]
    }

    #[test]
    fn planned_stands_beside_what_came_out() {
        let log = finished();
        let today = "2026-11-25".parse().unwrap();
        let rows = came_out(&log, &Progress::of(&log, 0), &DisplayFormat::default(), today);
        assert_eq!(row(&rows, "Woven on the loom"), ["180\u{a0}cm", "180\u{a0}cm", "as planned"]);
        assert_eq!(row(&rows, "Length lost from loom to finished"), ["8\u{a0}%", "10\u{a0}%", "2 points more"]);
        // 2500 - 480 of warp in 1800 of cloth.
        assert_eq!(row(&rows, "Take-up, of the cloth"), ["10\u{a0}%", "12.2\u{a0}%", "2.2 points more"]);
        assert_eq!(row(&rows, "Loom waste"), ["45\u{a0}cm", "48\u{a0}cm", "3\u{a0}cm more"]);
        // The width in the reed is no plan of the width after the wash: what was lost is told, 200 to 180.
        assert_eq!(row(&rows, "Width after the wash"), ["", "18\u{a0}cm", ""]);
        assert_eq!(row(&rows, "Width lost from reed to finished"), ["", "10\u{a0}%", ""]);
        // 60 g on 1.62 m x 0.18 m.
        assert_eq!(row(&rows, "Weight of the cloth"), ["", "206\u{a0}g to the square metre", ""]);
        assert!(!rows.iter().any(|row| row.what == "Length off the loom"), "neither planned nor measured");
        let missing = missing(&log, &Progress::of(&log, 0));
        assert!(missing.len() == 1 && missing[0].starts_with("Length off the loom"), "{missing:?}");
    }

    #[test]
    fn the_line_names_what_is_still_to_do() {
        let log = finished();
        let today = "2026-11-25".parse().unwrap();
        let said = Stands::of(&log).line(&DisplayFormat::default(), today);
        assert_eq!(said, "Cut off on Tuesday 10 November; still to do: hem, wash, dry and press.");
        assert_eq!(days_apart(-2), "2 days early");
    }
}
