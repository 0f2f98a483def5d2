### The sentences of the program, in English. Arguments are written before they come here: a length, a weight or a day as the
### reader's units and locale have it. CAPITAL puts a capital first; SENTENCE also puts a full stop at the end.

sample_picture_failed = The example's picture could not be made: { $error }.
journal_error = { SENTENCE($error) }
storage_error = { SENTENCE($error) }

## Names of what is typed, as parts of other messages

the_length = the length
the_wanted_length = the length wanted
the_weight = the weight
the_figure = the figure
the_picks = the picks
the_warp_wound = the warp wound
the_loom_waste = the loom waste
the_shrinkage = the shrinkage
the_fringe = the fringe
the_gap = the gap between pieces
the_reed_width = the width in the reed
the_weft_allowance = the allowance for a pick
the_slot_ends = the slot ends
the_days_a_week = the days a week
the_take_up = the take-up
the_weft_mass = the weight of the weft
the_weft_length = the length of the weft
the_number_of_pieces = the number of pieces
the_measured_length = the measured length
the_weft_left = the weft left
the_yarn_left = the yarn left
the_warp_mark_distance = the distance of the warp mark
the_yarn_mass = the weight of the yarn
the_yarn_length = the length of the yarn
the_empty_shuttle_mass = the weight of the empty shuttle
the_minutes = the minutes
the_front_length = the length in front
the_thrums = the thrums
the_off_loom_length = the length off the loom
the_finished_length = the length after the wash
the_off_loom_width = the width off the loom
the_finished_width = the width after the wash
the_fell_width = the width at the fell
the_weft_over = the weft left over
the_piece = the piece
the_row = the row
the_repeat = the repeat
unit_percent = per cent
unit_days = days

## Figures, days and times that cannot be understood

cannot_be_zero = { CAPITAL($what) } cannot be nothing. Leave it empty if it is not known.
unreadable_yarn_length = { CAPITAL($error) }. Write { $what } as 240 m or 260 yd.
unreadable_length_metric = { CAPITAL($error) }. Write { $what } as 185, 185 cm, 1.85 m or 72 1/2 in.
unreadable_length_imperial = { CAPITAL($error) }. Write { $what } as 72, 72 1/2 in, 6 ft or 185 cm.
unreadable_mass = { CAPITAL($error) }. Write { $what } as 85 g, 0.2 kg or 3 oz.
unreadable_sett = { CAPITAL($error) }. Write the sett as 40, 40 per 10 cm, 40/10 or 10 epi.
unreadable_yarn_number = { SENTENCE($error) } Write it as the label has it: 400 m/100 g, 8/2 cotton, 16/2 linen, Nm 2/28, 1700 yd/lb or 30 tex.
unreadable_picks = { CAPITAL($error) }. Write the picks as 32, 32 per 10 cm or 8 ppi.
unreadable_number = { CAPITAL($error) }. Write { $what } as a number.
unreadable_whole_number = { CAPITAL($error) }. Write { $what } as a whole number.
number_out_of_range = { CAPITAL($what) } of { $given } { $unit } cannot be meant; { $least } to { $most } is taken here. Check the figure.
whole_number_out_of_range = { CAPITAL($what) } cannot be { $given }; { $least } to { $most } is taken here. Check the figure.
unreadable_minutes = “{ $text }” is no length of time. Write the minutes as 42, 1:20, 1 h 20 or 90 min.
sitting_longer_than_a_day = A sitting longer than a day cannot be meant. Write the minutes at the loom; split what took several days.
unreadable_day = “{ $text }” is no day of the calendar. Write a day as { $iso_example }, { $example } or 21 Dec.
unreadable_time = “{ $text }” is no time of day. Write it as 19:30 or 7:30 pm.
too_many_pieces = More than { $most } pieces on one warp cannot be meant.
unknown_weekday = “{ $text }” is no day of the week. Write the days you weave on as Sat, Sun or weekends, or leave it empty.
range_without_end = Say until when, or leave both days empty.
range_reversed = This day lies before the first one; exchange the two.
not_one_of = “{ $text }” is not one of { $choices }. Choose one of them, or leave it empty.
neither_nor = “{ $text }” is neither { $one } nor { $other }.

## The warp's form

warp_without_name = The warp has no name yet. Give it one you will know it by, such as “grey scarf”.
waste_as_long_as_warp = The loom waste is as long as the whole warp, so nothing could be woven. Check the two lengths and their units.
unknown_wanted_state = The length wanted is either finished, off_loom or under_tension; choose one of them.
pieces_and_lengths_differ = { $lengths } lengths are wanted, so there are { $lengths } pieces and not { $pieces }. Change the lengths, or leave the number empty.
impossible_take_up = 100{ "\u00A0" }cm of cloth cannot use { $given }{ "\u00A0" }cm of warp; 103 to 125 is usual. Type how much warp 100 of cloth uses, or leave it empty.
take_up_as_share = 100{ "\u00A0" }cm of cloth cannot use { $given }{ "\u00A0" }cm of warp; 103 to 125 is usual. A take-up of { $share } in a hundred is written as { $written }. Type how much warp 100 of cloth uses, or leave it empty.
unreadable_rows = { CAPITAL($error) }. Write one row to a line: up, down, stick, or up + stick; on another loom the numbers of the sheds.
unknown_shaft = “{ $text }” is no shaft; write numbers from 1 to { $most }, such as 1 2 3 4 or 1-4.
threading_too_long = A threading of more than { $most } ends is not drawn. Write one repeat of it.
unknown_shed = “{ $line }” names no shed. Write it as 1: 1 2.
shed_twice = Shed { $shed } is there twice. Write each shed on one line.

## Changes to the log

unknown_record = Nothing is known here under the id { $id }. Look at the list again: it may not have arrived.
unknown_warp_id = No warp is known here under the id { $id }. Look at the list again.
unknown_warp = This warp is not known here. Look at the list again.
wrong_kind = The id { $id } is not a { $wanted } but a { $found }. Take the id of a { $wanted }.
empty_sitting = Nothing is said about this sitting yet. Give picks, minutes, a measured length, the weft left or a note.
conflict_gone = These two answers have been settled or changed meanwhile, perhaps on another device. Look again.
photo_without_warp = This sitting belongs to no warp, so a photo cannot be kept with it.
unknown_yarn = This yarn is not known on this warp. Look again.
empty_reading = Nothing is noted yet. Give a length, a weight, or move the mark.
nothing_left_written = Nothing is written. Write the yarn left as 42 g or 120 m.
shuttle_weight_unknown = What the empty shuttle weighs is not known. Give it with the yarn, under “Change”, or weigh the yarn alone.
shuttle_heavier_than_shown = The empty shuttle weighs { $tare }, so with yarn on it { $shown } cannot be all. Check both weights.
empty_yarn = Nothing is said about this yarn yet. Give it a name, a weight or a length.
stretch_without_number = Give a number of minutes, or “off”.
step_without_name = The step has no name yet. Say what is to be done, such as “mend”.
too_many_steps = More than { $most } steps are not kept. Rename one of them.
last_step_stays = One step stays: rename it, or tick it.
step_day_in_future = That day is still to come. Take the day on which it was done.

## Cutting off

