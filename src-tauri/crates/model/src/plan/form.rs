//! Reads the plan's form. What cannot be read is a [`UserError`] beside its field and counts as empty, so that nothing blocks.

use chrono::NaiveDate;
use fellmark_cloth::Refused;
use fellmark_cloth::change::{Allowance, DrawIn, ExtentChange, Release, WashLength};
use fellmark_cloth::fibre::Fibre;
use fellmark_cloth::learned::{Finishing, WarpMeasurements};
use fellmark_cloth::measurement_errors::MeasurementErrors;
use fellmark_cloth::quantity::{Length, Mass, ThreadDensity, YarnNumber};
use fellmark_cloth::read::{self, DensityUnit};
use fellmark_cloth::span::Estimate;
use fellmark_cloth::state::{
    EndsIn, FinishedLength, FinishedWidth, PicksIn, ReedWidth, RelaxedLength, RelaxedWidth, WarpLength, WovenLength,
};
use fellmark_cloth::weft_left::length_from_label;

use super::inputs::{AshenhurstChoice, EdgeKind, MeasuredTakeUp, PlanInputs, WeaveChoice, YarnCertainty, YarnSupply};
use super::messages as plan_messages;
use crate::display_format::{DisplayFormat, Units};
use crate::forms::PlanForm;
use crate::measures::Reader;
use crate::messages;
use crate::piece_lengths;
use crate::{Message, Rows, UserError};

/// Most pieces on one warp.
const MOST_PIECES: i64 = 200;
/// Least and most warp that 100 of cloth can be said to use: warp stretches under tension, and rep takes much.
const WARP_PER_100: (f64, f64) = (80.0, 200.0);

/// Reads one field after another and collects what is wrong.
struct FieldReader<'a> {
    read: Reader<'a>,
    errors: Vec<UserError>,
}

impl FieldReader<'_> {
    fn take<T>(&mut self, result: Result<Option<T>, UserError>) -> Option<T> {
        result.unwrap_or_else(|error| {
            self.errors.push(error);
            None
        })
    }

    fn accepted<T>(&mut self, field: &str, made: Result<T, Refused>) -> Option<T> {
        match made {
            Ok(value) => Some(value),
            Err(error) => {
                self.errors.push(UserError::at(field, plan_messages::impossible_figure(error.to_string())));
                None
            }
        }
    }

    fn length<T>(
        &mut self,
        field: &str,
        what: Message,
        text: &str,
        make: impl Fn(f64) -> Result<T, Refused>,
    ) -> Option<T> {
        let result = self.read.length(field, what, text);
        let mm = self.take(result)?;
        self.accepted(field, make(mm))
    }

    fn warp(&mut self, field: &str, what: Message, text: &str) -> Option<WarpLength> {
        let result = self.read.length_or_zero(field, what, text);
        let mm = self.take(result)?;
        self.accepted(field, WarpLength::from_mm(mm))
    }

    fn percent<T>(
        &mut self,
        (field, what, text): (&str, Message, &str),
        (least, most): (f64, f64),
        make: impl Fn(f64) -> Result<T, Refused>,
    ) -> Option<T> {
        let result = self.read.number_between(field, what, text, least, most, messages::unit_percent());
        let percent = self.take(result)?;
        self.accepted(field, make(percent))
    }

    fn density(&mut self, field: &str, what: Message, text: &str) -> Option<ThreadDensity> {
        if text.trim().is_empty() {
            return None;
        }
        let unit = match self.read.format.units {
            Units::Metric => DensityUnit::Per10Cm,
            Units::Imperial => DensityUnit::PerInch,
        };
        match read::density(text, unit, self.read.format.mark()) {
            Ok(density) => Some(density),
            Err(error) => {
                self.errors.push(UserError::at(field, plan_messages::unreadable_density(error.to_string(), what)));
                None
            }
        }
    }

    fn yarn_number(&mut self, field: &str, text: &str) -> Option<YarnNumber> {
        let label = self.read.yarn_label(field, text);
        self.take(label).map(|label| label.number)
    }

    fn day(&mut self, field: &str, text: &str) -> Option<NaiveDate> {
        let day = self.read.day(field, text);
        self.take(day)
    }

    fn days_a_week(&mut self, text: &str) -> Option<f64> {
        let days =
            self.read.number_between("days_a_week", messages::the_days_a_week(), text, 0.1, 7.0, messages::unit_days());
        self.take(days)
    }

    fn minutes(&mut self, field: &str, text: &str) -> Option<f64> {
        let minutes = self.read.minutes(field, text);
        self.take(minutes)
    }

    /// A length of yarn, and whether it was given roughly.
    fn yarn_length(&mut self, field: &str, text: &str) -> Option<(Length, bool)> {
        // Bare lengths of yarn are metres or yards.
        let result =
            self.read.roughly(text, |read, text| read.length("weft_length", messages::the_yarn_length(), text));
        let result = result.map_err(|error| error.moved_to(field));
        let (mm, rough) = self.take(result)?;
        self.accepted(field, Length::from_mm(mm)).map(|length| (length, rough))
    }

    /// A yarn at hand: its length, else its weight by its number.
    fn supply(&mut self, end: &str, given: (&str, &str, &str), number: Option<YarnNumber>) -> Option<YarnSupply> {
        let (length_text, mass_text, sure) = given;
        let (length_field, mass_field) = (format!("{end}_have"), format!("{end}_mass"));
        let habits = MeasurementErrors::default();
        let known = |length, share, certainty| YarnSupply { length: Estimate::factor(length, share), certainty };
        let approximate = |length| known(length, habits.guess_share, YarnCertainty::Approximate);
        let length = self.yarn_length(&length_field, length_text);
        let mass = self.read.roughly(mass_text, |read, text| read.mass(&mass_field, messages::the_yarn_mass(), text));
        let mass = self.take(mass);
        if let Some((length, about)) = length {
            return Some(match sure {
                _ if about => approximate(length),
                "measured" => known(length, habits.tape_share, YarnCertainty::Measured),
                "rough" => approximate(length),
                _ => known(length, habits.label_share, YarnCertainty::ByLabel),
            });
        }
        let (grams, about) = mass?;
        let mass = self.accepted(&mass_field, Mass::from_g(grams))?;
        let Some(number) = number else {
            let field = if end == "warp" { "warp_count" } else { "weft_count" };
            self.errors.push(UserError::at(field, plan_messages::weight_without_yarn_number()));
            return None;
        };
        let by_label = self.accepted(&mass_field, length_from_label(mass, number, &habits))?;
        Some(if about || sure == "rough" {
            approximate(by_label.likely)
        } else {
            YarnSupply { length: by_label, certainty: YarnCertainty::ByWeightAndLabel }
        })
    }
}

