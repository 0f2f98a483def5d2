//! An invented example to play with: a weaver who does not exist, her warps and sittings. The same for the same day.

use chrono::{Days, NaiveDate};
use fellmark_journal::{Journal, RecordId};

use crate::manner::Manner;
use crate::pen::Pen;
use crate::view::{SittingForm, Trouble, WarpForm, WarpState};

/// One invented warp.
struct Invented {
    name: &'static str,
    /// Days before today on which it was begun and, if it is, cut off.
    begun: u64,
    cut_off: Option<u64>,
    form: WarpForm,
    /// Each sitting: days before today, minutes, picks, length from the start in millimetres.
    sittings: Vec<(u64, u32, i64, Option<u32>)>,
    /// Weighings of the weft: index of the sitting and grams left.
    weighed: &'static [(usize, &'static str)],
    notes: &'static [(usize, &'static str)],
}

fn text(value: &str) -> String {
    value.to_owned()
}

fn scarf(name: &str) -> WarpForm {
    WarpForm {
        name: text(name),
        wound: text("260 cm"),
        waste: text("48 cm"),
        wanted: text("165 cm"),
        shrinkage_percent: text("8"),
        picks: text("36"),
        warp_per_100: text("109"),
        reed_width: text("24 cm"),
        weave: text("plain"),
        ..WarpForm::default()
    }
}

fn invented() -> Vec<Invented> {
    let floats = WarpForm {
        wanted: text("170 cm"),
        fringe: text("8 cm"),
        fringe_from_waste: true,
        weft_name: text("walnut-dyed handspun (invented)"),
        weft_mass: text("96 g"),
        weave: text("pick_up"),
        opening: text("up\ndown\nup\ndown"),
        repeat: text("up\nstick\nup\ndown"),
        closing: text("down\nup\ndown\nup"),
        ..scarf("Moss and walnut scarf (invented)")
    };
    let towels = WarpForm {
        wound: text("385 cm"),
        wanted: text("62 cm"),
        pieces: text("4"),
        shrinkage_percent: text("12"),
        picks: text("48"),
        reed_width: text("38 cm"),
        ..scarf("Four kitchen towels (invented)")
    };
    let blanket = WarpForm {
        wound: text("420 cm"),
        wanted: text("150 cm"),
        pieces: text("2"),
        picks: text("28"),
        reed_width: text("60 cm"),
        ..scarf("Blanket in two strips (invented)")
    };
    let cowl = WarpForm { wound: text("170 cm"), wanted: text("90 cm"), ..scarf("Rust cowl (invented)") };
    vec![
        Invented {
            name: "cowl",
            begun: 160,
            cut_off: Some(139),
            form: cowl,
            sittings: steps(&[160, 157, 152, 150, 146, 143, 140], 352, 976, 3),
            weighed: &[],
            notes: &[(2, "Beat a little lighter than usual.")],
        },
        Invented {
            name: "towels",
            begun: 128,
            cut_off: Some(62),
            form: towels,
            sittings: steps(
                &[128, 126, 121, 119, 117, 112, 110, 107, 103, 100, 96, 94, 89, 87, 82, 80, 75, 73, 69, 66, 63],
                1352,
                2818,
                4,
            ),
            weighed: &[],
            notes: &[(9, "Second towel done; the hems are counted in.")],
        },
        Invented {
            name: "blanket",
            begun: 58,
            cut_off: None,
            form: blanket,
            sittings: steps(&[58, 55, 51, 49, 44], 260, 930, 2),
            weighed: &[],
            notes: &[(4, "Resting until the second bag of fleece is spun.")],
        },
        Invented {
            name: "scarf",
            begun: 19,
            cut_off: None,
            form: floats,
            sittings: steps(&[19, 17, 14, 12, 9, 6, 5, 2], 436, 1183, 2),
            weighed: &[(3, "71 g"), (7, "42 g")],
            notes: &[(1, "Float edge pulls in a little; leave the turn loose."), (7, "Stopped after the down pick.")],
        },
    ]
}

