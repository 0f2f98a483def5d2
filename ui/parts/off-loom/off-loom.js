// The warps that were cut off, each to be looked at again, and those that were removed.

import { morphChildren, closestTarget, h } from "../dom/dom.js";
import { disclosure } from "../disclosure/disclosure.js";
import { recordList } from "../record-list/record-list.js";
import { t } from "../../messages.js";

/** @typedef {import("../../main.js").Context} Context */
/** @typedef {import("../../types.d.ts").AppView} AppView */
/** @typedef {import("../../types.d.ts").WarpLine} WarpLine */

/** @param {WarpLine[]} warps */
function cutOffWarps(warps) {
  const warpButton = (/** @type {WarpLine} */ warp) =>
    h(
      "button",
      { type: "button", class: "warp-line", "data-act": "show-warp", "data-warp": warp.id },
      h("strong", null, warp.name),
      h("span", { class: "quiet" }, warp.line),
    );
  return h(
    "ul",
    { class: "off-list", "data-part": "off-list", "data-key": "off" },
    warps.map((warp) => h("li", { "data-key": warp.id }, warpButton(warp))),
  );
}

/** @param {WarpLine[]} warps */
function removedWarps(warps) {
  const list = recordList(
    warps.map(({ id, name }) => ({ id, words: name })),
    { act: "restore", label: t("restore") },
  );
  return disclosure(t("off_removed"), { "data-key": "removed", "data-part": "removed-warps" }, list);
}

/** @param {Context} ctx @param {HTMLElement} hit */
async function act(ctx, hit) {
  const { act, warp = "", record = "" } = hit.dataset;
  if (act === "show-warp") {
    if (await ctx.attempt(ctx.shell.showWarp(warp), "")) ctx.go("#/loom");
  } else if (act === "restore") {
    ctx.attempt(ctx.shell.restore(record), t("loom_warp_restored"));
  }
}

/** @param {Context} ctx @param {AbortSignal} signal */
export function offScreen(ctx, signal) {
  const element = h("div", { class: "page stack" });
  const click = (/** @type {Event} */ event) => {
    const hit = closestTarget(event, "[data-act]");
    if (hit) act(ctx, hit);
  };
  element.addEventListener("click", click, { signal });
  const update = (/** @type {AppView} */ view) => {
    const inState = (/** @type {string} */ wanted) => view.warps.filter(({ state }) => state === wanted);
    const removed = inState("removed");
    morphChildren(element, [
      h("h1", { tabindex: -1 }, t("off_the_loom")),
      cutOffWarps(inState("off_the_loom")),
      ...(removed.length > 0 ? [removedWarps(removed)] : []),
    ]);
  };
  update(ctx.view());
  return { element, update };
}