off_day_in_future = That day is still to come. Take the day on which it was cut off.
cut_off_as_long_as_warp = What was cut off in front and behind is as long as the warp that was wound. Check the two lengths and their units.
cloth_longer_than_warp = The cloth cannot be longer than the warp it was woven on. Check the length and its unit, or the warp wound.
growth_in_the_wash = After the wash it would be far larger than before. Check the two figures and their units.

## Tables brought in

import_stopped = Stopped. Nothing was brought in.
no_row_taken = No row can be taken. Line { $line }: { $why }
table_without_rows = The table has no rows.
no_table = This is no table: give a CSV file whose first line names its columns.
table_too_long = This file is longer than { $megabytes } MB, which no table of sittings is. Choose the CSV file, or split it.
everything_too_long = This file is longer than { $megabytes } MB. Restore from a copy of the folder instead.
everything_needs_empty_folder = A whole log can be brought back into an empty folder only. Choose or make an empty folder first.
not_everything = This is no file that “Everything (JSON)” exports: { $error }.
record_not_read = The record “{ $id }” in this file cannot be read. Take another copy of the file.
too_many_columns = More than { $most } columns are not read. Remove those that are not needed.
too_many_rows = More than { $most } rows are not taken at once. Split the table.
unknown_list = There is no list called { $name }.
list_is_not_imported = A table of { $list } cannot be brought in: add the pictures themselves to their sittings.
field_taken_twice = Two columns are taken for the same field; choose another one for “{ $heading }”.
unknown_field = There is no field called { $name }.
in_column = { $column }: { $why }
missing_field = { $label } is missing.
known_by_its_id = It is here already, under the same id.
known_already = The same is here already.
several_warps_of_name = Several warps are called “{ $name }”; give their ids.
no_warp_of_name = No warp is called “{ $name }” here. Bring the warps in first, or begin it.
row_without_warp = It names no warp. Choose the warp these rows belong to.
unreadable_day_of_row = “{ $text }” is no day; write it as 2026-03-09.
unknown_yarn_id = There is no yarn here with the id { $id }. Bring the yarns in first.
below_zero = { $what } cannot be less than nothing.
row_longer_than_a_day = A sitting longer than a day cannot be meant.
unreadable_start_of_row = The time it began is no time of day; write it as 19:30.
empty_row = Nothing is said about this sitting: picks, minutes, a length, weft left or a note.
unreadable_id = “{ $text }” is no id. Leave it empty.
no_number = “{ $text }” is no number.
no_whole_number = “{ $text }” is no whole number.
word_not_one_of = “{ $text }” is not one of { $choices }.
neither_yes_nor_no = “{ $text }” is neither yes nor no.

## The place in the sequence

no_sequence = This warp has no pick sequence yet. Write its rows down first.
unknown_section = “{ $text }” is no section: opening, repeat, balance or closing.
opening_without_rows = The opening border has no rows. Choose another section, or write its rows.
repeat_beyond_warp = Repeat { $repeat } cannot be on this warp, which holds { $most } repeats at the very most. Look at the number again.
repeat_without_rows = The repeat has no rows. Choose another section, or write its rows.
balance_without_rows = The balance has no rows. Choose another section, or write its rows.
closing_without_rows = The closing border has no rows. Choose another section, or write its rows.

## Plans

the_further_piece = a further piece
the_width = the width
the_fringe_or_hem = the fringe or hem
the_loom_width = the loom’s width
the_header = the header
the_sample = the sample
the_sample_warp = the sample's warp
the_sample_width = the sample's width
the_sample_length = the sample's length
the_sett = the sett
the_wraps = the wraps
the_warp_per_100 = the warp for 100 of cloth
the_release = the loss of length off the loom
the_draw_in = the draw-in
the_width_loss = the loss of width
impossible_figure = { SENTENCE($error) }
unreadable_density = { SENTENCE($error) } Write { $what } as 40, 40/10, 4 per cm or 10 epi.
warp_per_100_out_of_range = The warp for 100 of cloth of { $given } cannot be meant; { $least } to { $most } is taken here. Check the figure.
weight_without_yarn_number = A weight alone tells no length. Give the yarn's number too, such as 400 m/100 g, or its length.
nothing_planned = Nothing is planned yet, so there is nothing to keep. Type what you know.

## Of the open folder and the sitting that is going on

tap_is_one_pick = A tap is one pick, or one pick back.
tap_not_written = The tap could not be written down: { $error }.
warp_not_known_any_more = This warp is not known here any more. Choose another one.
sitting_not_begun = The sitting could not be begun. Try again.
no_warp_on_the_loom = No warp is on the loom. Begin one first.
no_sitting_going_on = No sitting is going on.
folder_in_another_window = Another Fellmark window on this device has this folder; weave there, or close it and open this one again.
no_home_folder = This account has no home folder, so nothing can be remembered on this device.
no_folder_open = No folder is open. Choose one first.
no_folder_given = No folder is given. Type its whole path.
path_not_whole = This is not a whole path. Type it from the root of the disk, or choose the folder.
folder_missing = There is no folder { $folder } yet. Create it, or check the path.
folder_not_made = The folder { $folder } cannot be made: { $error }. Choose another one.
sample_not_made = The example cannot be made in { $folder }: { $error }.
sample_not_removed = The old example in { $folder } cannot be removed: { $error }.
device_without_name = Give this device a name you will know it by, such as “laptop”.
no_record_id = “{ $text }” is no record's id: an id is 1 to 64 letters, digits, - or _.

## Days and figures

between_days = between { $from } and { $to }
spoken_today = today
spoken_yesterday = yesterday
spoken_tomorrow = tomorrow
percentage = { $figure }%
percentage_of = { $figure }%
chance_above = more than { $share }
chance_below = less than { $share }
per_10_cm = { $figure } per 10{ "\u00A0" }cm
per_inch = { $figure } per inch
picks_per_10_cm = picks per 10{ "\u00A0" }cm
picks_per_inch = picks per inch
approximately = about { $figure }
span_of_figures = { $low } to { $high }
pieces_of_length = { $count ->
    [one] { $count } piece of { $size }
   *[other] { $count } pieces of { $size }
}

## Is the warp enough?

