// The cloth a sequence makes, as it would look: warp ends over and under the weft, floats at their true length.

import { s } from "../dom/dom.js";
import { t } from "../../messages.js";

/** @typedef {import("../../types.d.ts").ClothView} ClothView */

const END = 12;

/** @param {ClothView} cloth @param {(section: string) => string} nameOf */
export function clothDrawing(cloth, nameOf) {
  const pick = Math.min(Math.max(END * cloth.pick_per_end, 5), 24);
  const wide = cloth.ends * END;
  const high = cloth.rows.length * pick;
  const gap = Math.min(1.5, pick / 6);
  /** @type {SVGElement[]} */
  const parts = [s("rect", { class: "cloth-ground", x: 0, y: 0, width: wide, height: high })];
  cloth.rows.forEach((row, at) => {
    // The first pick is at the bottom, as it does on the loom.
    const y = high - (at + 1) * pick;
    const group = s("g", null, s("title", null, t("sequence_row", { row: row.words, section: nameOf(row.section) })));
    group.append(s("rect", { class: "cloth-weft", x: 0, y: y + gap, width: wide, height: pick - 2 * gap, rx: gap }));
    [...row.up].forEach((up, end) => {
      if (up === "1")
        group.append(s("rect", { class: "cloth-warp", x: end * END + 2, y, width: END - 4, height: pick }));
    });
    for (const [from, to] of row.long) {
      group.append(
        s("rect", {
          class: "cloth-long",
          x: from * END + 1,
          y: y + 1,
          width: (to - from + 1) * END - 2,
          height: pick - 2,
        }),
      );
    }
    if (at > 0 && cloth.rows[at - 1].section !== row.section) {
      group.append(s("path", { class: "cloth-join", d: `M${-10} ${y + pick}h${wide + 20}` }));
    }
    parts.push(group);
  });
  return s(
    "svg",
    {
      class: "cloth-drawing",
      viewBox: `-10 -2 ${wide + 20} ${high + 4}`,
      role: "img",
      "aria-label": cloth.text,
      "data-part": "cloth",
    },
    parts,
  );
}
