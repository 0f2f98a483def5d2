//! A plan that is not begun: dragged along its curve, kept through a restart, kept for later, removed and restored.

use fellmark_tests::window::{Device, Key, Pointer, TestWindow, Window, WindowOptions, WindowSlots};
use serde_json::json;

use crate::folder::written_fields;
use crate::plan::{calculations, choose_wish, fill, plan_from_wish, value};

/// From the yarn, with a width chosen: the curve is drawn and the point is on it.
fn on_the_curve(options: &WindowOptions) -> TestWindow {
    let window = plan_from_wish(options);
    fill(&window, "sett", "40");
    window.click("@way-yarn");
    window.wait("the other way is open", 5.0, |window| window.shows("@plan-warp_have"));
    fill(&window, "warp_have", "300 m");
    fill(&window, "weft_have", "300 m");
    fill(&window, "width", "25 cm");
    window.wait("the curve is drawn", 5.0, |window| window.shows("@plan-curve .curve-line"));
    window.scroll_to("@plan-curve-area");
    window.settle();
    window
}

fn width(window: &Window) -> f64 {
    let text = window.value("@plan-width");
    text.trim_end_matches(" cm").parse().unwrap_or_else(|_| panic!("{text:?} is no width"))
}

fn dragged(options: &WindowOptions, pointer: Pointer) {
    let window = on_the_curve(options);
    let size = |window: &Window| value(window, "size");
    let follows = |window: &Window| {
        let width = format!("{}", width(window));
        size(window).replace('\u{a0}', " ").starts_with(&format!("{width} cm"))
    };
    window.wait("the size is shown", 5.0, follows);
    // The width it snapped to is shown beside the point, is its accessible value, and is where the point is.
    let shown = |window: &Window| {
        let width = format!("{} cm", width(window));
        let value = window.run("return document.querySelector('[data-part=plan-knob]').getAttribute('aria-valuetext')");
        let value = value.as_str().unwrap().replace('\u{a0}', " ");
        value.starts_with(&width) && window.text("@plan-curve-words").replace('\u{a0}', " ") == value
    };
    assert!(shown(&window), "{}", window.text("@plan-curve-words"));
    let knob = window.point_in("@plan-knob", (0.5, 0.5));
    let position = || window.point_in("@plan-knob", (0.5, 0.5)).0;
    let at = |share: f64| {
        let (left, _) = window.point_in("@plan-curve-area", (0.0, 0.0));
        let (right, _) = window.point_in("@plan-curve-area", (1.0, 0.0));
        (left + (right - left) * share, knob.1)
    };

    // Down on the point, several moves, and the figures follow before it is let go.
    window.pointer_to(pointer, knob);
    window.pointer_down(pointer);
    let mut widths = vec![width(&window)];
    for share in [0.62, 0.72, 0.82, 0.92] {
        let turn = calculations(&window);
        window.pointer_to(pointer, at(share));
        window.wait("the width goes with the pointer", 5.0, |window| width(window) > *widths.last().unwrap());
        window
            .wait("the figures follow while it is held", 5.0, |window| calculations(window) > turn && follows(window));
        assert!(shown(&window), "{}", window.text("@plan-curve-words"));
        assert!(
            (position() - at(share).0).abs() < 8.0,
            "the point is at {}, the pointer at {}",
            position(),
            at(share).0
        );
        widths.push(width(&window));
    }
    // One that comes by with nothing pressed drags nothing.
    let by = format!(
        "document.querySelector('[data-part=plan-curve-area]').dispatchEvent(
             new PointerEvent('pointermove', {{ clientX: {}, clientY: {}, buttons: 0 }}))",
        at(0.1).0,
        at(0.1).1
    );
    window.run(&by);
    assert_eq!(Some(&width(&window)), widths.last());
    window.pointer_up(pointer);
    assert!(widths.windows(2).all(|pair| pair[1] > pair[0]), "{widths:?}");
    assert!(window.has_focus("@plan-knob"), "the focus is on the point that was let go");
    window.screenshot(&format!("plan-dragged-{}", options.name()));

    // Escape returns it to where the drag began.
    window.press(Key::Escape);
    window.wait("it is back", 5.0, |window| (width(window) - 25.0).abs() < 1e-9);
    window.wait("so are the figures", 5.0, follows);
    assert!(shown(&window) && (position() - knob.0).abs() < 2.0, "{} {}", window.text("@plan-curve-words"), position());

    // Held and moved, Escape lets go: what the pointer does after that moves nothing.
    window.pointer_to(pointer, window.point_in("@plan-knob", (0.5, 0.5)));
    window.pointer_down(pointer);
    window.pointer_to(pointer, at(0.7));
    window.wait("it moved", 5.0, |window| width(window) > 25.0);
    window.press(Key::Escape);
    window.wait("it is back", 5.0, |window| (width(window) - 25.0).abs() < 1e-9);
    window.pointer_to(pointer, at(0.9));
    window.pointer_up(pointer);
    window.settle();
    assert!((width(&window) - 25.0).abs() < 1e-9, "{}", width(&window));
}

