//! When it will be done, read as a weaver reads it: sentences that agree with each other and with the picture, and advice that can
//! be followed.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

use chrono::NaiveDate;
use fellmark_journal::{Journal, Options, RecordId};
use fellmark_model::commands::Commands;
use fellmark_model::display_format::DisplayFormat;
use fellmark_present::figures::loose;
use fellmark_present::overview;
use fellmark_present::plan;
use fellmark_present::view::{LoomView, OffForm, PlanForm, SittingForm, WarpForm, WarpState};
use tempfile::TempDir;

const TODAY: &str = "2026-11-28";

fn day(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

/// One warp in a folder of its own.
struct Room {
    _place: TempDir,
    journal: Journal,
    warp: RecordId,
}

impl Room {
    fn new(form: &WarpForm) -> Self {
        let place = tempfile::tempdir().unwrap();
        std::fs::create_dir(place.path().join("folder")).unwrap();
        let options = Options::new(place.path().join("folder"), place.path().join("local"), "laptop").create();
        let mut journal = Journal::open(options).unwrap();
        let begun = WarpForm { begun_on: "2026-10-01".into(), ..form.clone() };
        let warp = commands(&mut journal).begin_warp(&begun).unwrap();
        Self { journal, warp, _place: place }
    }

    fn log(&mut self, form: SittingForm) {
        let warp = self.warp.clone();
        // A sitting dated after today is refused where it is typed; it comes from a device whose clock was wrong.
        let mut commands = commands(&mut self.journal);
        commands.today = day("2027-12-31");
        commands.log_sitting(&warp, &form, None).unwrap();
    }

    /// The same sitting on each of these days of November.
    fn woven(&mut self, days: &[u32], minutes: &str, picks: &str) {
        for day in days {
            self.log(SittingForm {
                on: format!("2026-11-{day:02}"),
                minutes: minutes.into(),
                picks: picks.into(),
                ..SittingForm::default()
            });
        }
    }

    fn change(&mut self, change: impl FnOnce(&mut WarpForm)) {
        let (warp, mut form) = (self.warp.clone(), self.look().form);
        change(&mut form);
        commands(&mut self.journal).change_warp(&warp, &form, &[]).unwrap();
    }

    fn look(&self) -> LoomView {
        overview::warp_view(&self.journal, &self.warp, 0, &DisplayFormat::default(), day(TODAY)).unwrap()
    }

    fn more(&self) -> String {
        loose(&self.look().finish_date.more.join(" "))
    }

    fn why(&self) -> String {
        loose(&self.look().finish_date.why.join(" "))
    }

    /// What would make the gift day.
    fn ways(&self) -> Vec<String> {
        let all = self.look().finish_date.more;
        let ways = all.iter().find_map(|line| line.strip_prefix("To be four times in five in time: "));
        let ways = loose(ways.unwrap_or_default().trim_end_matches('.'));
        ways.split("; or ").map(str::to_owned).collect()
    }

    /// The first gift day, of more and more distant ones, that would be made in such a way, and that way.
    fn way(&mut self, words: &str) -> String {
        let mut seen = Vec::new();
        for days in (3..200).step_by(2) {
            self.change(|form| form.gift_on = (day(TODAY) + chrono::Duration::days(days)).to_string());
            let ways = self.ways();
            if let Some(way) = ways.iter().find(|way| way.contains(words)) {
                return way.clone();
            }
            seen.extend(ways);
        }
        panic!("no {words}: {seen:?}")
    }
}

fn commands(journal: &mut Journal) -> Commands<'_> {
    Commands { journal, format: DisplayFormat::default(), today: day(TODAY) }
}

/// 180 cm at 40 picks to 10 cm: 720 picks.
fn scarf() -> WarpForm {
    WarpForm {
        name: "Scarf".into(),
        wound: "250 cm".into(),
        waste: "45 cm".into(),
        wanted: "180 cm".into(),
        picks: "40".into(),
        ..WarpForm::default()
    }
}

const NOVEMBER: [u32; 6] = [2, 5, 9, 14, 18, 22];

