// Plan: from the wish, from the yarn, or straight to the loom. The shell calculates while it is typed.

import { morphChildren, button, closestTarget, h } from "../dom/dom.js";
import { disclosure } from "../disclosure/disclosure.js";
import { Form, forgetDraft } from "../form/form.js";
import { LatestRequest } from "../request/request.js";
import { warpPicture } from "../warp-picture/warp-picture.js";
import { planScreen as beginScreen } from "../warp-form/warp-form.js";
import { planFields } from "./fields.js";
import { planCurve } from "./curve.js";
import { keptPlans, wayOf } from "./kept.js";
import { offerList, takeOffer } from "./offers.js";
import { result } from "./result.js";
import { emptyPlan, typed } from "./typed.js";
import { help } from "../guide/help.js";
import { t } from "../../messages.js";

/** @typedef {import("../../main.js").Context} Context */
/** @typedef {import("../../types.d.ts").PlanForm} PlanForm */
/** @typedef {import("../../types.d.ts").PlanView} PlanView */
/** @typedef {import("./typed.js").Way} Way */

/** Milliseconds without a key before what is typed is calculated. */
const PAUSE = 180;

const WAYS = /** @type {const} */ ({
  wish: "plan_from_piece",
  yarn: "plan_from_yarn",
  begin: "plan_already_warped",
});

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
      t(WAYS[name]),
    );
  return h("nav", { class: "ways", "aria-label": t("plan_start_from") }, way("wish"), way("yarn"), way("begin"));
}

/** @param {Context} ctx @param {AbortSignal} signal @param {string} param */
export function planScreen(ctx, signal, param) {
  typed.restore(ctx.view());
  const way = param === "wish" || param === "yarn" || param === "begin" ? param : typed.usualWay(ctx.view());
  typed.lastWay = way;
  if (way === "begin") {
    const screen = beginScreen(ctx, signal);
    screen.element.querySelector("h1")?.after(ways(way), help("first-warp"));
    return screen;
  }
  return new PlanScreen(ctx, signal, way);
}

/** What the plan takes, beside its form, and what can be done with it. @param {HTMLElement} answer */
function resultSection(answer) {
  const begin = h(
    "button",
    { type: "submit", form: "plan-form", class: "primary", "data-part": "plan-begin" },
    t("warp_start_this"),
  );
  return h(
    "section",
    { class: "plan-result", "aria-labelledby": "plan-result-title" },
    h("h2", { id: "plan-result-title", class: "hidden-words" }, t("plan_result")),
    answer,
    h(
      "div",
      { class: "plan-end" },
      begin,
      button("keep-plan", t("plan_save"), { class: "button", "data-part": "plan-keep" }),
      button("clear-plan", t("plan_new"), { class: "link", "data-part": "plan-clear" }),
    ),
  );
}

