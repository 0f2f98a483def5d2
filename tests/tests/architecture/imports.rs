//! Which module of a crate takes something from which: by `use`, and by paths in the code and inside macros.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use proc_macro2::{TokenStream, TokenTree};
use syn::visit::{self, Visit};
use syn::{Attribute, Item, UseTree, Visibility};

type Names = Vec<String>;

/// A module, in its file or inside another one's.
#[derive(Default)]
struct Module {
    /// What stands in it.
    items: Vec<Item>,
    /// Names of what it defines.
    defines: BTreeSet<String>,
    /// Names it passes on, with the path each comes from; `*` passes on all of a module.
    passes_on: Vec<(String, Names)>,
}

/// The modules of one crate.
pub struct Crate {
    name: String,
    modules: BTreeMap<Names, Module>,
}

impl Crate {
    /// Reads the sources in a folder: every file is a module, whoever declares it.
    pub fn read(name: &str, folder: &Path) -> Self {
        let mut this = Self { name: name.to_owned(), modules: BTreeMap::new() };
        this.read_folder(folder, &[]);
        this
    }

    fn read_folder(&mut self, folder: &Path, within: &[String]) {
        for path in std::fs::read_dir(folder).unwrap().map(|item| item.unwrap().path()) {
            let stem = path.file_stem().unwrap().to_string_lossy().into_owned();
            let inside = [within, std::slice::from_ref(&stem)].concat();
            if path.is_dir() {
                self.read_folder(&path, &inside);
            } else if path.extension().is_some_and(|ending| ending == "rs") {
                let is_whole = matches!(stem.as_str(), "mod" | "lib" | "main");
                let file = syn::parse_file(&std::fs::read_to_string(&path).unwrap()).unwrap();
                self.add(if is_whole { within.to_vec() } else { inside }, file.items);
            }
        }
    }

    fn add(&mut self, at: Names, items: Vec<Item>) {
        let mut module = Module::default();
        for item in items {
            if attributes(&item).iter().any(is_for_tests) {
                continue;
            }
            match item {
                Item::Mod(inner) if inner.content.is_some() => {
                    let inside = [at.as_slice(), &[inner.ident.to_string()]].concat();
                    self.add(inside, inner.content.unwrap().1);
                    continue;
                }
                Item::Use(ref named) if !matches!(named.vis, Visibility::Inherited) => {
                    module.passes_on.extend(flat(&named.tree, &[]));
                }
                _ => {}
            }
            module.defines.extend(name_of(&item));
            module.items.push(item);
        }
        self.modules.insert(at, module);
    }

    /// Every import: from which module, from which module of the same crate or from which other crate.
    pub fn imports(&self) -> BTreeSet<(String, String)> {
        let mut found = BTreeSet::new();
        for (at, module) in &self.modules {
            let mut paths = Paths::default();
            module.items.iter().for_each(|item| paths.visit_item(item));
            // What a private `use` names may be the beginning of another path.
            let uses: BTreeMap<String, Names> = paths.uses.iter().cloned().collect();
            let begun = paths.paths.iter().filter_map(|path| {
                let (first, rest) = path.split_first()?;
                let used = uses.get(first).filter(|_| !rest.is_empty())?;
                Some([used.as_slice(), rest].concat())
            });
            let own = paths.uses.iter().map(|(_, path)| path.clone());
            for path in begun.chain(own).chain(paths.paths.iter().cloned()) {
                let Some(to) = self.target(at, &path) else { continue };
                let from = self.written(at);
                // A module that passes on what its own submodules define takes nothing from them.
                let passes_on = module.passes_on.iter().any(|(_, passed)| *passed == path);
                if from != to && !(passes_on && to.starts_with(&format!("{from}::"))) {
                    found.insert((from, to));
                }
            }
        }
        found
    }

    fn written(&self, module: &[String]) -> String {
        [std::slice::from_ref(&self.name), module].concat().join("::")
    }

    fn target(&self, at: &[String], path: &[String]) -> Option<String> {
        if let Some(other) = path.first()?.strip_prefix("fellmark_").filter(|other| *other != self.name) {
            return Some(other.to_owned());
        }
        self.defining(&self.absolute(at, path)?, 0).map(|module| self.written(&module))
    }

    /// A path from the crate's root; nothing where it leads out of the crate.
    fn absolute(&self, at: &[String], path: &[String]) -> Option<Names> {
        let (first, rest) = path.split_first()?;
        if first == "crate" || first.strip_prefix("fellmark_").is_some_and(|name| name == self.name) {
            return Some(rest.to_vec());
        }
        if first == "self" {
            return Some([at, rest].concat());
        }
        let supers = path.iter().take_while(|part| *part == "super").count();
        if supers > 0 {
            return Some([at.get(..at.len().checked_sub(supers)?)?, &path[supers..]].concat());
        }
        let child = [at, std::slice::from_ref(first)].concat();
        self.modules.contains_key(&child).then(|| [at, path].concat())
    }

