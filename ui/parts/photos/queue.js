// Saving photos one after another, with progress; those that could not be saved can be tried again.

import { morphChildren, button, closestTarget, h } from "../dom/dom.js";
import { t } from "../../messages.js";

/** @typedef {{ sitting: string, file: File }} Photo */

/**
 * @typedef {object} QueueOptions
 * @property {HTMLElement} place where the progress is shown
 * @property {(sitting: string, file: File) => Promise<unknown>} save
 * @property {(words: string) => void} announce
 */

export class PhotoQueue {
  /** @type {Photo[]} */
  #waiting = [];
  /** Photos that were not saved, with the reason; without one when saving was stopped. @type {(Photo & { reason: string })[]} */
  #unsaved = [];
  #savedCount = 0;
  #isSaving = false;
  #isStopped = false;

  /** @param {QueueOptions} options */
  constructor({ place, save, announce }) {
    this.place = place;
    this.save = save;
    this.announce = announce;
    place.addEventListener("click", (event) => this.#act(event));
  }

  /** @param {string} sitting @param {File[]} files */
  add(sitting, files) {
    this.#waiting.push(...files.map((file) => ({ sitting, file })));
    if (files.length > 0) this.#run();
  }

  async #run() {
    if (this.#isSaving) return;
    this.#isSaving = true;
    this.#isStopped = false;
    this.#savedCount = 0;
    while (this.#waiting.length > 0 && !this.#isStopped) {
      this.#draw();
      await this.#saveOne(this.#waiting[0]);
      this.#waiting.shift();
    }
    this.#unsaved.push(...this.#waiting.map((photo) => ({ ...photo, reason: "" })));
    this.#waiting = [];
    this.#isSaving = false;
    this.#draw();
    if (this.#savedCount > 0) this.announce(t("photos_saved", { count: this.#savedCount }));
  }

  /** @param {Photo} photo */
  async #saveOne(photo) {
    try {
      await this.save(photo.sitting, photo.file);
      this.#savedCount += 1;
    } catch (refusal) {
      this.#unsaved.push({ ...photo, reason: /** @type {{ sentence: string }} */ (refusal).sentence });
    }
  }

  #draw() {
    this.place.hidden = !this.#isSaving && this.#unsaved.length === 0;
    morphChildren(this.place, this.#isSaving ? this.#progress() : this.#unsaved.length > 0 ? this.#retry() : []);
  }

  #progress() {
    const finished = this.#savedCount + this.#unsaved.length;
    const total = finished + this.#waiting.length;
    return [
      h("p", null, t("photos_saving", { number: finished + 1, count: total })),
      h("progress", { max: total, value: finished, "aria-label": t("photos_title") }),
      button("photos-stop", t("stop"), { class: "button" }),
    ];
  }

  #retry() {
    const failed = this.#unsaved.filter(({ reason }) => reason);
    return [
      h("p", null, t("photos_not_saved", { count: this.#unsaved.length })),
      ...failed.map(({ file, reason }) => h("p", { class: "trouble" }, `${file.name}: ${reason}`)),
      button("photos-again", t("try_again"), { class: "button" }),
      button("photos-forget", t("photos_skip"), { class: "link" }),
    ];
  }

  /** @param {Event} event */
  #act(event) {
    const act = closestTarget(event, "[data-act]")?.dataset.act;
    if (act === "photos-stop") this.#isStopped = true;
    if (act === "photos-forget") this.#unsaved = [];
    if (act === "photos-again") {
      this.#waiting = this.#unsaved;
      this.#unsaved = [];
      this.#run();
    }
    this.#draw();
  }
}
