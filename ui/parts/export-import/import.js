// Importing tables: read first, shown, then written as one action.

import { morphChildren, button, closestTarget, h } from "../dom/dom.js";
import { LatestRequest } from "../request/request.js";
import { t } from "../../messages.js";
import { importPreview } from "./import-preview.js";
import { LIST_NAMES } from "./lists.js";

/** @typedef {import("../../main.js").Context} Context */
/** @typedef {import("../../types.d.ts").ImportForm} ImportForm */
/** @typedef {import("../../types.d.ts").ImportView} ImportView */
/** @typedef {import("../../types.d.ts").ErrorView} ErrorView */

/** The lists that come in. Pictures come in with their sittings; the rest is made from these. */
const LISTS = /** @type {const} */ ([
  "sittings",
  "warps",
  "wefts",
  "finishing",
  "readings",
  "weighings",
  "joins",
  "places",
  "plans",
]);

/** Text of a file: UTF-8, else as older spreadsheets write it. @param {File} file */
async function textOf(file) {
  const bytes = await file.arrayBuffer();
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder("windows-1252").decode(bytes);
  }
}

/** How far the rows are read or written, and stopping it. */
class ImportProgress {
  status = h("p", { role: "status", class: "quiet" });
  #bar = h("progress", { "aria-label": t("import_progress"), max: 1 });
  #count = h("span", { class: "quiet" });
  #stop = button("stop-import", t("stop"), { class: "button" });
  element = h(
    "div",
    { class: "import-busy", "data-part": "import-busy", hidden: true },
    this.#bar,
    this.#count,
    this.#stop,
  );

  get isBusy() {
    return !this.element.hidden;
  }

  /** @param {string} words what is going on */
  begin(words) {
    this.status.textContent = words;
    this.#count.textContent = "";
    this.#bar.removeAttribute("value");
    this.element.hidden = false;
  }

  /** @param {import("../../shell.js").RowsDone} rows */
  show({ done, of }) {
    this.#bar.max = Math.max(of, 1);
    this.#bar.value = done;
    this.#count.textContent = t("import_rows", { done, count: of });
    // From the last row on it is written, all at once.
    this.#stop.hidden = done === of;
  }

  end() {
    this.element.hidden = true;
    this.#stop.hidden = false;
    this.status.textContent = "";
  }
}

