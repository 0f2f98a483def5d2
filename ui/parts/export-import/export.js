// Everything as files: the lists, and what belongs to the warp that is shown.

import { morphChildren, button, h } from "../dom/dom.js";
import { t } from "../../messages.js";
import { LIST_NAMES } from "./lists.js";

/** @typedef {import("../../main.js").Context} Context */

/** What is made of one warp. */
const OF_A_WARP = ["sheet", "progress", "progress-png"];

/** Draws an SVG file's text as PNG; the picture is the page's own, so it leaves no trace on the canvas. @param {string} svg */
async function asPng(svg) {
  const address = URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" }));
  try {
    const picture = new Image();
    picture.src = address;
    await picture.decode();
    const canvas = h("canvas", { width: picture.naturalWidth, height: picture.naturalHeight });
    canvas.getContext("2d")?.drawImage(picture, 0, 0);
    /** @type {Blob | null} */
    const blob = await new Promise((done) => canvas.toBlob(done, "image/png"));
    return new Uint8Array((await blob?.arrayBuffer()) ?? []);
  } finally {
    URL.revokeObjectURL(address);
  }
}

export class ExportSection {
  /** @param {Context} ctx @param {AbortSignal} signal */
  constructor(ctx, signal) {
    this.ctx = ctx;
    this.folder = h("input", {
      type: "text",
      id: "export-folder",
      "data-part": "export-folder",
      spellcheck: "false",
      "aria-describedby": "export-folder-hint",
    });
    this.element = h("section", { class: "stack", "aria-labelledby": "export-title" });
    this.element.addEventListener("click", (event) => this.#act(event), { signal });
    this.update();
  }

  update() {
    const { loom } = this.ctx.view();
    const write = (/** @type {string} */ what, /** @type {string} */ words) =>
      button("export", words, { class: "button", "data-what": what });
    const lists = Object.entries(LIST_NAMES).map(([what, id]) => write(what, t(id)));
    const ofWarp = [
      write("sheet", t("export_sheet")),
      write("progress-png", t("export_picture_png")),
      write("progress", t("export_picture_svg")),
    ];
    morphChildren(this.element, [
      h("h2", { id: "export-title" }, t("export")),
      h("p", { class: "quiet" }, t("export_lead")),
      h("div", { class: "field", "data-key": "folder", "data-island": "folder" }),
      h("h3", null, t("export_tables")),
      h("div", { class: "row" }, lists),
      ...(loom ? [h("h3", null, t("export_warp", { name: loom.name })), h("div", { class: "row" }, ofWarp)] : []),
    ]);
    this.#placeFolder();
  }

  /** The field stays the same one, with what is typed into it. */
  #placeFolder() {
    const place = /** @type {HTMLElement} */ (this.element.querySelector('[data-key="folder"]'));
    if (place.contains(this.folder)) return;
    place.replaceChildren(
      h("label", { for: this.folder.id }, t("export_folder")),
      h("p", { class: "hint", id: "export-folder-hint" }, t("export_folder_hint")),
      h("div", { class: "field-line" }, this.folder),
    );
  }

  /** @param {Event} event */
  async #act(event) {
    const hit = /** @type {HTMLElement | null} */ (/** @type {Element} */ (event.target).closest("[data-act=export]"));
    if (!hit) return;
    try {
      const path = await this.#write(hit.dataset.what ?? "");
      if (path) this.ctx.notify(t("saved_to", { path }));
    } catch (refusal) {
      this.ctx.showError(refusal);
    }
  }

  /** @param {string} what @returns {Promise<string | null>} where the file is; nothing when it was cancelled */
  async #write(what) {
    const { shell } = this.ctx;
    const { loom } = this.ctx.view();
    const warp = OF_A_WARP.includes(what) ? (loom?.id ?? null) : null;
    if (what !== "progress-png") return shell.export({ what, warp, split: "", folder: this.folder.value });
    const svg = await shell.progressPicture(warp ?? "");
    return shell.exportPicture(await asPng(svg), loom?.name ?? "", this.folder.value);
  }
}