warp_cut_off = The warp is cut off.
warp_wound_unknown = The length of the warp is not known.
warp_wound_unknown_remedy = Enter it under “Change the warp”; an estimate will do.
woven_unknown = How much is woven is not known yet.
woven_unknown_remedy = Measure once, or enter the pick density.
cannot_calculate = This cannot be calculated yet.
because = The reason: { $error }.
warp_was_enough = The warp was enough, with about { $over } of cloth to spare.
warp_was_just_enough = The warp was just enough.
warp_enough = Enough warp, with about { $over } of cloth to spare.
warp_just_enough = Just enough warp.
warp_tight_over = Tight: perhaps { $over } of cloth to spare.
warp_tight_none = Tight: just enough warp, with nothing to spare.
warp_tight_missing = Tight: perhaps { $missing } of cloth short.
warp_not_enough = Not enough warp: about { $missing } of cloth short.
warp_not_quite_enough = Not quite enough warp.
warp_probably_not_enough = Probably not enough warp: about { $missing } of cloth short.
warp_probably_not_quite_enough = Probably not quite enough warp.
cloth_possible = { $possible } of cloth still possible.
cloth_possible_remedy = Enter the length you want, to see whether that is enough.
to_weave_and_possible = Still to weave: { $to_weave }. Still possible: { $possible }.
warp_chance = { $chance } likely to be enough.
relaxation_from_pairs = { $pairs ->
    [one] Off tension this cloth loses { $percent }{ "\u00A0" }% of its length: read once tight and relaxed on this warp.
   *[other] Off tension this cloth loses { $percent }{ "\u00A0" }% of its length: read { $pairs } times tight and relaxed on this warp.
}
relaxation_from_warps = { $warps ->
    [one] Off tension this cloth loses { $percent }{ "\u00A0" }% of its length, as your earlier warp did.
   *[other] Off tension this cloth loses { $percent }{ "\u00A0" }% of its length, as { $warps } of your earlier warps did.
}
relaxation_assumed = Off tension this cloth is taken to lose { $percent }{ "\u00A0" }% of its length, four times in five between { $least } and { $most }{ "\u00A0" }%: a judgement from a few reported cases, no source. Measure the same cloth tight and relaxed to know.
off_loom_needs = { $off_loom } off the loom need { $under_tension } under tension.
fibre_loses = { $to_weave } to weave in all: by its fibre and finish the cloth is taken to lose { $relaxed }{ "\u00A0" }% off the loom and then { $usual }{ "\u00A0" }% in the wash, by reports of others between { $least } and { $most }{ "\u00A0" }%. Your own warps say more once they are measured.
reading_beyond_warp = The tape said { $read }, and only { $wound } of warp were wound. The reading is kept and not used; was it a slip?
take_up_beyond_cloth = Warp wound, front and thrums leave { $per_100 } of warp for 100 of cloth, which no woven cloth takes up: nothing is learned from them. Is one of them missing, or read wrongly?
yarn_reaches_one_time_in_two = The yarn reaches { $planned } only one time in two. It reaches { $nine_in_ten } nine times in ten.
size_finished = { $length } finished
size_off_loom = { $length } off the loom
size_on_loom = { $length } on the loom
enough_for_piece = For a { $chance } chance: a piece of { $size }.
enough_for_each_piece = For a { $chance } chance: { $size } for each piece.
enough_for_last_piece = For a { $chance } chance: a last piece of { $size }.
enough_for_pieces_left = { $count ->
    [one] For a { $chance } chance: { $size } for the piece still to weave.
   *[other] For a { $chance } chance: { $size } for each of the { $count } pieces still to weave.
}
enough_to_end_of_piece = For a { $chance } chance: up to the end of piece { $piece }.
enough_up_to_piece = For a { $chance } chance: { $size } for piece { $piece }.
enough_up_to_piece_only = For a { $chance } chance: { $size } for piece { $piece }, and no piece after it.
warp_left_sum = { $terms ->
    [both] { $wound } wound − { $waste } loom waste − { $fringe } fringe − { $gaps } between pieces − { $in_cloth } in the cloth ({ $woven } woven × { $factor }) = { $left } of warp left.
    [fringe] { $wound } wound − { $waste } loom waste − { $fringe } fringe − { $in_cloth } in the cloth ({ $woven } woven × { $factor }) = { $left } of warp left.
    [gaps] { $wound } wound − { $waste } loom waste − { $gaps } between pieces − { $in_cloth } in the cloth ({ $woven } woven × { $factor }) = { $left } of warp left.
   *[none] { $wound } wound − { $waste } loom waste − { $in_cloth } in the cloth ({ $woven } woven × { $factor }) = { $left } of warp left.
}
cloth_from_warp_left = That makes { $cloth } of cloth: 100 of cloth take { $per_100 } of warp.
span_wider_than_chance = The range is wide because the woven length is only known to within { $give_or_take }. That does not lower the chance: if more is woven already, less is left to weave.
warp_per_100_from_mark = A warp mark at { $along } reached the fell after { $woven } of cloth. The take-up follows from that.
warp_per_100_from_mark_not_given = A warp mark at { $along } reached the fell after { $woven } of cloth. The take-up follows from that, not from the { $given } you entered.
take_up_assumed = No take-up is entered, so a tenth is used (rule of thumb). The range is wider for it.
waste_assumed = No loom waste is entered, so { $least } to { $most } are used, as is usual on a rigid heddle (rule of thumb).
last_shed = The last usable shed ends some way before the heddle; keep a hand’s breadth for it.

## Is the weft enough?

weft_not_needed = No more weft is needed.
weft_missing = No weft is entered.
weft_missing_remedy = Enter its weight or length under “Change the warp”.
weft_reach_unknown = How far the weft goes is not known yet.
weft_reach_unknown_weigh = Weigh what is left once you have woven some; the rest follows from that.
weft_reach_unknown_enter = Enter its weight or length, and the width in the reed.
weft_needed = About { $length } of yarn still needed.
weft_needed_without_joins = About { $length } of yarn still needed, not counting joins and hemstitching.
weft_was_enough = The weft was enough.
weft_enough = Enough weft, for about { $over } of cloth more than needed.
weft_just_enough = Just enough weft.
weft_tight_over = Tight: perhaps weft for { $over } of cloth to spare.
weft_tight_none = Tight: just enough weft, with nothing to spare.
weft_tight_missing = Tight: the weft may run out { $missing } before the end.
weft_not_enough = Not enough weft: it runs out about { $missing } before the end.
weft_not_quite_enough = Not quite enough weft: it runs out just before the end.
weft_probably_not_enough = Probably not enough weft: it may run out about { $missing } before the end.
weft_probably_not_quite_enough = Probably not quite enough weft: it may run out just before the end.
weft_possible = Weft for another { $possible }.
to_weave_and_weft_possible = Still to weave: { $to_weave }. Weft left for: { $possible }.
weft_chance = { $chance } likely to be enough.
yarn_not_counted = { $yarn } is not counted: how far it goes is not known. Weigh it, or enter its length.
yarn_half_gone = About half of { $yarn } is used, after { $woven } of cloth. To make both ends match, mirror the sequence from here.
yarn_half_gone_now = About half of { $yarn } is used. To make both ends match, mirror the sequence from here.
amount_left = { $amount } left
yarns_one_after_another = The yarns are used one after another, each for what was woven with it so far.
yarn_and_reason = { $yarn }: { $reason }
yarn_possible = { $yarn }: enough for another { $size }.
yarn_known_by_scale = { $first } at first, { $last } when last weighed: { $used } for { $woven } of cloth. A kitchen scale is accurate to a gram or so, so a small difference says little.
yarn_known_by_length = { $since ->
    [measured] { $from } when last measured, about { $used } used since: a pick takes { $pick }. Weighing what is left would be more accurate.
    [measured_unused] { $from } when last measured, nothing used since: a pick takes { $pick }. Weighing what is left would be more accurate.
    [start_unused] { $from } at the start, nothing used since: a pick takes { $pick }. Weighing what is left would be more accurate.
   *[start] { $from } at the start, about { $used } used since: a pick takes { $pick }. Weighing what is left would be more accurate.
}
yarn_known_as_other = Only its weight is known, so it is taken to go as far by weight as { $other } did, give or take a fifth.
yarn_known_by_label = The yarn’s length follows from what it measured and weighed at first.

