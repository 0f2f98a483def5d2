//! Exporting and importing files.

use fellmark_tests::window::{TestWindow, WindowOptions};
use serde_json::json;

#[test]
fn a_table_is_seen_before_it_comes_in_and_goes_with_one_undo() {
    let window = TestWindow::with_warp(&WindowOptions::laptop());
    window.click("@nav-folder");
    window.click("@export-import");
    let table = window.device.home().join("old.csv");
    std::fs::write(&table, "Date,Minutes,Rows\n2026-10-01,40,90\n2026-10-02,fifty,80\n2026-10-04,35,70\n").unwrap();
    window.choose_file("@import-file", &table);
    window.wait_text("@import-line", "0 sittings would be brought in, 3 rows refused.", 5.0);
    let warp = window.run("return document.querySelector('[data-part=import-warp]').options[1].value");
    window.choose("@import-warp", warp.as_str().unwrap());
    window.wait_text("@import-line", "2 sittings would be brought in, 1 row refused.", 5.0);
    window.wait_text("@import-refused", "Line 3: Minutes", 5.0);
    window.screenshot("import-laptop");
    let wrong = window.overflow() + &window.axe();
    assert!(wrong.is_empty(), "{wrong}");
    window.click("@import-confirm");
    window.wait_text("@notice", "2 sittings were brought in", 5.0);
    window.wait_text("@undo", "2 sittings were brought in", 5.0);
    window.click("@undo");
    window.wait("it is taken back as a whole", 5.0, |window| !window.text("@undo").contains("brought in"));
}

/// What was understood of a table is read on a phone without guessing, and its lists look like the rest of the interface.
fn read_on(options: &WindowOptions, large: bool) {
    let window = TestWindow::with_warp(options);
    window.click("@nav-folder");
    window.click("@export-import");
    if large {
        window.enlarge_text();
    }
    let table = window.device.home().join("scarves.csv");
    let rows = "Name,Started,Finished,Width (cm),Length (cm),Notes\n\
        Grey scarf,2025-03-01,2025-04-02,25,180,first with the new heddle and rather too tight at the edges\n\
        Blue towels,2025-05-10,2025-05-30,40,210,\n";
    std::fs::write(&table, rows).unwrap();
    window.choose_file("@import-file", &table);
    window.wait_text("@import-line", "2 warps would be brought in", 5.0);
    window.scroll_to("@import-rows");
    window.settle();
    let size = if large { "-large" } else { "" };
    window.screenshot(&format!("import-rows-{}{size}", options.name()));
    let lines = window.run(
        "return [...document.querySelectorAll('[data-part=import-rows] td')].filter(e => e.innerText.includes('off the loom'))
             .map(e => e.querySelector('.import-cell')).map(e => {
                 const range = document.createRange();
                 range.selectNodeContents(e);
                 return new Set([...range.getClientRects()].map(box => Math.round(box.top))).size;
             })",
    );
    let line_counts = lines.as_array().unwrap();
    // A cell that holds nothing is not seen, and still counts, so that those after it keep their headings.
    let cells = "return [...document.querySelectorAll('[data-part=import-rows] [role=row]')]
                     .map(row => [...row.children].filter(cell => getComputedStyle(cell).display !== 'none').length)";
    assert_eq!(window.run(cells), json!([6, 6, 6]));
    assert!(line_counts.len() == 2 && line_counts.iter().all(|n| n.as_u64().unwrap() <= 2), "{lines}");
    window.scroll_to("@import-column");
    window.screenshot(&format!("import-columns-{}{size}", options.name()));
    let own = "const one = getComputedStyle(document.querySelector('[data-part=import-column]'));
               const field = getComputedStyle(document.querySelector('[data-part=export-folder]'));
               return [one.appearance, one.backgroundColor === field.backgroundColor, one.color === field.color]";
    assert_eq!(window.run(own), json!(["none", true, true]));
    let over = "return [...document.querySelectorAll('.import-table .cell-name')].filter(e => {
                    const [one, other] = [e, e.nextElementSibling].map(part => {
                        const range = document.createRange();
                        range.selectNodeContents(part);
                        return range.getBoundingClientRect();
                    });
                    return one.width > 0 && one.right > other.left && one.bottom > other.top + 1;
                }).length";
    assert_eq!(window.run(over), json!(0), "the name of a column covers what was read");
    assert_eq!(window.overflow(), "");
    if !large {
        assert_eq!(window.axe(), "");
    }
}

