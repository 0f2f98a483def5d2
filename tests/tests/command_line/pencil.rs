//! What a weaver checks with a pencil: each figure is worked out by hand from the formula beside it, not by the program, and asked for
//! through the command line. `cargo test -p fellmark-tests --test command_line pencil -- --nocapture` prints the table.

use fellmark_tests::command_line::CommandLineDevice;
use serde_json::Value;

/// One check.
struct Check {
    name: &'static str,
    /// What is written into the log before; each text is a command, its arguments parted by " | ".
    before: &'static [&'static str],
    /// The question, its arguments parted by " | ".
    ask: &'static str,
    /// Where the figure stands in the answer (a JSON pointer).
    at: &'static str,
    expected: f64,
    /// How far the figure may be from the expected one, in its unit.
    within: f64,
    formula: &'static str,
    source: &'static str,
}

const ASTM: &str = "ASTM D2260-03(2013) Table 1: tex = constant / count";
const TEX: &str = "ISO 1144, ISO 2947: tex = g per km";
const DEFINITION: &str = "definition";

/// 100 ends of 270 cm: 180 cm finished, 10 % in the wash, 110 of warp for 100 off the loom, 50 cm of waste.
macro_rules! scarf {
    ($rest:literal) => {
        concat!(
            "plan | --length | 180 cm | --reed-width | 25.4 cm | --waste | 50 cm | --shrinkage | 10 | --warp-per-100 | 110 | ",
            $rest
        )
    };
}

/// A warp of 250 cm with 45 cm of waste, 40 picks per 10 cm and 110 of warp for 100 of cloth, for a length wanted in a state.
macro_rules! loom {
    ($state:literal, $wanted:literal) => {
        concat!(
            "begin | Scarf | --begun | 2026-11-20 | --wound | 250 cm | --waste | 45 cm | --picks | 40 | --warp-per-100 | 110 | --wanted | ",
            $wanted,
            " | --wanted-state | ",
            $state
        )
    };
}

const TIGHT: &str = "log | Scarf | --on | 2026-11-21 | --picks | 400 | --minutes | 120 | --measured | 100 cm";
/// The same cloth, tension let off.
const RELAXED: &str = "log | Scarf | --on | 2026-11-22 | --measured | 95 cm | --tension | relaxed";
const CASES: &str = "single measured cases of other weavers; priors only";
const RELAXATION: &str = "loss off the loom where nothing is known: a judgement from reported cases, no source";

