//! What the black-box tests share.

pub mod fell;
pub mod window;
