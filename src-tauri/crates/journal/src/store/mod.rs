//! The folder, and this device's own data beside it.

pub(crate) mod append;
mod check;
pub(crate) mod device;
pub(crate) mod disk;
pub(crate) mod files;
pub(crate) mod index;
mod join;
mod keep;
pub(crate) mod marker;
mod outbox;
pub(crate) mod progress;
mod read;
mod replica;
pub(crate) mod status;
pub(crate) mod watch;
