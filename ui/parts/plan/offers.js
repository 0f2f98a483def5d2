// What the shell offers for a field of the plan: a value from earlier warps, taken with one press.

import { h } from "../dom/dom.js";
import { disclosure } from "../disclosure/disclosure.js";
import { t } from "../../messages.js";

/** @typedef {import("../../types.d.ts").PlanOffer} PlanOffer */

/** @param {PlanOffer} offer */
function offerLine(offer) {
  const take = h(
    "button",
    { type: "button", class: "link", "data-act": "take", "data-fills": JSON.stringify(offer.fills) },
    t("plan_use_offer"),
    h("span", { class: "hidden-words" }, `: ${offer.button}`),
  );
  return h("li", { class: "offer" }, h("span", null, offer.line), take);
}

/** The offer in use first, the others behind a disclosure. @param {PlanOffer[]} offers @param {string} field */
export function offerList(offers, field) {
  const [first, ...others] = [...offers].sort((one, other) => Number(other.in_use) - Number(one.in_use));
  if (!first) return [];
  const list = [h("ul", { "data-key": "first" }, offerLine(first))];
  if (others.length === 0) return list;
  return [
    ...list,
    disclosure(t("plan_more_options"), { "data-key": `more-${field}` }, h("ul", null, others.map(offerLine))),
  ];
}

/** Fills the fields that a pressed offer names. @param {import("../form/form.js").Form<import("../../types.d.ts").PlanForm>} form @param {Event} event */
export function takeOffer(form, event) {
  const hit = /** @type {HTMLElement | null} */ (/** @type {Element} */ (event.target).closest("[data-act=take]"));
  if (!hit) return;
  /** @type {{ field: string, text: string }[]} */
  const fills = JSON.parse(hit.dataset.fills ?? "[]");
  for (const { field, text } of fills) form.put(field, text);
  const first = form.element.querySelector(`#plan-${(fills[0]?.field ?? "").replaceAll("_", "-")}`);
  if (first instanceof HTMLElement) first.focus();
}
