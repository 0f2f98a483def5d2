//! Taking back on two devices: what the weaver did here goes, and what was done elsewhere stays.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

use chrono::NaiveDate;
use fellmark_journal::{EntryDraft, Journal, Options, Record, RecordId};
use fellmark_model as model;
use fellmark_model::commands::{Commands, chosen_units};
use fellmark_model::display_format::{DisplayFormat, Units};
use fellmark_model::finishing;
use fellmark_present::undo;
use fellmark_present::view::{OffForm, SittingForm, WarpForm};
use serde_json::{Value, json};
use tempfile::TempDir;

/// One folder.
struct Shared(TempDir);

impl Shared {
    fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }

    fn open(&self, device: &str) -> Journal {
        let (folder, local) = (self.0.path().join("folder"), self.0.path().join(device));
        std::fs::create_dir_all(&folder).unwrap();
        Journal::open(Options::new(folder, local, device).create()).unwrap()
    }
}

/// Takes the last action back, and says what it was.
fn take_back(journal: &mut Journal) -> Option<undo::Undone> {
    let found = commands(journal).undo().unwrap()?;
    Some(undo::undone(&found, journal))
}

fn commands(journal: &mut Journal) -> Commands<'_> {
    let today: NaiveDate = "2026-11-25".parse().unwrap();
    Commands { journal, format: DisplayFormat::default(), today }
}

fn form(picks: &str, minutes: &str) -> SittingForm {
    SittingForm { on: "2026-11-24".into(), picks: picks.into(), minutes: minutes.into(), ..SittingForm::default() }
}

/// A sitting of 100 picks in 40 minutes, logged on this device.
fn logged(journal: &mut Journal) -> RecordId {
    let warp = WarpForm { name: "trial".into(), ..WarpForm::default() };
    let warp = commands(journal).begin_warp(&warp).unwrap();
    commands(journal).log_sitting(&warp, &form("100", "40"), None).unwrap()
}

fn sitting<'a>(journal: &'a Journal, id: &RecordId) -> &'a Record {
    journal.state().record(id).unwrap()
}

fn figures(journal: &Journal, id: &RecordId) -> [f64; 2] {
    ["picks", "minutes"].map(|field| sitting(journal, id).get(field).and_then(Value::as_f64).unwrap())
}

/// Whether anything asks the weaver for one of two answers.
fn is_settled(journal: &Journal, id: &RecordId) -> bool {
    sitting(journal, id).conflicts().all(|(field, _)| field == "act")
}

#[test]
fn a_figure_that_another_device_changed_since_stays_when_the_rest_is_taken_back() {
    let shared = Shared::new();
    let mut laptop = shared.open("laptop");
    let id = logged(&mut laptop);
    commands(&mut laptop).correct_sitting(&id, &form("130", "55"), &[]).unwrap();
    let mut phone = shared.open("phone");
    commands(&mut phone).correct_sitting(&id, &form("140", "55"), &[]).unwrap();
    laptop.refresh(&[]).unwrap();
    assert_eq!(figures(&laptop, &id), [140.0, 55.0]);

    assert_eq!(take_back(&mut laptop).map(|undone| undone.what).as_deref(), Some("the sitting was changed"));
    assert_eq!(figures(&laptop, &id), [140.0, 40.0]);

    // Nothing was said here about that figure: the other device, which has not seen it yet, may change it without a question.
    commands(&mut phone).correct_sitting(&id, &form("160", "55"), &[]).unwrap();
    laptop.refresh(&[]).unwrap();
    assert_eq!(figures(&laptop, &id), [160.0, 40.0]);
    assert!(is_settled(&laptop, &id));
}