## The answers at a glance
glance_woven = { $woven } of { $wanted }
glance_to_weave = { $picks ->
    [one] { $to_weave } to go, about { $picks } pick.
   *[other] { $to_weave } to go, about { $picks } picks.
  }
glance_day = { $day }
glance_gift = { $chance } likely by the gift day, { $day }.
glance_span = { $chance } likely between { $from } and { $to }.

## Progress

progress_nothing_woven = Nothing woven yet.
cloth_to_go = { $length } to go
progress_nothing_woven_of = Nothing woven yet; { $wanted } to weave.
progress_picks_only = { $picks ->
    [one] { $picks } pick woven. Measure once to see how long that is.
   *[other] { $picks } picks woven. Measure once to see how long that is.
}
progress_all_woven = All { $wanted } woven.
progress_ready_to_cut = All { $wanted } woven: ready to cut off.
progress_woven_of = { $woven } of { $wanted } woven.
progress_about_woven_of = About { $woven } of { $wanted } woven.
progress_woven = { $woven } woven.
progress_about_woven = About { $woven } woven.
progress_measure_before_cutting = That is by the picks alone, give or take { $give_or_take }: measure before you cut.
progress_piece = Piece { $piece } of { $pieces }: { $woven } of { $whole }.
progress_picks = { $picks ->
    [one] { $picks } pick so far.
   *[other] { $picks } picks so far.
}
progress_place = { SENTENCE($place) }
progress_place_and_piece = { CAPITAL($place) }, { $piece }.
progress_pick_begun = Last time ({ $day }) you stopped within a pick: it is not beaten yet.
progress_pick_begun_in = Last time ({ $day }) you stopped within a pick: it is not beaten yet ({ $next }).
progress_last_sitting = Last sitting: { $day }.
progress_rate_measured = Measured on this cloth: { $density }. The tape comes first; picks fill in between and after.
progress_rate_planned = { $density } as planned: nothing measured on this cloth yet.
progress_estimated = Some figures are estimates, so the length is less certain.
progress_within = Length woven known to within { $give_or_take } ({ $chance } likely).
progress_finished_sum = { $finished } finished need { $on_loom } on the loom: { $whole } ÷ (1 − { $share }).
progress_no_loss = No shrinkage entered, so none is used. Most cloth loses a few percent off the loom and in the wash.
progress_time = { $sittings ->
    [one] At the loom: { $time } in { $sittings } sitting.
   *[other] At the loom: { $time } in { $sittings } sittings.
}
notice_of_day = { CAPITAL($day) }: { $notice }
notice_apart = The tape says { $by_tape }, the picks say { $by_counts }. The tape is used; was it read from the right mark?
notice_shrunk = The tape said { $before } before and { $now } now, though nothing was unwoven. The later measurement is used.
notice_uncounted = { $sittings ->
    [one] One sitting since the last measurement has neither picks nor a length, so its cloth is missing here.
   *[other] { $sittings } sittings since the last measurement have neither picks nor a length, so their cloth is missing here.
}
notice_no_mark = A length was measured from the last mark, but no mark was set before; it is taken from the start.
notice_beat_changes = { $change ->
    [loosening] Your beat is loosening: { $from } at first, now { $density }.
   *[tightening] Your beat is getting firmer: { $from } at first, now { $density }.
}
notice_beat_jumped = The last stretch has { $density }; before, it was { $before }. Check your beat.
density_in_picks = { $figure } { $unit }
tape_mark_at = The mark is now at the fell, { $at } from the start. Measure from it next time.
tape_warp_mark = The warp mark tied at { $along } is at the fell after { $woven } of cloth: 100 of cloth take { $per_100 } of warp. Using that from now on, instead of { $before }.
tape_near_interval = The difference is near the { $between } from one mark to the next: did you measure from another mark?
tape_alone = { $tape } by the tape; there are no picks to compare.
tape_agrees = { $tape } by the tape, and the picks agree.
tape_used = { $tape } by the tape, { $counts } by the picks. The tape is used: picks give a length only by the beat, and the beat varies.
tape_rate = Using { $density } from now on.

## Sittings and measurements

availability_entered = As you entered: { $parts }.
availability_days_a_week = weaving days a week: about { $days }
availability_minutes_a_day = time at the loom a day: about { $time }
availability_weekdays = weaving days: { $days }
availability_away_on = away on { $day }
availability_away = away from { $from } to { $until }
availability_every_day = every day until { $until }
sitting_since = since { $time }
learned_behind = { $warps ->
    [one] from { $warps } warp
   *[other] from { $warps } warps
}
learned_behind_alike = { $warps ->
    [one] from { $warps } warp, { $alike ->
        [0] not like this one
       *[other] { $alike } like this one
    }
   *[other] from { $warps } warps, { $alike ->
        [0] none of them like this one
       *[other] { $alike } of them like this one
    }
}
learned_take_up = Take-up
learned_take_up_is = 100{ "\u00A0" }cm of cloth take { $per_100 }{ "\u00A0" }cm of warp, give or take { $deviation }
learned_length_lost = Length lost
learned_length_lost_is = { $percent } of the length is lost from the loom to finished, give or take { $deviation }
learned_width_lost = Width lost
learned_width_lost_is = { $percent } of the width is lost from the reed to finished, give or take { $deviation }
learned_waste = Loom waste
learned_waste_is = { $waste } loom waste, give or take { $deviation }
learned_weft = Weft
learned_weft_is = { $mass } of weft per metre woven
learned_pace = Pace
learned_pace_is = { $picks } picks an hour at the loom
yarn_without_name = the weft
yarn_saved = { CAPITAL($yarn) }: saved. How far it goes shows at the next weighing, after some weaving.
yarn_in_use_from_here = { CAPITAL($yarn) }: in use from here.
yarn_at_first = { $amounts } at first
yarn_at_last_look = { $left } when last weighed or measured
yarn_woven = { $woven } woven with it
yarn_enough_for = enough for about another { $size }
moment_tape = { $from ->
    [mark] { $length } from the mark
    [mark_relaxed] { $length } from the mark, relaxed
    [start_relaxed] { $length } from the start, relaxed
   *[start] { $length } from the start
}
moment_mark_moved = mark moved to the fell
moment_warp_mark = warp mark tied at { $along } at the fell
moment_weighed = { CAPITAL($yarn) }: { $left }
moment_yarn_in_use = { CAPITAL($yarn) }: in use
moment_place = { $part ->
    [opening] place set to pick { $pick } in the opening border
    [balance] place set to pick { $pick } in the balancing picks
    [closing] place set to pick { $pick } in the closing border
   *[repeat] place set to pick { $pick } in repeat { $repeat }
}
moment_place_in_piece = piece { $piece }: { $place }

## Pick sequence

## The sitting that is going on

## Finish date

## Pace

## Plans

## Off the loom

## Record sheet

## Pictures and charts

## Tables

## The folder

## Conflicts and undo

## Cautions

stretch_due = { $minutes } minutes without a pause. When you next advance the warp, stand up and loosen shoulders and hands. If anything keeps hurting, see a clinician.
stretch_at_an_advance = { $minutes } minutes without a pause: while you advance the warp, stand up and loosen shoulders and hands.