const CHECKS: &[Check] = &[
    Check {
        name: "Warp to wind",
        before: &[],
        ask: scarf!("--sett | 10 epi"),
        at: "/plan/plain/warp_exact_mm",
        expected: 2700.0,
        within: 0.1,
        formula: "180 / 0.9 x 1.10 + 50 cm",
        source: DEFINITION,
    },
    Check {
        name: "Warp yarn of 8/2 cotton",
        before: &[],
        ask: scarf!("--sett | 10 epi | --warp-count | 8/2 cotton"),
        at: "/plan/plain/warp_yarn_g",
        expected: 39.86,
        within: 0.01,
        formula: "100 ends x 2.70 m x 2 x 590.54125 / 8 tex / 1000",
        source: ASTM,
    },
    Check {
        name: "Warp yarn of 2/20 cotton, strands first",
        before: &[],
        ask: scarf!("--sett | 10 epi | --warp-count | 2/20 cotton"),
        at: "/plan/plain/warp_yarn_g",
        expected: 15.94,
        within: 0.01,
        formula: "270 m x 2 x 590.54125 / 20 tex / 1000",
        source: ASTM,
    },
    Check {
        name: "Warp yarn of 16/2 linen",
        before: &[],
        ask: scarf!("--sett | 10 epi | --warp-count | 16/2 linen"),
        at: "/plan/plain/warp_yarn_g",
        expected: 55.81,
        within: 0.01,
        formula: "270 m x 2 x 1653.5155 / 16 tex / 1000",
        source: ASTM,
    },
    Check {
        name: "Warp yarn of 30/2 linen lea",
        before: &[],
        ask: scarf!("--sett | 10 epi | --warp-count | 30/2 linen lea"),
        at: "/plan/plain/warp_yarn_g",
        expected: 29.76,
        within: 0.01,
        formula: "270 m x 2 x 1653.5155 / 30 tex / 1000",
        source: ASTM,
    },
    Check {
        name: "Warp yarn of 16/1 NeL",
        before: &[],
        ask: scarf!("--sett | 10 epi | --warp-count | 16/1 NeL"),
        at: "/plan/plain/warp_yarn_g",
        expected: 27.90,
        within: 0.01,
        formula: "270 m x 1653.5155 / 16 tex / 1000",
        source: ASTM,
    },
    Check {
        name: "Warp yarn of 2/24 worsted",
        before: &[],
        ask: scarf!("--sett | 10 epi | --warp-count | 2/24 worsted"),
        at: "/plan/plain/warp_yarn_g",
        expected: 19.93,
        within: 0.01,
        formula: "270 m x 2 x 885.81187 / 24 tex / 1000",
        source: ASTM,
    },
    Check {
        name: "Warp yarn of Nm 2/28 merino",
        before: &[],
        ask: scarf!("--sett | 10 epi | --warp-count | Nm 2/28 merino"),
        at: "/plan/plain/warp_yarn_g",
        expected: 19.29,
        within: 0.01,
        formula: "270 m x 2 / 28 g/m",
        source: ASTM,
    },
    Check {
        name: "Warp yarn of 60/2 Nm silk keeps its strands",
        before: &[],
        ask: scarf!("--sett | 10 epi | --warp-count | 60/2 Nm silk"),
        at: "/plan/plain/warp_yarn_g",
        expected: 9.0,
        within: 0.01,
        formula: "270 m x 2 / 60 g/m",
        source: "ASTM D2260; dealers' 14 880 yd/lb for 60/2, from memory",
    },
    Check {
        name: "Warp yarn of R 60 tex/2: the count is the whole yarn's",
        before: &[],
        ask: scarf!("--sett | 10 epi | --warp-count | R 60 tex/2"),
        at: "/plan/plain/warp_yarn_g",
        expected: 16.2,
        within: 0.01,
        formula: "270 m x 60 tex / 1000",
        source: "ISO 1139 (from memory), ISO 2947",
    },
    Check {
        name: "Warp yarn of 1700 ypp",
        before: &[],
        ask: scarf!("--sett | 10 epi | --warp-count | 1700 ypp"),
        at: "/plan/plain/warp_yarn_g",
        expected: 78.79,
        within: 0.01,
        formula: "270 m x 496054.65 / 1700 tex / 1000",
        source: ASTM,
    },
    Check {
        name: "Warp yarn of 100 g in 400 m",
        before: &[],
        ask: scarf!("--sett | 10 epi | --warp-count | 100 g in 400 m"),
        at: "/plan/plain/warp_yarn_g",
        expected: 67.5,
        within: 0.01,
        formula: "270 m x 100 / 400 g/m",
        source: TEX,
    },
    Check {
        name: "Ends at 12 1/2 epi",
        before: &[],
        ask: scarf!("--sett | 12 1/2 epi"),
        at: "/plan/plain/ends",
        expected: 125.0,
        within: 0.0,
        formula: "25.4 cm / 2.54 x 12.5",
        source: DEFINITION,
    },
    Check {
        name: "Ends in a 12.5-dent heddle",
        before: &[],
        ask: scarf!("--sett | 12.5 dent"),
        at: "/plan/plain/ends",
        expected: 125.0,
        within: 0.0,
        formula: "10 in x 12.5; a slot and a hole carry one end each",
        source: "common practice, no source",
    },
    Check {
        name: "Ends at 10 ends per inch",
        before: &[],
        ask: scarf!("--sett | 10 ends per inch"),
        at: "/plan/plain/ends",
        expected: 100.0,
        within: 0.0,
        formula: "10 in x 10",
        source: DEFINITION,
    },
    Check {
        name: "Ends in a 40/10 heddle",
        before: &[],
        ask: scarf!("--sett | 40/10 heddle"),
        at: "/plan/plain/ends",
        expected: 102.0,
        within: 0.0,
        formula: "25.4 cm x 40 / 10 cm = 101.6, to whole ends",
        source: DEFINITION,
    },
    Check {
        name: "Cloth under tension for 100 cm wanted under tension",
        before: &[loom!("under_tension", "100 cm")],
        ask: "answers | Scarf",
        at: "/answers/0/figures/wanted_mm",
        expected: 1000.0,
        within: 0.1,
        formula: "100 cm",
        source: DEFINITION,
    },
    Check {
        name: "Cloth under tension for 100 cm wanted off the loom, nothing known",
        before: &[loom!("off_loom", "100 cm")],
        ask: "answers | Scarf",
        at: "/answers/0/figures/wanted_mm",
        expected: 1052.6,
        within: 0.1,
        formula: "100 / (1 - 0.05) cm",
        source: RELAXATION,
    },
    Check {
        name: "Woven, read 100 cm tight and then 95 cm relaxed",
        before: &[loom!("off_loom", "150 cm"), TIGHT, RELAXED],
        ask: "answers | Scarf",
        at: "/answers/0/figures/woven_mm",
        expected: 1000.0,
        within: 0.1,
        formula: "the same cloth: 100 cm under tension",
        source: DEFINITION,
    },
    Check {
        name: "Still to weave of 150 cm off the loom, read tight and relaxed",
        before: &[loom!("off_loom", "150 cm"), TIGHT, RELAXED],
        ask: "answers | Scarf",
        at: "/answers/0/figures/to_weave_mm",
        expected: 578.9,
        within: 0.1,
        formula: "150 x 100 / 95 - 100 cm",
        source: DEFINITION,
    },
    Check {
        name: "Picks still to weave of 150 cm under tension after a relaxed reading",
        before: &[loom!("under_tension", "150 cm"), TIGHT, RELAXED],
        ask: "answers | Scarf",
        at: "/answers/0/figures/to_weave_picks",
        expected: 200.0,
        within: 0.0,
        formula: "50 cm x 400 picks / 100 cm",
        source: DEFINITION,
    },
    Check {
        name: "Warp left after a relaxed reading of the same cloth",
        before: &[loom!("under_tension", "150 cm"), TIGHT, RELAXED],
        ask: "answers | Scarf",
        at: "/answers/0/figures/warp_left_mm",
        expected: 950.0,
        within: 0.5,
        formula: "250 - 45 - 100 x 1.10 cm",
        source: DEFINITION,
    },
    Check {
        name: "Woven, read 95 cm relaxed only",
        before: &[
            loom!("under_tension", "150 cm"),
            "log | Scarf | --picks | 400 | --measured | 95 cm | --tension | relaxed",
        ],
        ask: "answers | Scarf",
        at: "/answers/0/figures/woven_mm",
        expected: 1000.0,
        within: 0.1,
        formula: "95 / (1 - 0.05) cm",
        source: RELAXATION,
    },
    Check {
        name: "Cloth under tension for 90 cm off the loom, after a warp that lost a tenth",
        before: &[
            "begin | Earlier | --begun | 2026-10-01 | --wound | 300 cm | --picks | 40",
            "log | Earlier | --on | 2026-10-02 | --picks | 800 | --measured | 200 cm",
            "cut-off | Earlier | --on | 2026-10-03 | --off-loom | 180 cm",
            loom!("off_loom", "90 cm"),
        ],
        ask: "answers | Scarf",
        at: "/answers/0/figures/wanted_mm",
        expected: 1000.0,
        within: 0.1,
        formula: "90 x 200 / 180 cm",
        source: DEFINITION,
    },
    Check {
        name: "Cloth to weave under tension in a plan",
        before: &[],
        ask: scarf!("--sett | 10 epi"),
        at: "/plan/plain/woven_mm",
        expected: 2105.3,
        within: 0.1,
        formula: "180 / 0.9 / (1 - 0.05) cm",
        source: RELAXATION,
    },
    Check {
        name: "Picks per 10 cm after eight picks in 2 cm, planned 45",
        before: &[
            "begin | Scarf | --begun | 2026-11-20 | --wound | 250 cm | --picks | 45",
            "log | Scarf | --picks | 8 | --measured | 2 cm",
        ],
        ask: "answers | Scarf",
        at: "/answers/0/figures/picks_per_10cm",
        expected: 44.0,
        within: 0.01,
        formula: "8 picks in 2 cm and 4.5 a cm for the other 8 of 10 cm",
        source: "threads are counted over 10 cm: ISO 7211-2, from memory",
    },
    Check {
        name: "Picks per 10 cm after 400 picks in 100 cm, planned 45",
        before: &["begin | Scarf | --begun | 2026-11-20 | --wound | 250 cm | --picks | 45", TIGHT],
        ask: "answers | Scarf",
        at: "/answers/0/figures/picks_per_10cm",
        expected: 40.0,
        within: 0.01,
        formula: "400 / 100 cm x 10 cm",
        source: DEFINITION,
    },
    Check {
        name: "Woven, where the tape is said to show 9,999 cm on a warp of 250 cm",
        before: &[
            loom!("under_tension", "150 cm"),
            "log | Scarf | --on | 2026-11-21 | --picks | 400 | --measured | 9999 cm",
        ],
        ask: "answers | Scarf",
        at: "/answers/0/figures/woven_mm",
        expected: 1000.0,
        within: 0.1,
        formula: "400 picks / 40 x 10 cm",
        source: DEFINITION,
    },
    Check {
        name: "Sittings in Pace of one that crosses the border",
        before: &[
            "begin | Scarf | --begun | 2026-11-20 | --wound | 250 cm | --picks | 40 | --opening-row | up | --opening-row | down \
             | --repeat-row | up | --repeat-row | stick | --repeat-row | up | --repeat-row | down",
            "log | Scarf | --on | 2026-11-21 | --picks | 40 | --minutes | 60",
        ],
        ask: "pace",
        at: "/pace/rows/0/sittings",
        expected: 1.0,
        within: 0.0,
        formula: "one sitting was logged",
        source: DEFINITION,
    },
    Check {
        name: "Warp of 180 cm finished, cotton washed, no history",
        before: &[],
        ask: "plan | --length | 180 cm | --fibre | cotton | --waste | 50 cm | --warp-per-100 | 110",
        at: "/plan/plain/warp_exact_mm",
        expected: 2700.0,
        within: 0.1,
        formula: "180 / (1 - 0.10) x 1.10 + 50 cm; median of 8, 10 and 18 %",
        source: CASES,
    },
    Check {
        name: "Warp of 180 cm finished, wool washed, no history",
        before: &[],
        ask: "plan | --length | 180 cm | --fibre | wool | --waste | 50 cm | --warp-per-100 | 110",
        at: "/plan/plain/warp_exact_mm",
        expected: 2829.4,
        within: 0.1,
        formula: "180 / (1 - 0.15) x 1.10 + 50 cm; 10 to 20 %, its middle",
        source: "common practice, no source",
    },
    Check {
        name: "Warp of 180 cm finished, wool fulled",
        before: &[],
        ask: "plan | --length | 180 cm | --fibre | wool | --finish | fulled | --waste | 50 cm | --warp-per-100 | 110",
        at: "/plan/plain/warp_exact_mm",
        expected: 2802.3,
        within: 0.1,
        formula: "180 / (1 - 0.14) x 1.10 + 50 cm; one case of 14 %",
        source: CASES,
    },
    Check {
        name: "Warp of 180 cm finished, of 16/2 linen by its size's name",
        before: &[],
        ask: "plan | --length | 180 cm | --warp-count | 16/2 linen | --waste | 50 cm | --warp-per-100 | 110",
        at: "/plan/plain/warp_exact_mm",
        expected: 2567.9,
        within: 0.1,
        formula: "180 / (1 - 0.0425) x 1.10 + 50 cm; 2.5 to 6 %, its middle",
        source: CASES,
    },
    Check {
        name: "Width in the reed of 20 cm finished, wool fulled",
        before: &[],
        ask: "plan | --width | 20 cm | --fibre | wool | --finish | fulled | --sett | 40",
        at: "/plan/plain/reed_width_mm",
        expected: 307.5,
        within: 0.1,
        formula: "20 / (1 - 0.35) = 30.77 cm, 123 whole ends at 4 a cm",
        source: CASES,
    },
    Check {
        name: "Cloth under tension for a warp begun with 90 cm finished, cotton",
        before: &["begin | Scarf | --wound | 250 cm | --picks | 40 | --wanted | 90 cm | --fibre | cotton"],
        ask: "answers | Scarf",
        at: "/answers/0/figures/wanted_mm",
        expected: 1052.6,
        within: 0.1,
        formula: "90 / (1 - 0.05) / (1 - 0.10) cm",
        source: CASES,
    },
];