#[test]
fn it_is_reported_when_undo_removes_what_another_device_changed() {
    let shared = Shared::new();
    let mut laptop = shared.open("Laptop");
    let id = logged(&mut laptop);
    assert_eq!(undo::words(&laptop).as_deref(), Some("the sitting was logged"));
    let mut phone = shared.open("Phone");
    commands(&mut phone).correct_sitting(&id, &form("140", "40"), &[]).unwrap();
    laptop.refresh(&[]).unwrap();
    // Before it is done, and after.
    assert_eq!(undo::words(&laptop).as_deref(), Some("the sitting was logged (Phone has changed it since)"));
    let undone = take_back(&mut laptop).unwrap();
    assert_eq!(undone.what, "the sitting was logged");
    let note = undone.note.unwrap();
    assert!(note.starts_with("Phone had changed the sitting since it was logged here"), "{note}");
    assert!(note.contains("removed sittings"), "{note}");
    // It is as the note says: gone, and whole again when it is restored.
    assert!(!sitting(&laptop, &id).is_visible() && is_settled(&laptop, &id));
    commands(&mut laptop).restore(&id).unwrap();
    assert_eq!(figures(&laptop, &id), [140.0, 40.0]);

    // So it is with a warp on which another device has logged.
    let begun = commands(&mut laptop).begin_warp(&WarpForm { name: "second".into(), ..WarpForm::default() }).unwrap();
    assert_eq!(undo::words(&laptop).as_deref(), Some("the warp was begun"));
    phone.refresh(&[]).unwrap();
    commands(&mut phone).log_sitting(&begun, &form("90", "30"), None).unwrap();
    laptop.refresh(&[]).unwrap();
    assert_eq!(undo::words(&laptop).as_deref(), Some("the warp was begun (Phone has written on it since)"));
    let note = take_back(&mut laptop).unwrap().note.unwrap();
    assert!(note.starts_with("Phone had written on the warp since it was begun here"), "{note}");
    assert!(note.contains("removed warps"), "{note}");
    // What nobody else has touched goes without a word, and so does what stays.
    let id = logged(&mut laptop);
    commands(&mut laptop).correct_sitting(&id, &form("130", "55"), &[]).unwrap();
    phone.refresh(&[]).unwrap();
    commands(&mut phone).correct_sitting(&id, &form("150", "55"), &[]).unwrap();
    laptop.refresh(&[]).unwrap();
    assert_eq!(take_back(&mut laptop).unwrap().note, None);
}

#[test]
fn units_chosen_again_after_they_were_taken_back_are_heeded() {
    let shared = Shared::new();
    let mut laptop = shared.open("laptop");
    for (units, what) in [(Units::Imperial, "chosen"), (Units::Metric, "changed")] {
        commands(&mut laptop).set_units(units).unwrap();
        let undone = take_back(&mut laptop).unwrap();
        assert_eq!(undone.what, format!("the setting was {what}"));
        assert_eq!(chosen_units(laptop.state()), None);
    }
    commands(&mut laptop).set_units(Units::Imperial).unwrap();
    assert_eq!(chosen_units(laptop.state()), Some(Units::Imperial));
    commands(&mut laptop).set_units(Units::Metric).unwrap();
    assert_eq!(undo::words(&laptop).as_deref(), Some("the setting was changed"));
    take_back(&mut laptop);
    assert_eq!(chosen_units(laptop.state()), Some(Units::Imperial));
}

/// All settings stand in one record, of which each device may have said a part.
#[test]
fn one_setting_taken_back_leaves_the_others_as_they_are() {
    let setting = |journal: &Journal, field: &str| {
        let record = journal.state().record(&"settings".parse().unwrap()).filter(|record| record.is_visible())?;
        record.get(field).cloned().filter(|value| !value.is_null())
    };
    let shared = Shared::new();
    let mut laptop = shared.open("Laptop");
    commands(&mut laptop).set_units(Units::Imperial).unwrap();
    let mut phone = shared.open("Phone");
    commands(&mut phone).set_stretch("45").unwrap();
    laptop.refresh(&[]).unwrap();
    assert_eq!(undo::words(&laptop).as_deref(), Some("the setting was chosen"));
    let undone = take_back(&mut laptop).unwrap();
    assert_eq!((undone.note, chosen_units(laptop.state())), (None, None));
    assert_eq!(setting(&laptop, "stretch_minutes"), Some(json!(45)));
    // Nor does what was taken back come again with another choice.
    let other = Shared::new();
    let mut alone = other.open("Tablet");
    commands(&mut alone).set_units(Units::Imperial).unwrap();
    take_back(&mut alone);
    commands(&mut alone).set_stretch("20").unwrap();
    assert_eq!((chosen_units(alone.state()), setting(&alone, "stretch_minutes")), (None, Some(json!(20))));
}