#[test]
fn the_sum_of_what_is_left_can_be_done_again_by_hand() {
    let mut room = Room::new(&scarf());
    room.woven(&[10, 12, 15, 19], "45", "62");
    room.woven(&[20], "5", "2");
    // To whole centimetres it would read 118 x 4 = 470.
    assert!(room.why().contains("117.5 cm to weave \u{d7} 40 picks per 10 cm = 470 picks."), "{}", room.why());
    // More than is wanted leaves nothing to calculate.
    room.woven(&[24], "90", "490");
    let view = room.look();
    assert!(view.finish_date.headline.starts_with("Ready to cut off"), "{}", view.finish_date.headline);
    assert!(!room.why().contains("to weave"), "{}", room.why());
}

#[test]
fn the_picture_of_the_days_agrees_with_the_cloth() {
    let agrees = |room: &Room| {
        let view = room.look();
        let share = view.figures.woven_mm / view.figures.wanted_mm;
        let days = view.days.unwrap();
        let now = days.woven.last().map_or(0.0, |point| point.share);
        assert!((now - share).abs() < 1e-9, "{now} is drawn, {share} is woven");
        assert!(days.text.starts_with(&format!("{:.0} per cent", share * 100.0)), "{}", days.text);
        assert!(days.fan.iter().all(|point| point.low >= share - 1e-9 && point.high <= 1.0), "{:?}", days.fan);
        assert!((days.fan.last().unwrap().high - 1.0).abs() < 1e-9);
    };
    let mut usual = Room::new(&scarf());
    usual.woven(&NOVEMBER, "40", "60");
    agrees(&usual);
    // What is dated after today is woven all the same.
    let mut future = Room::new(&scarf());
    future.woven(&[20], "45", "60");
    future.log(SittingForm { on: "2026-12-22".into(), picks: "60".into(), ..SittingForm::default() });
    agrees(&future);
    assert!(future.more().contains("left out of your pace"), "{}", future.more());
    let mut only_future = Room::new(&scarf());
    only_future.log(SittingForm { on: "2026-12-22".into(), picks: "60".into(), ..SittingForm::default() });
    assert!(only_future.look().days.is_none(), "nothing is known of the pace");
    assert!(only_future.more().contains("is the date right?"), "{}", only_future.more());
    assert!(!only_future.why().contains("othing woven"), "15 cm are woven: {}", only_future.why());
    // So is what is woven in the running sitting, and what was woven before stays where it is drawn.
    let before = usual.look().days.unwrap().woven;
    let running = overview::warp_view(&usual.journal, &usual.warp, 90, &DisplayFormat::default(), day(TODAY)).unwrap();
    let points = running.days.unwrap().woven;
    for (point, was) in points.iter().zip(&before) {
        assert!(point.day == was.day && (point.share - was.share).abs() < 1e-9, "{points:?} {before:?}");
    }
    assert!(points.last().is_some_and(|now| now.day == 26 && (now.share - 450.0 / 720.0).abs() < 1e-9), "{points:?}");
    // A sitting of which nothing but the time is known is guessed for the pace, and is no cloth.
    let mut unstated = Room::new(&scarf());
    unstated.woven(&[12], "540", "");
    agrees(&unstated);
}

#[test]
fn a_shorter_piece_is_one_that_is_still_to_be_woven() {
    let towels = WarpForm { pieces: "4".into(), wanted: "40 cm".into(), wound: "260 cm".into(), ..scarf() };
    let mut room = Room::new(&towels);
    // Two towels, and a little of the third.
    room.woven(&[7, 10, 13, 16, 19, 22, 25], "40", "50");
    let way = room.way("each of the two pieces still to be woven");
    let shorter = way.strip_prefix("each of the two pieces still to be woven ").unwrap();
    let cm: f64 = shorter.strip_suffix(" cm shorter").unwrap().parse().unwrap();
    room.change(|form| {
        form.pieces.clear();
        form.wanted = format!("40, 40, {0}, {0} cm", 40.0 - cm);
    });
    let chance = room.look().figures.gift_chance.unwrap();
    assert!((chance - 0.8).abs() < 0.02, "{chance}");
}

