// The next shed, drawn to face the same way as the screen. Where the fell lies across the screen: seen from the weaver's seat, the
// fell nearest at the bottom. Where it stands upright: from the side, the fell at the left, to be mirrored where it is at the right.

import { s } from "../dom/dom.js";

const LEVEL = 60;
const HEDDLE = 120;
const HOLE = /** @type {Record<string, number>} */ ({ up: 26, rest: LEVEL, down: 94 });

/** Seen from the seat, a line lies this high on the drawing. */
const BACK = 8;
const FELL = 126;
const REST = 74;
const HEDDLE_AT = /** @type {Record<string, number>} */ ({ up: 54, rest: REST, down: 94 });
/** The ends run together towards the back; raised ends are nearer to the eye, lowered ones farther. */
const SPREAD = /** @type {Record<string, number>} */ ({ up: 1.02, rest: 0.88, down: 0.74 });
const SPREAD_BACK = 0.7;
const ENDS = 13;

/**
 * Both drawings of a shed; the style sheet shows the one that faces as the screen does.
 * @param {string | null} heddle `up`, `down`, `rest`
 * @param {string | null} stick `back`, `forward`, `edge`
 */
export function shedDrawings(heddle, stick) {
  return [fromTheSeat(heddle, stick), fromTheSide(heddle, stick)];
}

/** @param {string | null} heddle @param {string | null} stick */
function fromTheSeat(heddle, stick) {
  const position = heddle && heddle in HEDDLE_AT ? heddle : "rest";
  const bar = HEDDLE_AT[position];
  const x = (/** @type {number} */ end, /** @type {number} */ spread) => 160 + (end - (ENDS - 1) / 2) * 15 * spread;
  const path = (/** @type {number} */ end, /** @type {number} */ spread, /** @type {number} */ y) =>
    `M${x(end, 1)} ${FELL}L${x(end, spread)} ${y}L${x(end, SPREAD_BACK)} ${BACK}`;
  const ends = Array.from({ length: ENDS }, (_, end) => end);
  // Every other end runs through a hole and goes where the heddle goes; the stick lifts slot ends.
  const isLifted = (/** @type {number} */ end) => stick !== null && stick !== "back" && end % 4 === 2;
  const stickAt = stick === "back" ? 24 : stick === "forward" ? 44 : 38;
  return s(
    "svg",
    { class: "shed shed-front", viewBox: "0 0 320 140", "aria-hidden": "true", focusable: "false" },
    s("g", { class: "shed-wood" }, s("rect", { x: 62, y: BACK - 6, width: 196, height: 11, rx: 5 })),
    ends
      .filter((end) => end % 2 === 0)
      .map((end) =>
        isLifted(end)
          ? s("path", { class: "shed-end lifted", d: path(end, SPREAD.up, REST - 22) })
          : s("path", { class: "shed-end", d: path(end, SPREAD.rest, REST) }),
      ),
    stick &&
      s(
        "g",
        { class: "shed-stick" },
        s("rect", {
          x: 76,
          y: stickAt - (stick === "edge" ? 9 : 4),
          width: 168,
          height: stick === "edge" ? 18 : 8,
          rx: 4,
        }),
      ),
    ends
      .filter((end) => end % 2 === 1)
      .map((end) => s("path", { class: "shed-end moved", d: path(end, SPREAD[position], bar) })),
    // the heddle: two rails that stand across the warp, and where they stand in neutral
    position !== "rest" && s("path", { class: "shed-neutral", d: `M36 ${REST}H284` }),
    s(
      "g",
      { class: "shed-heddle" },
      s("path", { d: `M48 ${bar - 13}H272M48 ${bar + 13}H272M48 ${bar - 13}v26M272 ${bar - 13}v26` }),
    ),
    position !== "rest" &&
      s("path", {
        class: "shed-way",
        d: position === "up" ? `M304 ${REST + 8}V${bar}l-6 8m6-8l6 8` : `M304 ${REST - 8}V${bar}l-6-8m6 8l6-8`,
      }),
    s("path", { class: "shed-cloth", d: `M62 ${FELL + 8}H258` }),
    s("path", { class: "shed-fell-edge", d: `M60 ${FELL}H260` }),
    s("path", { class: "shed-fell", d: `M60 ${FELL}H260` }),
  );
}

/** @param {string | null} heddle @param {string | null} stick */
function fromTheSide(heddle, stick) {
  const hole = heddle && heddle in HOLE ? HOLE[heddle] : LEVEL;
  // The stick carries slot ends: on edge it lifts them just behind the heddle, slid forward flat it lifts them a little.
  const lift = stick === "edge" ? 26 : stick === "forward" ? 46 : LEVEL;
  const at = stick === "back" ? 250 : stick ? 160 : 0;
  const slot = stick === "edge" ? 34 : stick === "forward" ? 48 : LEVEL;
  return s(
    "svg",
    { class: "shed shed-side", viewBox: "0 0 320 120", "aria-hidden": "true", focusable: "false" },
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
