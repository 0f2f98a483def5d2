// The screens that finish, log and correct a sitting with the same form.

import { h } from "../dom/dom.js";
import { allWritten } from "../tap/presses.js";
import { t } from "../../messages.js";
import { SittingForm } from "./form.js";

/** @typedef {import("../../types.d.ts").SittingForm} SittingValues */
/** @typedef {import("../../main.js").Context} Context */

/** @type {SittingValues} */
const EMPTY = {
  on: "",
  started: "",
  minutes: "",
  picks: "",
  measured: "",
  measured_from: "",
  measured_tension: "",
  mark_set: false,
  weft_left: "",
  weft_on_shuttle: false,
  pick_begun: false,
  note: "",
  rough: false,
};

/** @param {string} title @param {(HTMLElement | null)[]} inner */
function page(title, ...inner) {
  return h("div", { class: "page stack" }, h("h1", { tabindex: -1 }, title), inner);
}

/** @param {Context} ctx @param {AbortSignal} signal @param {string} param `keys` when it was opened from the keyboard */
export function finishScreen(ctx, signal, param) {
  const question = h("p", { class: "finish-question", "data-part": "finish-question", hidden: true });
  const back = h("a", { class: "link", href: "#/tap", "data-part": "sitting-back" }, t("sitting_keep_weaving"));
  const head = h("div", { class: "finish-head" }, h("h1", { tabindex: -1 }, t("sitting_save_title")), back);
  const element = h("div", { class: "page stack finish-sitting" }, head, question);
  const fill = async () => {
    // The last taps are written before they are counted.
    await allWritten(ctx);
    const start = await ctx.shell.finishForm();
    if (signal.aborted) return;
    question.textContent = start.question ?? "";
    question.hidden = !start.question;
    const sitting = finishingForm(ctx, signal, start.form);
    if (start.by_the_clock) element.append(clockButton(start.by_the_clock, sitting, signal));
    element.append(sitting.element);
    // The one figure that may be needed; on a tablet the touch keyboard would cover the rest.
    if (param === "keys" && !start.question) document.getElementById("sitting-measured")?.focus();
  };
  fill().catch(ctx.showError);
  return { element, update() {} };
}

/** @param {Context} ctx @param {AbortSignal} signal @param {SittingValues} values */
function finishingForm(ctx, signal, values) {
  return new SittingForm({
    ctx,
    signal,
    draft: `finish-sitting ${ctx.view().running?.since ?? ""}`,
    values,
    atLoom: true,
    saved: t("sitting_saved"),
    otherWay: { href: "#/tap", words: t("sitting_keep_weaving") },
    async save(form) {
      const { view, sitting, messages } = await ctx.shell.finishSitting(form);
      ctx.show(view);
      return { sitting, messages };
    },
    compare: (form) => ctx.shell.reconcile("", form, null),
  });
}

/** Takes the minutes from the clock. @param {string} minutes @param {SittingForm} sitting @param {AbortSignal} signal */
function clockButton(minutes, sitting, signal) {
  const take = h(
    "button",
    { type: "button", class: "button", "data-part": "finish-clock" },
    t("sitting_use_minutes", { minutes }),
  );
  take.addEventListener("click", () => sitting.form.write("minutes", minutes), { signal });
  return take;
}

/** @param {Context} ctx @param {AbortSignal} signal */
export function logScreen(ctx, signal) {
  const { loom, today } = ctx.view();
  const warp = loom?.id ?? "";
  const element = page(
    t("loom_add_past_sitting"),
    loom ? h("p", { class: "quiet" }, loom.name) : null,
    h("p", null, t("sitting_lead")),
  );
  element.append(
    new SittingForm({
      ctx,
      signal,
      draft: `log ${warp}`,
      values: { ...EMPTY, on: today, measured_from: loom && loom.picture.marks.length > 0 ? "mark" : "start" },
      atLoom: false,
      saved: t("sitting_saved"),
      otherWay: { href: "#/loom", words: t("back") },
      async save(form) {
        const { view, sitting, messages } = await ctx.shell.logSitting(warp, form);
        ctx.show(view);
        return { sitting, messages };
      },
      compare: (form) => ctx.shell.reconcile(warp, form, null),
    }).element,
  );
  return { element, update() {} };
}

/** @param {Context} ctx @param {AbortSignal} signal @param {string} id */
export function correctScreen(ctx, signal, id) {
  const warp = ctx.view().loom?.id ?? "";
  const line = ctx.view().loom?.sittings.find((sitting) => sitting.id === id);
  if (!line) return null;
  const element = page(t("sitting_correct"), h("p", { class: "quiet" }, `${line.day}: ${line.line}`));
  element.append(
    new SittingForm({
      ctx,
      signal,
      draft: `correct ${id}`,
      values: line.form,
      atLoom: false,
      saved: t("sitting_corrected"),
      otherWay: { href: "#/loom", words: t("back") },
      async save(form) {
        ctx.show(await ctx.shell.correctSitting(id, form, line.seen));
        return { sitting: id, messages: [] };
      },
      compare: (form) => ctx.shell.reconcile(warp, form, id),
    }).element,
  );
  return { element, update() {} };
}
