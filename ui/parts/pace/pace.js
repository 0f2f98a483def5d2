// Pace: what each warp took, and three pictures of how it goes. The shell draws them for the width and the text there are.

import { morphChildren, h } from "../dom/dom.js";
import { disclosure } from "../disclosure/disclosure.js";
import { chartSection } from "../chart/chart.js";
import { LatestRequest } from "../request/request.js";
import { cardTable } from "../table/table.js";
import { CARRY } from "../../texts/carry.js";
import { PACE } from "../../texts/pace.js";

/** @typedef {import("../../types.d.ts").PaceView} PaceView */
/** @typedef {import("../../types.d.ts").PaceRow} PaceRow */

const COLUMNS = /** @type {(keyof typeof PACE.columns)[]} */ (Object.keys(PACE.columns));

/** @param {PaceRow} row */
function warpRow(row) {
  return {
    key: row.id,
    part: "pace-row",
    header: [`${row.number} · ${row.name}`, h("span", { class: "small quiet pace-state" }, row.state)],
    cells: COLUMNS.slice(1).map((column) => row[column]),
  };
}

/** @param {import("../../main.js").Context} ctx @param {AbortSignal} signal */
export function paceScreen(ctx, signal) {
  const body = h("div", { class: "pace-body" });
  const element = h("div", { class: "pace stack" }, h("h1", { tabindex: -1 }, PACE.title), body);
  const split = h("input", {
    type: "text",
    id: "pace-split",
    inputmode: "decimal",
    "data-part": "pace-split",
    "aria-describedby": "pace-split-trouble",
  });
  const trouble = h("p", {
    class: "trouble",
    id: "pace-split-trouble",
    "data-part": "pace-split-trouble",
    hidden: true,
  });
  const splitForm = h(
    "form",
    { class: "pace-split field no-print", novalidate: true, autocomplete: "off" },
    h("label", { for: "pace-split" }, PACE.split),
    h(
      "div",
      { class: "field-line" },
      split,
      h("button", { type: "submit", class: "button", "data-part": "pace-split-do" }, PACE.splitDo),
    ),
    trouble,
  );
  const within = h("select", { id: "pace-within", "data-part": "pace-within" });
  const withinField = h(
    "div",
    { class: "field no-print" },
    h("label", { for: "pace-within" }, PACE.within),
    h("div", { class: "field-line" }, within),
  );
  // Where pictures go without being asked each time.
  const folder = h("input", {
    type: "text",
    id: "pace-folder",
    "data-part": "pace-folder",
    spellcheck: "false",
    "aria-describedby": "pace-folder-hint",
  });
  const folderField = disclosure(
    PACE.pictures,
    { class: "pace-pictures no-print" },
    h(
      "div",
      { class: "field" },
      h("label", { for: "pace-folder" }, CARRY.folder),
      h("p", { class: "hint", id: "pace-folder-hint" }, CARRY.folderHint),
      h("div", { class: "field-line" }, folder),
    ),
  );
  let asked = "";
  let width = 0;

  /** @param {PaceView} view */
  const show = (view) => {
    const at = document.activeElement;
    morphChildren(body, [
      h(
        "section",
        { "aria-labelledby": "pace-table", "data-key": "table" },
        h("h2", { id: "pace-table" }, PACE.table),
        view.rows.length > 0
          ? cardTable({
              name: "pace-table",
              part: "pace-table",
              columns: COLUMNS.map((column) => PACE.columns[column]),
              rows: view.rows.map(warpRow),
              cellClass: (column) => `pace-${COLUMNS[column]}`,
            })
          : null,
        view.counted.map((words) => h("p", { class: "small quiet" }, words)),
      ),
      h("div", { class: "charts", "data-key": "charts", "data-island": "charts" }),
    ]);
    const place = /** @type {HTMLElement} */ (body.querySelector(".charts"));
    // A drawing comes whole and new; what she types into and chooses from stays.
    const open = new Set([...place.querySelectorAll("details[open]")].map((one) => one.getAttribute("data-key")));
    place.replaceChildren(
      ...view.charts.map((chart) =>
        chartSection(
          chart,
          chart.what === "split" ? [splitForm] : chart.what === "within" && view.within.length > 0 ? [withinField] : [],
        ),
      ),
    );
    for (const one of place.querySelectorAll("details")) one.open = open.has(one.getAttribute("data-key"));
    if (at !== split && !view.split_trouble) split.value = view.split;
    trouble.textContent = view.split_trouble ?? "";
    trouble.hidden = !view.split_trouble;
    if (view.split_trouble) split.setAttribute("aria-invalid", "true");
    else split.removeAttribute("aria-invalid");
    within.replaceChildren(
      ...view.within.map((one) => h("option", { value: one.id, selected: one.id === view.within_shown }, one.name)),
    );
    if (at instanceof HTMLElement && at.isConnected) at.focus({ preventScroll: true });
  };

  const request = new LatestRequest({
    ask: () => {
      const room = Math.max(Math.min(body.clientWidth, window.innerWidth - 32), 200);
      width = body.clientWidth;
      const text = Number.parseFloat(getComputedStyle(body).fontSize) || 16;
      // Two beside each other where there is room; the drawing is as wide as its place.
      const wide = room > 60 * text ? (room - 3 * text) / 2 : room;
      return ctx.shell.pace({ split: asked, within: within.value || null, width: wide, text: text * 0.9 });
    },
    show,
    fail: ctx.complain,
    pause: 120,
    signal,
  });
  const ask = () => request.now();
  element.append(folderField);
  splitForm.addEventListener(
    "submit",
    (event) => {
      event.preventDefault();
      asked = split.value;
      ask();
    },
    { signal },
  );
  within.addEventListener("change", ask, { signal });
  body.addEventListener(
    "click",
    async (event) => {
      const hit = /** @type {HTMLElement | null} */ (
        /** @type {Element} */ (event.target).closest("[data-act=save-chart]")
      );
      if (!hit) return;
      const wanted = {
        what: `chart-${hit.dataset.chart}`,
        warp: within.value || null,
        split: split.value,
        folder: folder.value,
      };
      try {
        const path = await ctx.shell.export(wanted);
        if (path) ctx.say(PACE.saved(path));
      } catch (refusal) {
        ctx.complain(refusal);
      }
    },
    { signal },
  );
  const watch = new ResizeObserver(() => {
    if (body.clientWidth !== width) request.later();
  });
  watch.observe(body);
  signal.addEventListener("abort", () => watch.disconnect());
  return { element, update: ask };
}