fn rows(fields: &mut FieldReader<'_>, field: &str, text: &str) -> Vec<String> {
    let rows = crate::typed_words::rows_in_english(text, fields.read.format.language);
    match crate::sequence::check_rows(&rows) {
        Ok(()) => rows,
        Err(message) => {
            fields.errors.push(UserError::at(field, message));
            Vec::new()
        }
    }
}

fn take_up(fields: &mut FieldReader<'_>, form: &PlanForm) -> Option<MeasuredTakeUp> {
    let field = "warp_per_100";
    let number = fields.read.number(field, plan_messages::the_warp_per_100(), &form.warp_per_100);
    let per_100 = fields.take(number)?;
    let (least, most) = WARP_PER_100;
    if !(least..=most).contains(&per_100) {
        fields.errors.push(UserError::at(field, plan_messages::warp_per_100_out_of_range(per_100, least, most)));
        return None;
    }
    let warp = fields.accepted(field, WarpLength::from_cm(per_100))?;
    if form.take_up_of == "under_tension" {
        let cloth = ExtentChange::cloth_uses(WovenLength::from_cm(100.0).ok()?, warp);
        fields.accepted(field, cloth).map(MeasuredTakeUp::UnderTension)
    } else {
        let cloth = ExtentChange::cloth_uses(RelaxedLength::from_cm(100.0).ok()?, warp);
        fields.accepted(field, cloth).map(MeasuredTakeUp::Relaxed)
    }
}

fn woven_sample(fields: &mut FieldReader<'_>, form: &PlanForm) -> WarpMeasurements {
    WarpMeasurements {
        wound: fields.length("sample_warp", plan_messages::the_sample_warp(), &form.sample_warp, WarpLength::from_mm),
        // What is asked for is the warp in the sample alone.
        front: Some(WarpLength::ZERO),
        thrums: Some(WarpLength::ZERO),
        reed: fields.length("sample_reed", plan_messages::the_sample_width(), &form.sample_reed, ReedWidth::from_mm),
        off_loom: fields.length(
            "sample_length",
            plan_messages::the_sample_length(),
            &form.sample_length,
            RelaxedLength::from_mm,
        ),
        off_loom_width: fields.length(
            "sample_width",
            plan_messages::the_sample_width(),
            &form.sample_width,
            RelaxedWidth::from_mm,
        ),
        finished: fields.length(
            "sample_length_washed",
            plan_messages::the_sample_length(),
            &form.sample_length_washed,
            FinishedLength::from_mm,
        ),
        finished_width: fields.length(
            "sample_width_washed",
            plan_messages::the_sample_width(),
            &form.sample_width_washed,
            FinishedWidth::from_mm,
        ),
        ..WarpMeasurements::default()
    }
}

