//! What the black-box tests share.

pub mod fell;
pub mod twenty_years;
pub mod window;
