// Cautions about a warp: each is shown until it was read once on this device.

import { button, h } from "../dom/dom.js";
import { t } from "../../messages.js";

/** @typedef {import("../../types.d.ts").LoomView} LoomView */

const STORAGE_KEY = "fellmark.cautions";

/** @returns {Set<string>} */
function readCautions() {
  try {
    return new Set(JSON.parse(localStorage.getItem(STORAGE_KEY) ?? "[]"));
  } catch {
    return new Set();
  }
}

/** @param {string[]} sentences */
export function markAsRead(sentences) {
  localStorage.setItem(STORAGE_KEY, JSON.stringify([...readCautions(), ...sentences]));
}

/** @param {LoomView} loom */
export function cautions(loom) {
  const read = readCautions();
  const unread = loom.cautions.filter((sentence) => !read.has(sentence));
  if (unread.length === 0) return null;
  return h(
    "aside",
    { class: "cautions no-print", "aria-label": t("loom_take_care"), "data-key": "cautions", "data-part": "cautions" },
    h(
      "div",
      null,
      unread.map((sentence) => h("p", null, sentence)),
    ),
    button("cautions-seen", t("got_it"), { class: "link" }),
  );
}
