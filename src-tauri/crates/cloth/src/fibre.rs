//! What a yarn is made of, as far as it matters to the arithmetic.

use crate::quantity::YarnSystem;

/// What a yarn is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Fibre {
    /// Cotton.
    Cotton,
    /// Linen, hemp, ramie.
    Linen,
    /// Cotton and linen spun together.
    Cottolin,
    /// Wool and the hair of other animals.
    Wool,
    /// Silk.
    Silk,
    /// Fibres made from cellulose: viscose, lyocell, bamboo.
    Cellulose,
    /// Spun from oil: nylon, acrylic, polyester.
    Synthetic,
}

/// Names of fibres and of breeds as labels have them.
const NAMES: &[(Fibre, &[&str])] = &[
    (Fibre::Cotton, &["cotton", "cottons"]),
    (Fibre::Linen, &["linen", "flax", "hemp", "ramie", "tow"]),
    (Fibre::Cottolin, &["cottolin"]),
    (
        Fibre::Wool,
        &[
            "wool",
            "woollen",
            "woolen",
            "merino",
            "lambswool",
            "shetland",
            "alpaca",
            "mohair",
            "cashmere",
            "yak",
            "angora",
            "camel",
            "llama",
        ],
    ),
    (Fibre::Silk, &["silk", "tussah", "bombyx", "mulberry", "noil", "bourette", "schappe"]),
    (Fibre::Cellulose, &["viscose", "rayon", "lyocell", "tencel", "bamboo", "modal"]),
    (Fibre::Synthetic, &["nylon", "polyamide", "acrylic", "polyester"]),
];

impl Fibre {
    /// The fibre that a word in small letters names.
    #[must_use]
    pub fn from_word(word: &str) -> Option<Self> {
        NAMES.iter().find(|(_, names)| names.contains(&word)).map(|(fibre, _)| *fibre)
    }

    /// The word it has in forms and in the folder.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Cotton => "cotton",
            Self::Linen => "linen",
            Self::Cottolin => "cottolin",
            Self::Wool => "wool",
            Self::Silk => "silk",
            Self::Cellulose => "viscose",
            Self::Synthetic => "acrylic",
        }
    }

    /// The first fibre that a text names: "8/2 cotton".
    #[must_use]
    pub fn named_in(text: &str) -> Option<Self> {
        let text = text.to_lowercase();
        text.split(|letter: char| !letter.is_alphabetic()).find_map(Self::from_word)
    }

    /// The system in which yarn of this fibre is counted where the label names none; `None` where two systems are equally usual:
    /// wool is counted metric and worsted, and these differ by an eighth.
    ///
    /// Common practice, no source; cottolin by the leas of linen, silk metric as dealers now sell it (60/2 at 14 880 yd/lb), from
    /// memory. Spun silk counted in English hanks is said to be spun silk.
    #[must_use]
    pub fn usual_system(self) -> Option<YarnSystem> {
        match self {
            Self::Cotton | Self::Cellulose => Some(YarnSystem::EnglishCotton),
            Self::Linen | Self::Cottolin => Some(YarnSystem::LinenLea),
            Self::Silk => Some(YarnSystem::MetricNm),
            Self::Wool | Self::Synthetic => None,
        }
    }
}
