//! The order of the source: no import cycle between modules, no import from a lower layer into a higher one, and no public type
//! name with two meanings.
//!
//! `cargo test -p fellmark-tests --test architecture -- --nocapture` prints every cycle and every upward import with their number.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

mod dependencies;
mod graph;
mod imports;
mod sentences;
mod type_names;

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use graph::{Graph, cycles};
use imports::Crate;

/// How many upward imports, and modules in a cycle, there may be: none.
const ALLOWED: (usize, usize) = (0, 0);

/// Layers from the lowest up. A module may import from its own layer and from those below.
const LAYERS: [&[&str]; 6] =
    [&["cloth", "projection", "journal"], &["model"], &["reports"], &["present"], &["session"], &["cli", "window"]];

fn rank(layer: &str) -> usize {
    let found = LAYERS.iter().position(|names| names.contains(&layer));
    found.unwrap_or_else(|| panic!("{layer} is in no layer: name it in LAYERS"))
}

/// The layer of a module such as `model::commands`: its crate.
fn layer(module: &str) -> Option<&str> {
    module.split("::").next()
}

fn sources() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../src-tauri")
}

/// All crates below `src-tauri`, by their short names.
fn crates() -> Vec<Crate> {
    let mut folders = vec![("window".to_owned(), sources().join("src"))];
    for folder in std::fs::read_dir(sources().join("crates")).unwrap().map(|item| item.unwrap().path()) {
        if folder.join("src").is_dir() {
            folders.push((folder.file_name().unwrap().to_string_lossy().into_owned(), folder.join("src")));
        }
    }
    folders.sort();
    folders.iter().map(|(name, folder)| Crate::read(name, folder)).collect()
}

fn graph() -> Graph {
    let crates = crates();
    let mut graph = Graph::new();
    for one in &crates {
        for (from, to) in one.imports() {
            graph.entry(from).or_default().insert(to);
        }
    }
    graph
}

/// Imports into a higher layer, or beside it into a crate of the same rank.
fn upward(graph: &Graph) -> BTreeSet<(String, String)> {
    let edges = graph.iter().flat_map(|(from, all)| all.iter().map(move |to| (from, to)));
    let wrong = edges.filter(|(from, to)| match (layer(from), layer(to)) {
        (Some(from), Some(to)) => from != to && rank(to) >= rank(from),
        _ => false,
    });
    wrong.map(|(from, to)| (from.clone(), to.clone())).collect()
}

#[test]
fn imports_run_downwards_and_in_no_circle() {
    let graph = graph();
    let modules: usize = graph.len();
    let upward = upward(&graph);
    for (from, to) in &upward {
        println!("upward: {from} imports {to}");
    }
    let cycles = cycles(&graph);
    for cycle in &cycles {
        let imports: Vec<String> = cycle
            .iter()
            .flat_map(|from| {
                graph[from].iter().filter(|to| cycle.contains(*to)).map(move |to| format!("{from} -> {to}"))
            })
            .collect();
        println!("cycle of {} modules, {} imports:\n  {}", cycle.len(), imports.len(), imports.join("\n  "));
    }
    let in_cycles = cycles.iter().flatten().collect::<BTreeSet<_>>().len();
    println!(
        "{modules} modules with imports; {} upward imports; {} cycles, {in_cycles} modules in them",
        upward.len(),
        cycles.len()
    );
    assert!(modules > 50, "the sources were not found");
    assert!(upward.len() <= ALLOWED.0, "{} upward imports, {} allowed", upward.len(), ALLOWED.0);
    assert!(in_cycles <= ALLOWED.1, "{in_cycles} modules in cycles, {} allowed", ALLOWED.1);
}

/// A type name has one meaning in the whole workspace.
#[test]
fn no_public_type_name_is_defined_twice() {
    let top = sources().join("..");
    let mut found = type_names::Definitions::new();
    for folder in ["src-tauri", "tests", ".dev"] {
        type_names::read_folder(&top.join(folder), &mut found);
    }
    let twice: Vec<_> = found.iter().filter(|(_, files)| files.len() > 1).collect();
    println!("{} public type names, {} of them defined more than once", found.len(), twice.len());
    assert!(found.len() > 300, "the sources were not found");
    assert!(twice.is_empty(), "defined more than once: {twice:#?}");
}

#[test]
fn a_type_name_that_is_defined_twice_is_found() {
    let dir = tempfile::tempdir().unwrap();
    std::fs::write(dir.path().join("a.rs"), "pub struct Place; mod inner { pub(crate) enum Step {} } struct Private;")
        .unwrap();
    std::fs::create_dir(dir.path().join("b")).unwrap();
    std::fs::write(
        dir.path().join("b/mod.rs"),
        "pub trait Step {} pub type Place = u8; pub struct Private; #[cfg(test)] mod tests { pub struct Private; }",
    )
    .unwrap();
    let mut found = type_names::Definitions::new();
    type_names::read_folder(dir.path(), &mut found);
    let twice: Vec<_> = found.iter().filter(|(_, files)| files.len() > 1).map(|(name, _)| name.as_str()).collect();
    assert_eq!(twice, ["Place", "Step"]);
}

