// A warp with its answers, its picture and its sittings. The same screen shows a warp on the loom, resting, or cut off.

import { morphChildren, button, h } from "../dom/dom.js";
import { L } from "../../texts/at-loom.js";
import { T } from "../../texts/texts.js";
import { answers } from "../answers/answers.js";
import { cameOut, tickStep } from "../came-out/came-out.js";
import { daysPicture } from "../days-picture/days-picture.js";
import { showPhoto } from "../photos/photos.js";
import { noted } from "../noted/noted.js";
import { plansWaiting } from "../plan/kept.js";
import { settle } from "../settle/settle.js";
import { sittings } from "../sittings/sittings.js";
import { strip } from "../strip/strip.js";
import { takeUpYarn, yarns } from "../yarns/yarns.js";
import { warpPicture } from "../warp-picture/warp-picture.js";

/** @typedef {import("../../types.d.ts").AppView} AppView */
/** @typedef {import("../../types.d.ts").LoomView} LoomView */
/** @typedef {import("../../types.d.ts").WarpLine} WarpLine */

const SEEN = "fellmark.cautions";

/** Cautions she has read, so that each is said once. @returns {Set<string>} */
function seenCautions() {
  try {
    return new Set(JSON.parse(localStorage.getItem(SEEN) ?? "[]"));
  } catch {
    return new Set();
  }
}

/** The warps to change between, when there is more than one in hand. @param {AppView} view @param {string} shown */
function otherWarps(view, shown) {
  const inHand = view.warps.filter(({ state }) => state === "on_the_loom" || state === "resting");
  if (inHand.length === 0 || (inHand.length === 1 && inHand[0].id === shown)) return null;
  return h(
    "section",
    { class: "warps no-print", "aria-labelledby": "warps-title", "data-key": "warps" },
    h("h2", { id: "warps-title" }, T.loom.others),
    h(
      "ul",
      { "data-part": "warps" },
      inHand.map((warp) =>
        h(
          "li",
          { "data-key": warp.id },
          h(
            "button",
            {
              type: "button",
              class: "warp-line",
              "data-act": "show-warp",
              "data-warp": warp.id,
              "aria-current": warp.id === shown ? "true" : null,
            },
            h("strong", null, warp.name),
            h("span", { class: "small quiet" }, warp.line || T.loom.state[warp.state]),
            warp.to_settle > 0 && h("span", { class: "small" }, T.loom.toSettle(warp.to_settle)),
          ),
        ),
      ),
    ),
  );
}

/** @param {LoomView} loom @param {AppView} view */
function wayToTheLoom(loom, view) {
  const { running } = view;
  if (running && running.warp === loom.id) {
    return h(
      "div",
      { class: "to-loom", "data-key": "to-loom", "data-part": "running" },
      h("p", null, T.loom.running(running.since)),
      h(
        "div",
        { class: "to-loom-bar row" },
        h("a", { class: "shuttle", href: "#/tap", "data-part": "go-on" }, T.loom.goOn),
        h("a", { class: "button", href: "#/get-up", "data-part": "get-up" }, T.loom.getUp),
      ),
    );
  }
  if (loom.state !== "on_the_loom" || running) return null;
  return h(
    "div",
    { class: "to-loom", "data-key": "to-loom" },
    h(
      "div",
      { class: "to-loom-bar" },
      h("a", { class: "shuttle", href: "#/tap", "data-part": "sit-down" }, T.loom.sitDown),
    ),
  );
}

