// The answers at a glance: a question, one large figure or word, one gauge, one short line; everything else is behind "Why?".

import { h } from "../dom/dom.js";
import { disclosure } from "../disclosure/disclosure.js";
import { t } from "../../messages.js";
import { daysGauge, supplyGauge, wovenGauge } from "./gauge.js";

/** @typedef {import("../../types.d.ts").Answer} Answer */
/** @typedef {import("../../types.d.ts").GlanceView} GlanceView */
/** @typedef {import("../../types.d.ts").LoomView} LoomView */

const STANDING = /** @type {const} */ ({
  well: "answers_well",
  close: "answers_close",
  short: "answers_short",
  open: "answers_open",
});

/** @param {string} name @param {string} question @param {Answer} answer @param {GlanceView} glance @param {SVGElement | null} gauge */
function one(name, question, answer, { figure, line }, gauge) {
  const headline = (/** @type {string} */ kind) =>
    h("p", { class: kind, "data-part": `answer-${name}-headline` }, answer.headline);
  // The figure says the same as the sentence, which screen readers read instead.
  const isSaidByFigure = figure !== "" && (name === "where" || name === "when");
  return h(
    "div",
    { class: "answer", "data-part": `answer-${name}`, "data-standing": answer.standing, "data-key": `answer-${name}` },
    h("h3", { class: "answer-question" }, question),
    figure && h("p", { class: "answer-figure", "aria-hidden": isSaidByFigure ? "true" : null }, figure),
    isSaidByFigure && headline("headline hidden-words"),
    !figure && headline("headline answer-figure"),
    gauge && h("div", { class: "answer-gauge" }, gauge),
    figure && !isSaidByFigure && headline("headline"),
    line && h("p", { class: "answer-line" }, line),
    why(name, question, answer),
  );
}

/** What belongs to the answer, and how it came about. @param {string} name @param {string} question @param {Answer} answer */
function why(name, question, { more, why: lines }) {
  if (more.length + lines.length === 0) return null;
  const list = h(
    "ul",
    null,
    lines.map((line) => h("li", null, line)),
  );
  return disclosure(
    [t("why"), h("span", { class: "hidden-words" }, ` ${question}`)],
    { class: "why", "data-part": `answer-${name}-why`, "data-key": `why-${name}` },
    more.map((line) => h("p", { class: "answer-more" }, line)),
    lines.length > 0 ? list : null,
  );
}

/** A word for how an answer stands. @param {Answer} answer @returns {GlanceView} */
function word(answer) {
  return { figure: t(STANDING[answer.standing]), line: "" };
}

/** @param {LoomView} loom */
export function answers(loom) {
  const { figures, progress, warp_reach: warp, weft_reach: weft, finish_date: when } = loom;
  const needed = figures.to_weave_mm > 0 ? figures.to_weave_mm : null;
  return h(
    "section",
    { class: "answers", "aria-labelledby": "answers-title", "data-key": "answers" },
    h("h2", { id: "answers-title", class: "hidden-words" }, t("answers")),
    one("where", t("answers_where"), progress, loom.progress_glance, wovenGauge(figures.woven_mm, figures.wanted_mm)),
    one("warp", t("answers_warp"), warp, word(warp), supplyGauge(warp.standing, figures.cloth_possible_mm, needed)),
    one(
      "weft",
      t("answers_weft"),
      weft,
      word(weft),
      supplyGauge(weft.standing, figures.weft_left_m, figures.weft_needed_m),
    ),
    one("when", t("answers_when"), when, loom.finish_date_glance, daysGauge(figures)),
  );
}
