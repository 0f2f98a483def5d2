//! Where work can hurt someone.

use fellmark_model::declare_messages;

declare_messages! {
    stretch_due(minutes: Whole);
    stretch_at_an_advance(minutes: Whole);

    // Cautions about a warp, and where each comes from.
    caution_child_neck();
    caution_child_neck_source();
    caution_child_small_parts();
    caution_child_small_parts_source();
    caution_posture();
    caution_posture_source();
    caution_dust();
    caution_dust_source();
    caution_hot_water();
    caution_hot_water_source();
    caution_dyes();
    caution_dyes_source();
    /// Heading of the cautions on a record sheet.
    cautions_heading();
    /// What they are and are not.
    cautions_local_rules();
}
