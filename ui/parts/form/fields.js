// The markup of form fields: label, hint, units, and the places for what was understood and for what is wrong.

import { h } from "../dom/dom.js";
import { disclosure } from "../disclosure/disclosure.js";

/** @typedef {HTMLInputElement | HTMLTextAreaElement} TextInput */
/**
 * What every text field can say about itself.
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
/** @typedef {{ name: string, label: string, choices: [string, string][], fallback: string }} ChoiceOptions */

/** The id of a field's element. @param {string} form @param {string} name */
export function fieldId(form, name) {
  return `${form}-${name.replaceAll("_", "-")}`;
}

/** Where it is said what is wrong with a field. @param {string} id @param {string} [part] */
function troubleLine(id, part) {
  return h("p", { id, class: "trouble", "data-part": part, hidden: true });
}

/** A unit that is written with the figure is not written again behind the field. @param {string} [what] @param {string} [text] */
function namesItsUnit(what = "", text = "") {
  return /^(rough_)?(lengths?|mass)$/.test(what) && /[\p{L}"'′″]/u.test(text);
}

/**
 * A labelled text field around its input.
 * @param {string} form @param {FieldOptions} options @param {TextInput} input @param {AbortSignal} signal
 */
export function textField(form, { name, label, hint, unit, before, what, large }, input, signal) {
  const id = fieldId(form, name);
  const trouble = troubleLine(`${id}-trouble`, `${form}-${name}-trouble`);
  const hintLine = hint ? h("p", { id: `${id}-hint`, class: "hint" }, hint) : null;
  const beforeWords = before ? h("span", { id: `${id}-before` }, before) : null;
  const unitWords = unit ? h("span", { id: `${id}-unit` }, unit) : null;
  const understood = what
    ? h("p", {
        id: `${id}-understood`,
        class: "understood",
        "data-part": `${form}-${name}-understood`,
        "aria-live": "polite",
      })
    : null;
  input.id = id;
  input.name = name;
  const described = [beforeWords, unitWords, hintLine, trouble, understood];
  input.setAttribute("aria-describedby", described.flatMap((part) => part?.id ?? []).join(" "));
  const showUnit = () => {
    if (unitWords) unitWords.hidden = namesItsUnit(what, input.value);
  };
  input.addEventListener("input", showUnit, { signal });
  const element = h(
    "div",
    { class: large ? "field large" : "field" },
    h("label", { for: id }, label),
    hintLine,
    h("span", { class: "field-line" }, beforeWords, input, unitWords),
    understood,
    trouble,
  );
  return { element, trouble, understood, showUnit };
}

/** Radio buttons, one of which is chosen. @param {string} form @param {ChoiceOptions} options @param {string} chosen */
export function choiceField(form, { name, label, choices }, chosen) {
  const trouble = troubleLine(`${form}-${name}-trouble`, `${form}-${name}-trouble`);
  const radio = (/** @type {string} */ value) =>
    h("input", {
      type: "radio",
      name: `${form}-${name}`,
      value,
      id: fieldId(form, `${name}-${value || "none"}`),
      checked: value === chosen,
    });
  const element = h(
    "fieldset",
    { class: "choice", "aria-describedby": trouble.id, "data-part": `${form}-${name}` },
    h("legend", null, label),
    h(
      "div",
      { class: "choices" },
      choices.map(([value, words]) => h("label", null, radio(value), h("span", null, words))),
    ),
    trouble,
  );
  return { element, trouble };
}

/** A box to tick. @param {string} form @param {{ name: string, label: string, hint?: string }} options @param {boolean} checked */
export function checkField(form, { name, label, hint }, checked) {
  const id = fieldId(form, name);
  const trouble = troubleLine(`${id}-trouble`);
  const hintLine = hint ? h("p", { id: `${id}-hint`, class: "hint" }, hint) : null;
  const input = h("input", {
    type: "checkbox",
    id,
    checked,
    "data-part": `${form}-${name}`,
    "aria-describedby": [hintLine, trouble].flatMap((line) => line?.id ?? []).join(" "),
  });
  const element = h(
    "div",
    { class: "field check" },
    h("label", null, input, h("span", null, label)),
    hintLine,
    trouble,
  );
  return { element, trouble, input };
}

/** A field over the whole width of its grid. @template {HTMLElement} E @param {E} field @returns {E} */
export function wide(field) {
  field.classList.add("wide");
  return field;
}

/** Fields beside each other where there is room. @param {...(import("../dom/dom.js").Child | import("../dom/dom.js").Child[])} fields */
export function grid(...fields) {
  return h("div", { class: "form-grid" }, ...fields);
}

/** Fields under a title. @param {string} title @param {...(HTMLElement | null)} fields */
export function section(title, ...fields) {
  return h("section", null, h("h2", null, title), grid(...fields));
}

/** Fields behind a disclosure. @param {string} part its `data-part` @param {string} title @param {...(HTMLElement | null)} fields */
export function folded(part, title, ...fields) {
  return disclosure(title, { "data-part": part }, grid(...fields));
}

/**
 * The end of a form: the button that saves it, and what else can be done.
 * @param {{ label: string, part: string, primary?: boolean }} save @param {...(import("../dom/dom.js").Child)} others
 */
export function formEnd({ label, part, primary = true }, ...others) {
  const type = primary ? "primary" : "button";
  return h(
    "div",
    { class: "form-end" },
    h("button", { type: "submit", class: type, "data-part": part }, label),
    ...others,
  );
}
