//! The warp to scale: by keyboard, for a screen reader, without colour, and on paper.

use fellmark_tests::window::{GREY_RUNNER, Key, TestWindow, Window, WindowOptions};
use image::GrayImage;
use serde_json::json;

/// A warp of two pieces with three sittings, a mark, fringe, something to weave, to spare and waste: every kind but a shortfall.
fn full(window: &Window) {
    let mut figures = GREY_RUNNER.to_vec();
    figures[3] = ("wanted", "50 cm");
    begin_with(window, &figures);
}

fn begin_with(window: &Window, figures: &[(&str, &str)]) {
    window.click("@warp-more-pieces summary");
    window.type_into("@warp-pieces", "2");
    window.type_into("@warp-fringe", "12 cm");
    window.begin_warp(figures);
    for (picks, length, mark) in [("60", "20 cm", false), ("65", "43 cm", true), ("70", "19 cm", false)] {
        window.click("@log");
        window.type_into("@sitting-picks", picks);
        window.type_into("@sitting-measured", length);
        if mark {
            window.click("@sitting-mark_set");
        }
        window.click("@sitting-save");
        window.wait_text("@sitting-summary", &format!("{picks} picks"), 5.0);
    }
    if window.shows("@message-close") {
        window.click("@message-close");
    }
    window.wait("the picture is drawn", 5.0, |window| {
        window.run("return document.querySelectorAll('.warp-svg .woven').length >= 3") == json!(true)
    });
    window.settle();
}

/// Which part has the focus.
fn part(window: &Window) -> String {
    window.run("return document.activeElement.getAttribute('data-stop') ?? ''").as_str().unwrap().to_owned()
}

/// Role and name of what has the focus.
fn focused_part(window: &Window) -> (String, String) {
    let script = "const one = document.activeElement;
                  return [one.getAttribute('role'), (one.getAttribute('aria-label') ?? '').replaceAll('\\u00a0', ' ')]";
    let found = window.run(script);
    (found[0].as_str().unwrap_or_default().to_owned(), found[1].as_str().unwrap_or_default().to_owned())
}

fn walked(options: &WindowOptions, on: Key) {
    let window = TestWindow::with_folder(options);
    full(&window);

    // One stop of the Tab key, which leads to where weaving goes on; the arrows lead to every part, from end to end.
    assert_eq!(window.run("return document.querySelectorAll('.warp-svg [tabindex=\"0\"]').length"), json!(1));
    window.tab_to("@warp-picture [data-sitting]");
    let (role, name) = focused_part(&window);
    assert_eq!(role, "button");
    assert!(name.starts_with("12 cm woven, today") || name.starts_with("19 cm woven, today"), "{name}");
    window.press(Key::Home);
    let mut parts = vec![focused_part(&window)];
    for _ in 0..30 {
        let before = part(&window);
        window.press(on);
        let next = focused_part(&window);
        if part(&window) == before {
            break;
        }
        // What has the focus is described below the picture, and marked in it.
        assert_eq!(window.text("@picture-selected"), next.1);
        assert_eq!(window.run("return document.querySelectorAll('.warp-svg .selected').length"), json!(1));
        parts.push(next);
    }
    println!("{parts:#?}");
    let names: Vec<&str> = parts.iter().map(|(_, name)| name.as_str()).collect();
    for (at, start) in [(0, "loom waste in front"), (1, "fringe"), (2, "20 cm woven, today")] {
        assert!(names[at].starts_with(start), "{names:?}");
    }
    let at = |start: &str| {
        names.iter().position(|name| name.starts_with(start)).unwrap_or_else(|| panic!("{start}: {names:?}"))
    };
    assert!(at("23 cm woven") + 1 == at("mark at 43 cm") && at("mark at") + 1 == at("7 cm woven"), "{names:?}");
    for part in ["mark at 43 cm", "the fell, after 62 cm of cloth", "to weave, piece 2 of 2", "to spare"] {
        assert!(names.iter().any(|name| name.contains(part)), "{part}: {names:?}");
    }
    assert!(names.last().unwrap().starts_with("loom waste behind"), "{names:?}");
    assert_eq!(
        parts.iter().filter(|(role, _)| role == "button").count(),
        4,
        "a sitting goes over two pieces: {parts:?}"
    );
    assert!(
        parts.iter().all(|(role, name)| ["button", "img"].contains(&role.as_str()) && !name.is_empty()),
        "{parts:?}"
    );

    // The same in words, in the same order.
    window.click("@picture-words");
    let list = window
        .run("return [...document.querySelectorAll('.warp-list li')].map(e => e.innerText.replaceAll('\\u00a0', ' '))");
    assert_eq!(list, json!(names));
    assert_eq!(window.axe() + &window.overflow(), "");
    window.scroll_to("@warp-picture");
    window.screenshot(&format!("warp-picture-{}", options.name()));

    // Enter opens the sitting it stands on.
    window.tab_to("@warp-picture [data-stop][tabindex='0']");
    while !focused_part(&window).1.starts_with("20 cm woven, today") {
        window.press(Key::Left);
    }
    window.press(Key::Enter);
    window.wait("the sitting is open", 5.0, |window| window.shows("details[open] @sitting-correct"));
}

