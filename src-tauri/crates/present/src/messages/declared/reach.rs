//! Messages of the answers whether warp and weft are enough.

use fellmark_model::declare_messages;

declare_messages! {
    warp_cut_off();
    warp_wound_unknown();
    warp_wound_unknown_remedy();
    woven_unknown();
    woven_unknown_remedy();
    cannot_calculate();
    because(error: Text);

    // The answer in one sentence. `over` and `missing` are lengths of cloth.
    warp_was_enough(over: LengthMm);
    warp_was_just_enough();
    warp_enough(over: LengthMm);
    warp_just_enough();
    warp_tight_over(over: LengthMm);
    warp_tight_none();
    warp_tight_missing(missing: LengthMm);
    warp_not_enough(missing: LengthMm);
    warp_not_quite_enough();
    warp_probably_not_enough(missing: LengthMm);
    warp_probably_not_quite_enough();
    /// Where the wanted length is not known.
    cloth_possible(possible: Text);
    cloth_possible_remedy();

    // What belongs to it.
    to_weave_and_possible(to_weave: LengthMm, possible: Text);
    warp_chance(chance: Chance);
    // What pieces would be enough nine times in ten; `size` is one of these lengths.
    size_finished(length: LengthMm);
    size_off_loom(length: LengthMm);
    size_on_loom(length: LengthMm);
    enough_for_piece(chance: Percent, size: Message);
    enough_for_each_piece(chance: Percent, size: Message);
    enough_for_last_piece(chance: Percent, size: Message);
    enough_for_pieces_left(chance: Percent, count: Count, size: Message);
    enough_to_end_of_piece(chance: Percent, piece: Count);
    enough_up_to_piece(chance: Percent, piece: Count, size: Message);
    enough_up_to_piece_only(chance: Percent, piece: Count, size: Message);

    // Why. `terms` says which of the two lengths beside the waste there are.
    warp_left_sum(
        terms: Choice, wound: ExactLengthMm, waste: ExactLengthMm, fringe: ExactLengthMm, gaps: ExactLengthMm,
        in_cloth: ExactLengthMm, woven: ExactLengthMm, factor: Factor, left: ExactLengthMm,
    );
    cloth_from_warp_left(cloth: LengthMm, per_100: Number);
    span_wider_than_chance(give_or_take: LengthMm);
    warp_per_100_from_mark(along: LengthMm, woven: LengthMm);
    warp_per_100_from_mark_not_given(along: LengthMm, woven: LengthMm, given: Number);
    take_up_assumed();
    waste_assumed(least: LengthMm, most: LengthMm);
    last_shed();

    // The weft. `yarn` is the name of a yarn.
    weft_not_needed();
    weft_missing();
    weft_missing_remedy();
    weft_reach_unknown();
    weft_reach_unknown_weigh();
    weft_reach_unknown_enter();
    weft_needed(length: YarnM);
    weft_needed_without_joins(length: YarnM);
    weft_was_enough();
    weft_enough(over: LengthMm);
    weft_just_enough();
    weft_tight_over(over: LengthMm);
    weft_tight_none();
    weft_tight_missing(missing: LengthMm);
    weft_not_enough(missing: LengthMm);
    weft_not_quite_enough();
    weft_probably_not_enough(missing: LengthMm);
    weft_probably_not_quite_enough();
    weft_possible(possible: Text);
    to_weave_and_weft_possible(to_weave: LengthMm, possible: Text);
    weft_chance(chance: Chance);
    yarn_not_counted(yarn: Text);
    yarn_half_gone(yarn: Text, woven: LengthMm);
    yarn_half_gone_now(yarn: Text);
    amount_left(amount: Text);
    yarns_one_after_another();
    yarn_and_reason(yarn: Text, reason: Message);
    yarn_possible(yarn: Text, size: LengthMm);
    yarn_known_by_scale(first: MassG, last: MassG, used: MassG, woven: LengthMm);
    /// `since` says when the length was measured, and whether any was used since.
    yarn_known_by_length(since: Choice, from: YarnM, used: YarnM, pick: LengthMm);
    yarn_known_as_other(other: Text);
    yarn_known_by_label();
}
