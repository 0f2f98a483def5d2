//! Libraries: each that a crate of the workspace asks for is used by it, and listed with its reason in `docs/dependencies.md`.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

fn top() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// The folders of the workspace's crates.
fn crates() -> Vec<PathBuf> {
    let mut folders: Vec<PathBuf> =
        ["src-tauri", "tests", "tests/fuzz", ".dev"].iter().map(|folder| top().join(folder)).collect();
    folders.extend(fs::read_dir(top().join("src-tauri/crates")).unwrap().map(|entry| entry.unwrap().path()));
    folders
}

/// Names in the tables of dependencies of a manifest, and what they are called in the sources.
fn direct(manifest: &str) -> Vec<String> {
    let mut is_table = false;
    let mut names = Vec::new();
    for line in manifest.lines().map(str::trim) {
        if line.starts_with('[') {
            is_table = line.ends_with("dependencies]") && !line.starts_with("[workspace");
        } else if is_table && !line.starts_with('#') && line.contains('=') {
            let name = line.split(['=', '.']).next().unwrap_or_default().trim();
            names.push(name.to_owned());
        }
    }
    names
}

fn sources(folder: &Path, found: &mut String) {
    for path in fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()) {
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        let is_other_crate = path.join("Cargo.toml").exists();
        if path.is_dir() && !is_other_crate && !["target", "node_modules", "crates"].contains(&name.as_str()) {
            sources(&path, found);
        } else if name.ends_with(".rs") {
            found.push_str(&fs::read_to_string(&path).unwrap());
        }
    }
}

#[test]
fn every_library_that_a_crate_asks_for_is_used_by_it() {
    let mut unused = Vec::new();
    for folder in crates() {
        let mut text = String::new();
        sources(&folder, &mut text);
        for name in direct(&fs::read_to_string(folder.join("Cargo.toml")).unwrap()) {
            let word = if name == "kamadak-exif" { "exif".to_owned() } else { name.replace('-', "_") };
            let is_used = text.match_indices(&word).any(|(at, _)| {
                let before = text[..at].chars().next_back();
                let after = text[at + word.len()..].chars().next();
                let is_letter = |letter: Option<char>| letter.is_some_and(|one| one.is_alphanumeric() || one == '_');
                !is_letter(before) && !is_letter(after)
            });
            if !is_used {
                unused.push(format!("{}: {name}", folder.display()));
            }
        }
    }
    assert!(unused.is_empty(), "{unused:#?}");
}

#[test]
fn every_direct_dependency_is_listed_with_its_reason() {
    let listed_in = fs::read_to_string(top().join("docs/dependencies.md")).unwrap();
    let mut listed = BTreeSet::new();
    for row in listed_in.lines().filter(|line| line.starts_with("| `")) {
        let cells: Vec<&str> = row.trim_matches('|').split('|').map(str::trim).collect();
        assert!(cells.len() == 3 && !cells[1].is_empty(), "{row}");
        listed.extend(cells[0].split(", ").map(|name| name.trim_matches('`').to_owned()));
    }
    let asked: BTreeSet<String> = crates()
        .iter()
        .flat_map(|folder| direct(&fs::read_to_string(folder.join("Cargo.toml")).unwrap()))
        .filter(|name| !name.starts_with("fellmark"))
        .collect();
    assert_eq!(listed, asked, "docs/dependencies.md lists other libraries than the manifests ask for");
}