#[test]
fn opening_a_sitting_is_offered_only_where_there_is_one() {
    let window = TestWindow::with_folder(&WindowOptions::laptop());
    let help = |window: &Window| {
        window.run("return document.getElementById('warp-arrows')?.textContent ?? ''").as_str().unwrap().to_owned()
    };
    let arrows = "go from part to part";
    // A plan has nothing woven, nor has a warp just begun.
    window.click("@way-wish");
    crate::plan::fill(&window, "length", "180 cm");
    window.wait("the plan is drawn", 5.0, |window| help(window).contains(arrows));
    assert!(!help(&window).contains("Enter"), "{}", help(&window));
    window.click("@way-begin");
    window.begin_warp(&GREY_RUNNER);
    window.wait("the warp is drawn", 5.0, |window| help(window).contains(arrows));
    assert!(!help(&window).contains("Enter"), "{}", help(&window));
    window.log_sitting(&[("picks", "60")]);
    window.wait("a sitting can be opened", 5.0, |window| help(window).contains("Enter opens a sitting"));
}

#[test]
fn it_is_walked_by_keyboard_on_a_laptop() {
    walked(&WindowOptions::laptop(), Key::Right);
}

#[test]
fn it_is_walked_by_keyboard_on_a_phone() {
    walked(&WindowOptions::phone().dark(), Key::Up);
}

/// What a patch looks like without colour: how light it is, and how much it changes along, across and on the two slants.
fn feel(patch: &GrayImage) -> [f64; 5] {
    let (width, height) = patch.dimensions();
    let at = |x: u32, y: u32| f64::from(patch.get_pixel(x, y).0[0]);
    let mut sums = [0.0; 5];
    for y in 1..height - 1 {
        for x in 1..width - 1 {
            let here = at(x, y);
            let change = |x: u32, y: u32| (at(x, y) - here).abs();
            for (sum, value) in sums.iter_mut().zip([
                here,
                change(x + 1, y),
                change(x, y + 1),
                change(x + 1, y + 1),
                change(x + 1, y - 1),
            ]) {
                *sum += value;
            }
        }
    }
    sums.map(|sum| sum / f64::from((width - 2) * (height - 2)))
}

fn apart(one: &[f64; 5], other: &[f64; 5]) -> f64 {
    one.iter().zip(other).map(|(a, b)| (a - b).powi(2)).sum::<f64>().sqrt()
}

/// Each band's kind with what its middle looks like in grey, in order along the warp.
fn greys(window: &Window, name: &str) -> Vec<(String, [f64; 5])> {
    window.scroll_to("@warp-picture");
    let boxes = window.run(
        "document.activeElement?.blur();
         return [...document.querySelectorAll('.warp-svg [data-band]')].map(band => {
           const body = band.querySelector('.band-body').getBoundingClientRect();
           return [band.dataset.band, body.x, body.y, body.width, body.height];
         })",
    );
    let picture = image::open(window.screenshot(name)).unwrap().to_luma8();
    let bands = boxes.as_array().unwrap().iter().filter_map(|band| {
        let [x, y, width, height] = [1, 2, 3, 4].map(|n| band[n].as_f64().unwrap());
        // Clear of edges, the fell's flag and marks.
        let (left, top) = ((x + 5.0) as u32, (y + height * 0.3) as u32);
        let (wide, high) = ((width - 10.0).min(200.0), height * 0.4);
        (wide >= 8.0 && high >= 8.0).then(|| {
            let patch = image::imageops::crop_imm(&picture, left, top, wide as u32, high as u32).to_image();
            (band[0].as_str().unwrap().to_owned(), feel(&patch))
        })
    });
    bands.collect()
}

