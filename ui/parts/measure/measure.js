// A look with the tape or the scale between or within sittings: measured, mark moved, yarns weighed, a yarn taken up.

import { h } from "../dom/dom.js";
import { disclosure } from "../disclosure/disclosure.js";
import { grid } from "../form/fields.js";
import { Form } from "../form/form.js";
import { tapeFields } from "../form/tape.js";
import { L } from "../../texts/at-loom.js";
import { T } from "../../texts/texts.js";

/** @typedef {import("../../main.js").Context} Context */
/** @typedef {import("../../types.d.ts").YarnView} YarnView */

/** @template {import("../form/form.js").Values} V @param {import("../form/form.js").Form<V>} form @param {YarnView[]} yarns */
function scale(form, yarns) {
  /** @type {[string, string][]} */
  const others = yarns.filter((yarn) => !yarn.in_use).map((yarn) => [yarn.id, yarn.name]);
  return h(
    "section",
    { "aria-labelledby": "reading-yarns" },
    h("h2", { id: "reading-yarns" }, L.measure.yarns),
    h("p", { class: "small quiet" }, L.measure.yarnHint),
    h(
      "div",
      { class: "form-grid" },
      yarns.map((yarn) =>
        h(
          "div",
          { class: "field-group" },
          form.text({ name: `left_${yarn.id}`, label: yarn.name, what: "yarn_left" }),
          yarn.tare && form.check({ name: `shuttle_${yarn.id}`, label: L.measure.onShuttle(yarn.tare) }),
        ),
      ),
      others.length > 0 &&
        form.choice({
          name: "take_up",
          label: L.measure.takeUp,
          fallback: "",
          choices: [["", L.measure.takeUpSame], ...others],
        }),
    ),
  );
}

/** @param {Context} ctx @param {AbortSignal} signal @param {string} param `advance` when the cloth is wound on */
export function measureScreen(ctx, signal, param) {
  const { loom, format, running } = ctx.view();
  if (!loom) return null;
  const advance = param === "advance";
  const atLoom = advance || running?.warp === loom.id;
  const backTo = atLoom ? "#/tap" : "#/loom";
  const left = (/** @type {string} */ id) => `left_${id}`;
  const shuttle = (/** @type {string} */ id) => `shuttle_${id}`;
  const form = new Form({
    id: "reading",
    draft: `reading ${loom.id} ${param}`,
    values: {
      measured: "",
      // Once there is a mark, that is where the tape can start after the cloth is wound on.
      measured_from: advance && loom.picture.marks.length > 0 ? "mark" : "start",
      measured_tension: "",
      mark_set: advance,
      warp_mark: "",
      rough: false,
      take_up: "",
      ...Object.fromEntries(loom.yarns.map(({ id }) => [left(id), ""])),
      ...Object.fromEntries(loom.yarns.map(({ id }) => [shuttle(id), false])),
    },
    ctx,
    signal,
    async submit(written) {
      const { view, messages } = await ctx.shell.addMeasurement(loom.id, {
        on: "",
        measured: written.measured,
        measured_from: written.measured_from,
        measured_tension: written.measured_tension,
        mark_set: written.mark_set,
        warp_mark: written.warp_mark,
        rough: written.rough,
        yarns_left: loom.yarns.map(({ id }) => ({
          yarn: id,
          left: form.valueOf(left(id)),
          on_shuttle: form.isChecked(shuttle(id)),
        })),
        take_up: written.take_up,
      });
      ctx.show(view);
      ctx.say(L.measure.kept);
      ctx.tell(L.told.title, messages);
      ctx.go(backTo);
    },
  });
  const tape = tapeFields(form, { unit: format.length_unit, label: L.measure.measured, mark: L.measure.mark });
  form.element.append(
    form.general,
    grid(tape.measured, tape.markSet, tape.from, tape.tension),
    ...(loom.yarns.length > 0 ? [scale(form, loom.yarns)] : []),
    form.check({ name: "rough", label: T.sitting.rough }),
    disclosure(
      L.measure.warpMark,
      { "data-part": "reading-more-mark" },
      grid(
        form.text({
          name: "warp_mark",
          label: L.measure.warpMarkLabel,
          hint: L.measure.warpMarkHint,
          unit: format.length_unit,
          what: "length",
          keys: "decimal",
        }),
      ),
    ),
    h(
      "div",
      { class: "form-end" },
      h("button", { type: "submit", class: "shuttle", "data-part": "reading-save" }, L.measure.save),
      h("a", { class: "link", href: backTo, "data-part": "reading-back" }, atLoom ? L.back : L.backLoom),
    ),
  );
  const element = h(
    "div",
    { class: "page stack" },
    h("h1", { tabindex: -1 }, advance ? L.measure.advance : L.measure.title),
    h("p", { class: "quiet" }, loom.name),
    h("p", null, L.measure.lead),
    form.element,
  );
  return { element, update() {} };
}