/// Reads the form; never fails. What cannot be read is among the errors.
#[must_use]
pub fn read_plan_form(form: &PlanForm, format: &DisplayFormat, today: NaiveDate) -> PlanInputs {
    let mut fields = FieldReader { read: Reader { format, today }, errors: Vec::new() };
    let pieces = fields.read.whole_between("pieces", messages::the_number_of_pieces(), &form.pieces, 1, MOST_PIECES);
    let pieces = fields.take(pieces).and_then(|n| u32::try_from(n).ok()).unwrap_or(1);
    let further = piece_lengths::read(&fields.read, "further", &plan_messages::the_further_piece(), &form.further);
    let further = fields.take(further.map(Some)).unwrap_or_default();
    let further =
        further.into_iter().filter_map(|mm| fields.accepted("further", FinishedLength::from_mm(mm))).collect();
    let warp_yarn_number = fields.yarn_number("warp_count", &form.warp_count);
    let weft_yarn_number = fields.yarn_number("weft_count", &form.weft_count);
    let warp_given = (form.warp_have.as_str(), form.warp_mass.as_str(), form.warp_sure.as_str());
    let warp_supply = fields.supply("warp", warp_given, warp_yarn_number);
    let weft_given = (form.weft_have.as_str(), form.weft_mass.as_str(), form.weft_sure.as_str());
    let weft_supply =
        if form.one_yarn { None } else { fields.supply("weft", weft_given, weft_yarn_number.or(warp_yarn_number)) };
    let mut inputs = PlanInputs {
        from_yarn: form.way == "yarn",
        length: fields.length("length", messages::the_length(), &form.length, FinishedLength::from_mm),
        width: fields.length("width", plan_messages::the_width(), &form.width, FinishedWidth::from_mm),
        pieces,
        further,
        edge: match form.edge.as_str() {
            "fringe" => EdgeKind::Fringe,
            "hem" => EdgeKind::Hem,
            _ => EdgeKind::Plain,
        },
        edge_mm: fields.length("edge_length", plan_messages::the_fringe_or_hem(), &form.edge_length, Ok),
        fringe_from_waste: form.fringe_from_waste,
        sett: fields.density("sett", plan_messages::the_sett(), &form.sett).map(EndsIn::new),
        wraps: fields.density("wraps", plan_messages::the_wraps(), &form.wraps),
        weave: WeaveChoice::from_word(&form.weave),
        ashenhurst: AshenhurstChoice::from_word(&form.k),
        warp_yarn_number,
        weft_yarn_number,
        weft_name: form.weft_name.trim().to_owned(),
        picks: fields.density("picks", messages::the_picks(), &form.picks).map(PicksIn::new),
        reed_width: fields.length("reed_width", messages::the_reed_width(), &form.reed_width, ReedWidth::from_mm),
        rows: Rows {
            opening: rows(&mut fields, "opening", &form.opening),
            repeat: rows(&mut fields, "repeat", &form.repeat),
            balance: rows(&mut fields, "balance", &form.balance),
            closing: rows(&mut fields, "closing", &form.closing),
        },
        fibre: Fibre::named_in(&form.fibre).or_else(|| Fibre::named_in(&form.warp_count)),
        finish: Finishing::from_word(&form.finish),
        take_up: take_up(&mut fields, form),
        release: fields.percent(
            ("release_percent", plan_messages::the_release(), &form.release_percent),
            (-20.0, 50.0),
            Release::from_shrinkage_percent,
        ),
        wash: fields.percent(
            ("shrinkage_percent", messages::the_shrinkage(), &form.shrinkage_percent),
            (-20.0, 60.0),
            WashLength::from_shrinkage_percent,
        ),
        draw_in: fields.percent(
            ("draw_in_percent", plan_messages::the_draw_in(), &form.draw_in_percent),
            (-20.0, 60.0),
            DrawIn::from_shrinkage_percent,
        ),
        width_wash: fields.percent(
            ("width_shrinkage_percent", plan_messages::the_width_loss(), &form.width_shrinkage_percent),
            (-20.0, 60.0),
            ExtentChange::from_shrinkage_percent,
        ),
        pick_allowance: fields.percent(
            ("weft_allowance_percent", messages::the_weft_allowance(), &form.weft_allowance_percent),
            (-20.0, 100.0),
            Allowance::from_percent,
        ),
        waste: fields.warp("waste", messages::the_loom_waste(), &form.waste),
        header: fields.warp("header", plan_messages::the_header(), &form.header).unwrap_or(WarpLength::ZERO),
        sample: fields.warp("sample", plan_messages::the_sample(), &form.sample).unwrap_or(WarpLength::ZERO),
        gap: fields.warp("gap", messages::the_gap(), &form.gap).unwrap_or(WarpLength::ZERO),
        woven_sample: woven_sample(&mut fields, form),
        one_yarn: form.one_yarn,
        warp_supply,
        weft_supply,
        loom_width: fields.length("loom_width", plan_messages::the_loom_width(), &form.loom_width, ReedWidth::from_mm),
        gift_on: fields.day("gift_on", &form.gift_on),
        days_a_week: fields.days_a_week(&form.days_a_week),
        minutes_a_day: fields.minutes("minutes_a_day", &form.minutes_a_day),
        errors: Vec::new(),
    };
    inputs.errors = fields.errors;
    inputs
}
