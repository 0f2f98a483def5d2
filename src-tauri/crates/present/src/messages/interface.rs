//! The interface's own messages, compiled from a catalogue into a form that needs no parser in the window.

use std::borrow::Cow;
use std::collections::BTreeMap;

use fellmark_model::Language;
use fluent_syntax::{ast, parser, unicode};
use serde::Serialize;
#[cfg(test)]
use ts_rs::TS;

use super::{declared, source};

/// Every message of the interface in one language.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct InterfaceMessages {
    /// Tag of the language, by which figures are written and plural forms chosen.
    pub language: String,
    /// The messages by id.
    pub messages: BTreeMap<String, MessagePattern>,
}

/// What a message says.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(TS))]
#[serde(untagged)]
pub enum MessagePattern {
    /// Text without arguments.
    Text(String),
    /// Parts that are written one after another.
    Parts(Vec<MessagePart>),
}

/// A part of a message.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(TS))]
#[serde(untagged)]
pub enum MessagePart {
    /// Text as it is.
    Text(String),
    /// The value of an argument.
    Argument {
        /// Name of the argument.
        argument: String,
    },
    /// One of several patterns, chosen by an argument.
    Select {
        /// Name of the argument.
        select: String,
        /// Patterns by a value of the argument, or by a plural form (CLDR) if the value is a number.
        cases: BTreeMap<String, MessagePattern>,
        /// The pattern for any other value.
        otherwise: MessagePattern,
    },
}

/// The interface's messages in a language.
///
/// A message that a layer of the program declares is not among them: its sentence is made by [`text`](super::text).
#[must_use]
pub fn interface_messages(language: Language) -> InterfaceMessages {
    // A test checks that every catalogue is read without an error.
    let resource = parser::parse(source(language)).unwrap_or_else(|(resource, _)| resource);
    let patterns = patterns(&resource);
    let messages = patterns.iter().filter(|(id, _)| !id.starts_with('-') && !is_declared(id)).map(|(id, pattern)| {
        let compiled = compile(pattern, &patterns);
        // A test checks that every message can be compiled; were one not, its id says more than nothing.
        (id.to_string(), compiled.unwrap_or_else(|_| MessagePattern::Text(id.to_string())))
    });
    InterfaceMessages { language: language.tag().to_owned(), messages: messages.collect() }
}

/// Whether a message is declared in Rust and so has its sentence made there.
fn is_declared(id: &str) -> bool {
    declared::ALL.iter().any(|all| all.iter().any(|one| one.id == id))
}

/// What a catalogue's messages and terms say, by id; the id of a term begins with `-`.
type Patterns<'a> = BTreeMap<Cow<'a, str>, &'a ast::Pattern<&'a str>>;

fn patterns<'a>(resource: &'a ast::Resource<&'a str>) -> Patterns<'a> {
    let entries = resource.body.iter().filter_map(|entry| match entry {
        ast::Entry::Message(message) => Some((message.id.name.into(), message.value.as_ref()?)),
        ast::Entry::Term(term) => Some((format!("-{}", term.id.name).into(), &term.value)),
        _ => None,
    });
    entries.collect()
}

/// What the interface's form has no counterpart for, such as a function or a reference to nothing.
#[derive(Debug, thiserror::Error)]
#[error("{0}")]
struct NotCompiled(String);

fn compile(pattern: &ast::Pattern<&str>, patterns: &Patterns<'_>) -> Result<MessagePattern, NotCompiled> {
    let mut parts = Parts { parts: Vec::new(), depth: 0 };
    parts.add(pattern, patterns)?;
    Ok(parts.into_pattern())
}

/// A message refers to others at most this many levels deep; more is a circle.
const MAX_DEPTH: usize = 5;

/// The parts of one pattern; neighbouring texts are joined.
struct Parts {
    parts: Vec<MessagePart>,
    depth: usize,
}

impl Parts {
    fn add(&mut self, pattern: &ast::Pattern<&str>, patterns: &Patterns<'_>) -> Result<(), NotCompiled> {
        for element in &pattern.elements {
            match element {
                ast::PatternElement::TextElement { value } => self.text(value),
                ast::PatternElement::Placeable { expression } => self.expression(expression, patterns)?,
            }
        }
        Ok(())
    }

    fn text(&mut self, text: &str) {
        if let Some(MessagePart::Text(last)) = self.parts.last_mut() {
            last.push_str(text);
        } else {
            self.parts.push(MessagePart::Text(text.to_owned()));
        }
    }

    fn expression(&mut self, expression: &ast::Expression<&str>, patterns: &Patterns<'_>) -> Result<(), NotCompiled> {
        match expression {
            ast::Expression::Inline(inline) => self.inline(inline, patterns),
            ast::Expression::Select { selector, variants } => self.select(selector, variants, patterns),
        }
    }

    fn inline(&mut self, inline: &ast::InlineExpression<&str>, patterns: &Patterns<'_>) -> Result<(), NotCompiled> {
        use ast::InlineExpression as Inline;
        match inline {
            Inline::StringLiteral { value } => self.text(&unicode::unescape_unicode_to_string(value)),
            Inline::NumberLiteral { value } => self.text(value),
            Inline::VariableReference { id } => {
                self.parts.push(MessagePart::Argument { argument: id.name.to_owned() });
            }
            Inline::MessageReference { id, attribute: None } => self.reference(id.name, patterns)?,
            Inline::TermReference { id, attribute: None, arguments: None } => {
                self.reference(&format!("-{}", id.name), patterns)?;
            }
            Inline::Placeable { expression } => self.expression(expression, patterns)?,
            other => return Err(NotCompiled(format!("{other:?}"))),
        }
        Ok(())
    }

    fn reference(&mut self, id: &str, patterns: &Patterns<'_>) -> Result<(), NotCompiled> {
        let found = patterns.get(id).filter(|_| self.depth < MAX_DEPTH);
        let pattern = found.ok_or_else(|| NotCompiled(format!("the reference to {id}")))?;
        self.depth += 1;
        self.add(pattern, patterns)?;
        self.depth -= 1;
        Ok(())
    }

    fn select(
        &mut self,
        selector: &ast::InlineExpression<&str>,
        variants: &[ast::Variant<&str>],
        patterns: &Patterns<'_>,
    ) -> Result<(), NotCompiled> {
        let ast::InlineExpression::VariableReference { id } = selector else {
            return Err(NotCompiled(format!("a choice by {selector:?}")));
        };
        let mut cases = BTreeMap::new();
        let mut otherwise = MessagePattern::Text(String::new());
        for variant in variants {
            let mut parts = Self { parts: Vec::new(), depth: self.depth };
            parts.add(&variant.value, patterns)?;
            if variant.default {
                otherwise = parts.into_pattern();
            } else {
                let (ast::VariantKey::Identifier { name: key } | ast::VariantKey::NumberLiteral { value: key }) =
                    variant.key;
                cases.insert(key.to_owned(), parts.into_pattern());
            }
        }
        self.parts.push(MessagePart::Select { select: id.name.to_owned(), cases, otherwise });
        Ok(())
    }

    fn into_pattern(self) -> MessagePattern {
        match <[MessagePart; 1]>::try_from(self.parts) {
            Ok([MessagePart::Text(text)]) => MessagePattern::Text(text),
            Ok([part]) => MessagePattern::Parts(vec![part]),
            Err(parts) => MessagePattern::Parts(parts),
        }
    }
}

#[cfg(test)]
mod tests;
