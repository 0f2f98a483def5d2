// The drawing of the finish date over time.

import { s } from "../dom/dom.js";
import { t } from "../../messages.js";

/** @typedef {import("../../types.d.ts").DaysPicture} DaysPicture */

/** Pixels free at both sides. */
const EDGE = 10;

/** From days and shares of the warp to pixels. */
export class DaysScale {
  /** @param {number} days shown @param {number} width in pixels @param {number} rem font size in pixels */
  constructor(days, width, rem) {
    this.days = days;
    this.width = width;
    this.top = 1.6 * rem;
    this.height = 11 * rem;
  }

  /** @param {number} day from the first day shown */
  x(day) {
    return EDGE + (Math.min(Math.max(day, 0), this.days) / Math.max(this.days, 1)) * (this.width - 2 * EDGE);
  }

  /** @param {number} share of the warp, from 0 to 1 */
  y(share) {
    return this.top + (1 - Math.min(Math.max(share, 0), 1)) * this.height;
  }

  /** @param {number} day @param {number} share */
  point(day, share) {
    return `${this.x(day)} ${this.y(share)}`;
  }
}

/** @param {DaysPicture} picture @param {DaysScale} scale */
export function daysDrawing({ today, woven, fan, gift }, scale) {
  const { width, top } = scale;
  const total = top + scale.height + 10;
  const wovenShare = woven.at(-1)?.share ?? 0;
  const steps = woven.map(({ day, share }) => `H${scale.x(day)}V${scale.y(share)}`).join("");
  const wovenLine = `M${scale.point(0, 0)}${steps}H${scale.x(today)}`;
  return s(
    "svg",
    {
      class: "days-svg",
      role: "img",
      "aria-label": t("days_title"),
      "aria-describedby": "days-text",
      viewBox: `0 0 ${width} ${total}`,
      width,
      height: total,
    },
    s(
      "defs",
      null,
      s(
        "pattern",
        { id: "days-fan", width: 7, height: 7, patternUnits: "userSpaceOnUse" },
        s("path", { class: "fan-hatch", d: "M0 7L7 0" }),
      ),
    ),
    s("path", {
      class: "days-frame",
      d: `M${EDGE} ${scale.y(0)}H${width - EDGE}M${EDGE} ${scale.y(1)}H${width - EDGE}`,
    }),
    fanShapes(fan, scale.point(today, wovenShare), scale),
    s("path", { class: "days-woven-ground", d: `${wovenLine}V${scale.y(0)}H${scale.x(0)}Z` }),
    s("path", { class: "days-woven", d: wovenLine }),
    s("path", { class: "days-today", d: dayLine(today, scale) }),
    s("circle", { class: "days-now", cx: scale.x(today), cy: scale.y(wovenShare), r: 6 }),
    gift !== null && giftMark(gift, scale),
  );
}

/** The likely course and the range around it. @param {DaysPicture["fan"]} fan @param {string} start @param {DaysScale} scale */
function fanShapes(fan, start, scale) {
  if (fan.length === 0) return [];
  const high = fan.map((point) => scale.point(point.day, point.high));
  const low = fan.map((point) => scale.point(point.day, point.low)).reverse();
  const likely = fan.map((point) => scale.point(point.day, point.likely));
  return [
    s("path", { class: "fan", fill: "url(#days-fan)", d: `M${start}L${high.join("L")}L${low.join("L")}Z` }),
    s("path", { class: "fan-likely", d: `M${start}L${likely.join("L")}` }),
  ];
}

/** The day of the gift: a line with a bow. @param {number} day @param {DaysScale} scale */
function giftMark(day, scale) {
  const bow = `M${scale.x(day)} ${scale.top - 6}l-9 -6v12zm0 0l9 -6v12z`;
  return s("g", { class: "days-gift" }, s("path", { d: dayLine(day, scale) }), s("path", { class: "bow", d: bow }));
}

/** @param {number} day @param {DaysScale} scale */
function dayLine(day, scale) {
  return `M${scale.x(day)} ${scale.top - 6}V${scale.y(0) + 6}`;
}

/** Leads from a day to its label below. @param {number} day @param {DaysScale} scale */
export function tickLine(day, scale) {
  return s("path", { class: "leader", d: `M${scale.x(day)} ${scale.y(0)}v7` });
}
