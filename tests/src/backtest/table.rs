//! The kept table of how the projection does, by stage and by kind of source.

use std::fmt::Write;
use std::path::Path;

use fellmark_projection::project;

use super::cases::Case;
use super::score::{Scored, Summary, mean, score};

/// Days ahead at which the chance to make a due day is checked.
const DUE_DAYS: [u64; 8] = [7, 14, 30, 60, 90, 120, 180, 270];

const HEAD: &str = "\
# How the projection does on cases whose end is known

Made by `cargo run --release -p fellmark-tests --bin backtest -- --table DIR`, where DIR holds the development
cases; `METHOD.md` says how the constants were chosen. They were chosen on these same cases, so cases not seen
may come out a little worse.

*80 %*: share of cases whose day lies within p10 … p90, which should be 80; likewise 50 and 90. *Loss*: mean pinball
loss of seven quantiles on ln(1 + days), lower is better. *Ratio*: loss over that of the better of two baselines (the
constant rate so far, half either way; days so far drawn again at random) on the same row. *Error*: median of
|likely − actual| / actual. A row of few cases says little: with 25, the 80 % share is sure to within 16 points.
";

fn row(text: &mut String, name: &str, scored: &[&Scored]) {
    let s = Summary::of(scored);
    let held = s.held.map(|h| 100.0 * h);
    let _ = writeln!(
        text,
        "| {name} | {} | {:.1} | {:.1} | {:.1} | {:.3} | {:.2} | {:.2} | {:.2} |",
        s.n,
        held[0],
        held[1],
        held[2],
        s.loss,
        s.ratio(),
        s.loss / s.baselines[0],
        s.error
    );
}

fn groups(scored: &[Scored], key: impl Fn(&Scored) -> String) -> Vec<(String, Vec<&Scored>)> {
    let mut named: Vec<(String, Vec<&Scored>)> = Vec::new();
    for s in scored {
        let name = key(s);
        match named.iter_mut().find(|(n, _)| *n == name) {
            Some((_, list)) => list.push(s),
            None => named.push((name, vec![s])),
        }
    }
    // p10 before p25, n2 before n10.
    let order = |name: &str| (name.get(..1).map(str::to_owned), name.get(1..).and_then(|n| n.parse::<u32>().ok()));
    named.sort_by(|a, b| order(&a.0).cmp(&order(&b.0)).then_with(|| a.0.cmp(&b.0)));
    named
}

/// (chance said, whether it came true) for every case and each of the days ahead.
pub fn due(cases: &[Case]) -> Result<Vec<(f64, f64)>, String> {
    let mut pairs = Vec::new();
    for case in cases {
        let projection = project(&case.question()?).map_err(|error| error.to_string())?;
        for days in DUE_DAYS {
            let day = case.today + chrono::Days::new(days);
            let made = case.actual_finish.is_some_and(|end| end <= day);
            pairs.push((projection.off_loom.chance_by(day), f64::from(u8::from(made))));
        }
    }
    Ok(pairs)
}

/// For each fifth of the predicted chances: the mean chance said, the share that came true, and how many there were.
pub fn fifths(pairs: &[(f64, f64)]) -> [(f64, f64, usize); 5] {
    [0, 1, 2, 3, 4].map(|fifth| {
        let inside: Vec<_> = pairs.iter().filter(|(p, _)| ((p * 5.0) as usize).min(4) == fifth).collect();
        (mean(inside.iter().map(|p| p.0)), mean(inside.iter().map(|p| p.1)), inside.len())
    })
}

/// Says of each fifth of the predicted chances to make a day how often the day was made.
fn due_table(text: &mut String, pairs: &[(f64, f64)]) {
    text.push_str("\nChance to be off the loom by a day 7, 14, 30, 60, 90, 120, 180, 270 days ahead, by fifths:\n\n");
    text.push_str("| said | mean said | came true | cases |\n| --- | ---: | ---: | ---: |\n");
    for (fifth, (said, came, cases)) in fifths(pairs).into_iter().enumerate() {
        let _ = writeln!(
            text,
            "| {}–{} % | {:.1} % | {:.1} % | {cases} |",
            20 * fifth,
            20 * (fifth + 1),
            100.0 * said,
            100.0 * came
        );
    }
}

/// The whole table from the development cases in `folder`.
pub fn table(folder: &Path) -> Result<String, String> {
    let mut text = HEAD.to_owned();
    let mut all_pairs = Vec::new();
    for population in ["a", "b", "c"] {
        let path = folder.join(format!("development-{population}.jsonl"));
        let lines = std::fs::read_to_string(&path).map_err(|e| format!("{} cannot be read: {e}", path.display()))?;
        let cases: Vec<Case> =
            lines.lines().filter(|l| !l.trim().is_empty()).map(Case::read).collect::<Result<_, _>>()?;
        let scored: Vec<Scored> = cases.iter().map(score).collect::<Result<_, _>>()?;
        let _ = write!(
            text,
            "\n## Population {}\n\n| cases | n | 50 % | 80 % | 90 % | loss | ratio | to constant rate | error |\n\
             | --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |\n",
            population.to_uppercase()
        );
        row(&mut text, "**all**", &scored.iter().collect::<Vec<_>>());
        for (name, list) in groups(&scored, |s| s.stage.clone()) {
            row(&mut text, &name, &list);
        }
        for (name, list) in groups(&scored, |s| format!("*{}*", s.kind())) {
            row(&mut text, &name, &list);
        }
        for (name, list) in groups(&scored, |s| s.source.clone()) {
            row(&mut text, &name, &list);
        }
        let pairs = due(&cases)?;
        due_table(&mut text, &pairs);
        all_pairs.extend(pairs);
    }
    text.push_str("\n## All three\n");
    due_table(&mut text, &all_pairs);
    Ok(text)
}
