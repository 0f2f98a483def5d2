//! From the journal to what the weaver is told: where she is, whether it reaches, when it is done.
