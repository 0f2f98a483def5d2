// Marking the folder again when all markers of devices have gone from it. It cannot be undone, so it is confirmed first.

import { button, closestTarget, h } from "../dom/dom.js";
import { t } from "../../messages.js";

/** @typedef {import("../../main.js").Context} Context */

/** A button, and in its place the question it asks first. */
export class MarkAgain {
  #ask = button("mark-ask", t("folder_mark"), { class: "button", "data-part": "mark-ask" });
  #warning = h("p");
  #cancel = button("mark-cancel", t("folder_mark_cancel"), { class: "button", "data-part": "mark-cancel" });
  #question = h(
    "div",
    { role: "group", "aria-labelledby": "mark-question", "data-part": "mark-question", hidden: true },
    h("h3", { id: "mark-question" }, t("folder_mark_question")),
    this.#warning,
    h(
      "div",
      { class: "row" },
      this.#cancel,
      button("mark-confirm", t("folder_mark_confirm"), { class: "button", "data-part": "mark-confirm" }),
    ),
  );
  element = h("div", { "data-island": "mark", "data-key": "mark" }, this.#ask, this.#question);

  /** @param {Context} ctx @param {AbortSignal} signal */
  constructor(ctx, signal) {
    this.ctx = ctx;
    this.element.addEventListener("click", (event) => this.#act(event), { signal });
  }

  /** @param {import("../../types.d.ts").FolderView} folder */
  update(folder) {
    this.#warning.textContent = t("folder_mark_warning", { path: folder.path });
    if (!folder.unmarked) this.#showQuestion(false);
  }

  /** @param {boolean} isAsked */
  #showQuestion(isAsked) {
    this.#ask.hidden = isAsked;
    this.#question.hidden = !isAsked;
  }

  /** @param {Event} event */
  #act(event) {
    const action = closestTarget(event, "[data-act]")?.dataset.act;
    if (action === "mark-ask") {
      this.#showQuestion(true);
      this.#cancel.focus();
    } else if (action === "mark-cancel") {
      this.#showQuestion(false);
      this.#ask.focus();
    } else if (action === "mark-confirm") {
      this.ctx.attempt(this.ctx.shell.markFolderAgain(), t("folder_marked"));
    }
  }
}
