// What was noted beside the sittings: readings, weighings, yarns taken up, places set; to read, and to remove.

import { button, h } from "../dom/dom.js";
import { disclosure } from "../disclosure/disclosure.js";
import { L } from "../../texts/at-loom.js";

/** @param {import("../../types.d.ts").LoomView} loom */
export function noted(loom) {
  if (loom.moments.length === 0) return null;
  return disclosure(
    `${L.noted.title} (${loom.moments.length})`,
    { class: "noted", "data-key": "noted", "data-part": "noted" },
    h(
      "ul",
      { class: "noted-list" },
      loom.moments.map((moment) =>
        h(
          "li",
          { class: "row", "data-key": moment.record },
          h("span", null, `${moment.day}: ${moment.line}`),
          button("remove-noted", L.noted.remove, {
            class: "link no-print",
            "data-record": moment.record,
            "aria-label": `${L.noted.remove}: ${moment.day}, ${moment.line}`,
          }),
        ),
      ),
    ),
  );
}
