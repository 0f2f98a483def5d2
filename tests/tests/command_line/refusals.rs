//! What is refused is not written.

use fellmark_tests::command_line::CommandLineDevice;

#[test]
fn a_sitting_with_a_broken_photo_is_not_logged() {
    let device = CommandLineDevice::new("laptop");
    device.json(&["begin", "Scarf", "--wound", "3 m", "--waste", "50 cm", "--picks", "40"]);
    let broken = device.home().join("broken.jpg");
    std::fs::write(&broken, b"\xff\xd8\xff\xe0 no picture").unwrap();
    let good = device.home().join("good.jpg");
    std::fs::write(&good, fellmark_tests::journal::picture(20, 20)).unwrap();
    let before = fellmark_tests::journal::contents(&device.folder());
    let (good, broken) = (good.to_str().unwrap(), broken.to_str().unwrap());
    for _ in 0..2 {
        let said = device.refused(&["log", "Scarf", "--picks", "5", "--photo", good, "--photo", broken], 2);
        assert!(!said.is_empty());
    }
    assert_eq!(fellmark_tests::journal::contents(&device.folder()), before, "nothing was written");
    device.json(&["log", "Scarf", "--picks", "5", "--photo", good]);
    assert_ne!(fellmark_tests::journal::contents(&device.folder()), before);
}
