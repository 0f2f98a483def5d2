//! The guide: the pages of `docs/guide`, as they were when the program was built.
//!
//! A page is read into a tree of a few kinds of nodes, from which the window makes its elements: nothing of it is ever taken for HTML.

use fellmark_model::Language;
use pulldown_cmark::{Event, HeadingLevel, Parser, Tag, TagEnd};

use crate::view::{GuideContents, GuideLink, GuideNode, GuidePage, GuideTag};

/// The text of a page in each language that has it.
struct Source {
    page: &'static str,
    english: &'static str,
    german: Option<&'static str>,
    french: Option<&'static str>,
}

macro_rules! page {
    ($name:literal) => {
        Source {
            page: $name,
            english: include_str!(concat!("../../../../docs/guide/en/", $name, ".md")),
            german: None,
            french: None,
        }
    };
}

/// The pages in their order.
const PAGES: &[Source] = &[
    page!("first-warp"),
    page!("at-the-loom"),
    page!("plan-from-yarn"),
    page!("off-the-loom"),
    page!("two-devices"),
    page!("backup"),
    page!("deleting"),
    page!("figures"),
];

const LICENCE: &str = include_str!("../../../../LICENSE");

impl Source {
    /// The text in a language, else in English; and which language that is.
    fn text(&self, language: Language) -> (&'static str, Language) {
        let translated = match language {
            Language::English => Some(self.english),
            Language::German => self.german,
            Language::French => self.french,
        };
        translated.map_or((self.english, Language::English), |text| (text, language))
    }

    fn link(&self, language: Language) -> GuideLink {
        let (text, _) = self.text(language);
        let title = text.lines().find_map(|line| line.strip_prefix("# ")).unwrap_or(self.page);
        GuideLink { page: self.page.to_owned(), title: title.to_owned() }
    }
}

/// The pages there are, and what there is to know about the program.
#[must_use]
pub fn contents(language: Language) -> GuideContents {
    GuideContents {
        pages: PAGES.iter().map(|source| source.link(language)).collect(),
        version: env!("CARGO_PKG_VERSION").to_owned(),
        licence: LICENCE.to_owned(),
    }
}

/// A page, in English where it is not translated; nothing where there is no such page.
#[must_use]
pub fn page(name: &str, language: Language) -> Option<GuidePage> {
    let at = PAGES.iter().position(|source| source.page == name)?;
    let (text, written_in) = PAGES[at].text(language);
    Some(GuidePage {
        content: Reader::default().read(text),
        language: written_in.tag().to_owned(),
        is_untranslated: written_in != language,
        next: PAGES.get(at + 1).map(|source| source.link(language)),
    })
}

/// Reads the Markdown of a page.
#[derive(Default)]
struct Reader {
    /// The nodes that are open, each with what is in it so far.
    open: Vec<(Opened, Vec<GuideNode>)>,
    read: Vec<GuideNode>,
    /// What stands on a page and is not shown, such as HTML; a test finds none.
    left_out: Vec<String>,
}

/// What a node becomes when it is closed.
enum Opened {
    Element(GuideTag),
    Link(String),
    Picture(String),
    /// Its content stands without it.
    Nothing,
}

impl Reader {
    fn read(mut self, text: &str) -> Vec<GuideNode> {
        self.take_in(text);
        self.read
    }

    fn take_in(&mut self, text: &str) {
        for event in Parser::new(text) {
            match event {
                Event::Start(tag) => {
                    let opened = self.opened(&tag);
                    self.open.push((opened, Vec::new()));
                }
                Event::End(end) => self.close(end),
                Event::Text(text) => self.add(GuideNode::Text { text: text.into_string() }),
                Event::SoftBreak | Event::HardBreak => self.add(GuideNode::Text { text: " ".to_owned() }),
                Event::Code(text) => self.add(GuideNode::Element {
                    tag: GuideTag::Code,
                    children: vec![GuideNode::Text { text: text.into_string() }],
                }),
                other => self.left_out.push(format!("{other:?}")),
            }
        }
    }

    fn opened(&mut self, tag: &Tag<'_>) -> Opened {
        let element = match tag {
            Tag::Heading { level: HeadingLevel::H1, .. } => GuideTag::H1,
            Tag::Heading { level: HeadingLevel::H2, .. } => GuideTag::H2,
            Tag::Heading { .. } => GuideTag::H3,
            Tag::Paragraph => GuideTag::P,
            Tag::List(None) => GuideTag::Ul,
            Tag::List(Some(_)) => GuideTag::Ol,
            Tag::Item => GuideTag::Li,
            Tag::Strong => GuideTag::Strong,
            Tag::Emphasis => GuideTag::Em,
            Tag::Link { dest_url, .. } => {
                let page = dest_url.strip_suffix(".md").filter(|name| PAGES.iter().any(|source| source.page == *name));
                if let Some(page) = page {
                    return Opened::Link(page.to_owned());
                }
                self.left_out.push(dest_url.to_string());
                return Opened::Nothing;
            }
            Tag::Image { dest_url, .. } => {
                let name = dest_url.strip_prefix("../../pictures/").and_then(|name| name.strip_suffix(".png"));
                if let Some(name) = name {
                    return Opened::Picture(name.to_owned());
                }
                self.left_out.push(dest_url.to_string());
                return Opened::Nothing;
            }
            other => {
                self.left_out.push(format!("{other:?}"));
                return Opened::Nothing;
            }
        };
        Opened::Element(element)
    }