#[test]
fn pieces_still_to_be_woven_show_how_long_they_could_be() {
    let towels = WarpForm { pieces: "4".into(), wanted: "40 cm".into(), wound: "220 cm".into(), ..scarf() };
    let mut room = Room::new(&towels);
    room.woven(&[7, 10, 13, 16, 19, 22, 25], "40", "50");
    let more = loose(&room.look().warp_reach.more.join("\n"));
    let line = more.lines().find(|line| line.starts_with("For a 90% chance: ")).unwrap_or_else(|| panic!("{more}"));
    assert!(line.ends_with(" finished for each of the 2 pieces still to weave."), "{line}");
}

#[test]
fn no_piece_that_is_woven_is_left_out() {
    let towels = WarpForm { pieces: "4".into(), wanted: "60 cm".into(), picks: "60".into(), ..scarf() };
    let mut room = Room::new(&WarpForm { wound: "400 cm".into(), gift_on: "2026-12-14".into(), ..towels });
    room.woven(&[2, 5, 9, 14, 18, 22, 25], "60", "90");
    // 105 cm are woven: three pieces fewer would leave one of 60.
    assert!(!room.more().contains("three pieces fewer"), "{}", room.more());
}

#[test]
fn what_is_advised_can_be_followed() {
    // No day to weave on before the gift day, only some to finish: what is woven is all there will be.
    let away = WarpForm {
        gift_on: "2026-12-10".into(),
        weaving_days: "weekends".into(),
        away_from: TODAY.into(),
        away_until: "2026-12-06".into(),
        ..scarf()
    };
    let mut room = Room::new(&away);
    room.woven(&[7, 8, 14, 15, 21, 22], "60", "70");
    assert_eq!(room.ways(), ["ending it where it is, 75 cm shorter"]);
    // On two days a week no one weaves three.
    room.change(|form| {
        form.away_from.clear();
        form.away_until.clear();
    });
    for days in (3..120).step_by(4) {
        room.change(|form| form.gift_on = (day(TODAY) + chrono::Duration::days(days)).to_string());
        for way in room.ways().iter().filter(|way| way.contains("days a week")) {
            assert!(way.starts_with("2 days a week"), "{way}");
        }
    }
    room.change(|form| form.weaving_days.clear());
    room.way(" days a week instead of ");
}

#[test]
fn advice_is_no_finer_than_a_weaver_can_follow() {
    let mut room = Room::new(&scarf());
    room.woven(&NOVEMBER, "37", "60");
    let number = |text: &str| text.split(' ').next().unwrap().parse::<f64>().unwrap();
    let minutes = room.way(" minutes a time");
    let (more, usual) = minutes.split_once(" minutes a time instead of some ").unwrap();
    assert!(number(more) % 5.0 == 0.0 && number(usual) % 5.0 == 0.0 && number(more) > number(usual), "{minutes}");
    let week = room.way(" days a week instead of ");
    let (more, usual) = week.split_once(" days a week instead of ").unwrap();
    assert!(number(more) * 2.0 % 1.0 == 0.0 && number(more) > number(usual), "{week}");

    // Without minutes, the same in picks.
    let mut untimed = Room::new(&scarf());
    untimed.woven(&NOVEMBER, "", "60");
    untimed.way(" picks a time instead of some ");

    // Less than once a week is stated in days from one to the next.
    let mut seldom = Room::new(&scarf());
    for on in ["2026-01-10", "2026-01-12", "2026-05-20", "2026-05-21", "2026-09-30", "2026-11-25"] {
        seldom.log(SittingForm { on: on.into(), minutes: "40".into(), picks: "60".into(), ..SittingForm::default() });
    }
    let way = seldom.way(" days instead of every ");
    assert!(way.starts_with("a sitting every "), "{way}");
}

#[test]
fn often_and_seldom_each_have_their_own_words() {
    let mut room = Room::new(&scarf());
    for on in ["2026-08-10", "2026-08-22", "2026-09-09", "2026-09-30", "2026-10-15", "2026-11-05", "2026-11-25"] {
        room.log(SittingForm { on: on.into(), picks: "70".into(), ..SittingForm::default() });
    }
    let way = room.way(" days a week instead of ");
    let (_, usual) = way.split_once(" instead of ").unwrap();
    assert!(usual.starts_with("a sitting every ") && usual.ends_with(" days"), "{way}");
}

