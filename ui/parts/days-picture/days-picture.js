// The finish date as a picture over time: what was woven, day by day, and the fan to the end.

import { h, s } from "../dom/dom.js";
import { T } from "../../texts/texts.js";

/** @typedef {import("../../types.d.ts").DaysPicture} DaysPicture */

/** @param {{ signal: AbortSignal }} options */
export function daysPicture({ signal }) {
  const stage = h("div", { class: "days-stage" });
  const legend = h("p", { class: "small quiet", "data-part": "days-legend" });
  const text = h("figcaption", { id: "days-text", class: "small quiet", "data-part": "days-text" });
  const element = h(
    "figure",
    { class: "days-picture", "data-part": "days-picture", "data-island": "days", "data-key": "days-picture" },
    stage,
    text,
    legend,
  );
  /** @type {DaysPicture | null} */
  let picture = null;
  let drawn = "";

  const draw = () => {
    const width = stage.clientWidth;
    if (!picture || width === 0) return;
    const rem = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 16;
    const state = JSON.stringify([picture, width, rem]);
    if (state === drawn) return;
    drawn = state;
    const { days, today, woven, fan, gift } = picture;
    const top = 1.6 * rem;
    const height = 11 * rem;
    const edge = 10;
    const x = (/** @type {number} */ day) =>
      edge + (Math.min(Math.max(day, 0), days) / Math.max(days, 1)) * (width - 2 * edge);
    const y = (/** @type {number} */ share) => top + (1 - Math.min(Math.max(share, 0), 1)) * height;
    let line = `M${x(0)} ${y(0)}`;
    let now = 0;
    for (const { day, share } of woven) {
      line += `H${x(day)}V${y(share)}`;
      now = share;
    }
    line += `H${x(today)}`;
    const much = fan.map(({ day, high }) => `${x(day)} ${y(high)}`);
    const little = fan.map(({ day, low }) => `${x(day)} ${y(low)}`).reverse();
    const likely = fan.map((point) => `${x(point.day)} ${y(point.likely)}`);
    const from = `${x(today)} ${y(now)}`;
    const svg = s(
      "svg",
      {
        class: "days-svg",
        role: "img",
        "aria-label": T.days.title,
        "aria-describedby": "days-text",
        viewBox: `0 0 ${width} ${top + height + 10}`,
        width,
        height: top + height + 10,
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
      s("path", { class: "days-frame", d: `M${edge} ${y(0)}H${width - edge}M${edge} ${y(1)}H${width - edge}` }),
      fan.length > 0 &&
        s("path", { class: "fan", fill: "url(#days-fan)", d: `M${from}L${much.join("L")}L${little.join("L")}Z` }),
      fan.length > 0 && s("path", { class: "fan-likely", d: `M${from}L${likely.join("L")}` }),
      s("path", { class: "days-woven-ground", d: `${line}V${y(0)}H${x(0)}Z` }),
      s("path", { class: "days-woven", d: line }),
      s("path", { class: "days-today", d: `M${x(today)} ${top - 6}V${y(0) + 6}` }),
      s("circle", { class: "days-now", cx: x(today), cy: y(now), r: 6 }),
      gift !== null &&
        s(
          "g",
          { class: "days-gift" },
          s("path", { d: `M${x(gift)} ${top - 6}V${y(0) + 6}` }),
          // a bow
          s("path", { class: "bow", d: `M${x(gift)} ${top - 6}l-9 -6v12zm0 0l9 -6v12z` }),
        ),
    );
    const labels = h("div", { class: "days-ticks", "aria-hidden": "true" });
    stage.replaceChildren(h("span", { class: "days-all small", "aria-hidden": "true" }, T.days.all), svg, labels);
    /** @type {number[]} */
    const lanes = [];
    const ticks = [...picture.ticks].sort((one, other) => one.day - other.day);
    for (const tick of ticks) {
      const span = h("span", { class: "small" }, tick.label);
      labels.append(span);
      const size = span.offsetWidth;
      const start = Math.min(Math.max(x(tick.day) - size / 2, 0), Math.max(width - size, 0));
      let lane = lanes.findIndex((end) => end < start);
      if (lane < 0) lane = lanes.push(0) - 1;
      lanes[lane] = start + size + 10;
      span.style.insetInlineStart = `${start}px`;
      span.style.top = `${lane * 1.3}em`;
      svg.append(s("path", { class: "leader", d: `M${x(tick.day)} ${y(0)}v7` }));
    }
    labels.style.height = `${lanes.length * 1.3}em`;
  };
  const watch = new ResizeObserver(draw);
  watch.observe(stage);
  signal.addEventListener("abort", () => watch.disconnect());
  return {
    element,
    /** @param {DaysPicture} next */
    update(next) {
      picture = next;
      text.textContent = next.text;
      legend.textContent = next.fan.length > 0 ? T.days.legend : T.days.woven;
      draw();
    },
  };
}
