// Cutting off, measuring the cloth, and one finishing step: forms on the warp that is shown.

import { button, closestTarget, h } from "../dom/dom.js";
import { formEnd, section } from "../form/fields.js";
import { Form } from "../form/form.js";
import { t } from "../../messages.js";

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
      t("off_before_washing"),
      form.day({ name: "on", label: t("off_cut_on"), hint: isOff ? undefined : t("off_cut_on_hint") }),
      lengthField(form, length, "off_loom", t("off_length"), t("off_length_hint")),
      lengthField(form, length, "fell_width", t("off_fell_width"), t("off_fell_width_hint")),
      lengthField(form, length, "off_loom_width", t("off_width")),
    ),
    section(
      t("off_rest"),
      lengthField(form, length, "front", t("off_front"), t("off_front_hint")),
      lengthField(form, length, "thrums", t("off_thrums"), t("off_thrums_hint")),
      massField(form, mass, "weft_over", t("off_weft_over"), t("sitting_weft_left_hint")),
    ),
    section(
      t("off_after_washing"),
      lengthField(form, length, "finished", t("off_finished_length")),
      lengthField(form, length, "finished_width", t("off_finished_width")),
      massField(form, mass, "finished_mass", t("off_finished_weight"), t("off_finished_weight_hint")),
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
      ctx.notify(isOff ? t("off_saved") : t("off_cut_done"));
      ctx.go("#/loom");
    },
  });
  form.element.append(
    form.general,
    h("p", { class: "quiet" }, t("off_all_pieces")),
    ...measureSections(form, format, isOff),
    formEnd(
      { label: isOff ? t("save") : t("loom_cut_off"), part: "off-save", primary: false },
      h("a", { class: "link", href: "#/loom", "data-part": "off-back" }, t("back")),
    ),
  );
  const element = h(
    "div",
    { class: "stack" },
    h("h1", { tabindex: -1 }, isOff ? t("off_measure_title") : t("off_cut_title")),
    h("p", { class: "quiet" }, isOff ? loom.name : t("off_cut_lead", { name: loom.name })),
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
      ctx.notify(t("off_step_saved"));
      ctx.go("#/loom");
    },
  });
  form.element.append(
    form.general,
    form.text({ name: "name", label: t("off_step_name") }),
    ...(step ? [form.day({ name: "on", label: t("off_step_on"), hint: t("off_step_on_hint"), quick: true })] : []),
    formEnd(
      { label: t("save"), part: "step-save", primary: false },
      h("a", { class: "link", href: "#/loom" }, t("back")),
      step ? button("step-remove", t("off_step_remove"), { class: "link" }) : null,
    ),
  );
  const element = h(
    "div",
    { class: "stack" },
    h("h1", { tabindex: -1 }, step ? t("off_step") : t("off_step_add")),
    form.element,
  );
  element.addEventListener(
    "click",
    async (event) => {
      const act = closestTarget(event, "[data-act]");
      if (act?.dataset.act !== "step-remove" || !step) return;
      if (await ctx.attempt(ctx.shell.removeStep(loom.id, step.id), t("off_step_removed"))) ctx.go("#/loom");
    },
    { signal },
  );
  return { element, update() {} };
}
