//! Messages of the answers at a glance: a large figure and one short line each.

use fellmark_model::declare_messages;

declare_messages! {
    glance_woven(woven: LengthMm, wanted: LengthMm);
    glance_to_weave(to_weave: LengthMm, picks: Count);
    glance_day(day: Day);
    glance_gift(chance: Chance, day: Day);
    glance_span(chance: Percent, from: Day, to: Day);
}
