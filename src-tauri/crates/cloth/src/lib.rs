//! The trade's arithmetic: quantities and how people write them, yarn, sett, warp, weft and pick sequences.
