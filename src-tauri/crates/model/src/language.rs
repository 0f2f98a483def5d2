//! The languages of the program's texts.

/// A language that there is a catalogue of texts for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Language {
    /// English; also for readers of any language that is not here.
    English,
    /// German.
    German,
    /// French.
    French,
}

impl Language {
    /// Every language, English first.
    pub const ALL: [Self; 3] = [Self::English, Self::German, Self::French];

    /// The language's tag, as BCP 47 and ISO 639 have it.
    #[must_use]
    pub fn tag(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::German => "de",
            Self::French => "fr",
        }
    }

    /// The language of a locale such as `de-AT`, `fr_CA.UTF-8` or `en`; English where there is no catalogue.
    #[must_use]
    pub fn of_locale(locale: &str) -> Self {
        let language = locale.split(['-', '_', '.', '@']).next().unwrap_or_default();
        Self::ALL.into_iter().find(|known| known.tag().eq_ignore_ascii_case(language)).unwrap_or(Self::English)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_locale_has_the_language_it_begins_with() {
        for (locale, language) in [
            ("de", Language::German),
            ("de_AT.UTF-8", Language::German),
            ("FR-ca", Language::French),
            ("en-GB", Language::English),
            ("frp-IT", Language::English),
            ("nl-NL", Language::English),
            ("C", Language::English),
            ("", Language::English),
        ] {
            assert_eq!(Language::of_locale(locale), language, "{locale}");
        }
    }
}
