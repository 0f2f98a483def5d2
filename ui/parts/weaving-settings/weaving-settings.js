// Settings while weaving: another place in the sequence, keys, the sound of a pick, the reminder to stretch.

import { h } from "../dom/dom.js";
import { bind, bound, canBeBound, keyName } from "../tap/keys.js";
import { isLoud, setLoud, ticker } from "../tap/tick.js";
import { allWritten } from "../tap/presses.js";
import { t } from "../../messages.js";

/** @typedef {import("../../main.js").Context} Context */
/** @typedef {import("../../types.d.ts").Places} Places */

/** Minutes without a pause before the reminder; 0 is never. */
const STRETCH_MINUTES = [0, 20, 30, 45, 60];

/** A number between two buttons, for a thumb. @param {string} id @param {string} label @param {string} hint @param {string} value */
function stepper(id, label, hint, value) {
  const input = h("input", {
    type: "text",
    inputmode: "numeric",
    id,
    value,
    "data-part": id,
    "aria-describedby": `${id}-hint`,
  });
  const step = (/** @type {number} */ by, /** @type {string} */ words) => {
    const one = h("button", { type: "button", class: "button", "aria-label": `${label} ${words}` }, words);
    one.addEventListener("click", () => {
      input.value = String(Math.max((Number.parseInt(input.value, 10) || 0) + by, 0));
    });
    return one;
  };
  const element = h(
    "div",
    { class: "field stepper" },
    h("label", { for: id }, label),
    h("div", { class: "field-line" }, step(-1, "−1"), input, step(1, "+1")),
    h("p", { class: "hint", id: `${id}-hint` }, hint),
  );
  return { element, input };
}

/** Choosing another place in the pick sequence. */
class PlaceChoice {
  #rows = h("div", { class: "stack", "data-part": "places" });
  #trouble = h("p", { class: "trouble", role: "alert", hidden: true, "data-part": "place-trouble" });
  element = h(
    "section",
    { "aria-labelledby": "place-title", class: "stack" },
    h("h2", { id: "place-title" }, t("place_title")),
    this.#trouble,
    this.#rows,
  );

  /** @param {Context} ctx @param {string} warp @param {AbortSignal} signal */
  constructor(ctx, warp, signal) {
    this.ctx = ctx;
    this.warp = warp;
    this.signal = signal;
    this.#load();
  }

  async #load() {
    await allWritten(this.ctx);
    const places = await this.ctx.shell.places(this.warp).catch(() => null);
    if (this.signal.aborted) return;
    if (places) this.#draw(places);
    else
      this.#rows.replaceChildren(
        h("p", null, `${t("place_no_sequence")} `, h("a", { href: "#/change" }, t("place_add_sequence"))),
      );
  }

  /** @param {Places} places */
  #draw({ now, pieces, sections }) {
    const repeat = stepper("place-repeat", t("place_repeat"), t("place_repeat_hint"), now.repeat);
    const piece = pieces > 1 ? stepper("place-piece", t("place_piece"), "", now.piece) : null;
    const set = (/** @type {string} */ section, /** @type {string} */ row) =>
      this.#setPlace({ section, row }, repeat.input, piece?.input);
    this.#rows.replaceChildren(
      h("p", { class: "quiet" }, t("place_hint")),
      h("div", { class: "form-grid" }, repeat.element, piece?.element),
      ...sections.map((section) => sectionRows(section, now, set)),
    );
  }

  /** @param {{ section: string, row: string }} place @param {HTMLInputElement} repeat @param {HTMLInputElement} [piece] */
  async #setPlace({ section, row }, repeat, piece) {
    const { ctx } = this;
    const form = { piece: piece?.value ?? "", section, repeat: section === "opening" ? "" : repeat.value, row };
    try {
      ctx.show(await ctx.shell.setPlace(this.warp, form));
      ctx.notify(t("tap_place_set"));
      ctx.go("#/tap");
    } catch (refusal) {
      const { sentence, field } = /** @type {import("../../types.d.ts").ErrorView} */ (refusal);
      this.#trouble.textContent = sentence;
      this.#trouble.hidden = false;
      (field === "piece" ? piece : repeat)?.focus();
    }
  }
}

/**
 * The rows of one section of the sequence, each a button.
 * @param {Places["sections"][number]} section @param {Places["now"]} now @param {(section: string, row: string) => void} set
 */
function sectionRows({ section, name, rows }, now, set) {
  const rowButton = (/** @type {string} */ words, /** @type {number} */ index) => {
    const row = String(index + 1);
    const isNow = section === now.section && row === now.row;
    const props = { "data-place": `${section}-${row}`, "aria-current": isNow ? "true" : null };
    const button = h(
      "button",
      { type: "button", class: "button", "data-part": "place-row", ...props },
      `${row}. ${words}`,
      isNow && h("span", { class: "small" }, ` ${t("place_now")}`),
    );
    button.addEventListener("click", () => set(section, row));
    return h("li", null, button);
  };
  return h(
    "div",
    { class: "place-section" },
    h("h3", null, name),
    h("ol", { class: "place-rows" }, rows.map(rowButton)),
  );
}

