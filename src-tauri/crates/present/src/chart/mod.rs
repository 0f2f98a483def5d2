//! Charts drawn as SVG from plain points: in classes for the page, so that they follow its theme, or in colours of their own for a
//! picture that is saved. Sizes follow the width and the text size that are asked for.

mod draw;
mod ticks;

pub use draw::{escape, svg};
pub use ticks::Scale;

/// A chart.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    /// What a screen reader says of it.
    pub text: String,
    /// From left to right.
    pub x: ChartAxis,
    /// From the foot up.
    pub y: ChartAxis,
    /// Points.
    pub points: Vec<Point>,
    /// Straight lines from point to point.
    pub lines: Vec<ChartLine>,
    /// Areas, as corners.
    pub areas: Vec<Vec<(f64, f64)>>,
    /// A line from foot to top, with what is written at it.
    pub upright: Option<(f64, String)>,
}

/// One direction of a chart.
#[derive(Clone, Debug, PartialEq)]
pub struct ChartAxis {
    /// What is measured, with its unit.
    pub name: String,
    /// Its ends and ticks.
    pub scale: Scale,
}

/// A point.
#[derive(Clone, Debug, PartialEq)]
pub struct Point {
    /// Where on x.
    pub x: f64,
    /// Where on y.
    pub y: f64,
    /// What is written at it; may be empty.
    pub label: String,
    /// Filled, or a ring: never distinguished by colour alone.
    pub filled: bool,
}

/// A line.
#[derive(Clone, Debug, PartialEq)]
pub struct ChartLine {
    /// Its corners.
    pub corners: Vec<(f64, f64)>,
    /// Dashed instead of whole.
    pub dashed: bool,
}

/// How a chart is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// Width, pixels.
    pub width: f64,
    /// Size of letters, pixels.
    pub text: f64,
    /// For the page or for a file.
    pub ink: Ink,
}

/// What a chart is drawn with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ink {
    /// Classes, coloured by the page.
    Page,
    /// Colours of its own, on a ground.
    Picture,
}
