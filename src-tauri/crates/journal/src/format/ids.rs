//! Names of things: records, devices, entries, kinds, and where an entry belongs.

use std::borrow::Cow;
use std::fmt;
use std::hash::{Hash, Hasher};
use std::str::FromStr;

use serde::{Deserialize, Deserializer, Serialize, Serializer};
use sha2::{Digest, Sha256};

use smol_str::SmolStr;

use super::strict::Name;

/// What is wrong with a text that should have been an id.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("“{text}” is no {what}: {rule}")]
pub struct IdError {
    /// The text that was given, shortened.
    text: String,
    /// What it should have been.
    what: &'static str,
    /// The rule it breaks.
    rule: &'static str,
}

impl IdError {
    fn new(text: &str, what: &'static str, rule: &'static str) -> Self {
        Self { text: text.chars().take(40).collect(), what, rule }
    }
}

/// Longest record or device id, in bytes.
const ID_MAX_BYTES: usize = 64;
const ID_RULE: &str = "1 to 64 letters, digits, - or _";

pub(crate) fn is_id(text: &str) -> bool {
    (1..=ID_MAX_BYTES).contains(&text.len())
        && text.bytes().all(|b| b.is_ascii_alphanumeric() || b == b'-' || b == b'_')
}

/// Random text of `count` symbols from an alphabet of 32 without look-alikes (5 bits each).
pub(crate) fn random_text(count: usize) -> Result<String, std::io::Error> {
    const ALPHABET: &[u8; 32] = b"0123456789abcdefghjkmnpqrstvwxyz";
    let mut bytes = vec![0u8; count];
    getrandom::fill(&mut bytes).map_err(|e| std::io::Error::other(e.to_string()))?;
    Ok(bytes.iter().map(|b| char::from(ALPHABET[usize::from(b & 31)])).collect())
}

macro_rules! text_id {
    ($(#[$doc:meta])* $name:ident, $what:literal) => {
        $(#[$doc])*
        #[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(SmolStr);

        impl $name {
            /// The id as text.
            #[must_use]
            pub fn as_str(&self) -> &str {
                self.0.as_str()
            }
        }

        impl FromStr for $name {
            type Err = IdError;
            fn from_str(text: &str) -> Result<Self, IdError> {
                if is_id(text) { Ok(Self(text.into())) } else { Err(IdError::new(text, $what, ID_RULE)) }
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(self.as_str())
            }
        }

        impl fmt::Debug for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, "{}({})", stringify!($name), self.as_str())
            }
        }

        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
                s.serialize_str(self.as_str())
            }
        }

        impl<'de> Deserialize<'de> for $name {
            fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
                let Name(text) = Name::deserialize(d)?;
                text.parse().map_err(serde::de::Error::custom)
            }
        }
    };
}

text_id!(
    /// The id of one record (a warp, a sitting, a yarn …): random, made once, never reused.
    RecordId,
    "record id"
);
text_id!(
    /// The id of one device: a readable word and a random end, `laptop-k3m8pq`.
    DeviceId,
    "device id"
);

impl RecordId {
    /// A new id of 20 random symbols (100 bits).
    ///
    /// # Errors
    /// When the system gives no random bytes.
    pub fn random() -> Result<Self, std::io::Error> {
        random_text(20).map(|text| Self(text.into()))
    }

    /// A new id of 20 random symbols (100 bits). Where the system gives no random bytes, which no supported
    /// system does, the time and the process stand in for them.
    #[must_use]
    #[allow(clippy::new_without_default, reason = "two calls never give the same value")]
    pub fn new() -> Self {
        Self::random().unwrap_or_else(|_| {
            use std::hash::{BuildHasher, Hasher};
            let mut hash = std::hash::RandomState::new().build_hasher();
            hash.write_u32(std::process::id());
            let time = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap_or_default();
            hash.write_u128(time.as_nanos());
            Self(format!("{:016x}{:08x}", hash.finish(), time.subsec_nanos()).into())
        })
    }

    /// The first eight symbols: enough to find a directory again, and what its name ends in.
    #[must_use]
    pub fn short(&self) -> &str {
        self.as_str().get(..8).unwrap_or(self.as_str())
    }
}

impl DeviceId {
    /// A new id from the name a person gave the device: lower-case ASCII, then six random symbols.
    ///
    /// # Errors
    /// When the system gives no random bytes.
    pub fn for_name(name: &str) -> Result<Self, std::io::Error> {
        let word = super::slug::slug(name, 20, "device");
        Ok(Self(format!("{word}-{}", random_text(6)?).into()))
    }
}

/// The key of an entry: the first 128 bits of the SHA-256 of the rest of its line, as 32 hex digits.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Key([u8; 16]);