export class ImportSection {
  /** @type {ImportForm} */
  #form = { text: "", list: "", columns: [], warp: "" };
  #progress = new ImportProgress();
  #preview = h("div", { class: "stack", "data-part": "import" });
  #fileName = h("span", { id: "import-file-name", "data-part": "import-file-name" });
  #file = h("input", {
    type: "file",
    id: "import-file",
    accept: ".csv,.tsv,.txt,.json,text/csv,application/json",
    "data-part": "import-file",
    "aria-describedby": "import-file-name",
  });
  #list = h(
    "select",
    { id: "import-list", "data-part": "import-list" },
    h("option", { value: "" }, t("import_guess")),
    LISTS.map((name) => h("option", { value: name }, t(LIST_NAMES[name]))),
  );
  #warp = h("select", { id: "import-warp", "data-part": "import-warp" });
  /** Whether only a column was chosen otherwise. */
  #isColumnChange = false;

  /** @param {Context} ctx @param {AbortSignal} signal */
  constructor(ctx, signal) {
    this.ctx = ctx;
    this.element = this.#layout();
    this.request = new LatestRequest({
      ask: (current) => this.#ask(current),
      show: (view) => {
        this.#show(view);
        this.#progress.end();
      },
      fail: (refusal) => {
        this.#refuse(refusal);
        this.#progress.end();
      },
      signal,
    });
    this.element.addEventListener("change", (event) => this.#change(event), { signal });
    this.element.addEventListener("click", (event) => this.#act(event), { signal });
    this.update();
  }

  /** The warps to choose from. */
  update() {
    const chosen = this.#warp.value;
    const warps = this.ctx.view().warps.filter(({ state }) => state !== "removed");
    this.#warp.replaceChildren(
      h("option", { value: "" }, t("import_no_warp")),
      ...warps.map(({ id, name }) => h("option", { value: id, selected: id === chosen }, name)),
    );
  }

  #layout() {
    const field = (/** @type {HTMLSelectElement} */ select, /** @type {string} */ label) =>
      h("div", { class: "field" }, h("label", { for: select.id }, label), h("div", { class: "field-line" }, select));
    const choose = h("label", { class: "button file-button" }, t("import_choose_file"), this.#file);
    return h(
      "section",
      { class: "stack", "aria-labelledby": "import-title" },
      h("h2", { id: "import-title" }, t("import")),
      h("p", { class: "quiet" }, t("import_lead")),
      h("div", { class: "field-line" }, choose, this.#fileName),
      field(this.#list, t("import_contents")),
      field(this.#warp, t("import_warp")),
      this.#progress.status,
      this.#progress.element,
      this.#preview,
    );
  }

  /** @param {AbortSignal} current */
  async #ask(current) {
    // What is being read for an earlier choice is not wanted any more.
    if (this.#progress.isBusy) await this.ctx.shell.stopImport();
    this.#progress.begin(t("import_reading"));
    return this.ctx.shell.previewImport(this.#form, (rows) => {
      if (!current.aborted) this.#progress.show(rows);
    });
  }

  /** @param {ImportView | null} view */
  #show(view) {
    // Updated in place, so that the focus stays on the column that is being chosen.
    morphChildren(this.#preview, view ? importPreview(view) : []);
    // What was chosen in a select does not follow its options any more.
    this.#preview.querySelectorAll("select").forEach((one, at) => (one.value = view?.columns[at]?.field ?? "-"));
  }

  /** @param {unknown} refusal */
  #refuse(refusal) {
    if (!this.#isColumnChange) {
      this.#show(null);
      this.ctx.showError(refusal);
      return;
    }
    // The columns stay, to be chosen otherwise; what was shown of the rows is no longer true.
    for (const key of ["rows", "refused", "confirm"]) this.#preview.querySelector(`[data-key="${key}"]`)?.remove();
    const line = this.#preview.querySelector('[data-key="line"]');
    if (line) line.textContent = /** @type {ErrorView} */ (refusal).sentence;
  }

  /** @param {Event} event */
  async #change(event) {
    const hit = /** @type {HTMLElement} */ (event.target);
    const form = this.#form;
    const file = this.#file.files?.[0];
    this.#isColumnChange = hit.dataset.column !== undefined;
    if (hit === this.#file && file) {
      form.text = await textOf(file);
      form.columns = [];
      this.#fileName.textContent = file.name;
      // The same file, changed meanwhile, can be chosen again only when none is chosen.
      this.#file.value = "";
    } else if (hit === this.#list) {
      form.list = this.#list.value;
      form.columns = [];
    } else if (hit === this.#warp) form.warp = this.#warp.value;
    else if (this.#isColumnChange) {
      /** @type {NodeListOf<HTMLSelectElement>} */
      const columns = this.#preview.querySelectorAll("[data-column]");
      form.columns = [...columns].map((one) => one.value);
    } else return;
    if (form.text) this.request.now();
  }

  /** @param {Event} event */
  #act(event) {
    const hit = closestTarget(event, "[data-act]");
    if (hit?.dataset.act === "stop-import") this.ctx.shell.stopImport();
    else if (hit?.dataset.act === "import-confirm") this.#import();
  }

  async #import() {
    this.request.cancel();
    this.#progress.begin(t("import_writing"));
    try {
      const { view, import: imported } = await this.ctx.shell.import(this.#form, (rows) => this.#progress.show(rows));
      this.#form.text = "";
      this.#fileName.textContent = "";
      this.#show(null);
      this.ctx.show(view);
      this.ctx.notify(imported.line);
      // The button is gone that was pressed.
      this.#file.focus();
    } catch (refusal) {
      this.ctx.showError(refusal);
    } finally {
      this.#progress.end();
    }
  }
}