fn arguments(line: &str) -> Vec<&str> {
    line.split(" | ").collect()
}

/// The figure that a check asks for; the sentence where the program refuses.
fn figure(check: &Check) -> Result<f64, String> {
    let device = CommandLineDevice::new("pencil");
    for line in check.before {
        let _ = device.json(&arguments(line));
    }
    let output = device.run(&[&["--json"], &*arguments(check.ask)].concat());
    if !output.status.success() {
        return Err(String::from_utf8_lossy(&output.stderr).into_owned());
    }
    let answer: Value = serde_json::from_slice(&output.stdout).map_err(|error| error.to_string())?;
    let found = answer.pointer(check.at);
    // Tables hold figures as they are shown.
    let figure = found.and_then(Value::as_f64).or_else(|| found.and_then(Value::as_str)?.parse().ok());
    figure.ok_or_else(|| format!("nothing at {}: {answer}", check.at))
}

#[test]
fn every_figure_is_what_the_pencil_says() {
    println!("| check | by hand | Fellmark | formula | source |\n| --- | --- | --- | --- | --- |");
    let mut wrong = Vec::new();
    for check in CHECKS {
        let found = figure(check);
        let Check { name, expected, within, formula, source, .. } = check;
        let shown = found.as_ref().map_or_else(Clone::clone, |figure| format!("{figure:.3}"));
        println!("| {name} | {expected} | {shown} | {formula} | {source} |");
        if !found.is_ok_and(|figure| (figure - expected).abs() <= *within) {
            wrong.push(format!("{name}: {shown}, not {expected} ({formula})"));
        }
    }
    assert!(wrong.is_empty(), "{} of {} are wrong:\n{}", wrong.len(), CHECKS.len(), wrong.join("\n"));
}

