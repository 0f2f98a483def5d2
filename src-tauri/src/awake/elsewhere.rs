//! Where the web view itself keeps the screen awake when the page asks it to.

/// Never given here.
pub enum Hold {}

impl Hold {
    pub fn ask() -> Option<Self> {
        None
    }

    pub fn stands(&self) -> bool {
        match *self {}
    }
}
