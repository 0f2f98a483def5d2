// Measuring and weighing between or within sittings: a length, a mark, what is left of each yarn, a yarn taken up.

import { h } from "../dom/dom.js";
import { folded, formEnd, grid } from "../form/fields.js";
import { Form } from "../form/form.js";
import { tapeFields } from "../form/tape.js";
import { t } from "../../messages.js";

/** @typedef {import("../../main.js").Context} Context */
/** @typedef {import("../../types.d.ts").LoomView} LoomView */
/** @typedef {import("../../types.d.ts").YarnView} YarnView */
/** @typedef {ReturnType<typeof startValues>} MeasureValues */

/** @param {string} yarn its id */
const leftField = (yarn) => `left_${yarn}`;
/** @param {string} yarn its id */
const shuttleField = (yarn) => `shuttle_${yarn}`;

/** What is left of each yarn, and which is used next. @param {Form<MeasureValues>} form @param {YarnView[]} yarns */
function yarnFields(form, yarns) {
  /** @type {[string, string][]} */
  const others = yarns.filter((yarn) => !yarn.in_use).map((yarn) => [yarn.id, yarn.name]);
  return h(
    "section",
    { "aria-labelledby": "reading-yarns" },
    h("h2", { id: "reading-yarns" }, t("measure_yarn_left")),
    h("p", { class: "small quiet" }, t("measure_yarn_hint")),
    h(
      "div",
      { class: "form-grid" },
      yarns.map((yarn) =>
        h(
          "div",
          { class: "field-group" },
          form.text({ name: leftField(yarn.id), label: yarn.name, what: "yarn_left" }),
          yarn.tare &&
            form.check({ name: shuttleField(yarn.id), label: t("measure_on_shuttle", { weight: yarn.tare }) }),
        ),
      ),
      others.length > 0 &&
        form.choice({
          name: "take_up",
          label: t("measure_yarn_next"),
          fallback: "",
          choices: [["", t("measure_yarn_same")], ...others],
        }),
    ),
  );
}

/** The empty form. @param {LoomView} loom @param {boolean} advance whether the cloth was wound on */
function startValues(loom, advance) {
  return {
    measured: "",
    // Once cloth is on the beam, the first pick is out of reach.
    measured_from: loom.picture.marks.length > 0 ? "mark" : "start",
    measured_tension: "",
    mark_set: advance,
    warp_mark: "",
    rough: false,
    take_up: "",
    ...Object.fromEntries(loom.yarns.map(({ id }) => [leftField(id), ""])),
    ...Object.fromEntries(loom.yarns.map(({ id }) => [shuttleField(id), false])),
  };
}

/** What the shell takes. @param {Form<MeasureValues>} form @param {MeasureValues} values @param {LoomView} loom */
function measurement(form, values, loom) {
  return {
    on: "",
    measured: values.measured,
    measured_from: values.measured_from,
    measured_tension: values.measured_tension,
    mark_set: values.mark_set,
    warp_mark: values.warp_mark,
    rough: values.rough,
    yarns_left: loom.yarns.map(({ id }) => ({
      yarn: id,
      left: form.valueOf(leftField(id)),
      on_shuttle: form.isChecked(shuttleField(id)),
    })),
    take_up: values.take_up,
  };
}

/** A mark tied into the warp that has reached the fell. @param {Form<MeasureValues>} form @param {string} unit */
function warpMarkField(form, unit) {
  return folded(
    "reading-more-mark",
    t("measure_warp_mark"),
    form.text({
      name: "warp_mark",
      label: t("measure_warp_mark_at"),
      hint: t("measure_warp_mark_hint"),
      unit,
      what: "length",
      keys: "decimal",
    }),
  );
}

/** @param {Context} ctx @param {AbortSignal} signal @param {string} param `advance` when the cloth is wound on */
export function measureScreen(ctx, signal, param) {
  const { loom, format, running } = ctx.view();
  if (!loom) return null;
  const advance = param === "advance";
  const isWeaving = advance || running?.warp === loom.id;
  const backTo = isWeaving ? "#/tap" : "#/loom";
  /** @type {Form<MeasureValues>} */
  const form = new Form({
    id: "reading",
    draft: `reading ${loom.id} ${param}`,
    values: startValues(loom, advance),
    ctx,
    signal,
    async submit(values) {
      const { view, messages } = await ctx.shell.addMeasurement(loom.id, measurement(form, values, loom));
      ctx.show(view);
      ctx.notify(t("saved"));
      ctx.showMessage(t("result"), messages);
      ctx.go(backTo);
    },
  });
  const tape = tapeFields(form, {
    unit: format.length_unit,
    label: t("sitting_length"),
    mark: t("measure_move_mark"),
    markHint: loom.picture.marks.length === 0 ? t("sitting_mark_hint") : undefined,
  });
  form.element.append(
    form.general,
    grid(tape.measured, tape.markSet, tape.from, tape.tension),
    ...(loom.yarns.length > 0 ? [yarnFields(form, loom.yarns)] : []),
    form.check({ name: "rough", label: t("estimates") }),
    warpMarkField(form, format.length_unit),
    formEnd(
      { label: t("save"), part: "reading-save" },
      h(
        "a",
        { class: "link", href: backTo, "data-part": "reading-back" },
        isWeaving ? t("weaving_settings_back") : t("back"),
      ),
    ),
  );
  const element = h(
    "div",
    { class: "page stack" },
    h("h1", { tabindex: -1 }, advance ? t("tap_advance") : t("measure_title")),
    h("p", { class: "quiet" }, loom.name),
    h("p", null, t("measure_lead")),
    form.element,
  );
  return { element, update() {} };
}