#[test]
fn a_warp_of_which_only_lengths_are_known_has_a_date_in_lengths() {
    let tape = |picks: &str| {
        let mut room = Room::new(&WarpForm { picks: picks.into(), gift_on: "2026-12-24".into(), ..scarf() });
        for (nth, on) in (1..).zip(NOVEMBER) {
            room.log(SittingForm {
                on: format!("2026-11-{on:02}"),
                measured: format!("{} cm", 15 * nth),
                ..SittingForm::default()
            });
        }
        room
    };
    let (lengths, picks) = (tape(""), tape("30"));
    // It is the same cloth on the same days, whatever it is counted in.
    let figures = lengths.look().figures;
    let likely = day(figures.finished_likely.as_deref().unwrap());
    let with_picks = day(picks.look().figures.finished_likely.as_deref().unwrap());
    assert!((likely - with_picks).num_days().abs() <= 1, "{likely} {with_picks}");
    let why = lengths.why();
    assert!(why.contains("; 90 cm are "), "{why}");
    assert!(!why.contains(" picks a time") && !lengths.ways().join(" ").contains("picks"), "{why}");
    assert!(lengths.look().days.is_some());
}

/// What stands for picks where none are known is never shown.
#[test]
fn lengths_are_shown_as_lengths_also_where_something_is_noticed() {
    let borders = WarpForm { opening: vec!["up"; 60].join("\n"), repeat: "up\nstick\nup\ndown".into(), ..scarf() };
    let mut room = Room::new(&WarpForm { picks: String::new(), ..borders });
    for (nth, on) in (1..).zip(NOVEMBER) {
        room.log(SittingForm {
            on: format!("2026-11-{on:02}"),
            measured: format!("{} cm", 25 * nth),
            minutes: if nth == 5 { "1" } else { "40" }.into(),
            ..SittingForm::default()
        });
    }
    let all = room.more() + &room.why();
    assert!(all.contains("25 cm in 1 min on 18 November?"), "{all}");
    assert!(!all.contains(" picks in ") && !all.contains("picks an hour"), "{all}");
}

#[test]
fn no_pace_is_spoken_of_where_only_finishing_is_left() {
    let mut room = Room::new(&WarpForm { gift_on: TODAY.into(), ..scarf() });
    room.woven(&NOVEMBER, "60", "120");
    assert!(room.more().contains("hardly be finished for today"), "{}", room.more());
    assert!(!room.more().contains("pace"), "{}", room.more());
}

#[test]
fn what_is_off_the_loom_is_not_ready_to_cut_off() {
    let mut room = Room::new(&scarf());
    room.woven(&NOVEMBER, "60", "120");
    let more = loose(&room.look().progress.more.join(" "));
    assert!(more.contains("measure before you cut"), "counted and never measured: {more}");
    let warp = room.warp.clone();
    commands(&mut room.journal)
        .cut_off(&warp, &OffForm { on: "2026-11-26".into(), ..OffForm::default() }, &[])
        .unwrap();
    let view = room.look();
    assert_eq!(loose(&view.progress.headline), "All 180 cm woven.");
    let still = "Still to do: mend, hem, wash, dry, press and trim tails. Most often two days, by common practice;";
    assert!(room.why().contains(still), "{}", room.why());
    assert!(!room.why().contains("After the last pick"), "{}", room.why());
}

#[test]
fn a_day_that_is_nearly_sure_is_no_span() {
    let mut room = Room::new(&scarf());
    room.woven(&NOVEMBER, "60", "120");
    let warp = room.warp.clone();
    commands(&mut room.journal)
        .cut_off(&warp, &OffForm { on: "2026-11-26".into(), ..OffForm::default() }, &[])
        .unwrap();
    for step in room.look().off.steps.into_iter().filter(|step| step.name != "Dry") {
        commands(&mut room.journal).tick_step(&warp, &step.id.parse().unwrap(), Some("2026-11-27")).unwrap();
    }
    let view = room.look();
    assert_eq!(loose(&view.finish_date.headline), "Off the loom; likely finished tomorrow.");
    assert_eq!(view.days.unwrap().text, "100 per cent woven by today; finished 29 November, nearly surely.");
}

