// Settings of this device: its name, and the units of the figures.

import { h } from "../dom/dom.js";
import { t } from "../../messages.js";

/** @typedef {import("../../main.js").Context} Context */

/** The name under which this device writes into the folder. */
export class DeviceName {
  /** The name that the folder has. */
  #saved = "";
  #input = h("input", {
    type: "text",
    id: "device-name",
    "data-part": "device-name",
    spellcheck: "false",
    maxlength: 60,
    "aria-describedby": "device-name-trouble",
  });
  #trouble = h("p", { class: "trouble", id: "device-name-trouble", hidden: true });
  element = h(
    "form",
    { class: "field", "data-island": "name", "data-key": "name" },
    h("label", { for: "device-name" }, t("folder_device_name")),
    h(
      "div",
      { class: "field-line" },
      this.#input,
      h("button", { class: "button", "data-part": "device-name-save" }, t("save")),
    ),
    this.#trouble,
  );

  /** @param {Context} ctx @param {AbortSignal} signal */
  constructor(ctx, signal) {
    this.ctx = ctx;
    this.element.addEventListener("submit", (event) => this.#submit(event), { signal });
  }

  /** @param {string} name */
  update(name) {
    // A name that is being typed is not overwritten.
    if (this.#input.value === this.#saved) this.#input.value = name;
    this.#saved = name;
  }

  /** @param {Event} event */
  async #submit(event) {
    event.preventDefault();
    this.#trouble.hidden = true;
    this.#input.removeAttribute("aria-invalid");
    try {
      this.ctx.show(await this.ctx.shell.setDeviceName(this.#input.value));
      this.ctx.notify(t("folder_name_saved"));
    } catch (refusal) {
      this.#trouble.textContent = /** @type {{ sentence: string }} */ (refusal).sentence;
      this.#trouble.hidden = false;
      this.#input.setAttribute("aria-invalid", "true");
      this.#input.focus();
    }
  }
}

/** Metric or imperial units. */
export class UnitChoice {
  element = h(
    "fieldset",
    { class: "choice", "data-island": "units", "data-key": "units", "data-part": "units" },
    h("legend", null, t("folder_units")),
    h("p", { class: "hint small quiet" }, t("folder_units_hint")),
    h(
      "div",
      { class: "choices" },
      this.#radio("metric", t("folder_metric")),
      this.#radio("imperial", t("folder_imperial")),
    ),
  );

  /** @param {Context} ctx @param {AbortSignal} signal */
  constructor(ctx, signal) {
    const choose = () => {
      const chosen = /** @type {HTMLInputElement | null} */ (this.element.querySelector("input:checked"));
      if (chosen) ctx.attempt(ctx.shell.setUnits(chosen.value), "");
    };
    this.element.addEventListener("change", choose, { signal });
  }

  /** @param {string} units */
  update(units) {
    for (const radio of this.element.querySelectorAll("input")) radio.checked = radio.value === units;
  }

  /** @param {string} value @param {string} label */
  #radio(value, label) {
    const input = h("input", { type: "radio", name: "units", value, id: `units-${value}` });
    return h("label", null, input, h("span", null, label));
  }
}
