// Cutting off, measuring the cloth, and one finishing step: forms on the warp that is shown.

import { button, closestTarget, h } from "../dom/dom.js";
import { Form } from "../form/form.js";
import { OFF } from "../../texts/off.js";

/** @typedef {import("../../main.js").Context} Context */

/** @param {Context} ctx @param {AbortSignal} signal */
export function cutOffScreen(ctx, signal) {
  const { loom, format } = ctx.view();
  if (!loom) return null;
  const isOff = loom.state === "off_the_loom";
  const length = format.length_unit;
  const form = new Form({
    id: "off",
    draft: `off-${loom.id}`,
    values: loom.off.form,
    ctx,
    signal,
    async submit(written) {
      ctx.show(await ctx.shell.cutOff(loom.id, written, loom.seen));
      ctx.say(isOff ? OFF.kept : OFF.cutNow);
      ctx.go("#/loom");
    },
  });
  const measure = (/** @type {string} */ name, /** @type {string} */ label, hint = "") =>
    form.text({ name, label, hint, unit: length, what: "length", keys: "decimal" });
  const mass = (/** @type {string} */ name, /** @type {string} */ label, /** @type {string} */ hint) =>
    form.text({ name, label, hint, unit: format.mass_unit, what: "mass", keys: "decimal" });
  const part = (/** @type {string} */ id, /** @type {string} */ title, /** @type {HTMLElement[]} */ fields) =>
    h(
      "section",
      { "aria-labelledby": `off-${id}` },
      h("h2", { id: `off-${id}` }, title),
      h("div", { class: "form-grid" }, fields),
    );
  form.element.append(
    form.general,
    h("p", { class: "quiet" }, OFF.pieces),
    part("now", OFF.now, [
      form.day({ name: "on", label: OFF.on, hint: isOff ? undefined : OFF.onHint }),
      measure("off_loom", OFF.offLoom, OFF.offLoomHint),
      measure("fell_width", OFF.fellWidth, OFF.fellWidthHint),
      measure("off_loom_width", OFF.offLoomWidth),
    ]),
    part("waste", OFF.waste, [
      measure("front", OFF.front, OFF.frontHint),
      measure("thrums", OFF.thrums, OFF.thrumsHint),
      mass("weft_over", OFF.weftOver, OFF.weftOverHint),
    ]),
    part("washed", OFF.washed, [
      measure("finished", OFF.finished),
      measure("finished_width", OFF.finishedWidth),
      mass("finished_mass", OFF.finishedMass, OFF.massHint),
    ]),
    h(
      "div",
      { class: "form-end" },
      h("button", { type: "submit", class: "button", "data-part": "off-save" }, isOff ? OFF.keep : OFF.save),
      h("a", { class: "link", href: "#/loom", "data-part": "off-back" }, OFF.back),
    ),
  );
  const element = h(
    "div",
    { class: "stack" },
    h("h1", { tabindex: -1 }, isOff ? OFF.measure : OFF.cutOff),
    h("p", { class: "quiet" }, OFF.of(loom.name), isOff ? "" : `. ${OFF.cutOffLead}`),
    form.element,
  );
  return { element, update() {} };
}

/** @param {Context} ctx @param {AbortSignal} signal @param {string} param id of the step, or `new` */
export function stepScreen(ctx, signal, param) {
  const { loom } = ctx.view();
  const step = loom?.off.steps.find(({ id }) => id === param);
  if (!loom || (!step && param !== "new")) return null;
  const form = new Form({
    id: "step",
    draft: `step-${param}`,
    values: { name: step?.name ?? "", on: step?.done_on ?? "" },
    ctx,
    signal,
    async submit({ name, on }) {
      ctx.show(await (step ? ctx.shell.changeStep(loom.id, step.id, name, on) : ctx.shell.addStep(loom.id, name)));
      ctx.say(OFF.stepKept);
      ctx.go("#/loom");
    },
  });
  form.element.append(
    form.general,
    form.text({ name: "name", label: OFF.stepName }),
    ...(step ? [form.day({ name: "on", label: OFF.stepOn, hint: OFF.stepOnHint, quick: true })] : []),
    h(
      "div",
      { class: "form-end" },
      h("button", { type: "submit", class: "button", "data-part": "step-save" }, OFF.stepSave),
      h("a", { class: "link", href: "#/loom" }, OFF.back),
      step ? button("step-remove", OFF.stepRemove, { class: "link" }) : null,
    ),
  );
  const element = h("div", { class: "stack" }, h("h1", { tabindex: -1 }, step ? OFF.step : OFF.add), form.element);
  element.addEventListener(
    "click",
    async (event) => {
      const act = closestTarget(event, "[data-act]");
      if (act?.dataset.act !== "step-remove" || !step) return;
      if (await ctx.attempt(ctx.shell.removeStep(loom.id, step.id), OFF.stepRemoved)) ctx.go("#/loom");
    },
    { signal },
  );
  return { element, update() {} };
}
