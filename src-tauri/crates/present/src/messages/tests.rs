use std::collections::BTreeMap;

use fluent_syntax::ast;

use super::*;
use fellmark_model::message::DeclaredMessage;

/// The messages that the layers declare.
fn all_declared() -> Vec<DeclaredMessage> {
    declared::ALL.concat()
}

fn variables(pattern: &ast::Pattern<&str>, found: &mut Vec<String>) {
    for element in &pattern.elements {
        if let ast::PatternElement::Placeable { expression } = element {
            variables_of(expression, found);
        }
    }
}

fn variables_of(expression: &ast::Expression<&str>, found: &mut Vec<String>) {
    match expression {
        ast::Expression::Inline(inline) => variables_of_inline(inline, found),
        ast::Expression::Select { selector, variants } => {
            variables_of_inline(selector, found);
            variants.iter().for_each(|variant| variables(&variant.value, found));
        }
    }
}

fn variables_of_inline(inline: &ast::InlineExpression<&str>, found: &mut Vec<String>) {
    match inline {
        ast::InlineExpression::VariableReference { id } => found.push(id.name.to_owned()),
        ast::InlineExpression::FunctionReference { arguments, .. } => {
            arguments.positional.iter().for_each(|inline| variables_of_inline(inline, found));
        }
        ast::InlineExpression::Placeable { expression } => variables_of(expression, found),
        _ => {}
    }
}

/// The messages of a catalogue with the arguments they use.
fn catalogue_of(language: Language) -> BTreeMap<String, Vec<String>> {
    let resource = fluent_syntax::parser::parse(source(language)).expect("the catalogue has no error");
    let messages = resource.body.iter().filter_map(|entry| match entry {
        ast::Entry::Message(message) => {
            let mut used = Vec::new();
            variables(message.value.as_ref()?, &mut used);
            used.sort();
            used.dedup();
            Some((message.id.name.to_owned(), used))
        }
        _ => None,
    });
    let count = messages.clone().count();
    let by_id: BTreeMap<String, Vec<String>> = messages.collect();
    assert_eq!(by_id.len(), count, "{language:?}: an id stands twice in the catalogue");
    by_id
}

/// Messages whose sentence is in English only, so far.
fn is_english_only(id: &str) -> bool {
    [model::messages::DECLARED, model::plan::messages::DECLARED].concat().iter().any(|one| one.id == id)
}

/// Every message that is declared has a sentence in every language, with exactly its arguments. The others are the interface's;
/// `npm run check` fails for one that it does not use.
#[test]
fn the_catalogues_have_what_is_declared() {
    for language in Language::ALL {
        let catalogue = catalogue_of(language);
        for one in all_declared() {
            if language != Language::English && is_english_only(one.id) && !catalogue.contains_key(one.id) {
                continue;
            }
            let mut arguments: Vec<String> = one.arguments.iter().map(|name| (*name).to_owned()).collect();
            arguments.sort();
            let id = one.id;
            assert_eq!(
                catalogue.get(id),
                Some(&arguments),
                "{language:?}, {id}: what the catalogue has, and what is declared"
            );
        }
    }
}

/// What is declared is used somewhere in the code.
#[test]
fn every_declared_message_is_used() {
    fn read_all(folder: &std::path::Path, all: &mut String) {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                read_all(&path, all);
            } else if path.extension().is_some_and(|kind| kind == "rs")
                && !path.ends_with("messages.rs")
                && !folder.ends_with("declared")
            {
                all.push_str(&std::fs::read_to_string(&path).unwrap());
            }
        }
    }
    let mut code = String::new();
    let here = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    for folder in ["src", "../model/src", "../reports/src", "../session/src", "../cli/src", "../../src"] {
        read_all(&here.join(folder), &mut code);
    }
    // By its path, or called by its name alone; the files that declare messages are left out.
    let is_made = |id: &str| {
        let in_word = |c: char| c.is_alphanumeric() || c == '_';
        code.match_indices(id).any(|(at, _)| {
            let (before, after) = (&code[..at], &code[at + id.len()..]);
            let whole = !before.ends_with(in_word) && !after.starts_with(in_word);
            whole && (before.ends_with("messages::") || after.starts_with('('))
        })
    };
    let unused: Vec<&str> = all_declared().iter().map(|one| one.id).filter(|id| !is_made(id)).collect();
    assert!(unused.is_empty(), "no code makes {unused:?}");
}

/// Every message can be written in every language: no argument is missing, no function fails.
#[test]
fn nothing_is_written_with_an_error() {
    for (language, catalogue) in Language::ALL.iter().zip(CATALOGUES.iter()) {
        for message in all_declared() {
            let Some(found) = catalogue.get_message(message.id).and_then(|found| found.value()) else { continue };
            let mut arguments = FluentArgs::new();
            for name in message.arguments {
                arguments.set(*name, "text");
            }
            let mut errors = Vec::new();
            let sentence = catalogue.format_pattern(found, Some(&arguments), &mut errors);
            assert!(errors.is_empty() && !sentence.is_empty(), "{language:?}, {}: {sentence} {errors:?}", message.id);
        }
    }
}

#[test]
fn arguments_are_written_as_the_reader_writes_them() {
    let german = DisplayFormat::of_locale("de-DE");
    let refused = model::messages::number_out_of_range(
        model::messages::the_shrinkage(),
        61.5,
        model::messages::unit_percent(),
        -20.0,
        60.0,
    );
    assert_eq!(
        text(&refused, &german),
        "The shrinkage of 61,5 per cent cannot be meant; \u{2212}20 to 60 is taken here. Check the figure."
    );
    let heavy = model::messages::shuttle_heavier_than_shown(40.0, 30.5);
    assert_eq!(
        text(&heavy, &german),
        "The empty shuttle weighs 40\u{a0}g, so with yarn on it 30,5\u{a0}g cannot be all. Check both weights."
    );
    let day = "2026-12-24".parse().unwrap();
    let us = DisplayFormat::of_locale("en-US");
    assert_eq!(
        text(&model::messages::unreadable_day("soon", day, day), &us),
        "\u{201c}soon\u{201d} is no day of the calendar. Write a day as 2026-12-24, 12/24/2026 or 21 Dec."
    );
    // The marks that set text of another direction apart stand nowhere.
    assert!(!text(&model::messages::unknown_shed("x"), &us).contains(['\u{2068}', '\u{2069}']));
}

#[test]
fn a_refused_form_names_its_field() {
    let error = model::UserError::at("name", model::messages::warp_without_name());
    let view = error_view(error, &DisplayFormat::default());
    assert_eq!(view.field.as_deref(), Some("name"));
    assert_eq!(
        view.sentence,
        "The warp has no name yet. Give it one you will know it by, such as \u{201c}grey scarf\u{201d}."
    );
}
