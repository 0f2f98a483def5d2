// What is seldom needed, behind a line that opens it.

import { h } from "../dom/dom.js";

/** @typedef {import("../dom/dom.js").Child} Child */
/** @typedef {import("../dom/dom.js").Props} Props */

/** @param {Child | Child[]} summary @param {Props | null} props @param {...(Child | Child[])} content */
export function disclosure(summary, props, ...content) {
  return h("details", props, h("summary", null, summary), ...content);
}

/** How a figure came about, line by line; nothing where there is nothing to explain. @param {Child[]} summary @param {Props} props @param {string[]} lines */
export function explanation(summary, props, lines) {
  if (lines.length === 0) return null;
  const list = h(
    "ul",
    null,
    lines.map((line) => h("li", null, line)),
  );
  return disclosure(summary, { class: "why", ...props }, list);
}
