// A hint beside the weaving that is hidden when it was read or no longer applies; a later one is shown again.

import { h } from "../dom/dom.js";

/** Hints that were read since the window opened. @type {Set<string>} */
const read = new Set();

/**
 * @param {HTMLElement} place @param {string} part @param {string} words of the button that puts it away
 * @param {HTMLElement} surface where the keys go then @param {AbortSignal} signal
 * @returns {(sentence: string | null) => void}
 */
export function dismissibleHint(place, part, words, surface, signal) {
  let shown = "";
  return (sentence) => {
    if (!sentence) {
      read.delete(part + shown);
      shown = "";
      place.hidden = true;
      return;
    }
    if (sentence === shown || read.has(part + sentence)) return;
    shown = sentence;
    const seen = h("button", { type: "button", class: "tap-quiet", "data-part": part }, words);
    seen.addEventListener(
      "click",
      () => {
        read.add(part + sentence);
        place.hidden = true;
        surface.focus();
      },
      { signal },
    );
    place.replaceChildren(h("p", null, sentence), seen);
    place.hidden = false;
  };
}
