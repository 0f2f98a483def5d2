//! A long table: how far it is is shown, it can be stopped, and nothing of it is half there.

use std::fmt::Write;

use fellmark_tests::window::{TestWindow, WindowOptions};

use crate::folder::written_fields;

const ROWS: usize = 10_000;

/// Ten years of evenings. Invented.
fn long_table() -> String {
    let mut text = String::from("Warp,Date,Minutes,Rows,Remarks\n");
    let first = chrono::NaiveDate::from_ymd_opt(2015, 1, 1).unwrap();
    for row in 0..ROWS {
        let day = first + chrono::Days::new((row / 3) as u64);
        let _ = writeln!(text, "Grey runner,{day},{},{},evening {row}", 20 + row % 50, 30 + row % 90);
    }
    text
}

/// Writes down every count that is shown, and presses stop at the first if asked to.
const WATCH: &str = "
    window.counts = [];
    const busy = document.querySelector('[data-part=import-busy]');
    window.watching?.disconnect();
    window.watching = new MutationObserver(() => {
        const count = busy.querySelector('span').textContent;
        if (busy.hidden || !count || window.counts.at(-1) === count) return;
        window.counts.push(count);
        if (window.stopAtOnce) { window.stopAtOnce = false; busy.querySelector('[data-act=stop-import]').click(); }
    });
    window.watching.observe(busy, {subtree: true, childList: true, characterData: true, attributes: true});
    window.stopAtOnce = ";

#[test]
fn a_long_table_shows_how_far_it_is_and_can_be_stopped() {
    let window = TestWindow::with_warp(&WindowOptions::laptop());
    window.click("@nav-folder");
    window.click("@export-import");
    let table = window.device.home().join("ten-years.csv");
    std::fs::write(&table, long_table()).unwrap();

    let watch = |stop: bool| {
        window.run(&format!("{WATCH}{stop}"));
    };
    let counts =
        || -> Vec<String> { serde_json::from_value(window.run("return window.counts")).expect("counts are texts") };

    // While it is looked through, stopped: the table is still there to be read again.
    watch(true);
    window.choose_file("@import-file", &table);
    window.wait_text("@notice", "Stopped. Nothing was brought in.", 20.0);
    assert!(!window.shows("@import-confirm"), "{}", window.page());

    watch(false);
    window.choose("@import-list", "sittings");
    window.wait_text("@import-line", "10000 sittings would be brought in, 0 rows refused.", 20.0);
    let seen = counts();
    println!("looking through {ROWS} rows, {} counts were shown: {:?}", seen.len(), seen.first());
    assert!(seen.len() > 2 && seen.iter().all(|count| count.ends_with("of 10000 rows")), "{seen:?}");
    assert_eq!(seen.last().map(String::as_str), Some("10000 of 10000 rows"));
    assert!(!window.shows("@import-busy"));

    // Stopped while it comes in: nothing of it was written.
    watch(true);
    window.click("@import-confirm");
    window.wait_text("@notice", "Stopped. Nothing was brought in.", 20.0);
    assert!(written_fields(&window.folder, "sitting").is_empty(), "nothing is half there");
    assert!(window.shows("@import-confirm"), "it can be brought in after all");
    window.screenshot("import-long-laptop");

    // Then all of it, as one action.
    watch(false);
    let start = std::time::Instant::now();
    window.click("@import-confirm");
    window.wait_text("@notice", "10000 sittings were brought in", 30.0);
    println!("bringing in {ROWS} rows took {:.1} s", start.elapsed().as_secs_f64());
    let seen = counts();
    assert!(seen.len() > 2, "{seen:?}");
    assert_eq!(written_fields(&window.folder, "sitting").len(), ROWS);
    let acts: std::collections::BTreeSet<String> =
        written_fields(&window.folder, "sitting").iter().map(|set| set["act"].to_string()).collect();
    assert_eq!(acts.len(), 1, "one action, so that one undo takes it back");
    assert_eq!(written_fields(&window.folder, "sitting")[0]["minutes"].as_f64(), Some(20.0));
}
