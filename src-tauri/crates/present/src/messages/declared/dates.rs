//! Messages about days.

use fellmark_model::declare_messages;

declare_messages! {
    between_days(from: Day, to: Day);
    spoken_today();
    spoken_yesterday();
    spoken_tomorrow();
}
