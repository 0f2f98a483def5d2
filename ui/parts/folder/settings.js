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

/** Metric or imperial units, of lengths or of weights. */
export class UnitChoice {
  /** @param {Context} ctx @param {AbortSignal} signal @param {"units" | "weights"} of */
  constructor(ctx, signal, of) {
    this.of = of;
    const ofWeights = of === "weights";
    this.element = h(
      "fieldset",
      { class: "choice", "data-island": of, "data-key": of, "data-part": of },
      h("legend", null, ofWeights ? t("folder_weights") : t("folder_units")),
      ofWeights ? null : h("p", { class: "hint small quiet" }, t("folder_units_hint")),
      h(
        "div",
        { class: "choices" },
        this.#radio("metric", ofWeights ? t("folder_grams") : t("folder_metric")),
        this.#radio("imperial", ofWeights ? t("folder_ounces") : t("folder_imperial")),
      ),
    );
    const choose = () => {
      const chosen = /** @type {HTMLInputElement | null} */ (this.element.querySelector("input:checked"));
      const { shell } = ctx;
      if (chosen) ctx.attempt(ofWeights ? shell.setWeights(chosen.value) : shell.setUnits(chosen.value), "");
    };
    this.element.addEventListener("change", choose, { signal });
  }

  /** @param {string} units */
  update(units) {
    for (const radio of this.element.querySelectorAll("input")) radio.checked = radio.value === units;
  }

  /** @param {string} value @param {string} label */
  #radio(value, label) {
    const input = h("input", { type: "radio", name: this.of, value, id: `${this.of}-${value}` });
    return h("label", null, input, h("span", null, label));
  }
}