impl Hash for Key {
    fn hash<H: Hasher>(&self, state: &mut H) {
        // A key is part of a SHA-256: any 64 bits of it serve as a hash.
        state.write_u64(self.number() as u64);
    }
}

impl Key {
    /// Digits of a key as text.
    pub(crate) const DIGITS: usize = 32;

    /// The key of the bytes that follow `{"key":"…",` up to and with the closing brace.
    #[must_use]
    pub fn of_rest(rest: &[u8]) -> Self {
        let digest = Sha256::digest(rest);
        let mut first = [0u8; 16];
        first.copy_from_slice(&digest[..16]);
        Self(first)
    }

    /// The key as a number.
    pub(crate) fn number(self) -> u128 {
        u128::from_be_bytes(self.0)
    }

    /// Reads 32 lower-case hex digits.
    pub(crate) fn from_hex(hex: &[u8]) -> Option<Self> {
        let digit = |byte: u8| match byte {
            b'0'..=b'9' => Some(byte - b'0'),
            b'a'..=b'f' => Some(byte - b'a' + 10),
            _ => None,
        };
        let hex: &[u8; Self::DIGITS] = hex.try_into().ok()?;
        let mut bytes = [0; Self::DIGITS / 2];
        for (byte, [high, low]) in bytes.iter_mut().zip(hex.as_chunks::<2>().0) {
            *byte = digit(*high)? << 4 | digit(*low)?;
        }
        Some(Self(bytes))
    }
}

impl FromStr for Key {
    type Err = IdError;
    fn from_str(text: &str) -> Result<Self, IdError> {
        Self::from_hex(text.as_bytes()).ok_or_else(|| IdError::new(text, "key", "32 digits 0-9 a-f"))
    }
}

impl fmt::Display for Key {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&hex(&self.0))
    }
}

impl fmt::Debug for Key {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Key({self})")
    }
}

impl Serialize for Key {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        s.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Key {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        let Name(text) = Name::deserialize(d)?;
        text.parse().map_err(serde::de::Error::custom)
    }
}

/// Lower-case hex digits of some bytes.
pub(crate) fn hex(bytes: &[u8]) -> String {
    const DIGITS: &[u8; 16] = b"0123456789abcdef";
    bytes.iter().flat_map(|b| [DIGITS[usize::from(b >> 4)], DIGITS[usize::from(b & 15)]]).map(char::from).collect()
}

/// What sort of record an entry is about. The journal stores the word; what it means is for the layer above.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Kind(Cow<'static, str>);

impl Kind {
    /// A warp: the record whose own id is its place.
    pub const WARP: Self = Self::fixed("warp");
    /// A sitting at the loom.
    pub const SITTING: Self = Self::fixed("sitting");
    /// A yarn on the shelf.
    pub const YARN: Self = Self::fixed("yarn");
    /// A photograph that belongs to a warp or a sitting.
    pub const PHOTO: Self = Self::fixed("photo");
    /// Settings that travel with the folder.
    pub const SETTINGS: Self = Self::fixed("settings");

    /// A kind known when the program was written.
    #[must_use]
    pub const fn fixed(word: &'static str) -> Self {
        Self(Cow::Borrowed(word))
    }

    /// A kind from a text, such as one a newer version wrote.
    ///
    /// # Errors
    /// When it is not 1 to 64 letters, digits, `-` or `_`.
    pub fn new(word: &str) -> Result<Self, IdError> {
        if !is_id(word) {
            return Err(IdError::new(word, "kind", ID_RULE));
        }
        for known in [Self::WARP, Self::SITTING, Self::YARN, Self::PHOTO, Self::SETTINGS] {
            if known.as_str() == word {
                return Ok(known);
            }
        }
        Ok(Self(Cow::Owned(word.to_owned())))
    }

    /// The word.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for Kind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl Serialize for Kind {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        s.serialize_str(&self.0)
    }
}

impl<'de> Deserialize<'de> for Kind {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        let Name(text) = Name::deserialize(d)?;
        Self::new(&text).map_err(serde::de::Error::custom)
    }
}

/// Where an entry belongs: to one warp, or to the shelf.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Place {
    /// One warp and all that is logged on it.
    Warp {
        /// The warp's own record id.
        id: RecordId,
    },
    /// What belongs to no warp: yarns, looms, settings that travel.
    Shelf,
}

impl Place {
    /// The warp's place.
    #[must_use]
    pub fn warp(id: &RecordId) -> Self {
        Self::Warp { id: id.clone() }
    }

    /// The warp's id, if the place is a warp.
    #[must_use]
    pub fn warp_id(&self) -> Option<&RecordId> {
        match self {
            Self::Warp { id } => Some(id),
            Self::Shelf => None,
        }
    }
}
