// At the loom. Above the fell lies the open warp with what comes next, below it the cloth with what is done; the whole of it
// takes a pick. Presses are shown at once and written one after another, none is dropped.

import { h, s } from "../dom/dom.js";
import { T } from "../../texts/texts.js";
import { shedDrawing } from "../shed/shed.js";

/** @typedef {import("../../types.d.ts").RunningView} RunningView */
/** @typedef {import("../../types.d.ts").PlaceView} PlaceView */

const SOUND = "fellmark.tick";
const NAMED_KEYS = new Set([
  "Enter",
  "ArrowLeft",
  "ArrowRight",
  "ArrowUp",
  "ArrowDown",
  "PageUp",
  "PageDown",
  "Home",
  "End",
  "Insert",
  "MediaPlayPause",
  "MediaTrackNext",
  "MediaTrackPrevious",
]);
const BACK_KEYS = new Set(["Backspace", "Delete", "-", "−"]);
const LOOK_EVERY = 20_000;

/** Presses that wait to be written, kept while the window lives, whatever screen is open. @type {(1 | -1)[]} */
const waiting = [];
/** @type {Promise<void>} */
let writing = Promise.resolve();

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

/** A short dry tick. */
function ticker() {
  /** @type {AudioContext | null} */
  let audio = null;
  return () => {
    audio ??= new AudioContext();
    const tone = audio.createOscillator();
    const volume = audio.createGain();
    const now = audio.currentTime;
    tone.frequency.setValueAtTime(880, now);
    tone.frequency.exponentialRampToValueAtTime(220, now + 0.04);
    volume.gain.setValueAtTime(0.12, now);
    volume.gain.exponentialRampToValueAtTime(0.0001, now + 0.06);
    tone.connect(volume).connect(audio.destination);
    tone.start(now);
    tone.stop(now + 0.07);
  };
}

/** Keeps the screen awake where the device can. @param {AbortSignal} signal */
function stayAwake(signal) {
  const { wakeLock } = /** @type {any} */ (navigator);
  if (!wakeLock) return;
  /** @type {{ release: () => Promise<void> } | null} */
  let lock = null;
  const ask = async () => {
    if (document.visibilityState !== "visible" || signal.aborted) return;
    try {
      lock = await wakeLock.request("screen");
      if (signal.aborted) await lock?.release();
    } catch {
      // Refused, say on a low battery: the sitting goes on without it.
    }
  };
  ask();
  document.addEventListener("visibilitychange", ask, { signal });
  signal.addEventListener("abort", () => lock?.release().catch(() => {}));
}

/** @param {import("../../main.js").Context} ctx @param {AbortSignal} signal */
export function tapScreen(ctx, signal) {
  const count = h("span", { class: "tap-count", "data-part": "tap-count" });
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
  const trouble = h("div", { class: "tap-trouble", role: "alert", hidden: true, "data-part": "tap-trouble" });
  const sound = h("button", { type: "button", class: "tap-side", "data-part": "tap-sound", "aria-pressed": "false" });
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
    ),
    h(
      "div",
      { class: "tap-field" },
      h("div", { class: "tap-open" }, stretch, trouble, shed, next, beads, place, how),
      h("div", { class: "tap-fell", "aria-hidden": "true" }),
      h(
        "div",
        { class: "tap-woven" },
        cloth,
        h("p", { class: "tap-counted" }, count, " ", h("span", { class: "tap-unit" }, T.tap.picks)),
        h("p", { class: "tap-all" }, inAll),
        last,
      ),
      surface,
    ),
    h("div", { class: "tap-bottom" }, back, sound, getUp),
    said,
  );

  let loud = localStorage.getItem(SOUND) === "on";
  const tick = ticker();
  let stretchSaid = "";

  const showSound = () => {
    sound.setAttribute("aria-pressed", String(loud));
    sound.textContent = `${T.tap.sound}: ${loud ? T.tap.soundOn : T.tap.soundOff}`;
  };

  /** @param {PlaceView | null} at */
  const showPlace = (at) => {
    element.classList.toggle("placeless", !at);
    // Where it must break, it breaks between heddle and stick.
    const words = (at ? at.next : T.tap.noPlace).split(/(?<=,) /).filter(Boolean);
    next.replaceChildren(...words.flatMap((part, which) => [which > 0 ? " " : "", h("span", null, part)]));
    how.hidden = ctx.desk().running !== null;
    place.textContent = at?.place ?? "";
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
    const loom = ctx.desk().loom;
    count.textContent = String(running?.picks ?? 0);
    inAll.textContent = running ? T.tap.inAll(running.picks_in_all) : loom ? T.tap.inAll(loom.figures.picks) : "";
    minutes.textContent = running
      ? [T.tap.minutes(Math.floor(running.minutes)), running.paused ? T.tap.paused : ""].filter(Boolean).join(", ")
      : T.tap.first;
    showPlace(running ? running.place : (loom?.place ?? null));
    if (running?.stretch && running.stretch !== stretchSaid) {
      stretchSaid = running.stretch;
      const done = h("button", { type: "button", class: "tap-quiet", "data-part": "stretch-done" }, T.tap.stretchSeen);
      done.addEventListener(
        "click",
        () => {
          stretch.hidden = true;
          surface.focus();
        },
        { signal },
      );
      stretch.replaceChildren(h("p", null, running.stretch), done);
      stretch.hidden = false;
    }
  };

  /** @param {RunningView} running */
  const written = (running) => {
    trouble.hidden = true;
    show(running);
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
    // The beat is seen before it is written.
    const beat = by > 0 ? "beaten" : "taken-back";
    element.classList.remove("beaten", "taken-back");
    cloth.getBoundingClientRect();
    element.classList.add(beat);
    if (loud) tick();
    write(ctx, written, refused);
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
  onControl(sound, () => {
    loud = !loud;
    localStorage.setItem(SOUND, loud ? "on" : "off");
    showSound();
    if (loud) tick();
  });

  document.addEventListener(
    "keydown",
    (event) => {
      if (event.ctrlKey || event.metaKey || event.altKey || event.isComposing) return;
      const control = /** @type {Element} */ (event.target).closest?.("a, button");
      const aimed = control && control !== surface && (event.key === "Enter" || event.key === " ");
      if (aimed) return;
      const takesBack = BACK_KEYS.has(event.key);
      if (!takesBack && event.key.length !== 1 && !NAMED_KEYS.has(event.key)) return;
      event.preventDefault();
      // A key held down, or a pedal that rattles, is one pick.
      if (event.repeat) return;
      press(takesBack ? -1 : 1);
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
    if (document.visibilityState === "visible" && waiting.length === 0 && ctx.desk().running) ctx.refresh();
  }, LOOK_EVERY);
  signal.addEventListener("abort", () => clearInterval(looking));
  stayAwake(signal);
  showSound();
  show(ctx.desk().running);
  if (waiting.length > 0) write(ctx, written, refused);

  return {
    element,
    focus: () => surface.focus(),
    update: () => {
      // What a press answers is newer than a desk that was made before it.
      if (waiting.length === 0) show(ctx.desk().running);
    },
  };
}
