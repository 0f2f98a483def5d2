//! Every published check value, calculated through the public functions of `fellmark-cloth`. Sources stand beside the
//! values in `vectors.json`; `README.md` says what the list is.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

mod cloths;
mod lengths;
mod vector;
mod yarns;

use std::path::Path;

use fellmark_cloth::Refused;
use vector::Vector;

fn calculate(v: &Vector) -> Result<Option<f64>, Refused> {
    match v.topic.as_str() {
        "crimp_takeup" => lengths::crimp_takeup(v),
        "warp_length" => lengths::warp_length(v),
        "shrinkage" => lengths::shrinkage(v),
        "progress" => lengths::progress(v),
        "ends_reed" => yarns::ends_reed(v),
        "yarn_quantity" => yarns::yarn_quantity(v),
        "yarn_count" => yarns::yarn_count(v),
        "sett" => cloths::sett(v),
        "geometry" => cloths::geometry(v),
        "cover_weight" => cloths::cover_weight(v),
        _ => Ok(None),
    }
}

fn read(path: &Path) -> Vec<Vector> {
    let text = std::fs::read_to_string(path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
    serde_json::from_str(&text).unwrap_or_else(|e| panic!("{}: {e}", path.display()))
}

/// Every value of a list that does not come out, or that nothing here knows how to calculate.
fn misses(vectors: &[Vector]) -> Vec<String> {
    let mut found = Vec::new();
    for v in vectors {
        match calculate(v) {
            Ok(Some(got)) if v.agrees(got) => {}
            Ok(Some(got)) => found.push(format!("{}: {got} {} instead of {}", v.id, v.unit, v.expected)),
            Ok(None) => found.push(format!("{}: no relation for {:?} in {}", v.id, v.inputs.keys(), v.unit)),
            Err(refused) => found.push(format!("{}: {refused}", v.id)),
        }
    }
    found
}

#[test]
fn every_published_value_comes_out() {
    let vectors = read(&Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/published/vectors.json"));
    assert!(vectors.len() >= 107, "the list has only {} values", vectors.len());
    let misses = misses(&vectors);
    assert!(misses.is_empty(), "{} of {}:\n{}", misses.len(), vectors.len(), misses.join("\n"));
}

#[test]
fn the_copy_is_the_list_it_was_copied_from() {
    let shared = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../shared/vectors/published.json");
    if !shared.exists() {
        return;
    }
    let here =
        std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/published/vectors.json")).unwrap();
    let there = std::fs::read_to_string(shared).unwrap();
    let parse = |text: &str| serde_json::from_str::<serde_json::Value>(text).unwrap();
    assert_eq!(parse(&here), parse(&there));
}

#[test]
fn a_wrong_value_is_seen() {
    let mut vectors = read(&Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/published/vectors.json"));
    for v in &mut vectors {
        v.expected = v.expected * 1.02 + 0.7;
    }
    assert_eq!(misses(&vectors).len(), vectors.len());
}
