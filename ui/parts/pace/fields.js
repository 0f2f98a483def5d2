// The fields of the pace screen: where to split, which warp to show, where pictures are saved.

import { h } from "../dom/dom.js";
import { disclosure } from "../disclosure/disclosure.js";
import { t } from "../../messages.js";

/** @typedef {import("../../types.d.ts").PaceView} PaceView */

/** The length or number at which warps are split into two groups. */
export class SplitField {
  #input = h("input", {
    type: "text",
    id: "pace-split",
    inputmode: "decimal",
    "data-part": "pace-split",
    "aria-describedby": "pace-split-trouble",
  });
  #trouble = h("p", {
    class: "trouble",
    id: "pace-split-trouble",
    "data-part": "pace-split-trouble",
    hidden: true,
  });
  element = h(
    "form",
    { class: "pace-split field no-print", novalidate: true, autocomplete: "off" },
    h("label", { for: "pace-split" }, t("pace_split")),
    h(
      "div",
      { class: "field-line" },
      this.#input,
      h("button", { type: "submit", class: "button", "data-part": "pace-split-apply" }, t("pace_do_split")),
    ),
    this.#trouble,
  );

  get value() {
    return this.#input.value;
  }

  /** @param {PaceView} view @param {boolean} isTyping whether it had the focus before the view was shown */
  update({ split, split_trouble: trouble }, isTyping) {
    if (!isTyping && !trouble) this.#input.value = split;
    this.#trouble.textContent = trouble ?? "";
    this.#trouble.hidden = !trouble;
    if (trouble) this.#input.setAttribute("aria-invalid", "true");
    else this.#input.removeAttribute("aria-invalid");
  }

  /** @param {Element | null} element */
  isInput(element) {
    return element === this.#input;
  }
}

/** The warp whose course is shown. */
export class WithinField {
  select = h("select", { id: "pace-within", "data-part": "pace-within" });
  element = h(
    "div",
    { class: "field no-print" },
    h("label", { for: "pace-within" }, t("pace_warp")),
    h("div", { class: "field-line" }, this.select),
  );

  /** Id of the chosen warp. */
  get value() {
    return this.select.value || null;
  }

  /** @param {PaceView} view */
  update({ within, within_shown: shown }) {
    this.select.replaceChildren(
      ...within.map(({ id, name }) => h("option", { value: id, selected: id === shown }, name)),
    );
  }
}

/** The folder in which pictures are saved without asking each time. */
export class PictureFolder {
  #input = h("input", {
    type: "text",
    id: "pace-folder",
    "data-part": "pace-folder",
    spellcheck: "false",
    "aria-describedby": "pace-folder-hint",
  });
  element = disclosure(
    t("pace_pictures"),
    { class: "pace-pictures no-print" },
    h(
      "div",
      { class: "field" },
      h("label", { for: "pace-folder" }, t("export_folder")),
      h("p", { class: "hint", id: "pace-folder-hint" }, t("export_folder_hint")),
      h("div", { class: "field-line" }, this.#input),
    ),
  );

  get value() {
    return this.#input.value;
  }
}
