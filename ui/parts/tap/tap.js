// At the loom: the whole of the loom that is drawn takes a pick. Presses are shown at once and written one after another.

import { h } from "../dom/dom.js";
import { t } from "../../messages.js";
import { screenAwake } from "./awake.js";
import { bound, meaning } from "./keys.js";
import { tapLayout } from "./layout.js";
import { dismissibleHint } from "./hint.js";
import { showPlace } from "./place.js";
import { addPress, allWritten, pressesWaiting, withWaiting, writePresses } from "./presses.js";
import { isLoud, ticker } from "./tick.js";

/** @typedef {import("../../main.js").Context} Context */
/** @typedef {import("../../types.d.ts").RunningView} RunningView */
/** @typedef {import("../../types.d.ts").PlaceDue} PlaceDue */

/** Milliseconds between asking the shell for the running sitting. */
const REFRESH_EVERY = 20_000;

/** @param {Context} ctx @param {AbortSignal} signal */
export function tapScreen(ctx, signal) {
  return new TapScreen(ctx, signal);
}

class TapScreen {
  /** @param {Context} ctx @param {AbortSignal} signal */
  constructor(ctx, signal) {
    this.ctx = ctx;
    this.signal = signal;
    this.layout = tapLayout();
    this.element = this.layout.element;
    const { stretch, half, surface, dark } = this.layout;
    this.isLoud = isLoud();
    this.tick = ticker();
    this.keys = bound();
    this.awake = screenAwake(ctx, signal, dark);
    this.showStretch = dismissibleHint(stretch, "stretch-close", t("got_it"), surface, signal);
    this.showHalf = dismissibleHint(half, "tap-half-close", t("got_it"), surface, signal);
    this.#listenToSurface();
    this.#listenToControls();
    document.addEventListener("keydown", (event) => this.#keyDown(event), { signal });
    this.#refreshNowAndThen();
    this.#showWritten();
    if (pressesWaiting() > 0) {
      this.#showAhead();
      writePresses(ctx, this);
    }
  }

  focus = () => this.layout.surface.focus();

  update = () => {
    // What a press answers is newer than a view that was made before it.
    if (pressesWaiting() === 0) this.#showWritten();
  };

  /** A press was written. @param {RunningView} running */
  written(running) {
    this.layout.trouble.hidden = true;
    if (pressesWaiting() > 0) this.#showAhead();
    else this.#showWritten();
    // Said when it is written, not when it is shown.
    const next = running.place?.next;
    this.layout.announcement.textContent = next ? `${running.picks}. ${next}` : String(running.picks);
  }

  /** A press could not be written; it waits. @param {string} sentence */
  refused(sentence) {
    const { trouble } = this.layout;
    const again = h("button", { type: "button", class: "tap-quiet", "data-part": "tap-retry" }, t("tap_save_now"));
    again.addEventListener("click", () => writePresses(this.ctx, this), { signal: this.signal });
    trouble.replaceChildren(h("p", null, sentence), h("p", null, t("tap_waiting", { count: pressesWaiting() })), again);
    trouble.hidden = false;
  }

  /** Shows what is written; only then may the screen be kept awake for it. */
  #showWritten() {
    const { running } = this.ctx.view();
    this.#show(running);
    this.awake.follow(running !== null && !running.paused);
  }

