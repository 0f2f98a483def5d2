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
unreadable_day = “{ $text }” is no day of the calendar. Write a day as { $iso_example } or { $example }.
unreadable_time = “{ $text }” is no time of day. Write it as 19:30.
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
folder_not_made = The folder { $folder } cannot be made: { $error }. Choose another one.
sample_not_made = The example cannot be made in { $folder }: { $error }.
sample_not_removed = The old example in { $folder } cannot be removed: { $error }.
device_without_name = Give this device a name you will know it by, such as “laptop”.
no_record_id = “{ $text }” is no record's id: an id is 1 to 64 letters, digits, - or _.
