// First start: what Fellmark is, in a sentence, and the three ways in; and why the folder that was to be opened is not.

import { button, closestTarget, h, s } from "../dom/dom.js";
import { disclosure } from "../disclosure/disclosure.js";
import { Form } from "../form/form.js";
import { help } from "../guide/help.js";
import { t } from "../../messages.js";

/** @typedef {import("../../main.js").Context} Context */
/** @typedef {import("../../types.d.ts").AppView} AppView */
/** @typedef {import("../../types.d.ts").Unopened} Unopened */

/** A little cloth on its warp, with the fell. */
export function clothPicture() {
  const rows = [];
  for (let y = 118; y <= 190; y += 9) rows.push(`M14 ${y}H186`);
  const ends = [];
  for (let x = 20; x <= 180; x += 10) ends.push(`M${x} 4V196`);
  return s(
    "svg",
    { class: "welcome-picture", viewBox: "0 0 220 200", "aria-hidden": "true", focusable: "false" },
    s("path", { class: "welcome-ends", d: ends.join("") }),
    s("path", { class: "welcome-weft", d: rows.join("") }),
    s("path", { class: "welcome-fell-edge", d: "M4 106H196" }),
    s("path", { class: "welcome-fell", d: "M4 106H196" }),
    s("path", { class: "welcome-flag", d: "M198 106l16 -11v22z" }),
  );
}

/** @param {Context} ctx @param {AbortSignal} signal */
export function welcomeScreen(ctx, signal) {
  return new WelcomeScreen(ctx, signal);
}

class WelcomeScreen {
  #device = h("input", {
    type: "text",
    id: "welcome-device",
    "data-part": "welcome-device",
    maxlength: 60,
    spellcheck: "false",
    "aria-describedby": "welcome-device-hint",
  });
  #open = h("button", { class: "button", "data-part": "open-path" }, t("welcome_use_folder"));
  #create = h(
    "button",
    { type: "button", class: "button", hidden: true, "data-part": "create-folder" },
    t("welcome_create_folder"),
  );
  #reason = h("p", { class: "welcome-unopened", id: "welcome-unopened", "data-part": "unopened", hidden: true });
  /** The folder whose failure to open is shown, so that it is shown once. @type {Unopened | null} */
  #shown = null;

  /** @param {Context} ctx @param {AbortSignal} signal */
  constructor(ctx, signal) {
    this.ctx = ctx;
    this.form = new Form({
      id: "welcome",
      draft: "welcome",
      values: { path: "" },
      ctx,
      signal,
      submit: ({ path }) => this.#openPath(path),
    });
    const path = this.form.text({ name: "path", label: t("welcome_path") });
    this.form.element.append(this.form.general, this.#reason, path, this.#create, this.#open);
    this.typedPath = disclosure(t("welcome_type_path"), { "data-part": "typed-path" }, this.form.element);
    const proposed = ctx.view().device;
    this.#device.value = proposed;
    this.element = h(
      "div",
      { class: "welcome" },
      clothPicture(),
      h(
        "div",
        { class: "stack" },
        h("h1", { tabindex: -1 }, t("product_name")),
        h("p", { class: "welcome-what" }, t("welcome_what")),
        h("p", { class: "quiet" }, t("welcome_where")),
        deviceField(this.#device, proposed),
        h(
          "div",
          null,
          button("choose", t("welcome_choose_folder"), { class: "primary", "data-part": "choose-folder" }),
        ),
        this.typedPath,
        exampleOffer(),
        help("first-warp", "two-devices"),
      ),
    );
    this.element.addEventListener("click", (event) => this.#click(event), { signal });
    this.#create.addEventListener("click", () => this.#createFolder(), { signal });
    this.form.element.addEventListener("input", () => (this.#create.hidden = true), { signal });
    this.focus = ctx.view().unopened ? () => this.update(ctx.view()) : undefined;
  }

  /** Shows why a folder could not be opened; one press tries again. @param {AppView} view */
  update({ unopened }) {
    const shown = this.#shown;
    if (!unopened || (shown?.path === unopened.path && shown.sentence === unopened.sentence)) return;
    this.#shown = unopened;
    this.typedPath.open = true;
    this.form.write("path", unopened.path);
    if (!unopened.stopped) {
      this.form.fail({ field: "path", sentence: unopened.sentence });
      return;
    }
    this.#reason.textContent = unopened.sentence;
    this.#reason.hidden = false;
    this.#open.setAttribute("aria-describedby", this.#reason.id);
    this.#open.focus();
  }

  #clearReason() {
    this.#shown = null;
    this.#reason.hidden = true;
    this.#create.hidden = true;
    this.#open.removeAttribute("aria-describedby");
  }

  /** Stores the device's name before anything is written under it. */
  async #saveDeviceName() {
    const name = this.#device.value.trim();
    if (name && name !== this.ctx.view().device) await this.ctx.shell.setDeviceName(name);
  }

  /** @param {string} path */
  async #openPath(path) {
    this.#clearReason();
    await this.#saveDeviceName();
    try {
      this.ctx.show(await this.ctx.shell.openFolder(path, false));
    } catch (refusal) {
      const { field, sentence } = /** @type {import("../../types.d.ts").ErrorView} */ (refusal);
      if (field !== "missing_folder") throw refusal;
      // Whether it is to be made is her decision.
      this.#reason.textContent = sentence;
      this.#reason.hidden = false;
      this.#create.hidden = false;
      this.#create.setAttribute("aria-describedby", this.#reason.id);
      this.#create.focus();
    }
  }

  async #createFolder() {
    this.#clearReason();
    try {
      this.ctx.show(await this.ctx.shell.openFolder(this.form.valueOf("path"), true));
    } catch (refusal) {
      this.form.fail(/** @type {import("../../types.d.ts").ErrorView} */ (refusal));
    }
  }

  async #chooseFolder() {
    await this.#saveDeviceName();
    return this.ctx.shell.chooseFolder();
  }

  /** @param {Event} event */
  #click(event) {
    const act = closestTarget(event, "[data-act]")?.dataset.act;
    if (act !== "choose" && act !== "example") return;
    this.#clearReason();
    this.ctx.attempt(act === "choose" ? this.#chooseFolder() : this.ctx.shell.openSample(), "");
  }
}

/** @param {HTMLInputElement} input @param {string} proposed the name it has if none is typed */
function deviceField(input, proposed) {
  return h(
    "div",
    { class: "field welcome-device" },
    h("label", { for: input.id }, t("folder_device_name")),
    h("p", { class: "hint", id: "welcome-device-hint" }, t("welcome_device_hint", { name: proposed })),
    h("div", { class: "field-line" }, input),
  );
}

function exampleOffer() {
  return h(
    "div",
    { class: "welcome-example" },
    button("example", t("welcome_open_sample"), { class: "button", "data-part": "begin-example" }),
    h("p", { class: "small quiet" }, t("welcome_sample_hint")),
  );
}