#[test]
fn one_figure_changed_several_times_is_taken_back_step_by_step() {
    let shared = Shared::new();
    let mut laptop = shared.open("laptop");
    let id = logged(&mut laptop);
    for picks in ["130", "150", "170"] {
        commands(&mut laptop).correct_sitting(&id, &form(picks, "40"), &[]).unwrap();
    }
    for picks in [150.0, 130.0] {
        assert_eq!(take_back(&mut laptop).map(|undone| undone.what).as_deref(), Some("the sitting was changed"));
        assert_eq!(figures(&laptop, &id), [picks, 40.0]);
    }
    // Something done in between is taken back first.
    commands(&mut laptop).correct_sitting(&id, &form("160", "40"), &[]).unwrap();
    for picks in [130.0, 100.0] {
        assert_eq!(take_back(&mut laptop).map(|undone| undone.what).as_deref(), Some("the sitting was changed"));
        assert_eq!(figures(&laptop, &id), [picks, 40.0]);
    }
    assert!(sitting(&laptop, &id).is_visible());
    assert_eq!(take_back(&mut laptop).map(|undone| undone.what).as_deref(), Some("the sitting was logged"));
    assert!(!sitting(&laptop, &id).is_visible());
}

#[test]
fn what_was_removed_restored_and_removed_again_is_taken_back_step_by_step() {
    let shared = Shared::new();
    let mut laptop = shared.open("laptop");
    let id = logged(&mut laptop);
    commands(&mut laptop).remove(&id).unwrap();
    commands(&mut laptop).restore(&id).unwrap();
    commands(&mut laptop).remove(&id).unwrap();
    for (what, visible) in [("removed", true), ("restored", false), ("removed", true), ("logged", false)] {
        assert_eq!(take_back(&mut laptop).map(|undone| undone.what), Some(format!("the sitting was {what}")));
        assert_eq!(sitting(&laptop, &id).is_visible(), visible, "{what}");
    }
}

/// What the other device changed after this device undid its own change is an answer to that, and stays too.
#[test]
fn a_figure_that_another_device_changed_after_the_first_step_back_stays_at_the_second() {
    let shared = Shared::new();
    let mut laptop = shared.open("laptop");
    let id = logged(&mut laptop);
    for picks in ["130", "150"] {
        commands(&mut laptop).correct_sitting(&id, &form(picks, "40"), &[]).unwrap();
    }
    take_back(&mut laptop);
    let mut phone = shared.open("phone");
    commands(&mut phone).correct_sitting(&id, &form("140", "40"), &[]).unwrap();
    laptop.refresh(&[]).unwrap();
    assert_ne!(take_back(&mut laptop).map(|undone| undone.what).as_deref(), Some("the sitting was changed"));
    assert_eq!(figures(&laptop, &id), [140.0, 40.0]);

    // Undone there, it has the first device's value again.
    commands(&mut laptop).restore(&id).unwrap();
    phone.refresh(&[]).unwrap();
    assert_eq!(take_back(&mut phone).map(|undone| undone.what).as_deref(), Some("the sitting was changed"));
    assert_eq!(figures(&phone, &id), [130.0, 40.0]);
}

#[test]
fn an_answer_given_elsewhere_meanwhile_stays_when_the_one_here_is_taken_back() {
    let shared = Shared::new();
    let mut laptop = shared.open("laptop");
    let id = logged(&mut laptop);
    let mut phone = shared.open("phone");
    commands(&mut laptop).correct_sitting(&id, &form("130", "40"), &[]).unwrap();
    let seen = sitting(&phone, &id).heads.clone();
    commands(&mut phone).correct_sitting(&id, &form("140", "40"), &seen).unwrap();
    laptop.refresh(&[]).unwrap();
    phone.refresh(&[]).unwrap();
    assert!(!is_settled(&laptop, &id));

    assert_eq!(take_back(&mut laptop).map(|undone| undone.what).as_deref(), Some("the sitting was changed"));
    assert_eq!(figures(&laptop, &id), [140.0, 40.0]);
    assert!(is_settled(&laptop, &id));

    // And with that one taken back as well, it is as before both.
    phone.refresh(&[]).unwrap();
    assert_eq!(take_back(&mut phone).map(|undone| undone.what).as_deref(), Some("the sitting was changed"));
    assert_eq!(figures(&phone, &id), [100.0, 40.0]);
    assert!(is_settled(&phone, &id));
}

/// A warp with its finishing steps; the usual ones are written with the first that is ticked.
struct Steps {
    warp: RecordId,
}

