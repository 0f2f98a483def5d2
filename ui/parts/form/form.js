// Forms that keep what is typed: built once when opened, never rebuilt by a change from elsewhere.

import { h } from "../dom/dom.js";
import { t } from "../../messages.js";
import { dayField } from "../day/day.js";
import { LatestRequest } from "../request/request.js";
import { checkField, choiceField, textField } from "./fields.js";

/** @typedef {import("../../types.d.ts").ErrorView} ErrorView */
/** @typedef {import("./fields.js").FieldOptions} FieldOptions */
/** @typedef {import("./fields.js").TextInput} TextInput */
/** @typedef {Record<string, string | boolean>} Values */
/** @typedef {{ input: HTMLElement, trouble: HTMLElement, read: () => string | boolean }} Field */

/** What was typed and not yet saved, by form, for as long as the window lives. @type {Map<string, Values>} */
const drafts = new Map();

/** @param {string} id */
export function forgetDraft(id) {
  drafts.delete(id);
}

/** @template {Values} V the form as the shell takes it */
export class Form {
  /** @type {Map<string, Field>} */
  #fields = new Map();
  /** Fields whose sentence came from keeping the form: it stays until they are changed. @type {Set<string>} */
  #refused = new Set();
  #isSubmitting = false;

  /**
   * @param {object} options
   * @param {string} options.id begins every field's id
   * @param {string} options.draft names what is typed, so that it is there again when the form is opened again
   * @param {V} options.values what the form starts from
   * @param {import("../../main.js").Context} options.ctx
   * @param {AbortSignal} options.signal
   * @param {(values: V) => Promise<void>} options.submit
   */
  constructor({ id, draft, values, ctx, signal, submit }) {
    this.id = id;
    this.draft = draft;
    this.initial = values;
    this.ctx = ctx;
    this.signal = signal;
    this.onSubmit = submit;
    /** What the fields start from: the draft over what was kept. @type {Values} */
    this.start = { ...values, ...drafts.get(draft) };
    /** What each field held before it was changed. @type {Values} */
    this.asOpened = { ...values };
    this.general = h("p", {
      class: "trouble",
      "data-part": `${id}-trouble`,
      role: "alert",
      hidden: true,
      tabindex: -1,
    });
    this.element = h("form", { id: `${id}-form`, class: "form", novalidate: true, autocomplete: "off" });
    for (const change of ["input", "change"]) {
      this.element.addEventListener(change, () => this.#keepDraft(), { signal });
    }
    this.element.addEventListener("submit", (event) => this.#submit(event), { signal });
  }

  /** The values of all fields. @returns {V} */
  values() {
    /** @type {Values} */
    const all = { ...this.initial };
    for (const [name, field] of this.#fields) all[name] = field.read();
    return /** @type {V} */ (all);
  }

  /** @param {string} name @returns {string} */
  valueOf(name) {
    return String(this.#fields.get(name)?.read() ?? "");
  }

  /** @param {string} name */
  isChecked(name) {
    return this.#fields.get(name)?.read() === true;
  }

  /** Writes into a text field, as if it were typed. @param {string} name @param {string} value */
  write(name, value) {
    const input = this.#fields.get(name)?.input;
    if (input instanceof HTMLInputElement || input instanceof HTMLTextAreaElement) {
      input.value = value;
      input.dispatchEvent(new Event("input", { bubbles: true }));
    }
  }

  /** Writes into a text field, or chooses. @param {string} name @param {string} value */
  put(name, value) {
    const input = this.#fields.get(name)?.input;
    if (!(input instanceof HTMLFieldSetElement)) {
      this.write(name, value);
      return;
    }
    const radio = [...input.querySelectorAll("input")].find((one) => one.value === value);
    if (!radio) return;
    radio.checked = true;
    radio.dispatchEvent(new Event("change", { bubbles: true }));
  }

  /** Says what is wrong with a field; an empty sentence takes it back. @param {string} name @param {string} sentence */
  mark(name, sentence) {
    const field = this.#fields.get(name);
    if (!field) return;
    field.trouble.textContent = sentence;
    field.trouble.hidden = !sentence;
    if (sentence) field.input.setAttribute("aria-invalid", "true");
    else field.input.removeAttribute("aria-invalid");
  }

  /** Shows why the form was not saved, and moves the focus to the field to correct. @param {ErrorView} error */
  fail(error) {
    const field = error.field ? this.#fields.get(error.field) : undefined;
    if (!field || !error.field) {
      this.general.textContent = error.sentence;
      this.general.hidden = false;
      this.general.focus();
      return;
    }
    this.#refused.add(error.field);
    this.mark(error.field, error.sentence);
    for (let up = field.input.parentElement; up; up = up.parentElement) {
      if (up instanceof HTMLDetailsElement) up.open = true;
    }
    const first = field.input.matches("fieldset") ? field.input.querySelector("input") : null;
    (first ?? field.input).focus();
  }

  /** @param {FieldOptions} options */
  text(options) {
    const input = h("input", {
      type: "text",
      inputmode: options.keys ?? "text",
      "data-part": `${this.id}-${options.name}`,
      spellcheck: "false",
      autocapitalize: options.keys ? "off" : "sentences",
    });
    return this.#addText(options, input);
  }

  /** @param {FieldOptions & { lines?: number }} options */
  area(options) {
    const input = h("textarea", { rows: options.lines ?? 3, "data-part": `${this.id}-${options.name}` });
    return this.#addText(options, input);
  }

  /** @param {FieldOptions & { quick?: boolean }} options */
  day(options) {
    const input = h("input", {
      type: "text",
      placeholder: "",
      "data-part": `${this.id}-${options.name}`,
      class: "day-input",
    });
    const element = this.#addText({ ...options, hint: options.hint ?? t("day_hint"), what: "date" }, input);
    dayField({
      input,
      after: /** @type {HTMLElement} */ (element.querySelector(".field-line")),
      today: this.ctx.view().today,
      quick: options.quick ?? false,
      label: options.label,
      meant: async (text) => (await this.ctx.shell.interpret("date", text)).day,
      signal: this.signal,
    });
    return element;
  }

  /** @param {import("./fields.js").ChoiceOptions} options */
  choice(options) {
    const { name, fallback } = options;
    this.asOpened[name] ||= fallback;
    const { element, trouble } = choiceField(this.id, options, String(this.start[name] || fallback));
    const read = () => /** @type {HTMLInputElement | null} */ (element.querySelector("input:checked"))?.value ?? "";
    this.#fields.set(name, { input: element, trouble, read });
    return element;
  }

  /** @param {{ name: string, label: string, hint?: string }} options */
  check(options) {
    const { element, trouble, input } = checkField(this.id, options, this.start[options.name] === true);
    this.#fields.set(options.name, { input, trouble, read: () => input.checked });
    return element;
  }

  /** @param {FieldOptions} options @param {TextInput} input */
  #addText(options, input) {
    const { name, what } = options;
    const { element, trouble, understood, showUnit } = textField(this.id, options, input, this.signal);
    const value = this.start[name];
    if (typeof value === "string") input.value = value;
    showUnit();
    this.#fields.set(name, { input, trouble, read: () => input.value });
    if (what && understood) this.#showUnderstood(name, what, input, understood);
    return element;
  }

  /**
   * Shows back how a measure was understood, or what is wrong with it, while it is typed.
   * @param {string} name @param {string} what @param {TextInput} input @param {HTMLElement} place
   */
  #showUnderstood(name, what, input, place) {
    const request = new LatestRequest({
      ask: async () => (input.value.trim() ? this.ctx.shell.interpret(what, input.value) : null),
      show: (answer) => {
        if (answer && this.#refused.has(name)) return;
        place.textContent = answer && !answer.trouble ? answer.shown : "";
        this.mark(name, answer?.trouble ?? "");
      },
      // It is a help only; keeping the form says what is wrong.
      fail: () => (place.textContent = ""),
      pause: 300,
      signal: this.signal,
    });
    const changed = () => {
      this.#refused.delete(name);
      request.later();
    };
    input.addEventListener("input", changed, { signal: this.signal });
    // What came from the shell is written as the shell understands it; only what was typed needs saying back, and a day's weekday.
    if (input.value.trim() && (what.startsWith("date") || input.value !== this.initial[name])) request.now();
  }

  /** Only what was changed is a draft: a count that was filled in may be another one when the form is opened again. */
  #keepDraft() {
    const changed = Object.entries(this.values()).filter(([name, value]) => value !== this.asOpened[name]);
    drafts.set(this.draft, Object.fromEntries(changed));
  }

  /** @param {Event} event */
  async #submit(event) {
    event.preventDefault();
    if (this.#isSubmitting) return;
    this.#isSubmitting = true;
    this.element.setAttribute("aria-busy", "true");
    this.general.hidden = true;
    this.#refused.clear();
    for (const name of this.#fields.keys()) this.mark(name, "");
    try {
      await this.onSubmit(this.values());
      forgetDraft(this.draft);
    } catch (refusal) {
      this.fail(/** @type {ErrorView} */ (refusal));
    } finally {
      this.#isSubmitting = false;
      this.element.removeAttribute("aria-busy");
    }
  }
}
