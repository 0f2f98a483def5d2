//! The readers of bytes from outside, each with what must hold of it.

pub mod memos;
pub mod readers;
