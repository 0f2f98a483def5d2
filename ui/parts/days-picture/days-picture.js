// The finish date over time: what was woven day by day, and the range of days on which the piece may be finished.

import { h } from "../dom/dom.js";
import { onResize, rootFontSize } from "../dom/size.js";
import { t } from "../../messages.js";
import { DaysScale, daysDrawing, tickLine } from "./drawing.js";

/** @typedef {import("../../types.d.ts").DaysPicture} DaysPicture */

/** @param {{ signal: AbortSignal }} options */
export function daysPicture(options) {
  return new DaysFigure(options);
}

class DaysFigure {
  /** @type {DaysPicture | null} */
  #picture = null;
  /** What the drawing was made from. */
  #drawnFrom = "";
  #area = h("div", { class: "days-area" });
  #legend = h("p", { class: "small quiet", "data-part": "days-legend" });
  #text = h("figcaption", { id: "days-text", class: "small quiet", "data-part": "days-text" });
  element = h(
    "figure",
    { class: "days-picture", "data-part": "days-picture", "data-island": "days", "data-key": "days-picture" },
    this.#area,
    this.#text,
    this.#legend,
  );

  /** @param {{ signal: AbortSignal }} options */
  constructor({ signal }) {
    onResize(this.#area, () => this.#draw(), signal);
  }

  /** @param {DaysPicture} picture */
  update(picture) {
    this.#picture = picture;
    this.#text.textContent = picture.text;
    this.#legend.textContent = picture.fan.length > 0 ? t("days_legend") : t("days_woven");
    this.#draw();
  }

  #draw() {
    const picture = this.#picture;
    const width = this.#area.clientWidth;
    if (!picture || width === 0) return;
    const rem = rootFontSize();
    const drawnFrom = JSON.stringify([picture, width, rem]);
    if (drawnFrom === this.#drawnFrom) return;
    this.#drawnFrom = drawnFrom;
    const scale = new DaysScale(picture.days, width, rem);
    const svg = daysDrawing(picture, scale);
    const labels = h("div", { class: "days-ticks", "aria-hidden": "true" });
    this.#area.replaceChildren(
      h("span", { class: "days-all small", "aria-hidden": "true" }, t("days_whole")),
      svg,
      labels,
    );
    placeTicks(picture.ticks, labels, scale);
    svg.append(...picture.ticks.map(({ day }) => tickLine(day, scale)));
  }
}

/**
 * Puts the labels under their days, in as many rows as they need so that none covers another.
 * @param {DaysPicture["ticks"]} ticks @param {HTMLElement} labels already on the page @param {DaysScale} scale
 */
function placeTicks(ticks, labels, scale) {
  /** Where the last label of each row ends. @type {number[]} */
  const rowEnds = [];
  for (const { day, label } of [...ticks].sort((one, other) => one.day - other.day)) {
    const span = h("span", { class: "small" }, label);
    labels.append(span);
    const width = span.offsetWidth;
    const start = Math.min(Math.max(scale.x(day) - width / 2, 0), Math.max(scale.width - width, 0));
    let row = rowEnds.findIndex((end) => end < start);
    if (row < 0) row = rowEnds.push(0) - 1;
    rowEnds[row] = start + width + 10;
    span.style.insetInlineStart = `${start}px`;
    span.style.top = `${row * 1.3}em`;
  }
  labels.style.height = `${rowEnds.length * 1.3}em`;
}
