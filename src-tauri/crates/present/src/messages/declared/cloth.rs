//! Messages on what cloth loses off the loom and in the wash and on figures that cannot be meant.

use fellmark_model::declare_messages;

declare_messages! {
    // What cloth loses when the tension goes, by where that is known from.
    relaxation_from_pairs(percent: Number, pairs: Count);
    relaxation_from_warps(percent: Number, warps: Count);
    relaxation_assumed(percent: Number, least: Number, most: Number);
    /// A length wanted off the loom, and the same under tension.
    off_loom_needs(off_loom: LengthMm, under_tension: LengthMm);
    /// `relaxed` and `usual` are losses in per cent, off the loom and in the wash.
    fibre_loses(to_weave: LengthMm, relaxed: Number, usual: Number, least: Number, most: Number);

    // What cannot be meant.
    reading_beyond_warp(read: LengthMm, wound: LengthMm);
    take_up_beyond_cloth(per_100: Count);
    yarn_reaches_one_time_in_two(planned: LengthMm, nine_in_ten: LengthMm);
}
