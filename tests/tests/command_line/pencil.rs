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
    answer.pointer(check.at).and_then(Value::as_f64).ok_or_else(|| format!("nothing at {}: {answer}", check.at))
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