/** @param {LoomView} loom */
function actions(loom) {
  const state = (/** @type {string} */ to, /** @type {string} */ words) =>
    button("set-state", words, { class: "button", "data-state": to, "data-key": "to-state" });
  if (loom.state === "removed") {
    return h(
      "section",
      { class: "actions no-print", "data-key": "actions", "aria-label": T.loom.actions },
      h("p", null, T.loom.removedNote),
      button("restore-warp", T.loom.restore, { class: "button" }),
    );
  }
  return h(
    "section",
    { class: "actions no-print", "data-key": "actions", "aria-labelledby": "actions-title" },
    h("h2", { id: "actions-title" }, T.loom.actions),
    h(
      "div",
      { class: "row" },
      h("a", { class: "button", href: "#/change", "data-part": "change" }, T.loom.change),
      loom.state === "on_the_loom" && state("resting", T.loom.rest),
      loom.state === "resting" && state("on_the_loom", T.loom.takeUp),
      loom.state !== "off_the_loom" &&
        h("a", { class: "button", href: "#/cut-off", "data-part": "cut-off" }, T.loom.cutOff),
      loom.state === "off_the_loom" && state("on_the_loom", T.loom.backOn),
      button("print", T.loom.print, { class: "button" }),
      button("remove-warp", T.loom.remove, { class: "link" }),
    ),
  );
}

/** @param {LoomView} loom */
function cautions(loom) {
  const seen = seenCautions();
  const fresh = loom.cautions.filter((words) => !seen.has(words));
  if (fresh.length === 0) return null;
  return h(
    "aside",
    { class: "cautions no-print", "aria-label": T.loom.cautions, "data-key": "cautions", "data-part": "cautions" },
    h(
      "div",
      null,
      fresh.map((words) => h("p", null, words)),
    ),
    button("cautions-seen", T.loom.cautionsSeen, { class: "link" }),
  );
}

