// Forms that keep what is typed: built once when opened, never rebuilt by a change from elsewhere.

import { h } from "../dom/dom.js";
import { T } from "../../texts/texts.js";
import { dayField } from "../day/day.js";

/** @typedef {import("../../types.d.ts").ErrorView} ErrorView */
/** @typedef {Record<string, string | boolean>} Values */
/**
 * @template {Values} V
 * @typedef {ReturnType<typeof createForm<V>>} Form
 */
/**
 * What every field can say about itself.
 * @typedef {object} FieldOptions
 * @property {string} name member of the form
 * @property {string} label
 * @property {string} [hint]
 * @property {string} [unit] written behind the field
 * @property {string} [before] written before the field
 * @property {string} [what] kind of measure, shown back as it was understood
 * @property {"text" | "decimal" | "numeric"} [keys] which keys a touch keyboard shows
 * @property {boolean} [large]
 */

/** What was typed and not yet kept, by form, for as long as the window lives. @type {Map<string, Values>} */
const drafts = new Map();

/** @param {string} id */
export function forgetDraft(id) {
  drafts.delete(id);
}

/**
 * @template {Values} V the form as the shell takes it
 * @param {object} options
 * @param {string} options.id begins every field's id
 * @param {string} options.draft names what is typed, so that it is there again when she comes back
 * @param {V} options.values what the form starts from
 * @param {import("../../main.js").Context} options.ctx
 * @param {AbortSignal} options.signal
 * @param {(values: V) => Promise<void>} options.submit
 */
