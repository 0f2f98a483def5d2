// One photo of a list: small, opened large by a press; or that its file is missing.

import { h } from "../dom/dom.js";
import { t } from "../../messages.js";

/** @typedef {{ id: string, missing: boolean, small: string, large: string, text: string }} TilePhoto */

/** @param {TilePhoto} photo @param {string} label of the button that enlarges it */
export function photoTile(photo, label) {
  if (photo.missing) return h("p", { class: "photo-missing small" }, t("photos_missing"));
  return h(
    "button",
    {
      type: "button",
      "data-act": "photo",
      "data-record": photo.id,
      "data-address": photo.large,
      "data-text": photo.text,
      "aria-label": label,
    },
    h("img", { src: photo.small, alt: "", loading: "lazy" }),
  );
}
