//! Where each public type of the workspace is defined.

use std::collections::BTreeMap;
use std::path::Path;

use syn::visit::{self, Visit};
use syn::{Ident, Item, Visibility};

/// By name, the files that define a public type of that name, once for each definition.
pub type Definitions = BTreeMap<String, Vec<String>>;

/// Adds the public types in all Rust files below `folder`. Tests inside a source file are left out, and so are build folders; a type
/// that a macro makes is not seen.
pub fn read_folder(folder: &Path, found: &mut Definitions) {
    for path in std::fs::read_dir(folder).unwrap().map(|item| item.unwrap().path()) {
        if path.is_dir() {
            if !path.ends_with("target") && !path.ends_with("node_modules") {
                read_folder(&path, found);
            }
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            let file = syn::parse_file(&std::fs::read_to_string(&path).unwrap()).unwrap();
            let mut types = PublicTypes { file: path.display().to_string(), found };
            types.visit_file(&file);
        }
    }
}

struct PublicTypes<'a> {
    file: String,
    found: &'a mut Definitions,
}

impl PublicTypes<'_> {
    fn add(&mut self, visibility: &Visibility, name: &Ident) {
        if !matches!(visibility, Visibility::Inherited) {
            self.found.entry(name.to_string()).or_default().push(self.file.clone());
        }
    }
}

impl<'ast> Visit<'ast> for PublicTypes<'_> {
    fn visit_item(&mut self, item: &'ast Item) {
        if super::imports::attributes(item).iter().any(super::imports::is_for_tests) {
            return;
        }
        match item {
            Item::Enum(item) => self.add(&item.vis, &item.ident),
            Item::Struct(item) => self.add(&item.vis, &item.ident),
            Item::Trait(item) => self.add(&item.vis, &item.ident),
            Item::Type(item) => self.add(&item.vis, &item.ident),
            Item::Union(item) => self.add(&item.vis, &item.ident),
            _ => {}
        }
        visit::visit_item(self, item);
    }
}
