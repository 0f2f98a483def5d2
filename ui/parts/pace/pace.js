// Pace: what each warp took, and three charts of it. The shell draws them for the width and the size of text there are.

import { morphChildren, closestTarget, h } from "../dom/dom.js";
import { onResize } from "../dom/size.js";
import { chartSection } from "../chart/chart.js";
import { LatestRequest } from "../request/request.js";
import { cardTable } from "../table/table.js";
import { help } from "../guide/help.js";
import { t } from "../../messages.js";
import { PictureFolder, SplitField, WithinField } from "./fields.js";

/** @typedef {import("../../types.d.ts").PaceView} PaceView */
/** @typedef {import("../../types.d.ts").PaceRow} PaceRow */
/** @typedef {import("../../main.js").Context} Context */

/** The columns of the table, with their headings. */
const HEADINGS = /** @type {const} */ ({
  name: "pace_warp",
  length: "pace_length",
  hours: "pace_hours",
  sittings: "pace_sittings",
  days: "pace_days",
  picks_per_hour: "pace_picks_per_hour",
  length_per_hour: "pace_length_per_hour",
  hours_per_length: "pace_hours_per_length",
});
const COLUMNS = /** @type {(keyof typeof HEADINGS)[]} */ (Object.keys(HEADINGS));

/** @param {Context} ctx @param {AbortSignal} signal */
export function paceScreen(ctx, signal) {
  const screen = new PaceScreen(ctx, signal);
  return { element: screen.element, update: () => screen.update() };
}

class PaceScreen {
  #split = new SplitField();
  #within = new WithinField();
  #folder = new PictureFolder();
  #body = h("div", { class: "pace-body" });
  element = h(
    "div",
    { class: "pace stack" },
    h("h1", { tabindex: -1 }, t("pace")),
    help("figures"),
    this.#body,
    this.#folder.element,
  );
  /** The split that the charts were asked for with. */
  #askedSplit = "";
  /** Width for which the charts were drawn, in pixels. */
  #drawnWidth = 0;

  /** @param {Context} ctx @param {AbortSignal} signal */
  constructor(ctx, signal) {
    this.ctx = ctx;
    this.request = new LatestRequest({
      ask: () => this.#ask(),
      show: (view) => this.#show(view),
      fail: ctx.showError,
      pause: 120,
      signal,
    });
    const splitWarps = (/** @type {Event} */ event) => {
      event.preventDefault();
      this.#askedSplit = this.#split.value;
      this.update();
    };
    const resized = () => {
      if (this.#body.clientWidth !== this.#drawnWidth) this.request.later();
    };
    this.#split.element.addEventListener("submit", splitWarps, { signal });
    this.#within.select.addEventListener("change", () => this.update(), { signal });
    this.#body.addEventListener("click", (event) => this.#saveChart(event), { signal });
    onResize(this.#body, resized, signal);
  }

  update() {
    this.request.now();
  }

  #ask() {
    const body = this.#body;
    const room = Math.max(Math.min(body.clientWidth, window.innerWidth - 32), 200);
    this.#drawnWidth = body.clientWidth;
    const text = Number.parseFloat(getComputedStyle(body).fontSize) || 16;
    // Two charts side by side where there is room.
    const width = room > 60 * text ? (room - 3 * text) / 2 : room;
    return this.ctx.shell.pace({ split: this.#askedSplit, within: this.#within.value, width, text: text * 0.9 });
  }

  /** @param {PaceView} view */
  #show(view) {
    const focused = document.activeElement;
    morphChildren(this.#body, [
      tableSection(view),
      h("div", { class: "charts", "data-key": "charts", "data-island": "charts" }),
    ]);
    this.#showCharts(view);
    this.#split.update(view, this.#split.isInput(focused));
    this.#within.update(view);
    if (focused instanceof HTMLElement && focused.isConnected) focused.focus({ preventScroll: true });
  }

  /** Charts are replaced as a whole; the fields between them and the open disclosures stay. @param {PaceView} view */
  #showCharts({ charts, within }) {
    const place = /** @type {HTMLElement} */ (this.#body.querySelector(".charts"));
    const open = new Set([...place.querySelectorAll("details[open]")].map((one) => one.getAttribute("data-key")));
    const fieldsOf = (/** @type {string} */ chart) => {
      if (chart === "split") return [this.#split.element];
      return chart === "within" && within.length > 0 ? [this.#within.element] : [];
    };
    place.replaceChildren(...charts.map((chart) => chartSection(chart, fieldsOf(chart.what))));
    for (const one of place.querySelectorAll("details")) one.open = open.has(one.getAttribute("data-key"));
  }

  /** @param {Event} event */
  async #saveChart(event) {
    const hit = closestTarget(event, "[data-act=save-chart]");
    if (!hit) return;
    const { ctx } = this;
    try {
      const path = await ctx.shell.export({
        what: `chart-${hit.dataset.chart}`,
        warp: this.#within.value,
        split: this.#split.value,
        folder: this.#folder.value,
      });
      if (path) ctx.notify(t("saved_to", { path }));
    } catch (refusal) {
      ctx.showError(refusal);
    }
  }
}

/** @param {PaceView} view */
function tableSection({ rows, counted }) {
  const table = () =>
    cardTable({
      name: "pace-table",
      part: "pace-table",
      columns: COLUMNS.map((column) => t(HEADINGS[column])),
      rows: rows.map(warpRow),
      cellClass: (column) => `pace-${COLUMNS[column]}`,
    });
  return h(
    "section",
    { "aria-labelledby": "pace-table", "data-key": "table" },
    h("h2", { id: "pace-table" }, t("pace_table")),
    rows.length > 0 ? table() : null,
    counted.map((sentence) => h("p", { class: "small quiet" }, sentence)),
  );
}

/** @param {PaceRow} row */
function warpRow(row) {
  return {
    key: row.id,
    part: "pace-row",
    header: [`${row.number} · ${row.name}`, h("span", { class: "small quiet pace-state" }, row.state)],
    cells: COLUMNS.slice(1).map((column) => row[column]),
  };
}
