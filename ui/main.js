// Which screen is open, and what reaches it: one view from the shell, shown anew after every change.

import { morphChildren, h, isTyping } from "./parts/dom/dom.js";
import { exportImportScreen } from "./parts/export-import/export-import.js";
import { folderScreen } from "./parts/folder/folder.js";
import { keepContextMenuToFields } from "./parts/frame/context-menu.js";
import { frame, notices, openScreens } from "./parts/frame/frame.js";
import { watchRoom } from "./parts/frame/room.js";
import { guideScreen } from "./parts/guide/guide.js";
import { loomScreen } from "./parts/loom/loom.js";
import { cutOffScreen, stepScreen } from "./parts/off-form/off-form.js";
import { offScreen } from "./parts/off-loom/off-loom.js";
import { readingLine } from "./parts/reading/reading.js";
import { planScreen } from "./parts/plan/plan.js";
import { paceScreen } from "./parts/pace/pace.js";
import { PhotoQueue } from "./parts/photos/queue.js";
import { correctScreen, finishScreen, logScreen } from "./parts/sitting-form/sitting-form.js";
import { measureScreen } from "./parts/measure/measure.js";
import { weavingSettingsScreen } from "./parts/weaving-settings/weaving-settings.js";
import { pressesWaiting } from "./parts/tap/presses.js";
import { tapScreen } from "./parts/tap/tap.js";
import { changeScreen } from "./parts/warp-form/warp-form.js";
import { yarnScreen } from "./parts/yarns/yarns.js";
import { clothPicture, welcomeScreen } from "./parts/welcome/welcome.js";
import { shell } from "./shell.js";
import { setMessages, t } from "./messages.js";

/** @typedef {import("./types.d.ts").AppView} AppView */
/** @typedef {{ element: HTMLElement, update: (view: AppView) => void, focus?: () => void }} Screen */
/**
 * What a screen may ask for.
 * @typedef {object} Context
 * @property {typeof shell} shell
 * @property {() => AppView} view the latest view
 * @property {(view: AppView) => void} show
 * @property {(running: import("./types.d.ts").RunningView) => void} applyTap what a press answered, newer than the view
 * @property {(route: string) => void} go
 * @property {() => void} toTop
 * @property {() => void} refresh
 * @property {(words: string) => void} notify shows a short notice for some seconds
 * @property {(title: string, lines: string[]) => void} showMessage shows a message until it is closed; no lines close it
 * @property {(refusal: unknown) => void} showError
 * @property {(change: Promise<AppView>, done: string) => Promise<boolean>} attempt
 * @property {import("./parts/photos/queue.js").PhotoQueue} photos
 */

/** @type {Record<string, (ctx: Context, signal: AbortSignal, param: string) => Screen | null>} */
const SCREENS = {
  loom: loomScreen,
  tap: tapScreen,
  "finish-sitting": finishScreen,
  log: logScreen,
  sitting: correctScreen,
  measure: measureScreen,
  "weaving-settings": weavingSettingsScreen,
  yarn: yarnScreen,
  plan: planScreen,
  change: changeScreen,
  off: offScreen,
  pace: paceScreen,
  "export-import": exportImportScreen,
  "cut-off": cutOffScreen,
  step: stepScreen,
  folder: folderScreen,
  guide: guideScreen,
  welcome: welcomeScreen,
};

const root = document.documentElement;
const head = /** @type {HTMLElement} */ (document.getElementById("frame"));
const main = /** @type {HTMLElement} */ (document.getElementById("screen"));
const notice = notices(/** @type {HTMLElement} */ (document.getElementById("notices")));

/** @type {AppView} */
let view;
/** @type {{ route: string, name: string, screen: Screen, end: AbortController } | null} */
let open = null;

/** @type {Context} */
const ctx = {
  shell,
  view: () => view,
  show,
  applyTap(running) {
    view = { ...view, running };
  },
  go(route) {
    if (location.hash === route) openScreen();
    else location.hash = route;
  },
  toTop() {
    window.scrollTo(0, 0);
    main.querySelector("h1")?.focus();
  },
  refresh() {
    shell.view().then(show, () => {
      // Only a refresh; the next one, or the next press, shows what is wrong.
    });
  },
  notify: (words) => notice.notify(words),
  showMessage: (title, lines) => notice.showMessage(title, lines),
  showError(refusal) {
    const { field, sentence } = /** @type {import("./types.d.ts").ErrorView} */ (refusal);
    // Stopping on purpose is no error.
    if (field === "stopped") notice.notify(sentence);
    else notice.showError(sentence);
  },
  async attempt(change, done) {
    try {
      show(await change);
      notice.clear();
      if (done) notice.notify(done);
      return true;
    } catch (refusal) {
      ctx.showError(refusal);
      return false;
    }
  },
  photos: new PhotoQueue({
    place: /** @type {HTMLElement} */ (document.getElementById("photo-progress")),
    save: async (sitting, file) => show(await shell.addPhoto(sitting, file)),
    announce: (words) => notice.notify(words),
  }),
};

/** What had the keys before the screen was held. @type {Element | null} */
let hadFocus = null;
/** Keeps keys and pointer from the screen while a folder is read. @param {boolean} held */
function holdScreen(held) {
  if (held) {
    hadFocus = document.activeElement;
    // At the start there is nothing else yet.
    if (!open) main.replaceChildren(h("div", { class: "welcome" }, clothPicture(), h("h1", null, t("product_name"))));
  }
  for (const part of [head, main]) part.inert = held;
  if (!held && hadFocus instanceof HTMLElement && document.activeElement === document.body) hadFocus.focus();
}

