//! Messages of which the writing of figures is made.

use fellmark_model::declare_messages;

declare_messages! {
    /// `figure` is in hundredths.
    percentage(figure: Whole);
    /// A percentage that is written already.
    percentage_of(figure: Text);
    /// A chance too near to certainty to be written as a figure; `share` is the greatest that is.
    chance_above(share: Percent);
    /// A chance too small to be written as a figure; `share` is the least that is.
    chance_below(share: Percent);
    per_10_cm(figure: Number);
    per_inch(figure: Number);
    picks_per_10_cm();
    picks_per_inch();
    /// A figure that was given roughly.
    approximately(figure: Text);
    /// A span of figures, each with its unit.
    span_of_figures(low: Text, high: Text);
    pieces_of_length(count: Count, size: LengthMm);
}
