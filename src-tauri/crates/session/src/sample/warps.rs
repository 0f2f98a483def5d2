//! The invented warps.

use fellmark_present::view::{OffForm, WarpForm};

/// When the weaver sits down.
#[derive(Clone, Copy)]
pub enum Rhythm {
    /// Most evenings.
    Evenings,
    /// Every few days.
    NowAndThen,
    /// Some days in a row, then a pause.
    Bursts,
}

/// State of a sample warp.
pub enum SampleState {
    /// Being woven.
    OnTheLoom,
    /// Resting since so many days before today.
    Resting(u64),
    /// Cut off, with what was measured.
    Off(Box<OffForm>),
}

/// One invented warp.
pub struct SampleWarp {
    /// As planned.
    pub form: WarpForm,
    /// Days before today of its last sitting.
    pub last: u64,
    /// Its state.
    pub state: SampleState,
    /// Finishing steps that are still to do.
    pub steps_to_do: usize,
    /// Days from today to the day of the gift.
    pub gift_in: Option<i64>,
    /// Cloth woven in all, under tension.
    pub woven_mm: f64,
    /// As it was beaten.
    pub picks_per_mm: f64,
    /// At the loom.
    pub picks_per_hour: f64,
    /// How much the pace changes from first to last pick, as a share.
    pub drift: f64,
    /// Minutes of a sitting.
    pub minutes: f64,
    /// When the weaver sits down.
    pub rhythm: Rhythm,
    /// A tape every so many sittings.
    pub measured_each: usize,
    /// Weft at the start and at the end of what is woven, grams.
    pub weft_g: Option<(f64, f64)>,
    /// Notes by index of the sitting.
    pub notes: &'static [(usize, &'static str)],
    /// Sittings with a photo.
    pub pictured: &'static [usize],
}

/// What a warp is planned as: name, wound, wanted, pieces, picks per 10 cm, width in the reed.
fn plan(name: &str, wound: &str, wanted: &str, pieces: u32, picks: &str, reed: &str) -> WarpForm {
    WarpForm {
        name: format!("{name} (invented)"),
        wound: wound.into(),
        waste: "48 cm".into(),
        wanted: wanted.into(),
        shrinkage_percent: "8".into(),
        pieces: pieces.to_string(),
        picks: picks.into(),
        warp_per_100: "109".into(),
        reed_width: reed.into(),
        weave: "plain".into(),
        ..WarpForm::default()
    }
}

/// Front, thrums, off the loom, width off the loom, finished, finished width, all in centimetres, and the weight in grams.
fn off(measures: [f64; 7]) -> SampleState {
    let [front, thrums, off_loom, off_loom_width, finished, finished_width, mass] = measures;
    let cm = |cm: f64| format!("{cm} cm");
    SampleState::Off(Box::new(OffForm {
        front: cm(front),
        thrums: cm(thrums),
        off_loom: cm(off_loom),
        off_loom_width: cm(off_loom_width),
        finished: cm(finished),
        finished_width: cm(finished_width),
        finished_mass: format!("{mass} g"),
        ..OffForm::default()
    }))
}

fn warp(
    form: WarpForm,
    last: u64,
    state: SampleState,
    woven_mm: f64,
    picks_per_mm: f64,
    picks_per_hour: f64,
) -> SampleWarp {
    SampleWarp {
        form,
        last,
        state,
        steps_to_do: 0,
        gift_in: None,
        woven_mm,
        picks_per_mm,
        picks_per_hour,
        drift: 0.0,
        minutes: 45.0,
        rhythm: Rhythm::NowAndThen,
        measured_each: 3,
        weft_g: None,
        notes: &[],
        pictured: &[],
    }
}

/// A dozen, the oldest first.
pub fn sample_warps() -> Vec<SampleWarp> {
    let mut all = first_year();
    all.extend(second_year());
    all
}

