// Screens for describing a new warp and changing the figures of a warp.

import { h } from "../dom/dom.js";
import { t } from "../../messages.js";
import { warpForm } from "./form.js";

/** @typedef {import("../../types.d.ts").WarpForm} WarpForm */
/** @typedef {import("../../main.js").Context} Context */

/** @type {WarpForm} */
const EMPTY = {
  name: "",
  begun_on: "",
  wound: "",
  waste: "",
  wanted: "",
  wanted_state: "",
  shrinkage_percent: "",
  pieces: "",
  fringe: "",
  fringe_from_waste: false,
  gap: "",
  fibre: "",
  finish: "",
  picks: "",
  warp_per_100: "",
  reed_width: "",
  weft_allowance_percent: "",
  weft_name: "",
  weft_mass: "",
  weft_length: "",
  weave: "",
  picks_per_tap: "",
  stick_edge_ends: "",
  stick_up_ends: "",
  stick_down_ends: "",
  sett: "",
  threading: "",
  shed_lifts: "",
  opening: "",
  repeat: "",
  balance: "",
  closing: "",
  gift_on: "",
  days_a_week: "",
  minutes_a_day: "",
  weaving_days: "",
  away_from: "",
  away_until: "",
  every_day_from: "",
  every_day_until: "",
  for_child: false,
  note: "",
};

/** @param {Context} ctx @param {AbortSignal} signal */
export function planScreen(ctx, signal) {
  const element = h(
    "div",
    { class: "page stack" },
    h("h1", { tabindex: -1 }, t("warp_start")),
    h("p", null, t("warp_start_lead")),
  );
  element.append(
    warpForm(ctx, signal, {
      draft: "begin",
      values: EMPTY,
      saveLabel: t("warp_start_this"),
      async save(values) {
        ctx.show(await ctx.shell.beginWarp(values));
        ctx.notify(t("warp_started"));
        ctx.go("#/loom");
      },
    }).element,
  );
  return { element, update() {} };
}

/** @param {Context} ctx @param {AbortSignal} signal */
export function changeScreen(ctx, signal) {
  const { loom } = ctx.view();
  if (!loom) return null;
  const element = h(
    "div",
    { class: "page stack" },
    h("h1", { tabindex: -1 }, t("loom_change_warp")),
    h("p", { class: "quiet" }, loom.name),
  );
  const form = warpForm(ctx, signal, {
    draft: `change ${loom.id}`,
    values: loom.form,
    saveLabel: t("save"),
    async save(values) {
      ctx.show(await ctx.shell.changeWarp(loom.id, values, loom.seen));
      ctx.notify(t("warp_changed"));
      ctx.go("#/loom");
    },
  });
  form.element.querySelector(".form-end")?.append(h("a", { class: "link", href: "#/loom" }, t("back")));
  element.append(form.element);
  return { element, update() {} };
}