  /** Shows what is known, with the presses that wait counted in as far as the shell previewed them. */
  #showAhead() {
    const { running, loom } = this.ctx.view();
    const ahead = withWaiting(running, loom);
    if (ahead) this.#show(ahead);
  }

  /** @param {RunningView | null} running */
  #show(running) {
    const { layout } = this;
    const { loom, running: sitting } = this.ctx.view();
    const picks = running?.picks ?? 0;
    layout.count.textContent = String(picks).replace("-", "\u2212");
    layout.unit.textContent = t("tap_picks", { count: picks });
    const inAll = running?.picks_in_all ?? loom?.figures.picks;
    const toGo = running ? running.to_go : loom?.to_go;
    const place = running ? running.place : (loom?.place ?? null);
    layout.inAll.textContent = [
      inAll === undefined ? "" : t("tap_on_this_warp", { count: inAll }),
      // In a sequence it stands beside the repeats.
      place ? "" : toGo,
    ]
      .filter(Boolean)
      .join(" · ");
    this.#showTimer(running);
    layout.how.hidden = sitting !== null;
    showPlace(layout, place, (due) => this.#takeDue(due));
    const isBegun = running ? running.begun : (loom?.place?.begun ?? false);
    layout.begun.setAttribute("aria-pressed", String(isBegun));
    layout.begunSign.hidden = !isBegun;
    this.element.classList.toggle("within", isBegun);
    this.element.classList.toggle("by-two", (running?.picks_per_tap ?? loom?.picks_per_tap ?? 1) === 2);
    this.showStretch(running?.stretch ?? null);
    this.showHalf(running?.half ?? null);
  }

  /** @param {RunningView | null} running */
  #showTimer(running) {
    const { minutes, pause } = this.layout;
    minutes.classList.toggle("tap-first", !running);
    const count = Math.floor(running?.minutes ?? 0);
    if (!running) minutes.textContent = t("tap_first");
    else if (running.held) minutes.textContent = t("tap_minutes_held", { count });
    else minutes.textContent = t(running.paused ? "tap_minutes_paused" : "tap_minutes", { count });
    // A timer that stopped by itself goes on with the next pick.
    pause.hidden = !running || (running.paused && !running.held);
    pause.textContent = t(running?.held ? "tap_resume" : "tap_pause");
  }

  async #togglePaused() {
    const { ctx } = this;
    await allWritten(ctx);
    try {
      ctx.applyTap(await ctx.shell.setPaused(!ctx.view().running?.held));
      this.#showWritten();
    } catch (refusal) {
      this.refused(/** @type {import("../../types.d.ts").ErrorView} */ (refusal).sentence);
    }
  }

  /** @param {1 | -1} by */
  #press(by) {
    addPress(by);
    this.ctx.showMessage("", []);
    writePresses(this.ctx, this);
    // The cloth, the count and what comes next are seen at once; if it cannot be written, that is shown.
    this.element.classList.toggle("one-thread");
    this.#showAhead();
    this.awake.pressed();
    if (this.isLoud) this.tick();
  }

  /** Goes to the place in the sequence that is due. @param {PlaceDue} due */
  async #takeDue(due) {
    const { ctx, layout } = this;
    const { running, loom } = ctx.view();
    await allWritten(ctx);
    if (await ctx.attempt(ctx.shell.setPlace(running?.warp ?? loom?.id ?? "", due.to), "")) {
      layout.announcement.textContent = t("tap_place_set");
    }
    layout.surface.focus();
  }

  async #toggleBegun() {
    const { ctx, layout } = this;
    const isBegun = layout.begun.getAttribute("aria-pressed") !== "true";
    await allWritten(ctx);
    try {
      ctx.applyTap(await ctx.shell.setPickBegun(isBegun));
      this.#showWritten();
      layout.announcement.textContent = isBegun ? t("tap_not_beaten_sign") : "";
    } catch (refusal) {
      this.refused(/** @type {import("../../types.d.ts").ErrorView} */ (refusal).sentence);
    }
  }

  #listenToSurface() {
    const { surface } = this.layout;
    const { signal } = this;
    surface.addEventListener("pointerdown", (event) => event.button === 0 && this.#press(1), { signal });
    // A click without a press before it comes from a screen reader or a switch.
    surface.addEventListener("click", (event) => event.detail === 0 && this.#press(1), { signal });
    surface.addEventListener("contextmenu", (event) => event.preventDefault(), { signal });
    // Space is answered when it goes down; the click that would follow it must not count again.
    surface.addEventListener("keyup", (event) => event.key === " " && event.preventDefault(), { signal });
  }

  #listenToControls() {
    const { signal } = this;
    const { back, begun, finish, pause, surface } = this.layout;
    const onControl = (/** @type {HTMLElement} */ control, /** @type {() => void} */ act) =>
      control.addEventListener(
        "click",
        (event) => {
          act();
          // After a finger or a mouse the keys belong to the surface again.
          if (event.detail > 0) surface.focus();
        },
        { signal },
      );
    onControl(back, () => this.#press(-1));
    onControl(begun, () => this.#toggleBegun());
    onControl(pause, () => this.#togglePaused());
    finish.addEventListener(
      "click",
      (event) => {
        if (event.detail > 0) return;
        event.preventDefault();
        this.ctx.go("#/finish-sitting/keys");
      },
      { signal },
    );
  }

  /** @param {KeyboardEvent} event */
  #keyDown(event) {
    if (event.ctrlKey || event.metaKey || event.altKey || event.isComposing) return;
    const { surface } = this.layout;
    const control = /** @type {Element} */ (event.target).closest?.("a, button");
    const presses = event.key === "Enter" || event.key === " ";
    if (control && control !== surface && presses) return;
    if (event.key === "Escape") {
      event.preventDefault();
      if (!event.repeat) this.#toggleBegun();
      return;
    }
    const by = meaning(event, this.keys);
    // The surface is a button: a key that is not the chosen one must not press it.
    if (by !== 0 || (control === surface && presses)) event.preventDefault();
    // A key held down, or a pedal that rattles, is one pick.
    if (by !== 0 && !event.repeat) this.#press(by);
  }

  /** The minutes go on without a press. */
  #refreshNowAndThen() {
    const timer = setInterval(() => {
      const isSeen = document.visibilityState === "visible";
      if (isSeen && pressesWaiting() === 0 && this.ctx.view().running) this.ctx.refresh();
    }, REFRESH_EVERY);
    this.signal.addEventListener("abort", () => clearInterval(timer));
  }
}
