//! Names of things: records, devices, entries, kinds, and where an entry belongs.

use std::borrow::Cow;
use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Deserializer, Serialize, Serializer};
use sha2::{Digest, Sha256};

use crate::text::Text;

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
        pub struct $name(Text);

        impl $name {
            /// The id as text.
            #[must_use]
            pub fn as_str(&self) -> &str {
                self.0.as_str()
            }

            /// From a text that was found to be an id.
            #[allow(dead_code, reason = "not every sort of id is read so")]
            pub(crate) fn of_checked(text: &str) -> Self {
                debug_assert!(is_id(text));
                Self(text.into())
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
                let text = Cow::<'de, str>::deserialize(d)?;
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
    /// The id's bytes, to find it by.
    pub(crate) fn as_bytes(&self) -> &[u8] {
        self.0.as_bytes()
    }

    /// A new id of 20 random symbols (100 bits).
    ///
    /// # Errors
    /// When the system gives no random bytes.
    pub fn random() -> Result<Self, std::io::Error> {
        random_text(20).map(|text| Self(text.as_str().into()))
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
            Self(format!("{:016x}{:08x}", hash.finish(), time.subsec_nanos()).as_str().into())
        })
    }

    /// The first eight symbols: enough to find a directory again, and what its name ends in.
    #[must_use]
    pub fn short(&self) -> &str {
        self.as_str().get(..8).unwrap_or(self.as_str())
    }
}

impl DeviceId {
    /// A new id from the name a person gave her device: lower-case ASCII, then six random symbols.
    ///
    /// # Errors
    /// When the system gives no random bytes.
    pub fn for_name(name: &str) -> Result<Self, std::io::Error> {
        let word = crate::slug::slug(name, 20, "device");
        Ok(Self(format!("{word}-{}", random_text(6)?).as_str().into()))
    }
}

/// Hashes keys for maps by their own bits, mixed with a number that nobody outside knows: who writes entries may choose
/// some of a key's bits, but not where in a map it falls.
#[derive(Clone, Copy, Debug)]
pub(crate) struct ByBits(u64);

impl Default for ByBits {
    fn default() -> Self {
        use std::hash::{BuildHasher, Hasher, RandomState};
        static SECRET: std::sync::OnceLock<u64> = std::sync::OnceLock::new();
        Self(*SECRET.get_or_init(|| RandomState::new().build_hasher().finish()))
    }
}

impl std::hash::BuildHasher for ByBits {
    type Hasher = KeyHasher;
    fn build_hasher(&self) -> KeyHasher {
        KeyHasher(self.0)
    }
}

/// Spreads bits over a product; the golden ratio's first 64.
const ODD: u64 = 0x9e37_79b9_7f4a_7c15;

/// See [`ByBits`].
pub(crate) struct KeyHasher(u64);

impl std::hash::Hasher for KeyHasher {
    fn write(&mut self, bytes: &[u8]) {
        for part in bytes.chunks(8) {
            let mut word = [0; 8];
            word[..part.len()].copy_from_slice(part);
            self.write_u64(u64::from_le_bytes(word));
        }
    }
    fn write_u64(&mut self, word: u64) {
        let wide = u128::from(self.0 ^ word) * u128::from(ODD);
        self.0 = (wide >> 64) as u64 ^ wide as u64;
    }
    fn finish(&self) -> u64 {
        self.0
    }
}

/// Tells a set of keys from others, whatever their order, within one process: how many they are, and the sums of numbers
/// made of each by way of the secret of [`ByBits`]. Who does not know that can make no two sets that look the same.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct KeySum {
    count: usize,
    halves: u64,
    wholes: u64,
}

impl KeySum {
    pub(crate) fn add(&mut self, key: Key) {
        use std::hash::{BuildHasher, Hasher};
        let mut hash = ByBits::default().build_hasher();
        let [first, second] = [(key.number() >> 64) as u64, key.number() as u64];
        hash.write_u64(first);
        self.halves = self.halves.wrapping_add(hash.finish());
        hash.write_u64(second);
        self.wholes = self.wholes.wrapping_add(hash.finish());
        self.count += 1;
    }
}

