//! Cycles in a graph of imports.

use std::collections::{BTreeMap, BTreeSet};

/// By module, the modules that it imports from.
pub type Graph = BTreeMap<String, BTreeSet<String>>;

/// Whether a module lies within another one.
fn is_within(inner: &str, outer: &str) -> bool {
    inner.strip_prefix(outer).is_some_and(|rest| rest.starts_with("::"))
}

/// Cycles of imports. A module and its own submodules may import each other; two submodules of one module may not.
pub fn cycles(graph: &Graph) -> Vec<BTreeSet<String>> {
    let mut found: Vec<BTreeSet<String>> = components(graph);
    found.retain(|cycle| !cycle.iter().any(|top| cycle.iter().all(|one| one == top || is_within(one, top))));
    // Without the imports between a module and its submodules: what is left among those is between siblings.
    let mut apart = graph.clone();
    for (from, all) in &mut apart {
        all.retain(|to| !is_within(from, to) && !is_within(to, from));
    }
    for cycle in components(&apart) {
        if !found.iter().any(|known| cycle.is_subset(known)) {
            found.push(cycle);
        }
    }
    found
}

/// Groups of two and more modules that reach each other. The graph is small: each module's reach is walked by itself.
fn components(graph: &Graph) -> Vec<BTreeSet<String>> {
    let reach: BTreeMap<&String, BTreeSet<&String>> = graph.keys().map(|from| (from, reached(graph, from))).collect();
    let mut found: Vec<BTreeSet<String>> = Vec::new();
    for (from, to) in &reach {
        if found.iter().any(|group| group.contains(*from)) {
            continue;
        }
        let mut group: BTreeSet<String> = to
            .iter()
            .filter(|one| reach.get(**one).is_some_and(|back| back.contains(from)))
            .map(|one| (*one).clone())
            .collect();
        group.insert((*from).clone());
        if group.len() > 1 {
            found.push(group);
        }
    }
    found
}

fn reached<'a>(graph: &'a Graph, from: &String) -> BTreeSet<&'a String> {
    let mut seen = BTreeSet::new();
    let mut next: Vec<&String> = graph[from].iter().collect();
    while let Some(module) = next.pop() {
        if seen.insert(module) {
            next.extend(graph.get(module).into_iter().flatten());
        }
    }
    seen
}
