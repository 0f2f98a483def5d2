//! Messages of how far the piece is, and of tape and picks set side by side.

use fellmark_model::declare_messages;

declare_messages! {
    progress_nothing_woven();
    /// Of the piece at the fell.
    cloth_to_go(length: LengthMm);
    progress_nothing_woven_of(wanted: LengthMm);
    progress_picks_only(picks: Count);
    progress_all_woven(wanted: LengthMm);
    progress_ready_to_cut(wanted: LengthMm);
    progress_woven_of(woven: LengthMm, wanted: LengthMm);
    progress_about_woven_of(woven: LengthMm, wanted: LengthMm);
    progress_woven(woven: LengthMm);
    progress_about_woven(woven: LengthMm);
    progress_measure_before_cutting(give_or_take: LengthMm);
    progress_piece(piece: Count, pieces: Count, woven: LengthMm, whole: LengthMm);
    progress_picks(picks: Count);
    progress_place(place: Text);
    progress_place_and_piece(place: Text, piece: Text);
    progress_pick_begun(day: SpokenDay);
    progress_pick_begun_in(day: SpokenDay, next: Text);
    progress_last_sitting(day: SpokenDay);
    progress_rate_measured(density: Text);
    progress_rate_planned(density: Text);
    progress_estimated();
    progress_within(give_or_take: LengthMm, chance: Percent);
    progress_finished_sum(finished: Text, on_loom: LengthMm, whole: LengthMm, share: Factor);
    progress_no_loss();
    progress_time(sittings: Count, time: Minutes);
    notice_of_day(day: Day, notice: Message);
    notice_apart(by_tape: LengthMm, by_counts: LengthMm);
    notice_shrunk(before: LengthMm, now: LengthMm);
    notice_uncounted(sittings: Count);
    notice_no_mark();
    notice_beat_changes(change: Choice, from: Number, density: Text);
    notice_beat_jumped(before: Number, density: Text);
    density_in_picks(figure: Number, unit: Text);
    tape_mark_at(at: LengthMm);
    tape_warp_mark(along: LengthMm, woven: LengthMm, per_100: Number, before: Number);
    tape_near_interval(between: LengthMm);
    tape_alone(tape: LengthMm);
    tape_agrees(tape: LengthMm);
    tape_used(tape: LengthMm, counts: LengthMm);
    tape_rate(density: Text);
}
