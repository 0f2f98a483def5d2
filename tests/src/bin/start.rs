//! How long from the start of the program to the three answers, beside a blank window of the same shell.
//!
//! `start BLANK REAL`: two builds of the program, whose pages set the performance mark `shown` in the first frame that shows
//! something. The real one stands on the invented example. Each is started in turn, and the medians are printed.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use fellmark_tests::window::{Device, Window, WindowOptions, WindowSlots};

const ROUNDS: usize = 15;

fn main() {
    let mut programs = std::env::args().skip(1);
    let (Some(blank), Some(real)) = (programs.next(), programs.next()) else {
        eprintln!("usage: start BLANK REAL");
        return;
    };
    let _slots = WindowSlots::take(1);
    let device = Device::new();
    let options = WindowOptions::laptop().program(real);
    let first = device.open(&options);
    first.click("@begin-example");
    first.wait("the example is shown", 5.0, |window| window.shows("@answer-when-headline"));
    first.close();

    let nothing = WindowOptions::laptop().program(blank);
    let (mut blank, mut real) = (Vec::new(), Vec::new());
    for _ in 0..ROUNDS {
        blank.push(shown_after_ms(&device.open(&nothing)));
        let window = device.open(&options);
        assert!(window.shows("@answer-when-headline"), "the example is shown at the start");
        real.push(shown_after_ms(&window));
    }
    let (blank, real) = (median(&mut blank), median(&mut real));
    println!("a blank window after {blank:.0} ms, the three answers after {real:.0} ms: {:.2} times", real / blank);
    println!("ratio: start to the three answers over a blank window | {:.2} | 1.3", real / blank);
}

fn shown_after_ms(window: &Window) -> f64 {
    // The page can be ready before its first frame is.
    let marked = "return performance.getEntriesByName('shown').length > 0";
    window.wait("the first frame", 5.0, |window| window.run(marked) == true);
    let mark = "return performance.timeOrigin + performance.getEntriesByName('shown')[0].startTime";
    window.run(mark).as_f64().expect("the page was marked") - window.started_at_ms()
}

fn median(times: &mut [f64]) -> f64 {
    times.sort_by(f64::total_cmp);
    times[times.len() / 2]
}
