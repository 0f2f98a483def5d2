// What would be imported from a table: which column is what, the rows that are read, and those that are not.

import { button, h } from "../dom/dom.js";
import { disclosure } from "../disclosure/disclosure.js";
import { cardTable } from "../table/table.js";
import { t } from "../../messages.js";

/** @typedef {import("../../types.d.ts").ImportView} ImportView */

/** @param {ImportView} view */
function columns(view) {
  if (view.columns.length === 0) return null;
  const options = (/** @type {string} */ chosen) =>
    view.fields.map(({ field, label }) => h("option", { value: field, selected: field === chosen }, label));
  const items = view.columns.map((column, at) =>
    h(
      "li",
      null,
      h("strong", null, column.heading || "–"),
      h("span", { class: "small quiet" }, column.sample ? t("import_sample", { text: column.sample }) : ""),
      h(
        "select",
        {
          "data-column": at,
          "aria-label": t("import_column", { heading: column.heading }),
          "data-part": "import-column",
        },
        options(column.field),
      ),
    ),
  );
  return disclosure(
    t("import_columns"),
    { open: true, "data-key": "columns" },
    h("ul", { class: "import-columns" }, items),
  );
}

/** @param {ImportView} view */
function rows(view) {
  if (view.shown.length === 0) return null;
  const names = view.columns
    .filter(({ field }) => field !== "-")
    .map((column) => view.fields.find(({ field }) => field === column.field)?.label ?? column.heading);
  const table = cardTable({
    name: "import-table",
    part: "import-rows",
    columns: names,
    rows: view.shown.map((cells) => ({ cells })),
    written: (text) => h("span", { class: "import-cell" }, text),
  });
  const props = { class: "import-scroll", tabindex: 0, role: "group", "aria-label": view.line, "data-key": "rows" };
  return h("div", props, table);
}

/** @param {ImportView} view */
function refusedRows(view) {
  if (view.refused.length === 0) return null;
  const items = view.refused.map(({ line, why }) =>
    h("li", null, h("strong", null, `${t("import_line", { line })} `), why),
  );
  const list = h("ul", { "data-part": "import-refused" }, items);
  return disclosure(t("import_refused"), { open: true, "data-key": "refused" }, list);
}

/** @param {ImportView} view */
export function importPreview(view) {
  const props = { class: "button", "data-part": "import-confirm", "data-key": "confirm" };
  return [
    h("p", { class: "headline", role: "status", "data-part": "import-line", "data-key": "line" }, view.line),
    columns(view),
    rows(view),
    refusedRows(view),
    view.good > 0 ? button("import-confirm", t("import"), props) : null,
  ].filter((part) => part !== null);
}
