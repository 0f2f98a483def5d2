// What each stretch of a warp is filled with: patterns, so that nothing hangs on a colour.

import { s } from "../dom/dom.js";

/** @typedef {import("../../types.d.ts").Band} Band */

/** Drawn along x; an upright picture turns the pattern with it. @param {boolean} upright */
export function patterns(upright) {
  const turn = upright ? "rotate(90)" : null;
  const make = (
    /** @type {string} */ name,
    /** @type {number} */ size,
    /** @type {string} */ d,
    /** @type {string} */ tone,
  ) =>
    s(
      "pattern",
      { id: `warp-${name}`, width: size, height: size, patternUnits: "userSpaceOnUse", patternTransform: turn },
      s("rect", { class: `ground-${tone}`, width: size, height: size }),
      s("path", { class: `line-${tone}`, d }),
    );
  return s(
    "defs",
    null,
    // Bare warp is long threads, what is spare the same threads broken into dots; cloth is threads across them, one sitting ribbed
    // and the next in a basket; waste leans, fringe waves, and what is missing is crossed out.
    make("ends", 6, "M0 3H6", "ends"),
    make("spare", 8, "M1 2h2M5 6h2", "spare"),
    make("cloth", 6, "M1.5 0V6M4.5 0V6", "cloth"),
    make("cloth-b", 8, "M0 2H4M4 6H8M2 4V8M6 0V4", "cloth-b"),
    make("waste", 10, "M0 10L10 0M-1 1L1 -1M9 11L11 9", "waste"),
    make("fringe", 12, "M0 3Q3 0 6 3T12 3M0 9Q3 12 6 9T12 9", "ends"),
    make("missing", 10, "M0 0L10 10M0 10L10 0", "missing"),
  );
}

/** @param {Band} band @param {number} turn */
export function patternOf(band, turn) {
  const names = /** @type {Record<string, string>} */ ({
    front_waste: "waste",
    back_waste: "waste",
    woven: turn % 2 ? "cloth-b" : "cloth",
    to_weave: "ends",
    spare: "spare",
    fringe: "fringe",
    missing: "missing",
  });
  return `url(#warp-${names[band.kind] ?? "ends"})`;
}