    /// The module that defines what an absolute path names, through names that are passed on.
    fn defining(&self, path: &[String], depth: usize) -> Option<Names> {
        let mut at = Names::new();
        for (n, part) in path.iter().enumerate() {
            let child = [at.as_slice(), std::slice::from_ref(part)].concat();
            if self.modules.contains_key(&child) {
                at = child;
                continue;
            }
            let module = self.modules.get(&at)?;
            if module.defines.contains(part) || depth > 8 {
                break;
            }
            for (name, from) in &module.passes_on {
                let Some(from) = self.absolute(&at, from) else { continue };
                if name == part {
                    return self.defining(&[from.as_slice(), &path[n + 1..]].concat(), depth + 1);
                }
                if name == "*" && self.modules.get(&from).is_some_and(|module| module.defines.contains(part)) {
                    return Some(from);
                }
            }
            break;
        }
        Some(at)
    }
}

pub fn is_for_tests(attribute: &Attribute) -> bool {
    attribute.path().is_ident("cfg")
        && attribute
            .meta
            .require_list()
            .is_ok_and(|list| list.tokens.to_string().split([' ', '(', ')', ',']).any(|word| word == "test"))
}

pub fn attributes(item: &Item) -> &[Attribute] {
    match item {
        Item::Const(item) => &item.attrs,
        Item::Enum(item) => &item.attrs,
        Item::Fn(item) => &item.attrs,
        Item::Impl(item) => &item.attrs,
        Item::Macro(item) => &item.attrs,
        Item::Mod(item) => &item.attrs,
        Item::Static(item) => &item.attrs,
        Item::Struct(item) => &item.attrs,
        Item::Trait(item) => &item.attrs,
        Item::Type(item) => &item.attrs,
        Item::Use(item) => &item.attrs,
        _ => &[],
    }
}

fn name_of(item: &Item) -> Option<String> {
    let name = match item {
        Item::Const(item) => &item.ident,
        Item::Enum(item) => &item.ident,
        Item::Fn(item) => &item.sig.ident,
        Item::Static(item) => &item.ident,
        Item::Struct(item) => &item.ident,
        Item::Trait(item) => &item.ident,
        Item::Type(item) => &item.ident,
        _ => return None,
    };
    Some(name.to_string())
}

/// The names that a `use` brings in, each with its whole path.
fn flat(tree: &UseTree, before: &[String]) -> Vec<(String, Names)> {
    let with = |name: String| [before, &[name]].concat();
    match tree {
        UseTree::Path(path) => flat(&path.tree, &with(path.ident.to_string())),
        UseTree::Name(name) if name.ident == "self" => {
            vec![(before.last().cloned().unwrap_or_default(), before.to_vec())]
        }
        UseTree::Name(name) => vec![(name.ident.to_string(), with(name.ident.to_string()))],
        UseTree::Rename(name) if name.ident == "self" => vec![(name.rename.to_string(), before.to_vec())],
        UseTree::Rename(name) => vec![(name.rename.to_string(), with(name.ident.to_string()))],
        UseTree::Glob(_) => vec![("*".to_owned(), before.to_vec())],
        UseTree::Group(group) => group.items.iter().flat_map(|tree| flat(tree, before)).collect(),
    }
}

/// Gathers what is named.
#[derive(Default)]
struct Paths {
    uses: Vec<(String, Names)>,
    paths: BTreeSet<Names>,
}

impl<'ast> Visit<'ast> for Paths {
    fn visit_item_use(&mut self, item: &'ast syn::ItemUse) {
        self.uses.extend(flat(&item.tree, &[]));
    }

    fn visit_path(&mut self, path: &'ast syn::Path) {
        self.paths.insert(path.segments.iter().map(|segment| segment.ident.to_string()).collect());
        visit::visit_path(self, path);
    }

    fn visit_macro(&mut self, one: &'ast syn::Macro) {
        self.tokens(one.tokens.clone());
        visit::visit_macro(self, one);
    }

    fn visit_impl_item_fn(&mut self, item: &'ast syn::ImplItemFn) {
        if !item.attrs.iter().any(is_for_tests) {
            visit::visit_impl_item_fn(self, item);
        }
    }
}

impl Paths {
    /// Paths among the tokens of a macro: names joined by `::`.
    fn tokens(&mut self, tokens: TokenStream) {
        let mut path = Names::new();
        let mut colons = 0;
        for token in tokens {
            match token {
                TokenTree::Ident(name) => {
                    if colons != 2 {
                        self.paths.insert(std::mem::take(&mut path));
                    }
                    path.push(name.to_string());
                    colons = 0;
                }
                TokenTree::Punct(mark) if mark.as_char() == ':' => colons += 1,
                other => {
                    self.paths.insert(std::mem::take(&mut path));
                    colons = 0;
                    if let TokenTree::Group(group) = other {
                        self.tokens(group.stream());
                    }
                }
            }
        }
        self.paths.insert(path);
    }
}
