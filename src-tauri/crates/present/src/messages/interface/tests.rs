use std::collections::BTreeSet;
use std::fmt::Write;

use super::*;

/// The names of the plural forms (CLDR).
const PLURAL_FORMS: [&str; 6] = ["zero", "one", "two", "few", "many", "other"];

/// Calls `visit` for every part of a pattern, also of those within.
fn each_part<'a>(pattern: &'a MessagePattern, visit: &mut impl FnMut(&'a MessagePart)) {
    let MessagePattern::Parts(parts) = pattern else { return };
    for part in parts {
        visit(part);
        if let MessagePart::Select { cases, otherwise, .. } = part {
            cases.values().chain([otherwise]).for_each(|case| each_part(case, visit));
        }
    }
}

/// The arguments of a message, and whether each is a number, as its use for a plural form shows.
fn arguments(pattern: &MessagePattern) -> BTreeMap<&str, bool> {
    let mut found = BTreeMap::new();
    each_part(pattern, &mut |part| match part {
        MessagePart::Text(_) => {}
        MessagePart::Argument { argument } => *found.entry(argument.as_str()).or_default() |= false,
        MessagePart::Select { select, cases, .. } => {
            *found.entry(select.as_str()).or_default() |= cases.keys().any(|key| PLURAL_FORMS.contains(&key.as_str()));
        }
    });
    found
}

/// The words by which a message chooses, with their arguments; not the plural forms, which differ between languages.
fn choices(pattern: &MessagePattern) -> BTreeSet<(&str, &str)> {
    let mut found = BTreeSet::new();
    each_part(pattern, &mut |part| {
        if let MessagePart::Select { select, cases, .. } = part {
            let words = cases.keys().map(String::as_str).filter(|key| !PLURAL_FORMS.contains(key));
            found.extend(words.map(|word| (select.as_str(), word)));
        }
    });
    found
}

#[test]
fn every_catalogue_can_be_read_and_compiled() {
    for language in Language::ALL {
        let resource = parser::parse(source(language)).map_err(|(_, errors)| errors);
        let resource = resource.unwrap_or_else(|errors| panic!("{}.ftl: {errors:?}", language.tag()));
        let patterns = patterns(&resource);
        for (id, pattern) in patterns.iter().filter(|(id, _)| !is_declared(id)) {
            let compiled = compile(pattern, &patterns);
            assert!(compiled.is_ok(), "{}.ftl, {id}: {compiled:?}", language.tag());
        }
    }
}

/// Every language says what English says, with the same arguments, and nothing else.
#[test]
fn every_language_has_the_messages_of_english() {
    let english = interface_messages(Language::English).messages;
    assert!(english.len() > 400, "{} messages", english.len());
    for language in Language::ALL {
        let tag = language.tag();
        let other = interface_messages(language).messages;
        let missing: Vec<_> = english.keys().filter(|id| !other.contains_key(*id)).collect();
        assert!(missing.is_empty(), "{tag}.ftl lacks {missing:?}");
        let added: Vec<_> = other.keys().filter(|id| !english.contains_key(*id)).collect();
        assert!(added.is_empty(), "{tag}.ftl has what en.ftl has not: {added:?}");
        for (id, pattern) in &english {
            assert_eq!(arguments(&other[id]), arguments(pattern), "{tag}.ftl, {id}: the arguments");
            assert_eq!(choices(&other[id]), choices(pattern), "{tag}.ftl, {id}: the words it chooses by");
        }
    }
}

/// In French a space that does not break stands before `;`, `!`, `?`, `:` and within quotation marks.
#[test]
fn french_lines_do_not_break_before_a_mark() {
    for (id, pattern) in interface_messages(Language::French).messages {
        let text = serde_json::to_string(&pattern).unwrap();
        let broken = [" ;", " !", " ?", " :", "« ", " »"].into_iter().find(|mark| text.contains(mark));
        assert_eq!(broken, None, "{id}: {text}");
    }
}

#[test]
fn references_are_resolved_and_cases_kept() {
    let source = "-name = Fellmark\nhint = Such as { \"\\u00A0\" }1.\nboth = { -name }: { hint } { $day }\n\
                  picks = { $count ->\n    [one] { $count } pick\n   *[other] { $count } picks\n}\n\
                  round = { other }\nother = { round }\nshout = { UPPER($day) }\n";
    let resource = parser::parse(source).unwrap();
    let patterns = patterns(&resource);
    let compiled = |id: &str| compile(patterns[id], &patterns);
    let json = |id: &str| serde_json::to_value(compiled(id).unwrap()).unwrap();
    assert_eq!(json("hint"), serde_json::json!("Such as \u{a0}1."));
    assert_eq!(json("both"), serde_json::json!(["Fellmark: Such as \u{a0}1. ", { "argument": "day" }]));
    assert_eq!(
        json("picks"),
        serde_json::json!([{
            "select": "count",
            "cases": { "one": [{ "argument": "count" }, " pick"] },
            "otherwise": [{ "argument": "count" }, " picks"],
        }])
    );
    assert!(compiled("round").is_err(), "a circle of references");
    assert!(compiled("shout").is_err(), "a function");
}

/// `FELLMARK_BLESS=1` writes the file anew.
#[test]
fn the_interface_has_the_messages_as_they_are() {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../ui/message-types.d.ts");
    let mut made =
        String::from("// Made from messages/en.ftl in src-tauri/crates/present by a test there; do not edit.\n\n");
    let config = ts_rs::Config::default();
    for declaration in [InterfaceMessages::decl(&config), MessagePattern::decl(&config), MessagePart::decl(&config)] {
        writeln!(made, "export {declaration}\n").unwrap();
    }
    made.push_str("/** Every message with the arguments it takes. */\nexport interface Messages {\n");
    for (id, pattern) in &interface_messages(Language::English).messages {
        let arguments: Vec<String> = arguments(pattern)
            .into_iter()
            .map(|(name, is_number)| format!("{name}: {}", if is_number { "number" } else { "string | number" }))
            .collect();
        let arguments = if arguments.is_empty() { "{}".into() } else { format!("{{ {} }}", arguments.join("; ")) };
        writeln!(made, "  {id}: {arguments};").unwrap();
    }
    made.push_str("}\n\n/** A message without arguments. */\n");
    made.push_str(
        "export type PlainMessage = { [I in keyof Messages]: {} extends Messages[I] ? I : never }[keyof Messages];\n",
    );
    if std::env::var_os("FELLMARK_BLESS").is_some() {
        std::fs::write(&path, &made).unwrap();
    }
    let written = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(written == made, "ui/message-types.d.ts is out of date: run the tests of this crate with FELLMARK_BLESS=1");
}
