//! The editor of a pick sequence.

use super::*;

fn form(repeat: &str) -> PickSequenceForm {
    PickSequenceForm { repeat: repeat.replace(", ", "\n"), picks: "40".into(), ..PickSequenceForm::default() }
}

fn view(form: &PickSequenceForm) -> PickSequenceView {
    super::view(form, &DisplayFormat::default())
}

#[test]
fn every_example_is_drawn_without_a_warning() {
    for example in examples() {
        let PickSequenceExample { name, opening, repeat, balance, closing } = example;
        let form =
            PickSequenceForm { opening, repeat, balance, closing, picks: "40".into(), ..PickSequenceForm::default() };
        let view = view(&form);
        assert!(view.errors.is_empty() && view.warnings.is_empty(), "{name}: {:?}", view.warnings);
        assert!(view.cloth.is_some(), "{name}");
    }
}

#[test]
fn a_weft_float_is_as_long_as_the_ends_it_crosses() {
    // One up, one down: three ends between two that hold, at ten to the inch 7.6 mm.
    let fine = view(&form("up, stick, up, down"));
    let text = fine.cloth.unwrap().text;
    assert!(text.contains("the longest weft float crosses 3 ends, 7.6\u{a0}mm"), "{text}");
    // One up, three down: seven ends, 17.8 mm, is pointed out.
    let wide = PickSequenceForm { stick_down_ends: "3".into(), ..form("up, stick, up, down") };
    let view = view(&wide);
    assert!(
        view.warnings[0].contains("In pick 2 of the repeat the weft floats over 7 ends, 17.8\u{a0}mm"),
        "{:?}",
        view.warnings
    );
    let rows = view.cloth.clone().unwrap().rows;
    assert!(rows[1].long.iter().any(|[from, to]| to - from == 6), "{:?}", rows[1].long);
    assert!(
        view.notes.iter().any(|note| note.contains("No sett is written down, so 39.4 ends are assumed")),
        "{view:?}"
    );
    // At its own sett, 30 to 10 cm, the same float is 23.3 mm; a finer one makes it short.
    let coarse = super::view(&PickSequenceForm { sett: "30".into(), ..wide.clone() }, &DisplayFormat::default());
    assert!(coarse.warnings[0].contains("over 7 ends, 23.3\u{a0}mm"), "{:?}", coarse.warnings);
    assert!(coarse.notes.iter().any(|note| note.contains("with 30 ends and 40 picks to 10\u{a0}cm")), "{coarse:?}");
    let fine = PickSequenceForm { sett: "80".into(), ..wide };
    assert!(super::view(&fine, &DisplayFormat::default()).warnings.is_empty());
}

#[test]
fn two_picks_in_one_shed_are_named_by_their_place() {
    let view = view(&form("up, down, down"));
    assert!(view.warnings[0].starts_with("Pick 3 of the repeat lies in the same shed"), "{:?}", view.warnings);
    assert!(view.notes.iter().any(|note| note.contains("odd")));
    let joins = super::view(&form("up, down, up"), &DisplayFormat::default());
    assert!(joins.warnings[0].contains("where two sections or repeats meet"), "{:?}", joins.warnings);
}

#[test]
fn what_is_wrong_stands_beside_its_own_field() {
    let form = PickSequenceForm { opening: "up\nsideways".into(), stick_up_ends: "many".into(), ..form("up, down") };
    let view = view(&form);
    let fields: Vec<_> = view.errors.iter().map(|trouble| trouble.field.clone().unwrap()).collect();
    assert_eq!(fields, ["opening", "stick_up_ends"]);
    assert!(view.cloth.is_none());
}

#[test]
fn the_opening_border_is_offered_mirrored() {
    let form = PickSequenceForm { opening: "2 x up\nup + stick\ndown".into(), ..form("up, down") };
    assert_eq!(view(&form).mirrored, "down\nup + stick\nup\nup");
    let again = PickSequenceForm { opening: view(&form).mirrored, ..form };
    assert_eq!(view(&again).mirrored, "up\nup\nup + stick\ndown");
}

#[test]
fn sheds_of_another_loom_are_drawn_as_far_as_they_are_known() {
    assert!(view(&form("1 2")).cloth.is_some());
    let four = view(&form("1 2 3 4"));
    assert!(four.cloth.is_none() && four.warnings.is_empty(), "{four:?}");
    assert!(four.notes.iter().any(|note| note.contains("What each shed lifts is not written down")), "{four:?}");
    // A two-and-two twill on four shafts, straight through: every float crosses two, and each pick steps on by one end.
    let twill = PickSequenceForm { shed_lifts: "1: 1 2\n2: 2 3\n3: 3 4\n4: 4 1".into(), ..form("1 2 3 4") };
    let cloth = view(&twill).cloth.unwrap();
    let rows: Vec<&str> = cloth.rows.iter().take(4).map(|row| &row.up[..8]).collect();
    assert_eq!(rows, ["11001100", "01100110", "00110011", "10011001"]);
    assert!(cloth.text.contains("longest weft float crosses 2 ends"), "{}", cloth.text);
    assert!(view(&twill).notes.iter().any(|note| note.contains("straight through on shafts 1 to 4")));
    // Another threading turns the line of the twill.
    let point = PickSequenceForm { threading: "1-4 3 2".into(), ..twill.clone() };
    assert_eq!(&view(&point).cloth.unwrap().rows[0].up[..12], "110001110001");
    let missing = PickSequenceForm { shed_lifts: "1: 1 2".into(), ..twill };
    assert!(view(&missing).warnings[0].contains("Shed 2 is used, and nothing says what it lifts"), "{missing:?}");
    assert!(!view(&form("1 2 3 3")).warnings.is_empty());
    assert!(!view(&PickSequenceForm { opening: "up".into(), ..form("1 2") }).warnings.is_empty());
}

#[test]
fn a_second_stick_is_drawn_with_the_ends_left_down() {
    let view = view(&form("up, stick, up, second stick"));
    assert!(view.cloth.is_some() && view.notes.iter().any(|note| note.contains("second stick")), "{view:?}");
}