/** Which key counts a pick, and which takes one back. */
class KeyChoice {
  #now = h("p", { "data-part": "keys-now", role: "status" });
  #buttons = {
    pick: this.#bindButton("pick", t("keys_choose_pick")),
    back: this.#bindButton("back", t("keys_choose_back")),
  };
  #free = h("button", { type: "button", class: "link", "data-part": "bind-free" }, t("keys_any_again"));
  /** The action whose key is chosen by the next press. @type {"pick" | "back" | null} */
  #choosing = null;
  element = h(
    "section",
    { "aria-labelledby": "keys-title", class: "stack" },
    h("h2", { id: "keys-title" }, t("keys_title")),
    this.#now,
    h("div", { class: "row" }, this.#buttons.pick, this.#buttons.back, this.#free),
    h("p", { class: "small quiet" }, t("keys_note")),
  );

  /** @param {AbortSignal} signal */
  constructor(signal) {
    this.#free.addEventListener("click", () => {
      bind({ pick: null, back: null });
      this.#choose(null);
      this.#buttons.pick.focus();
    });
    document.addEventListener("keydown", (event) => this.#keyDown(event), { signal, capture: true });
    // A key chosen while its button has the focus must not press the button again.
    const keyUp = (/** @type {KeyboardEvent} */ event) => {
      if (event.key === " " && this.#choosing) event.preventDefault();
    };
    document.addEventListener("keyup", keyUp, { signal });
    this.#choose(null);
  }

  /** @param {"pick" | "back"} action @param {string} words */
  #bindButton(action, words) {
    const button = h("button", { type: "button", class: "button", "data-part": `bind-${action}` }, words);
    button.addEventListener("click", () => this.#choose(this.#choosing === action ? null : action));
    return button;
  }

  /** @param {"pick" | "back" | null} action */
  #choose(action) {
    this.#choosing = action;
    const keys = bound();
    const sentences = [keys.pick ? t("keys_pick", { key: keyName(keys.pick) }) : keys.back ? "" : t("keys_any")];
    if (keys.back) sentences.push(t("keys_back", { key: keyName(keys.back) }));
    this.#now.textContent = action ? t("keys_press") : sentences.filter(Boolean).join(" ");
    this.#free.hidden = !keys.pick && !keys.back;
    this.#buttons.pick.setAttribute("aria-pressed", String(action === "pick"));
    this.#buttons.back.setAttribute("aria-pressed", String(action === "back"));
  }

  /** @param {KeyboardEvent} event */
  #keyDown(event) {
    if (!this.#choosing) return;
    if (event.key === "Escape" || event.key === "Tab") {
      this.#choose(null);
      return;
    }
    if (!canBeBound(event)) return;
    event.preventDefault();
    event.stopPropagation();
    bind({ ...bound(), [this.#choosing]: event.key });
    this.#choose(null);
  }
}

function soundPart() {
  const tick = ticker();
  const box = h("input", { type: "checkbox", id: "tick", checked: isLoud(), "data-part": "tap-sound" });
  box.addEventListener("change", () => {
    setLoud(box.checked);
    if (box.checked) tick();
  });
  return h(
    "section",
    { "aria-labelledby": "tick-title" },
    h("h2", { id: "tick-title" }, t("sound_title")),
    h("div", { class: "field check" }, h("label", null, box, h("span", null, t("sound_on")))),
  );
}

/** @param {Context} ctx @param {AbortSignal} signal */
function stretchPart(ctx, signal) {
  const chosen = ctx.view().folder?.stretch_minutes ?? 0;
  const set = h(
    "fieldset",
    { class: "choice", "data-part": "stretch-every" },
    h("legend", null, t("stretch_title")),
    h("p", { class: "hint small quiet" }, t("stretch_hint")),
    h("p", { class: "small quiet", "data-part": "stretch-care" }, t("stretch_care")),
    h(
      "div",
      { class: "choices" },
      STRETCH_MINUTES.map((count) =>
        h(
          "label",
          null,
          h("input", {
            type: "radio",
            name: "stretch",
            value: count,
            id: `stretch-${count}`,
            checked: count === chosen,
          }),
          h("span", null, count === 0 ? t("stretch_never") : t("stretch_minutes", { count })),
        ),
      ),
    ),
  );
  set.addEventListener(
    "change",
    () => {
      const one = /** @type {HTMLInputElement | null} */ (set.querySelector("input:checked"));
      if (one) ctx.attempt(ctx.shell.setStretch(one.value), "");
    },
    { signal },
  );
  return set;
}

/** @param {Context} ctx @param {AbortSignal} signal */
export function weavingSettingsScreen(ctx, signal) {
  const { loom, running } = ctx.view();
  const warp = running?.warp ?? loom?.id;
  if (!warp) return null;
  const element = h(
    "div",
    { class: "page stack weaving-settings" },
    h("h1", { tabindex: -1 }, t("weaving_settings")),
    h("p", null, h("a", { class: "primary", href: "#/tap", "data-part": "settings-back" }, t("weaving_settings_back"))),
    new PlaceChoice(ctx, warp, signal).element,
    new KeyChoice(signal).element,
    soundPart(),
    stretchPart(ctx, signal),
  );
  return { element, update() {} };
}
