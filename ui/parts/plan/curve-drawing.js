// The drawing of width against length.

import { s } from "../dom/dom.js";
import { t } from "../../messages.js";

/** @typedef {import("../../types.d.ts").PlanCurve} PlanCurve */

/** From millimetres to pixels. */
export class CurveScale {
  /** @param {PlanCurve} curve @param {number} width in pixels @param {number} rem font size in pixels */
  constructor(curve, width, rem) {
    this.width = width;
    this.rem = rem;
    this.height = 17 * rem;
    this.top = 2.2 * rem;
    this.widest_mm = Math.max(...curve.points.map(({ width_mm }) => width_mm), 1);
    this.longest_mm = Math.max(curve.longest_mm, 1);
  }

  /** @param {number} width_mm */
  x(width_mm) {
    const left = 4.6 * this.rem;
    return left + (width_mm / this.widest_mm) * (this.width - left - 14);
  }

  /** @param {number} length_mm */
  y(length_mm) {
    const bottom = 3.2 * this.rem;
    return this.top + (1 - length_mm / this.longest_mm) * (this.height - this.top - bottom);
  }
}

/** @param {PlanCurve} curve @param {CurveScale} scale */
export function curveDrawing(curve, scale) {
  const { width, height, rem } = scale;
  const [originX, originY] = [scale.x(0), scale.y(0)];
  const line = (/** @type {0 | 1 | 2} */ bound) =>
    curve.points.map((point) => `${scale.x(point.width_mm)} ${scale.y(point.length_mm[bound])}`);
  const [shortest, likely, longest] = [line(0), line(1), line(2)];
  return s(
    "svg",
    {
      class: "curve-svg",
      "aria-hidden": "true",
      focusable: "false",
      width,
      height,
      viewBox: `0 0 ${width} ${height}`,
    },
    patterns(),
    s("rect", { class: "curve-piece", x: originX, y: originY, width: 0, height: 0, fill: "url(#curve-cloth)" }),
    s("path", {
      class: "curve-band",
      fill: "url(#curve-band)",
      d: `M${longest.join("L")}L${shortest.reverse().join("L")}Z`,
    }),
    s("path", { class: "curve-line", d: `M${likely.join("L")}` }),
    s("path", { class: "curve-axes", d: `M${originX} ${scale.top}V${originY}H${width - 8}` }),
    curve.width_ticks.map(({ at_mm, label }) => widthTick(scale.x(at_mm), label, scale)),
    curve.length_ticks.map(({ at_mm, label }) => lengthTick(scale.y(at_mm), label, scale)),
    s(
      "text",
      { class: "curve-name", x: width - 10, y: originY + 2.7 * rem, "text-anchor": "end" },
      t("plan_curve_width"),
    ),
    s("text", { class: "curve-name", x: 0, y: 0.9 * rem }, t("plan_curve_length")),
  );
}

function patterns() {
  return s(
    "defs",
    null,
    s(
      "pattern",
      { id: "curve-band", width: 7, height: 7, patternUnits: "userSpaceOnUse" },
      s("path", { class: "curve-hatch", d: "M0 7L7 0" }),
    ),
    s(
      "pattern",
      { id: "curve-cloth", width: 6, height: 6, patternUnits: "userSpaceOnUse" },
      s("path", { class: "curve-weave", d: "M1.5 0V3M4.5 3V6M3 1.5H6M0 4.5H3" }),
    ),
  );
}

/** @param {number} x @param {string} label @param {CurveScale} scale */
function widthTick(x, label, scale) {
  const axis = scale.y(0);
  return s(
    "g",
    { class: "curve-tick" },
    s("path", { d: `M${x} ${axis}v6` }),
    s("text", { x, y: axis + 1.35 * scale.rem, "text-anchor": "middle" }, label),
  );
}

/** @param {number} y @param {string} label @param {CurveScale} scale */
function lengthTick(y, label, scale) {
  const axis = scale.x(0);
  return s(
    "g",
    { class: "curve-tick" },
    s("path", { d: `M${axis} ${y}h-6` }),
    s("text", { x: axis - 9, y: y + 0.3 * scale.rem, "text-anchor": "end" }, label),
  );
}
