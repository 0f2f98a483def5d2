//! Short texts that lie where they are used: ids and times are cloned and compared more than anything else.

use std::cmp::Ordering;
use std::hash::{Hash, Hasher};
use std::sync::Arc;

/// Longest text that needs no memory of its own, in bytes: an entry's time has 29.
const SHORT_BYTES: usize = 30;

/// A text, most often a short one. It compares as its bytes do.
#[derive(Clone)]
pub(crate) enum Text {
    Short { len: u8, bytes: [u8; SHORT_BYTES] },
    Long(Arc<str>),
}

impl Text {
    pub(crate) fn as_str(&self) -> &str {
        match self {
            // Made from a whole text below, so it is one.
            Self::Short { len, bytes } => std::str::from_utf8(&bytes[..usize::from(*len)]).unwrap_or_default(),
            Self::Long(text) => text,
        }
    }

    pub(crate) fn as_bytes(&self) -> &[u8] {
        match self {
            Self::Short { len, bytes } => &bytes[..usize::from(*len)],
            Self::Long(text) => text.as_bytes(),
        }
    }
}

impl From<&str> for Text {
    fn from(text: &str) -> Self {
        let mut bytes = [0; SHORT_BYTES];
        match (bytes.get_mut(..text.len()), u8::try_from(text.len())) {
            (Some(room), Ok(len)) => {
                room.copy_from_slice(text.as_bytes());
                Self::Short { len, bytes }
            }
            _ => Self::Long(text.into()),
        }
    }
}

impl PartialEq for Text {
    fn eq(&self, other: &Self) -> bool {
        self.as_bytes() == other.as_bytes()
    }
}
impl Eq for Text {}

impl PartialOrd for Text {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Text {
    fn cmp(&self, other: &Self) -> Ordering {
        self.as_bytes().cmp(other.as_bytes())
    }
}

impl Hash for Text {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.as_bytes().hash(state);
    }
}