/// A fraction alone is a different yarn in each system; what cannot be a yarn or a sett for weaving is questioned.
#[test]
fn a_bare_fraction_asks_for_its_system_and_nothing_implausible_passes_silently() {
    let device = CommandLineDevice::new("laptop");
    for count in ["8/2", "2/8", "20/2", "2/28 wool", "8"] {
        let ask = [&arguments(scarf!("--sett | 10 epi | --warp-count"))[..], &[count]].concat();
        let sentence = device.refused(&ask, 2);
        assert!(sentence.starts_with("--warp-count") && sentence.contains("say"), "{count}: {sentence}");
    }
    for (figures, asked) in [
        (scarf!("--sett | 10 epi | --warp-count | 8 m/100 g"), "thicker than any weaving yarn"),
        (scarf!("--sett | 10"), "2.5 per inch, is more open than hand looms are warped"),
    ] {
        let warnings = device.json(&arguments(figures))["plan"]["warnings"].to_string();
        assert!(warnings.contains(asked), "{warnings}");
    }
}

/// Every yarn number and sett that is read is shown as it was read.
#[test]
fn what_is_read_is_echoed() {
    let device = CommandLineDevice::new("laptop");
    for (figures, echo) in [
        (scarf!("--sett | 10 epi | --warp-count | 8/2 cotton"), "--warp-count is read as 8/2 cotton: 148 tex, 6.8 m/g"),
        (scarf!("--sett | 40/10 heddle"), "--sett is read as 40 ends per 10 cm (10.16 per inch)"),
        (scarf!("--sett | 10 epi | --warp-count | 20/2 silk"), "20/2 Nm: 100 tex, 10 m/g (the usual count of silk"),
        (scarf!("--sett | 10 epi | --weft-count | 400 m/100 g"), "--weft-count is read as 250 tex, 4 m/g"),
    ] {
        let text = device.text(&arguments(figures));
        assert!(text.contains(echo), "{echo} in {text}");
    }
}

