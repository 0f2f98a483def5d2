//! The window shows its own page and nothing else.

use std::io::{Read, Write};
use std::net::TcpListener;
use std::time::Duration;

use fellmark_tests::window::{TestWindow, WindowOptions};

/// A page on this machine that the window could show; its address.
fn foreign_page() -> String {
    let listener = TcpListener::bind("127.0.0.1:0").unwrap();
    let address = format!("http://{}/", listener.local_addr().unwrap());
    std::thread::spawn(move || {
        for stream in listener.incoming() {
            let Ok(mut stream) = stream else { return };
            let _ = stream.read(&mut [0; 4096]);
            let _ = stream.write_all(
                b"HTTP/1.1 200 OK\r\nContent-Type: text/html\r\nContent-Length: 9\r\nConnection: close\r\n\r\n<p>gone\r\n",
            );
        }
    });
    address
}

#[test]
fn no_script_link_or_page_leads_the_window_away() {
    let foreign = foreign_page();
    for away in [
        "location.href = ADDRESS",
        "const link = document.createElement('a'); link.href = ADDRESS; document.body.append(link); link.click()",
        "const link = document.createElement('a'); link.href = ADDRESS; link.target = '_blank'; document.body.append(link); \
         link.click()",
        "const meta = document.createElement('meta'); meta.httpEquiv = 'refresh'; meta.content = '0; url=' + ADDRESS; \
         document.head.append(meta)",
        "window.open(ADDRESS)",
    ] {
        let window = TestWindow::first_start(&WindowOptions::laptop());
        window.wait("the first screen is shown", 5.0, |window| window.shows("@begin-example"));
        let own = window.run("return location.href");
        window.run(&away.replace("ADDRESS", &format!("'{foreign}'")));
        std::thread::sleep(Duration::from_secs(1));
        assert_eq!(window.run("return location.href"), own, "{away}");
        assert!(window.shows("@begin-example"), "{away}");
    }
}
