//! Cloth as round threads bent over each other: diameters, crimp and thickness after Peirce (J. Text. Inst. 1937, T45,
//! through secondary texts). Good to a point or so of crimp, not better: real yarn is squashed.
//!
//! Suffix 1 is the warp, 2 the weft; p spacing, d diameter, D = d₁ + d₂, h height of the crimp wave, c crimp, l length
//! of yarn between two crossings.

use crate::change::WarpUse;
use crate::error::Refused;
use crate::quantity::{FibreDensity, Length, ThreadDensity, YarnNumber, YarnSystem};
use crate::take_up::Crimp;

/// Peirce's cotton yarn: d = 1 ÷ (28·√Ne) in.
/// # Errors
/// If the result is absurd.
pub fn peirce_cotton_diameter(yarn: YarnNumber) -> Result<Length, Refused> {
    Length::from_inches(1.0 / (28.0 * yarn.count_in(YarnSystem::EnglishCotton).sqrt()))
}

/// The textbook formula d = 4.44·10⁻³·√(tex ÷ fibre density) cm, which packs 65 % fibre into the yarn.
/// # Errors
/// If the result is absurd.
pub fn yarn_diameter(yarn: YarnNumber, fibre: FibreDensity) -> Result<Length, Refused> {
    Length::from_cm(4.44e-3 * (yarn.tex() / fibre.g_per_cm3()).sqrt())
}

/// d = √(4·tex ÷ (π·fibre density·packing)) with the packing (fibre's share of the yarn's volume) named.
/// # Errors
/// If the packing is not between 0.05 and 1.
pub fn yarn_diameter_packed(yarn: YarnNumber, fibre: FibreDensity, packing: f64) -> Result<Length, Refused> {
    crate::error::share("a packing", packing, 0.05, 1.0)?;
    // tex is 10⁻⁵ g/cm.
    let area_cm2 = yarn.tex() * 1e-5 / (fibre.g_per_cm3() * packing);
    Length::from_cm((4.0 * area_cm2 / std::f64::consts::PI).sqrt())
}

/// The diameter that wraps counted touching show.
pub fn diameter_from_wraps(wraps: ThreadDensity) -> Length {
    wraps.spacing()
}

/// Height of the crimp wave, near enough: h₁ ≈ (4/3)·p₂·√c₁.
/// # Errors
/// If the crimp is negative.
pub fn crimp_height(crossing_spacing: Length, crimp: Crimp) -> Result<Length, Refused> {
    crossing_spacing.times(4.0 / 3.0 * root(crimp)?)
}

/// Crimp from the height of its wave, near enough: c₁ ≈ (9/16)·(h₁ ÷ p₂)².
/// # Errors
/// If the spacing is nothing.
pub fn crimp_from_height(height: Length, crossing_spacing: Length) -> Result<Crimp, Refused> {
    let ratio = crate::quantity::divide("the spacing", height.mm(), crossing_spacing.mm())?;
    Crimp::from_percent(56.25 * ratio * ratio)
}

fn root(crimp: Crimp) -> Result<f64, Refused> {
    if crimp.share() < 0.0 {
        return Err(Refused::DoesNotFit("a stretched thread has no crimp wave".into()));
    }
    Ok(crimp.share().sqrt())
}

/// Height of the crimp wave exactly, for round threads: l₁ = p₂(1 + c₁), and the angle θ that solves
/// p₂ = (l₁ − Dθ)·cos θ + D·sin θ gives h₁ = (l₁ − Dθ)·sin θ + D·(1 − cos θ).
/// # Errors
/// If the crimp is negative, or more than these threads can have at this spacing.
pub fn crimp_height_exact(crossing_spacing: Length, crimp: Crimp, both_diameters: Length) -> Result<Length, Refused> {
    root(crimp)?;
    let (p, d) = (crossing_spacing.mm(), both_diameters.mm());
    if p == 0.0 || d == 0.0 {
        return Err(Refused::Zero { what: "a spacing or diameter" });
    }
    let l = p * (1.0 + crimp.share());
    let spacing_at = |theta: f64| (l - d * theta) * theta.cos() + d * theta.sin();
    // The spacing falls as the angle grows, until no straight part is left (Dθ = l) or the thread stands upright.
    let (mut low, mut high) = (0.0, (l / d).min(std::f64::consts::FRAC_PI_2));
    if spacing_at(high) > p {
        return Err(Refused::DoesNotFit("round threads of this thickness can't take so much crimp so close".into()));
    }
    for _ in 0..200 {
        let theta = (low + high) / 2.0;
        if spacing_at(theta) > p { low = theta } else { high = theta }
    }
    let theta = (low + high) / 2.0;
    Length::from_mm((l - d * theta) * theta.sin() + d * (1.0 - theta.cos()))
}

