// What a plan takes: the sentence first, then each figure with its reckoning.

import { h } from "../dom/dom.js";
import { explanation } from "../disclosure/disclosure.js";
import { t } from "../../messages.js";

/** @typedef {import("../../types.d.ts").PlanView} PlanView */
/** @typedef {import("../../types.d.ts").Answer} Answer */

/** @param {string} key @param {string} what @param {string[]} lines */
function why(key, what, lines) {
  const summary = [t("why"), h("span", { class: "hidden-words" }, ` ${what}`)];
  return explanation(summary, { "data-key": `why-${key}`, "data-part": `plan-${key}-why` }, lines);
}

/** @param {string} name @param {string} title @param {Answer | null} answer */
function answer(name, title, answer) {
  if (!answer) return null;
  return h(
    "section",
    { class: "plan-answer", "data-part": `plan-${name}`, "data-key": `plan-${name}` },
    h("h3", { class: "answer-question" }, title),
    h("p", { class: "headline" }, answer.headline),
    answer.more.map((line) => h("p", { class: "answer-more" }, line)),
    why(name, title, answer.why),
  );
}

/** @param {PlanView} view */
function figures(view) {
  return h(
    "ul",
    { class: "plan-figures", "data-key": "plan-figures", "data-part": "plan-figures" },
    view.figures.map((figure) =>
      h(
        "li",
        { class: "plan-figure", "data-key": `figure-${figure.id}`, "data-part": `plan-figure-${figure.id}` },
        h("span", { class: "plan-label" }, figure.label),
        h("span", { class: "plan-value" }, figure.value),
        why(figure.id, figure.label, figure.why),
      ),
    ),
  );
}

/** The parts of the result, in order. @param {PlanView} view @param {HTMLElement | null} curve @param {HTMLElement | null} picture */
export function result(view, curve, picture) {
  return [
    h(
      "p",
      { class: "headline plan-headline", "data-key": "plan-headline", "data-part": "plan-headline" },
      view.headline,
    ),
    view.warnings.length > 0 &&
      h(
        "section",
        { class: "plan-warnings", "data-key": "plan-warnings", "data-part": "plan-warnings" },
        h("h3", { class: "hidden-words" }, t("plan_check_first")),
        view.warnings.map((line) => h("p", { class: "trouble" }, line)),
      ),
    curve,
    view.figures.length > 0 && figures(view),
    answer("when", t("answers_when"), view.finish_date),
    answer("thumb", t("plan_rule_of_thumb"), view.rule_of_thumb),
    picture,
  ].filter((part) => part instanceof Node);
}