/// The key of an entry: the first 128 bits of the SHA-256 of the rest of its line, as 32 hex digits.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Key([u8; 16]);

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

    /// Bits of the key, which are as good as random.
    pub(crate) fn bits(self) -> u64 {
        let [a, b, c, d, e, f, g, h, ..] = self.0;
        u64::from_le_bytes([a, b, c, d, e, f, g, h])
    }

    /// The key as a number.
    pub(crate) fn number(self) -> u128 {
        u128::from_be_bytes(self.0)
    }

    pub(crate) fn bytes(self) -> [u8; 16] {
        self.0
    }

    pub(crate) fn from_bytes(bytes: [u8; 16]) -> Self {
        Self(bytes)
    }

    /// Reads 32 lower-case hex digits.
    pub(crate) fn from_hex(hex: &[u8]) -> Option<Self> {
        let (eights, []) = hex.as_chunks::<8>() else { return None };
        if eights.len() * 8 != Self::DIGITS {
            return None;
        }
        let mut bytes = [0u8; 16];
        // 0 where all were digits, so that one look at the end tells.
        let mut strange = 0;
        for (four, eight) in bytes.as_chunks_mut::<4>().0.iter_mut().zip(eights) {
            let (read, wrong) = eight_digits(u64::from_le_bytes(*eight));
            strange |= wrong;
            *four = read.to_le_bytes();
        }
        (strange == 0).then_some(Self(bytes))
    }
}

/// Eight lower-case hex digits, the first in the lowest byte, as the four bytes they stand for; the second number is 0 if digits
/// they are. All eight at once, each in its own byte: none of these sums passes 255.
fn eight_digits(digits: u64) -> (u32, u64) {
    const ONES: u64 = u64::from_le_bytes([1; 8]);
    let is_letter = digits >> 6 & ONES;
    let values = (digits & (ONES * 0x0f)) + is_letter * 9;
    // '0' is 0x30 and 'a' 0x61; a letter's value is 10 to 15, a figure's 0 to 9.
    let wrong_high = (digits & (ONES * 0xf0)) ^ (ONES * 0x30 + is_letter * 0x30);
    let wrong_low = (values & (ONES * 0x10)) | (((values + ONES * 6) >> 4 & ONES) ^ is_letter);
    let pairs = (values << 4 | values >> 8) & 0x00ff_00ff_00ff_00ff;
    let fours = (pairs | pairs >> 8) & 0x0000_ffff_0000_ffff;
    ((fours | fours >> 16) as u32, wrong_high | wrong_low)
}

impl std::hash::Hash for Key {
    fn hash<H: std::hash::Hasher>(&self, state: &mut H) {
        state.write_u64(self.bits());
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
        let text = Cow::<'de, str>::deserialize(d)?;
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
        let text = Cow::<'de, str>::deserialize(d)?;
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

#[cfg(test)]
mod tests {
    use super::Key;

    #[test]
    fn a_key_is_read_as_a_slow_look_reads_it() {
        let slow = |hex: &[u8]| -> Option<Key> {
            let digit = |byte: &u8| b"0123456789abcdef".iter().position(|known| known == byte).map(|at| at as u8);
            let values: Vec<u8> = hex.iter().map(digit).collect::<Option<_>>()?;
            let bytes: Vec<u8> = values.chunks(2).map(|pair| pair[0] << 4 | pair[1]).collect();
            Some(Key(bytes.try_into().ok()?))
        };
        for length in [0, 8, 24, 31, 33, 40] {
            assert_eq!(Key::from_hex(&vec![b'a'; length]), None);
        }
        let whole = Key::of_rest(b"anything").to_string().into_bytes();
        for at in 0..Key::DIGITS {
            for byte in 0..=255 {
                let mut hex = whole.clone();
                hex[at] = byte;
                assert_eq!(Key::from_hex(&hex), slow(&hex), "{hex:?}");
            }
        }
    }
}
