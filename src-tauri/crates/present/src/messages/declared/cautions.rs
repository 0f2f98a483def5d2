//! Where work can hurt someone.

use fellmark_model::declare_messages;

declare_messages! {
    stretch_due(minutes: Whole);
    stretch_at_an_advance(minutes: Whole);
}