/// Sentences that may still stand below `present`, by file: how many at most, and what they are. Lower a number when some of them
/// become typed values; it must not grow.
const SENTENCES_BELOW_PRESENT: &[(&str, usize, &str)] = &[
    ("cloth/change.rs", 2, "why a quantity is refused"),
    ("cloth/geometry.rs", 6, "why a quantity is refused"),
    ("cloth/learned/mod.rs", 3, "why a quantity is refused"),
    ("cloth/learned/priors.rs", 7, "sources of figures"),
    ("cloth/quantity/areal.rs", 1, "why a quantity is refused"),
    ("cloth/quantity/density.rs", 1, "why a quantity is refused"),
    ("cloth/quantity/length.rs", 1, "why a quantity is refused"),
    ("cloth/quantity/mass.rs", 1, "why a quantity is refused"),
    ("cloth/quantity/yarn_number.rs", 5, "why a quantity is refused"),
    ("cloth/read/mod.rs", 11, "why typed text is refused"),
    ("cloth/read/number.rs", 8, "why typed text is refused"),
    ("cloth/read/yarn.rs", 9, "why typed text is refused"),
    ("cloth/reed.rs", 1, "why a quantity is refused"),
    ("cloth/sequence/interlacement.rs", 1, "why a quantity is refused"),
    ("cloth/sequence/numbered.rs", 1, "why a quantity is refused"),
    ("cloth/sequence/order.rs", 5, "why a quantity is refused"),
    ("cloth/sequence/pick_up.rs", 3, "why a quantity is refused"),
    ("cloth/sequence/rigid.rs", 4, "why a quantity is refused"),
    ("cloth/sequence/words.rs", 6, "why typed text is refused"),
    ("cloth/sett.rs", 3, "why a quantity is refused"),
    ("cloth/sizes_from_yarn.rs", 3, "why a quantity is refused"),
    ("cloth/state.rs", 1, "why a quantity is refused"),
    ("cloth/take_up.rs", 2, "why a quantity is refused"),
    ("cloth/tape_and_counts/mod.rs", 1, "why a quantity is refused"),
    ("cloth/warp/layout.rs", 2, "why a quantity is refused"),
    ("cloth/warp/mod.rs", 1, "why a quantity is refused"),
    ("cloth/weft.rs", 1, "why a quantity is refused"),
    ("cloth/weft_left.rs", 5, "why a quantity is refused"),
    ("projection/cleaning.rs", 1, "names of what is refused"),
    ("projection/projection.rs", 1, "names of what is refused"),
    ("projection/question.rs", 1, "name of the usual finishing"),
    ("journal/error.rs", 5, "why the folder or a file is refused"),
    ("journal/format/ids.rs", 1, "why the folder or a file is refused"),
    ("journal/format/schema.rs", 5, "descriptions in the JSON schema"),
    ("journal/format/strict.rs", 2, "why the folder or a file is refused"),
    ("journal/journal.rs", 1, "why the folder or a file is refused"),
    ("journal/photos/mod.rs", 1, "why the folder or a file is refused"),
    ("journal/photos/store.rs", 2, "why a photo cannot be stored or read"),
    ("journal/running_log.rs", 1, "why the folder or a file is refused"),
    ("journal/store/append.rs", 4, "why the folder or a file is refused"),
    ("journal/store/device.rs", 2, "why the folder or a file is refused"),
    ("journal/store/disk.rs", 2, "why the folder or a file is refused"),
    ("journal/store/join.rs", 11, "why the folder or a file is refused"),
    ("journal/store/keep.rs", 1, "why the folder or a file is refused"),
    ("model/approximate.rs", 7, "words that are understood when typed"),
    ("model/warp_log/read.rs", 1, "what a warp without a name is called"),
    ("session/sample/warps.rs", 21, "names and notes of the sample data"),
];