#[test]
fn a_table_is_read_on_a_phone() {
    read_on(&WindowOptions::phone(), false);
}

#[test]
fn a_table_is_read_on_a_phone_in_the_dark() {
    read_on(&WindowOptions::phone().dark(), false);
}

#[test]
fn a_table_is_read_on_a_phone_with_large_text() {
    read_on(&WindowOptions::phone(), true);
}

#[test]
fn lists_sheet_and_pictures_are_written_as_files() {
    let window = TestWindow::with_example(&WindowOptions::phone());
    window.click("@nav-folder");
    window.click("@export-import");
    let out = window.device.folder("out");
    window.type_into("@export-folder", out.to_str().unwrap());
    for (what, name) in [
        ("sittings", "fellmark-sittings.csv"),
        ("warps", "fellmark-warps.csv"),
        ("wefts", "fellmark-wefts.csv"),
        ("finishing", "fellmark-finishing.csv"),
        ("photos", "fellmark-photos.csv"),
        ("pace", "fellmark-pace.csv"),
        ("sheet", "moss-and-walnut-scarf-invented.html"),
        ("progress", "moss-and-walnut-scarf-invented.svg"),
        ("progress-png", "moss-and-walnut-scarf-invented.png"),
    ] {
        window.click(&format!("[data-what={what}]"));
        window.wait(&format!("{name} is written"), 8.0, |_| {
            std::fs::metadata(out.join(name)).is_ok_and(|file| file.len() > 200)
        });
    }
    // The example may have nothing in these; their headings stand all the same.
    for (what, heading) in [
        ("readings", "measured_mm"),
        ("weighings", "left_g"),
        ("joins", "weft"),
        ("places", "section"),
        ("plans", "sett_ends_per_10cm"),
    ] {
        window.click(&format!("[data-what={what}]"));
        let file = out.join(format!("fellmark-{what}.csv"));
        window.wait(&format!("{what} are written"), 8.0, |_| {
            std::fs::read_to_string(&file)
                .is_ok_and(|text| text.lines().next().is_some_and(|line| line.contains(heading)))
        });
    }
    let sheet = std::fs::read_to_string(out.join("moss-and-walnut-scarf-invented.html")).unwrap();
    assert!(sheet.contains("data:image/jpeg;base64,") && !sheet.contains("<script"), "a page that needs nothing else");
    let png = image::open(out.join("moss-and-walnut-scarf-invented.png")).unwrap();
    assert_eq!((png.width(), png.height()), (1080, 720));
    // The picture is drawn, not blank: the ground, the cloth and the fell are there.
    let colours: std::collections::BTreeSet<[u8; 4]> = png.to_rgba8().pixels().map(|pixel| pixel.0).collect();
    assert!(colours.len() > 8 && colours.contains(&[0xf3, 0xee, 0xe2, 0xff]), "{} colours", colours.len());
    assert_eq!(window.overflow(), "");

    window.click("@nav-pace");
    window.wait("the pictures are drawn", 5.0, |window| window.shows("@chart-within svg"));
    assert_eq!(window.run("return document.querySelectorAll('[data-act=save-chart]').length"), json!(3));
    // The pictures of pace go into a folder too: the system's own dialog cannot be driven.
    window.click(".pace-pictures summary");
    window.type_into("@pace-folder", out.to_str().unwrap());
    for chart in ["length", "split", "within"] {
        window.click(&format!("[data-act=save-chart][data-chart={chart}]"));
        let name = format!("fellmark-pace-{chart}.svg");
        window.wait(&format!("{name} is written"), 8.0, |_| {
            std::fs::read_to_string(out.join(&name)).is_ok_and(|svg| svg.ends_with("</svg>"))
        });
        let svg = std::fs::read_to_string(out.join(&name)).unwrap();
        assert!(svg.starts_with("<svg") && svg.contains("fill=\"#") && !svg.contains("class="), "colours of its own");
    }
    window.wait_text("@notice", "fellmark-pace-within.svg", 5.0);
    window.type_into("@pace-folder", out.join("missing").to_str().unwrap());
    window.click("[data-act=save-chart][data-chart=length]");
    window.wait_text("@trouble", "cannot be written", 5.0);
}
