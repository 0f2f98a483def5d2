// The photos of a warp in the order in which they were taken.

import { h } from "../dom/dom.js";
import { t } from "../../messages.js";
import { photoTile } from "../photos/tile.js";

/** @param {import("../../types.d.ts").LoomView} loom */
export function photoTimeline(loom) {
  if (loom.strip.length === 0) return null;
  return h(
    "section",
    { class: "photo-timeline", "aria-labelledby": "photo-timeline-title", "data-key": "photo-timeline" },
    h("h2", { id: "photo-timeline-title" }, t("photos_over_time")),
    h(
      "ol",
      {
        class: "timeline-photos",
        tabindex: 0,
        "aria-labelledby": "photo-timeline-title",
        "data-part": "photo-timeline",
        "data-key": "photos",
      },
      loom.strip.map((photo) =>
        h(
          "li",
          { "data-key": photo.id },
          photoTile(photo, t("photos_enlarge", { photo: photo.text })),
          h("p", { class: "small" }, photo.day),
          h("p", { class: "small quiet" }, photo.cloth),
        ),
      ),
    ),
  );
}
