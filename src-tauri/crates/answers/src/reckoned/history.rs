//! What the finished warps say together.

use std::borrow::Cow;

use fellmark_journal::{RecordId, State};
use fellmark_projection::EarlierWarp;

use super::{Reckonings, Summary};
use crate::learnt::Taught;
use crate::view::WarpState;

/// What the warps that are off the loom say to the others, and to plans.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct History {
    warps: Vec<RecordId>,
    /// Their sittings.
    pub earlier: Vec<EarlierWarp>,
    /// Days the finishing steps of each took, by the step's name in small letters.
    pub waits: Vec<Vec<(String, i64)>>,
    /// What each has to teach.
    pub taught: Vec<Taught>,
}

impl History {
    /// The history that these warps make.
    #[must_use]
    pub fn of<'a>(all: impl IntoIterator<Item = &'a Summary>) -> Self {
        let mut history = Self::default();
        for one in all.into_iter().filter(|one| one.state == WarpState::OffTheLoom) {
            history.warps.push(one.id.clone());
            history.earlier.push(EarlierWarp { sittings: one.along.sittings(one.sittings.iter().copied()) });
            history.waits.push(one.waits.clone());
            history.taught.push(one.taught.clone().unwrap_or_default());
        }
        history
    }

    /// What all but this one say: no warp is history to itself.
    #[must_use]
    pub fn without(&self, warp: &RecordId) -> Cow<'_, Self> {
        let Some(at) = self.warps.iter().position(|id| id == warp) else { return Cow::Borrowed(self) };
        let mut others = self.clone();
        others.warps.remove(at);
        others.earlier.remove(at);
        others.taught.remove(at);
        others.waits.remove(at);
        Cow::Owned(others)
    }

    /// The history of a whole journal, for a single look.
    #[must_use]
    pub fn of_state(state: &State) -> Self {
        Self::of(Reckonings::of(state).summaries().map(AsRef::as_ref))
    }
}
