// Where the next pick is in the sequence: in words, as a drawing of the shed, and as a bead for every row.

import { h } from "../dom/dom.js";
import { t } from "../../messages.js";
import { shedDrawings } from "../shed/shed.js";

/** @typedef {import("../../types.d.ts").PlaceView} PlaceView */
/** @typedef {import("../../types.d.ts").PlaceDue} PlaceDue */
/** @typedef {import("./layout.js").TapLayout} TapLayout */

/** The rows are drawn as beads up to this many. */
const MOST_BEADS = 40;

/** @param {HTMLElement} beads @param {PlaceView | null} at */
function showBeads(beads, at) {
  const rows = at && at.rows > 1 && at.rows <= MOST_BEADS ? at.rows : 0;
  if (beads.childElementCount !== rows) beads.replaceChildren(...Array.from({ length: rows }, () => h("i")));
  [...beads.children].forEach((bead, row) => {
    bead.className = at && row + 1 < at.row ? "done" : at && row + 1 === at.row ? "now" : "";
  });
}

/** A step that is due, with the button that takes it. @param {HTMLElement} place @param {PlaceDue | null} due @param {(due: PlaceDue) => void} take */
function showDue(place, due, take) {
  place.hidden = !due;
  if (!due) {
    place.replaceChildren();
    return;
  }
  const words = due.sentence + due.words;
  if (place.dataset.words === words && place.childElementCount > 0) return;
  place.dataset.words = words;
  const go = h("button", { type: "button", class: "tap-quiet", "data-part": "tap-due-go" }, due.words);
  go.addEventListener("click", () => take(due));
  place.replaceChildren(h("p", null, due.sentence), go);
}

/** @param {TapLayout} layout @param {PlaceView | null} at @param {(due: PlaceDue) => void} takeDue */
export function showPlace(layout, at, takeDue) {
  layout.element.classList.toggle("placeless", !at);
  // Where it must break, it breaks between heddle and stick.
  const words = (at?.next ?? "").split(/(?<=,) /).filter(Boolean);
  layout.next.replaceChildren(...words.flatMap((part, which) => [which > 0 ? " " : "", h("span", null, part)]));
  const there = [at?.piece, at?.place].filter(Boolean).join(", ");
  layout.place.textContent = [there, at?.left].filter(Boolean).join(" · ");
  layout.then.textContent = at?.then ? t("tap_then", { pick: at.then }) : "";
  const warning = at?.warning ?? "";
  layout.warning.hidden = !warning;
  if (layout.warning.textContent !== warning) layout.warning.textContent = warning;
  showDue(layout.due, at?.due ?? null, takeDue);
  layout.last.textContent = at?.last ? t("tap_last", { pick: at.last }) : "";
  layout.shed.replaceChildren(...(at && (at.heddle || at.stick) ? shedDrawings(at.heddle, at.stick) : []));
  showBeads(layout.beads, at);
}
