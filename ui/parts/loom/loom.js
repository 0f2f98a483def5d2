// A warp with its answers, its picture and its sittings. The same screen shows a warp on the loom, resting, or cut off.

import { morphChildren, closestTarget, h, placeIsland } from "../dom/dom.js";
import { help } from "../guide/help.js";
import { t } from "../../messages.js";
import { answers } from "../answers/answers.js";
import { plannedAndActual, tickStep } from "../planned-and-actual/planned-and-actual.js";
import { daysPicture } from "../days-picture/days-picture.js";
import { showPhoto } from "../photos/enlarged.js";
import { otherRecords } from "../other-records/other-records.js";
import { plansWaiting } from "../plan/kept.js";
import { conflicts } from "../conflicts/conflicts.js";
import { sittings } from "../sittings/sittings.js";
import { photoTimeline } from "../photo-timeline/photo-timeline.js";
import { takeUpYarn, yarns } from "../yarns/yarns.js";
import { warpPicture } from "../warp-picture/warp-picture.js";
import { cautions, markAsRead } from "./cautions.js";
import { actions, head, otherWarps } from "./sections.js";
import { acceptPhotos } from "./sitting-photos.js";

/** @typedef {import("../../main.js").Context} Context */
/** @typedef {import("../../types.d.ts").AppView} AppView */
/** @typedef {import("../../types.d.ts").LoomView} LoomView */

/** @param {Context} ctx @param {AbortSignal} signal */
export function loomScreen(ctx, signal) {
  const screen = new LoomScreen(ctx, signal);
  const update = (/** @type {AppView} */ view) => screen.update(view);
  update(ctx.view());
  return { element: screen.element, update };
}

class LoomScreen {
  element = h("div", { class: "loom" });
  /** Whether all sittings are listed, not only the latest. */
  #showsAllSittings = false;
  #warpPicture;
  #daysPicture;

  /** @param {Context} ctx @param {AbortSignal} signal */
  constructor(ctx, signal) {
    this.ctx = ctx;
    this.#warpPicture = warpPicture({ signal, open: (sitting) => this.#openSitting(sitting) });
    this.#daysPicture = daysPicture({ signal });
    this.element.addEventListener("click", (event) => this.#click(event), { signal });
    acceptPhotos(ctx, this.element, signal);
    openForPrinting(this.element, signal);
  }

  /** @param {AppView} view */
  update(view) {
    const { loom } = view;
    if (!loom) {
      morphChildren(this.element, [h("h1", { tabindex: -1 }, t("on_the_loom")), h("p", null, t("loom_nothing"))]);
      return;
    }
    const parts = [
      head(loom, view),
      conflicts(loom.conflicts),
      loom.state === "off_the_loom" && plannedAndActual(loom),
      pictureSection("picture", "pictured", t("picture_title"), "warp-picture"),
      loom.state !== "off_the_loom" && answers(loom),
      cautions(loom),
      h(
        "div",
        { class: "loom-below", "data-key": "below" },
        loom.days && pictureSection("days", "dayed", t("days_title"), "days-picture"),
        sittings(loom, this.#showsAllSittings),
      ),
      photoTimeline(loom),
      yarns(loom),
      otherRecords(loom),
      actions(loom),
      loom.state === "off_the_loom" ? help("off-the-loom", "figures") : help("at-the-loom", "figures"),
      otherWarps(view, loom.id),
      plansWaiting(view),
    ];
    morphChildren(
      this.element,
      parts.filter((part) => part !== null && part !== false),
    );
    placeIsland(this.element, "warp-picture", this.#warpPicture.element);
    this.#warpPicture.update(loom.picture, view.format.length_unit);
    placeIsland(this.element, "days-picture", this.#daysPicture.element);
    if (loom.days) this.#daysPicture.update(loom.days);
  }

  /** @param {string} id */
  #findSitting(id) {
    return /** @type {HTMLDetailsElement | null} */ (this.element.querySelector(`[id="sitting-${id}"]`));
  }

  /** Shows a sitting that was pressed in the picture. @param {string} id */
  #openSitting(id) {
    if (!this.#findSitting(id)) this.#showAllSittings();
    const sitting = this.#findSitting(id);
    if (!sitting) return;
    sitting.open = true;
    sitting.scrollIntoView({ block: "center" });
    sitting.querySelector("summary")?.focus();
  }

  #showAllSittings() {
    this.#showsAllSittings = true;
    this.update(this.ctx.view());
  }

  /** @param {Event} event */
  #click(event) {
    const hit = closestTarget(event, "[data-act]");
    const { loom } = this.ctx.view();
    if (!hit || !loom) return;
    if (tickStep(this.ctx, hit, loom) || takeUpYarn(this.ctx, hit, loom)) return;
    if (this.#show(hit, loom)) return;
    this.#change(hit, loom);
  }

  /** Actions that only show something. @param {HTMLElement} hit @param {LoomView} loom @returns {boolean} whether it was one */
  #show(hit, loom) {
    const { act, address = "", text = "" } = hit.dataset;
    if (act === "print") window.print();
    else if (act === "photo") {
      const { record = "" } = hit.dataset;
      showPhoto(address, text, () => this.ctx.attempt(this.ctx.shell.remove(record), t("photos_removed")));
    } else if (act === "all-sittings") this.#showAllSittings();
    else if (act === "cautions-seen") {
      markAsRead(loom);
      this.update(this.ctx.view());
    } else return false;
    return true;
  }

  /** Actions that the shell carries out. @param {HTMLElement} hit @param {LoomView} loom */
  #change(hit, loom) {
    const { ctx } = this;
    const { shell } = ctx;
    const { act, record = "", field = "", choice = "", state = "", warp = "" } = hit.dataset;
    if (act === "show-warp") ctx.attempt(shell.showWarp(warp), "").then(() => ctx.toTop());
    else if (act === "set-state")
      ctx.attempt(
        shell.setWarpState(loom.id, state),
        state === "resting" ? t("loom_was_set_aside") : t("loom_is_back"),
      );
    else if (act === "remove-warp") ctx.attempt(shell.remove(loom.id), t("loom_warp_removed"));
    else if (act === "restore-warp") ctx.attempt(shell.restore(loom.id), t("loom_warp_restored"));
    else if (act === "remove-sitting") ctx.attempt(shell.remove(record), t("sittings_was_removed"));
    else if (act === "remove-record") ctx.attempt(shell.remove(record), t("records_removed"));
    else if (act === "restore-sitting") ctx.attempt(shell.restore(record), t("sittings_was_restored"));
    else if (act === "resolve-conflict") ctx.attempt(shell.resolve(record, field, choice), t("conflicts_settled"));
  }
}

/** A title above the place of a picture that updates itself. @param {string} id @param {string} name @param {string} title @param {string} key */
function pictureSection(id, name, title, key) {
  return h(
    "section",
    { class: name, "aria-labelledby": `${id}-title`, "data-key": name },
    h("h2", { id: `${id}-title`, class: id === "picture" ? "hidden-words" : null }, title),
    h("figure", { "data-key": key }),
  );
}

/** On paper every disclosure is open. @param {HTMLElement} element @param {AbortSignal} signal */
function openForPrinting(element, signal) {
  const open = () =>
    element.querySelectorAll("details").forEach((disclosure) => {
      disclosure.dataset.was = String(disclosure.open);
      disclosure.open = true;
    });
  const restore = () =>
    element.querySelectorAll("details").forEach((disclosure) => {
      disclosure.open = disclosure.dataset.was === "true";
    });
  window.addEventListener("beforeprint", open, { signal });
  window.addEventListener("afterprint", restore, { signal });
}
