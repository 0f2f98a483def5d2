//! Cutting off: what is true now, the finishing as dated ticks, and what is learned from it.

use fellmark_tests::window::{TestWindow, Window, WindowOptions};

use crate::folder::written_fields;

fn woven(window: &Window) {
    window.click("@log");
    for (field, text) in [("minutes", "300"), ("picks", "500"), ("measured", "1.6 m")] {
        window.type_into(&format!("@sitting-{field}"), text);
    }
    window.click("@sitting-save");
    window.wait("the answers are back", 5.0, |window| window.shows("@answer-where-headline"));
}

#[test]
fn a_warp_is_cut_off_and_finished_and_the_next_learns_from_it() {
    let window = TestWindow::with_warp(&WindowOptions::laptop());
    woven(&window);

    window.click("@cut-off");
    // What cannot be true is shown beside its field, and nothing typed is lost.
    for (field, text) in [("off_loom", "9 m"), ("front", "18 cm"), ("thrums", "32 cm")] {
        window.type_into(&format!("@off-{field}"), text);
    }
    window.click("@off-save");
    window.wait_text("@off-off_loom-trouble", "longer than the warp", 5.0);
    window.type_into("@off-off_loom", "152 cm");
    window.click("@off-save");
    window.wait_text("@off-line", "Cut off today; still to do: mend, hem, wash, dry, press and trim tails.", 5.0);
    // 260 - 50 of warp in 160 of cloth.
    window.wait_text("@planned-and-actual", "31.2 %", 5.0);
    assert!(window.text("@lessons").contains("100 cm of cloth take 131.2 cm of warp"), "{}", window.page());
    assert!(window.text("@lessons").contains("from 1 warp"), "{}", window.page());
    assert_eq!(written_fields(&window.folder, "finishing").len(), 6);

    // One tick is one action, and undo takes it back.
    window.click("@step button");
    window.wait_text("@off-line", "still to do: hem, wash, dry, press and trim tails.", 5.0);
    window.click("@undo");
    window.wait_text("@off-line", "still to do: mend, hem, wash, dry, press and trim tails.", 5.0);

    // A step has a name and a day of its own.
    window.click("@step-change");
    window.type_into("@step-name", "Twist the fringe");
    window.click("@step-on-today");
    window.click("@step-save");
    window.wait_text("@steps", "Twist the fringe", 5.0);
    for _ in 0..5 {
        window.click("@step [aria-pressed=false]");
        window.wait("the tick is kept", 5.0, |window| {
            window.settle();
            window.shows("@off-line")
        });
    }
    window.wait_text("@off-line", "Finished today.", 5.0);

    // After the wash.
    window.click("@measure");
    assert_eq!(window.value("[data-part=off-off_loom]"), "152 cm");
    window.type_into("@off-finished", "144 cm");
    window.type_into("@off-finished_width", "26 cm");
    window.click("@off-save");
    window.wait_text("@planned-and-actual", "144 cm", 5.0);
    assert!(window.text("@lessons").contains("10% of the length is lost"), "{}", window.page());

    // The whole cut-off comes back step by step: nothing was asked, all of it can be undone.
    let before = written_fields(&window.folder, "warp").len();
    window.click("@undo");
    window.wait("the measures are taken back", 5.0, |window| !window.text("@planned-and-actual").contains("144 cm"));
    assert_eq!(written_fields(&window.folder, "warp").len(), before + 1, "nothing is rewritten, only answered");
}

#[test]
fn a_sheet_is_handed_to_the_printer() {
    let window = TestWindow::with_example(&WindowOptions::laptop());
    // The system's dialog cannot be driven, so it is seen that it would open.
    window.run("window.sheets = 0; window.print = () => { window.sheets += 1; };");
    window.click("[data-act=print]");
    window.wait("the sheet is printed", 5.0, |window| window.run("return window.sheets") == 1);
}
