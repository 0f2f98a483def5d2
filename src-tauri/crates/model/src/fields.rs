//! Names of the journal's kinds and fields, as this crate writes and reads them. What each one means is in `docs/format.md`.

/// Kinds of records.
pub mod kind {
    /// A warp.
    pub const WARP: &str = "warp";
    /// A stretch at the loom.
    pub const SITTING: &str = "sitting";
    /// A weft yarn of a warp.
    pub const WEFT: &str = "weft";
    /// A photo of a sitting.
    pub const PHOTO: &str = "photo";
    /// A step between the last pick and the finished piece.
    pub const FINISHING: &str = "finishing";
    /// The place in the sequence that the weaver chose.
    pub const PLACE: &str = "place";
    /// A tape laid on the cloth, a mark moved, a warp mark at the fell.
    pub const READING: &str = "reading";
    /// A weft yarn weighed or measured.
    pub const WEIGHING: &str = "weighing";
    /// A weft yarn taken up.
    pub const JOIN: &str = "join";
    /// What was planned of a warp beyond its own fields.
    pub const PLAN: &str = "plan";
    /// Choices that travel with the folder.
    pub const SETTINGS: &str = "settings";
}

/// Fields of a warp.
pub mod warp {
    /// Text.
    pub const NAME: &str = "name";
    /// Day, `YYYY-MM-DD`.
    pub const BEGUN_ON: &str = "begun_on";
    /// `on_the_loom`, `resting` or `off_the_loom`.
    pub const STATE: &str = "state";
    /// Day the state began.
    pub const STATE_ON: &str = "state_on";
    /// Warp wound, millimetres.
    pub const WOUND_MM: &str = "wound_mm";
    /// Loom waste, front and back, millimetres.
    pub const WASTE_MM: &str = "waste_mm";
    /// Length wanted of each piece, millimetres.
    pub const WANTED_MM: &str = "wanted_mm";
    /// Length wanted of each piece where they are not alike: a list of millimetres, in the order they are woven. `pieces` is
    /// their number then, and `wanted_mm` their mean.
    pub const WANTED_EACH_MM: &str = "wanted_each_mm";
    /// What length that is: `finished`, `off_loom`, `under_tension`.
    pub const WANTED_STATE: &str = "wanted_state";
    /// Loss of length from the loom to finished, per cent of the length on the loom.
    pub const SHRINKAGE_PERCENT: &str = "shrinkage_percent";
    /// What the yarn is made of: `cotton`, `linen`, `cottolin`, `wool`, `silk`, `viscose` or `acrylic`.
    pub const FIBRE: &str = "fibre";
    /// How it is finished: `fulled`; nothing where it is washed.
    pub const FINISH: &str = "finish";
    /// Number of pieces.
    pub const PIECES: &str = "pieces";
    /// Fringe at each end of each piece, millimetres.
    pub const FRINGE_MM: &str = "fringe_mm";
    /// Whether the outermost fringes come out of the waste.
    pub const FRINGE_FROM_WASTE: &str = "fringe_from_waste";
    /// Warp between two pieces besides their fringes, millimetres.
    pub const GAP_MM: &str = "gap_mm";
    /// Pick density under tension.
    pub const PICKS_PER_10CM: &str = "picks_per_10cm";
    /// Ends in the reed or heddle.
    pub const SETT_ENDS_PER_10CM: &str = "sett_ends_per_10cm";
    /// Units of warp that 100 units of cloth under tension use.
    pub const WARP_PER_100_CLOTH: &str = "warp_per_100_cloth";
    /// Width in the reed, millimetres.
    pub const REED_WIDTH_MM: &str = "reed_width_mm";
    /// What one pick is longer than the reed width, per cent.
    pub const WEFT_ALLOWANCE_PERCENT: &str = "weft_allowance_percent";
    /// `plain` or `pick_up`.
    pub const WEAVE: &str = "weave";
    /// Rows of the opening border, a list of texts.
    pub const OPENING_ROWS: &str = "opening_rows";
    /// Rows of the repeat.
    pub const REPEAT_ROWS: &str = "repeat_rows";
    /// Rows after the last repeat.
    pub const BALANCE_ROWS: &str = "balance_rows";
    /// Rows of the closing border.
    pub const CLOSING_ROWS: &str = "closing_rows";
    /// The shaft of each end over one repeat of the threading, as the weaver wrote it: a list of lines.
    pub const THREADING: &str = "threading";
    /// What each numbered shed lifts, one shed to a line: a list of texts.
    pub const SHED_LIFTS: &str = "shed_lifts";
    /// Picks that one press counts: 1, or 2 for there and back.
    pub const PICKS_PER_TAP: &str = "picks_per_tap";
    /// Slot ends down at each edge of the pick-up.
    pub const STICK_EDGE_ENDS: &str = "stick_edge_ends";
    /// Slot ends up in each group of the pick-up.
    pub const STICK_UP_ENDS: &str = "stick_up_ends";
    /// Slot ends down between groups of the pick-up.
    pub const STICK_DOWN_ENDS: &str = "stick_down_ends";
    /// Day of the gift.
    pub const GIFT_ON: &str = "gift_on";
    /// About how many days a week the weaver works.
    pub const DAYS_A_WEEK: &str = "days_a_week";
    /// About how many minutes the weaver states to weave on a weaving day.
    pub const MINUTES_A_DAY: &str = "minutes_a_day";
    /// Days of the week the weaver works on: a list of `mon` to `sun`.
    pub const WEAVING_DAYS: &str = "weaving_days";
    /// First day the weaver is away.
    pub const AWAY_FROM: &str = "away_from";
    /// Last day the weaver is away.
    pub const AWAY_UNTIL: &str = "away_until";
    /// First day of a stretch on every day of which the weaver intends to weave.
    pub const EVERY_DAY_FROM: &str = "every_day_from";
    /// Last day of it.
    pub const EVERY_DAY_UNTIL: &str = "every_day_until";
    /// Whether it is for a young child.
    pub const FOR_CHILD: &str = "for_child";
    /// Text.
    pub const NOTE: &str = "note";
}

