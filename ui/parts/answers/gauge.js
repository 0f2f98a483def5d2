// The drawn gauges of the answers. Their shape carries the meaning: a bar that passes the mark, one whose uncertain end reaches over it,
// one that ends before it; the word beside it says the same.

import { s } from "../dom/dom.js";

/** @typedef {import("../../types.d.ts").Figures} Figures */
/** @typedef {(value: number) => number} Scale */

const WIDTH = 240;
const MIDDLE = 14;
const DAY_MS = 86_400_000;

/** @param {string} kind @param {...(SVGElement | null)} shapes */
function gauge(kind, ...shapes) {
  const frame = { class: `gauge ${kind}`, viewBox: `0 0 ${WIDTH} 28`, "aria-hidden": "true", focusable: "false" };
  return s("svg", frame, ...shapes);
}

/** From 0 to the greatest of the values, with room for what ends a bar. @param {number[]} values @returns {Scale} */
function scaleTo(values) {
  const most = Math.max(...values, 1);
  return (value) => 2 + (Math.max(value, 0) / most) * (WIDTH - 18);
}

/** @param {number} from @param {number} to @param {string} name */
function bar(from, to, name) {
  return s("rect", { class: name, x: from, y: MIDDLE - 5, width: Math.max(to - from, 0), height: 10 });
}

/** A stretch that may or may not be. @param {number} from @param {number} to */
function hatched(from, to) {
  const lines = [];
  for (let at = from + 6; at <= to; at += 6) lines.push(`M${at - 5} ${MIDDLE + 5}L${at} ${MIDDLE - 5}`);
  return s("path", {
    class: "gauge-hatch",
    d: `M${from} ${MIDDLE - 5}H${to}M${from} ${MIDDLE + 5}H${to}${lines.join("")}`,
  });
}

/** @param {number} at */
function mark(at) {
  return s("path", { class: "gauge-mark", d: `M${at} 2V26` });
}

/** What there is, as a span from low to high, against what is needed. @param {string} standing @param {[number, number, number] | null} span @param {number | null} needed */
export function supplyGauge(standing, span, needed) {
  // Several yarns have no figure in common: nothing is drawn rather than something that is not known.
  if (standing !== "open" && (!span || needed === null)) return null;
  if (!span || needed === null || standing === "open") {
    return gauge("open", s("path", { class: "gauge-unknown", d: `M4 ${MIDDLE}H${WIDTH - 4}` }));
  }
  const [low, , high] = span;
  const scale = scaleTo([high, needed]);
  const at = scale(needed);
  const [end, far] = [scale(low), scale(high)];
  const spare = s("path", { class: "gauge-end", d: `M${far + 3} ${MIDDLE - 8}l8 8l-8 8` });
  const gap = s("path", { class: "gauge-gap", d: `M${far + 3} ${MIDDLE}H${Math.max(at - 3, far + 3)}` });
  return gauge(
    standing,
    bar(2, end, "gauge-bar"),
    hatched(end, far),
    standing === "short" ? gap : null,
    standing === "well" ? spare : null,
    mark(at),
  );
}

/** What is woven of the whole. @param {number} woven @param {number} wanted */
export function wovenGauge(woven, wanted) {
  if (wanted <= 0) return null;
  const scale = scaleTo([wanted]);
  const at = scale(Math.min(woven, wanted));
  return gauge("woven", bar(2, at, "gauge-cloth"), bar(at, scale(wanted), "gauge-rest"), mark(at));
}

/** The days in which it is likely finished, and the gift day. @param {Figures} figures */
export function daysGauge({ finished_likely: likely, finished_span: span, gift_on: gift }) {
  if (!likely || !span) return null;
  const [first, last, middle] = [span[0], span[1], likely].map((day) => Date.parse(day));
  const flag = gift ? Date.parse(gift) : null;
  const from = Math.min(first, flag ?? first) - 2 * DAY_MS;
  const to = Math.max(last, flag ?? last) + 2 * DAY_MS;
  const scale = (/** @type {number} */ day) => 6 + ((day - from) / (to - from)) * (WIDTH - 12);
  return gauge(
    "days",
    s("path", { class: "gauge-axis", d: `M2 ${MIDDLE}H${WIDTH - 2}` }),
    bar(scale(first), scale(last), "gauge-span"),
    mark(scale(middle)),
    flag === null ? null : s("path", { class: "gauge-gift", d: `M${scale(flag)} 27V2l12 4l-12 4` }),
  );
}
