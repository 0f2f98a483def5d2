//! An invented example to play with: a weaver who does not exist, with a dozen warps over two years. Seeded: the same for the
//! same day, but for the ids of its records.

mod picture;
mod seed;
mod sittings;
mod warps;

use chrono::{Days, NaiveDate};
use fellmark_journal::{EntryDraft, Journal, Kind, Place, RecordId};
use serde_json::{Value, json};

use fellmark_model::UserError;
use fellmark_model::cloth_edge::ClothEdge;
use fellmark_model::commands::Commands;
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::fields::{self, kind};
use fellmark_model::finishing;
use fellmark_model::forms::{self, FieldMap};

use fellmark_present::view::{OffForm, SittingForm};

use self::seed::Seed;
use self::sittings::{MARK_EVERY_MM, Made};
use self::warps::{SampleState, SampleWarp, sample_warps};

/// Photos of sittings: the sitting, and the number of the picture.
type Pictured = Vec<(RecordId, RecordId, u32)>;

/// Fills an empty journal with the invented example, as if today were `today`.
///
/// # Errors
/// It could not be written.
pub fn fill(journal: &mut Journal, today: NaiveDate) -> Result<(), UserError> {
    Commands { journal, format: DisplayFormat::default(), today }.mark_as_example()?;
    let mut drafts = Vec::new();
    let mut pictured = Pictured::new();
    for (number, warp) in sample_warps().iter().enumerate() {
        drafts.extend(entries(warp, number as u64, today, &mut pictured)?);
    }
    write(journal, drafts)?;
    let mut notes = Vec::new();
    for (warp, sitting, number) in pictured {
        let hash = journal.photo_add(&warp, &picture::of_cloth(number)?)?.hash;
        let mut set = FieldMap::new();
        set.insert(fields::photo::SITTING.into(), json!(sitting));
        set.insert(fields::photo::HASH.into(), json!(hash));
        notes.push(EntryDraft::new(Place::warp(&warp), RecordId::new(), Kind::PHOTO, set));
    }
    write(journal, notes)
}

/// One write, so that the example is there in one step.
fn write(journal: &mut Journal, mut drafts: Vec<EntryDraft>) -> Result<(), UserError> {
    let act = RecordId::new();
    for draft in &mut drafts {
        draft.set.insert(fields::ACT.into(), json!(act.short()));
    }
    journal.write(drafts)?;
    Ok(())
}

/// Everything of one warp.
fn entries(
    warp: &SampleWarp,
    number: u64,
    today: NaiveDate,
    pictured: &mut Pictured,
) -> Result<Vec<EntryDraft>, UserError> {
    let format = DisplayFormat::default();
    let mut seed = Seed::new(number);
    let before = |days: u64| today.checked_sub_days(Days::new(days)).unwrap_or(today);
    let sittings = sittings::of(warp, &mut seed);
    let begun = before(sittings.first().map_or(warp.last, |first| first.days_ago) + 1);
    let mut form = warp.form.clone();
    form.begun_on = begun.to_string();
    if let Some(days) = warp.gift_in {
        let gift = today.checked_add_signed(chrono::TimeDelta::days(days)).unwrap_or(today);
        form.gift_on = gift.to_string();
    }
    let read = forms::read_warp_form(&form, &format, begun)?;
    let id = RecordId::new();
    let place = Place::warp(&id);
    let mut set = forms::filled(&read.warp);
    let cut_off = before(warp.last);
    let (state, since) = match warp.state {
        SampleState::OnTheLoom => ("on_the_loom", begun),
        SampleState::Resting(days_ago) => ("resting", before(days_ago)),
        SampleState::Off(_) => ("off_the_loom", cut_off),
    };
    set.insert(fields::warp::STATE.into(), json!(state));
    set.insert(fields::warp::STATE_ON.into(), json!(since));
    if let SampleState::Off(measures) = &warp.state {
        set.extend(measured(measures, &form, begun)?);
    }
    let mut drafts = vec![EntryDraft::new(place.clone(), id.clone(), Kind::WARP, set)];
    let weft = forms::filled(&read.weft);
    if !weft.is_empty() {
        drafts.push(EntryDraft::new(place.clone(), RecordId::new(), Kind::fixed(kind::WEFT), weft));
    }
    let mut marked = false;
    for (index, made) in sittings.iter().enumerate() {
        let note = warp.notes.iter().find(|(at, _)| *at == index).map_or("", |(_, note)| note);
        let form = SittingForm { on: before(made.days_ago).to_string(), note: note.into(), ..made.form.clone() };
        let set = forms::filled(&forms::read_sitting_form(&form, &format, today)?);
        let sitting = RecordId::new();
        if warp.pictured.contains(&index) {
            pictured.push((id.clone(), sitting.clone(), (number * 5) as u32 + index as u32));
        }
        drafts.push(EntryDraft::new(place.clone(), sitting.clone(), Kind::SITTING, set));
        drafts.extend(marks(made, &place, &sitting, before(made.days_ago), &mut marked));
    }
    if matches!(warp.state, SampleState::Off(_)) {
        drafts.extend(steps(warp, &id, cut_off, today, &mut seed));
    }
    Ok(drafts)
}