/// Fields of a warp that tell what came of it: measured when it was cut off, and after the wash. Lengths are of all pieces together,
/// without fringe.
pub mod off {
    /// Cut off in front: from the beginning of the warp to the first pick, fringe included, millimetres.
    pub const FRONT_MM: &str = "front_mm";
    /// Thrums: from the last pick to the end of the warp, fringe included, millimetres.
    pub const THRUMS_MM: &str = "thrums_mm";
    /// Length off the loom, before the wash, millimetres.
    pub const OFF_LOOM_MM: &str = "off_loom_mm";
    /// Width at the fell, under tension, millimetres.
    pub const FELL_WIDTH_MM: &str = "fell_width_mm";
    /// Width off the loom, before the wash, millimetres.
    pub const OFF_LOOM_WIDTH_MM: &str = "off_loom_width_mm";
    /// Weft left over at the end, grams.
    pub const WEFT_OVER_G: &str = "weft_over_g";
    /// Length after the wash, millimetres.
    pub const FINISHED_MM: &str = "finished_mm";
    /// Width after the wash, millimetres.
    pub const FINISHED_WIDTH_MM: &str = "finished_width_mm";
    /// Weight after the wash, grams.
    pub const FINISHED_MASS_G: &str = "finished_mass_g";
}

/// Fields of a finishing step.
pub mod finishing {
    /// Text.
    pub const NAME: &str = "name";
    /// Its place among the steps, from 1.
    pub const POSITION: &str = "position";
    /// Day it was done.
    pub const DONE_ON: &str = "done_on";
}

/// Fields of a plan, kept beside the warp it became. Figures the weaver left to be assumed are not among them.
pub mod plan {
    /// Finished length of each piece, a list of millimetres.
    pub const FINISHED_LENGTHS_MM: &str = "finished_lengths_mm";
    /// Finished width, millimetres.
    pub const FINISHED_WIDTH_MM: &str = "finished_width_mm";
    /// Ends.
    pub const ENDS: &str = "ends";
    /// Ends in the reed.
    pub const SETT_ENDS_PER_10CM: &str = "sett_ends_per_10cm";
    /// `fringe` or `hem`.
    pub const EDGE: &str = "edge";
    /// Length of the fringe or of the cloth turned under at each end of each piece, millimetres.
    pub const EDGE_MM: &str = "edge_mm";
    /// What the yarn is made of: `cotton`, `linen`, `cottolin`, `wool`, `silk`, `viscose` or `acrylic`.
    pub const FIBRE: &str = "fibre";
    /// How it is finished: `fulled`; nothing where it is washed.
    pub const FINISH: &str = "finish";
    /// `twill`, where the warp's own field has no word for it.
    pub const WEAVE: &str = "weave";
    /// Units of warp that 100 units of cloth off the loom use.
    pub const WARP_PER_100_OFF_LOOM: &str = "warp_per_100_off_loom";
    /// Loss of length when the tension goes, per cent.
    pub const RELEASE_PERCENT: &str = "release_percent";
    /// Loss of length in the wash, per cent of cloth off the loom.
    pub const WASH_PERCENT: &str = "wash_percent";
    /// How much narrower the cloth at the fell is than the warp in the reed, per cent.
    pub const DRAW_IN_PERCENT: &str = "draw_in_percent";
    /// How much narrower the finished cloth is than at the fell, per cent.
    pub const WIDTH_LOSS_PERCENT: &str = "width_loss_percent";
    /// Loom waste alone, millimetres.
    pub const WASTE_MM: &str = "waste_mm";
    /// Warp for the header, millimetres.
    pub const HEADER_MM: &str = "header_mm";
    /// Warp for a sample, millimetres.
    pub const SAMPLE_MM: &str = "sample_mm";
    /// Warp between two pieces, millimetres.
    pub const GAP_MM: &str = "gap_mm";
    /// Number of the warp yarn, tex.
    pub const WARP_TEX: &str = "warp_tex";
    /// Number of the weft yarn, tex.
    pub const WEFT_TEX: &str = "weft_tex";
    /// Calculated hours of weaving.
    pub const HOURS: &str = "hours";
}

