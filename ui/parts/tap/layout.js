// The elements of the weaving screen: above the fell the open warp with what comes next, below it the cloth with what is done.

import { h, s } from "../dom/dom.js";
import { t } from "../../messages.js";

/** A message over the open warp, hidden until there is one. @param {string} part @param {string} look */
function message(part, look = "tap-stretch") {
  return h("div", { class: look, role: "status", hidden: true, "data-part": part });
}

/** The parts of the warp above the fell. */
function openWarp() {
  return {
    stretch: message("stretch"),
    half: message("tap-half"),
    trouble: h("div", { class: "tap-trouble", role: "alert", hidden: true, "data-part": "tap-trouble" }),
    warning: message("tap-warning", "tap-warning"),
    due: message("tap-due", "tap-due"),
    shed: h("div", { class: "tap-shed" }),
    begunSign: h("p", { class: "tap-begun", "data-part": "tap-begun", hidden: true }, t("tap_not_beaten_sign")),
    next: h("p", { class: "tap-next", "data-part": "tap-next" }),
    then: h("p", { class: "tap-then", "data-part": "tap-then" }),
    beads: h("div", { class: "tap-beads", "aria-hidden": "true" }),
    place: h("p", { class: "tap-place", "data-part": "tap-place" }),
    how: h("p", { class: "tap-how" }, t("tap_how")),
  };
}

/** The parts of the cloth below the fell. */
function wovenCloth() {
  return {
    count: h("span", { class: "tap-count", "data-part": "tap-count" }),
    unit: h("span", { class: "tap-unit" }),
    inAll: h("span", { "data-part": "tap-in-all" }),
    last: h("p", { class: "tap-last", "data-part": "tap-last" }),
  };
}

/** The controls, within reach of the thumb. */
function controls() {
  const side = (/** @type {string} */ part) => ({ type: "button", class: "tap-side", "data-part": part });
  return {
    back: h(
      "button",
      side("tap-back"),
      s("svg", { viewBox: "0 0 24 24", "aria-hidden": "true" }, s("path", { d: "M4 12h16" })),
      h("span", null, t("tap_undo_pick")),
    ),
    begun: h("button", { ...side("tap-begin"), "aria-pressed": "false" }, t("tap_not_beaten")),
    windOn: h("a", { class: "tap-side", href: "#/measure/advance", "data-part": "tap-wind-on" }, t("tap_advance")),
    finish: h(
      "a",
      { class: "tap-side strong", href: "#/finish-sitting", "data-part": "tap-finish" },
      t("loom_stop_weaving"),
    ),
  };
}

/** @typedef {ReturnType<typeof tapLayout>} TapLayout */

export function tapLayout() {
  const open = openWarp();
  const woven = wovenCloth();
  const control = controls();
  const minutes = h("span", { "data-part": "tap-minutes" });
  const pause = h("button", { type: "button", class: "tap-quiet", hidden: true, "data-part": "tap-pause" });
  const dark = h(
    "p",
    { class: "tap-dark", role: "status", hidden: true, "data-part": "tap-dark" },
    t("tap_screen_may_turn_off"),
  );
  const announcement = h("p", { class: "hidden-words", "aria-live": "polite", "data-part": "tap-announcement" });
  const surface = h("button", {
    type: "button",
    class: "tap-surface",
    id: "tap",
    "data-part": "tap",
    "aria-label": t("tap_surface"),
  });
  const top = h(
    "div",
    { class: "tap-top" },
    h("a", { class: "tap-quiet", href: "#/loom", "data-part": "tap-answers" }, t("answers")),
    h("h1", { class: "tap-name", tabindex: -1 }, t("tap_title")),
    h("span", { class: "tap-timer" }, minutes, pause),
    h("a", { class: "tap-quiet", href: "#/weaving-settings", "data-part": "tap-settings" }, t("tap_more")),
    dark,
  );
  const cloth = h(
    "div",
    { class: "tap-woven" },
    h("div", { class: "tap-cloth", "aria-hidden": "true" }),
    h("p", { class: "tap-counted" }, woven.count, " ", woven.unit),
    h("p", { class: "tap-all" }, woven.inAll),
    woven.last,
  );
  const field = h(
    "div",
    { class: "tap-field" },
    h("div", { class: "tap-open" }, Object.values(open)),
    h("div", { class: "tap-fell", "aria-hidden": "true" }),
    cloth,
    surface,
  );
  const element = h(
    "div",
    { class: "tap" },
    top,
    field,
    h("div", { class: "tap-bottom" }, Object.values(control)),
    announcement,
  );
  return { element, ...open, ...woven, ...control, minutes, pause, dark, announcement, surface };
}
