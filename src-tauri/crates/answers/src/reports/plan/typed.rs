//! From the form to typed figures: what cannot be read is told beside its field and counts as empty, so that nothing blocks.

use chrono::NaiveDate;
use fellmark_cloth::Refused;
use fellmark_cloth::change::{Allowance, Change, DrawIn, Release, WarpUse, WashLength};
use fellmark_cloth::learnt::OffTheLoom;
use fellmark_cloth::left::{Habits, length_from_label};
use fellmark_cloth::quantity::{Length, Mass, ThreadDensity, YarnNumber, YarnSystem};
use fellmark_cloth::read::{self, DensityUnit};
use fellmark_cloth::sett::{AshenhurstK, Weave};
use fellmark_cloth::span::Estimate;
use fellmark_cloth::state::{
    Across, EndsIn, Finished, FinishedLength, FinishedWidth, InReed, OffLoom, PicksIn, ReedWidth, RelaxedLength,
    RelaxedWidth, UnderTension, WarpLength,
};

use crate::model::Rows;
use crate::model::display_format::{DisplayFormat, Units};
use crate::model::measures::Reader;
use crate::model::messages::{self, ready_sentence};
use crate::model::piece_lengths;
use crate::present::trouble::sentence;
use crate::present::view::{PlanForm, UserError};

/// Most pieces on one warp.
const MOST_PIECES: i64 = 200;

/// A take-up with the cloth it was measured on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum TakeUp {
    /// Against cloth off the loom.
    Relaxed(WarpUse<OffLoom>),
    /// Against cloth under tension.
    Tight(WarpUse<UnderTension>),
}

/// What ends a piece.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum EdgeKind {
    #[default]
    Plain,
    Fringe,
    Hem,
}

/// A yarn that there is, and how that is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Have {
    pub length: Estimate<Length>,
    /// How well: in words for "why?".
    pub how: &'static str,
    /// Whether it is known only roughly.
    pub rough: bool,
}

/// The figures of the form.
#[derive(Clone, Debug, Default)]
pub(super) struct Typed {
    pub from_yarn: bool,
    pub length: Option<FinishedLength>,
    pub width: Option<FinishedWidth>,
    pub pieces: u32,
    pub further: Vec<FinishedLength>,
    pub edge: EdgeKind,
    pub edge_mm: Option<f64>,
    pub fringe_from_waste: bool,
    pub sett: Option<EndsIn<InReed>>,
    pub wraps: Option<ThreadDensity>,
    pub weave: Option<Weave>,
    pub weave_word: &'static str,
    pub k: Option<AshenhurstK>,
    pub k_name: &'static str,
    pub warp_count: Option<YarnNumber>,
    pub weft_count: Option<YarnNumber>,
    pub picks: Option<PicksIn<UnderTension>>,
    pub reed_width: Option<ReedWidth>,
    pub rows: Rows,
    pub take_up: Option<TakeUp>,
    pub release: Option<Release>,
    pub wash: Option<WashLength>,
    pub draw_in: Option<DrawIn<UnderTension>>,
    pub width_wash: Option<Change<Across, UnderTension, Finished>>,
    pub allowance: Option<Allowance>,
    pub waste: Option<WarpLength>,
    pub header: Stretch,
    pub sample: Stretch,
    pub gap: Stretch,
    pub woven_sample: OffTheLoom,
    pub one_yarn: bool,
    pub warp_have: Option<Have>,
    pub weft_have: Option<Have>,
    pub loom: Option<ReedWidth>,
    pub gift_on: Option<NaiveDate>,
    pub days_a_week: Option<f64>,
    pub troubles: Vec<UserError>,
}

/// A stretch of warp that is nothing where nothing is typed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Stretch(pub WarpLength);

impl Default for Stretch {
    fn default() -> Self {
        Self(WarpLength::ZERO)
    }
}

struct Ear<'a> {
    read: Reader<'a>,
    troubles: Vec<UserError>,
}

