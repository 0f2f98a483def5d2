//! Photos: by file, dropped and pasted, many at once with progress and a stop, and in order over time.

use fellmark_tests::window::{SlowDisk, TestWindow, Window, WindowOptions, photo};
use serde_json::json;

use crate::folder::{files, written_fields};

/// Photos made in the page, dropped on or pasted into what the selector finds.
fn add(window: &Window, how: &str, selector: &str, count: usize) {
    add_sized(window, how, selector, count, (1600, 1200), 0);
}

/// The same of a size, each unlike those of another beginning.
fn add_sized(window: &Window, how: &str, selector: &str, count: usize, (width, height): (u32, u32), from: usize) {
    let script = format!(
        "const done = arguments[arguments.length - 1];
         (async () => {{
           const data = new DataTransfer();
           for (let n = 0; n < {count}; n += 1) {{
             const canvas = document.createElement('canvas');
             canvas.width = {width};
             canvas.height = {height};
             const pen = canvas.getContext('2d');
             // Noise, so that each takes the time that a photo takes.
             const field = pen.createImageData({width}, {height});
             for (let at = 0; at < field.data.length; at += 1) field.data[at] = at % 4 === 3 ? 255 : (at * (n + 7 + {from})) % 251;
             pen.putImageData(field, 0, 0);
             const blob = await new Promise(made => canvas.toBlob(made, 'image/png'));
             data.items.add(new File([blob], `woven-${{n}}.png`, {{ type: 'image/png' }}));
           }}
           const at = document.querySelector({selector});
           const event = '{how}' === 'drop'
             ? new DragEvent('drop', {{ bubbles: true, cancelable: true, dataTransfer: data }})
             : new ClipboardEvent('paste', {{ bubbles: true, cancelable: true, clipboardData: data }});
           at.dispatchEvent(event);
           done(true);
         }})();",
        selector = json!(selector)
    );
    assert_eq!(window.run_async(&script), json!(true));
}

fn kept(window: &Window) -> u64 {
    window.run("return document.querySelectorAll('.timeline-photos li').length").as_u64().unwrap()
}

#[test]
fn photos_come_by_file_by_drop_and_by_paste_and_are_shown_over_time() {
    let window = TestWindow::with_warp(&WindowOptions::phone());
    for (day, picks, length) in [("2026-11-20", "60", "19 cm"), ("2026-11-21", "62", "40 cm")] {
        window.log_sitting(&[("on", day), ("picks", picks), ("measured", length)]);
        window.wait_text("@sitting-summary", &format!("{picks} picks"), 5.0);
    }
    // On the earlier sitting, in the form of a new one, and on the latest.
    add(&window, "drop", "[data-part=sitting]:last-child summary", 1);
    window.wait("one is kept", 15.0, |window| kept(window) == 1);
    add(&window, "paste", "body", 1);
    window.wait("two are kept", 15.0, |window| kept(window) == 2);
    window.click("@sitting-summary");
    window.choose_file("details[open] @sitting-photos", &photo(window.device.home()));
    window.wait("three are kept", 15.0, |window| kept(window) == 3);
    // The earliest comes first, each with its day and the cloth by then.
    let words = window.text("@photo-timeline");
    assert!(words.find("19 cm").unwrap() < words.find("40 cm").unwrap(), "{words}");
    assert_eq!(window.overflow(), "", "the photos over time scroll within their list");
    assert_eq!(window.axe(), "", "the photos over time");
    window.run("document.querySelector('.photo-timeline').scrollIntoView()");
    window.screenshot("photos-over-time-phone");
    assert_eq!(written_fields(&window.folder, "photo").len(), 3);
}

