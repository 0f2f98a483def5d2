//! What the black-box tests share.

pub mod backtest;
pub mod command_line;
pub mod journal;
pub mod twenty_years;
pub mod window;
