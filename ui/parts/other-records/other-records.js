// What was recorded beside the sittings: readings, weighings, yarns taken into use, places set; to read and to remove.

import { button, h } from "../dom/dom.js";
import { disclosure } from "../disclosure/disclosure.js";
import { L } from "../../texts/at-loom.js";

/** @param {import("../../types.d.ts").LoomView} loom */
export function otherRecords(loom) {
  if (loom.moments.length === 0) return null;
  return disclosure(
    `${L.otherRecords.title} (${loom.moments.length})`,
    { class: "other-records", "data-key": "other-records", "data-part": "other-records" },
    h(
      "ul",
      { class: "other-records-list" },
      loom.moments.map((moment) =>
        h(
          "li",
          { class: "row", "data-key": moment.record },
          h("span", null, `${moment.day}: ${moment.line}`),
          button("remove-record", L.otherRecords.remove, {
            class: "link no-print",
            "data-record": moment.record,
            "aria-label": `${L.otherRecords.remove}: ${moment.day}, ${moment.line}`,
          }),
        ),
      ),
    ),
  );
}
