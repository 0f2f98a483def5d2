//! The plan as it was typed last, in this device's own data for a folder.

use std::path::Path;

use fellmark_present::view::PlanForm;

/// The file it is kept in.
pub(crate) const TYPED: &str = "plan.json";

/// The plan that was typed last and the saved plan it came from, if one was; one that cannot be read is none.
pub(crate) fn typed_plan(local: &Path) -> Option<(PlanForm, String)> {
    std::fs::read(local.join(TYPED)).ok().and_then(|bytes| serde_json::from_slice(&bytes).ok())
}