/// The other thread's crimp, from one crimp, both spacings and both diameters: D = h₁ + h₂ with h ≈ (4/3)·p·√c.
/// `crossing_spacing` is the spacing of the threads that the known crimp bends over, `own_spacing` that of the known
/// ones.
/// # Errors
/// If the known crimp alone is higher than both threads together.
pub fn other_crimp(
    known: Crimp,
    crossing_spacing: Length,
    own_spacing: Length,
    both_diameters: Length,
) -> Result<Crimp, Refused> {
    let rest = both_diameters.minus(crimp_height(crossing_spacing, known)?);
    if rest.is_short() {
        return Err(Refused::DoesNotFit("so much crimp is higher than both threads together".into()));
    }
    crimp_from_height(rest.over(), own_spacing)
}

/// Length of yarn between two crossings, in diameters of both threads: l₁ ÷ D = p₂(1 + c₁) ÷ (d₁ + d₂).
/// # Errors
/// If the diameters are nothing.
pub fn length_over_diameters(crossing_spacing: Length, crimp: Crimp, both_diameters: Length) -> Result<f64, Refused> {
    crate::quantity::divide("the diameters", crossing_spacing.mm() * (1.0 + crimp.share()), both_diameters.mm())
}

/// Thickness of the cloth: the higher of the two systems, max(h₁ + d₁, h₂ + d₂), h₂ = D − h₁ (from memory of Peirce).
/// # Errors
/// If the wave is higher than both threads together.
pub fn thickness(warp: Length, weft: Length, warp_height: Length) -> Result<Length, Refused> {
    let rest = (warp + weft).minus(warp_height);
    if rest.is_short() {
        return Err(Refused::DoesNotFit("the wave is higher than both threads together".into()));
    }
    Ok((warp_height + warp).max(rest.over() + weft))
}

/// A square plain cloth of round threads packed as closely as they go.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Jammed {
    /// Crimp, the same both ways.
    pub crimp: Crimp,
    /// Spacing ÷ D.
    pub spacing_over_diameters: f64,
    /// Yarn between crossings ÷ D.
    pub length_over_diameters: f64,
    /// Yarn between crossings ÷ spacing.
    pub length_over_spacing: f64,
}

/// The square plain jammed cloth: θ = 60°, c = (π/3) ÷ sin 60° − 1 = 20.92 %.
pub fn jammed_square() -> Jammed {
    let theta = std::f64::consts::FRAC_PI_3;
    let spacing = theta.sin();
    Jammed {
        crimp: WarpUse::<crate::state::UnderTension>::nearest(spacing / theta).crimp(),
        spacing_over_diameters: spacing,
        length_over_diameters: theta,
        length_over_spacing: theta / spacing,
    }
}

/// The closest spacing of one system when the other's is given, both jammed: √(1 − P₁²) + √(1 − P₂²) = 1, P = p ÷ D.
/// # Errors
/// If the given spacing is more than D, where the system does not jam.
pub fn jammed_spacing(other_spacing: Length, both_diameters: Length) -> Result<Length, Refused> {
    let p = crate::quantity::divide("the diameters", other_spacing.mm(), both_diameters.mm())?;
    if p > 1.0 {
        return Err(Refused::DoesNotFit("threads so far apart don't jam".into()));
    }
    let rest = 1.0 - (1.0 - p * p).sqrt();
    both_diameters.times((1.0 - rest * rest).sqrt())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn mm(x: f64) -> Length {
        Length::from_mm(x).unwrap()
    }

    #[test]
    fn the_exact_height_lies_between_its_neighbours() {
        let c = Crimp::from_percent(2.0).unwrap();
        let exact = crimp_height_exact(mm(1.0), c, mm(0.4)).unwrap().mm();
        let near = crimp_height(mm(1.0), c).unwrap().mm();
        // A thread bent sharply, without any curve, would be √2·p·√c high: the exact height lies between.
        assert!(near < exact && exact < near * 0.75 * 2f64.sqrt() * 1.01, "{exact} {near}");
        let back = crimp_from_height(crimp_height(mm(1.0), c).unwrap(), mm(1.0)).unwrap();
        assert!((back.percent() - 2.0).abs() < 1e-9);
    }

    #[test]
    fn the_jammed_cloth_from_both_sides() {
        let spacing = jammed_spacing(mm(0.75f64.sqrt()), mm(1.0)).unwrap();
        assert!((spacing.mm() - jammed_square().spacing_over_diameters).abs() < 1e-12);
        // The exact height at the jam is half of D.
        let height = crimp_height_exact(mm(jammed_square().spacing_over_diameters), jammed_square().crimp, mm(1.0));
        assert!((height.unwrap().mm() - 0.5).abs() < 1e-6);
        assert!(jammed_spacing(mm(2.0), mm(1.0)).is_err());
    }

    #[test]
    fn impossible_cloth_is_refused() {
        let c = |p| Crimp::from_percent(p).unwrap();
        assert!(crimp_height(mm(1.0), c(-3.0)).is_err());
        assert!(crimp_height_exact(mm(0.4), c(500.0), mm(0.5)).is_err());
        assert!(crimp_height_exact(mm(0.0), c(5.0), mm(0.5)).is_err());
        assert!(other_crimp(c(50.0), mm(1.0), mm(1.0), mm(0.2)).is_err());
        assert!(thickness(mm(0.1), mm(0.1), mm(0.3)).is_err());
    }
}
