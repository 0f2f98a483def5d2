// Everything as files: the lists, and what belongs to the warp that is shown.

import { morphChildren, button, h } from "../dom/dom.js";
import { CARRY } from "../../texts/carry.js";

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
      id: "carry-folder",
      "data-part": "carry-folder",
      spellcheck: "false",
      "aria-describedby": "carry-folder-hint",
    });
    this.element = h("section", { class: "stack", "aria-labelledby": "carry-out" });
    this.element.addEventListener("click", (event) => this.#act(event), { signal });
    this.update();
  }

  update() {
    const { loom } = this.ctx.view();
    const write = (/** @type {string} */ what, /** @type {string} */ words) =>
      button("take-out", words, { class: "button", "data-what": what });
    const lists = Object.entries(CARRY.names).map(([what, words]) => write(what, words));
    const ofWarp = [
      write("sheet", CARRY.sheet),
      write("progress-png", CARRY.picture),
      write("progress", CARRY.pictureSvg),
    ];
    morphChildren(this.element, [
      h("h2", { id: "carry-out" }, CARRY.out),
      h("p", { class: "quiet" }, CARRY.outLead),
      h("div", { class: "field", "data-key": "folder", "data-island": "folder" }),
      h("h3", null, CARRY.lists),
      h("div", { class: "row" }, lists),
      ...(loom ? [h("h3", null, CARRY.warp(loom.name)), h("div", { class: "row" }, ofWarp)] : []),
    ]);
    this.#placeFolder();
  }

  /** The field stays the same one, with what is typed into it. */
  #placeFolder() {
    const place = /** @type {HTMLElement} */ (this.element.querySelector('[data-key="folder"]'));
    if (place.contains(this.folder)) return;
    place.replaceChildren(
      h("label", { for: this.folder.id }, CARRY.folder),
      h("p", { class: "hint", id: "carry-folder-hint" }, CARRY.folderHint),
      h("div", { class: "field-line" }, this.folder),
    );
  }

  /** @param {Event} event */
  async #act(event) {
    const hit = /** @type {HTMLElement | null} */ (
      /** @type {Element} */ (event.target).closest("[data-act=take-out]")
    );
    if (!hit) return;
    try {
      const path = await this.#write(hit.dataset.what ?? "");
      if (path) this.ctx.say(CARRY.written(path));
    } catch (refusal) {
      this.ctx.complain(refusal);
    }
  }

  /** @param {string} what @returns {Promise<string | null>} where the file is; nothing when she cancelled */
  async #write(what) {
    const { shell } = this.ctx;
    const { loom } = this.ctx.view();
    const warp = OF_A_WARP.includes(what) ? (loom?.id ?? null) : null;
    if (what !== "progress-png") return shell.export({ what, warp, split: "", folder: this.folder.value });
    const svg = await shell.progressPicture(warp ?? "");
    return shell.exportPicture(await asPng(svg), loom?.name ?? "", this.folder.value);
  }
}
