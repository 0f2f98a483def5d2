// Fields into which two devices wrote different values: both are shown, and one is chosen.

import { h } from "../dom/dom.js";
import { t } from "../../messages.js";

/** @param {import("../../types.d.ts").ConflictView[]} fields */
export function conflicts(fields) {
  if (fields.length === 0) return null;
  return h(
    "section",
    {
      class: "conflicts no-print",
      "aria-labelledby": "conflicts-title",
      "data-key": "conflicts",
      "data-part": "conflicts",
    },
    h("h2", { id: "conflicts-title" }, t("conflicts_title")),
    h("p", { class: "quiet" }, t("conflicts_hint")),
    fields.map(({ record, field, what, answers }) =>
      h(
        "div",
        { role: "group", "aria-label": what, "data-key": `${record}-${field}`, class: "conflict-field" },
        h("h3", null, what),
        h(
          "div",
          { class: "row" },
          answers.map((answer) =>
            h(
              "button",
              {
                type: "button",
                class: "button conflict-answer",
                "data-act": "resolve-conflict",
                "data-record": record,
                "data-field": field,
                "data-choice": answer.key,
                "data-key": answer.key,
              },
              h("strong", null, answer.value),
              h(
                "span",
                { class: "small" },
                t("conflicts_from", { device: answer.device }),
                answer.in_use ? `, ${t("conflicts_in_use")}` : "",
              ),
            ),
          ),
        ),
      ),
    ),
  );
}
