//! How the ends of a piece are finished.

/// How the ends of a piece are finished.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ClothEdge {
    /// With a fringe.
    Fringe,
    /// With a hem; also where nothing is known.
    Hem,
    /// Neither: the plan says so.
    Plain,
}
