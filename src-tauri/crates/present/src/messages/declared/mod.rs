//! The messages of this layer, by what they are about: each function makes one, with the arguments that its sentence takes.

use fellmark_model::message::DeclaredMessage;
use fellmark_model::{self as model};

pub mod cautions;
pub mod cloth;
pub mod dates;
pub mod figures;
pub mod glance;
pub mod progress;
pub mod reach;
pub mod sittings;

/// Every message that is declared in Rust: its sentence is made here, and the window has no copy of it.
pub(super) const ALL: &[&[DeclaredMessage]] = &[
    model::messages::DECLARED,
    model::plan::messages::DECLARED,
    dates::DECLARED,
    figures::DECLARED,
    progress::DECLARED,
    sittings::DECLARED,
    cautions::DECLARED,
    glance::DECLARED,
    cloth::DECLARED,
    reach::DECLARED,
];
