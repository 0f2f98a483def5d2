// A day: typed, as the shell understands it, or picked from a month. (WebKitGTK has no date field of its own.)

import { closestTarget, h } from "../dom/dom.js";
import { t } from "../../messages.js";
import * as dates from "./dates.js";
import { monthTable } from "./month.js";

/** Days that a key moves by in the month. @type {Record<string, number>} */
const KEY_MOVES = { ArrowLeft: -1, ArrowRight: 1, ArrowUp: -7, ArrowDown: 7 };

/**
 * @typedef {object} DayOptions
 * @property {HTMLInputElement} input
 * @property {HTMLElement} after the element that the shortcuts and the month follow
 * @property {string} today ISO date
 * @property {boolean} quick whether today and yesterday are offered
 * @property {string} label
 * @property {(text: string) => Promise<string | null>} meant the ISO date that a text means, as the shell reads it
 * @property {AbortSignal} signal
 */

/** Adds today, yesterday and a month to pick from to a field. @param {DayOptions} options */
export function dayField(options) {
  new DayPicker(options);
}

class DayPicker {
  #input;
  #signal;
  #meant;
  #today;
  #open;
  #month;
  /** The day that has the focus in the month. */
  #focusedDay;
  /** The day in the field, in whatever form it was typed. @type {number | null} */
  #chosenDay = null;

  /** @param {DayOptions} options */
  constructor({ input, after, today, quick, label, meant, signal }) {
    this.#input = input;
    this.#signal = signal;
    this.#meant = meant;
    this.#today = dates.dayOfIso(today) ?? dates.dayByTheClock();
    this.#focusedDay = this.#today;
    this.#open = h(
      "button",
      { type: "button", class: "link", "aria-expanded": "false", "data-part": `${input.id}-pick` },
      t("day_pick"),
      h("span", { class: "hidden-words" }, `: ${label}`),
    );
    this.#month = h("div", { class: "month", role: "group", "aria-label": label, hidden: true });
    const shortcuts = quick
      ? [
          this.#shortcut("today", t("day_today"), this.#today),
          this.#shortcut("yesterday", t("day_yesterday"), this.#today - 1),
        ]
      : [];
    after.after(h("div", { class: "day-quick" }, shortcuts, this.#open), this.#month);
    this.#open.addEventListener("click", () => this.#toggle(), { signal });
    this.#month.addEventListener("click", (event) => this.#click(event), { signal });
    this.#month.addEventListener("keydown", (event) => this.#keyDown(event), { signal });
  }

  /** @param {string} key @param {string} label @param {number} day */
  #shortcut(key, label, day) {
    const part = `${this.#input.id}-${key}`;
    const shortcut = h("button", { type: "button", class: "link", "data-part": part }, label);
    shortcut.addEventListener("click", () => this.#write(day), { signal: this.#signal });
    return shortcut;
  }

  /** @param {number} day */
  #write(day) {
    this.#input.value = dates.isoOfDay(day);
    this.#input.dispatchEvent(new Event("input", { bubbles: true }));
  }

  async #toggle() {
    const month = this.#month;
    if (!month.hidden) return this.#close();
    const typed = await this.#meant(this.#input.value).catch(() => null);
    if (this.#signal.aborted || !month.hidden) return;
    this.#chosenDay = dates.dayOfIso(typed ?? "");
    this.#focusedDay = this.#chosenDay ?? this.#today;
    month.hidden = false;
    this.#open.setAttribute("aria-expanded", "true");
    this.#draw();
    this.#focusDay();
  }

  #close() {
    this.#month.hidden = true;
    this.#open.setAttribute("aria-expanded", "false");
  }

  #draw() {
    this.#month.replaceChildren(
      ...monthTable({ focused: this.#focusedDay, chosen: this.#chosenDay, today: this.#today }),
    );
  }

  #focusDay() {
    this.#focus(`[data-day="${this.#focusedDay}"]`);
  }

  /** @param {string} selector */
  #focus(selector) {
    /** @type {HTMLElement | null} */ (this.#month.querySelector(selector))?.focus();
  }

  /** @param {Event} event */
  #click(event) {
    const { day, step } = closestTarget(event, "button")?.dataset ?? {};
    if (day) {
      this.#write(Number(day));
      this.#close();
      this.#open.focus();
    } else if (step) {
      this.#focusedDay = dates.addMonths(this.#focusedDay, Number(step));
      this.#draw();
      this.#focus(`[data-step="${step}"]`);
    }
  }

  /** @param {KeyboardEvent} event */
  #keyDown(event) {
    const { key } = event;
    const isOnDay = Boolean(/** @type {HTMLElement} */ (event.target).dataset.day);
    if (key === "Escape") {
      this.#close();
      this.#open.focus();
    } else if (isOnDay && key in KEY_MOVES) {
      this.#moveTo(this.#focusedDay + KEY_MOVES[key]);
    } else if (key === "PageUp" || key === "PageDown") {
      this.#moveTo(dates.addMonths(this.#focusedDay, key === "PageUp" ? -1 : 1));
    } else {
      return;
    }
    event.preventDefault();
  }

  /** @param {number} day */
  #moveTo(day) {
    this.#focusedDay = day;
    this.#draw();
    this.#focusDay();
  }
}
