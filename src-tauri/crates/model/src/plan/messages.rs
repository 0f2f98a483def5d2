//! The messages of plans.

use crate::declare_messages;

declare_messages! {
    // Names of what is typed, as parts of other messages.
    the_further_piece();
    the_width();
    the_fringe_or_hem();
    the_loom_width();
    the_header();
    the_sample();
    the_sample_warp();
    the_sample_width();
    the_sample_length();
    the_sett();
    the_wraps();
    the_warp_per_100();
    the_release();
    the_draw_in();
    the_width_loss();

    // `error` is what the arithmetic says of the figure or the text.
    impossible_figure(error: Text);
    unreadable_density(error: Text, what: Message);
    warp_per_100_out_of_range(given: Number, least: Number, most: Number);
    weight_without_yarn_number();
    nothing_planned();
}
