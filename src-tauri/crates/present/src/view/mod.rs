//! What the interface and the command line show: plain data with every sentence and figure ready made.
//!
//! These types cross the boundary to the window as JSON; their TypeScript form is kept in `ui/types.d.ts` by a test. Dates are
//! `YYYY-MM-DD`. Members ending in `_mm` are millimetres, `_g` grams, `share` runs from 0 to 1.

mod answer;
mod forms;
mod guide;
mod import;
mod notes;
mod off;
mod overview;
mod pace;
mod pick_sequence;
mod pictures;
mod plan;
mod sitting;
mod warp;

pub use answer::*;
pub use forms::*;
pub use guide::*;
pub use import::*;
pub use notes::*;
pub use off::*;
pub use overview::*;
pub use pace::*;
pub use pick_sequence::*;
pub use pictures::*;
pub use plan::*;
pub use sitting::*;
pub use warp::*;

/// The TypeScript declarations of types.
#[cfg(test)]
macro_rules! declare {
    ($($name:ident),+ $(,)?) => {
        vec![$(format!("export {}", <$name as ts_rs::TS>::decl(&ts_rs::Config::default()))),+]
    };
}
#[cfg(test)]
use declare;

#[cfg(test)]
mod tests {
    use super::*;

    /// `FELLMARK_BLESS=1` writes the file anew.
    #[test]
    fn the_interface_has_the_types_as_they_are() {
        let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../ui/types.d.ts");
        let all = [
            overview::declarations(),
            pick_sequence::declarations(),
            answer::declarations(),
            warp::declarations(),
            notes::declarations(),
            pictures::declarations(),
            sitting::declarations(),
            forms::declarations(),
            plan::declarations(),
            off::declarations(),
            import::declarations(),
            pace::declarations(),
            guide::declarations(),
        ];
        let made = format!(
            "// Made from the views in src-tauri/crates/present by a test there; do not edit.\n\n{}\n",
            all.concat().join("\n\n")
        );
        if std::env::var_os("FELLMARK_BLESS").is_some() {
            std::fs::write(&path, &made).unwrap();
        }
        let kept = std::fs::read_to_string(&path).unwrap_or_default();
        assert!(kept == made, "ui/types.d.ts is out of date: run the tests of this crate with FELLMARK_BLESS=1");
    }
}