/// The marks moved in a sitting, each at the tape's full reading from the one before; `marked` is whether there was one before.
fn marks(made: &Made, place: &Place, sitting: &RecordId, on: NaiveDate, marked: &mut bool) -> Vec<EntryDraft> {
    let readings = made.marks_at_picks.iter().map(|picks| {
        let mut set = FieldMap::new();
        set.insert(fields::moment::ON.into(), json!(on));
        set.insert(fields::moment::SITTING.into(), json!(sitting));
        set.insert(fields::moment::PICKS_INTO.into(), json!(picks));
        set.insert(fields::sitting::MEASURED_MM.into(), json!(MARK_EVERY_MM));
        set.insert(fields::sitting::MEASURED_FROM.into(), json!(if *marked { "mark" } else { "start" }));
        set.insert(fields::sitting::MEASURED_TENSION.into(), json!("tight"));
        set.insert(fields::sitting::MARK_SET.into(), json!(true));
        *marked = true;
        EntryDraft::new(place.clone(), RecordId::new(), Kind::fixed(kind::READING), set)
    });
    readings.collect()
}

/// What was measured of a warp that is off the loom.
fn measured(form: &OffForm, warp: &fellmark_present::view::WarpForm, begun: NaiveDate) -> Result<FieldMap, UserError> {
    let format = DisplayFormat::default();
    let wound = forms::read_warp_form(warp, &format, begun)?.warp.get(fields::warp::WOUND_MM).and_then(Value::as_f64);
    Ok(forms::filled(&forms::read_off_form(form, wound, &format, begun)?))
}