/// Fields of a weft yarn.
pub mod weft {
    /// Text.
    pub const NAME: &str = "name";
    /// Weight at the start, grams.
    pub const START_MASS_G: &str = "start_mass_g";
    /// Length at the start, millimetres.
    pub const START_LENGTH_MM: &str = "start_length_mm";
    /// Whether the weight at the start was given roughly.
    pub const START_MASS_ROUGH: &str = "start_mass_rough";
    /// Whether the length at the start was given roughly.
    pub const START_LENGTH_ROUGH: &str = "start_length_rough";
    /// What the empty shuttle or bobbin weighs that the yarn is on, grams.
    pub const TARE_G: &str = "tare_g";
}

/// Fields of a sitting.
pub mod sitting {
    /// Day, `YYYY-MM-DD`.
    pub const ON: &str = "on";
    /// Time it began, `HH:MM` by the weaver's clock.
    pub const STARTED: &str = "started";
    /// Minutes at the loom.
    pub const MINUTES: &str = "minutes";
    /// Picks woven less picks unwoven.
    pub const PICKS: &str = "picks";
    /// What the tape said, millimetres.
    pub const MEASURED_MM: &str = "measured_mm";
    /// Where the tape started: `start` or `mark`.
    pub const MEASURED_FROM: &str = "measured_from";
    /// `tight` or `relaxed`.
    pub const MEASURED_TENSION: &str = "measured_tension";
    /// Whether a mark was set at the fell at the end.
    pub const MARK_SET: &str = "mark_set";
    /// Weft left on the scale at the end, grams.
    pub const WEFT_LEFT_G: &str = "weft_left_g";
    /// What was taken off the scale's figure for the empty shuttle, grams.
    pub const WEFT_TARE_G: &str = "weft_tare_g";
    /// Whether a pick was begun and not beaten when the weaver got up.
    pub const PICK_BEGUN: &str = "pick_begun";
    /// Text.
    pub const NOTE: &str = "note";
    /// Whether the figures are rough.
    pub const ROUGH: &str = "rough";
}

/// Fields of a photo.
pub mod photo {
    /// Record id of the sitting.
    pub const SITTING: &str = "sitting";
    /// Hash of the stored bytes, 64 hex digits: the file's name.
    pub const HASH: &str = "hash";
    /// When it was taken, as the camera wrote it.
    pub const TAKEN_AT: &str = "taken_at";
}

/// Fields that say at which moment something was noted: `place`, `reading`, `weighing` and `join` carry them.
pub mod moment {
    /// Day, `YYYY-MM-DD`.
    pub const ON: &str = "on";
    /// Record id of the sitting it was noted in, or after; nothing before the first.
    pub const SITTING: &str = "sitting";
    /// Net picks of that sitting by then; nothing when it was noted after the sitting.
    pub const PICKS_INTO: &str = "picks_into";
}

/// Fields of a place in the sequence: the row that comes next.
pub mod place {
    /// Which piece, from 1.
    pub const PIECE: &str = "piece";
    /// `opening`, `repeat`, `balance` or `closing`.
    pub const SECTION: &str = "section";
    /// Which repeat, from 1; in balance and closing border how many were woven.
    pub const REPEAT: &str = "repeat";
    /// Which row of the section, from 1.
    pub const ROW: &str = "row";
}

/// Fields of a reading: `measured_mm`, `measured_from`, `measured_tension`, `mark_set` and `rough` as on a sitting, and this.
pub mod reading {
    /// How far along the warp, from the first pick, a warp mark that has reached the fell was tied, millimetres.
    pub const WARP_MARK_MM: &str = "warp_mark_mm";
}

/// Fields of a weighing, with `rough` as on a sitting, and of a join.
pub mod weighing {
    /// Record id of the yarn.
    pub const WEFT: &str = "weft";
    /// What is left, grams.
    pub const LEFT_G: &str = "left_g";
    /// What is left, millimetres.
    pub const LEFT_MM: &str = "left_mm";
    /// What was taken off the scale's figure for the empty shuttle, grams.
    pub const TARE_G: &str = "tare_g";
}

/// Fields of the settings.
pub mod settings {
    /// `metric` or `imperial`.
    pub const UNITS: &str = "units";
    /// `metric` or `imperial`: units of weights, where they are others than those of lengths.
    pub const WEIGHT_UNITS: &str = "weight_units";
    /// Minutes without a pause after which a stretch is suggested; 0 is never.
    pub const STRETCH_MINUTES: &str = "stretch_minutes";
    /// Whether the folder holds the invented example.
    pub const EXAMPLE: &str = "example";
    /// The one record that holds them.
    pub const RECORD: &str = "settings";
}

/// On every record: which action wrote the entry, so that undo takes back an action as a whole. `undo ` and an action's name
/// when the entry takes that action back.
pub const ACT: &str = "act";
