// The three answers, as sentences first; each figure can be asked why.

import { h, s } from "../dom/dom.js";
import { explanation } from "../disclosure/disclosure.js";
import { t } from "../../messages.js";

/** @typedef {import("../../types.d.ts").Answer} Answer */
/** @typedef {import("../../types.d.ts").LoomView} LoomView */

const STANDING = /** @type {const} */ ({
  well: "answers_well",
  close: "answers_close",
  short: "answers_short",
  open: "answers_open",
});

/** A thread and a peg: it passes the peg, just touches it, stops before it, or is only dotted. @param {string} standing */
function thread(standing) {
  const end = /** @type {Record<string, number>} */ ({ well: 62, close: 45, short: 24, open: 45 })[standing] ?? 45;
  return s(
    "svg",
    { class: `standing-thread ${standing}`, viewBox: "0 0 64 16", "aria-hidden": "true", focusable: "false" },
    s("path", { class: "peg", d: "M46 1v14" }),
    s("path", { class: "strand", d: `M2 8H${end}` }),
  );
}

/** @param {Answer} answer @param {string} name @param {string} question @param {boolean} standing */
function one(answer, name, question, standing) {
  return h(
    "div",
    { class: "answer", "data-part": `answer-${name}`, "data-standing": answer.standing, "data-key": `answer-${name}` },
    h("h3", { class: "answer-question" }, question),
    standing && h("p", { class: "standing" }, thread(answer.standing), h("span", null, t(STANDING[answer.standing]))),
    h("p", { class: "headline", "data-part": `answer-${name}-headline` }, answer.headline),
    answer.more.map((line) => h("p", { class: "answer-more" }, line)),
    explanation(
      [
        h("span", { class: "why-only" }, t("why")),
        h("span", { class: "why-more" }, t("answers_details")),
        h("span", { class: "hidden-words" }, ` ${question}`),
      ],
      { "data-part": `answer-${name}-why`, "data-key": `why-${name}` },
      answer.why,
    ),
  );
}

/** @param {LoomView} loom */
export function answers(loom) {
  return h(
    "section",
    { class: "answers", "aria-labelledby": "answers-title", "data-key": "answers" },
    h("h2", { id: "answers-title", class: "hidden-words" }, t("answers")),
    one(loom.progress, "where", t("answers_where"), false),
    h(
      "div",
      { class: "answer-pair", "data-key": "reach" },
      one(loom.warp_reach, "warp", t("answers_warp"), true),
      one(loom.weft_reach, "weft", t("answers_weft"), true),
    ),
    one(loom.finish_date, "when", t("answers_when"), false),
  );
}
