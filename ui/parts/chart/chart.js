// A chart that came drawn from the shell: SVG in classes, so that it follows the page's colours, with its words and its table.

import { button, h } from "../dom/dom.js";
import { disclosure } from "../disclosure/disclosure.js";
import { t } from "../../messages.js";

/** @typedef {import("../../types.d.ts").ChartView} ChartView */

/** The drawing as an element; what is no drawing is left out. @param {string} svg */
export function drawing(svg) {
  if (!svg) return null;
  const read = new DOMParser().parseFromString(svg, "image/svg+xml").documentElement;
  if (read.localName !== "svg") return null;
  const made = /** @type {SVGSVGElement} */ (/** @type {unknown} */ (document.importNode(read, true)));
  made.classList.add("chart-svg");
  return made;
}

/** The figures of a chart, behind a disclosure. @param {ChartView} chart @param {string} id */
function chartTable({ title, columns, rows }, id) {
  const cells = (/** @type {"th" | "td"} */ tag, /** @type {string[]} */ texts) =>
    h(
      "tr",
      null,
      texts.map((text) => h(tag, tag === "th" ? { scope: "col" } : null, text)),
    );
  const table = h(
    "table",
    { class: "chart-table" },
    h("thead", null, cells("th", columns)),
    h(
      "tbody",
      null,
      rows.map((row) => cells("td", row)),
    ),
  );
  const label = t("pace_as_table_named", { chart: title });
  return disclosure(
    t("pace_as_table"),
    { "data-key": `${id}-table` },
    h("div", { class: "chart-scroll", tabindex: 0, role: "group", "aria-label": label }, table),
  );
}

/**
 * @param {ChartView} chart
 * @param {(Node | null)[]} [controls] what changes it, between its title and the picture
 */
export function chartSection(chart, controls = []) {
  const id = `chart-${chart.what}`;
  return h(
    "section",
    { class: "chart", "aria-labelledby": id, "data-part": id, "data-key": id },
    h("h2", { id }, chart.title),
    controls,
    h(
      "figure",
      null,
      drawing(chart.svg),
      h(
        "figcaption",
        { "data-part": `${id}-text` },
        chart.sentences.map((words) => h("p", null, words)),
      ),
    ),
    chart.rows.length > 0 ? chartTable(chart, id) : null,
    chart.svg
      ? button("save-chart", t("pace_save_picture"), {
          class: "link no-print",
          "data-chart": chart.what,
          "aria-label": t("pace_save_picture_named", { chart: chart.title }),
        })
      : null,
  );
}
