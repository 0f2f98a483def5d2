// Choosing photos for a sitting that is not saved yet: from files, by dropping, by pasting.

import { morphChildren, closestTarget, h } from "../dom/dom.js";
import { t } from "../../messages.js";

/** Holds the chosen photos until the form is saved. */
export class PhotoChooser {
  /** @type {{ file: File, url: string }[]} */
  #chosen = [];
  #input;
  #list;

  /** @param {{ id: string, signal: AbortSignal, start?: File[] }} options `id` begins the ids of its elements */
  constructor({ id, signal, start = [] }) {
    this.#input = h("input", {
      type: "file",
      accept: "image/*",
      multiple: true,
      id: `${id}-photos`,
      "data-part": `${id}-photos`,
      "aria-describedby": `${id}-photos-hint`,
    });
    this.#list = h("ul", { class: "chosen-photos", "data-part": `${id}-chosen` });
    this.element = h(
      "div",
      { class: "photo-chooser", "data-part": `${id}-drop` },
      h("p", { class: "photo-title" }, t("photos_title")),
      h("label", { class: "button file-button" }, t("sittings_add_photos"), this.#input),
      h("p", { class: "hint small quiet", id: `${id}-photos-hint` }, t("photos_hint")),
      this.#list,
    );
    this.#add(start);
    this.#listen(signal);
  }

  get files() {
    return this.#chosen.map(({ file }) => file);
  }

  /** @param {AbortSignal} signal */
  #listen(signal) {
    this.#input.addEventListener("change", () => this.#addFromInput(), { signal });
    this.#list.addEventListener("click", (event) => this.#leaveOut(event), { signal });
    this.element.addEventListener("dragover", (event) => event.preventDefault(), { signal });
    this.element.addEventListener("drop", (event) => this.#drop(event), { signal });
    document.addEventListener("paste", (event) => this.#paste(event), { signal });
    signal.addEventListener("abort", () => this.#chosen.forEach(({ url }) => URL.revokeObjectURL(url)));
  }

  /** @param {Iterable<File>} files */
  #add(files) {
    for (const file of files) this.#chosen.push({ file, url: URL.createObjectURL(file) });
    this.#draw();
  }

  #addFromInput() {
    this.#add(this.#input.files ?? []);
    this.#input.value = "";
  }

  /** @param {DragEvent} event */
  #drop(event) {
    event.preventDefault();
    this.#add(event.dataTransfer?.files ?? []);
  }

  /** @param {ClipboardEvent} event */
  #paste(event) {
    const files = event.clipboardData?.files;
    if (!files?.length) return;
    event.preventDefault();
    this.#add(files);
  }

  /** @param {Event} event */
  #leaveOut(event) {
    const hit = closestTarget(event, "[data-drop-at]");
    if (!hit) return;
    const [photo] = this.#chosen.splice(Number(hit.dataset.dropAt), 1);
    URL.revokeObjectURL(photo.url);
    this.#draw();
    this.#input.focus();
  }

  #draw() {
    const photo = (/** @type {{ file: File, url: string }} */ { file, url }, /** @type {number} */ at) =>
      h(
        "li",
        { "data-key": url },
        h("img", { src: url, alt: t("photos_chosen", { name: file.name }) }),
        h(
          "button",
          { type: "button", class: "link small", "data-drop-at": at },
          t("photos_leave_out", { name: file.name }),
        ),
      );
    morphChildren(this.#list, this.#chosen.map(photo));
  }
}
