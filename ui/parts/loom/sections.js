// Head, actions and list of warps around a warp.

import { button, h } from "../dom/dom.js";
import { t } from "../../messages.js";

/** @typedef {import("../../types.d.ts").AppView} AppView */
/** @typedef {import("../../types.d.ts").LoomView} LoomView */
/** @typedef {import("../../types.d.ts").WarpLine} WarpLine */

const STATES = /** @type {const} */ ({
  on_the_loom: "loom_state_on_the_loom",
  resting: "loom_state_resting",
  off_the_loom: "loom_state_off_the_loom",
  removed: "loom_state_removed",
});

/** Name and state of the warp. @param {LoomView} loom @param {AppView} view */
export function head(loom, view) {
  return h(
    "div",
    { class: "loom-head", "data-key": "head" },
    h(
      "div",
      null,
      h("h1", { tabindex: -1, "data-part": "warp-name" }, loom.name),
      h(
        "p",
        { class: loom.state === "on_the_loom" ? "hidden-words" : "quiet", "data-part": "warp-state" },
        t(STATES[loom.state]),
      ),
    ),
    weavingLinks(loom, view),
  );
}

/** Starting, continuing and finishing a sitting. @param {LoomView} loom @param {AppView} view */
function weavingLinks(loom, view) {
  const { running } = view;
  if (running && running.warp === loom.id) {
    return h(
      "div",
      { class: "to-loom", "data-key": "to-loom", "data-part": "running" },
      h("p", null, t("loom_sitting_running", { since: running.since })),
      h(
        "div",
        { class: "to-loom-bar row" },
        h("a", { class: "primary", href: "#/tap", "data-part": "continue-weaving" }, t("loom_continue_weaving")),
        h("a", { class: "button", href: "#/finish-sitting", "data-part": "finish-sitting" }, t("loom_stop_weaving")),
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
      h("a", { class: "primary", href: "#/tap", "data-part": "start-weaving" }, t("loom_start_weaving")),
    ),
  );
}

/** What can be done with the warp as a whole. @param {LoomView} loom */
export function actions(loom) {
  const state = (/** @type {string} */ to, /** @type {string} */ words) =>
    button("set-state", words, { class: "button", "data-state": to, "data-key": "to-state" });
  if (loom.state === "removed") {
    return h(
      "section",
      { class: "actions no-print", "data-key": "actions", "aria-label": t("loom_this_warp") },
      h("p", null, t("loom_removed_note")),
      button("restore-warp", t("restore"), { class: "button" }),
    );
  }
  return h(
    "section",
    { class: "actions no-print", "data-key": "actions", "aria-labelledby": "actions-title" },
    h("h2", { id: "actions-title" }, t("loom_this_warp")),
    h(
      "div",
      { class: "row" },
      h("a", { class: "button", href: "#/change", "data-part": "change" }, t("loom_change_warp")),
      loom.state === "on_the_loom" && state("resting", t("loom_set_aside")),
      loom.state === "resting" && state("on_the_loom", t("loom_bring_back")),
      loom.state !== "off_the_loom" &&
        h("a", { class: "button", href: "#/cut-off", "data-part": "cut-off" }, t("loom_cut_off")),
      loom.state === "off_the_loom" && state("on_the_loom", t("loom_bring_back")),
      button("print", t("loom_print"), { class: "button" }),
      button("remove-warp", t("loom_remove_warp"), { class: "link" }),
    ),
  );
}

/** The warps to choose from, when more than the one shown is in hand. @param {AppView} view @param {string} shown */
export function otherWarps(view, shown) {
  const current = view.warps.filter(({ state }) => state === "on_the_loom" || state === "resting");
  if (current.length === 0 || (current.length === 1 && current[0].id === shown)) return null;
  return h(
    "section",
    { class: "warps no-print", "aria-labelledby": "warps-title", "data-key": "warps" },
    h("h2", { id: "warps-title" }, t("loom_warps")),
    h(
      "ul",
      { "data-part": "warps" },
      current.map((warp) => h("li", { "data-key": warp.id }, warpButton(warp, warp.id === shown))),
    ),
  );
}

/** @param {WarpLine} warp @param {boolean} isShown */
function warpButton(warp, isShown) {
  return h(
    "button",
    {
      type: "button",
      class: "warp-line",
      "data-act": "show-warp",
      "data-warp": warp.id,
      "aria-current": isShown ? "true" : null,
    },
    h("strong", null, warp.name),
    h("span", { class: "small quiet" }, warp.line || t(STATES[warp.state])),
    warp.conflicts > 0 && h("span", { class: "small" }, t("loom_conflicts", { count: warp.conflicts })),
  );
}