impl Ear<'_> {
    fn take<T>(&mut self, heard: Result<Option<T>, crate::model::UserError>) -> Option<T> {
        heard.unwrap_or_else(|error| {
            self.troubles.push(crate::present::messages::error_view(error, self.read.format));
            None
        })
    }

    fn kept<T>(&mut self, field: &str, made: Result<T, Refused>) -> Option<T> {
        match made {
            Ok(value) => Some(value),
            Err(error) => {
                self.troubles.push(UserError::at(field, sentence(&error.to_string())));
                None
            }
        }
    }

    fn length<T>(
        &mut self,
        field: &str,
        what: &str,
        text: &str,
        make: impl Fn(f64) -> Result<T, Refused>,
    ) -> Option<T> {
        let heard = self.read.length(field, ready_sentence(what), text);
        let mm = self.take(heard)?;
        self.kept(field, make(mm))
    }

    fn warp(&mut self, field: &str, what: &str, text: &str) -> Option<WarpLength> {
        let heard = self.read.length_or_zero(field, ready_sentence(what), text);
        let mm = self.take(heard)?;
        self.kept(field, WarpLength::from_mm(mm))
    }

    fn percent<T>(
        &mut self,
        (field, what, text): (&str, &str, &str),
        (least, most): (f64, f64),
        make: impl Fn(f64) -> Result<T, Refused>,
    ) -> Option<T> {
        let heard = self.read.number_between(field, ready_sentence(what), text, least, most, messages::unit_percent());
        let percent = self.take(heard)?;
        self.kept(field, make(percent))
    }

    fn density(&mut self, field: &str, what: &str, text: &str) -> Option<ThreadDensity> {
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
                let advice = format!("Write {what} as 40, 40/10, 4 per cm or 10 epi.");
                self.troubles.push(UserError::at(field, format!("{} {advice}", sentence(&error.to_string()))));
                None
            }
        }
    }

    fn count(&mut self, field: &str, text: &str) -> Option<YarnNumber> {
        if text.trim().is_empty() {
            return None;
        }
        match read::yarn_number(text, usual_system(self.read.format), self.read.format.mark()) {
            Ok(count) => Some(count),
            Err(error) => {
                let advice = "Write it as the label has it: 400 m/100 g, 8/2 cotton, Nm 2/28, 1700 yd/lb or 30 tex.";
                self.troubles.push(UserError::at(field, format!("{} {advice}", sentence(&error.to_string()))));
                None
            }
        }
    }

    /// A length of yarn, and whether it was given roughly.
    fn yarn_length(&mut self, field: &str, text: &str) -> Option<(Length, bool)> {
        // Bare lengths of yarn are metres or yards.
        let heard = self
            .read
            .roughly(text, |read, text| read.length("weft_length", ready_sentence("the length of yarn"), text));
        let heard = heard.map_err(|error| error.moved_to(field));
        let (mm, rough) = self.take(heard)?;
        self.kept(field, Length::from_mm(mm)).map(|length| (length, rough))
    }

    /// What there is of a yarn: its length, else its weight by its number.
    fn have(&mut self, end: &str, given: (&str, &str, &str), count: Option<YarnNumber>) -> Option<Have> {
        let (length_text, mass_text, sure) = given;
        let (have, mass) = (format!("{end}_have"), format!("{end}_mass"));
        let habits = Habits::default();
        let length = self.yarn_length(&have, length_text);
        let heard = self.read.roughly(mass_text, |read, text| read.mass(&mass, messages::the_yarn_mass(), text));
        let grams = self.take(heard);
        let known = |length, share, how| Have { length: Estimate::factor(length, share), how, rough: false };
        let roughly = |length| Have { rough: true, ..known(length, habits.guess_share, "roughly known") };
        if let Some((length, about)) = length {
            return Some(match sure {
                _ if about => roughly(length),
                "measured" => known(length, habits.tape_share, "measured"),
                "rough" => roughly(length),
                _ => known(length, habits.label_share, "by the label"),
            });
        }
        let (grams, about) = grams?;
        let weight = self.kept(&mass, Mass::from_g(grams))?;
        let Some(count) = count else {
            let field = if end == "warp" { "warp_count" } else { "weft_count" };
            self.troubles.push(UserError::at(
                field,
                "A weight alone tells no length. Give the yarn's number too, such as 400 m/100 g, or its length.",
            ));
            return None;
        };
        let by_label = self.kept(&mass, length_from_label(weight, count, &habits))?;
        Some(if about || sure == "rough" {
            roughly(by_label.likely)
        } else {
            Have { length: by_label, how: "by weight and label", rough: false }
        })
    }
}

