// At the loom. Above the fell lies the open warp with what comes next, below it the cloth with what is done; the whole of it
// takes a pick. Presses are shown at once and written one after another, none is dropped.

import { h, s } from "../dom/dom.js";
import { L } from "../../texts/at-loom.js";
import { T } from "../../texts/texts.js";
import { shedDrawing } from "../shed/shed.js";
import { screenAwake } from "./awake.js";
import { bound, meaning } from "./keys.js";
import { once } from "./once.js";
import { isLoud, ticker } from "./tick.js";

/** @typedef {import("../../types.d.ts").RunningView} RunningView */
/** @typedef {import("../../types.d.ts").LoomView} LoomView */
/** @typedef {import("../../types.d.ts").PlaceView} PlaceView */

const LOOK_EVERY = 20_000;

/** Presses that wait to be written, kept while the window lives, whatever screen is open. @type {(1 | -1)[]} */
const waiting = [];
/** @type {Promise<void>} */
let writing = Promise.resolve();

/**
 * The sitting as it will stand when all presses that wait are written, as the shell told beforehand; nothing when it did not tell
 * so far ahead. What it answers then takes its place.
 * @param {RunningView | null} running @param {LoomView | null} loom @returns {RunningView | null}
 */
function withWaiting(running, loom) {
  if (waiting.length === 0) return running;
  const told = running?.around ?? loom?.around ?? [];
  const perTap = running?.picks_per_tap ?? loom?.picks_per_tap ?? 1;
  const picks = (running?.picks ?? 0) + waiting.reduce((/** @type {number} */ sum, by) => sum + by, 0) * perTap;
  const then = picks === running?.picks ? running : told.find((press) => press.picks === picks);
  if (!then) return null;
  const first = {
    warp: loom?.id ?? "",
    sitting: "",
    taps: 0,
    minutes: 0,
    since: "",
    picks_per_tap: perTap,
    stretch: null,
    half: null,
    around: told,
  };
  return {
    ...(running ?? first),
    picks,
    picks_in_all: then.picks_in_all,
    place: then.place,
    paused: false,
    begun: false,
  };
}

/** Whether presses wait to be written. */
export function pressesWait() {
  return waiting.length > 0;
}

/** Resolves when every press is written, or one was refused. @param {import("../../main.js").Context} ctx */
export function allWritten(ctx) {
  write(
    ctx,
    () => {},
    () => {},
  );
  return writing;
}

/**
 * @param {import("../../main.js").Context} ctx
 * @param {(running: RunningView) => void} written
 * @param {(sentence: string) => void} refused
 */
function write(ctx, written, refused) {
  writing = writing.then(async () => {
    while (waiting.length > 0) {
      try {
        const running = await ctx.shell.tap(waiting[0]);
        waiting.shift();
        ctx.ran(running);
        written(running);
      } catch (refusal) {
        refused(/** @type {{ sentence: string }} */ (refusal).sentence);
        return;
      }
    }
  });
}

