//! The guide, ready to be shown.

use serde::Serialize;
#[cfg(test)]
use ts_rs::TS;

/// What the guide holds, and what there is to know about the program.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct GuideContents {
    /// The pages in their order.
    pub pages: Vec<GuideLink>,
    /// Version of the program.
    pub version: String,
    /// The licence, word for word.
    pub licence: String,
}

/// A page to go to.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct GuideLink {
    /// Its id.
    pub page: String,
    /// Its heading.
    pub title: String,
}

/// One page.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct GuidePage {
    /// What stands on it.
    pub content: Vec<GuideNode>,
    /// Tag of the language it is in.
    pub language: String,
    /// Whether it is not in the language that was asked for.
    pub is_untranslated: bool,
    /// The page after it.
    pub next: Option<GuideLink>,
}

/// A piece of a page.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
#[serde(tag = "type", rename_all = "snake_case")]
pub enum GuideNode {
    /// Plain text.
    Text {
        /// The text.
        text: String,
    },
    /// An element with others in it.
    Element {
        /// What it is.
        tag: GuideTag,
        /// What is in it.
        children: Vec<GuideNode>,
    },
    /// A link to another page.
    Link {
        /// The page's id.
        page: String,
        /// What is in it.
        children: Vec<GuideNode>,
    },
    /// A picture.
    Picture {
        /// Its name among the program's pictures.
        name: String,
        /// What it shows, in words.
        text: String,
    },
}

/// The elements of a page, by their names in HTML.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(TS))]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs, reason = "the names are those of HTML")]
pub enum GuideTag {
    H1,
    H2,
    H3,
    P,
    Ul,
    Ol,
    Li,
    Strong,
    Em,
    Code,
}

#[cfg(test)]
pub(super) fn declarations() -> Vec<String> {
    super::declare!(GuideContents, GuideLink, GuidePage, GuideNode, GuideTag)
}
