// The photos of a warp over time, one after another: how it came to be.

import { h } from "../dom/dom.js";
import { L } from "../../texts/at-loom.js";
import { photoTile } from "../photos/tile.js";

/** @param {import("../../types.d.ts").LoomView} loom */
export function strip(loom) {
  if (loom.strip.length === 0) return null;
  return h(
    "section",
    { class: "strip", "aria-labelledby": "strip-title", "data-key": "strip" },
    h("h2", { id: "strip-title" }, L.strip.title),
    h(
      "ol",
      {
        class: "strip-photos",
        tabindex: 0,
        "aria-labelledby": "strip-title",
        "data-part": "strip",
        "data-key": "photos",
      },
      loom.strip.map((photo) =>
        h(
          "li",
          { "data-key": photo.id },
          photoTile(photo, L.strip.enlarge(photo.text)),
          h("p", { class: "small" }, photo.day),
          h("p", { class: "small quiet" }, photo.cloth),
        ),
      ),
    ),
  );
}
