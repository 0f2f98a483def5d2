// The form of a sitting, for finishing, logging and correcting.

import { h } from "../dom/dom.js";
import { grid } from "../form/fields.js";
import { Form, forgetDraft } from "../form/form.js";
import { tapeFields } from "../form/tape.js";
import { LatestRequest } from "../request/request.js";
import { PhotoChooser } from "../photos/chooser.js";
import { t } from "../../messages.js";

/** @typedef {import("../../types.d.ts").SittingForm} SittingValues */
/** @typedef {import("../../main.js").Context} Context */

/** Photos chosen and not yet saved, by draft, so that opening another screen loses none. @type {Map<string, File[]>} */
const chosenPhotos = new Map();

/**
 * @typedef {object} SittingOptions
 * @property {Context} ctx
 * @property {AbortSignal} signal
 * @property {string} draft names what is typed, so that it is there again
 * @property {SittingValues} values
 * @property {boolean} atLoom large and for a thumb, without the day
 * @property {(form: SittingValues) => Promise<{ sitting: string, messages: string[] }>} save
 * @property {(form: SittingValues) => Promise<string[]>} compare measured length and picks, before they are saved
 * @property {{ href: string, words: string }} otherWay the link that leaves the form
 * @property {string} saved shown when it is saved
 */

export class SittingForm {
  #isSaved = false;

  /** @param {SittingOptions} options */
  constructor(options) {
    const { ctx, signal, draft, values } = options;
    this.options = options;
    // A message of an earlier action would cover the form.
    ctx.showMessage("", []);
    this.form = new Form({ id: "sitting", draft, values, ctx, signal, submit: (typed) => this.#submit(typed) });
    this.photos = new PhotoChooser({ id: "sitting", signal, start: chosenPhotos.get(draft) });
    // Saved photos are not offered again in the next form.
    signal.addEventListener("abort", () => !this.#isSaved && chosenPhotos.set(draft, this.photos.files), {
      once: true,
    });
    this.form.element.append(...this.#layout().filter((part) => part !== null));
  }

  get element() {
    return this.form.element;
  }

  /** @param {SittingValues} typed */
  async #submit(typed) {
    const { ctx, draft, save, saved } = this.options;
    const { sitting, messages } = await save(typed);
    chosenPhotos.delete(draft);
    this.#isSaved = true;
    ctx.photos.add(sitting, this.photos.files);
    forgetDraft(draft);
    ctx.notify(saved);
    ctx.showMessage(t("result"), messages);
    ctx.go("#/loom");
  }

  #layout() {
    const { form, photos } = this;
    const { atLoom, otherWay } = this.options;
    return [
      form.general,
      atLoom ? null : this.#when(),
      this.#counts(),
      this.#measured(),
      atLoom ? photos.element : null,
      this.#weftAndNote(),
      atLoom ? null : photos.element,
      form.check({ name: "pick_begun", label: t("sitting_not_beaten") }),
      form.check({ name: "rough", label: t("estimates") }),
      h(
        "div",
        { class: "form-end sitting-end" },
        h("button", { type: "submit", class: "primary", "data-part": "sitting-save" }, t("save")),
        atLoom ? null : h("a", { class: "link", href: otherWay.href, "data-part": "sitting-back" }, otherWay.words),
      ),
    ];
  }

  #when() {
    const { form } = this;
    return grid(
      form.day({ name: "on", label: t("sitting_day"), quick: true }),
      form.text({ name: "started", label: t("sitting_started"), hint: t("sitting_started_hint"), keys: "numeric" }),
    );
  }

  #counts() {
    const large = this.options.atLoom;
    const count = (/** @type {string} */ name, /** @type {string} */ label, /** @type {string} */ hint) =>
      this.form.text({ name, label, hint: large ? "" : hint, what: `rough_${name}`, large });
    return h(
      "div",
      { class: "sitting-counts" },
      count("minutes", t("sitting_minutes"), t("sitting_minutes_hint")),
      count("picks", t("sitting_picks"), t("sitting_picks_hint")),
    );
  }

  #measured() {
    const { format, loom } = this.options.ctx.view();
    const tape = tapeFields(this.form, {
      unit: format.length_unit,
      label: t("sitting_length"),
      hint: t("sitting_length_hint"),
      mark: t("sitting_mark_set"),
      // Who has set a mark on this warp knows how.
      markHint: loom?.picture.marks.length === 0 ? t("sitting_mark_hint") : undefined,
    });
    const how = [tape.from, tape.tension];
    return grid(
      tape.measured,
      this.options.atLoom
        ? [this.#comparison(), this.#folded(how), tape.markSet]
        : [...how, tape.markSet, this.#comparison()],
    );
  }

  /** At the loom a line says how it was measured, and opens when it was otherwise. @param {HTMLElement[]} details */
  #folded(details) {
    const line = h("summary", null);
    const folded = h("details", { class: "sitting-how", "data-part": "sitting-more-how" }, line, grid(...details));
    const showHow = () => {
      const from = this.form.valueOf("measured_from");
      const tension = this.form.valueOf("measured_tension");
      line.textContent = t("sitting_measured", { from, tension });
    };
    showHow();
    this.element.addEventListener("change", showHow, { signal: this.options.signal });
    return folded;
  }

  /** What the measured length means beside the picks, while both are typed. */
  #comparison() {
    const { form } = this;
    const { compare, signal } = this.options;
    const lines = h("div", { class: "sitting-beside wide", "aria-live": "polite", "data-part": "sitting-reconciled" });
    const request = new LatestRequest({
      // Without a length there is nothing to compare the picks with.
      ask: async () => (form.valueOf("measured").trim() ? compare(form.values()) : []),
      show: (sentences) => lines.replaceChildren(...sentences.map((sentence) => h("p", null, sentence))),
      fail: () => lines.replaceChildren(),
      pause: 350,
      signal,
    });
    for (const change of ["input", "change"]) {
      form.element.addEventListener(change, () => request.later(), { signal });
    }
    return lines;
  }

  #weftAndNote() {
    const { form } = this;
    const { format, loom } = this.options.ctx.view();
    const shuttle = loom?.yarns.find((yarn) => yarn.in_use)?.tare ?? "";
    return grid(
      form.text({
        name: "weft_left",
        label: t("sitting_weft_left"),
        hint: t("sitting_weft_left_hint"),
        unit: format.mass_unit,
        what: "rough_mass",
        keys: "decimal",
      }),
      shuttle ? form.check({ name: "weft_on_shuttle", label: t("measure_on_shuttle", { weight: shuttle }) }) : null,
      form.area({ name: "note", label: t("note"), lines: 2 }),
    );
  }
}
