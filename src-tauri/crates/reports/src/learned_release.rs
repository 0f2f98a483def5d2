//! What a warp on the loom can expect to lose in length when the tension goes, from the warps that are finished.

use fellmark_model::{ClothState, LearnedRelease, Tape, WarpLog, WarpState};

use crate::history::History;
use crate::learned::{Similarity, from_samples};
use crate::relaxation::POSSIBLE_RATIOS;

/// What the finished warps lost in length when the tension went, each counting by how like this warp it is. A warp that is cut off
/// shows its own.
#[must_use]
pub(crate) fn learned_release(log: &WarpLog, history: &History) -> Option<LearnedRelease> {
    if log.warp.state == WarpState::OffTheLoom {
        return None;
    }
    let learned = from_samples(&history.samples, &Similarity::of(log)).cloth.release?;
    POSSIBLE_RATIOS.contains(&learned.value.ratio()).then_some(LearnedRelease {
        ratio: learned.value.ratio(),
        deviation: learned.deviation,
        warps: learned.warps,
    })
}

/// Whether the figures of a warp on the loom depend on what cloth loses when the tension goes: a length is wanted off the loom, or
/// one was measured relaxed.
pub(crate) fn depends_on_release(log: &WarpLog) -> bool {
    let relaxed = |tape: Option<Tape>| tape.is_some_and(|tape| tape.relaxed);
    log.warp.state != WarpState::OffTheLoom
        && ((log.warp.wanted_mm.is_some()
            && match log.warp.wanted_state {
                ClothState::OffLoom => true,
                ClothState::Finished => log.warp.usual_wash().is_some(),
                ClothState::UnderTension => false,
            })
            || log.sittings.iter().any(|sitting| relaxed(sitting.tape))
            || log.moments.readings.iter().any(|reading| relaxed(reading.tape)))
}