## Command line

## Cautions, and where each comes from

caution_child_neck = For a young child: what lies around the neck can strangle. No cords, ties or long fringe near the head; a closed cowl is safer than a scarf, and neither is for sleep or play.
caution_child_neck_source = EN 14682 allows no cords at hood or neck up to 7 years; it does not cover scarves, but asks to judge them by the same principles
caution_child_small_parts = For a young child: buttons, beads and loose ends come off and can be swallowed. Leave them out, sew ends in, and pull hard on whatever is sewn on.
caution_child_small_parts_source = after EN 71-1, small parts of toys; from memory
caution_posture = Weaving strains shoulders, neck and wrists. Sit with the elbows a little above the breast beam, change the throwing hand, and stand up before anything hurts.
caution_posture_source = common practice, no source
caution_dust = Yarn sheds dust, most of all where the heddle rubs. Air the room, sweep damp, and wear a mask if you cough or wheeze.
caution_dust_source = common practice, no source
caution_hot_water = Hot water and steam scald, and wet cloth is heavy. Try the heat on a sample, and keep children and animals away.
caution_hot_water_source = common practice, no source
caution_dyes = Dyes may bleed in the first wash: wash apart. When dyeing, wear gloves, do not breathe powders, keep pots for food apart, and follow the label of each mordant.
caution_dyes_source = common practice, as in J. Dean, The Craft of Natural Dyeing
cautions_heading = Take care
cautions_local_rules = These cautions do not replace the rules where you live, nor the advice of a doctor.

### The interface. An argument that chooses among cases is a count or one of the words in brackets; $unit is the reader's unit of length, in or cm.

## Everywhere

product_name = Fellmark
screens = Screens
skip_to_content = Skip to content
on_the_loom = On the loom
plan = Plan
off_the_loom = Off the loom
pace = Pace
folder = Folder
folder_state = Folder:
undo = Undo: { $action }
undone = Undone.
sample_data = Sample data
close_sample = Close sample
close = Close
back = Back
change = Change
change_named = Change: { $name }
remove = Remove
restore = Restore
save = Save
saved = Saved.
saved_to = Saved to { $path }.
stop = Stop
try_again = Try again
got_it = Got it
why = Why?
result = Result
estimates = Estimates
note = Note
name = Name
unit_picks_per = { $unit ->
    [in] picks per inch
   *[cm] picks per 10{ "\u00A0" }cm
}
unit_ends_per = { $unit ->
    [in] ends per inch
   *[cm] ends per 10{ "\u00A0" }cm
}
trouble_unknown = That did not work. Nothing was changed; please try again.

## First start

welcome_what = Fellmark counts picks while you weave. It shows where you are, whether warp and weft are enough, and when the piece will be finished.
welcome_where = It saves plain files in a folder that you choose. No account; nothing is sent anywhere.
welcome_device_hint = Tells its entries from those of other devices. If blank: { $name }.
welcome_choose_folder = Choose a folder
welcome_type_path = Type its path instead
welcome_path = Path of the folder, such as ~/Weaving
welcome_use_folder = Use this folder
welcome_create_folder = Create this folder
welcome_open_sample = Open the sample
welcome_sample_hint = A scarf with made-up figures, to try things out.

## The folder being read

reading_started = Reading the folder. This may take a while; you can stop it.
reading_list = Reading the folder: listing its files
reading_files = Reading the folder: { $done } of { $count } files
reading_bar = Files read
reading_stopping = Stopping as soon as the disk answers

## On the loom

loom_start_weaving = Start weaving
loom_continue_weaving = Continue weaving
loom_stop_weaving = Stop weaving
loom_sitting_running = A sitting has been running { $since }.
loom_warps = Warps
loom_state_on_the_loom = on the loom
loom_state_resting = set aside
loom_state_off_the_loom = off the loom
loom_state_removed = removed
loom_conflicts = { $count ->
    [one] { $count } conflicting entry
   *[other] { $count } conflicting entries
}
loom_this_warp = This warp
loom_add_past_sitting = Add a past sitting
loom_change_warp = Change the warp
loom_set_aside = Set aside
loom_bring_back = Bring back to the loom
loom_cut_off = Cut off
loom_print = Print
loom_remove_warp = Remove this warp
loom_removed_note = This warp was removed. All its sittings are still saved.
loom_take_care = Take care
loom_nothing = Nothing is on the loom.
loom_was_set_aside = Warp set aside.
loom_is_back = The warp is on the loom.
loom_warp_removed = Warp removed.
loom_warp_restored = Warp restored.

## The answers

answers = Overview
answers_where = Where am I?
answers_warp = Enough warp?
answers_weft = Enough weft?
answers_when = When will it be finished?
answers_well = Yes
answers_close = Tight
answers_short = Short
answers_open = Not known yet

## Pictures of the warp and of the days

picture_title = The warp, to scale
picture_arrows = The arrow keys go from part to part; Home and End go to the ends.
picture_opens = Enter opens a sitting.
picture_as_text = As text
picture_photos = Bands with an image are sittings with a photo.
picture_fell = fell
picture_ticks = { $unit ->
    [in] One tick every 6{ "\u00A0" }inches of warp.
   *[cm] One tick every 10{ "\u00A0" }cm of warp.
}
days_title = Day by day
days_whole = whole length
days_legend = Line: woven so far. Hatched area: 80% likely. Dashes: as likely earlier as later.
days_woven = Line: woven so far.

## Sittings

sittings_title = Sittings
sittings_none = No sittings yet.
sittings_show_all = Show all { $count }
sittings_correct = Correct
sittings_add_photos = Add photos
sittings_photos = Photos: { $count }
sittings_saved_on = Saved on { $device }.
sittings_contested = Removed on one device and changed on another. Choose under “Conflicting entries”.
sittings_removed = { $count ->
    [one] { $count } removed sitting
   *[other] { $count } removed sittings
}
sittings_was_removed = Sitting removed.
sittings_was_restored = Sitting restored.

## Conflicting entries

conflicts_title = Conflicting entries
conflicts_hint = Two devices saved different values. Choose the right one; nothing is lost.
conflicts_in_use = in use for now
conflicts_from = from { $device }
conflicts_settled = Conflict settled.

## Weaving

tap_title = Weaving
tap_surface = Count a pick
tap_first = The first pick starts the timer.
tap_how = Tap anywhere, or press any key, for each pick.
tap_last = Last pick: { $pick }
tap_then = then { $pick }
tap_picks = { $count ->
    [one] pick this sitting
   *[other] picks this sitting
}
tap_on_this_warp = { $count } on this warp
tap_minutes = { $count ->
    [one] { $count } minute
   *[other] { $count } minutes
}
tap_minutes_paused = { $count ->
    [one] { $count } minute, timer paused
   *[other] { $count } minutes, timer paused
}
tap_minutes_held = { $count }{ "\u00A0" }min, paused
tap_pause = Pause
tap_resume = Resume
tap_undo_pick = Undo pick
tap_not_beaten = Pick not beaten yet
tap_not_beaten_sign = Not beaten yet:
tap_advance = Advance the warp
tap_more = More
tap_screen_may_turn_off = The screen may turn off here; no pick is lost.
tap_waiting = { $count ->
    [one] { $count } pick is not saved yet.
   *[other] { $count } picks are not saved yet.
}
tap_save_now = Save now
tap_place_set = Place set. The number of picks stays the same.

