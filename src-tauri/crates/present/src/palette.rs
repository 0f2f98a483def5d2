//! The colours of everything that is drawn outside the page: those of the page's light theme, and black on white for paper.
//!
//! The page has the same values in `ui/styles/tokens.css`; a test compares them.

/// Declares each colour with the name that `tokens.css` has for it.
macro_rules! palette {
    ($($(#[$doc:meta])* $name:ident = $token:literal $value:literal;)*) => {
        $($(#[$doc])* pub(crate) const $name: &str = $value;)*
        #[cfg(test)]
        const TOKENS: &[(&str, &str)] = &[$(($token, $value)),*];
    };
}

palette! {
    /// The page's ground.
    LINEN = "linen" "#f3eee2";
    /// What lies on the page: fields, drawings.
    SHEET = "sheet" "#fbf8f0";
    /// Text and the main lines.
    INK = "ink" "#22302b";
    /// Text of less weight.
    INK_SOFT = "ink-soft" "#4d5a54";
    /// Lines of a grid.
    THREAD = "thread" "#cdc2aa";
    /// Lines of an axis.
    LINE = "line" "#756d59";
    /// Points of a chart, and the lines within woven cloth.
    MADDER = "madder" "#a0431d";
    /// Woven cloth.
    MADDER_CLOTH = "madder-cloth" "#b9603a";
    /// The shaded half of a weave's pattern.
    MADDER_SHADE = "madder-shade" "#9c4a28";
    /// The fell, and nothing else.
    SAFFRON = "saffron" "#f2c14e";
    /// Warp ends.
    WOOD = "wood" "#8a6642";
    /// The edge of woven cloth.
    WOOD_DARK = "wood-dark" "#6b4d30";
    /// Paper.
    PAPER = "paper" "#fff";
    /// Print on paper.
    PRINT = "print" "#000";
    /// Thin lines between what is printed.
    PRINT_RULE = "print-rule" "#999";
}

#[cfg(test)]
mod tests {
    use super::TOKENS;

    const CSS: &str = include_str!("../../../../ui/styles/tokens.css");

    /// The value of `--name`, that of the light theme where there are two.
    fn light_value(name: &str) -> &str {
        let declared = CSS.split_once(&format!("--{name}: ")).unwrap_or_else(|| panic!("tokens.css has no --{name}")).1;
        let value = declared.split_once(';').unwrap().0;
        value.strip_prefix("light-dark(").map_or(value, |both| both.split_once(',').unwrap().0)
    }

    #[test]
    fn the_colours_are_those_of_the_page() {
        for (name, value) in TOKENS {
            assert_eq!(light_value(name), *value, "--{name}");
        }
    }
}
