//! Sentences in the source: string literals of four or more words.

use std::path::Path;

use proc_macro2::{TokenStream, TokenTree};
use syn::visit::{self, Visit};
use syn::{Attribute, ExprMethodCall, ImplItemFn, Item, ItemImpl, Lit, LitStr, Macro};

/// Fewer words are a name, a unit or a keyword.
const FEWEST_WORDS: usize = 4;

/// The sentences in all Rust files below a folder, each with the path of its file from there. Left out are tests, attributes (doc
/// comments, what `thiserror` displays to developers), what `expect` says, and implementations of `Display` and `Debug`.
pub fn read_folder(folder: &Path) -> Vec<(String, String)> {
    let mut found = Vec::new();
    read(folder, folder, &mut found);
    found
}

fn read(top: &Path, folder: &Path, found: &mut Vec<(String, String)>) {
    let mut paths: Vec<_> = std::fs::read_dir(folder).unwrap().map(|item| item.unwrap().path()).collect();
    paths.sort();
    for path in paths {
        if path.is_dir() {
            read(top, &path, found);
        } else if path.extension().is_some_and(|ending| ending == "rs") && !path.ends_with("tests.rs") {
            let file = syn::parse_file(&std::fs::read_to_string(&path).unwrap()).unwrap();
            let mut literals = Literals::default();
            literals.visit_file(&file);
            let name = path.strip_prefix(top).unwrap().to_string_lossy().into_owned();
            found.extend(literals.sentences.into_iter().map(|sentence| (name.clone(), sentence)));
        }
    }
}

/// How many words a text has; what is put in between braces is none.
fn words(text: &str) -> usize {
    let mut outside = String::new();
    let mut depth = 0_usize;
    for letter in text.chars() {
        match letter {
            '{' => depth += 1,
            '}' => depth = depth.saturating_sub(1),
            letter if depth == 0 => outside.push(letter),
            _ => {}
        }
    }
    outside.split_whitespace().filter(|word| word.chars().any(char::is_alphabetic)).count()
}

#[derive(Default)]
struct Literals {
    sentences: Vec<String>,
}

impl Literals {
    fn add(&mut self, text: &LitStr) {
        let text = text.value();
        if words(&text) >= FEWEST_WORDS {
            self.sentences.push(text);
        }
    }

    fn tokens(&mut self, tokens: TokenStream) {
        let mut after_hash = false;
        for token in tokens {
            // A doc comment inside a macro is an attribute there.
            let is_attribute =
                std::mem::replace(&mut after_hash, matches!(&token, TokenTree::Punct(mark) if mark.as_char() == '#'));
            match token {
                TokenTree::Group(_) if is_attribute => {}
                TokenTree::Literal(literal) => {
                    if let Lit::Str(text) = Lit::new(literal) {
                        self.add(&text);
                    }
                }
                TokenTree::Group(group) => self.tokens(group.stream()),
                _ => {}
            }
        }
    }
}

impl<'ast> Visit<'ast> for Literals {
    fn visit_item(&mut self, item: &'ast Item) {
        if !super::imports::attributes(item).iter().any(super::imports::is_for_tests) {
            visit::visit_item(self, item);
        }
    }

    fn visit_impl_item_fn(&mut self, item: &'ast ImplItemFn) {
        if !item.attrs.iter().any(super::imports::is_for_tests) {
            visit::visit_impl_item_fn(self, item);
        }
    }

    fn visit_item_impl(&mut self, item: &'ast ItemImpl) {
        let name = item.trait_.as_ref().and_then(|(_, path, _)| path.segments.last());
        if !name.is_some_and(|name| name.ident == "Display" || name.ident == "Debug") {
            visit::visit_item_impl(self, item);
        }
    }

    fn visit_expr_method_call(&mut self, call: &'ast ExprMethodCall) {
        if call.method == "expect" {
            self.visit_expr(&call.receiver);
        } else {
            visit::visit_expr_method_call(self, call);
        }
    }

    fn visit_attribute(&mut self, _: &'ast Attribute) {}

    fn visit_lit_str(&mut self, text: &'ast LitStr) {
        self.add(text);
    }

    fn visit_macro(&mut self, one: &'ast Macro) {
        self.tokens(one.tokens.clone());
    }
}
