//! The sentences of the program: one catalogue for each language, and the one place that turns a [`Message`] into a sentence.

use std::borrow::Cow;
use std::sync::LazyLock;

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};

use crate::column_labels::label_of;
use crate::lists_and_numbers::capital;
use crate::view::ErrorView;
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::{self as model, Language, Message, MessageValue};

pub mod chances;
pub mod dates;
pub mod declared;
mod error_view;
pub mod figures;
mod interface;
#[cfg(any(test, feature = "test-support"))]
mod pseudo;
#[cfg(test)]
mod tests;

use chances::chance_text;
use dates::DateText;
use figures::{exact_length, show_density, show_length, show_mass, show_minutes, show_yarn};
pub use interface::{InterfaceMessages, MessagePart, MessagePattern, interface_messages};
#[cfg(any(test, feature = "test-support"))]
pub use pseudo::pseudo_language;

/// The languages that a window may be shown in. German and French are complete for the interface's own messages; they follow here
/// once the sentences that are made in Rust are in their catalogues too, so that no screen mixes two languages.
pub const OFFERED_LANGUAGES: &[Language] = &[Language::English];

/// Id of the message of an error that is no fault of what was typed.
const STORAGE_ERROR: &str = "storage_error";

/// The catalogue of a language, as it is written.
fn source(language: Language) -> &'static str {
    match language {
        Language::English => include_str!("en.ftl"),
        Language::German => include_str!("de.ftl"),
        Language::French => include_str!("fr.ftl"),
    }
}

/// The catalogues in the order of [`Language::ALL`].
static CATALOGUES: LazyLock<[FluentBundle<FluentResource>; Language::ALL.len()]> =
    LazyLock::new(|| Language::ALL.map(catalogue));

fn catalogue(language: Language) -> FluentBundle<FluentResource> {
    let mut bundle = FluentBundle::new_concurrent(vec![language.tag().parse().unwrap_or_default()]);
    // The marks that part text of two directions would stand in every sentence; the program writes no such languages yet.
    bundle.set_use_isolating(false);
    // A test checks that the catalogue has no error and that these functions can be added.
    let resource = FluentResource::try_new(source(language).to_owned()).unwrap_or_else(|(resource, _)| resource);
    let _ = bundle.add_resource(resource);
    let _ = bundle.add_function("CAPITAL", |arguments, _| changed(arguments, capital));
    let _ = bundle.add_function("SENTENCE", |arguments, _| changed(arguments, sentence));
    bundle
}

fn changed<'a>(arguments: &[FluentValue<'a>], change: impl Fn(&str) -> String) -> FluentValue<'a> {
    match arguments.first() {
        Some(FluentValue::String(text)) => change(text).into(),
        _ => FluentValue::Error,
    }
}

/// A message as a sentence, in the reader's language.
#[must_use]
pub fn text(message: &Message, format: &DisplayFormat) -> String {
    let mut arguments = FluentArgs::new();
    for (name, value) in message.arguments() {
        arguments.set(*name, argument(value, format));
    }
    let index = Language::ALL.iter().position(|one| *one == format.language).unwrap_or_default();
    let catalogue = &CATALOGUES[index];
    let pattern = catalogue.get_message(message.id()).and_then(|found| found.value());
    let mut errors = Vec::new();
    let sentence = pattern.map(|pattern| catalogue.format_pattern(pattern, Some(&arguments), &mut errors));
    // A test checks that every declared message is here; were one not, its id says more than nothing.
    sentence.map_or_else(|| message.to_string(), Cow::into_owned)
}

/// Messages as sentences.
#[must_use]
pub fn texts(messages: &[Message], format: &DisplayFormat) -> Vec<String> {
    messages.iter().map(|message| text(message, format)).collect()
}

fn argument<'a>(value: &MessageValue, format: &DisplayFormat) -> FluentValue<'a> {
    use MessageValue as Value;
    match value {
        Value::Count(count) => FluentValue::from(*count),
        Value::Text(text) => text.clone().into(),
        Value::Choice(word) => (*word).into(),
        Value::Number(number) => format.number(*number, 1).into(),
        Value::Whole(number) => format.number(*number, 0).into(),
        Value::Percent(share) => text(&declared::figures::percentage(share * 100.0), format).into(),
        Value::Chance(chance) => chance_text(*chance, format).into(),
        Value::Factor(factor) => format.number(*factor, 3).into(),
        Value::LengthMm(mm) => show_length(*mm, format).into(),
        Value::ExactLengthMm(mm) => exact_length(*mm, format).into(),
        Value::YarnM(metres) => show_yarn(*metres, format).into(),
        Value::MassG(grams) => show_mass(*grams, format).into(),
        Value::Minutes(minutes) => show_minutes(*minutes).into(),
        Value::Per10Cm(density) => show_density(*density, format).into(),
        Value::IsoDate(day) => day.to_string().into(),
        Value::NumericDate(day) => {
            day.format(if format.month_first { "%m/%d/%Y" } else { "%d.%m.%Y" }).to_string().into()
        }
        Value::Day((day, today)) => format.date(*day, *today).into(),
        Value::WeekdayDay((day, today)) => format.weekday_date(*day, *today).into(),
        Value::SpokenDay((day, today)) => format.spoken_day(*day, *today).into(),
        Value::Weekday(day) => format.weekday(*day).into(),
        Value::List(words) => words.join(", ").into(),
        Value::And(names) => format.and_list(names).into(),
        Value::AndMessages(messages) => {
            let names: Vec<String> = messages.iter().map(|message| text(message, format)).collect();
            format.and_list(&names).into()
        }
        Value::Column(column) => label_of(*column).into(),
        Value::Message(message) => text(message, format).into(),
    }
}

/// An error as it is shown.
#[must_use]
pub fn error_view(error: model::UserError, format: &DisplayFormat) -> ErrorView {
    let is_of_storage = error.message.id() == STORAGE_ERROR;
    ErrorView { sentence: text(&error.message, format), field: error.field, is_of_storage }
}

/// A text as a whole sentence: a capital first, a full stop at the end.
#[must_use]
pub fn sentence(text: &str) -> String {
    let mut whole = capital(text.trim());
    if !whole.is_empty() && !whole.ends_with(['.', '?', '!']) {
        whole.push('.');
    }
    whole
}