/** @param {import("../../main.js").Context} ctx @param {AbortSignal} signal */
export function tapScreen(ctx, signal) {
  const count = h("span", { class: "tap-count", "data-part": "tap-count" });
  const unit = h("span", { class: "tap-unit" });
  const inAll = h("span", { "data-part": "tap-in-all" });
  const minutes = h("span", { "data-part": "tap-minutes" });
  const next = h("p", { class: "tap-next", "data-part": "tap-next" });
  const place = h("p", { class: "tap-place", "data-part": "tap-place" });
  const beads = h("div", { class: "tap-beads", "aria-hidden": "true" });
  const how = h("p", { class: "tap-how" }, T.tap.how);
  const last = h("p", { class: "tap-last", "data-part": "tap-last" });
  const shed = h("div", { class: "tap-shed" });
  const said = h("p", { class: "hidden-words", "aria-live": "polite", "data-part": "tap-said" });
  const surface = h("button", {
    type: "button",
    class: "tap-surface",
    id: "tap",
    "data-part": "tap",
    "aria-label": T.tap.surface,
  });
  const stretch = h("div", { class: "tap-stretch", role: "status", hidden: true, "data-part": "stretch" });
  const half = h("div", { class: "tap-stretch", role: "status", hidden: true, "data-part": "tap-half" });
  const dark = h("p", { class: "tap-dark", role: "status", hidden: true, "data-part": "tap-dark" }, L.dark);
  const trouble = h("div", { class: "tap-trouble", role: "alert", hidden: true, "data-part": "tap-trouble" });
  const then = h("p", { class: "tap-then", "data-part": "tap-then" });
  const begunSign = h("p", { class: "tap-begun", "data-part": "tap-begun", hidden: true }, L.begunNow);
  const warning = h("div", { class: "tap-warning", role: "status", hidden: true, "data-part": "tap-warning" });
  const due = h("div", { class: "tap-due", role: "status", hidden: true, "data-part": "tap-due" });
  const begun = h(
    "button",
    { type: "button", class: "tap-side", "data-part": "tap-begin", "aria-pressed": "false" },
    L.begun,
  );
  const windOn = h("a", { class: "tap-side", href: "#/measure/advance", "data-part": "tap-wind-on" }, L.windOn);
  const back = h(
    "button",
    { type: "button", class: "tap-side", "data-part": "tap-back" },
    s("svg", { viewBox: "0 0 24 24", "aria-hidden": "true" }, s("path", { d: "M4 12h16" })),
    h("span", null, T.tap.back),
  );
  const getUp = h("a", { class: "tap-side strong", href: "#/get-up", "data-part": "tap-get-up" }, T.tap.getUp);
  const cloth = h("div", { class: "tap-cloth", "aria-hidden": "true" });
  const element = h(
    "div",
    { class: "tap" },
    h(
      "div",
      { class: "tap-top" },
      h("a", { class: "tap-quiet", href: "#/loom", "data-part": "tap-answers" }, T.tap.answers),
      h("h1", { class: "tap-name", tabindex: -1 }, T.tap.title),
      minutes,
      h("a", { class: "tap-quiet", href: "#/more", "data-part": "tap-more" }, L.more),
      dark,
    ),
    h(
      "div",
      { class: "tap-field" },
      h(
        "div",
        { class: "tap-open" },
        stretch,
        half,
        trouble,
        warning,
        due,
        shed,
        begunSign,
        next,
        then,
        beads,
        place,
        how,
      ),
      h("div", { class: "tap-fell", "aria-hidden": "true" }),
      h(
        "div",
        { class: "tap-woven" },
        cloth,
        h("p", { class: "tap-counted" }, count, " ", unit),
        h("p", { class: "tap-all" }, inAll),
        last,
      ),
      surface,
    ),
    h("div", { class: "tap-bottom" }, back, begun, windOn, getUp),
    said,
  );

  const loud = isLoud();
  const tick = ticker();
  const keys = bound();
  const awake = screenAwake(ctx, signal, dark);
  const showStretch = once(stretch, "stretch-done", T.tap.stretchSeen, surface, signal);
  const showHalf = once(half, "tap-half-seen", L.half, surface, signal);

  /** @param {import("../../types.d.ts").PlaceDue | null} what */
  const showDue = (what) => {
    due.hidden = !what;
    if (!what) {
      due.replaceChildren();
      return;
    }
    if (due.dataset.words === what.sentence + what.words && due.childElementCount > 0) return;
    due.dataset.words = what.sentence + what.words;
    const go = h("button", { type: "button", class: "tap-quiet", "data-part": "tap-due-go" }, what.words);
    go.addEventListener(
      "click",
      async () => {
        const warp = ctx.view().running?.warp ?? ctx.view().loom?.id ?? "";
        await allWritten(ctx);
        if (await ctx.attempt(ctx.shell.setPlace(warp, what.to), "")) said.textContent = L.placeSet;
        surface.focus();
      },
      { signal },
    );
    due.replaceChildren(h("p", null, what.sentence), go);
  };

  /** @param {PlaceView | null} at */
  const showPlace = (at) => {
    element.classList.toggle("placeless", !at);
    // Where it must break, it breaks between heddle and stick.
    const words = (at ? at.next : T.tap.noPlace).split(/(?<=,) /).filter(Boolean);
    next.replaceChildren(...words.flatMap((part, which) => [which > 0 ? " " : "", h("span", null, part)]));
    how.hidden = ctx.view().running !== null;
    const there = [at?.piece, at?.place].filter(Boolean).join(", ");
    place.textContent = [there, at?.left].filter(Boolean).join(" · ");
    then.textContent = at?.then ? L.then(at.then) : "";
    warning.hidden = !at?.warning;
    if (warning.textContent !== (at?.warning ?? "")) warning.textContent = at?.warning ?? "";
    showDue(at?.due ?? null);
    last.textContent = at?.last ? T.tap.last(at.last) : "";
    const drawing = at && (at.heddle || at.stick) ? shedDrawing(at.heddle, at.stick) : null;
    shed.replaceChildren(...(drawing ? [drawing] : []));
    const rows = at && at.rows > 1 && at.rows <= 40 ? at.rows : 0;
    if (beads.childElementCount !== rows) beads.replaceChildren(...Array.from({ length: rows }, () => h("i")));
    [...beads.children].forEach((bead, row) => {
      bead.className = at && row + 1 < at.row ? "done" : at && row + 1 === at.row ? "now" : "";
    });
  };

  /** @param {RunningView | null} running */
  const show = (running) => {
    const loom = ctx.view().loom;
    count.textContent = String(running?.picks ?? 0).replace("-", "\u2212");
    unit.textContent = T.tap.picks(running?.picks ?? 0);
    inAll.textContent = running ? T.tap.inAll(running.picks_in_all) : loom ? T.tap.inAll(loom.figures.picks) : "";
    minutes.classList.toggle("tap-first", !running);
    minutes.textContent = running
      ? [T.tap.minutes(Math.floor(running.minutes)), running.paused ? T.tap.paused : ""].filter(Boolean).join(", ")
      : T.tap.first;
    showPlace(running ? running.place : (loom?.place ?? null));
    const within = running ? running.begun : (loom?.place?.begun ?? false);
    begun.setAttribute("aria-pressed", String(within));
    begunSign.hidden = !within;
    element.classList.toggle("within", within);
    element.classList.toggle("by-two", (running?.picks_per_tap ?? loom?.picks_per_tap ?? 1) === 2);
    showStretch(running?.stretch ?? null);
    showHalf(running?.half ?? null);
  };

  /** Brings up what is written; only then may the screen be kept awake for it. */
  const showWritten = () => {
    const { running } = ctx.view();
    show(running);
    awake.follow(running !== null && !running.paused);
  };

  /** What is known, the presses that wait counted in as far as the shell told ahead. */
  const showAhead = () => {
    const { running, loom } = ctx.view();
    const ahead = withWaiting(running, loom);
    if (ahead) show(ahead);
  };

  /** @param {RunningView} running */
  const written = (running) => {
    trouble.hidden = true;
    if (waiting.length > 0) showAhead();
    else showWritten();
    // Said when it is written, not when it is shown.
    said.textContent = T.tap.said(running.picks, running.place?.next ?? "");
  };
  /** @param {string} sentence */
  const refused = (sentence) => {
    const again = h("button", { type: "button", class: "tap-quiet", "data-part": "tap-retry" }, T.tap.retry);
    again.addEventListener("click", () => write(ctx, written, refused), { signal });
    trouble.replaceChildren(h("p", null, sentence), h("p", null, T.tap.waiting(waiting.length)), again);
    trouble.hidden = false;
  };

  /** @param {1 | -1} by */
  const press = (by) => {
    waiting.push(by);
    ctx.tell("", []);
    write(ctx, written, refused);
    // The cloth, the count and what comes next are seen at once; were it not written, that is said.
    element.classList.toggle("one-thread");
    showAhead();
    awake.pressed();
    if (loud) tick();
  };

  surface.addEventListener(
    "pointerdown",
    (event) => {
      if (event.button === 0) press(1);
    },
    { signal },
  );
  surface.addEventListener(
    "click",
    (event) => {
      // A click without a press before it comes from a screen reader or a switch.
      if (event.detail === 0) press(1);
    },
    { signal },
  );
  surface.addEventListener("contextmenu", (event) => event.preventDefault(), { signal });

  /** @param {HTMLElement} control @param {() => void} act */
  const onControl = (control, act) =>
    control.addEventListener(
      "click",
      (event) => {
        act();
        // After a finger or a mouse the keys belong to the surface again.
        if (event.detail > 0) surface.focus();
      },
      { signal },
    );
  onControl(back, () => press(-1));
  getUp.addEventListener(
    "click",
    (event) => {
      if (event.detail > 0) return;
      event.preventDefault();
      ctx.go("#/get-up/keys");
    },
    { signal },
  );
  const toggleBegun = async () => {
    const within = begun.getAttribute("aria-pressed") !== "true";
    await allWritten(ctx);
    try {
      const running = await ctx.shell.setPickBegun(within);
      ctx.ran(running);
      showWritten();
      said.textContent = within ? L.begunNow : "";
    } catch (refusal) {
      refused(/** @type {{ sentence: string }} */ (refusal).sentence);
    }
  };
  onControl(begun, toggleBegun);

  document.addEventListener(
    "keydown",
    (event) => {
      if (event.ctrlKey || event.metaKey || event.altKey || event.isComposing) return;
      const control = /** @type {Element} */ (event.target).closest?.("a, button");
      const aimed = control && control !== surface && (event.key === "Enter" || event.key === " ");
      if (aimed) return;
      if (event.key === "Escape") {
        event.preventDefault();
        if (!event.repeat) toggleBegun();
        return;
      }
      const by = meaning(event, keys);
      // The surface is a button: a key that is not hers must not press it.
      if (by !== 0 || (control === surface && (event.key === "Enter" || event.key === " "))) event.preventDefault();
      // A key held down, or a pedal that rattles, is one pick.
      if (by === 0 || event.repeat) return;
      press(by);
    },
    { signal },
  );
  // Space is answered when it goes down; the click that would follow it must not count again.
  surface.addEventListener(
    "keyup",
    (event) => {
      if (event.key === " ") event.preventDefault();
    },
    { signal },
  );

  const looking = setInterval(() => {
    if (document.visibilityState === "visible" && waiting.length === 0 && ctx.view().running) ctx.refresh();
  }, LOOK_EVERY);
  signal.addEventListener("abort", () => clearInterval(looking));
  showWritten();
  if (waiting.length > 0) {
    showAhead();
    write(ctx, written, refused);
  }

  return {
    element,
    focus: () => surface.focus(),
    update: () => {
      // What a press answers is newer than a view that was made before it.
      if (waiting.length === 0) showWritten();
    },
  };
}