## Weaving: place, keys, sound, reminder

weaving_settings = Weaving settings
weaving_settings_back = Back to weaving
place_title = Place in the sequence
place_hint = Choose the row that comes next. The number of picks stays the same.
place_repeat = Repeat
place_repeat_hint = The repeat you are in; for balancing picks and closing border, the repeats woven.
place_piece = Piece
place_no_sequence = This warp has no pick sequence yet.
place_add_sequence = Add one
place_now = next by the count
keys_title = Keys and pedal
keys_any = Any key counts a pick; Backspace undoes one.
keys_pick = Only { $key } counts a pick.
keys_back = { $key } undoes a pick.
keys_choose_pick = Choose a key or pedal for a pick
keys_choose_back = Choose one for undoing a pick
keys_press = Press the key or pedal now
keys_any_again = Use any key again
keys_note = Escape marks a pick that is not beaten yet. Keys are saved on this device only.
keys_space = Space
sound_title = Sound
sound_on = A soft tick with each pick
stretch_title = Reminder to stretch
stretch_hint = After weaving this long without a pause, on every device with this folder.
stretch_care = Stand up before anything hurts, change the throwing hand, and air the room: yarn sheds dust.
stretch_never = never
stretch_minutes = { $count }{ "\u00A0" }min

## Measuring and weighing

measure_title = Measure or weigh
measure_lead = Enter what you measured; leave the rest blank.
measure_move_mark = Move the mark to the fell
measure_yarn_left = Yarn left
measure_yarn_hint = By weight or by length: 42{ "\u00A0" }g, about 120{ "\u00A0" }m.
measure_on_shuttle = Weighed on its shuttle, which weighs { $weight } empty
measure_yarn_next = Yarn from here on
measure_yarn_same = no change
measure_warp_mark = A warp mark is at the fell
measure_warp_mark_at = Distance from the first pick, along the warp
measure_warp_mark_hint = A thread tied on a warp end while warping. It shows the true take-up.

## Weft yarns

yarns_title = Weft yarns
yarns_none = No weft yarn yet.
yarns_add = Add a yarn
yarns_new = Add a weft yarn
yarns_change = Change a weft yarn
yarns_on_shuttle = on the shuttle
yarns_use = Use from here on
yarns_use_named = Use from here on: { $name }
yarns_in_use = Yarn in use.
yarns_saved = Yarn saved.
yarns_removed = Yarn removed.
yarns_weight = Weight at the start
yarns_weight_hint = Yarn only.
yarns_length = Length at the start
yarns_length_hint = 240{ "\u00A0" }m, 260{ "\u00A0" }yd; about 240{ "\u00A0" }m if you know it roughly.
yarns_shuttle = Weight of its empty shuttle
yarns_shuttle_hint = Or bobbin. It is subtracted when you weigh the yarn on it.
yarns_left = { $percent }% left

## Other records, photos

records_title = Other records
records_removed = Record removed.
photos_title = Photos
photos_over_time = Photos over time
photos_enlarge = Enlarge: { $photo }
photos_close = Close the photo
photos_remove = Remove this photo
photos_removed = Photo removed.
photos_missing = The photo has not arrived yet.
photos_hint = Or drop or paste them here.
photos_chosen = Photo { $name }
photos_leave_out = Leave out { $name }
photos_saving = Saving photo { $number } of { $count }
photos_not_saved = { $count ->
    [one] { $count } photo was not saved.
   *[other] { $count } photos were not saved.
}
photos_skip = Leave them out
photos_saved = { $count ->
    [one] Photo saved.
   *[other] { $count } photos saved.
}

## A sitting

sitting_save_title = Save this sitting
sitting_correct = Correct a sitting
sitting_lead = Enter what you know: minutes, picks or length can be left blank.
sitting_day = Day
sitting_started = Started at
sitting_started_hint = Such as 19:40 or 7:40{ "\u00A0" }pm.
sitting_minutes = Minutes
sitting_minutes_hint = 40, or 1{ "\u00A0" }h 10
sitting_use_minutes = I wove on without counting: use { $minutes } minutes
sitting_picks = Picks
sitting_picks_hint = Negative if you unwove more than you wove.
sitting_length = Length woven
sitting_length_hint = Up to the fell.
sitting_from = Measured from
sitting_from_start = the first pick
sitting_from_mark = the last mark
sitting_tension = The warp was
sitting_tight = under tension
sitting_relaxed = relaxed
sitting_measured = { $tension ->
    [relaxed] { $from ->
        [mark] Measured from the last mark, warp relaxed
       *[start] Measured from the first pick, warp relaxed
    }
   *[tight] { $from ->
        [mark] Measured from the last mark, warp under tension
       *[start] Measured from the first pick, warp under tension
    }
}
sitting_mark_set = I put a mark at the fell
sitting_mark_hint = Pin a thread or a ribbon there before you advance: the first pick goes onto the beam, and the tape starts at the mark from then on.
sitting_weft_left = Weight of weft left
sitting_weft_left_hint = Yarn only, without shuttle or tube.
sitting_not_beaten = The last pick is not beaten yet
sitting_keep_weaving = Keep weaving
sitting_saved = Sitting saved.
sitting_corrected = Sitting corrected.

## A warp

warp_start = Start a warp
warp_start_lead = A name and the figures you know. You can change everything later.
warp_start_this = Start this warp
warp_started = Warp started.
warp_changed = Warp changed.
warp_name_hint = What you call it: “Green runner”.
warp_cloth = Warp and cloth
warp_wound = Warp length
warp_wound_hint = As wound, knots and all.
warp_waste = Loom waste
warp_waste_hint = Front and back together: what cannot be woven.
warp_wanted = Length wanted
warp_wanted_hint = { $unit ->
    [in] For each piece. If they differ: 70, 6, 6{ "\u00A0" }in.
   *[cm] For each piece. If they differ: 180, 15, 15{ "\u00A0" }cm.
}
warp_wanted_state = Length wanted is
warp_finished = finished, after washing
warp_relaxed = off the loom
warp_under_tension = on the loom, under tension
warp_picks = Picks
warp_picks_hint = { $unit ->
    [in] Per inch.
   *[cm] Per 10{ "\u00A0" }cm.
}
warp_take_up = Take-up
warp_take_up_before = 100{ "\u00A0" }{ $unit } of cloth under tension uses
warp_take_up_after = { $unit } of warp
warp_take_up_hint = Measure it on a sample, or leave it blank.
warp_weft = Weft
warp_reed_width = Width in the reed
warp_yarn = Yarn
warp_weft_allowance = Weft allowance
warp_weft_allowance_hint = Added to the width for each pick. Often 10.
warp_gift_day = Finish by
warp_gift_day_hint = If it has to be finished on a certain day.
warp_sequence = Pick sequence
warp_sequence_hint = One row per line: up, down, stick, or up + stick. “stick” alone is the heddle in neutral with the stick on edge. “3 x up” is three rows. On another loom, write the numbers of the sheds.
warp_opening = Opening border
warp_repeat = Repeat
warp_balance = Balancing picks
warp_closing = Closing border
warp_more_pieces = Pieces, fringe, shrinkage
warp_shrinkage = Shrinkage from loom to finished
warp_pieces = Pieces on this warp
warp_pieces_hint = If blank: one, or as many as there are lengths wanted.
warp_gap = Gap between pieces
warp_gap_hint = Not counting their fringe.
warp_fringe = Unwoven fringe at each end of each piece
warp_fringe_from_waste = The outermost fringes come out of the loom waste
warp_days = Days, and who it is for
warp_started_on = Started on
warp_days_a_week = Weaving days per week, about
warp_minutes_a_day = Minutes on such a day, about
warp_weaving_days = Weaving days
warp_weaving_days_hint = “Sat, Sun” or “weekends”. If blank: as your sittings show.
warp_away_from = Away from
warp_away_until = Away until
warp_every_day_until = Weaving every day until
warp_for_child = For a young child
warp_fibre = Fibre
warp_fibre_unset = not specified
warp_fibre_cotton = cotton
warp_fibre_linen = linen, hemp
warp_fibre_cottolin = cottolin
warp_fibre_wool = wool
warp_fibre_silk = silk
warp_fibre_viscose = viscose, bamboo
warp_fibre_acrylic = acrylic, nylon
warp_finish = Finish
warp_finish_washed = washed
warp_finish_fulled = fulled
warp_weave = Weave
warp_weave_unset = not specified
warp_weave_plain = plain weave
warp_weave_twill = 2/2 twill
warp_weave_pick_up = with a pick-up stick

