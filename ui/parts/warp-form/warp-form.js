// Beginning a warp and changing its figures: what is always known first, the rest behind disclosures.

import { h } from "../dom/dom.js";
import { disclosure } from "../disclosure/disclosure.js";
import { Form } from "../form/form.js";
import { sequenceFields } from "../sequence/sequence.js";
import { T } from "../../texts/texts.js";

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
  weaving_days: "",
  away_from: "",
  away_until: "",
  every_day_from: "",
  every_day_until: "",
  for_child: false,
  note: "",
};

/**
 * @param {Context} ctx @param {AbortSignal} signal
 * @param {{ draft: string, values: WarpForm, save: string, keep: (form: WarpForm) => Promise<void> }} options
 */
function warpForm(ctx, signal, { draft, values, save, keep }) {
  const { format } = ctx.view();
  const length = format.length_unit;
  const form = new Form({ id: "warp", draft, values: values, ctx, signal, submit: keep });
  const measure = (/** @type {string} */ name, /** @type {string} */ label, /** @type {string} */ hint) =>
    form.text({ name, label, hint, unit: length, what: "length", keys: "decimal" });
  const percent = (/** @type {string} */ name, /** @type {string} */ label, /** @type {string} */ hint) =>
    form.text({ name, label, hint, unit: "%", what: "percent", keys: "decimal" });
  const more = (
    /** @type {string} */ part,
    /** @type {string} */ title,
    /** @type {(HTMLElement | null)[]} */ ...inner
  ) => disclosure(title, { "data-part": `warp-more-${part}` }, h("div", { class: "form-grid" }, inner));
  const wide = (/** @type {HTMLElement} */ field) => {
    field.classList.add("wide");
    return field;
  };

  const sequence = sequenceFields(ctx, signal, form);

  form.element.append(
    form.general,
    form.text({ name: "name", label: T.warp.name, hint: T.warp.nameHint }),
    h(
      "section",
      null,
      h("h2", null, T.warp.cloth),
      h(
        "div",
        { class: "form-grid" },
        measure("wound", T.warp.wound, T.warp.woundHint),
        measure("waste", T.warp.waste, T.warp.wasteHint),
        form.text({
          name: "picks",
          label: T.warp.picks,
          hint: T.warp.picksHint(format.density_unit),
          unit: format.density_unit,
          what: "density",
          keys: "decimal",
        }),
        // Beside what it is the length of.
        form.text({
          name: "wanted",
          label: T.warp.wanted,
          hint: T.warp.wantedHint(length),
          unit: length,
          what: "lengths",
        }),
        wide(
          form.choice({
            name: "wanted_state",
            label: T.warp.wantedState,
            fallback: "finished",
            choices: [
              ["finished", T.warp.finished],
              ["off_loom", T.warp.offLoom],
              ["under_tension", T.warp.underTension],
            ],
          }),
        ),
        wide(
          form.text({
            name: "warp_per_100",
            label: T.warp.takeUp,
            hint: T.warp.takeUpHint,
            before: T.warp.takeUpBefore(length),
            unit: T.warp.takeUpAfter(length),
            keys: "decimal",
          }),
        ),
      ),
    ),
    h(
      "section",
      null,
      h("h2", null, T.warp.weft),
      h(
        "div",
        { class: "form-grid" },
        measure("reed_width", T.warp.reed, ""),
        form.text({ name: "weft_name", label: T.warp.weftName }),
        form.text({
          name: "weft_mass",
          label: T.warp.mass,
          hint: T.warp.massHint,
          unit: format.mass_unit,
          what: "rough_mass",
        }),
        form.text({ name: "weft_length", label: T.warp.length, hint: T.warp.lengthHint, what: "rough_yarn_length" }),
      ),
    ),
    form.day({ name: "gift_on", label: T.warp.gift, hint: `${T.warp.giftHint} ${T.day.hint}` }),
    more(
      "sequence",
      T.warp.sequence,
      wide(
        form.choice({
          name: "weave",
          label: T.warp.weave,
          fallback: "",
          choices: [
            ["", T.warp.weaveNone],
            ["plain", T.warp.plain],
            ["pick_up", T.warp.pickUp],
          ],
        }),
      ),
      ...sequence.parts,
    ),
    more(
      "pieces",
      T.warp.more,
      form.text({ name: "pieces", label: T.warp.pieces, hint: T.warp.piecesHint, keys: "numeric" }),
      percent("shrinkage_percent", T.warp.shrinkage, ""),
      measure("fringe", T.warp.fringe, ""),
      form.check({ name: "fringe_from_waste", label: T.warp.fringeWaste }),
      measure("gap", T.warp.gap, T.warp.gapHint),
      percent("weft_allowance_percent", T.warp.allowance, T.warp.allowanceHint),
    ),
    more(
      "people",
      T.warp.people,
      form.day({ name: "begun_on", label: T.warp.begun, quick: true }),
      form.text({ name: "days_a_week", label: T.warp.daysAWeek, keys: "decimal" }),
      form.text({ name: "weaving_days", label: T.warp.weavingDays, hint: T.warp.weavingDaysHint }),
      form.day({ name: "away_from", label: T.warp.awayFrom }),
      form.day({ name: "away_until", label: T.warp.awayUntil }),
      form.day({ name: "every_day_until", label: T.warp.everyDayUntil }),
      form.check({ name: "for_child", label: T.warp.child }),
      wide(form.area({ name: "note", label: T.warp.note })),
    ),
    h("div", { class: "form-end" }, h("button", { type: "submit", class: "shuttle", "data-part": "warp-save" }, save)),
  );
  sequence.draw();
  return form;
}

/** @param {Context} ctx @param {AbortSignal} signal */
export function planScreen(ctx, signal) {
  const element = h(
    "div",
    { class: "page stack" },
    h("h1", { tabindex: -1 }, T.warp.begin),
    h("p", null, T.warp.beginLead),
  );
  element.append(
    warpForm(ctx, signal, {
      draft: "begin",
      values: EMPTY,
      save: T.warp.save,
      async keep(written) {
        ctx.show(await ctx.shell.beginWarp(written));
        ctx.say(T.warp.begunNow);
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
    h("h1", { tabindex: -1 }, T.warp.change),
    h("p", { class: "quiet" }, T.warp.of(loom.name)),
  );
  const form = warpForm(ctx, signal, {
    draft: `change ${loom.id}`,
    values: loom.form,
    save: T.warp.keep,
    async keep(written) {
      ctx.show(await ctx.shell.changeWarp(loom.id, written, loom.seen));
      ctx.say(T.warp.changed);
      ctx.go("#/loom");
    },
  });
  form.element.querySelector(".form-end")?.append(h("a", { class: "link", href: "#/loom" }, T.sitting.cancel));
  element.append(form.element);
  return { element, update() {} };
}