export function createForm({ id, draft, values, ctx, signal, submit }) {
  /** @type {Values} */
  const start = { ...values, ...drafts.get(draft) };
  /** What each field held before she changed it. @type {Values} */
  const asOpened = { ...values };
  const general = h("p", { class: "trouble", "data-part": `${id}-trouble`, role: "alert", hidden: true, tabindex: -1 });
  const element = h("form", { id: `${id}-form`, class: "form", novalidate: true, autocomplete: "off" });
  /** @type {Map<string, { input: HTMLElement, trouble: HTMLElement, read: () => string | boolean }>} */
  const fields = new Map();

  /** Fields whose sentence came from keeping the form: it stands until they are changed. @type {Set<string>} */
  const refused = new Set();

  const read = () => {
    /** @type {Values} */
    const all = { ...values };
    for (const [name, field] of fields) all[name] = field.read();
    return /** @type {V} */ (all);
  };

  /** @param {string} name @param {string} sentence */
  const mark = (name, sentence) => {
    const field = fields.get(name);
    if (!field) return false;
    field.trouble.textContent = sentence;
    field.trouble.hidden = !sentence;
    if (sentence) field.input.setAttribute("aria-invalid", "true");
    else field.input.removeAttribute("aria-invalid");
    return true;
  };

  /** @param {ErrorView} trouble */
  const fail = (trouble) => {
    const field = trouble.field ? fields.get(trouble.field) : undefined;
    if (field && trouble.field) {
      refused.add(trouble.field);
      mark(trouble.field, trouble.sentence);
      for (let up = field.input.parentElement; up; up = up.parentElement) {
        if (up instanceof HTMLDetailsElement) up.open = true;
      }
      (field.input.matches("fieldset") ? (field.input.querySelector("input") ?? field.input) : field.input).focus();
    } else {
      general.textContent = trouble.sentence;
      general.hidden = false;
      general.focus();
    }
  };

  // Only what she changed is a draft: a count that was filled in for her may be another one when she comes back.
  const keepDraft = () => {
    const changed = Object.entries(read()).filter(([name, value]) => value !== asOpened[name]);
    drafts.set(draft, Object.fromEntries(changed));
  };
  element.addEventListener("input", keepDraft, { signal });
  element.addEventListener("change", keepDraft, { signal });
  let busy = false;
  element.addEventListener(
    "submit",
    async (event) => {
      event.preventDefault();
      if (busy) return;
      busy = true;
      element.setAttribute("aria-busy", "true");
      general.hidden = true;
      refused.clear();
      for (const name of fields.keys()) mark(name, "");
      try {
        await submit(read());
        drafts.delete(draft);
      } catch (refusal) {
        fail(/** @type {ErrorView} */ (refusal));
      } finally {
        busy = false;
        element.removeAttribute("aria-busy");
      }
    },
    { signal },
  );

  /** @param {FieldOptions} options @param {HTMLInputElement | HTMLTextAreaElement} input */
  const dress = ({ name, label, hint, unit, before, what, large }, input) => {
    const fieldId = `${id}-${name.replaceAll("_", "-")}`;
    const described = [];
    const say = (/** @type {string} */ part, /** @type {string} */ text) => {
      described.push(`${fieldId}-${part}`);
      return h("span", { id: `${fieldId}-${part}` }, text);
    };
    const line = h("span", { class: "field-line" });
    if (before) line.append(say("before", before));
    line.append(input);
    const unitWords = unit ? say("unit", unit) : null;
    if (unitWords) line.append(unitWords);
    // A unit that is written with the figure is not written again behind the field.
    const showUnit = () => {
      if (unitWords)
        unitWords.hidden = /^(rough_)?(lengths?|mass)$/.test(what ?? "") && /[\p{L}"'′″]/u.test(input.value);
    };
    input.addEventListener("input", showUnit, { signal });
    const hintLine = hint ? h("p", { id: `${fieldId}-hint`, class: "hint" }, hint) : null;
    if (hint) described.push(`${fieldId}-hint`);
    const trouble = h("p", {
      id: `${fieldId}-trouble`,
      class: "trouble",
      "data-part": `${id}-${name}-trouble`,
      hidden: true,
    });
    described.push(`${fieldId}-trouble`);
    const understood = what
      ? h("p", {
          id: `${fieldId}-understood`,
          class: "understood",
          "data-part": `${id}-${name}-understood`,
          "aria-live": "polite",
        })
      : null;
    if (understood) described.push(understood.id);
    input.id = fieldId;
    input.name = name;
    input.setAttribute("aria-describedby", described.join(" "));
    if (typeof start[name] === "string") input.value = /** @type {string} */ (start[name]);
    showUnit();
    fields.set(name, { input, trouble, read: () => input.value });
    if (what && understood) understand(name, what, input, understood);
    return h(
      "div",
      { class: large ? "field large" : "field" },
      h("label", { for: fieldId }, label),
      hintLine,
      line,
      understood,
      trouble,
    );
  };

  /** @param {string} name @param {string} what @param {HTMLInputElement | HTMLTextAreaElement} input @param {HTMLElement} place */
  const understand = (name, what, input, place) => {
    let turn = 0;
    /** @type {ReturnType<typeof setTimeout> | undefined} */
    let wait;
    const ask = async () => {
      const mine = ++turn;
      const text = input.value;
      if (!text.trim()) {
        place.textContent = "";
        mark(name, "");
        return;
      }
      try {
        const answer = await ctx.shell.interpret(what, text);
        if (mine !== turn || refused.has(name)) return;
        place.textContent = answer.trouble ? "" : answer.shown;
        mark(name, answer.trouble ?? "");
      } catch {
        // What it is understood as is a help only; keeping the form says what is wrong.
        place.textContent = "";
      }
    };
    input.addEventListener(
      "input",
      () => {
        refused.delete(name);
        clearTimeout(wait);
        wait = setTimeout(ask, 300);
      },
      { signal },
    );
    signal.addEventListener("abort", () => clearTimeout(wait));
    // What came from the shell is written as the shell understands it; only what was typed needs saying back, and a day's weekday.
    if (input.value.trim() && (what === "date" || input.value !== values[name])) ask();
  };

  return {
    element,
    general,
    fail,
    mark,
    /** Everything as it stands in the fields. */
    values: read,
    /** Writes into a field of any kind. @param {string} name @param {string} value */
    put(name, value) {
      const input = fields.get(name)?.input;
      if (input instanceof HTMLFieldSetElement) {
        const radio = [...input.querySelectorAll("input")].find((one) => one.value === value);
        if (radio) {
          radio.checked = true;
          radio.dispatchEvent(new Event("change", { bubbles: true }));
        }
      } else this.write(name, value);
    },
    /** @param {string} name @returns {string} */
    valueOf: (name) => String(fields.get(name)?.read() ?? ""),
    /** @param {string} name */
    isChecked: (name) => fields.get(name)?.read() === true,
    /** @param {string} name @param {string} value */
    write(name, value) {
      const input = fields.get(name)?.input;
      if (input instanceof HTMLInputElement || input instanceof HTMLTextAreaElement) {
        input.value = value;
        input.dispatchEvent(new Event("input", { bubbles: true }));
      }
    },
    /** @param {FieldOptions} options */
    text(options) {
      const input = h("input", {
        type: "text",
        inputmode: options.keys ?? "text",
        "data-part": `${id}-${options.name}`,
        spellcheck: "false",
        autocapitalize: options.keys ? "off" : "sentences",
      });
      return dress(options, input);
    },
    /** @param {FieldOptions & { lines?: number }} options */
    area(options) {
      return dress(options, h("textarea", { rows: options.lines ?? 3, "data-part": `${id}-${options.name}` }));
    },
    /** @param {FieldOptions & { quick?: boolean }} options */
    day(options) {
      const input = h("input", {
        type: "text",
        placeholder: "",
        "data-part": `${id}-${options.name}`,
        class: "day-input",
      });
      const dressed = dress({ ...options, hint: options.hint ?? T.day.hint, what: "date" }, input);
      dayField({
        input,
        after: /** @type {HTMLElement} */ (dressed.querySelector(".field-line")),
        today: ctx.view().today,
        quick: options.quick ?? false,
        label: options.label,
        meant: async (text) => (await ctx.shell.interpret("date", text)).day,
        signal,
      });
      return dressed;
    },
    /** @param {{ name: string, label: string, choices: [string, string][], fallback: string }} options */
    choice({ name, label, choices, fallback }) {
      const chosen = start[name] || fallback;
      asOpened[name] ||= fallback;
      const trouble = h("p", {
        id: `${id}-${name}-trouble`,
        class: "trouble",
        "data-part": `${id}-${name}-trouble`,
        hidden: true,
      });
      const set = h(
        "fieldset",
        { class: "choice", "aria-describedby": trouble.id, "data-part": `${id}-${name}` },
        h("legend", null, label),
        h(
          "div",
          { class: "choices" },
          choices.map(([value, words]) =>
            h(
              "label",
              null,
              h("input", {
                type: "radio",
                name: `${id}-${name}`,
                value,
                id: `${id}-${name}-${value || "none"}`.replaceAll("_", "-"),
                checked: value === chosen,
              }),
              h("span", null, words),
            ),
          ),
        ),
        trouble,
      );
      fields.set(name, {
        input: set,
        trouble,
        read: () => /** @type {HTMLInputElement | null} */ (set.querySelector("input:checked"))?.value ?? "",
      });
      return set;
    },
    /** @param {{ name: string, label: string }} options */
    check({ name, label }) {
      const fieldId = `${id}-${name.replaceAll("_", "-")}`;
      const input = h("input", {
        type: "checkbox",
        id: fieldId,
        checked: start[name] === true,
        "data-part": `${id}-${name}`,
        "aria-describedby": `${fieldId}-trouble`,
      });
      const trouble = h("p", { id: `${fieldId}-trouble`, class: "trouble", hidden: true });
      fields.set(name, { input, trouble, read: () => input.checked });
      return h("div", { class: "field check" }, h("label", null, input, h("span", null, label)), trouble);
    },
  };
}