## Editing the pick sequence

sequence_examples = Start from an example
sequence_example = Start from: { $name }
sequence_mirror = Mirror the opening border
sequence_stick = Slot ends on the pick-up stick
sequence_stick_up = up
sequence_stick_down = down between
sequence_stick_edge = down at each edge
sequence_sheds = Numbered sheds: several heddles or shafts
sequence_sheds_hint = If rows are numbers of sheds, enter what each shed lifts, and the cloth can be drawn.
sequence_lifts = What each shed lifts, one shed per line: 1: 1 2
sequence_threading = Threading: shaft of each end, one repeat
sequence_threading_hint = 1 2 3 4, or 1-4. If blank: straight draw.
sequence_sett = Sett (heddle)
sequence_sett_hint = Floats are drawn at their true length.
sequence_drawing = The cloth it makes
sequence_legend = Dark is warp, light is weft; the first pick is at the bottom. A long float is outlined.
sequence_row = { $row } ({ $section })
sequence_per_press = One press counts
sequence_one_pick = one pick
sequence_two_picks = two picks, there and back

## Planning

plan_title = Plan a warp
plan_start_from = Start from
plan_from_piece = From the finished piece
plan_from_yarn = From the yarn you have
plan_already_warped = Already warped
plan_piece_lead = Enter the piece you want; leave blank what you do not know.
plan_yarn_lead = Enter the yarn you have, and see which pieces it makes.
plan_copy = Copy an earlier warp
plan_copied = Copied from { $name }.
plan_piece = Finished piece
plan_length = Length
plan_length_hint = After washing, without fringe.
plan_width = Width
plan_width_hint = After washing.
plan_pieces = Pieces of this size
plan_further = Other lengths on the same warp
plan_further_hint = { $unit ->
    [in] In the order they are woven: 24{ "\u00A0" }in, 16{ "\u00A0" }in, or 2 × 6{ "\u00A0" }in.
   *[cm] In the order they are woven: 60{ "\u00A0" }cm, 40{ "\u00A0" }cm, or 2 × 15{ "\u00A0" }cm.
}
plan_edge = Edge finish
plan_edge_none = none
plan_edge_fringe = fringe
plan_edge_hem = hem
plan_edge_length = Fringe or hem at each end
plan_edge_hint = For a hem, all that is turned under.
plan_yarn = Your yarn
plan_one_yarn = Same yarn for warp and weft
plan_warp_length = Warp yarn: length
plan_weft_length = Weft yarn: length
plan_yarn_length_hint = 240{ "\u00A0" }m, 260{ "\u00A0" }yd, about 240{ "\u00A0" }m. Or enter its weight.
plan_warp_weight = Warp yarn: weight
plan_weft_weight = Weft yarn: weight
plan_weight_hint = With its yarn size below.
plan_known_how = How do you know?
plan_measured = measured
plan_by_label = from the label
plan_estimated = estimated
plan_finished_width = Finished width
plan_finished_width_hint = Type it, or drag the point on the curve.
plan_or_length = Or finished length
plan_or_length_hint = If the width is blank: as wide as the yarn allows.
plan_loom_width = Weaving width of your loom
plan_loom_width_hint = In the reed.
plan_threads = Ends and picks
plan_sett_hint = { $unit ->
    [in] Ends per inch, or as on the heddle: 40/10.
   *[cm] Ends per 10{ "\u00A0" }cm, or as on the heddle: 40/10.
}
plan_picks_hint = { $unit ->
    [in] Per inch, under tension.
   *[cm] Per 10{ "\u00A0" }cm, under tension.
}
plan_warp_size = Warp yarn size
plan_warp_size_hint = As on the label: 400{ "\u00A0" }m/100{ "\u00A0" }g, 8/2 cotton, Nm 2/28.
plan_weft_size = Weft yarn size
plan_weft_size_hint = If blank: the same as the warp yarn.
plan_weft_name = Weft yarn name
plan_weft_name_hint = Earlier warps with this yarn show how much it takes.
plan_find_sett = Find the sett from wraps or yarn size
plan_wraps = Wraps of the warp yarn
plan_wraps_hint = { $unit ->
    [in] Wound side by side, counted per inch.
   *[cm] Wound side by side, counted per 10{ "\u00A0" }cm.
}
plan_k = Ashenhurst’s factor
plan_k_usual = 0.9, usual
plan_k_soft = 0.84, soft yarn
plan_k_cotton = 0.95, cotton
plan_reed_width = Width in the reed, if you know it
plan_reed_width_hint = Used instead of the finished width.
plan_loom = Loom and rest of the warp
plan_waste_hint = Front and back together, once per warp.
plan_header = Header
plan_sample_first = Sample woven first
plan_changes = Take-up, draw-in, shrinkage
plan_take_up_before = 100{ "\u00A0" }{ $unit } of cloth uses
plan_take_up_of = Cloth measured
plan_shrinkage = Length shrinkage
plan_relaxation = Relaxation off the loom
plan_relaxation_hint = If blank: none.
plan_draw_in = Draw-in
plan_width_shrinkage = Width shrinkage
plan_sample = From a sample you wove
plan_sample_hint = What you measured fills in the fields above that are blank.
plan_sample_warp = Warp used
plan_sample_reed = Its width in the reed
plan_sample_length = Its length off the loom
plan_sample_width = Its width off the loom
plan_sample_length_washed = Its length after washing
plan_sample_width_washed = Its width after washing
plan_days = Days
plan_name_hint = If blank: its size.
plan_result = What you need
plan_more_options = More options
plan_use_offer = Use this
plan_rule_of_thumb = Rule of thumb
plan_check_first = Check first
plan_saved_plans = Saved plans
plan_save = Save plan
plan_saved = Plan saved. You find it under Plan, on every device.
plan_new = Start a new plan
plan_bring_back = Bring back the earlier entries
plan_remove_named = Remove the plan { $name }
plan_removed = Plan removed.
plan_waiting = { $count ->
    [one] { $count } plan not started yet
   *[other] { $count } plans not started yet
}
plan_curve = Width against length
plan_curve_width = finished width
plan_curve_length = finished length
plan_curve_knob = Width of the piece
plan_curve_keys = Drag the point, or use the arrow keys; Escape brings it back. Hatched: 80% likely.

