//! From arguments to the forms that the window fills in too.

use fellmark_present::view::{OffForm, SittingForm, WarpForm};

use super::{OffArgs, RowArgs, SittingArgs, WarpArgs, YesNo};

fn put(form: &mut String, given: Option<String>) {
    if let Some(text) = given {
        *form = text;
    }
}

fn put_flag(form: &mut bool, given: Option<YesNo>) {
    if let Some(answer) = given {
        *form = answer == YesNo::Yes;
    }
}

fn put_rows(form: &mut String, given: &[String]) {
    if !given.is_empty() {
        *form = given.join("\n");
    }
}

impl WarpArgs {
    /// Writes what was given over a form.
    pub fn over(self, form: &mut WarpForm) {
        put(&mut form.begun_on, self.begun);
        put(&mut form.wound, self.wound);
        put(&mut form.waste, self.waste);
        put(&mut form.wanted, self.wanted);
        put(&mut form.wanted_state, self.wanted_state);
        put(&mut form.shrinkage_percent, self.shrinkage);
        put(&mut form.fibre, self.fibre);
        put(&mut form.finish, self.finish);
        put(&mut form.pieces, self.pieces);
        put(&mut form.fringe, self.fringe);
        put_flag(&mut form.fringe_from_waste, self.fringe_from_waste);
        put(&mut form.gap, self.gap);
        put(&mut form.picks, self.picks);
        put(&mut form.sett, self.sett);
        put(&mut form.threading, self.threading);
        put_rows(&mut form.shed_lifts, &self.shed_lift);
        put(&mut form.warp_per_100, self.warp_per_100);
        put(&mut form.reed_width, self.width);
        put(&mut form.weft_allowance_percent, self.allowance);
        put(&mut form.weft_name, self.weft);
        put(&mut form.weft_mass, self.weft_mass);
        put(&mut form.weft_length, self.weft_length);
        put(&mut form.weave, self.weave);
        put(&mut form.picks_per_tap, self.picks_per_tap);
        put(&mut form.stick_up_ends, self.stick_up_ends);
        put(&mut form.stick_down_ends, self.stick_down_ends);
        put(&mut form.stick_edge_ends, self.stick_edge_ends);
        self.rows.over([&mut form.opening, &mut form.repeat, &mut form.balance, &mut form.closing]);
        put(&mut form.gift_on, self.gift);
        put(&mut form.days_a_week, self.days_a_week);
        put(&mut form.minutes_a_day, self.minutes_a_day);
        put(&mut form.weaving_days, self.weaving_days);
        put(&mut form.away_from, self.away_from);
        if self.away_until.as_deref() == Some("") {
            form.away_from.clear();
        }
        put(&mut form.away_until, self.away_until);
        if self.every_day_until.is_some() {
            form.every_day_from.clear();
        }
        put(&mut form.every_day_until, self.every_day_until);
        put_flag(&mut form.for_child, self.for_child);
        put(&mut form.note, self.note);
    }
}

impl RowArgs {
    /// Writes what was given over the sections of a form, in the order they are woven: opening border, repeat, balance,
    /// closing border.
    pub fn over(&self, sections: [&mut String; 4]) {
        let given = [&self.opening_row, &self.repeat_row, &self.balance_row, &self.closing_row];
        for (section, rows) in sections.into_iter().zip(given) {
            put_rows(section, rows);
        }
    }
}

impl OffArgs {
    /// Writes what was given over a form.
    pub fn over(self, form: &mut OffForm) {
        put(&mut form.on, self.on);
        put(&mut form.front, self.front);
        put(&mut form.thrums, self.thrums);
        put(&mut form.off_loom, self.off_loom);
        put(&mut form.fell_width, self.fell_width);
        put(&mut form.off_loom_width, self.off_loom_width);
        put(&mut form.weft_over, self.weft_over);
        put(&mut form.finished, self.finished);
        put(&mut form.finished_width, self.finished_width);
        put(&mut form.finished_mass, self.finished_mass);
    }
}

impl SittingArgs {
    /// Writes what was given over a form.
    pub fn over(self, form: &mut SittingForm) {
        put(&mut form.on, self.on);
        put(&mut form.started, self.at);
        put(&mut form.minutes, self.minutes);
        put(&mut form.picks, self.picks);
        put(&mut form.measured, self.tape.measured);
        put(&mut form.measured_from, self.tape.from);
        put(&mut form.measured_tension, self.tape.tension);
        put_flag(&mut form.mark_set, self.tape.mark_set);
        put(&mut form.weft_left, self.weft_left);
        put_flag(&mut form.pick_begun, self.pick_begun);
        put(&mut form.note, self.note);
        put_flag(&mut form.rough, self.rough);
    }
}

/// The argument that fills a member of a form, for error messages.
pub fn argument_of(field: &str) -> String {
    let name = match field {
        "begun_on" => "begun",
        "shrinkage_percent" => "shrinkage",
        "reed_width" => "width",
        "weft_allowance_percent" => "allowance",
        "weft_name" => "weft",
        "gift_on" => "gift",
        "opening" => "opening-row",
        "repeat" => "repeat-row",
        "balance" => "balance-row",
        "closing" => "closing-row",
        "shed_lifts" => "shed-lift",
        "started" => "at",
        "measured_from" => "from",
        "measured_tension" => "tension",
        "name" => return "name".into(),
        other => other,
    };
    format!("--{}", name.replace('_', "-"))
}