#[test]
fn the_point_is_dragged_with_the_mouse() {
    dragged(&WindowOptions::laptop(), Pointer::Mouse);
}

#[test]
fn the_point_is_dragged_with_a_finger() {
    dragged(&WindowOptions::phone(), Pointer::Finger);
}

#[test]
fn what_is_typed_survives_the_end_of_the_program() {
    let window = TestWindow::with_warp(&WindowOptions::laptop());
    window.click("@nav-plan");
    window.click("@way-wish");
    fill(&window, "length", "62 cm");
    fill(&window, "width", "34 cm");
    fill(&window, "further", "2 x 15 cm");
    let warp = value(&window, "warp");
    // No farewell: as if the battery had gone.

    let window = window.kill_and_reopen(&WindowOptions::laptop());
    window.wait_text("@plans-waiting", "1 plan not started yet", 5.0);
    window.screenshot("plan-waiting-laptop");
    window.click("@plans-waiting a");
    window.wait("the plan is as it was", 5.0, |window| window.value("@plan-length") == "62 cm");
    assert_eq!((window.value("@plan-width"), window.value("@plan-further")), ("34 cm".into(), "2 x 15 cm".into()));
    window.wait("it takes the same", 5.0, |window| window.shows("@plan-figure-warp") && value(window, "warp") == warp);

    // An empty plan takes its place; what was typed can be restored.
    window.click("@plan-clear");
    window.wait("it is empty", 5.0, |window| window.value("@plan-length").is_empty());
    window.click("@plan-restore");
    window.wait("it is back", 5.0, |window| window.value("@plan-length") == "62 cm");
    assert!(written_fields(&window.folder, "plan").is_empty(), "nothing was written into the folder");
}

#[test]
fn a_plan_is_kept_for_later_on_every_device() {
    let _slots = WindowSlots::take(2);
    let (laptop, phone) = (Device::named("Laptop"), Device::named("Phone"));
    let folder = laptop.folder("Weaving");
    let window = laptop.open(&WindowOptions::laptop());
    window.open_folder(&folder);
    choose_wish(&window);
    // Nothing is typed, so there is nothing to keep.
    window.click("@plan-keep");
    window.wait_text("@plan-trouble", "Nothing is planned yet", 5.0);
    fill(&window, "length", "180");
    fill(&window, "width", "25");
    fill(&window, "name", "Winter scarf");
    window.click("@plan-keep");
    window.wait_text("@plans-kept", "Winter scarf", 5.0);
    assert_eq!(written_fields(&folder, "plan")[0]["length"], json!("180 cm"), "a figure travels with its unit");
    // Changed and kept again it is the same plan, and only what differs is written.
    fill(&window, "width", "30 cm");
    window.click("@plan-keep");
    window.wait("it is written", 5.0, |_| written_fields(&folder, "plan").len() == 2);
    let changed = written_fields(&folder, "plan")[1].clone();
    assert_eq!((&changed["width"], &changed["length"]), (&json!("30 cm"), &json!(null)));
    assert_eq!(window.axe(), "", "a kept plan");
    window.screenshot("plan-kept-laptop");

    // The phone finds it, removes it, and restores it.
    let there = phone.open(&WindowOptions::phone().folder(&folder));
    there.click("@way-wish");
    there.wait_text("@plans-kept", "Winter scarf", 5.0);
    there.click("@plan-kept [data-act=open-plan]");
    there.wait("it is opened", 5.0, |window| window.value("@plan-length") == "180 cm");
    assert_eq!(there.value("@plan-width"), "30 cm");
    there.screenshot("plan-kept-phone");
    assert_eq!(there.overflow(), "");
    there.click("@plan-kept [data-act=remove-plan]");
    there.wait_gone("@plans-kept");
    window.wait_gone("@plans-kept");
    there.click("@undo");
    there.wait_text("@plans-kept", "Winter scarf", 5.0);

    // Begun, it is no plan any more; one undo takes the warp back and restores the plan.
    there.click("@plan-kept [data-act=open-plan]");
    there.wait("it is opened", 5.0, |window| window.value("@plan-length") == "180 cm");
    there.click("@plan-begin");
    there.wait_text("@warp-name", "Winter scarf", 5.0);
    assert!(!there.shows("@plans-waiting"), "{}", there.page());
    there.click("@undo");
    there.wait_text("@plans-kept", "Winter scarf", 5.0);
}