/// What cannot be meant is questioned or left out of what is learned, and stays in the log.
#[test]
fn implausible_figures_are_questioned_and_kept() {
    let device = CommandLineDevice::new("laptop");
    let run = |line: &str| device.json(&arguments(line));
    let _ = run(loom!("under_tension", "150 cm"));
    let _ = run("log | Scarf | --on | 2026-11-21 | --picks | 400 | --measured | 9999 cm");
    let answer = device.text(&["answers", "Scarf"]);
    assert!(answer.contains("kept and not used"), "{answer}");
    assert!(device.text(&["sittings", "Scarf"]).contains("9999 cm"));
    // Thrums that leave (300 - 20 - 24) cm of warp for 100 cm of cloth.
    let _ = run("begin | Short | --begun | 2026-10-01 | --wound | 300 cm | --picks | 40");
    let _ = run("log | Short | --on | 2026-10-02 | --picks | 62 | --minutes | 5");
    let _ = run("log | Short | --on | 2026-10-02 | --picks | 338 | --measured | 100 cm");
    let _ = run("cut-off | Short | --on | 2026-10-03 | --front | 20 cm | --thrums | 24 cm");
    let off = run("results | Short").to_string();
    assert!(off.contains("256 of warp for 100 of cloth"), "{off}");
    // Neither these nor 62 picks in five minutes, 744 an hour, are learned from.
    let learned = run("results | Short")["results"]["learned"].to_string();
    assert!(!learned.contains("256") && !learned.contains("744"), "{learned}");
}

