//! A workspace without its window.

use fellmark_journal::Options;
use fellmark_model::commands::Commands;
use fellmark_present::view::{Answer, SittingForm, WarpForm};

use super::*;

/// Where the weaver is, whether warp and weft reach, and when it will be done.
fn answers(view: AppView) -> [Answer; 4] {
    let loom = view.loom.unwrap();
    [loom.progress, loom.warp_reach, loom.weft_reach, loom.finish_date]
}

#[test]
fn what_arrives_in_the_folder_is_in_every_answer() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path().join("Weaving");
    std::fs::create_dir(&folder).unwrap();
    let mut here = Workspace::at(&place.path().join("here"));
    here.open(&folder, true).unwrap();
    // Another device, whose files a synchroniser would bring.
    let mut there = Journal::open(Options::new(&folder, place.path().join("there"), "phone")).unwrap();
    let mut commands =
        Commands { journal: &mut there, format: DisplayFormat::default(), today: DeviceClock::default().today() };
    let form = WarpForm {
        name: "Grey runner".into(),
        wound: "250 cm".into(),
        waste: "45 cm".into(),
        wanted: "180 cm".into(),
        picks: "40".into(),
        warp_per_100: "110".into(),
        reed_width: "20 cm".into(),
        weft_name: "grey".into(),
        weft_mass: "90 g".into(),
        weft_length: "300 m".into(),
        ..WarpForm::default()
    };
    let warp = commands.begin_warp(&form).unwrap();
    let mut before = answers(here.refresh(&[]).unwrap());
    for (picks, measured) in [("120", "30 cm"), ("200", "80 cm")] {
        let on = DeviceClock::default().today().to_string();
        let form = SittingForm {
            on,
            picks: picks.into(),
            minutes: "50".into(),
            measured: measured.into(),
            ..SittingForm::default()
        };
        commands.log_sitting(&warp, &form, None).unwrap();
        let now = answers(here.refresh(&[]).unwrap());
        for (was, is) in before.iter().zip(&now) {
            assert_ne!((&was.headline, &was.more, &was.why), (&is.headline, &is.more, &is.why));
        }
        // As a workspace shows it that opens the folder only now.
        let mut anew = Workspace::at(&place.path().join(format!("anew {picks}")));
        anew.open(&folder, false).unwrap();
        assert_eq!(now, answers(anew.view()));
        before = now;
    }
}
