//! The messages of this layer.

use crate::declare_messages;

declare_messages! {
    /// The picture of the sample data could not be made.
    sample_picture_failed(error: Text);
    /// What the journal says went wrong.
    journal_error(error: Text);
    /// What the journal says when a disk refused what was to be written.
    storage_error(error: Text);

    // Names of what is typed, as parts of other messages.
    the_length();
    the_wanted_length();
    the_weight();
    the_figure();
    the_picks();
    the_warp_wound();
    the_loom_waste();
    the_shrinkage();
    the_fringe();
    the_gap();
    the_reed_width();
    the_weft_allowance();
    the_slot_ends();
    the_days_a_week();
    the_take_up();
    the_weft_mass();
    the_weft_length();
    the_number_of_pieces();
    the_measured_length();
    the_weft_left();
    the_yarn_left();
    the_warp_mark_distance();
    the_yarn_mass();
    the_yarn_length();
    the_empty_shuttle_mass();
    the_minutes();
    the_front_length();
    the_thrums();
    the_off_loom_length();
    the_finished_length();
    the_off_loom_width();
    the_finished_width();
    the_fell_width();
    the_weft_over();
    the_piece();
    the_row();
    the_repeat();
    // Units behind a figure.
    unit_percent();
    unit_days();

    // Figures, days and times that cannot be understood. `error` is what the reader of measures says of the text.
    cannot_be_zero(what: Message);
    unreadable_yarn_length(error: Text, what: Message);
    unreadable_length_metric(error: Text, what: Message);
    unreadable_length_imperial(error: Text, what: Message);
    unreadable_mass(error: Text, what: Message);
    unreadable_sett(error: Text);
    unreadable_yarn_number(error: Text);
    unreadable_picks(error: Text);
    unreadable_number(error: Text, what: Message);
    unreadable_whole_number(error: Text, what: Message);
    number_out_of_range(what: Message, given: Number, unit: Message, least: Number, most: Number);
    whole_number_out_of_range(what: Message, given: Count, least: Count, most: Count);
    unreadable_minutes(text: Text);
    sitting_longer_than_a_day();
    unreadable_day(text: Text, iso_example: IsoDate, example: NumericDate);
    unreadable_time(text: Text);
    too_many_pieces(most: Count);
    unknown_weekday(text: Text);
    range_without_end();
    range_reversed();
    not_one_of(text: Text, choices: List);
    neither_nor(text: Text, one: Text, other: Text);

    // The warp's form.
    warp_without_name();
    waste_as_long_as_warp();
    unknown_wanted_state();
    pieces_and_lengths_differ(lengths: Count, pieces: Count);
    impossible_take_up(given: Number);
    take_up_as_share(given: Number, share: Number, written: Number);
    unreadable_rows(error: Text);
    unknown_shaft(text: Text, most: Count);
    threading_too_long(most: Count);
    unknown_shed(line: Text);
    shed_twice(shed: Count);

    // Changes to the log.
    unknown_record(id: Text);
    unknown_warp_id(id: Text);
    unknown_warp();
    wrong_kind(id: Text, wanted: Text, found: Text);
    empty_sitting();
    conflict_gone();
    photo_without_warp();
    unknown_yarn();
    empty_reading();
    nothing_left_written();
    shuttle_weight_unknown();
    shuttle_heavier_than_shown(tare: MassG, shown: MassG);
    empty_yarn();
    stretch_without_number();
    step_without_name();
    too_many_steps(most: Count);
    last_step_stays();
    step_day_in_future();

    // Cutting off.
    off_day_in_future();
    cut_off_as_long_as_warp();
    cloth_longer_than_warp();
    growth_in_the_wash();

    // Tables brought in.
    import_stopped();
    no_row_taken(line: Count, why: Message);
    table_without_rows();
    no_table();
    table_too_long(megabytes: Count);
    everything_too_long(megabytes: Count);
    everything_needs_empty_folder();
    not_everything(error: Text);
    record_not_read(id: Text);
    too_many_columns(most: Count);
    too_many_rows(most: Count);
    unknown_list(name: Text);
    list_is_not_imported(list: Text);
    field_taken_twice(heading: Text);
    unknown_field(name: Text);
    in_column(column: Column, why: Message);
    missing_field(label: Column);
    known_by_its_id();
    known_already();
    several_warps_of_name(name: Text);
    no_warp_of_name(name: Text);
    row_without_warp();
    unreadable_day_of_row(text: Text);
    unknown_yarn_id(id: Text);
    below_zero(what: Text);
    row_longer_than_a_day();
    unreadable_start_of_row();
    empty_row();
    unreadable_id(text: Text);
    no_number(text: Text);
    no_whole_number(text: Text);
    word_not_one_of(text: Text, choices: List);
    neither_yes_nor_no(text: Text);

    // The place in the sequence.
    no_sequence();
    unknown_section(text: Text);
    opening_without_rows();
    repeat_without_rows();
    repeat_beyond_warp(repeat: Count, most: Count);
    balance_without_rows();
    closing_without_rows();

    // Of the open folder and the sitting that is going on.
    tap_is_one_pick();
    tap_not_written(error: Text);
    warp_not_known_any_more();
    sitting_not_begun();
    no_warp_on_the_loom();
    no_sitting_going_on();
    folder_in_another_window();
    no_home_folder();
    no_folder_open();
    no_folder_given();
    path_not_whole();
    folder_missing(folder: Text);
    folder_not_made(folder: Text, error: Text);
    sample_not_made(folder: Text, error: Text);
    sample_not_removed(folder: Text, error: Text);
    device_without_name();
    no_record_id(text: Text);
}
