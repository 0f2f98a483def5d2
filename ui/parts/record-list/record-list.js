// A list of records with one button each, to remove or to restore them.

import { button, h } from "../dom/dom.js";

/** @typedef {{ id: string, words: string, about?: string }} RecordLine `about` names it to a screen reader, where `words` are too long */
/** @typedef {{ act: string, label: string, class?: string }} RecordAction */

/** @param {RecordLine[]} records @param {RecordAction} action @param {string} [listClass] */
export function recordList(records, { act, label, class: buttonClass = "link" }, listClass) {
  const line = (/** @type {RecordLine} */ { id, words, about = words }) =>
    h(
      "li",
      { class: "row", "data-key": id },
      h("span", null, words),
      button(act, label, { class: buttonClass, "data-record": id, "aria-label": `${label}: ${about}` }),
    );
  return h("ul", { class: listClass }, records.map(line));
}
