// One photo, enlarged.

import { h } from "../dom/dom.js";
import { t } from "../../messages.js";

/** @param {string} address @param {string} text */
export function showPhoto(address, text) {
  const dialog = h(
    "dialog",
    { class: "photo-large", "aria-label": text },
    h("img", { src: address, alt: text }),
    h("form", { method: "dialog" }, h("button", { class: "button", "data-part": "photo-close" }, t("photos_close"))),
  );
  dialog.addEventListener("close", () => dialog.remove());
  document.body.append(dialog);
  dialog.showModal();
}
