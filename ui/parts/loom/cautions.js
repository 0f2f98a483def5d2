// Cautions about a warp: each is shown until it was read for this warp on this device.

import { button, h } from "../dom/dom.js";
import { t } from "../../messages.js";

/** @typedef {import("../../types.d.ts").LoomView} LoomView */

const STORAGE_KEY = "fellmark.cautions-read";

/** Cautions that were read, each with the warp it was read for. @returns {Set<string>} */
function readCautions() {
  try {
    return new Set(JSON.parse(localStorage.getItem(STORAGE_KEY) ?? "[]"));
  } catch {
    return new Set();
  }
}

/** @param {LoomView} loom @param {LoomView["cautions"][number]} caution */
const keyOf = (loom, caution) => `${loom.id} ${caution.id}`;

/** @param {LoomView} loom */
export function markAsRead(loom) {
  const read = [...readCautions(), ...loom.cautions.map((caution) => keyOf(loom, caution))];
  localStorage.setItem(STORAGE_KEY, JSON.stringify(read));
}

/** @param {LoomView} loom */
export function cautions(loom) {
  const read = readCautions();
  const unread = loom.cautions.filter((caution) => !read.has(keyOf(loom, caution)));
  if (unread.length === 0) return null;
  return h(
    "aside",
    { class: "cautions no-print", "aria-label": t("loom_take_care"), "data-key": "cautions", "data-part": "cautions" },
    h(
      "div",
      null,
      unread.map(({ sentence, source }) => h("p", null, `${sentence} `, h("span", { class: "small" }, `(${source})`))),
    ),
    button("cautions-seen", t("got_it"), { class: "link" }),
  );
}