/// The system a bare yarn number is read in: what ball bands say.
pub(super) fn usual_system(format: &DisplayFormat) -> YarnSystem {
    match format.units {
        Units::Metric => YarnSystem::MetresPer100g,
        Units::Imperial => YarnSystem::YardsPerPound,
    }
}

fn rows(ear: &mut Ear<'_>, field: &str, text: &str) -> Vec<String> {
    let rows: Vec<String> = text.lines().map(str::trim).filter(|row| !row.is_empty()).map(str::to_owned).collect();
    match crate::model::sequence::check_rows(&rows) {
        Ok(()) => rows,
        Err(message) => {
            ear.troubles.push(UserError::at(field, crate::present::messages::text(&message, ear.read.format)));
            Vec::new()
        }
    }
}

fn take_up(ear: &mut Ear<'_>, form: &PlanForm) -> Option<TakeUp> {
    let (what, no_unit) = (ready_sentence("the warp for 100 of cloth"), ready_sentence(""));
    let heard = ear.read.number_between("warp_per_100", what, &form.warp_per_100, 80.0, 200.0, no_unit);
    let known = ear.troubles.len();
    let per_100 = ear.take(heard);
    for trouble in &mut ear.troubles[known..] {
        trouble.sentence = trouble.sentence.replace("  ", " ");
    }
    let per_100 = per_100?;
    let warp = ear.kept("warp_per_100", WarpLength::from_cm(per_100))?;
    if form.take_up_of == "under_tension" {
        let cloth = Change::cloth_uses(fellmark_cloth::state::WovenLength::from_cm(100.0).ok()?, warp);
        ear.kept("warp_per_100", cloth).map(TakeUp::Tight)
    } else {
        let cloth = Change::cloth_uses(RelaxedLength::from_cm(100.0).ok()?, warp);
        ear.kept("warp_per_100", cloth).map(TakeUp::Relaxed)
    }
}

fn woven_sample(ear: &mut Ear<'_>, form: &PlanForm) -> OffTheLoom {
    OffTheLoom {
        wound: ear.length("sample_warp", "the sample's warp", &form.sample_warp, WarpLength::from_mm),
        // What is asked for is the warp in the sample alone.
        front: Some(WarpLength::ZERO),
        thrums: Some(WarpLength::ZERO),
        reed: ear.length("sample_reed", "the sample's width", &form.sample_reed, ReedWidth::from_mm),
        off_loom: ear.length("sample_length", "the sample's length", &form.sample_length, RelaxedLength::from_mm),
        off_loom_width: ear.length("sample_width", "the sample's width", &form.sample_width, RelaxedWidth::from_mm),
        finished: ear.length(
            "sample_length_washed",
            "the sample's length",
            &form.sample_length_washed,
            FinishedLength::from_mm,
        ),
        finished_width: ear.length(
            "sample_width_washed",
            "the sample's width",
            &form.sample_width_washed,
            FinishedWidth::from_mm,
        ),
        ..OffTheLoom::default()
    }
}