## Off the loom

off_cut_title = Cut off the warp
off_cut_lead = { $name }. Enter what you know now; the rest can be measured later.
off_cut_done = Warp cut off.
off_measure_title = Measure the cloth
off_all_pieces = All pieces together, without fringe.
off_cut_on = Cut off on
off_cut_on_hint = If blank: today. { day_hint }
off_before_washing = Off the loom, before washing
off_length = Length off the loom
off_length_hint = Laid flat, not stretched.
off_fell_width = Width at the fell
off_fell_width_hint = Under tension, before cutting off.
off_width = Width off the loom
off_rest = Rest of the warp
off_front = In front
off_front_hint = From the start of the warp to the first pick, with fringe and knots.
off_thrums = Thrums
off_thrums_hint = From the last pick to the end of the warp, with fringe.
off_weft_over = Weft left over
off_after_washing = After washing
off_finished_length = Length
off_finished_width = Width
off_finished_weight = Weight
off_finished_weight_hint = Dry.
off_saved = Measurements saved.
off_finishing = Finishing
off_step_done = { $name }: done
off_step_add = Add a step
off_step = Finishing step
off_step_name = What to do
off_step_on = Done on
off_step_on_hint = Leave blank until it is done. { day_hint }
off_step_saved = Step saved.
off_step_remove = Remove this step
off_step_removed = Step removed.
off_planned_and_actual = Planned and actual
off_figure = Figure
off_planned = Planned
off_actual = Actual
off_difference = Difference
off_not_measured = Not measured yet
off_measure = Measure
off_lessons = Learned from your warps
off_lessons_hint = For a warp like this one. Your next plan can start from these.
off_removed = Removed

## Pace

pace_table = What each warp took
pace_warp = Warp
pace_length = Length woven
pace_hours = Time at the loom
pace_sittings = Sittings
pace_days = Days from first pick to finished, or so far
pace_picks_per_hour = Picks per hour
pace_length_per_hour = Length per hour
pace_hours_per_length = Time per length
pace_split = Split at
pace_do_split = Split
pace_as_table = Show as a table
pace_as_table_named = { $chart }: show as a table
pace_pictures = Where pictures are saved
pace_save_picture = Save picture
pace_save_picture_named = Save picture: { $chart }

## Export and import

export_import = Export and import
export_import_back = Back to the folder
export = Export
export_lead = Your records, in files that any program can read. Figures are metric, with the unit in the heading.
export_folder = Folder to save in
export_folder_hint = If blank: you are asked each time.
export_tables = Tables for a spreadsheet
export_sittings = Sittings
export_warps = Warps
export_wefts = Weft yarns
export_finishing = Finishing steps
export_readings = Measurements and marks
export_weighings = Weighings
export_joins = Yarn changes
export_places = Places in the sequence
export_plans = Plans
export_photos = Photos
export_pace = Pace
export_everything = Everything (JSON)
export_warp = This warp: { $name }
export_sheet = Record sheet with its pictures
export_picture_png = Progress picture (PNG)
export_picture_svg = Progress picture (SVG)
import = Import
import_lead = Sittings or earlier warps from a CSV file, or into an empty folder a whole log from Everything (JSON). You see what was understood before anything is saved, and one undo removes it all.
import_choose_file = Choose a file
import_contents = Contents
import_guess = as its headings say
import_warp = Warp of rows that name none
import_no_warp = none
import_columns = Columns
import_column = Meaning of column { $heading }
import_sample = for example { $text }
import_refused = Rows that cannot be imported
import_line = Line { $line }:
import_reading = Reading…
import_writing = Importing…
import_progress = Progress
import_rows = { $done } of { $count } rows

## Folder and settings

folder_path = Location
folder_status = Status
folder_waiting = { $count ->
    [one] { $count } entry is only on this device so far.
   *[other] { $count } entries are only on this device so far.
}
folder_write_back = Restore missing entries
folder_written_back = Entries restored.
folder_mark = Mark this folder again
folder_mark_question = Is this the right folder?
folder_mark_warning = Every waiting entry will be saved in { $path }. This cannot be undone. If another log is there, choose another folder instead.
folder_mark_confirm = Mark this folder
folder_mark_cancel = Leave it as it is
folder_marked = Folder marked.
folder_problems = Problems with files
folder_devices = Devices
folder_this_device = this device
folder_device_name = Name of this device
folder_name_saved = Name saved.
folder_units = Units of length
folder_metric = centimetres
folder_imperial = inches
folder_weights = Units of weight
folder_grams = grams
folder_ounces = ounces
folder_units_hint = For all figures shown, and for numbers typed without a unit. You can type any unit.
folder_choose_another = Choose another folder
folder_close = Close this folder
folder_close_hint = The files stay where they are.
folder_close_sample_hint = The sample data are deleted.
folder_closed = Folder closed. Its files stay where they are.
folder_keys = Keyboard
folder_keys_pick = Space, Enter, a letter, an arrow, Page Up or Page Down
folder_keys_pick_does = weaving: count a pick (also a pedal that types a key; under More you can choose a single key)
folder_keys_back = Backspace, Delete, −
folder_keys_back_does = weaving: undo a pick
folder_keys_not_beaten = Escape
folder_keys_not_beaten_does = weaving: mark a pick as not beaten yet, and again to unmark it
folder_keys_undo = Ctrl + Z
folder_keys_undo_does = undo the last change, unless you are typing
folder_keys_arrows = Arrow keys
folder_keys_arrows_does = picture of the warp: go from part to part; Enter opens a sitting

## The guide and help

guide = Guide
guide_and_about = Guide, and about Fellmark
guide_contents = Contents
guide_next = Next: { $title }
guide_untranslated = This page has not been translated yet. Here it is in English.
about = About Fellmark
about_version = Version { $version }, free software under the MIT licence.
about_folder = Your records are files in a folder of yours. Nothing is sent anywhere.
about_cautions = Cautions are shown where the risk is. They do not replace the rules that apply where you live.
about_licence = The licence
about_libraries = The libraries in it have licences of their own. The package lists them in the file third-party-notices.
help_first_warp = Help: the first warp
help_at_the_loom = Help: at the loom
help_plan_from_yarn = Help: planning from yarn
help_off_the_loom = Help: off the loom
help_two_devices = Help: two devices
help_backup = Help: backup and restore
help_deleting = Help: deleting for good
help_figures = Help: what each figure means

## Dates

day_today = today
day_yesterday = yesterday
day_pick = Choose a day
day_hint = Such as 21 Dec or 2026-12-21.
day_month_before = Month before
day_month_after = Month after