#[test]
fn one_sitting_is_one_sitting_and_what_she_says_of_her_week_comes_back() {
    let mut room = Room::new(&WarpForm { days_a_week: "3".into(), ..scarf() });
    room.woven(&[21], "40", "60");
    let why = loose(&room.look().progress.why.join(" "));
    assert!(why.contains("At the loom: 40 min in 1 sitting."), "{why}");
    assert!(room.why().contains("As you entered: weaving days a week: about 3."), "{}", room.why());
}

#[test]
fn a_warp_that_rests_shows_the_gift_day_as_if_it_were_taken_up_today() {
    let mut room = Room::new(&WarpForm { gift_on: "2026-12-20".into(), ..scarf() });
    room.woven(&[2, 5, 9, 14], "60", "80");
    let warp = room.warp.clone();
    commands(&mut room.journal).set_warp_state(&warp, WarpState::Resting).unwrap();
    assert!(room.more().contains("Then, finished by Sunday 20 December: "), "{}", room.more());
    // A day ten years ahead is no day to tell.
    room.change(|form| form.wanted = "90 m".into());
    assert!(room.more().contains("not be done within three years"), "{}", room.more());
    assert!(!room.why().contains("203"), "{}", room.why());
}

#[test]
fn each_kind_of_section_names_its_pace() {
    let mut room =
        Room::new(&WarpForm { opening: vec!["up"; 60].join("\n"), repeat: "up\nstick\nup\ndown".into(), ..scarf() });
    room.woven(&[7], "30", "60");
    room.woven(&[8, 14, 15], "60", "60");
    let why = room.why();
    assert!(why.contains("a pace of its own: plain weave at some "), "{why}");
    assert!(why.contains("pick-up at some 60 picks an hour (3 sittings)"), "{why}");
}

/// A shorter piece is as likely to reach as is said, and is no shorter for having been woven in part.
#[test]
fn the_piece_that_would_reach_reaches_nine_times_in_ten() {
    let advised = |room: &Room| {
        let more = loose(&room.look().warp_reach.more.join("\n"));
        let line = more.lines().find(|line| line.starts_with("For a 90% chance: ")).unwrap_or_else(|| panic!("{more}"));
        line.strip_prefix("For a 90% chance: a piece of ").unwrap().split(' ').next().unwrap().parse::<f64>().unwrap()
    };
    let mut room = Room::new(&scarf());
    let at_first = advised(&room);
    room.woven(&NOVEMBER, "60", "70");
    assert!((advised(&room) - at_first).abs() <= 1.0, "{} {at_first}", advised(&room));
    // 105 cm and the low end of what is still possible are less than that piece: it is said why.
    let why = loose(&room.look().warp_reach.why.join(" "));
    assert!(why.contains("wide because the woven length is only known to within 16 cm."), "{why}");
    let begun = loose(&Room::new(&scarf()).look().warp_reach.why.join(" "));
    assert!(!begun.contains("wide because the woven"), "{begun}");
    room.change(|form| form.wanted = format!("{at_first} cm"));
    let chance = room.look().figures.warp_chance.unwrap();
    assert!((chance - 0.9).abs() < 0.02, "{chance}");
}

/// The weaver's own warps lay about before they were pressed; the sentence must not speak of two days when six are calculated.
#[test]
fn the_days_of_finishing_are_those_that_are_counted() {
    let mut room = Room::new(&scarf());
    room.woven(&NOVEMBER, "60", "100");
    assert!(
        room.why()
            .contains("come mend, hem, wash, dry, press and trim tails: two days most often, by common practice;"),
        "{}",
        room.why()
    );
    for name in ["One", "Two", "Three"] {
        let form = WarpForm { name: name.into(), begun_on: "2026-09-01".into(), ..scarf() };
        let warp = commands(&mut room.journal).begin_warp(&form).unwrap();
        let off = OffForm { on: "2026-09-20".into(), ..OffForm::default() };
        commands(&mut room.journal).cut_off(&warp, &off, &[]).unwrap();
        let steps =
            overview::warp_view(&room.journal, &warp, 0, &DisplayFormat::default(), day(TODAY)).unwrap().off.steps;
        for step in steps {
            commands(&mut room.journal).tick_step(&warp, &step.id.parse().unwrap(), Some("2026-09-30")).unwrap();
        }
    }
    let why = room.why();
    assert!(why.contains("days most often, going by common practice and your own finished warps."), "{why}");
    assert!(!why.contains("two days most often"), "{why}");
}

