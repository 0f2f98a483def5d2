// Plan: from the wish, from the yarn, or straight to the loom. What is typed is reckoned while she types.

import { bringChildren, button, h } from "../dom/dom.js";
import { createForm, forgetDraft } from "../form/form.js";
import { warpPicture } from "../warp-picture/warp-picture.js";
import { planScreen as beginScreen } from "../warp-form/warp-form.js";
import { planFields } from "./fields.js";
import { planCurve } from "./curve.js";
import { keptPlans, wayOf } from "./kept.js";
import { result } from "./result.js";
import { P } from "../../texts/plan.js";

/** @typedef {import("../../main.js").Context} Context */
/** @typedef {import("../../types.d.ts").PlanForm} PlanForm */
/** @typedef {import("../../types.d.ts").PlanView} PlanView */
/** @typedef {import("../../types.d.ts").PlanOffer} PlanOffer */
/** @typedef {"wish" | "yarn" | "begin"} Way */

/** Milliseconds without a key before what is typed is reckoned. */
const PAUSE = 180;

/** @returns {PlanForm} */
const empty = () => ({
  way: "",
  name: "",
  length: "",
  width: "",
  pieces: "",
  further: "",
  edge: "",
  edge_length: "",
  fringe_from_waste: false,
  sett: "",
  wraps: "",
  weave: "",
  k: "",
  warp_count: "",
  weft_count: "",
  weft_name: "",
  picks: "",
  reed_width: "",
  opening: "",
  repeat: "",
  balance: "",
  closing: "",
  warp_per_100: "",
  take_up_of: "",
  release_percent: "",
  shrinkage_percent: "",
  draw_in_percent: "",
  width_shrinkage_percent: "",
  weft_allowance_percent: "",
  waste: "",
  header: "",
  sample: "",
  gap: "",
  sample_warp: "",
  sample_reed: "",
  sample_length: "",
  sample_width: "",
  sample_length_washed: "",
  sample_width_washed: "",
  one_yarn: false,
  warp_have: "",
  warp_mass: "",
  warp_sure: "",
  weft_have: "",
  weft_mass: "",
  weft_sure: "",
  loom_width: "",
  gift_on: "",
  days_a_week: "",
});

/** What was typed, the same for both ways. The shell remembers it through a restart. */
let typed = empty();
/** The kept plan it came from; empty for none. */
let from = "";
/** What was typed before she started anew, to be brought back. @type {{ typed: PlanForm, from: string } | null} */
let before = null;
/** The folder it was typed for. @type {string | null} */
let folder = null;

/** Takes up what was typed last, on a new start or in another folder. @param {import("../../types.d.ts").AppView} view */
function takeUp(view) {
  const here = view.folder?.path ?? null;
  if (here === folder) return;
  folder = here;
  before = null;
  const left = view.plans.find(({ record }) => record === "");
  typed = left ? left.form : empty();
  from = left?.from ?? "";
}
/** The way she went last. @type {Way | null} */
let last = null;

/** @param {Way} here */
function ways(here) {
  const way = (/** @type {Way} */ name) =>
    h(
      "a",
      {
        href: `#/plan/${name}`,
        class: "way",
        "data-part": `way-${name}`,
        "aria-current": name === here ? "page" : null,
      },
      P[name],
    );
  return h("nav", { class: "ways", "aria-label": P.ways }, way("wish"), way("yarn"), way("begin"));
}

/** @param {PlanOffer} offer */
function offerLine(offer) {
  return h(
    "li",
    { class: "offer" },
    h("span", null, offer.line),
    h(
      "button",
      {
        type: "button",
        class: "link",
        "data-act": "take",
        "data-fills": JSON.stringify(offer.fills),
      },
      P.take,
      h("span", { class: "hidden-words" }, P.takes(offer.button)),
    ),
  );
}

/** @param {PlanOffer[]} offers @param {string} field */
function offerList(offers, field) {
  const [first, ...others] = [...offers].sort((one, other) => Number(other.in_use) - Number(one.in_use));
  if (!first) return [];
  return [
    h("ul", { "data-key": "first" }, offerLine(first)),
    ...(others.length > 0
      ? [
          h(
            "details",
            { "data-key": `more-${field}` },
            h("summary", null, P.more),
            h(
              "ul",
              null,
              others.map((offer) => offerLine(offer)),
            ),
          ),
        ]
      : []),
  ];
}

