// What stays around the screens: the name, the navigation, the folder's line, undo, and notices.

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
  const current = view.warps.some(({ state }) => state === "on_the_loom" || state === "resting");
  const away = view.warps.some(({ state }) => state === "off_the_loom" || state === "removed");
  return [
    ...(current ? ["loom"] : []),
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

/** Moves the focus from a closed notice to the screen: while weaving to what counts the picks. */
function focusScreen() {
  const next = document.getElementById("tap") ?? document.querySelector("main h1");
  if (next instanceof HTMLElement) next.focus({ preventScroll: true });
}

/** @param {HTMLElement} place */
export function notices(place) {
  const status = h("p", { role: "status", class: "notice-status", "data-part": "notice" });
  const alert = h("div", { class: "notice-trouble", "data-part": "trouble" });
  const message = h("div", { role: "status", class: "notice-message", "data-part": "message" });
  place.append(status, message, alert);
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  let fading;
  // A notice belongs to the latest action, also where that opened another screen; it is cleared when the next action does.
  let isOfLatestAction = false;
  for (const kind of ["pointerdown", "keydown", "click"]) {
    document.addEventListener(kind, () => (isOfLatestAction = false), { capture: true });
  }
  const clearStatus = () => {
    clearTimeout(fading);
    status.textContent = "";
  };
  return {
    /** @param {string} words */
    notify(words) {
      clearTimeout(fading);
      status.textContent = words;
      isOfLatestAction = true;
      fading = setTimeout(clearStatus, 6000);
    },
    /** Another screen is open. */
    screenOpened() {
      if (!isOfLatestAction) clearStatus();
      alert.replaceChildren();
    },
    /** Shows a message that stays until it is closed; no lines close it. @param {string} title @param {string[]} lines */
    showMessage(title, lines) {
      if (lines.length === 0) {
        message.replaceChildren();
        return;
      }
      const close = h("button", { type: "button", class: "link", "data-part": "message-close" }, t("close"));
      close.addEventListener("click", () => {
        message.replaceChildren();
        focusScreen();
      });
      const words = lines.map((line) => h("p", null, line));
      message.replaceChildren(h("div", null, h("p", { class: "small quiet" }, title), words), close);
    },
    /** @param {string} sentence */
    showError(sentence) {
      const close = h("button", { type: "button", class: "link", "data-part": "trouble-close" }, t("close"));
      close.addEventListener("click", () => {
        alert.replaceChildren();
        focusScreen();
      });
      alert.replaceChildren(h("p", { role: "alert" }, sentence), close);
    },
    clear() {
      alert.replaceChildren();
    },
  };
}
