// Which key counts a pick and which takes one back. Any key counts until one is chosen; the choice stays on this device.

import { t } from "../../messages.js";

const KEPT = "fellmark.keys";
const NAMED = new Set([
  "Enter",
  "ArrowLeft",
  "ArrowRight",
  "ArrowUp",
  "ArrowDown",
  "PageUp",
  "PageDown",
  "Home",
  "End",
  "Insert",
  "MediaPlayPause",
  "MediaTrackNext",
  "MediaTrackPrevious",
]);
const BACK = new Set(["Backspace", "Delete", "-", "−"]);
/** Keys that only shift others, or lead away: they cannot be chosen. */
const NEVER = new Set([
  "Tab",
  "Escape",
  "Shift",
  "Control",
  "Alt",
  "Meta",
  "AltGraph",
  "CapsLock",
  "Dead",
  "Unidentified",
]);

/** @typedef {{ pick: string | null, back: string | null }} Bound */

/** @returns {Bound} */
export function bound() {
  try {
    const kept = JSON.parse(localStorage.getItem(KEPT) ?? "{}");
    const key = (/** @type {unknown} */ one) => (typeof one === "string" && one ? one : null);
    return { pick: key(kept.pick), back: key(kept.back) };
  } catch {
    return { pick: null, back: null };
  }
}

/** @param {Bound} keys */
export function bind(keys) {
  localStorage.setItem(KEPT, JSON.stringify(keys));
}

/** A key as it is written on it. @param {string} key */
export function keyName(key) {
  return key === " "
    ? t("keys_space")
    : key.length === 1
      ? key.toUpperCase()
      : key.replace(/(?<=[a-z])(?=[A-Z])/g, " ");
}

/** @param {KeyboardEvent} event */
export function canBeBound(event) {
  return !NEVER.has(event.key);
}

/**
 * What a key means at the loom: 1 for a pick, -1 for one back, 0 for nothing.
 * @param {KeyboardEvent} event @param {Bound} keys @returns {1 | -1 | 0}
 */
export function meaning(event, keys) {
  const { key } = event;
  if (keys.pick !== null && key === keys.pick) return 1;
  if (keys.back !== null ? key === keys.back : BACK.has(key)) return -1;
  if (keys.pick !== null) return 0;
  return key.length === 1 || NAMED.has(key) ? 1 : 0;
}
