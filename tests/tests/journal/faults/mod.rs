//! Forty faults, numbered and named by what breaks, each with what must come of it. What this machine cannot do
//! says so in its place.

mod clock;
mod conflicts;
mod crash;
mod disk;
mod folder;
mod hostile;
mod import;
mod synced;
