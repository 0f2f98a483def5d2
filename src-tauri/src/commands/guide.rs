//! The guide and its pictures.

use fellmark_present::view::{GuideContents, GuidePage};
use tauri::ipc::Response;

/// The pictures of the guide, as they are in the documentation.
const PICTURES: &[(&str, &[u8])] = &[
    ("loom-laptop", include_bytes!("../../../docs/pictures/loom-laptop.png")),
    ("tap-phone", include_bytes!("../../../docs/pictures/tap-phone.png")),
    ("plan-laptop", include_bytes!("../../../docs/pictures/plan-laptop.png")),
    ("off-warp-laptop", include_bytes!("../../../docs/pictures/off-warp-laptop.png")),
];

/// The pages there are, and what there is to know about the program.
#[tauri::command(async)]
pub fn guide_contents(locale: &str) -> GuideContents {
    fellmark_session::guide_contents(locale)
}

/// A page; nothing where there is no such page.
#[tauri::command(async)]
pub fn guide_page(page: &str, locale: &str) -> Option<GuidePage> {
    fellmark_session::guide_page(page, locale)
}

/// A picture as PNG; no bytes where there is no such picture.
#[tauri::command(async)]
pub fn guide_picture(name: &str) -> Response {
    let found = PICTURES.iter().find(|(known, _)| *known == name);
    Response::new(found.map_or_else(Vec::new, |(_, bytes)| bytes.to_vec()))
}

#[cfg(test)]
mod tests {
    use super::PICTURES;

    #[test]
    fn every_picture_of_the_guide_is_in_the_program_and_no_other() {
        let mut named: Vec<String> = Vec::new();
        for link in fellmark_session::guide_contents("en").pages {
            let page = fellmark_session::guide_page(&link.page, "en").unwrap();
            named.extend(fellmark_present::guide::pictures(&page.content));
        }
        named.sort();
        named.dedup();
        let mut held: Vec<&str> = PICTURES.iter().map(|(name, _)| *name).collect();
        held.sort_unstable();
        assert_eq!(named, held);
    }
}