#[test]
fn thirty_are_kept_with_progress_and_are_shown_as_bands_and_over_time() {
    const MANY: usize = 30;
    let window = TestWindow::with_warp(&WindowOptions::phone());
    // Two sittings before, each with a photo of its own: they are shown over time.
    for (day, picks, length) in [("2026-11-18", "60", "20 cm"), ("2026-11-20", "60", "40 cm")] {
        window.click("@log");
        window.type_into("@sitting-on", day);
        window.type_into("@sitting-picks", picks);
        window.type_into("@sitting-measured", length);
        add(&window, "drop", "[data-part=sitting-drop]", 1);
        window.click("@sitting-save");
        window.wait_text("@sitting-summary", &format!("{length} from the start"), 5.0);
    }
    window.wait("both are kept", 15.0, |window| kept(window) == 2);
    window.click("@log");
    window.type_into("@sitting-picks", "60");
    window.type_into("@sitting-measured", "60 cm");
    // Several drops, as from several folders; each picture is one of its own.
    for batch in 0..5 {
        add_sized(&window, "drop", "[data-part=sitting-drop]", MANY / 5, (640, 480), 100 + 10 * batch);
    }
    window.wait("all are chosen", 10.0, |window| {
        window.run("return document.querySelectorAll('[data-part=sitting-chosen] li').length") == json!(MANY)
    });
    window.click("@sitting-save");
    window.wait("progress is shown", 10.0, |window| window.shows("#photo-progress progress"));
    let bar =
        "const bar = document.querySelector('#photo-progress progress'); return bar ? [bar.value, bar.max] : null";
    let first = window.run(bar);
    assert_eq!(first[1], json!(MANY), "{first}");
    window.screenshot("photos-many-phone");
    // Stopped and gone on with: nothing is lost or kept twice, and the window answers all the while.
    window.click("[data-act=photos-stop]");
    window.wait("what is left is offered again", 20.0, |window| window.shows("[data-act=photos-again]"));
    let stopped = written_fields(&window.folder, "photo").len() - 2;
    assert!((1..MANY).contains(&stopped), "{stopped} were kept before the stop");
    assert!(
        window.text("#photo-progress").contains(&(MANY - stopped).to_string()),
        "{}",
        window.text("#photo-progress")
    );
    window.click("[data-act=photos-again]");
    window.wait("all are kept", 60.0, |_| written_fields(&window.folder, "photo").len() == MANY + 2);
    window.wait("all are shown over time", 15.0, |window| kept(window) == MANY as u64 + 2);
    assert!(!window.shows("#photo-progress progress"), "the progress is gone when all are kept");
    let hashes: std::collections::BTreeSet<String> = written_fields(&window.folder, "photo")
        .iter()
        .map(|photo| photo["hash"].as_str().unwrap().to_owned())
        .collect();
    assert!(hashes.len() > MANY, "each is its own picture: {}", hashes.len());

    // Every sitting's band shows one of its photos, drawn and not broken.
    window.wait("three bands have a picture", 10.0, |window| {
        window.run("return document.querySelectorAll('.warp-svg .woven image').length") == json!(3)
    });
    let broken = window.run_async(
        "const done = arguments[arguments.length - 1];
         Promise.all([...document.querySelectorAll('.warp-svg image')].map(band => new Promise(resolve => {
           const image = new Image();
           image.onload = () => resolve(image.naturalWidth > 0 ? null : band.getAttribute('href'));
           image.onerror = () => resolve(band.getAttribute('href'));
           image.src = band.getAttribute('href');
         }))).then(all => done(all.filter(one => one)))",
    );
    assert_eq!(broken, json!([]));
    // In order of time, each with its day and the cloth by then.
    let words = window.text("@photo-timeline");
    let at = |text: &str| words.find(text).unwrap_or_else(|| panic!("{text}: {words}"));
    assert!(at("20 cm") < at("40 cm") && at("40 cm") < at("60 cm"), "{words}");
    assert_eq!(window.overflow() + &window.axe(), "");
    window.scroll_to("@warp-picture");
    window.screenshot("photos-bands-phone");
}

#[test]
fn many_are_kept_with_progress_and_can_be_stopped() {
    let window = TestWindow::with_warp(&WindowOptions::laptop());
    window.click("@log");
    window.type_into("@sitting-picks", "60");
    add(&window, "drop", "[data-part=sitting-drop]", 6);
    window.wait("six are chosen", 10.0, |window| {
        window.run("return document.querySelectorAll('[data-part=sitting-chosen] li').length") == json!(6)
    });
    window.click("@sitting-save");
    window.wait("progress is shown", 10.0, |window| window.shows("#photo-progress progress"));
    window.click("[data-act=photos-stop]");
    window.wait("what is left is offered again", 15.0, |window| window.shows("[data-act=photos-again]"));
    let first = written_fields(&window.folder, "photo").len();
    assert!((1..6).contains(&first), "{first} were kept before the stop");
    window.click("[data-act=photos-again]");
    window.wait("all are kept", 30.0, |_| written_fields(&window.folder, "photo").len() == 6);
}

/// A disk that does not answer stands for a picture that takes long: neither holds up what is counted at the loom.
#[test]
fn taps_do_not_wait_for_a_picture() {
    let window = TestWindow::with_warp(&WindowOptions::laptop());
    window.log_sitting(&[("picks", "60"), ("measured", "19 cm")]);
    window.wait_text("@sitting-summary", "60 picks", 5.0);
    add_sized(&window, "drop", "[data-part=sitting]:last-child summary", 1, (640, 480), 0);
    window.wait("it is kept", 15.0, |window| kept(window) == 1);
    let stored: Vec<_> = files(&window.folder)
        .into_iter()
        .filter(|file| file.extension().is_some_and(|ending| ending == "jpg"))
        .collect();
    assert_eq!(stored.len(), 1);
    let Some(disk) = SlowDisk::holding(&stored) else { return };
    window.run(
        "const small = document.querySelector('.timeline-photos img').src;
         window.picture = new Image();
         window.picture.src = small.replace(/small$/, 'large');
         window.picture.decode().then(() => { window.pictureIs = 'shown'; }, () => { window.pictureIs = 'not shown'; });",
    );
    window.start_weaving();
    window.press_space(5);
    window.wait_for_count(5);
    assert_eq!(window.run("return window.pictureIs ?? 'awaited'"), json!("awaited"), "the disk answered too soon");
    drop(disk);
    window.wait("the picture is shown", 15.0, |window| window.run("return window.pictureIs") == json!("shown"));
}
