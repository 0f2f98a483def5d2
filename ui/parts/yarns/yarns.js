// The weft yarns: how much there was of each, how much is left, how far that reaches; and the form of one yarn.

import { button, closestTarget, h, s } from "../dom/dom.js";
import { formEnd, grid } from "../form/fields.js";
import { Form } from "../form/form.js";
import { t } from "../../messages.js";

/** @typedef {import("../../main.js").Context} Context */
/** @typedef {import("../../types.d.ts").LoomView} LoomView */
/** @typedef {import("../../types.d.ts").YarnView} YarnView */
/** @typedef {import("../../types.d.ts").YarnForm} YarnValues */

/** A bobbin with as much on it as is left. @param {number} share */
function bobbin(share) {
  const wide = 56 * share;
  return s(
    "svg",
    {
      class: "bobbin",
      viewBox: "0 0 80 26",
      role: "img",
      "aria-label": t("yarns_left", { percent: Math.round(share * 100) }),
    },
    s("rect", { class: "bobbin-wood", x: 1, y: 11, width: 78, height: 4, rx: 2 }),
    s("rect", { class: "bobbin-wood", x: 8, y: 3, width: 4, height: 20, rx: 2 }),
    s("rect", { class: "bobbin-wood", x: 68, y: 3, width: 4, height: 20, rx: 2 }),
    s("rect", { class: "bobbin-yarn", x: 12, y: 5, width: wide, height: 16, rx: 2 }),
    s("path", {
      class: "bobbin-turns",
      d: Array.from({ length: Math.floor(wide / 5) }, (_, at) => `M${15 + at * 5} 5l-2 16`).join(""),
    }),
  );
}

/** @param {YarnView} yarn @param {LoomView} loom */
function yarnItem(yarn, loom) {
  const open = loom.state === "on_the_loom" || loom.state === "resting";
  return h(
    "li",
    { class: "yarn", "data-key": yarn.id, "data-part": "yarn", "data-yarn": yarn.id },
    h(
      "div",
      { class: "yarn-head" },
      h("strong", null, yarn.name),
      yarn.in_use && loom.yarns.length > 1 && h("span", { class: "small" }, t("yarns_on_shuttle")),
      yarn.share_left !== null && bobbin(yarn.share_left),
    ),
    yarn.line && h("p", { class: "small", "data-part": "yarn-line" }, yarn.line),
    yarn.reach && h("p", { "data-part": "yarn-reach" }, yarn.reach),
    yarn.half && h("p", { class: "yarn-half", "data-part": "yarn-half" }, yarn.half),
    open &&
      h(
        "div",
        { class: "row no-print" },
        !yarn.in_use &&
          button("take-up-yarn", t("yarns_use"), {
            class: "button",
            "data-yarn": yarn.id,
            "aria-label": t("yarns_use_named", { name: yarn.name }),
          }),
        h(
          "a",
          { class: "link", href: `#/yarn/${yarn.id}`, "data-part": "yarn-change" },
          t("change"),
          h("span", { class: "hidden-words" }, `: ${yarn.name}`),
        ),
      ),
  );
}

/** @param {LoomView} loom */
export function yarns(loom) {
  const open = loom.state === "on_the_loom" || loom.state === "resting";
  if (!open && loom.yarns.length === 0) return null;
  return h(
    "section",
    { class: "yarns", "aria-labelledby": "yarns-title", "data-key": "yarns" },
    h(
      "div",
      { class: "sittings-head" },
      h("h2", { id: "yarns-title" }, t("yarns_title")),
      open &&
        h(
          "div",
          { class: "row no-print" },
          h("a", { class: "link", href: "#/measure", "data-part": "weigh" }, t("measure_title")),
          h("a", { class: "link", href: "#/yarn/new", "data-part": "yarn-add" }, t("yarns_add")),
        ),
    ),
    loom.yarns.length === 0
      ? h("p", { class: "quiet", "data-key": "none" }, t("yarns_none"))
      : h(
          "ul",
          { class: "yarn-list", "data-key": "list", "data-part": "yarns" },
          loom.yarns.map((yarn) => yarnItem(yarn, loom)),
        ),
  );
}

/** Takes a yarn up when its button was pressed. @param {Context} ctx @param {HTMLElement} hit @param {LoomView} loom */
export function takeUpYarn(ctx, hit, loom) {
  if (hit.dataset.act !== "take-up-yarn") return false;
  const nothing = {
    on: "",
    measured: "",
    measured_from: "",
    measured_tension: "",
    mark_set: false,
    warp_mark: "",
    rough: false,
  };
  const measured = ctx.shell.addMeasurement(loom.id, { ...nothing, yarns_left: [], take_up: hit.dataset.yarn ?? "" });
  ctx.attempt(
    measured.then(({ view }) => view),
    t("yarns_in_use"),
  );
  return true;
}

/** @param {Form<YarnValues>} form @param {string} massUnit */
function yarnFields(form, massUnit) {
  return [
    form.text({ name: "name", label: t("name") }),
    grid(
      form.text({
        name: "mass",
        label: t("yarns_weight"),
        hint: t("yarns_weight_hint"),
        unit: massUnit,
        what: "rough_mass",
      }),
      form.text({ name: "length", label: t("yarns_length"), hint: t("yarns_length_hint"), what: "rough_yarn_length" }),
      form.text({
        name: "tare",
        label: t("yarns_shuttle"),
        hint: t("yarns_shuttle_hint"),
        unit: massUnit,
        what: "mass",
        keys: "decimal",
      }),
    ),
  ];
}

/** @param {Context} ctx @param {AbortSignal} signal @param {string} id `new` or a record id */
export function yarnScreen(ctx, signal, id) {
  const { loom, format } = ctx.view();
  const yarn = loom?.yarns.find((one) => one.id === id);
  if (!loom || (id !== "new" && !yarn)) return null;
  const form = new Form({
    id: "yarn",
    draft: `yarn ${loom.id} ${id}`,
    values: yarn?.form ?? { name: "", mass: "", length: "", tare: "" },
    ctx,
    signal,
    async submit(written) {
      ctx.show(
        yarn ? await ctx.shell.changeYarn(yarn.id, written, yarn.seen) : await ctx.shell.addYarn(loom.id, written),
      );
      ctx.notify(t("yarns_saved"));
      ctx.go("#/loom");
    },
  });
  form.element.append(
    form.general,
    ...yarnFields(form, format.mass_unit),
    formEnd(
      { label: t("save"), part: "yarn-save" },
      h("a", { class: "link", href: "#/loom" }, t("back")),
      yarn ? button("remove-yarn", t("remove"), { class: "link" }) : "",
    ),
  );
  form.element.addEventListener(
    "click",
    async (event) => {
      if (!yarn || !closestTarget(event, "[data-act=remove-yarn]")) return;
      if (await ctx.attempt(ctx.shell.remove(yarn.id), t("yarns_removed"))) ctx.go("#/loom");
    },
    { signal },
  );
  const element = h(
    "div",
    { class: "page stack" },
    h("h1", { tabindex: -1 }, yarn ? t("yarns_change") : t("yarns_new")),
    h("p", { class: "quiet" }, loom.name),
    form.element,
  );
  return { element, update() {} };
}