/** The screen an address means, given what there is. */
function wanted() {
  const [, name = "", param = ""] = location.hash.split("/");
  if (name === "guide") return { name, param };
  if (!view.folder) return { name: "welcome", param: "" };
  const screens = openScreens(view);
  if (name === "tap" || name === "finish-sitting") {
    if (view.running || pressesWaiting() > 0 || (name === "tap" && view.loom?.state === "on_the_loom"))
      return { name, param };
  } else if (["log", "change", "sitting", "cut-off", "step", "measure", "weaving-settings", "yarn"].includes(name)) {
    if (view.loom) return { name, param };
  } else if (name === "loom" ? view.loom : name === "export-import" || screens.includes(name)) {
    return { name, param };
  }
  return { name: screens[0] === "plan" && view.loom ? "loom" : screens[0], param: "" };
}

/** The entry of the navigation that a screen belongs to. @param {string} name */
function headingOf(name) {
  if (name === "export-import" || name === "guide") return "folder";
  if (!["loom", "log", "change", "sitting", "cut-off", "step", "measure", "weaving-settings", "yarn"].includes(name))
    return name;
  const state = view.loom?.state;
  return state === "off_the_loom" || state === "removed" ? "off" : "loom";
}

function openScreen() {
  const { name, param } = wanted();
  const route = `${name}/${param}`;
  const first = open === null;
  open?.end.abort();
  const end = new AbortController();
  const screen = SCREENS[name](ctx, end.signal, param);
  if (!screen) {
    end.abort();
    open = null;
    location.replace("#/loom");
    return;
  }
  open = { route, name, screen, end };
  root.dataset.screen = name;
  main.replaceChildren(screen.element);
  showFrame();
  notice.screenOpened();
  const title = main.querySelector("h1")?.textContent ?? "";
  document.title = title === t("product_name") ? title : `${title} · ${t("product_name")}`;
  window.scrollTo(0, 0);
  if (screen.focus) screen.focus();
  else if (!first) main.querySelector("h1")?.focus();
}

function showFrame() {
  morphChildren(head, frame(view, open ? headingOf(open.name) : ""));
}

/** @param {AppView} next */
function show(next) {
  const running = view?.running;
  // A view that was made before a press may arrive after the press was answered.
  const isOlder = running && next.running?.sitting === running.sitting && next.running.taps < running.taps;
  view = isOlder ? { ...next, running } : next;
  if (!open) return;
  const { name, param } = wanted();
  // The open screen stays, unless there is nothing left for it to show.
  if (`${name}/${param}` !== open.route) {
    openScreen();
    return;
  }
  const focused = document.activeElement;
  const section = focused?.closest("section");
  open.screen.update(view);
  showFrame();
  // What was pressed may have been removed by the change: the focus moves to the start of its section, else to the title.
  if (focused && !focused.isConnected) {
    const near = section?.isConnected ? section.querySelector("a[href], button, summary") : null;
    const next = /** @type {HTMLElement | null} */ (near ?? main.querySelector("h1"));
    next?.focus({ preventScroll: true });
  }
}

async function undo() {
  if (!view.undo) return;
  /** @type {string | null} */
  let note = null;
  const change = shell.undo().then(([next, words]) => {
    note = words;
    return next;
  });
  if (!(await ctx.attempt(change, ""))) return;
  // It is shown in one place: the notice of the action itself is cleared.
  ctx.notify(note ? "" : t("undone"));
  ctx.showMessage(t("undone"), note ? [note] : []);
}

head.addEventListener("click", async (event) => {
  const hit = /** @type {HTMLElement | null} */ (
    /** @type {Element} */ (event.target).closest("[data-act], [data-part]")
  );
  if (hit?.dataset.act === "undo") undo();
  else if (hit?.dataset.act === "leave-example") ctx.attempt(shell.closeFolder(), "");
  else if (hit?.dataset.part === "nav-loom") {
    // "On the loom" is the warp in hand, not the finished one that was looked at last.
    const state = view.loom?.state;
    const current = view.warps.find((warp) => warp.state === "on_the_loom" || warp.state === "resting");
    if (current && (state === "off_the_loom" || state === "removed")) {
      event.preventDefault();
      if (await ctx.attempt(shell.showWarp(current.id), "")) ctx.go("#/loom");
    }
  }
});
document.addEventListener("keydown", (event) => {
  if (
    (event.ctrlKey || event.metaKey) &&
    !event.shiftKey &&
    !event.altKey &&
    event.key.toLowerCase() === "z" &&
    !isTyping(event.target)
  ) {
    event.preventDefault();
    undo();
  }
});
const skip = /** @type {HTMLElement} */ (document.getElementById("skip"));
skip.addEventListener("click", () => main.focus());
keepContextMenuToFields(document);
// What is dropped beside a place for photos must not open in the window.
for (const kind of ["dragover", "drop"]) window.addEventListener(kind, (event) => event.preventDefault());
window.addEventListener("hashchange", openScreen);

async function start() {
  watchRoom();
  try {
    setMessages(await shell.interfaceMessages());
    skip.textContent = t("skip_to_content");
    await shell.onView((next) => show(next));
    const place = /** @type {HTMLElement} */ (document.getElementById("reading"));
    await shell.onReading(readingLine({ place, stop: () => shell.stopReading(), hold: holdScreen }));
    view = await shell.view();
    openScreen();
  } catch (refusal) {
    main.replaceChildren(
      h("h1", null, t("product_name")),
      h(
        "p",
        { class: "trouble", role: "alert" },
        /** @type {{ sentence: string }} */ (refusal).sentence ?? t("trouble_unknown"),
      ),
    );
  }
  root.dataset.ready = "yes";
}

start();
