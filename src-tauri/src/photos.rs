//! The address under which the window sees photos: `photo://localhost/<warp>.<hash>.<size>`, one plain name, nothing else.

use fellmark_journal::RecordId;
use tauri::UriSchemeResponder;
use tauri::http::{Request, Response, StatusCode};

use crate::SharedWorkspace;

/// Long side of a small picture, in pixels: twice the largest it is shown at.
const SMALL_PX: u32 = 480;

/// Answers a request for a photo, on a thread of its own, since pictures take time.
pub fn answer(shared: SharedWorkspace, request: Request<Vec<u8>>, responder: UriSchemeResponder) {
    std::thread::spawn(move || {
        let found = find(&shared, request.uri().path());
        let response = match found {
            Some(bytes) => Response::builder().header("Content-Type", "image/jpeg").body(bytes),
            None => Response::builder().status(StatusCode::NOT_FOUND).body(Vec::new()),
        };
        // The parts are constants, so the response is well formed.
        if let Ok(response) = response {
            responder.respond(response);
        }
    });
}

fn find(shared: &SharedWorkspace, path: &str) -> Option<Vec<u8>> {
    let mut parts = path.strip_prefix('/')?.split('.');
    let (warp, hash, size) = (parts.next()?, parts.next()?, parts.next()?);
    if parts.next().is_some() {
        return None;
    }
    let warp: RecordId = warp.parse().ok()?;
    // The workspace is free again while the picture is read and decoded: taps do not wait for it.
    let photo = shared.lock().open_session()?.stored_photo(&warp, hash)?;
    match size {
        "small" => photo.thumbnail(SMALL_PX).ok(),
        "large" => photo.picture().ok(),
        _ => None,
    }
}
