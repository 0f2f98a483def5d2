//! The instruments themselves: what finds no fault must be able to find one.

use fellmark_tests::window::{Device, Look, Stage};

#[test]
fn barriers_and_overflow_are_found() {
    let _stage = Stage::for_windows(1);
    let window = Device::new().open(&Look::phone());
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
fn the_system_s_wishes_reach_the_page() {
    let _stage = Stage::for_windows(1);
    let device = Device::new();
    let told = "return [navigator.language, matchMedia('(prefers-color-scheme: dark)').matches,
                        matchMedia('(prefers-reduced-motion: reduce)').matches, innerWidth].join(' ')";
    let window = device.open(&Look::narrowest().dark().still().language("de_DE"));
    assert_eq!(window.run(told), "de-DE true true 320");
    window.close();
    assert_eq!(device.open(&Look::laptop()).run(told), "en-GB false false 1280");
}
