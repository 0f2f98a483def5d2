// The screen stays awake while a sitting is woven. The shell asks the desktop; where it cannot, the page asks the web view (which on
// Linux says yes and does nothing where the desktop would not); where neither keeps it awake, a hint is shown once.

/** How long the hint that the screen may go dark can be read at least, in milliseconds. */
const TO_READ = 10_000;
/** How often the web view is asked without success; some grant it only after a key or a touch. */
const TRIES = 3;
let hasShownHint = false;

/**
 * @param {import("../../main.js").Context} ctx @param {AbortSignal} signal
 * @param {HTMLElement} dark the hint that the screen may go dark
 */
export function screenAwake(ctx, signal, dark) {
  const { wakeLock } = /** @type {any} */ (navigator);
  /** @type {{ released: boolean, release: () => Promise<void> } | null} */
  let lock = null;
  let asking = false;
  let weaving = false;
  /** What the desktop answered: null where the web view is to be asked, nothing before. @type {boolean | null | undefined} */
  let byDesktop;
  let tries = 0;
  let shownAt = 0;

  const isHeld = () => byDesktop === true || (lock !== null && !lock.released);
  const release = () => lock?.release().catch(() => {});
  const ask = async () => {
    if (asking || isHeld() || !weaving || document.visibilityState !== "visible" || signal.aborted) return;
    asking = true;
    if (byDesktop === undefined) byDesktop = await ctx.shell.screenIsHeld().catch(() => null);
    if (byDesktop === null && wakeLock && tries < TRIES) {
      tries += 1;
      try {
        lock = await wakeLock.request("screen");
        if (signal.aborted || !weaving) await release();
      } catch {
        // Refused, say on a low battery or before a key or a touch: asked for again at the next one.
      }
    }
    asking = false;
    if (isHeld()) dark.hidden = true;
    else if (!hasShownHint && weaving) {
      hasShownHint = true;
      shownAt = performance.now();
      dark.hidden = false;
    }
  };
  document.addEventListener("visibilitychange", ask, { signal });
  signal.addEventListener("abort", release);
  return {
    /** A press was made. */
    pressed() {
      if (!dark.hidden && performance.now() - shownAt > TO_READ) dark.hidden = true;
    },
    /** Whether a sitting is woven now: begun, written, and not paused. @param {boolean} now */
    follow(now) {
      if (weaving && !now) {
        byDesktop = undefined;
        tries = 0;
        release();
      }
      weaving = now;
      if (weaving) ask();
    },
  };
}