/// Sittings on these days that together come to so many picks and so much cloth, measured every `each` sittings and at the end.
fn steps(days: &[u64], picks: i64, woven_mm: u32, each: usize) -> Vec<(u64, u32, i64, Option<u32>)> {
    // Uneven shares, the same every time.
    const SHARES: [i64; 7] = [9, 12, 7, 11, 14, 8, 10];
    let shares: Vec<i64> = (0..days.len()).map(|i| SHARES[i % SHARES.len()]).collect();
    let all: i64 = shares.iter().sum();
    let mut so_far = 0;
    let mut given = 0;
    let mut sittings = Vec::new();
    for (i, (day, share)) in days.iter().zip(&shares).enumerate() {
        so_far += share;
        let upto = picks * so_far / all;
        let these = upto - given;
        given = upto;
        let last = i + 1 == days.len();
        let measured = (last || (i + 1) % each == 0).then(|| {
            let wobble = [3_i64, -4, 2, -2][i % 4];
            let even = i64::from(woven_mm) * so_far / all;
            u32::try_from((even + if last { 0 } else { wobble }).max(1)).unwrap_or(woven_mm)
        });
        let minutes = u32::try_from(these * 8 / 10 + 6 + (i as i64 % 3) * 4).unwrap_or(40);
        sittings.push((*day, minutes, these, measured));
    }
    sittings
}

/// Fills an empty journal with the invented example, as if today were `today`.
///
/// # Errors
/// It could not be written.
pub fn fill(journal: &mut Journal, today: NaiveDate) -> Result<(), Trouble> {
    let manner = Manner::default();
    Pen { journal, manner, today }.mark_as_example()?;
    for warp in invented() {
        let on = |days: u64| today.checked_sub_days(Days::new(days)).unwrap_or(today);
        let mut form = warp.form.clone();
        form.begun_on = on(warp.begun).to_string();
        if warp.name == "scarf" {
            form.gift_on = today.checked_add_days(Days::new(24)).unwrap_or(today).to_string();
        }
        let id = Pen { journal, manner, today: on(warp.begun) }.begin_warp(&form)?;
        for (index, (days, minutes, picks, measured)) in warp.sittings.iter().enumerate() {
            let weighed = warp.weighed.iter().find(|(at, _)| *at == index).map(|(_, grams)| text(grams));
            let note = warp.notes.iter().find(|(at, _)| *at == index).map(|(_, note)| text(note));
            let sitting = SittingForm {
                on: on(*days).to_string(),
                started: text("19:40"),
                minutes: minutes.to_string(),
                picks: picks.to_string(),
                measured: measured.map(|mm| format!("{mm} mm")).unwrap_or_default(),
                weft_left: weighed.unwrap_or_default(),
                note: note.unwrap_or_default(),
                ..SittingForm::default()
            };
            let sitting = Pen { journal, manner, today: on(*days) }.log_sitting(&id, &sitting, None)?;
            if warp.name == "scarf" && index % 3 == 1 {
                picture_of(journal, &sitting, index, today)?;
            }
        }
        if let Some(days) = warp.cut_off {
            Pen { journal, manner, today: on(days) }.set_state(&id, WarpState::OffTheLoom)?;
        }
        if warp.name == "blanket" {
            Pen { journal, manner, today: on(40) }.set_state(&id, WarpState::Resting)?;
        }
    }
    Ok(())
}

/// A drawn picture of cloth, so that the example shows where photos go without showing anybody's.
fn picture_of(journal: &mut Journal, sitting: &RecordId, index: usize, today: NaiveDate) -> Result<(), Trouble> {
    const WIDE: u32 = 640;
    const HIGH: u32 = 420;
    let tint = (index as u32 * 23) % 60;
    let drawn = image::RgbImage::from_fn(WIDE, HIGH, |x, y| {
        let (end, pick) = (x / 10, y / 10);
        let (in_end, in_pick) = (x % 10, y % 10);
        let floats = pick % 4 == 1 && end % 4 != 0;
        let weft_up = floats || (end + pick) % 2 == 0;
        let edge = if weft_up { in_pick.min(9 - in_pick) } else { in_end.min(9 - in_end) };
        let light = 150 + edge * 14;
        let shade = |part: u32| u8::try_from((light * part / 255).min(255)).unwrap_or(255);
        if weft_up {
            image::Rgb([shade(176 - tint / 2), shade(122), shade(78 + tint / 3)])
        } else {
            image::Rgb([shade(118), shade(146 - tint / 2), shade(112)])
        }
    });
    let mut bytes = std::io::Cursor::new(Vec::new());
    drawn
        .write_to(&mut bytes, image::ImageFormat::Png)
        .map_err(|error| Trouble::new(format!("The example's picture could not be made: {error}.")))?;
    Pen { journal, manner: Manner::default(), today }.add_photo(sitting, bytes.get_ref())?;
    Ok(())
}