/// Its finishing steps, done one after the other unless the last of them are still to do.
fn steps(warp: &SampleWarp, id: &RecordId, cut_off: NaiveDate, today: NaiveDate, seed: &mut Seed) -> Vec<EntryDraft> {
    let mut day = cut_off;
    let all = {
        let edge = if warp.form.fringe.is_empty() { ClothEdge::Hem } else { ClothEdge::Fringe };
        finishing::usual_steps(id, edge, warp.form.pieces.parse().unwrap_or(1))
    };
    let done = all.len() - warp.steps_to_do.min(all.len());
    let drafts = all.into_iter().enumerate().map(|(index, step)| {
        day = day.checked_add_days(Days::new([0, 1, 1, 2, 0][seed.below(5)])).unwrap_or(day).min(today);
        let mut set = FieldMap::new();
        set.insert(fields::finishing::NAME.into(), json!(step.name));
        set.insert(fields::finishing::POSITION.into(), json!(step.position));
        if index < done {
            set.insert(fields::finishing::DONE_ON.into(), json!(day));
        }
        EntryDraft::new(Place::warp(id), step.id, Kind::fixed(kind::FINISHING), set)
    });
    drafts.collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use fellmark_journal::Options;
    use fellmark_model as model;

    fn filled(today: &str) -> (tempfile::TempDir, Journal) {
        let place = tempfile::tempdir().unwrap();
        std::fs::create_dir(place.path().join("folder")).unwrap();
        let options = Options::new(place.path().join("folder"), place.path().join("local"), "example").create();
        let mut journal = Journal::open(options).unwrap();
        fill(&mut journal, today.parse().unwrap()).unwrap();
        (place, journal)
    }

    #[test]
    fn a_dozen_warps_over_two_years_marked_as_invented() {
        let (_place, journal) = filled("2026-11-25");
        assert!(fellmark_model::commands::is_example(journal.state()));
        let logs = model::warp_logs(journal.state());
        assert_eq!(logs.len(), 12);
        assert!(logs.values().all(|log| log.warp.name.ends_with("(invented)")));
        let today: NaiveDate = "2026-11-25".parse().unwrap();
        let days = logs.values().flat_map(|log| log.sittings.iter().map(|sitting| (today - sitting.on).num_days()));
        let (newest, oldest) = days.fold((i64::MAX, 0), |(low, high), days| (low.min(days), high.max(days)));
        assert!((0..=3).contains(&newest) && (640..=780).contains(&oldest), "{newest} {oldest}");
        let photos: usize = logs.values().map(|log| log.photos.len()).sum();
        assert!(photos >= 5, "{photos}");
    }

    #[test]
    fn the_same_day_gives_the_same_example() {
        let reported = |journal: &Journal| {
            let (format, today) = (DisplayFormat::default(), "2026-03-09".parse().unwrap());
            let lines = fellmark_present::overview::warp_lines(journal, &format, today);
            lines.into_iter().map(|line| (line.name, line.line)).collect::<Vec<_>>()
        };
        let ((_one, first), (_other, second)) = (filled("2026-03-09"), filled("2026-03-09"));
        assert_eq!(reported(&first), reported(&second));
    }

    /// What lies between front beam and fell can be measured; what is on the beam cannot.
    #[test]
    fn every_length_of_the_sample_was_within_reach_of_the_tape() {
        let (_place, journal) = filled("2026-11-25");
        for log in model::warp_logs(journal.state()).values() {
            let timeline = model::moments::Timeline::of(log, 0);
            let mut is_marked = false;
            let mut tapes = 0;
            for observed in timeline.steps.iter().map(|step| &step.observed) {
                if let Some(tape) = observed.tape {
                    tapes += 1;
                    assert!(tape.mm > 0.0 && tape.mm <= 250.0, "{}: {} mm", log.warp.name, tape.mm);
                    assert_eq!(tape.from_mark, is_marked, "{}: the first pick is on the beam", log.warp.name);
                }
                is_marked |= observed.mark_set;
            }
            assert!(tapes > 2, "{}", log.warp.name);
        }
    }

    #[test]
    fn every_screen_has_something_to_show() {
        let (_place, journal) = filled("2026-11-25");
        let (format, today) = (DisplayFormat::default(), "2026-11-25".parse().unwrap());
        let pace = fellmark_present::pace::view(
            journal.state(),
            &fellmark_present::pace::PaceQuery::default(),
            &format,
            today,
        );
        assert_eq!(pace.rows.len(), 12);
        assert!(pace.charts.iter().all(|chart| !chart.svg.is_empty() && !chart.rows.is_empty()), "{pace:?}");
        let logs = model::warp_logs(journal.state());
        let lessons =
            fellmark_reports::learned::from_warps(logs.values(), &fellmark_reports::learned::Similarity::default());
        let figures = [lessons.warp_per_100, lessons.shrinkage_percent, lessons.width_loss_percent, lessons.waste_mm];
        assert!(figures.iter().all(|figure| figure.is_some_and(|figure| figure.warps >= 5)), "{lessons:?}");
        let take_up = lessons.warp_per_100.unwrap().value;
        assert!((102.0..120.0).contains(&take_up), "{take_up}");
    }
}
