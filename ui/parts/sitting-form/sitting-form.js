// Getting up, logging afterwards, correcting: one form, opened from three sides.

import { h } from "../dom/dom.js";
import { Form, forgetDraft } from "../form/form.js";
import { tapeFields } from "../form/tape.js";
import { LatestRequest } from "../request/request.js";
import { photoChooser } from "../photos/photos.js";
import { allWritten } from "../tap/presses.js";
import { L } from "../../texts/at-loom.js";
import { T } from "../../texts/texts.js";

/** @typedef {import("../../types.d.ts").SittingForm} SittingForm */
/** @typedef {import("../../main.js").Context} Context */

/** Photos chosen and not yet kept, by form, so that looking elsewhere loses none. @type {Map<string, File[]>} */
const chosenBefore = new Map();

/** @type {SittingForm} */
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

/**
 * @param {object} options
 * @param {Context} options.ctx
 * @param {AbortSignal} options.signal
 * @param {string} options.draft
 * @param {SittingForm} options.values
 * @param {boolean} options.atLoom large and for a thumb, without the day
 * @param {(form: SittingForm) => Promise<{ sitting: string, messages: string[] }>} options.keep
 * @param {(form: SittingForm) => Promise<string[]>} options.compare tape and picks side by side, before they are kept
 * @param {{ href: string, words: string }} options.otherWay
 * @param {string} options.kept
 */
function sittingForm({ ctx, signal, draft, values, atLoom, keep, compare, otherWay, kept }) {
  const { format, loom } = ctx.view();
  const onShuttle = loom?.yarns.find((yarn) => yarn.in_use)?.tare ?? "";
  // What was told before would lie over the form.
  ctx.tell("", []);
  const form = new Form({
    id: "sitting",
    draft,
    values: values,
    ctx,
    signal,
    async submit(written) {
      const { sitting, messages } = await keep(written);
      chosenBefore.delete(draft);
      handedOn = true;
      ctx.photos.add(sitting, photos.files());
      forgetDraft(draft);
      ctx.say(kept);
      ctx.tell(L.told.title, messages);
      ctx.go("#/loom");
    },
  });
  let handedOn = false;
  const photos = photoChooser({ id: "sitting", signal, start: chosenBefore.get(draft) });
  // What was kept is not chosen again in the next form.
  signal.addEventListener("abort", () => !handedOn && chosenBefore.set(draft, photos.files()), { once: true });
  const tape = tapeFields(form, {
    unit: format.length_unit,
    label: T.sitting.measured,
    hint: T.sitting.measuredHint,
    mark: T.sitting.mark,
  });
  const how = [tape.from, tape.tension, tape.markSet];
  const beside = h("div", { class: "sitting-beside wide", "aria-live": "polite", "data-part": "sitting-reconciled" });
  const comparison = new LatestRequest({
    // Without a length there is nothing to set beside the picks.
    ask: async () => (form.valueOf("measured").trim() ? compare(form.values()) : []),
    show: (lines) => beside.replaceChildren(...lines.map((line) => h("p", null, line))),
    fail: () => beside.replaceChildren(),
    pause: 350,
    signal,
  });
  for (const change of ["input", "change"]) {
    form.element.addEventListener(change, () => comparison.later(), { signal });
  }
  const way = h("a", { class: "link", href: otherWay.href, "data-part": "sitting-back" }, otherWay.words);
  // With a thumb at the loom, how it was measured is a line to look at, and to open when it was otherwise.
  const howLine = h("summary", null);
  const showHow = () => {
    const { measured_from: from, measured_tension: tension } = form.values();
    howLine.textContent = L.getUp.how(
      from === "mark" ? T.sitting.fromMark : T.sitting.fromStart,
      tension === "relaxed" ? T.sitting.relaxed : T.sitting.tight,
    );
  };
  if (atLoom) {
    showHow();
    form.element.addEventListener("change", showHow, { signal });
  }
  form.element.append(
    form.general,
    ...(atLoom
      ? []
      : [
          h(
            "div",
            { class: "form-grid" },
            form.day({ name: "on", label: T.sitting.on, quick: true }),
            form.text({ name: "started", label: T.sitting.started, hint: T.sitting.startedHint, keys: "numeric" }),
          ),
        ]),
    h(
      "div",
      { class: "sitting-counts" },
      form.text({
        name: "minutes",
        label: T.sitting.minutes,
        hint: atLoom ? "" : T.sitting.minutesHint,
        what: "rough_minutes",
        large: atLoom,
      }),
      form.text({
        name: "picks",
        label: T.sitting.picks,
        hint: atLoom ? "" : T.sitting.picksHint,
        what: "rough_picks",
        large: atLoom,
      }),
    ),
    h(
      "div",
      { class: "form-grid" },
      tape.measured,
      atLoom
        ? h(
            "details",
            { class: "sitting-how", "data-part": "sitting-more-how" },
            howLine,
            h("div", { class: "form-grid" }, how),
          )
        : how,
      beside,
    ),
    ...(atLoom ? [photos.element] : []),
    h(
      "div",
      { class: "form-grid" },
      form.text({
        name: "weft_left",
        label: T.sitting.weft,
        hint: T.sitting.weftHint,
        unit: format.mass_unit,
        what: "rough_mass",
        keys: "decimal",
      }),
      onShuttle ? form.check({ name: "weft_on_shuttle", label: L.measure.onShuttle(onShuttle) }) : null,
      form.area({ name: "note", label: T.sitting.note, lines: 2 }),
    ),
    ...(atLoom ? [] : [photos.element]),
    form.check({ name: "pick_begun", label: L.getUp.begun }),
    form.check({ name: "rough", label: T.sitting.rough }),
    h(
      "div",
      { class: "form-end sitting-end" },
      h("button", { type: "submit", class: "shuttle", "data-part": "sitting-save" }, T.sitting.save),
      atLoom ? null : way,
    ),
  );
  return form;
}

