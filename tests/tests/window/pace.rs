//! Pace: a table and three charts, split at a chosen length, drawn anew for the space there is.

use fellmark_tests::window::{TestWindow, WindowOptions};
use serde_json::json;

fn opened(options: &WindowOptions) -> TestWindow {
    let window = TestWindow::with_example(options);
    window.click("@nav-pace");
    window.wait("the pictures are drawn", 5.0, |window| window.shows("@chart-within svg"));
    window
}

#[test]
fn warps_are_compared_at_the_chosen_split() {
    let window = opened(&WindowOptions::laptop());
    let rows = window.run("return document.querySelectorAll('[data-part=pace-row]').length");
    assert_eq!(rows, json!(12), "{}", window.page());
    assert!(window.text("@chart-length-text").contains("12 warps"), "{}", window.page());

    window.type_into("@pace-split", "7 bananas");
    window.click("@pace-split-apply");
    window.wait("it says what to write", 5.0, |window| window.shows("@pace-split-trouble"));
    assert_eq!(window.value("[data-part=pace-split]"), "7 bananas", "what was typed stays");
    window.type_into("@pace-split", "2 m");
    window.click("@pace-split-apply");
    window.wait_text("@chart-split-text", "200 cm or shorter", 5.0);
    assert!(!window.shows("@pace-split-trouble"));

    // Another warp is looked at over its own time.
    let words = "return document.querySelector('[data-part=chart-within-text]').innerText";
    let before = window.run(words);
    let other = window.run("return document.querySelector('[data-part=pace-within]').options[3].value");
    window.choose("@pace-within", other.as_str().unwrap());
    window.wait("another warp is described", 5.0, |window| window.run(words) != before);
}

#[test]
fn pictures_follow_the_room_and_the_size_of_letters() {
    let window = opened(&WindowOptions::phone());
    let fits = "const svg = document.querySelector('[data-part=chart-length] svg');
                return svg.getBoundingClientRect().right <= innerWidth && Number(svg.getAttribute('font-size'))";
    let small = window.run(fits).as_f64().expect("the picture fits the phone");
    window.enlarge_text();
    window.run("location.hash = '#/folder'");
    window.wait("another screen", 5.0, |window| window.shows("@folder-path"));
    window.run("location.hash = '#/pace'");
    window.wait("the pictures are drawn", 5.0, |window| window.shows("@chart-within svg"));
    let large = window.run(fits).as_f64().expect("the picture fits the phone with large letters too");
    assert!(large > 1.8 * small, "{small} {large}");
    assert_eq!(window.overflow(), "");
}

/// On a small screen each row is a card: what holds nothing is not seen there, and still counts for a screen reader.
#[test]
fn each_figure_of_a_table_keeps_its_heading_on_a_phone() {
    let window = TestWindow::with_warp(&WindowOptions::phone());
    // Nothing is known of the time it took.
    window.log_sitting(&[("picks", "500"), ("measured", "1.6 m")]);
    window.wait("the answers are back", 5.0, |window| window.shows("@answer-where-headline"));
    let cells_of = |part: &str| {
        let script = format!(
            "const table = document.querySelector('[data-part={part}]');
             const there = (row, kinds) => [...row.querySelectorAll(kinds)]
                 .filter(cell => getComputedStyle(cell).display !== 'none').length;
             const rows = [...table.querySelectorAll('tbody [role=row]')];
             const cells = rows.map(row => there(row, '[role=rowheader]') + there(row, '[role=cell]'));
             const empty = [...table.querySelectorAll('.nothing')];
             return [table.getAttribute('role'), table.querySelectorAll('[role=rowgroup] [role=row] [role=columnheader]').length,
                     rows.length, [...new Set(cells)], empty.length > 0,
                     empty.filter(cell => cell.getBoundingClientRect().width > 1).length]"
        );
        window.run(&script)
    };
    window.click("@nav-pace");
    window.wait("the table is there", 5.0, |window| window.shows("@pace-table"));
    assert_eq!(cells_of("pace-table"), json!(["table", 8, 1, [8], true, 0]));
    window.screenshot("pace-table-phone");
    assert_eq!(window.overflow() + &window.axe(), "");

    window.click("@nav-loom");
    window.click("@cut-off");
    window.type_into("@off-off_loom", "152 cm");
    window.click("@off-save");
    window.wait("the planned and actual figures are shown", 5.0, |window| window.shows("@planned-and-actual"));
    let table = cells_of("planned-and-actual");
    assert_eq!(table, json!(["table", 4, table[2], [4], true, 0]));
    window.scroll_to("@planned-and-actual");
    window.screenshot("planned-and-actual-phone");
    assert_eq!(window.overflow() + &window.axe(), "");
}
