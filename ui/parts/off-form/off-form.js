// Cutting off, measuring the cloth, and one finishing step: forms on the warp that is shown.

import { button, closestTarget, h } from "../dom/dom.js";
import { formEnd, section } from "../form/fields.js";
import { Form } from "../form/form.js";
import { OFF } from "../../texts/off.js";

/** @typedef {import("../../main.js").Context} Context */

/** @typedef {import("../../types.d.ts").OffForm} OffValues */
/** @typedef {import("../../types.d.ts").FormatView} FormatView */

/** @param {Form<OffValues>} form @param {string} unit @param {string} name @param {string} label @param {string} [hint] */
function lengthField(form, unit, name, label, hint = "") {
  return form.text({ name, label, hint, unit, what: "length", keys: "decimal" });
}

/** @param {Form<OffValues>} form @param {string} unit @param {string} name @param {string} label @param {string} hint */
function massField(form, unit, name, label, hint) {
  return form.text({ name, label, hint, unit, what: "mass", keys: "decimal" });
}

/** What is measured when the warp is cut off, what was waste, and the cloth after washing. @param {Form<OffValues>} form @param {FormatView} format @param {boolean} isOff whether it is cut off already */
function measureSections(form, { length_unit: length, mass_unit: mass }, isOff) {
  return [
    section(
      OFF.now,
      form.day({ name: "on", label: OFF.on, hint: isOff ? undefined : OFF.onHint }),
      lengthField(form, length, "off_loom", OFF.offLoom, OFF.offLoomHint),
      lengthField(form, length, "fell_width", OFF.fellWidth, OFF.fellWidthHint),
      lengthField(form, length, "off_loom_width", OFF.offLoomWidth),
    ),
    section(
      OFF.waste,
      lengthField(form, length, "front", OFF.front, OFF.frontHint),
      lengthField(form, length, "thrums", OFF.thrums, OFF.thrumsHint),
      massField(form, mass, "weft_over", OFF.weftOver, OFF.weftOverHint),
    ),
    section(
      OFF.washed,
      lengthField(form, length, "finished", OFF.finished),
      lengthField(form, length, "finished_width", OFF.finishedWidth),
      massField(form, mass, "finished_mass", OFF.finishedMass, OFF.massHint),
    ),
  ];
}

/** @param {Context} ctx @param {AbortSignal} signal */
export function cutOffScreen(ctx, signal) {
  const { loom, format } = ctx.view();
  if (!loom) return null;
  const isOff = loom.state === "off_the_loom";
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
  form.element.append(
    form.general,
    h("p", { class: "quiet" }, OFF.pieces),
    ...measureSections(form, format, isOff),
    formEnd(
      { label: isOff ? OFF.keep : OFF.save, part: "off-save", primary: false },
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
    formEnd(
      { label: OFF.stepSave, part: "step-save", primary: false },
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