/** @param {string} title @param {(HTMLElement | null)[]} inner */
function page(title, ...inner) {
  return h("div", { class: "page stack" }, h("h1", { tabindex: -1 }, title), inner);
}

/** @param {Context} ctx @param {AbortSignal} signal @param {string} param `keys` when she came by the keyboard */
export function getUpScreen(ctx, signal, param) {
  const question = h("p", { class: "get-up-question", "data-part": "get-up-question", hidden: true });
  const way = h("a", { class: "link", href: "#/tap", "data-part": "sitting-back" }, T.sitting.goOn);
  const head = h("div", { class: "get-up-head" }, h("h1", { tabindex: -1 }, T.sitting.finishForm), way);
  const element = h("div", { class: "page stack get-up" }, head, question);
  (async () => {
    // What was tapped last is written before it is counted.
    await allWritten(ctx);
    try {
      const { form: values, question: asked, by_the_clock: clock } = await ctx.shell.finishForm();
      if (signal.aborted) return;
      question.textContent = asked ?? "";
      question.hidden = !asked;
      const draft = `get-up ${ctx.view().running?.since ?? ""}`;
      const form = sittingForm({
        ctx,
        signal,
        draft,
        values,
        atLoom: true,
        kept: T.sitting.kept,
        otherWay: { href: "#/tap", words: T.sitting.goOn },
        async keep(form) {
          const { view, sitting, messages } = await ctx.shell.finishSitting(form);
          ctx.show(view);
          return { sitting, messages };
        },
        compare: (form) => ctx.shell.reconcile("", form, null),
      });
      if (clock) {
        const take = h(
          "button",
          { type: "button", class: "button", "data-part": "get-up-clock" },
          L.getUp.clock(clock),
        );
        take.addEventListener("click", () => form.write("minutes", clock), { signal });
        element.append(take);
      }
      element.append(form.element);
      // The one figure she may have to give; a touch keyboard would lie over the rest.
      if (param === "keys" && !asked) document.getElementById("sitting-measured")?.focus();
    } catch (refusal) {
      ctx.complain(refusal);
    }
  })();
  return { element, update() {} };
}

/** @param {Context} ctx @param {AbortSignal} signal */
export function logScreen(ctx, signal) {
  const { loom, today } = ctx.view();
  const warp = loom?.id ?? "";
  const element = page(
    T.sitting.logging,
    loom ? h("p", { class: "quiet" }, loom.name) : null,
    h("p", null, T.sitting.some),
  );
  element.append(
    sittingForm({
      ctx,
      signal,
      draft: `log ${warp}`,
      values: { ...EMPTY, on: today },
      atLoom: false,
      kept: T.sitting.kept,
      otherWay: { href: "#/loom", words: T.sitting.cancel },
      async keep(form) {
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
  const element = page(T.sitting.correcting, h("p", { class: "quiet" }, `${line.day}: ${line.line}`));
  element.append(
    sittingForm({
      ctx,
      signal,
      draft: `correct ${id}`,
      values: line.form,
      atLoom: false,
      kept: T.sitting.corrected,
      otherWay: { href: "#/loom", words: T.sitting.cancel },
      async keep(form) {
        ctx.show(await ctx.shell.correctSitting(id, form, line.seen));
        return { sitting: id, messages: [] };
      },
      compare: (form) => ctx.shell.reconcile(warp, form, id),
    }).element,
  );
  return { element, update() {} };
}
