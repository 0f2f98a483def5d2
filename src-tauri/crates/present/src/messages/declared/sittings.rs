//! Messages about weaving days, learned values, yarns and what is noted in a sitting.

use fellmark_model::declare_messages;

declare_messages! {
    availability_entered(parts: Text);
    availability_days_a_week(days: Number);
    availability_minutes_a_day(time: Minutes);
    availability_weekdays(days: And);
    availability_away_on(day: Day);
    availability_away(from: Day, until: Day);
    availability_every_day(until: Day);
    sitting_since(time: Text);
    learned_behind(warps: Count);
    learned_behind_alike(warps: Count, alike: Count);
    learned_take_up();
    learned_take_up_is(per_100: Number, deviation: Number);
    learned_length_lost();
    learned_length_lost_is(percent: Text, deviation: Number);
    learned_width_lost();
    learned_width_lost_is(percent: Text, deviation: Number);
    learned_waste();
    learned_waste_is(waste: LengthMm, deviation: LengthMm);
    learned_weft();
    learned_weft_is(mass: MassG);
    learned_pace();
    learned_pace_is(picks: Whole);
    yarn_without_name();
    yarn_saved(yarn: Text);
    yarn_in_use_from_here(yarn: Text);
    yarn_at_first(amounts: Text);
    yarn_at_last_look(left: Text);
    yarn_woven(woven: LengthMm);
    yarn_enough_for(size: LengthMm);
    moment_tape(from: Choice, length: Text);
    moment_mark_moved();
    moment_warp_mark(along: LengthMm);
    moment_weighed(yarn: Text, left: Text);
    moment_yarn_in_use(yarn: Text);
    moment_place(part: Choice, pick: Count, repeat: Count);
    moment_place_in_piece(piece: Count, place: Message);
}