/// What is said to people is made in `present`; below it there are values.
#[test]
fn no_sentence_stands_below_present() {
    let mut wrong = Vec::new();
    let mut total = 0;
    for name in ["cloth", "projection", "journal", "model", "reports", "session"] {
        let found = sentences::read_folder(&sources().join("crates").join(name).join("src"));
        println!("{name}: {} sentences", found.len());
        total += found.len();
        let mut by_file: BTreeMap<String, Vec<String>> = BTreeMap::new();
        for (file, sentence) in found {
            by_file.entry(format!("{name}/{file}")).or_default().push(sentence);
        }
        for (file, found) in by_file {
            let allowed =
                SENTENCES_BELOW_PRESENT.iter().find(|(known, ..)| *known == file).map_or(0, |(_, count, _)| *count);
            println!("  {file}: {}, {allowed} allowed", found.len());
            if found.len() > allowed {
                wrong.push(format!("{file}: {} sentences, {allowed} allowed: {found:#?}", found.len()));
            }
        }
    }
    println!("{total} sentences below present");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn a_sentence_is_found_and_what_is_for_developers_is_not() {
    let dir = tempfile::tempdir().unwrap();
    std::fs::write(
        dir.path().join("a.rs"),
        r#"
        /// A doc comment of many words.
        #[error("what a developer reads here")]
        struct Known;
        made! { /// A doc comment inside a macro.
            Made }
        const SHORT: &str = "three short words";
        const LONG: &str = "a sentence of five words";
        fn f(x: Option<u8>) -> String { x.expect("this is always there somehow"); format!("the {x} of {y} is not {z}") }
        impl Display for Known { fn fmt(&self) { write!(f, "what else a developer reads") } }
        #[cfg(test)] mod tests { const TEST: &str = "a sentence in a test"; }
        "#,
    )
    .unwrap();
    let found: Vec<String> = sentences::read_folder(dir.path()).into_iter().map(|(_, sentence)| sentence).collect();
    assert_eq!(found, ["a sentence of five words", "the {x} of {y} is not {z}"]);
}

/// Invented sources with every kind of import: what is seen, and what is no cycle.
#[test]
fn each_kind_of_import_is_seen() {
    let dir = tempfile::tempdir().unwrap();
    let write = |name: &str, text: &str| {
        let path = dir.path().join(name);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, text).unwrap();
    };
    write("lib.rs", "pub mod model; pub mod reports; mod session; mod whole;");
    write("model/mod.rs", "pub mod warp; pub mod sett; pub use warp::Warp;");
    write("model/warp.rs", "use crate::reports; pub struct Warp; fn f() { reports::reach::reach() }");
    write("model/sett.rs", "use super::Warp; fn f() { println!(\"{}\", crate::session::tell()) }");
    write("reports/mod.rs", "pub mod reach;");
    write(
        "reports/reach.rs",
        "use fellmark_cloth::warp::Left; use crate::model::{self, sett::Sett}; pub fn reach() {}",
    );
    write("session.rs", "pub fn tell() {} #[cfg(test)] mod tests { use crate::present::reach; }");
    write("whole/mod.rs", "mod part; pub struct Whole(part::Part);");
    write("whole/part.rs", "use super::Whole; pub struct Part;");
    let mut graph = Graph::new();
    for (from, to) in Crate::read("window", dir.path()).imports() {
        graph.entry(from).or_default().insert(to);
    }
    let has = |from: &str, to: &str| graph.get(from).is_some_and(|all| all.contains(to));
    assert!(has("window::model::warp", "window::reports::reach"), "a path behind an imported module: {graph:#?}");
    assert!(has("window::model::sett", "window::model::warp"), "a name that is passed on");
    assert!(has("window::model::sett", "window::session"), "a path inside a macro");
    assert!(has("window::reports::reach", "cloth"), "another crate");
    assert!(has("window::reports::reach", "window::model::sett"), "a nested list");
    assert!(!graph.contains_key("window::session"), "tests may import what they like");
    assert!(has("window::whole::part", "window::whole"));
    let found = cycles(&graph);
    assert_eq!(found.len(), 1, "{found:?}");
    assert!(found[0].contains("window::reports::reach") && !found[0].contains("window::whole"));
    let mut lower = Graph::new();
    write("lib.rs", "pub mod warp;");
    write("warp.rs", "use fellmark_reports::reach; use fellmark_cloth::warp::Left;");
    for (from, to) in Crate::read("model", dir.path()).imports() {
        lower.entry(from).or_default().insert(to);
    }
    let wrong: Vec<_> = upward(&lower).into_iter().collect();
    assert_eq!(wrong.len(), 1, "{wrong:?}");
    assert!(wrong[0].0 == "model::warp" && wrong[0].1.starts_with("reports"), "{wrong:?}");
}

/// Everything else in the interface sees plain promises, so that a page without Tauri shows the same.
#[test]
fn only_the_shell_knows_tauri() {
    let mut knowing = Vec::new();
    let mut folders = vec![sources().join("../ui")];
    while let Some(folder) = folders.pop() {
        for path in std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()) {
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|ending| ending == "js" || ending == "html") {
                let text = std::fs::read_to_string(&path).unwrap();
                knowing.extend(text.contains("__TAURI").then(|| path.file_name().unwrap().to_owned()));
            }
        }
    }
    assert_eq!(knowing, ["shell.js"]);
}
