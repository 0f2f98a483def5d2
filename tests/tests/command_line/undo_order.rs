//! Undo takes back what this device did last, in the order it was done, whatever the clock said.

use fellmark_tests::command_line::CommandLineDevice;

#[test]
fn three_undos_take_back_the_last_three_actions() {
    let mut device = CommandLineDevice::new("laptop");
    device.json(&["begin", "Scarf", "--wound", "3 m", "--waste", "50 cm", "--picks", "40"]);
    let log = |device: &CommandLineDevice, picks: &str| {
        device.json(&["log", "Scarf", "--picks", picks])["sitting"].as_str().unwrap().to_owned()
    };
    let kept = log(&device, "1");
    device.set_clock(Some("+2d"));
    let mut sittings = vec![log(&device, "10")];
    device.set_clock(None);
    sittings.push(log(&device, "20"));
    sittings.push(log(&device, "30"));
    let shown = |device: &CommandLineDevice| -> Vec<String> {
        let records = device.json(&["export", "everything"])["records"].clone();
        let visible = records.as_array().unwrap().iter();
        let visible = visible.filter(|one| one["kind"] == "sitting" && one["presence"] == "here");
        visible.map(|one| one["id"].as_str().unwrap().to_owned()).collect()
    };
    let removed = |device: &CommandLineDevice, id: &str| !shown(device).contains(&id.to_owned());
    for (n, last) in sittings.iter().enumerate().rev() {
        assert!(!removed(&device, last), "sitting {n} is there before it is undone");
        device.json(&["undo"]);
        assert!(removed(&device, last), "undo takes back sitting {n}");
        assert!(sittings[..n].iter().all(|one| !removed(&device, one)), "and no earlier one");
    }
    assert!(!removed(&device, &kept));
}
