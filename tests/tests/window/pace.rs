//! Pace: a table and three pictures, parted where she says, drawn anew for the room there is.

use fellmark_tests::window::{Device, Look, Stage, Window};
use serde_json::json;

fn opened(look: &Look) -> Window {
    let window = Device::named("Laptop").open(look);
    window.click("@begin-example");
    window.wait("the example is shown", 5.0, |window| window.sees("@answer-when-headline"));
    window.click("@nav-pace");
    window.wait("the pictures are drawn", 5.0, |window| window.sees("@chart-within svg"));
    window
}

#[test]
fn warps_are_compared_where_she_parts_them() {
    let _stage = Stage::for_windows(1);
    let window = opened(&Look::laptop());
    let rows = window.run("return document.querySelectorAll('[data-part=pace-row]').length");
    assert_eq!(rows, json!(12), "{}", window.page());
    assert!(window.text("@chart-length-told").contains("12 warps"), "{}", window.page());

    window.type_into("@pace-split", "7 bananas");
    window.click("@pace-split-do");
    window.wait("it says what to write", 5.0, |window| window.sees("@pace-split-trouble"));
    assert_eq!(window.value("[data-part=pace-split]"), "7 bananas", "what she typed stays");
    window.type_into("@pace-split", "2 m");
    window.click("@pace-split-do");
    window.wait_text("@chart-split-told", "200 cm or shorter", 5.0);
    assert!(!window.sees("@pace-split-trouble"));

    // Another warp is looked at over its own time.
    let told = "return document.querySelector('[data-part=chart-within-told]').innerText";
    let before = window.run(told);
    let other = window.run("return document.querySelector('[data-part=pace-within]').options[3].value");
    window.choose("@pace-within", other.as_str().unwrap());
    window.wait("another warp is told", 5.0, |window| window.run(told) != before);
}

#[test]
fn pictures_follow_the_room_and_the_size_of_letters() {
    let _stage = Stage::for_windows(1);
    let window = opened(&Look::phone());
    let fits = "const svg = document.querySelector('[data-part=chart-length] svg');
                return svg.getBoundingClientRect().right <= innerWidth && Number(svg.getAttribute('font-size'))";
    let small = window.run(fits).as_f64().expect("the picture fits the phone");
    window.run("document.documentElement.style.fontSize = '200%'; dispatchEvent(new Event('resize'))");
    window.run("location.hash = '#/folder'");
    window.wait("another screen", 5.0, |window| window.sees("@folder-path"));
    window.run("location.hash = '#/pace'");
    window.wait("the pictures are drawn", 5.0, |window| window.sees("@chart-within svg"));
    let large = window.run(fits).as_f64().expect("the picture fits the phone with large letters too");
    assert!(large > 1.8 * small, "{small} {large}");
    assert_eq!(window.overflow(), "");
}
