// What stays around the screens: the name, the way between screens, the folder's one line, undo, and what was just said.

import { button, h } from "../dom/dom.js";
import { t } from "../../messages.js";

/** @typedef {import("../../types.d.ts").AppView} AppView */

const TITLES = /** @type {const} */ ({
  loom: "on_the_loom",
  plan: "plan",
  off: "off_the_loom",
  pace: "pace",
  folder: "folder",
});

/** The screens that have something to show. @param {AppView} view */
export function openScreens(view) {
  const inHand = view.warps.some(({ state }) => state === "on_the_loom" || state === "resting");
  const away = view.warps.some(({ state }) => state === "off_the_loom" || state === "removed");
  return [
    ...(inHand ? ["loom"] : []),
    "plan",
    ...(away ? ["off"] : []),
    ...(view.warps.length > 0 ? ["pace"] : []),
    "folder",
  ];
}

/** @param {AppView} view @param {string} here */
export function frame(view, here) {
  const { folder } = view;
  if (!folder) return [];
  const screens = openScreens(view);
  return [
    h("p", { class: "frame-name", "data-key": "name" }, t("product_name")),
    h(
      "nav",
      { class: "frame-nav", "aria-label": t("screens"), "data-key": "nav" },
      h(
        "ul",
        null,
        screens.map((screen) =>
          h(
            "li",
            { "data-key": screen },
            h(
              "a",
              { href: `#/${screen}`, "data-part": `nav-${screen}`, "aria-current": screen === here ? "page" : null },
              t(TITLES[/** @type {keyof typeof TITLES} */ (screen)]),
            ),
          ),
        ),
      ),
    ),
    h(
      "div",
      { class: "frame-line", "data-key": "line" },
      h(
        "a",
        { class: folder.attention ? "frame-sync attention" : "frame-sync", href: "#/folder", "data-part": "sync-line" },
        h("span", { class: "hidden-words" }, `${t("folder_state")} `),
        folder.line,
      ),
      view.undo &&
        button("undo", t("undo", { action: view.undo }), {
          class: "frame-undo link",
          "data-part": "undo",
          "data-key": "undo",
        }),
    ),
    folder.example &&
      h(
        "div",
        { class: "frame-example", "data-key": "example", "data-part": "example" },
        h("p", null, t("sample_data")),
        button("leave-example", t("close_sample"), { class: "link" }),
      ),
  ].filter((part) => part instanceof Node);
}

/** The keys of what was closed go on at the screen: at the loom to what takes the picks. */
function backToTheScreen() {
  const next = document.getElementById("tap") ?? document.querySelector("main h1");
  if (next instanceof HTMLElement) next.focus({ preventScroll: true });
}

/** @param {HTMLElement} place */
export function notices(place) {
  const status = h("p", { role: "status", class: "notice-said", "data-part": "notice" });
  const alert = h("div", { class: "notice-trouble", "data-part": "trouble" });
  const told = h("div", { role: "status", class: "notice-told", "data-part": "told" });
  place.append(status, told, alert);
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  let fading;
  // What was said belongs to what she did last, also where that led to another screen; with her next step away from there it goes.
  let isOfLastDeed = false;
  for (const deed of ["pointerdown", "keydown", "click"]) {
    document.addEventListener(deed, () => (isOfLastDeed = false), { capture: true });
  }
  const hush = () => {
    clearTimeout(fading);
    status.textContent = "";
  };
  return {
    /** @param {string} words */
    say(words) {
      clearTimeout(fading);
      status.textContent = words;
      isOfLastDeed = true;
      fading = setTimeout(hush, 6000);
    },
    /** Another screen is open. */
    moved() {
      if (!isOfLastDeed) hush();
      alert.replaceChildren();
    },
    /** What she should read at her own pace: it stays until she closes it. @param {string} title @param {string[]} lines */
    tell(title, lines) {
      if (lines.length === 0) {
        told.replaceChildren();
        return;
      }
      const close = h("button", { type: "button", class: "link", "data-part": "told-close" }, t("close"));
      close.addEventListener("click", () => {
        told.replaceChildren();
        backToTheScreen();
      });
      const words = lines.map((line) => h("p", null, line));
      told.replaceChildren(h("div", null, h("p", { class: "small quiet" }, title), words), close);
    },
    /** @param {string} sentence */
    complain(sentence) {
      const close = h("button", { type: "button", class: "link", "data-part": "trouble-close" }, t("close"));
      close.addEventListener("click", () => {
        alert.replaceChildren();
        backToTheScreen();
      });
      alert.replaceChildren(h("p", { role: "alert" }, sentence), close);
    },
    clear() {
      alert.replaceChildren();
    },
  };
}