/** @param {import("../../main.js").Context} ctx @param {AbortSignal} signal */
export function loomScreen(ctx, signal) {
  const element = h("div", { class: "loom" });
  let all = false;

  /** @param {string} sitting */
  const openSitting = (sitting) => {
    if (!element.querySelector(`[id="sitting-${sitting}"]`)) {
      all = true;
      update(ctx.view());
    }
    const found = /** @type {HTMLDetailsElement | null} */ (element.querySelector(`[id="sitting-${sitting}"]`));
    if (!found) return;
    found.open = true;
    found.scrollIntoView({ block: "center" });
    found.querySelector("summary")?.focus();
  };
  const warp = warpPicture({ signal, open: openSitting });
  const days = daysPicture({ signal });

  /** @param {string} key @param {HTMLElement} island */
  const land = (key, island) => {
    const place = element.querySelector(`[data-key="${key}"]`);
    if (place && place !== island) place.replaceWith(island);
  };

  /** @param {AppView} view */
  function update(view) {
    const { loom } = view;
    if (!loom) {
      morphChildren(element, [h("h1", { tabindex: -1 }, T.nav.loom), h("p", null, T.loom.none)]);
      return;
    }
    const parts = [
      h(
        "div",
        { class: "loom-head", "data-key": "head" },
        h(
          "div",
          null,
          h("h1", { tabindex: -1, "data-part": "warp-name" }, loom.name),
          h(
            "p",
            { class: loom.state === "on_the_loom" ? "hidden-words" : "quiet", "data-part": "warp-state" },
            T.loom.state[loom.state],
          ),
        ),
        wayToTheLoom(loom, view),
      ),
      settle(loom.to_settle),
      loom.state === "off_the_loom" ? cameOut(loom) : answers(loom),
      cautions(loom),
      h(
        "section",
        { class: "pictured", "aria-labelledby": "picture-title", "data-key": "pictured" },
        h("h2", { id: "picture-title" }, T.picture.title),
        h("figure", { "data-key": "warp-picture" }),
      ),
      h(
        "div",
        { class: "loom-below", "data-key": "below" },
        loom.days &&
          h(
            "section",
            { class: "dayed", "aria-labelledby": "days-title", "data-key": "dayed" },
            h("h2", { id: "days-title" }, T.days.title),
            h("figure", { "data-key": "days-picture" }),
          ),
        sittings(loom, all),
      ),
      strip(loom),
      yarns(loom),
      noted(loom),
      actions(loom),
      otherWarps(view, loom.id),
      plansWaiting(view),
    ];
    morphChildren(
      element,
      parts.filter((part) => part !== null),
    );
    land("warp-picture", warp.element);
    warp.update(loom.picture, view.format.length_unit);
    land("days-picture", days.element);
    if (loom.days) days.update(loom.days);
  }

  element.addEventListener(
    "click",
    (event) => {
      const hit = /** @type {HTMLElement | null} */ (/** @type {Element} */ (event.target).closest("[data-act]"));
      const loom = ctx.view().loom;
      if (!hit || !loom) return;
      if (tickStep(ctx, hit, loom) || takeUpYarn(ctx, hit, loom)) return;
      const { act, record = "", field = "", choice = "", state = "" } = hit.dataset;
      if (act === "show-warp") ctx.attempt(ctx.shell.showWarp(hit.dataset.warp ?? ""), "").then(() => ctx.toTop());
      else if (act === "print") window.print();
      else if (act === "set-state")
        ctx.attempt(ctx.shell.setWarpState(loom.id, state), state === "resting" ? T.warp.rests : T.warp.onTheLoom);
      else if (act === "remove-warp") ctx.attempt(ctx.shell.remove(loom.id), T.warp.removed);
      else if (act === "restore-warp") ctx.attempt(ctx.shell.restore(loom.id), T.warp.restored);
      else if (act === "remove-sitting") ctx.attempt(ctx.shell.remove(record), T.sittings.removedNow);
      else if (act === "remove-noted") ctx.attempt(ctx.shell.remove(record), L.noted.removed);
      else if (act === "restore-sitting") ctx.attempt(ctx.shell.restore(record), T.sittings.restoredNow);
      else if (act === "settle") ctx.attempt(ctx.shell.resolve(record, field, choice), T.settle.done);
      else if (act === "photo") showPhoto(hit.dataset.address ?? "", hit.dataset.text ?? "");
      else if (act === "all-sittings") {
        all = true;
        update(ctx.view());
      } else if (act === "cautions-seen") {
        localStorage.setItem(SEEN, JSON.stringify([...seenCautions(), ...loom.cautions]));
        update(ctx.view());
      }
    },
    { signal },
  );
  element.addEventListener(
    "change",
    (event) => {
      const input = /** @type {HTMLInputElement} */ (event.target);
      const { photosFor } = input.dataset;
      if (!photosFor || !input.files) return;
      ctx.photos.add(photosFor, [...input.files]);
      input.value = "";
    },
    { signal },
  );
  // Photos dropped on a sitting go with it; pasted ones go with the latest.
  element.addEventListener("dragover", (event) => event.preventDefault(), { signal });
  element.addEventListener(
    "drop",
    (event) => {
      const on = /** @type {Element} */ (event.target).closest('[data-part="sitting"]')?.getAttribute("data-sitting");
      const files = [...(event.dataTransfer?.files ?? [])];
      if (!on || files.length === 0) return;
      event.preventDefault();
      ctx.photos.add(on, files);
    },
    { signal },
  );
  document.addEventListener(
    "paste",
    (event) => {
      const files = [...(event.clipboardData?.files ?? [])];
      const latest = ctx.view().loom?.sittings[0]?.id;
      if (files.length === 0 || !latest) return;
      event.preventDefault();
      ctx.photos.add(latest, files);
    },
    { signal },
  );
  // On paper every reckoning is open.
  window.addEventListener(
    "beforeprint",
    () =>
      element.querySelectorAll("details").forEach((one) => {
        one.dataset.was = String(one.open);
        one.open = true;
      }),
    { signal },
  );
  window.addEventListener(
    "afterprint",
    () =>
      element.querySelectorAll("details").forEach((one) => {
        one.open = one.dataset.was === "true";
      }),
    { signal },
  );

  update(ctx.view());
  return { element, update };
}
