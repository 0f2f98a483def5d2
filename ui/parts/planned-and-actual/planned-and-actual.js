// A warp off the loom: its finishing steps with their days, planned and actual figures, and what was learned from it.

import { h } from "../dom/dom.js";
import { disclosure } from "../disclosure/disclosure.js";
import { cardTable } from "../table/table.js";
import { t } from "../../messages.js";

/** @typedef {import("../../types.d.ts").LoomView} LoomView */
/** @typedef {import("../../types.d.ts").StepView} StepView */

/** @param {StepView} step */
function tick(step) {
  const done = step.done_on !== null;
  return h(
    "li",
    { "data-key": step.id, class: done ? "step done" : "step", "data-part": "step", "data-step": step.id },
    h(
      "button",
      {
        type: "button",
        class: "step-tick",
        "data-act": "tick-step",
        "data-step": step.id,
        "data-done": String(done),
        "aria-pressed": String(done),
        "aria-label": t("off_step_done", { name: step.name }),
      },
      h("span", { class: "step-box", "aria-hidden": "true" }),
      h("span", null, step.name),
    ),
    h("span", { class: "small quiet", "data-part": "step-done" }, step.done),
    h(
      "a",
      {
        class: "link small no-print",
        href: `#/step/${step.id}`,
        "aria-label": t("change_named", { name: step.name }),
        "data-part": "step-change",
      },
      t("change"),
    ),
  );
}

/** @param {LoomView["off"]} off */
function table(off) {
  return cardTable({
    name: "planned-and-actual-table",
    part: "planned-and-actual",
    columns: [t("off_figure"), t("off_planned"), t("off_actual"), t("off_difference")],
    rows: off.planned_and_actual.map((row) => ({
      key: row.what,
      header: row.what,
      cells: [row.planned, row.actual, row.difference],
    })),
  });
}

/** @param {LoomView} loom */
export function plannedAndActual(loom) {
  const { off } = loom;
  const unfinished = off.steps.some((step) => step.done_on === null);
  return h(
    "div",
    { class: "planned-and-actual", "data-key": "planned-and-actual" },
    h(
      "section",
      { "aria-labelledby": "finishing-title", "data-key": "finishing" },
      h("h2", { id: "finishing-title" }, t("off_finishing")),
      h("p", { class: "headline", "data-part": "off-line" }, off.line),
      unfinished ? h("p", { "data-part": "off-when" }, loom.finish_date.headline) : null,
      h("ol", { class: "steps", "data-part": "steps" }, off.steps.map(tick)),
      h("a", { class: "link no-print", href: "#/step/new", "data-part": "step-add" }, t("off_step_add")),
    ),
    off.learned.length > 0
      ? h(
          "section",
          { "aria-labelledby": "lessons-title", "data-key": "lessons", "data-part": "lessons" },
          h("h2", { id: "lessons-title" }, t("off_lessons")),
          h("p", { class: "small quiet" }, t("off_lessons_hint")),
          h(
            "dl",
            { class: "lessons" },
            off.learned
              .map((lesson) => [
                h("dt", null, lesson.what),
                h("dd", null, lesson.sentence, h("span", { class: "small quiet" }, ` (${lesson.behind})`)),
              ])
              .flat(),
          ),
        )
      : null,
    h(
      "section",
      { "aria-labelledby": "planned-and-actual-title", "data-key": "table", class: "planned-and-actual-wide" },
      h("h2", { id: "planned-and-actual-title" }, t("off_planned_and_actual")),
      table(off),
      h("a", { class: "button no-print", href: "#/cut-off", "data-part": "measure" }, t("off_measure")),
      off.missing.length > 0
        ? disclosure(
            t("off_not_measured"),
            { "data-key": "missing", "data-part": "missing" },
            h(
              "ul",
              { class: "plain-list" },
              off.missing.map((words) => h("li", null, words)),
            ),
          )
        : null,
    ),
  );
}

/**
 * What a press on a step does; whether it was one.
 * @param {import("../../main.js").Context} ctx @param {HTMLElement} hit @param {LoomView} loom
 */
export function tickStep(ctx, hit, loom) {
  if (hit.dataset.act !== "tick-step") return false;
  const done = hit.dataset.done === "true";
  ctx.attempt(ctx.shell.tickStep(loom.id, hit.dataset.step ?? "", done ? null : ""), "");
  return true;
}
