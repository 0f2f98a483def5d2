//! The window shows its own page and nothing else.

use fellmark_tests::window::{TestWindow, WindowOptions};

#[test]
fn no_script_link_or_page_leads_the_window_away() {
    let window = TestWindow::first_start(&WindowOptions::laptop());
    window.wait("the first screen is shown", 5.0, |window| window.shows("@begin-example"));
    let own = window.run("return location.href");
    for away in [
        "location.href = 'file:///etc/hostname'",
        "location.assign('http://127.0.0.1:9/')",
        "const link = document.createElement('a'); link.href = 'data:text/html,gone'; document.body.append(link); link.click()",
        "const link = document.createElement('a'); link.href = 'http://127.0.0.1:9/'; link.target = '_blank'; document.body.append(link); link.click()",
        "const meta = document.createElement('meta'); meta.httpEquiv = 'refresh'; meta.content = '0; url=http://127.0.0.1:9/'; document.head.append(meta)",
        "window.open('http://127.0.0.1:9/')",
    ] {
        window.run(away);
        std::thread::sleep(std::time::Duration::from_millis(300));
        assert_eq!(window.run("return location.href"), own, "{away}");
        assert!(window.shows("@begin-example"), "{away}");
    }
}