/// A repeat that no warp of this length holds is a slip.
#[test]
fn a_repeat_beyond_the_warp_is_questioned() {
    let device = CommandLineDevice::new("laptop");
    let _ = device
        .json(&arguments("begin | Scarf | --wound | 250 cm | --picks | 40 | --repeat-row | up | --repeat-row | down"));
    // 250 cm x 4 picks a cm x 2, were it beaten twice as close, in repeats of 2.
    let sentence = device.refused(&["place", "Scarf", "--repeat", "99999"], 2);
    assert!(sentence.contains("1000"), "{sentence}");
    let _ = device.json(&["place", "Scarf", "--repeat", "400"]);
}

/// What the yarn only may reach is not promised.
#[test]
fn a_plan_that_succeeds_one_time_in_two_says_so() {
    let device = CommandLineDevice::new("laptop");
    let plan = device.text(&arguments(
        "plan | --from | yarn | --sett | 40 | --warp-count | 400 m/100 g | --one-yarn | yes | --warp-mass | 200 g",
    ));
    assert!(plan.contains("only one time in two") && plan.contains("nine times in ten"), "{plan}");
}

/// A measure stands as it was typed, whatever lengths that were calculated are rounded to.
#[test]
fn what_she_measured_is_shown_as_she_typed_it() {
    let device = CommandLineDevice::new("laptop");
    let _ = device.json(&arguments(loom!("under_tension", "150 cm")));
    let _ = device.json(&arguments("log | Scarf | --picks | 63 | --measured | 15.8 cm"));
    let sittings = device.text(&["sittings", "Scarf"]);
    assert!(sittings.contains("15.8 cm from the start"), "{sittings}");
}