impl Steps {
    fn begun(journal: &mut Journal) -> Self {
        let form = WarpForm { name: "towels".into(), ..WarpForm::default() };
        Self { warp: commands(journal).begin_warp(&form).unwrap() }
    }

    fn all(&self, journal: &Journal) -> Vec<finishing::StepRecord> {
        finishing::steps(&model::warp_log(journal.state(), &self.warp).unwrap())
    }

    fn id(&self, journal: &Journal, name: &str) -> RecordId {
        self.all(journal).into_iter().find(|step| step.name == name).unwrap().id
    }

    fn tick(&self, journal: &mut Journal, name: &str) {
        let id = self.id(journal, name);
        commands(journal).tick_step(&self.warp, &id, Some("")).unwrap();
    }

    /// What is done, in a line: "Mend, Hem, Wash done, Dry, Press, Trim tails".
    fn reported(&self, journal: &Journal) -> String {
        let steps = self.all(journal).into_iter();
        let reported = steps.map(|step| step.name + if step.done_on.is_some() { " done" } else { "" });
        reported.collect::<Vec<_>>().join(", ")
    }

    /// Nothing asks for one of two answers, and no step waits among what was removed here and edited there.
    fn are_settled(&self, journal: &Journal) -> bool {
        self.all(journal).iter().all(|step| is_settled(journal, &step.id))
    }
}

fn undone(journal: &mut Journal) -> (String, Option<String>) {
    let undone = take_back(journal).unwrap();
    (undone.what, undone.note)
}

#[test]
fn the_first_tick_taken_back_leaves_the_steps_and_what_another_device_ticked_of_them() {
    let shared = Shared::new();
    let mut laptop = shared.open("Laptop");
    let steps = Steps::begun(&mut laptop);
    steps.tick(&mut laptop, "Wash");
    let mut phone = shared.open("Phone");
    steps.tick(&mut phone, "Dry");
    let hem = steps.id(&phone, "Hem");
    commands(&mut phone).change_step(&steps.warp, &hem, "Darn", "").unwrap();
    laptop.refresh(&[]).unwrap();
    assert_eq!(steps.reported(&laptop), "Mend, Darn, Wash done, Dry done, Press, Trim tails");

    // The tick is undone, and there is nothing else to report.
    assert_eq!(undo::words(&laptop).as_deref(), Some("the finishing step was changed"));
    assert_eq!(undone(&mut laptop), ("the finishing step was changed".into(), None));
    phone.refresh(&[]).unwrap();
    for journal in [&laptop, &phone] {
        assert_eq!(steps.reported(journal), "Mend, Darn, Wash, Dry done, Press, Trim tails");
        assert!(steps.are_settled(journal));
    }
    // It was all that this device did to them; and the step ticked again is a change like any other.
    assert_eq!(undo::words(&laptop).as_deref(), Some("the warp was begun (Phone has written on it since)"));
    steps.tick(&mut laptop, "Wash");
    undone(&mut laptop);
    assert_eq!(steps.reported(&laptop), "Mend, Darn, Wash, Dry done, Press, Trim tails");
}

#[test]
fn a_first_tick_on_each_of_two_devices_is_taken_back_without_the_other() {
    for same in [false, true] {
        let shared = Shared::new();
        let mut laptop = shared.open("Laptop");
        let steps = Steps::begun(&mut laptop);
        let mut phone = shared.open("Phone");
        steps.tick(&mut laptop, "Wash");
        steps.tick(&mut phone, if same { "Wash" } else { "Press" });
        laptop.refresh(&[]).unwrap();
        undone(&mut laptop);
        phone.refresh(&[]).unwrap();
        let left = if same {
            "Mend, Hem, Wash done, Dry, Press, Trim tails"
        } else {
            "Mend, Hem, Wash, Dry, Press done, Trim tails"
        };
        for journal in [&laptop, &phone] {
            assert_eq!(steps.reported(journal), left);
            assert!(steps.are_settled(journal));
        }
        // Not seen before it was taken back there, it stays as well.
        undone(&mut phone);
        steps.tick(&mut phone, "Dry");
        steps.tick(&mut laptop, "Press");
        undone(&mut laptop);
        laptop.refresh(&[]).unwrap();
        assert_eq!(steps.reported(&laptop), "Mend, Hem, Wash, Dry done, Press, Trim tails");
        assert!(steps.are_settled(&laptop));
    }
}

