// Presses at the loom: shown at once, written one after another, none dropped, whatever screen is open.

/** @typedef {import("../../types.d.ts").RunningView} RunningView */
/** @typedef {import("../../types.d.ts").LoomView} LoomView */
/** @typedef {import("../../main.js").Context} Context */
/**
 * @typedef {object} WriteListener
 * @property {(running: RunningView) => void} written
 * @property {(sentence: string) => void} refused
 */

/** Presses that wait to be written, kept while the window lives. @type {(1 | -1)[]} */
const waiting = [];
/** @type {Promise<void>} */
let writing = Promise.resolve();

/** How many presses wait to be written. */
export function pressesWaiting() {
  return waiting.length;
}

/** @param {1 | -1} by */
export function addPress(by) {
  waiting.push(by);
}

/** Writes what waits, after what is being written now. @param {Context} ctx @param {WriteListener} [listener] */
export function writePresses(ctx, listener) {
  writing = writing.then(async () => {
    while (waiting.length > 0) {
      try {
        const running = await ctx.shell.tap(waiting[0]);
        waiting.shift();
        ctx.applyTap(running);
        listener?.written(running);
      } catch (refusal) {
        listener?.refused(/** @type {import("../../types.d.ts").ErrorView} */ (refusal).sentence);
        return;
      }
    }
  });
}

/** Resolves when every press is written, or one was refused. @param {Context} ctx */
export function allWritten(ctx) {
  writePresses(ctx);
  return writing;
}

/**
 * The sitting as it will be when all presses that wait are written, as the shell previewed it; nothing when it previewed fewer.
 * The shell's answer then takes its place.
 * @param {RunningView | null} running @param {LoomView | null} loom @returns {RunningView | null}
 */
export function withWaiting(running, loom) {
  if (waiting.length === 0) return running;
  const previews = running?.press_previews ?? loom?.press_previews ?? [];
  const perTap = running?.picks_per_tap ?? loom?.picks_per_tap ?? 1;
  const picks = (running?.picks ?? 0) + waiting.reduce((/** @type {number} */ sum, by) => sum + by, 0) * perTap;
  const then = picks === running?.picks ? running : previews.find((press) => press.picks === picks);
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
    press_previews: previews,
  };
  return {
    ...(running ?? first),
    picks,
    picks_in_all: then.picks_in_all,
    place: then.place,
    to_go: then.to_go,
    paused: false,
    held: false,
    begun: false,
  };
}
