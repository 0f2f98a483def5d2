//! When a piece will be done, with what span.