fn first_year() -> Vec<SampleWarp> {
    vec![
        SampleWarp {
            minutes: 35.0,
            drift: 0.35,
            notes: &[(0, "The very first picks. Edges all over the place."), (4, "It begins to look like cloth.")],
            ..warp(
                plan("First sampler", "150 cm", "75 cm", 1, "34", "20 cm"),
                690,
                off([17.0, 31.0, 82.0, 17.5, 76.5, 16.5, 48.0]),
                880.0,
                0.33,
                88.0,
            )
        },
        SampleWarp {
            notes: &[(6, "Changed to the second ball; the join lies in the edge.")],
            weft_g: Some((150.0, 21.0)),
            ..warp(
                WarpForm {
                    weft_name: "grey two-ply (invented)".into(),
                    weft_mass: "150 g".into(),
                    fringe: "10 cm".into(),
                    fringe_from_waste: true,
                    ..plan("Grey muffler", "255 cm", "160 cm", 1, "36", "26 cm")
                },
                630,
                off([19.0, 32.0, 171.0, 23.5, 159.0, 21.5, 176.0]),
                1800.0,
                0.362,
                112.0,
            )
        },
        SampleWarp {
            rhythm: Rhythm::Bursts,
            drift: -0.12,
            ..warp(
                plan("Two kitchen towels", "230 cm", "60 cm", 2, "48", "40 cm"),
                560,
                off([16.0, 30.0, 149.0, 36.0, 129.0, 33.5, 205.0]),
                1560.0,
                0.49,
                118.0,
            )
        },
        SampleWarp {
            minutes: 40.0,
            gift_in: Some(-495),
            ..warp(
                WarpForm { for_child: true, ..plan("Cowl for a small niece", "140 cm", "62 cm", 1, "38", "18 cm") },
                505,
                off([17.0, 30.0, 69.0, 16.0, 63.0, 14.5, 41.0]),
                730.0,
                0.385,
                128.0,
            )
        },
        SampleWarp {
            minutes: 60.0,
            drift: -0.1,
            pictured: &[4, 9],
            notes: &[(2, "Linen wants a damp cloth over the shuttle."), (8, "Half way.")],
            weft_g: Some((190.0, 36.0)),
            ..warp(
                WarpForm {
                    weft_name: "natural linen (invented)".into(),
                    weft_mass: "190 g".into(),
                    shrinkage_percent: "5".into(),
                    ..plan("Runner in linen", "270 cm", "175 cm", 1, "52", "34 cm")
                },
                430,
                off([18.0, 33.0, 184.5, 32.0, 177.0, 31.0, 232.0]),
                1880.0,
                0.53,
                138.0,
            )
        },
        SampleWarp {
            rhythm: Rhythm::Evenings,
            minutes: 55.0,
            pictured: &[2],
            notes: &[(5, "Counted one mat short; the tape knew better.")],
            ..warp(
                plan("Six place mats", "375 cm", "40 cm", 6, "42", "36 cm"),
                350,
                off([17.0, 32.0, 261.0, 33.0, 242.0, 31.0, 318.0]),
                2700.0,
                0.42,
                151.0,
            )
        },
        SampleWarp {
            minutes: 50.0,
            drift: 0.18,
            pictured: &[3],
            notes: &[(3, "Lace rows: the stick tilts if it comes too near the heddle.")],
            ..warp(
                WarpForm {
                    weave: "pick_up".into(),
                    repeat: "up\nstick\nup\nstick\nup\ndown".into(),
                    opening: "up\ndown\nup\ndown".into(),
                    fringe: "12 cm".into(),
                    ..plan("Shawl with lace bands", "280 cm", "165 cm", 1, "34", "48 cm")
                },
                275,
                off([31.0, 44.0, 172.0, 44.0, 160.0, 41.0, 210.0]),
                1820.0,
                0.345,
                76.0,
            )
        },
    ]
}

fn second_year() -> Vec<SampleWarp> {
    vec![
        SampleWarp {
            rhythm: Rhythm::Evenings,
            minutes: 65.0,
            drift: -0.22,
            pictured: &[6, 19],
            notes: &[(12, "It will not end."), (20, "The last metre went by itself.")],
            ..warp(
                plan("Long blanket strip", "460 cm", "330 cm", 1, "28", "60 cm"),
                185,
                off([18.0, 34.0, 358.0, 54.0, 321.0, 48.5, 690.0]),
                3760.0,
                0.284,
                104.0,
            )
        },
        SampleWarp {
            minutes: 42.0,
            notes: &[(2, "Beat a little lighter than usual.")],
            ..warp(
                plan("Rust cowl", "170 cm", "90 cm", 1, "36", "24 cm"),
                139,
                off([16.0, 31.0, 99.0, 21.5, 91.0, 20.0, 82.0]),
                1040.0,
                0.362,
                146.0,
            )
        },
        SampleWarp {
            rhythm: Rhythm::NowAndThen,
            minutes: 50.0,
            steps_to_do: 2,
            notes: &[(9, "Second towel done; the hems are counted in.")],
            ..warp(
                WarpForm {
                    shrinkage_percent: "12".into(),
                    ..plan("Four kitchen towels", "385 cm", "62 cm", 4, "48", "38 cm")
                },
                9,
                off([17.0, 33.0, 286.0, 34.5, 251.0, 31.5, 412.0]),
                3010.0,
                0.485,
                162.0,
            )
        },
        SampleWarp {
            notes: &[(4, "Resting until the second bag of fleece is spun.")],
            ..warp(
                plan("Blanket in two strips", "420 cm", "150 cm", 2, "28", "60 cm"),
                44,
                SampleState::Resting(40),
                930.0,
                0.281,
                112.0,
            )
        },
        SampleWarp {
            gift_in: Some(24),
            minutes: 46.0,
            rhythm: Rhythm::NowAndThen,
            measured_each: 2,
            weft_g: Some((96.0, 42.0)),
            notes: &[(1, "Float edge pulls in a little; leave the turn loose.")],
            pictured: &[1, 4, 6],
            ..warp(
                WarpForm {
                    fringe: "8 cm".into(),
                    fringe_from_waste: true,
                    weft_name: "walnut-dyed handspun (invented)".into(),
                    weft_mass: "96 g".into(),
                    weave: "pick_up".into(),
                    opening: "up\ndown\nup\ndown".into(),
                    repeat: "up\nstick\nup\ndown".into(),
                    closing: "down\nup\ndown\nup".into(),
                    ..plan("Moss and walnut scarf", "260 cm", "170 cm", 1, "36", "24 cm")
                },
                2,
                SampleState::OnTheLoom,
                1185.0,
                0.368,
                82.0,
            )
        },
    ]
}
