// Plans that were not begun: opened again, or removed; undo restores one.

import { button, h } from "../dom/dom.js";
import { t } from "../../messages.js";

/** @typedef {import("../../types.d.ts").PlanKept} PlanKept */

/** Where a kept plan is opened. @param {PlanKept} plan */
export const wayOf = (plan) => (plan.form.way === "yarn" ? "yarn" : "wish");

/**
 * The list; nothing where none is kept.
 * @param {PlanKept[]} plans @param {string} open the one that is on the screen
 */
export function keptPlans(plans, open) {
  const kept = plans.filter(({ record }) => record !== "");
  if (kept.length === 0) return null;
  return h(
    "section",
    { class: "plans-kept", "aria-labelledby": "plans-kept", "data-key": "plans-kept", "data-part": "plans-kept" },
    h("h2", { id: "plans-kept" }, t("plan_saved_plans")),
    h(
      "ul",
      null,
      kept.map((plan) =>
        h(
          "li",
          { "data-key": plan.record, "data-part": "plan-kept" },
          button("open-plan", plan.name, {
            class: "link",
            "data-record": plan.record,
            "aria-current": plan.record === open ? "true" : null,
          }),
          plan.line !== plan.name && h("span", { class: "small quiet" }, plan.line),
          button("remove-plan", t("remove"), {
            class: "link small",
            "data-record": plan.record,
            "aria-label": t("plan_remove_named", { name: plan.name }),
          }),
        ),
      ),
    ),
  );
}

/** A link to the plans that wait to be begun; nothing where none does. @param {import("../../types.d.ts").AppView} view */
export function plansWaiting({ plans }) {
  const typed = plans.find(({ record }) => record === "");
  const shown = plans.filter(({ record }) => record !== "" && record !== typed?.from).concat(typed ?? []);
  const latest = shown.at(-1);
  if (!latest) return null;
  return h(
    "p",
    { class: "plans-waiting no-print", "data-key": "plans-waiting", "data-part": "plans-waiting" },
    h("a", { class: "link", href: `#/plan/${wayOf(latest)}` }, t("plan_waiting", { count: shown.length })),
    h("span", { class: "small quiet" }, shown.map(({ name }) => name).join("; ")),
  );
}
