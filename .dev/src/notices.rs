//! The licences of the libraries that the programs contain.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

use serde_json::Value;

use crate::{step, typefaces};

/// How the files are named that hold a licence or a notice, in small letters.
const NAMES: [&str; 6] = ["license", "licence", "copying", "copyright", "notice", "unlicense"];

/// A library and what its authors ask to be passed on.
struct Library {
    name: String,
    licence: String,
    folder: PathBuf,
}

/// One text with every library the packages contain: its name, version and licence, then each text of a licence once.
///
/// # Errors
/// A library names no licence, or `cargo metadata` fails.
pub fn third_party_notices(packages: &[&str]) -> Result<String, String> {
    let metadata = metadata()?;
    let mut text = String::from("Fellmark contains the following libraries and typefaces.\n\n");
    let mut texts: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for library in libraries(&metadata, packages)?.into_iter().chain(typefaces()?) {
        writeln!(text, "{}: {}", library.name, library.licence).map_err(|error| error.to_string())?;
        for content in licence_texts(&library.folder)? {
            texts.entry(content).or_default().insert(library.name.clone());
        }
    }
    for (content, names) in texts {
        let names: Vec<String> = names.into_iter().collect();
        write!(text, "\n{}\n{}:\n\n{}\n", "-".repeat(80), names.join(", "), content.trim_end())
            .map_err(|error| error.to_string())?;
    }
    Ok(text)
}

fn metadata() -> Result<Value, String> {
    let mut command = step::cargo("metadata", &["--format-version", "1", "--locked"]);
    let output = command.output().map_err(|error| format!("cargo metadata: {error}"))?;
    if !output.status.success() {
        return Err(String::from_utf8_lossy(&output.stderr).into_owned());
    }
    serde_json::from_slice(&output.stdout).map_err(|error| format!("cargo metadata: {error}"))
}

/// Every library that the packages are linked with, by name. What only builds or tests need is left out.
fn libraries(metadata: &Value, packages: &[&str]) -> Result<Vec<Library>, String> {
    let by_id: BTreeMap<&str, &Value> =
        items(&metadata["packages"]).map(|package| (text(&package["id"]), package)).collect();
    let nodes: BTreeMap<&str, &Value> =
        items(&metadata["resolve"]["nodes"]).map(|node| (text(&node["id"]), node)).collect();
    let mut waiting: Vec<&str> =
        by_id.iter().filter(|(_, package)| packages.contains(&text(&package["name"]))).map(|(id, _)| *id).collect();
    let mut found = BTreeSet::new();
    while let Some(id) = waiting.pop() {
        if !found.insert(id) {
            continue;
        }
        let dependencies = nodes.get(id).map_or(&Value::Null, |node| &node["deps"]);
        for dependency in items(dependencies) {
            if items(&dependency["dep_kinds"]).any(|kind| kind["kind"].is_null()) {
                waiting.push(text(&dependency["pkg"]));
            }
        }
    }
    let mut libraries = Vec::new();
    for package in found.iter().filter_map(|id| by_id.get(id)).filter(|package| !package["source"].is_null()) {
        let name = format!("{} {}", text(&package["name"]), text(&package["version"]));
        let licence = package["license"].as_str().or(package["license_file"].as_str());
        let licence = licence.ok_or_else(|| format!("{name} names no licence"))?.to_owned();
        let folder = Path::new(text(&package["manifest_path"])).parent().unwrap_or(Path::new("")).to_owned();
        libraries.push(Library { name, licence, folder });
    }
    libraries.sort_by(|left, right| left.name.cmp(&right.name));
    Ok(libraries)
}

/// The typefaces that the window is built with.
fn typefaces() -> Result<Vec<Library>, String> {
    let mut found = Vec::new();
    for (name, folder) in typefaces::folders().into_iter().filter(|(_, folder)| folder.exists()) {
        let file = folder.join("package.json");
        let read = fs::read(&file).map_err(|error| format!("{}: {error}", file.display()))?;
        let package: Value = serde_json::from_slice(&read).map_err(|error| format!("{}: {error}", file.display()))?;
        let name = format!("{name} {}", text(&package["version"]));
        found.push(Library { name, licence: text(&package["license"]).to_owned(), folder });
    }
    Ok(found)
}

fn licence_texts(folder: &Path) -> Result<Vec<String>, String> {
    let read = |error: std::io::Error| format!("{}: {error}", folder.display());
    let mut texts = Vec::new();
    for entry in fs::read_dir(folder).map_err(read)? {
        let path = entry.map_err(read)?.path();
        let name = path.file_name().unwrap_or_default().to_string_lossy().to_lowercase();
        if path.is_file() && NAMES.iter().any(|start| name.starts_with(start)) {
            let bytes = fs::read(&path).map_err(read)?;
            texts.push(String::from_utf8_lossy(&bytes).replace("\r\n", "\n"));
        }
    }
    texts.sort();
    Ok(texts)
}

fn items(value: &Value) -> impl Iterator<Item = &Value> {
    value.as_array().into_iter().flatten()
}

fn text(value: &Value) -> &str {
    value.as_str().unwrap_or_default()
}
