// One photo, enlarged.

import { h } from "../dom/dom.js";
import { help } from "../guide/help.js";
import { t } from "../../messages.js";

/** @param {string} address @param {string} text @param {() => void} remove removes the photo */
export function showPhoto(address, text, remove) {
  const removing = h("button", { class: "link", "data-part": "photo-remove" }, t("photos_remove"));
  removing.addEventListener("click", remove);
  const dialog = h(
    "dialog",
    { class: "photo-large", "aria-label": text },
    h("img", { src: address, alt: text }),
    h(
      "form",
      { method: "dialog" },
      h("button", { class: "button", "data-part": "photo-close" }, t("photos_close")),
      removing,
    ),
    help("deleting"),
  );
  dialog.addEventListener("close", () => dialog.remove());
  // A link leads to another screen.
  dialog.querySelector(".help")?.addEventListener("click", () => dialog.close());
  document.body.append(dialog);
  dialog.showModal();
}
