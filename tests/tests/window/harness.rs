//! The checks themselves: what finds no fault must be able to find one.

use fellmark_tests::window::{TestWindow, WindowOptions};

#[test]
fn barriers_and_overflow_are_found() {
    let window = TestWindow::first_start(&WindowOptions::phone());
    window.run(
        "const picture = document.createElement('img');
         picture.src = 'data:,';
         document.body.append(picture);
         const wide = document.createElement('div');
         wide.id = 'wide';
         wide.style.width = '400px';
         wide.textContent = 'too wide';
         document.body.append(wide);",
    );
    let barriers = window.axe();
    assert!(barriers.contains("image-alt"), "{barriers}");
    assert!(window.overflow().contains("div#wide"), "{}", window.overflow());
}

#[test]
fn settings_of_the_system_reach_the_page() {
    let script = "return [navigator.language, matchMedia('(prefers-color-scheme: dark)').matches,
                        matchMedia('(prefers-reduced-motion: reduce)').matches, innerWidth].join(' ')";
    let window = TestWindow::first_start(&WindowOptions::narrowest().dark().reduced_motion().language("de_DE"));
    assert_eq!(window.run(script), "de-DE true true 320");
    let window = window.reopen(&WindowOptions::laptop());
    assert_eq!(window.run(script), "en-GB false false 1280");
}