#[test]
fn what_else_is_done_first_to_a_step_is_taken_back_from_that_step_alone() {
    let shared = Shared::new();
    let mut laptop = shared.open("Laptop");
    let mut phone = shared.open("Phone");
    let mut first = |did: &dyn Fn(&mut Journal, &Steps), what: &str| {
        let steps = Steps::begun(&mut laptop);
        did(&mut laptop, &steps);
        phone.refresh(&[]).unwrap();
        steps.tick(&mut phone, "Dry");
        laptop.refresh(&[]).unwrap();
        assert_eq!(undone(&mut laptop), (what.to_owned(), None));
        assert_eq!(steps.reported(&laptop), "Mend, Hem, Wash, Dry done, Press, Trim tails", "{what}");
        assert!(steps.are_settled(&laptop), "{what}");
    };
    first(
        &|journal, steps| {
            let hem = steps.id(journal, "Hem");
            commands(journal).change_step(&steps.warp, &hem, "Darn", "").unwrap();
        },
        "the finishing step was changed",
    );
    first(
        &|journal, steps| {
            let press = steps.id(journal, "Press");
            commands(journal).remove_step(&steps.warp, &press).unwrap();
        },
        "the finishing step was removed",
    );
    first(
        &|journal, steps| drop(commands(journal).add_step(&steps.warp, "Label").unwrap()),
        "the finishing step was added",
    );
}

/// Once the steps went with the first tick, and such folders are there: with the next tick they are laid out again.
#[test]
fn a_tick_that_lays_the_steps_out_again_is_taken_back_alone_too() {
    let shared = Shared::new();
    let mut laptop = shared.open("Laptop");
    let steps = Steps::begun(&mut laptop);
    steps.tick(&mut laptop, "Wash");
    let gone = |step: finishing::StepRecord| {
        let set = [("gone".to_owned(), json!(true))].into_iter().collect();
        EntryDraft::on(laptop.state().record(&step.id).unwrap(), set)
    };
    let gone: Vec<EntryDraft> = steps.all(&laptop).into_iter().map(gone).collect();
    laptop.write(gone).unwrap();
    assert_eq!(steps.reported(&laptop), "Mend, Hem, Wash, Dry, Press, Trim tails");
    steps.tick(&mut laptop, "Wash");
    let mut phone = shared.open("Phone");
    steps.tick(&mut phone, "Dry");
    laptop.refresh(&[]).unwrap();
    assert_eq!(undone(&mut laptop), ("the finishing step was changed".into(), None));
    assert_eq!(steps.reported(&laptop), "Mend, Hem, Wash, Dry done, Press, Trim tails");
    // Nor does the step before it find the tick that went long ago.
    undone(&mut laptop);
    assert_eq!(steps.reported(&laptop), "Mend, Hem, Wash, Dry done, Press, Trim tails");
    assert!(steps.are_settled(&laptop));
}

/// The steps stay when cutting off is taken back, and still the edge is named as the warp has it when it is cut off again.
#[test]
fn a_warp_cut_off_again_names_its_edge_as_it_is_now_unless_she_named_it() {
    for (renamed, reported) in
        [(false, "Mend, Fringe, Wash, Dry, Press, Trim tails"), (true, "Mend, Darn, Wash, Dry, Press, Trim tails")]
    {
        let shared = Shared::new();
        let mut laptop = shared.open("Laptop");
        let steps = Steps::begun(&mut laptop);
        let off = OffForm::default();
        commands(&mut laptop).cut_off(&steps.warp, &off, &[]).unwrap();
        assert_eq!(undone(&mut laptop), ("the warp was cut off".into(), None));
        let hem = steps.id(&laptop, "Hem");
        if renamed {
            commands(&mut laptop).change_step(&steps.warp, &hem, "Darn", "").unwrap();
        }
        let fringed = WarpForm { name: "towels".into(), fringe: "10 cm".into(), ..WarpForm::default() };
        commands(&mut laptop).change_warp(&steps.warp, &fringed, &[]).unwrap();
        commands(&mut laptop).cut_off(&steps.warp, &off, &[]).unwrap();
        assert_eq!(steps.reported(&laptop), reported);
        assert_eq!(undone(&mut laptop), ("the warp was cut off".into(), None));
    }
}
