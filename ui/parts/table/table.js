// A table whose rows become cards on a narrow screen.

import { h } from "../dom/dom.js";

/** @typedef {import("../dom/dom.js").Child} Child */
/**
 * @typedef {object} CardRow
 * @property {string} [key] keeps the row's element when the table is brought up to date
 * @property {string} [part]
 * @property {Child | Child[]} [header] the cell that names the row, in the first column
 * @property {string[]} cells the other cells
 */

/**
 * The roles are written out: where each row is a card, a table that is not laid out as one loses its own. Every cell carries its
 * column's name for that layout.
 * @param {object} options
 * @param {string} options.name class beside `card-table`
 * @param {string} options.part
 * @param {string[]} options.columns headings of all columns
 * @param {CardRow[]} options.rows
 * @param {(text: string) => Child} [options.written] a cell's text as it is shown
 * @param {(column: number) => string | null} [options.cellClass]
 */
export function cardTable({ name, part, columns, rows, written = (text) => text || "–", cellClass = () => null }) {
  const cell = (/** @type {string} */ text, /** @type {number} */ column) =>
    h(
      "td",
      { role: "cell", class: text ? cellClass(column) : "nothing" },
      h("span", { class: "cell-name", "aria-hidden": "true" }, columns[column]),
      written(text),
    );
  const row = (/** @type {CardRow} */ { key, part, header, cells }) => {
    const first = header === undefined ? 0 : 1;
    return h(
      "tr",
      { role: "row", "data-key": key, "data-part": part },
      header !== undefined && h("th", { scope: "row", role: "rowheader" }, header),
      cells.map((text, at) => cell(text, at + first)),
    );
  };
  const headings = columns.map((column) => h("th", { scope: "col", role: "columnheader" }, column));
  return h(
    "table",
    { class: `card-table ${name}`, role: "table", "data-part": part },
    h("thead", { role: "rowgroup" }, h("tr", { role: "row" }, headings)),
    h("tbody", { role: "rowgroup" }, rows.map(row)),
  );
}
