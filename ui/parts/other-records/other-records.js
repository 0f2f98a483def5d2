// What was recorded beside the sittings: readings, weighings, yarns taken into use, places set; to read and to remove.

import { disclosure } from "../disclosure/disclosure.js";
import { recordList } from "../record-list/record-list.js";
import { t } from "../../messages.js";

/** @param {import("../../types.d.ts").LoomView} loom */
export function otherRecords(loom) {
  if (loom.moments.length === 0) return null;
  return disclosure(
    `${t("records_title")} (${loom.moments.length})`,
    { class: "other-records", "data-key": "other-records", "data-part": "other-records" },
    recordList(
      loom.moments.map(({ record, day, line }) => ({ id: record, words: `${day}: ${line}` })),
      { act: "remove-record", label: t("remove"), class: "link no-print" },
      "other-records-list",
    ),
  );
}