/// Neighbours differ enough for an eye without colours; and the measure finds no difference where there is none.
fn assert_distinct(bands: &[(String, [f64; 5])]) {
    for pair in bands.windows(2) {
        let [(one, a), (other, b)] = pair else { unreachable!() };
        let far = apart(a, b);
        println!("{one} beside {other}: {far:.1}");
        if one != other || one == "woven" {
            assert!(far > 6.0, "{one} and {other} look alike without colour: {a:?} {b:?}");
        }
    }
    let waste: Vec<_> = bands.iter().filter(|(kind, _)| kind.ends_with("waste")).collect();
    let [first, .., last] = waste.as_slice() else { panic!("two stretches of waste: {bands:?}") };
    assert!(apart(&first.1, &last.1) < 4.0, "the same pattern is the same: {first:?} {last:?}");
}

#[test]
fn it_is_read_without_colour() {
    for options in [WindowOptions::laptop(), WindowOptions::laptop().dark()] {
        let window = TestWindow::with_folder(&options);
        full(&window);
        let bands = greys(&window, &format!("warp-picture-grey-{}", options.name()));
        for kind in ["front_waste", "fringe", "woven", "to_weave", "spare", "back_waste"] {
            assert!(bands.iter().any(|(band, _)| band == kind), "{kind} is wide enough to look at: {bands:?}");
        }
        assert_distinct(&bands);
    }
    // What is missing, beside what it is missing from.
    let window = TestWindow::with_folder(&WindowOptions::laptop());
    let mut figures = GREY_RUNNER.to_vec();
    figures[1] = ("wound", "1.4 m");
    figures[3] = ("wanted", "60 cm");
    begin_with(&window, &figures);
    let bands = greys(&window, "warp-picture-short-laptop");
    assert!(bands.iter().any(|(band, _)| band == "missing"), "{bands:?}");
    assert_distinct(&bands);
}

#[test]
fn it_is_printed_black_on_white_with_its_patterns_and_words() {
    let window = TestWindow::with_folder(&WindowOptions::laptop().dark());
    full(&window);
    // The driver cannot print: what the style sheets say for paper is made to hold on the screen.
    let rules = window.run(
        "let turned = 0;
         const turn = rules => {
           for (const rule of rules) {
             if (rule.media && rule.media.mediaText === 'print') { rule.media.mediaText = 'all'; turned += 1; }
             if (rule.cssRules) turn(rule.cssRules);
           }
         };
         for (const sheet of document.styleSheets) turn(sheet.cssRules);
         return turned",
    );
    assert!(rules.as_u64().unwrap() >= 2, "{rules} style rules are for paper");
    window.settle();
    assert_eq!(window.run("return getComputedStyle(document.documentElement).colorScheme"), json!("light"));
    assert!(!window.shows(".frame, nav, .button"), "nothing to press stands on paper");
    // Every part is there in words: on paper nothing can be pointed at.
    assert!(window.shows(".warp-list li"));
    let bands = greys(&window, "warp-picture-print-laptop");
    assert_distinct(&bands);
    // The lightest of it is paper, the darkest ink.
    let picture = image::open(window.screenshot("warp-picture-print-laptop")).unwrap().to_rgb8();
    let bounds = window.run(
        "const b = document.querySelector('.warp-svg').getBoundingClientRect(); return [b.x, b.y, b.width, b.height]",
    );
    let [x, y, wide, high] = [0, 1, 2, 3].map(|n| bounds[n].as_f64().unwrap() as u32);
    let drawn = image::imageops::crop_imm(&picture, x, y, wide, high).to_image();
    let share = |wanted: fn(&image::Rgb<u8>) -> bool| {
        drawn.pixels().filter(|pixel| wanted(pixel)).count() as f64 / f64::from(wide * high)
    };
    let (white, black) = (share(|p| p.0.iter().all(|c| *c > 240)), share(|p| p.0.iter().all(|c| *c < 60)));
    let coloured = share(|p| p.0.iter().max().unwrap() - p.0.iter().min().unwrap() > 24);
    println!("white {white:.2}, black {black:.2}, coloured {coloured:.3}");
    assert!(white > 0.4 && black > 0.03, "white {white:.2}, black {black:.2}");
    assert!(coloured < 0.01, "{coloured:.3} of it is coloured");
}