/// Reads the form; never fails.
pub(super) fn read_form(form: &PlanForm, format: &DisplayFormat, today: NaiveDate) -> Typed {
    let mut ear = Ear { read: Reader { format, today }, troubles: Vec::new() };
    let pieces = ear.read.whole_between("pieces", messages::the_number_of_pieces(), &form.pieces, 1, MOST_PIECES);
    let pieces = ear.take(pieces).and_then(|n| u32::try_from(n).ok()).unwrap_or(1);
    let heard = piece_lengths::read(&ear.read, "further", &ready_sentence("a further piece"), &form.further);
    let further = ear.take(heard.map(Some)).unwrap_or_default();
    let further = further.into_iter().filter_map(|mm| ear.kept("further", FinishedLength::from_mm(mm))).collect();
    let edge = match form.edge.as_str() {
        "fringe" => EdgeKind::Fringe,
        "hem" => EdgeKind::Hem,
        _ => EdgeKind::Plain,
    };
    let (weave, weave_word) = match form.weave.as_str() {
        "twill" => (Weave::TWILL_2_2, "2/2 twill"),
        "pick_up" => (Weave::PLAIN, "plain weave, as between the floats"),
        _ => (Weave::PLAIN, "plain weave"),
    };
    let (k, k_name) = match form.k.as_str() {
        "soft" => (AshenhurstK::SOFT, "0.84, for soft yarns"),
        "cotton" => (AshenhurstK::TAYLOR, "0.95, Taylor\u{2019}s for cotton"),
        _ => (AshenhurstK::USUAL, "0.9, the usual one"),
    };
    let warp_count = ear.count("warp_count", &form.warp_count);
    let weft_count = ear.count("weft_count", &form.weft_count);
    let warp_have = ear.have("warp", (&form.warp_have, &form.warp_mass, &form.warp_sure), warp_count);
    let weft_have = if form.one_yarn {
        None
    } else {
        ear.have("weft", (&form.weft_have, &form.weft_mass, &form.weft_sure), weft_count.or(warp_count))
    };
    let none = Stretch::default();
    let mut typed = Typed {
        from_yarn: form.way == "yarn",
        length: ear.length("length", "the length", &form.length, FinishedLength::from_mm),
        width: ear.length("width", "the width", &form.width, FinishedWidth::from_mm),
        pieces,
        further,
        edge,
        edge_mm: ear.length("edge_length", "the fringe or hem", &form.edge_length, Ok),
        fringe_from_waste: form.fringe_from_waste,
        sett: ear.density("sett", "the sett", &form.sett).map(EndsIn::new),
        wraps: ear.density("wraps", "the wraps", &form.wraps),
        weave: Some(weave),
        weave_word,
        k: Some(k),
        k_name,
        warp_count,
        weft_count,
        picks: ear.density("picks", "the picks", &form.picks).map(PicksIn::new),
        reed_width: ear.length("reed_width", "the width in the reed", &form.reed_width, ReedWidth::from_mm),
        rows: Rows {
            opening: rows(&mut ear, "opening", &form.opening),
            repeat: rows(&mut ear, "repeat", &form.repeat),
            balance: rows(&mut ear, "balance", &form.balance),
            closing: rows(&mut ear, "closing", &form.closing),
        },
        take_up: take_up(&mut ear, form),
        release: ear.percent(
            ("release_percent", "the loss of length off the loom", &form.release_percent),
            (-20.0, 50.0),
            Release::from_shrinkage_percent,
        ),
        wash: ear.percent(
            ("shrinkage_percent", "the shrinkage", &form.shrinkage_percent),
            (-20.0, 60.0),
            WashLength::from_shrinkage_percent,
        ),
        draw_in: ear.percent(
            ("draw_in_percent", "the draw-in", &form.draw_in_percent),
            (-20.0, 60.0),
            DrawIn::from_shrinkage_percent,
        ),
        width_wash: ear.percent(
            ("width_shrinkage_percent", "the loss of width", &form.width_shrinkage_percent),
            (-20.0, 60.0),
            Change::from_shrinkage_percent,
        ),
        allowance: ear.percent(
            ("weft_allowance_percent", "the allowance for a pick", &form.weft_allowance_percent),
            (-20.0, 100.0),
            Allowance::from_percent,
        ),
        waste: ear.warp("waste", "the loom waste", &form.waste),
        header: ear.warp("header", "the header", &form.header).map_or(none, Stretch),
        sample: ear.warp("sample", "the sample", &form.sample).map_or(none, Stretch),
        gap: ear.warp("gap", "the gap", &form.gap).map_or(none, Stretch),
        woven_sample: woven_sample(&mut ear, form),
        one_yarn: form.one_yarn,
        warp_have,
        weft_have,
        loom: ear.length("loom_width", "the loom\u{2019}s width", &form.loom_width, ReedWidth::from_mm),
        gift_on: {
            let heard = ear.read.day("gift_on", &form.gift_on);
            ear.take(heard)
        },
        days_a_week: {
            let heard = ear.read.number_between(
                "days_a_week",
                messages::the_days_a_week(),
                &form.days_a_week,
                0.1,
                7.0,
                messages::unit_days(),
            );
            ear.take(heard)
        },
        troubles: Vec::new(),
    };
    typed.troubles = ear.troubles;
    typed
}