/** @param {Context} ctx @param {AbortSignal} signal @param {string} param */
export function planScreen(ctx, signal, param) {
  takeUp(ctx.view());
  const usual = typed.way === "yarn" ? "yarn" : ctx.view().warps.length > 0 || typed.way ? "wish" : "begin";
  const way = param === "wish" || param === "yarn" || param === "begin" ? param : (last ?? usual);
  last = way;
  if (way === "begin") {
    const screen = beginScreen(ctx, signal);
    screen.element.querySelector("h1")?.after(ways(way));
    return screen;
  }
  return reckonScreen(ctx, signal, way);
}

/** @param {Context} ctx @param {AbortSignal} signal @param {"wish" | "yarn"} way */
function reckonScreen(ctx, signal, way) {
  const { format } = ctx.view();
  forgetDraft("plan");
  const form = createForm({
    id: "plan",
    draft: "plan",
    values: typed,
    ctx,
    signal,
    async submit() {
      remember();
      ctx.show(await ctx.shell.beginPlannedWarp(asked(), from));
      typed = empty();
      from = "";
      before = null;
      last = null;
      ctx.say(P.begun);
      ctx.go("#/loom");
    },
  });
  planFields(form, way, format);
  // What is reckoned with can be seen.
  for (const more of form.element.querySelectorAll("details")) {
    more.open = [...more.querySelectorAll("input[type=text], textarea")].some(
      (field) => /** @type {HTMLInputElement} */ (field).value !== "",
    );
  }
  const shown = h("section", { class: "plan-result", "aria-labelledby": "plan-result-title" });
  const stands = h("div", { class: "plan-stands", "aria-live": "polite" });
  const start = h(
    "button",
    { type: "submit", form: "plan-form", class: "shuttle", "data-part": "plan-begin" },
    P.start,
  );
  shown.append(
    h("h2", { id: "plan-result-title", class: "hidden-words" }, P.result),
    stands,
    h(
      "div",
      { class: "plan-end" },
      start,
      button("keep-plan", P.keep, { class: "button", "data-part": "plan-keep" }),
      button("new-plan", P.anew, { class: "link", "data-part": "plan-anew" }),
    ),
  );
  // On a narrow screen what it takes lies below the form: the sentence read first stays in sight.
  const now = h("p", { class: "plan-now", "aria-hidden": "true" });
  const shelf = h("div", { class: "plans-shelf" });
  const showShelf = () => {
    const back =
      before && button("old-plan", P.bringBack, { class: "link", "data-part": "plan-bring-back", "data-key": "back" });
    bringChildren(
      shelf,
      [keptPlans(ctx.view().plans, from), back].filter((part) => part instanceof Node),
    );
  };
  showShelf();
  const copies = h("details", { class: "plan-copies", "data-part": "plan-copies", hidden: true });
  const element = h(
    "div",
    { class: "plan stack" },
    h("h1", { tabindex: -1 }, P.title),
    ways(way),
    h("p", { class: "quiet" }, way === "yarn" ? P.leadYarn : P.leadWish),
    shelf,
    copies,
    now,
    h("div", { class: "plan-both" }, form.element, shown),
  );
  const curve = planCurve({
    signal,
    choose(width) {
      form.write("width", width);
      live();
    },
  });
  const picture = warpPicture({ signal, open() {} });

  const remember = () => {
    typed = { ...typed, ...form.values(), way };
  };
  /** From the yarn the width is the point's; one in the reed would hold it fast. */
  const asked = () => ({ ...typed, way, ...(way === "yarn" ? { reed_width: "" } : {}) });

  let turn = 0;
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  let wait;
  const reckon = async () => {
    const mine = ++turn;
    try {
      const view = await ctx.shell.calculatePlan(asked(), from);
      if (mine === turn && !signal.aborted) show(view);
    } catch (refusal) {
      ctx.complain(refusal);
    }
  };
  const soon = () => {
    remember();
    clearTimeout(wait);
    wait = setTimeout(reckon, PAUSE);
  };
  /** While the point is dragged: at once, and again as soon as the last answer is there, so that the figures keep up. */
  let reckoning = false;
  let moved = false;
  const live = async () => {
    clearTimeout(wait);
    moved = true;
    if (reckoning) return;
    reckoning = true;
    while (moved && !signal.aborted) {
      moved = false;
      await reckon();
    }
    reckoning = false;
  };
  form.element.addEventListener("input", soon, { signal });
  form.element.addEventListener("change", soon, { signal });
  signal.addEventListener("abort", () => clearTimeout(wait));
  // A plan is looked at while it is typed: only the button begins its warp.
  form.element.addEventListener(
    "keydown",
    (event) => {
      if (event.key === "Enter" && event.target instanceof HTMLInputElement) {
        event.preventDefault();
        clearTimeout(wait);
        reckon();
      }
    },
    { signal },
  );

  /** @param {PlanView} view */
  const show = (view) => {
    for (const name of Object.keys(typed)) form.mark(name, "");
    for (const trouble of view.troubles) if (trouble.field) form.mark(trouble.field, trouble.sentence);
    for (const place of form.element.querySelectorAll("[data-understood]")) {
      const found = view.understood.find(({ field }) => field === place.getAttribute("data-understood"));
      place.textContent = found?.text ?? "";
    }
    for (const place of form.element.querySelectorAll("[data-offers]")) {
      const field = place.getAttribute("data-offers") ?? "";
      bringChildren(
        place,
        offerList(
          view.offers.filter((offer) => offer.field === field),
          field,
        ),
      );
    }
    bringChildren(stands, result(view, view.curve ? curve.element : null, view.picture ? picture.element : null));
    now.textContent = view.headline;
    if (view.curve) curve.update(view.curve);
    if (view.picture) picture.update(view.picture, format.length_unit);
    stands.dataset.reckoned = String(turn);
  };

  form.element.addEventListener(
    "click",
    (event) => {
      const hit = /** @type {HTMLElement | null} */ (/** @type {Element} */ (event.target).closest("[data-act=take]"));
      if (!hit) return;
      /** @type {{ field: string, text: string }[]} */
      const fills = JSON.parse(hit.dataset.fills ?? "[]");
      for (const { field, text } of fills) form.put(field, text);
      const first = form.element.querySelector(`#plan-${(fills[0]?.field ?? "").replaceAll("_", "-")}`);
      if (first instanceof HTMLElement) first.focus();
    },
    { signal },
  );

  /** Another plan takes the place of what is typed. @param {PlanForm} next @param {string} kept @param {"wish" | "yarn"} [there] */
  const put = (next, kept, there = way) => {
    clearTimeout(wait);
    typed = { ...next, way: there };
    from = kept;
    // A screen that is opened anew builds its form anew.
    ctx.go(`#/plan/${there}`);
  };
  element.addEventListener(
    "click",
    async (event) => {
      const hit = /** @type {HTMLElement | null} */ (/** @type {Element} */ (event.target).closest("[data-act]"));
      const { act, record = "" } = hit?.dataset ?? {};
      if (act === "keep-plan") {
        remember();
        try {
          const kept = await ctx.shell.savePlan(typed, from);
          from = kept.record;
          ctx.show(kept.view);
          ctx.say(P.keptNow);
        } catch (refusal) {
          form.fail(/** @type {import("../../types.d.ts").UserError} */ (refusal));
        }
      } else if (act === "new-plan") {
        remember();
        before = { typed, from };
        put(empty(), "");
      } else if (act === "old-plan" && before) {
        const old = before;
        before = null;
        put(old.typed, old.from);
      } else if (act === "open-plan") {
        const found = ctx.view().plans.find((plan) => plan.record === record);
        if (!found) return;
        remember();
        before = { typed, from };
        put(found.form, record, wayOf(found));
      } else if (act === "remove-plan") {
        if (await ctx.attempt(ctx.shell.remove(record), P.removedKept)) {
          if (from === record) from = "";
        }
      }
    },
    { signal },
  );

  copies.addEventListener(
    "click",
    (event) => {
      const hit = /** @type {HTMLElement | null} */ (/** @type {Element} */ (event.target).closest("[data-copy]"));
      const found = earlier.find((one) => one.warp === hit?.dataset.copy);
      if (!found) return;
      put({ ...empty(), ...found.form, gift_on: typed.gift_on, name: typed.name }, from);
      ctx.say(P.copied(found.name));
    },
    { signal },
  );
  /** @type {import("../../types.d.ts").EarlierPlan[]} */
  let earlier = [];
  ctx.shell.earlierPlans().then(
    (found) => {
      earlier = found;
      copies.hidden = found.length === 0;
      copies.replaceChildren(
        h("summary", null, P.copy),
        h(
          "div",
          { class: "row" },
          found.map((one) => h("button", { type: "button", class: "button", "data-copy": one.warp }, one.name)),
        ),
      );
    },
    () => {
      // Nothing to copy from.
    },
  );
  reckon();
  return { element, update: showShelf };
}
