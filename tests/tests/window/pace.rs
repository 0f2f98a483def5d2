//! Pace: a table and three pictures, parted where she says, drawn anew for the room there is.

use fellmark_tests::window::{TestWindow, WindowOptions};
use serde_json::json;

fn opened(options: &WindowOptions) -> TestWindow {
    let window = TestWindow::with_example(options);
    window.click("@nav-pace");
    window.wait("the pictures are drawn", 5.0, |window| window.shows("@chart-within svg"));
    window
}

#[test]
fn warps_are_compared_where_she_parts_them() {
    let window = opened(&WindowOptions::laptop());
    let rows = window.run("return document.querySelectorAll('[data-part=pace-row]').length");
    assert_eq!(rows, json!(12), "{}", window.page());
    assert!(window.text("@chart-length-told").contains("12 warps"), "{}", window.page());

    window.type_into("@pace-split", "7 bananas");
    window.click("@pace-split-do");
    window.wait("it says what to write", 5.0, |window| window.shows("@pace-split-trouble"));
    assert_eq!(window.value("[data-part=pace-split]"), "7 bananas", "what she typed stays");
    window.type_into("@pace-split", "2 m");
    window.click("@pace-split-do");
    window.wait_text("@chart-split-told", "200 cm or shorter", 5.0);
    assert!(!window.shows("@pace-split-trouble"));

    // Another warp is looked at over its own time.
    let told = "return document.querySelector('[data-part=chart-within-told]').innerText";
    let before = window.run(told);
    let other = window.run("return document.querySelector('[data-part=pace-within]').options[3].value");
    window.choose("@pace-within", other.as_str().unwrap());
    window.wait("another warp is told", 5.0, |window| window.run(told) != before);
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

/// On a small screen each row is a card: what holds nothing is not seen there, and still counts for who hears the table.
#[test]
fn each_figure_of_a_table_keeps_its_heading_on_a_phone() {
    let window = TestWindow::with_warp(&WindowOptions::phone());
    // Nothing is known of the time it took.
    window.log_sitting(&[("picks", "500"), ("measured", "1.6 m")]);
    window.wait("the answers are back", 5.0, |window| window.shows("@answer-where-headline"));
    let told = |part: &str| {
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
    assert_eq!(told("pace-table"), json!(["table", 8, 1, [8], true, 0]));
    window.screenshot("pace-table-phone");
    assert_eq!(window.overflow() + &window.axe(), "");

    window.click("@nav-loom");
    window.click("@cut-off");
    window.type_into("@off-off_loom", "152 cm");
    window.click("@off-save");
    window.wait("what came out is told", 5.0, |window| window.shows("@planned-and-actual"));
    let table = told("planned-and-actual");
    assert_eq!(table, json!(["table", 4, table[2], [4], true, 0]));
    window.scroll_to("@planned-and-actual");
    window.screenshot("planned-and-actual-phone");
    assert_eq!(window.overflow() + &window.axe(), "");
}
