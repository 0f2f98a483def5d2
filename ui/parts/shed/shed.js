// The next shed from the side: the fell at the left, the heddle, the pick-up stick behind it, the back beam at the right.

import { s } from "../dom/dom.js";

const LEVEL = 60;
const HEDDLE = 120;
const HOLE = /** @type {Record<string, number>} */ ({ up: 26, rest: LEVEL, down: 94 });

/**
 * @param {string | null} heddle `up`, `down`, `rest`
 * @param {string | null} stick `back`, `forward`, `edge`
 */
export function shedDrawing(heddle, stick) {
  const hole = heddle && heddle in HOLE ? HOLE[heddle] : LEVEL;
  // The stick carries slot ends: on edge it lifts them just behind the heddle, slid forward flat it lifts them a little.
  const lift = stick === "edge" ? 26 : stick === "forward" ? 46 : LEVEL;
  const at = stick === "back" ? 250 : stick ? 160 : 0;
  const slot = stick === "edge" ? 34 : stick === "forward" ? 48 : LEVEL;
  return s(
    "svg",
    { class: "shed", viewBox: "0 0 320 120", "aria-hidden": "true", focusable: "false" },
    s(
      "g",
      { class: "shed-wood" },
      s("circle", { cx: 302, cy: LEVEL + 8, r: 12 }),
      s("rect", { x: 2, y: LEVEL + 3, width: 24, height: 10, rx: 3 }),
    ),
    s("path", { class: "shed-cloth", d: `M4 ${LEVEL}H34` }),
    // ends through the slots stay where they are, unless the stick lifts some of them
    s("path", { class: "shed-end", d: `M34 ${LEVEL}H302` }),
    stick &&
      stick !== "back" &&
      s("path", { class: "shed-end lifted", d: `M34 ${LEVEL}L${HEDDLE} ${slot}L${at} ${lift}L302 ${LEVEL}` }),
    // ends through the holes go where the heddle goes
    hole !== LEVEL && s("path", { class: "shed-end moved", d: `M34 ${LEVEL}L${HEDDLE} ${hole}L302 ${LEVEL}` }),
    // the heddle: a frame with a slot and a hole
    s(
      "g",
      { class: "shed-heddle" },
      s("path", { d: `M${HEDDLE} ${hole - 26}V${hole - 6}M${HEDDLE} ${hole + 6}V${hole + 26}` }),
      s("circle", { cx: HEDDLE, cy: hole, r: 5 }),
      hole !== LEVEL &&
        s("path", {
          class: "shed-way",
          d: hole < LEVEL ? `M${HEDDLE - 24} 56V30l-6 8m6-8l6 8` : `M${HEDDLE - 24} 64V90l-6 -8m6 8l6 -8`,
        }),
    ),
    stick &&
      s(
        "g",
        { class: "shed-stick" },
        stick === "edge" && s("rect", { x: at - 4, y: lift, width: 8, height: 40, rx: 3 }),
        stick === "forward" && s("rect", { x: at - 20, y: lift, width: 40, height: 9, rx: 4 }),
        stick === "back" && s("rect", { x: at - 20, y: LEVEL - 4, width: 40, height: 9, rx: 4 }),
      ),
    s("path", { class: "shed-fell-edge", d: `M34 ${LEVEL - 9}v18` }),
    s("path", { class: "shed-fell", d: `M34 ${LEVEL - 9}v18` }),
  );
}