#[test]
fn what_may_yet_come_out_the_other_way_is_called_likely() {
    let weft = |metres: &str| {
        let mut room = Room::new(&WarpForm { reed_width: "20 cm".into(), weft_length: metres.into(), ..scarf() });
        room.woven(&NOVEMBER, "60", "60");
        let view = room.look();
        (loose(&view.weft_reach.headline), view.figures.weft_chance.unwrap())
    };
    // 720 picks of 22 cm are 158.4 m.
    let (reported, chance) = weft("150 m");
    assert!((0.1..0.4).contains(&chance) && reported.starts_with("Probably not enough weft: "), "{chance}: {reported}");
    let (reported, chance) = weft("130 m");
    assert!(chance < 0.1 && reported.starts_with("Not enough weft: "), "{chance}: {reported}");
    let warp = |wound: &str| {
        let view = Room::new(&WarpForm { wound: wound.into(), ..scarf() }).look();
        (loose(&view.warp_reach.headline), view.figures.warp_chance.unwrap())
    };
    // 45 cm of waste and 180 x 1.1 are 243 cm.
    let (reported, chance) = warp("238 cm");
    assert!((0.1..0.4).contains(&chance) && reported.starts_with("Probably not enough warp: "), "{chance}: {reported}");
    let (reported, chance) = warp("210 cm");
    assert!(chance < 0.1 && reported.starts_with("Not enough warp: "), "{chance}: {reported}");
}

#[test]
fn a_plan_for_a_day_that_is_past_says_so() {
    let room = Room::new(&scarf());
    let form = PlanForm {
        length: "180 cm".into(),
        width: "20 cm".into(),
        sett: "40".into(),
        picks: "40".into(),
        gift_on: "2026-11-01".into(),
        days_a_week: "2".into(),
        minutes_a_day: "30".into(),
        ..PlanForm::default()
    };
    let view = plan::plan_view_of_state(room.journal.state(), &form, &DisplayFormat::default(), day(TODAY));
    let when = view.finish_date.unwrap();
    assert!(when.more.contains(&"The gift day, Sunday 1 November, is past.".to_owned()), "{:?}", when.more);
    // Days of two years each name theirs.
    let why = when.why.join(" ");
    let (_, span) = why.split_once("4 times in 5 between ").unwrap();
    let (from, to) = span.split_once(" and ").unwrap();
    assert!(from.ends_with("2026") && to.contains("2027"), "{why}");
}

#[test]
fn the_picture_of_the_days_keeps_its_size_and_stays_when_the_warp_rests() {
    let mut room = Room::new(&WarpForm { gift_on: "2029-12-01".into(), ..scarf() });
    room.woven(&NOVEMBER, "60", "60");
    let days = room.look().days.unwrap();
    assert!(days.gift.is_none() && days.days < 400, "{days:?}");
    assert!(days.text.ends_with("The gift day, 1 December 2029, lies beyond the picture."), "{}", days.text);
    room.change(|form| form.gift_on = "2026-12-24".into());
    let days = room.look().days.unwrap();
    assert_eq!(days.gift, Some(52), "from 2 November");

    // What was woven is still seen while it rests; of days to come there is nothing.
    let warp = room.warp.clone();
    commands(&mut room.journal).set_warp_state(&warp, WarpState::Resting).unwrap();
    let days = room.look().days.unwrap();
    assert_eq!((days.woven.len(), days.fan.len(), days.gift), (6, 0, Some(52)));
    assert_eq!(days.text, "50 per cent woven by today.");
    assert!(days.ticks.iter().all(|tick| !tick.label.contains("likely")), "{:?}", days.ticks);
}
