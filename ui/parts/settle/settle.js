// Two devices wrote something different into one field: both are shown, she says which is right.

import { h } from "../dom/dom.js";
import { T } from "../../texts/texts.js";

/** @param {import("../../types.d.ts").ToSettle[]} fields */
export function settle(fields) {
  if (fields.length === 0) return null;
  return h(
    "section",
    { class: "settle no-print", "aria-labelledby": "settle-title", "data-key": "settle", "data-part": "settle" },
    h("h2", { id: "settle-title" }, T.settle.title),
    h("p", { class: "quiet" }, T.settle.hint),
    fields.map(({ record, field, what, answers }) =>
      h(
        "div",
        { role: "group", "aria-label": what, "data-key": `${record}-${field}`, class: "settle-field" },
        h("h3", null, what),
        h(
          "div",
          { class: "row" },
          answers.map((answer) =>
            h(
              "button",
              {
                type: "button",
                class: "button settle-answer",
                "data-act": "settle",
                "data-record": record,
                "data-field": field,
                "data-choice": answer.key,
                "data-key": answer.key,
              },
              h("strong", null, answer.value),
              h("span", { class: "small" }, T.settle.from(answer.device), answer.in_use ? `, ${T.settle.inUse}` : ""),
            ),
          ),
        ),
      ),
    ),
  );
}