/** The form of a plan, what it takes, and the plans that were kept. */
class PlanScreen {
  /** @param {Context} ctx @param {AbortSignal} signal @param {"wish" | "yarn"} way */
  constructor(ctx, signal, way) {
    this.ctx = ctx;
    this.signal = signal;
    this.way = way;
    this.form = this.#makeForm();
    this.answer = h("div", { class: "plan-answer", "aria-live": "polite" });
    /** How many answers were shown. */
    this.answers = 0;
    // On a narrow screen the result is below the form: the sentence read first stays in sight.
    this.now = h("p", { class: "plan-now", "aria-hidden": "true" });
    this.kept = h("div", { class: "plans-saved" });
    this.copies = disclosure(t("plan_copy"), { class: "plan-copies", "data-part": "plan-copies", hidden: true });
    this.picture = warpPicture({ signal, open() {} });
    this.curve = planCurve({ signal, choose: (width) => this.#choosePoint(width) });
    this.request = new LatestRequest({
      ask: () => ctx.shell.calculatePlan(this.#formToCalculate(), typed.from),
      show: (view) => this.#show(view),
      fail: ctx.showError,
      pause: PAUSE,
      signal,
    });
    this.isFollowing = false;
    this.hasMoved = false;
    this.element = h(
      "div",
      { class: "plan stack" },
      h("h1", { tabindex: -1 }, t("plan_title")),
      ways(way),
      h("p", { class: "quiet" }, way === "yarn" ? t("plan_yarn_lead") : t("plan_piece_lead")),
      help("plan-from-yarn"),
      this.kept,
      this.copies,
      this.now,
      h("div", { class: "plan-both" }, this.form.element, resultSection(this.answer)),
    );
    this.#listen();
    this.#offerCopies();
    this.update();
    this.request.now();
  }

  /** Shows the kept plans. */
  update = () => {
    const props = { class: "link", "data-part": "plan-restore", "data-key": "back" };
    const back = typed.before && button("restore-plan", t("plan_bring_back"), props);
    const parts = [keptPlans(this.ctx.view().plans, typed.from), back];
    morphChildren(
      this.kept,
      parts.filter((part) => part instanceof Node),
    );
  };

  #makeForm() {
    const { ctx, signal } = this;
    forgetDraft("plan");
    const form = new Form({
      id: "plan",
      draft: "plan",
      values: typed.form,
      ctx,
      signal,
      submit: async () => {
        this.#remember();
        ctx.show(await ctx.shell.beginPlannedWarp(this.#formToCalculate(), typed.from));
        typed.clear();
        ctx.notify(t("warp_started"));
        ctx.go("#/loom");
      },
    });
    planFields(form, this.way, ctx.view().format);
    // What is calculated with can be seen.
    for (const more of form.element.querySelectorAll("details")) {
      /** @type {NodeListOf<HTMLInputElement | HTMLTextAreaElement>} */
      const fields = more.querySelectorAll("input[type=text], textarea");
      more.open = [...fields].some((field) => field.value !== "");
    }
    return form;
  }

  #listen() {
    const { signal, request } = this;
    const form = this.form.element;
    const changed = () => {
      this.#remember();
      request.later();
    };
    form.addEventListener("input", changed, { signal });
    form.addEventListener("change", changed, { signal });
    form.addEventListener("click", (event) => takeOffer(this.form, event), { signal });
    // A plan is looked at while it is typed: only the button begins its warp.
    form.addEventListener(
      "keydown",
      (event) => {
        if (event.key !== "Enter" || !(event.target instanceof HTMLInputElement)) return;
        event.preventDefault();
        request.now();
      },
      { signal },
    );
    this.element.addEventListener("click", (event) => this.#act(event), { signal });
  }

  #remember() {
    typed.form = { ...typed.form, ...this.form.values(), way: this.way };
  }

  /** From the yarn the width is the point's; one in the reed would hold it fast. @returns {PlanForm} */
  #formToCalculate() {
    return { ...typed.form, way: this.way, ...(this.way === "yarn" ? { reed_width: "" } : {}) };
  }

  /**
   * While the point is dragged: asks at once, and again as soon as the last answer is there, so that the figures keep up.
   * @param {string} width
   */
  async #choosePoint(width) {
    this.form.write("width", width);
    this.hasMoved = true;
    if (this.isFollowing) return;
    this.isFollowing = true;
    while (this.hasMoved && !this.signal.aborted) {
      this.hasMoved = false;
      await this.request.now();
    }
    this.isFollowing = false;
  }

  /** @param {PlanView} view */
  #show(view) {
    const { form, answer, curve, picture } = this;
    for (const name of Object.keys(typed.form)) form.mark(name, "");
    for (const { field, sentence } of view.errors) if (field) form.mark(field, sentence);
    for (const place of form.element.querySelectorAll("[data-understood]")) {
      const found = view.understood.find(({ field }) => field === place.getAttribute("data-understood"));
      place.textContent = found?.text ?? "";
    }
    for (const place of form.element.querySelectorAll("[data-offers]")) {
      const field = place.getAttribute("data-offers") ?? "";
      const offers = view.offers.filter((offer) => offer.field === field);
      morphChildren(place, offerList(offers, field));
    }
    morphChildren(answer, result(view, view.curve ? curve.element : null, view.picture ? picture.element : null));
    this.now.textContent = view.headline;
    if (view.curve) curve.update(view.curve);
    if (view.picture) picture.update(view.picture, this.ctx.view().format.length_unit);
    this.answers += 1;
    answer.dataset.calculations = String(this.answers);
  }

  /** Another plan takes the place of what is typed. @param {PlanForm} next @param {string} kept @param {"wish" | "yarn"} [way] */
  #replace(next, kept, way = this.way) {
    this.request.cancel();
    typed.form = { ...next, way };
    typed.from = kept;
    // A screen that is opened anew builds its form anew.
    this.ctx.go(`#/plan/${way}`);
  }

  /** @param {Event} event */
  #act(event) {
    const hit = closestTarget(event, "[data-act]");
    const { act, record = "" } = hit?.dataset ?? {};
    if (act === "keep-plan") this.#keep();
    else if (act === "open-plan") this.#open(record);
    else if (act === "remove-plan") this.#remove(record);
    else if (act === "clear-plan") {
      this.#remember();
      typed.setAside();
      this.#replace(emptyPlan(), "");
    } else if (act === "restore-plan" && typed.before) {
      const { form, from } = typed.before;
      typed.before = null;
      this.#replace(form, from);
    }
  }

  async #keep() {
    this.#remember();
    try {
      const kept = await this.ctx.shell.savePlan(typed.form, typed.from);
      typed.from = kept.record;
      this.ctx.show(kept.view);
      this.ctx.notify(t("plan_saved"));
    } catch (refusal) {
      this.form.fail(/** @type {import("../../types.d.ts").ErrorView} */ (refusal));
    }
  }

  /** @param {string} record */
  #open(record) {
    const found = this.ctx.view().plans.find((plan) => plan.record === record);
    if (!found) return;
    this.#remember();
    typed.setAside();
    this.#replace(found.form, record, wayOf(found));
  }

  /** @param {string} record */
  async #remove(record) {
    const isRemoved = await this.ctx.attempt(this.ctx.shell.remove(record), t("plan_removed"));
    if (isRemoved && typed.from === record) typed.from = "";
  }

  /** Plans of earlier warps, to begin from. */
  async #offerCopies() {
    // Without an answer there is nothing to copy from.
    const earlier = await this.ctx.shell.earlierPlans().catch(() => []);
    if (earlier.length === 0 || this.signal.aborted) return;
    const copy = (/** @type {import("../../types.d.ts").EarlierPlan} */ plan) => {
      const one = h("button", { type: "button", class: "button", "data-copy": plan.warp }, plan.name);
      one.addEventListener("click", () => {
        const { gift_on, name } = typed.form;
        this.#replace({ ...emptyPlan(), ...plan.form, gift_on, name }, typed.from);
        this.ctx.notify(t("plan_copied", { name: plan.name }));
      });
      return one;
    };
    this.copies.append(h("div", { class: "row" }, earlier.map(copy)));
    this.copies.hidden = false;
  }
}