    fn close(&mut self, _end: TagEnd) {
        let Some((opened, children)) = self.open.pop() else { return };
        match opened {
            Opened::Element(tag) => self.add(GuideNode::Element { tag, children }),
            Opened::Link(page) => self.add(GuideNode::Link { page, children }),
            Opened::Picture(name) => self.add(GuideNode::Picture { name, text: plain(&children) }),
            Opened::Nothing => children.into_iter().for_each(|child| self.add(child)),
        }
    }

    fn add(&mut self, node: GuideNode) {
        match self.open.last_mut() {
            Some((_, children)) => children.push(node),
            None => self.read.push(node),
        }
    }
}

/// The text of nodes without what they are in.
fn plain(nodes: &[GuideNode]) -> String {
    let text = |node: &GuideNode| match node {
        GuideNode::Text { text } | GuideNode::Picture { text, .. } => text.clone(),
        GuideNode::Element { children, .. } | GuideNode::Link { children, .. } => plain(children),
    };
    nodes.iter().map(text).collect()
}

/// Names of all pictures on a page.
#[must_use]
pub fn pictures(nodes: &[GuideNode]) -> Vec<String> {
    let of_node = |node: &GuideNode| match node {
        GuideNode::Picture { name, .. } => vec![name.clone()],
        GuideNode::Element { children, .. } | GuideNode::Link { children, .. } => pictures(children),
        GuideNode::Text { .. } => Vec::new(),
    };
    nodes.iter().flat_map(of_node).collect()
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;
    use std::path::Path;

    use super::*;

    fn docs() -> std::path::PathBuf {
        Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../docs")
    }

    fn all_texts() -> impl Iterator<Item = (&'static str, &'static str)> {
        PAGES.iter().flat_map(|one| {
            [Some(one.english), one.german, one.french].into_iter().flatten().map(|text| (one.page, text))
        })
    }

    #[test]
    fn pages_hold_nothing_that_is_not_shown() {
        for (page, text) in all_texts() {
            let mut reader = Reader::default();
            reader.take_in(text);
            assert!(reader.left_out.is_empty() && reader.open.is_empty(), "{page}: {:?}", reader.left_out);
            let is_heading = |node: &GuideNode| matches!(node, GuideNode::Element { tag: GuideTag::H1, .. });
            assert_eq!(reader.read.iter().filter(|node| is_heading(node)).count(), 1, "{page}");
        }
    }

    #[test]
    fn html_and_links_to_the_outside_are_text_at_most() {
        let mut reader = Reader::default();
        reader.take_in(
            "<script>alert(1)</script>\n\n[away](https://example.org) <b>bold</b> ![](https://example.org/x.png)\n",
        );
        let shown = format!("{:?}", reader.read);
        assert!(!shown.contains("example.org") && !shown.contains("script") && !shown.contains("<b>"), "{shown}");
        assert!(shown.contains("away") && reader.left_out.len() > 3, "{:?}", reader.left_out);
    }

    #[test]
    fn every_page_is_in_the_list_of_the_directory_and_every_picture_is_there() {
        let index = std::fs::read_to_string(docs().join("guide/README.md")).unwrap();
        let listed: Vec<&str> =
            index.lines().filter_map(|line| line.split_once("](en/")?.1.strip_suffix(".md)")).collect();
        let pages: Vec<&str> = PAGES.iter().map(|source| source.page).collect();
        assert_eq!(listed, pages);
        let files: BTreeSet<String> = std::fs::read_dir(docs().join("guide/en"))
            .unwrap()
            .map(|entry| entry.unwrap().path().file_stem().unwrap().to_string_lossy().into_owned())
            .collect();
        assert_eq!(files, pages.iter().map(|page| (*page).to_owned()).collect());
        for name in pages.iter().flat_map(|name| pictures(&page(name, Language::English).unwrap().content)) {
            assert!(docs().join(format!("pictures/{name}.png")).exists(), "{name}");
        }
    }

    #[test]
    fn a_page_that_is_not_translated_is_in_english_and_says_so() {
        let shown = page("figures", Language::German).unwrap();
        let is_german = PAGES.iter().any(|source| source.page == "figures" && source.german.is_some());
        assert_eq!((shown.language == "de", shown.is_untranslated), (is_german, !is_german));
        assert!(page("../figures", Language::English).is_none());
    }
}
