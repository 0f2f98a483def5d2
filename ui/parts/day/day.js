// A day: typed, as the shell understands it, or picked from a small month. (The engine has no date field of its own to offer.)

import { h } from "../dom/dom.js";
import { T } from "../../texts/texts.js";

/** @type {string | undefined} */
const locale = (() => {
  try {
    return new Intl.DateTimeFormat(navigator.language).resolvedOptions().locale;
  } catch {
    return undefined;
  }
})();
const long = new Intl.DateTimeFormat(locale, {
  weekday: "long",
  day: "numeric",
  month: "long",
  year: "numeric",
  timeZone: "UTC",
});
const month = new Intl.DateTimeFormat(locale, { month: "long", year: "numeric", timeZone: "UTC" });
const weekday = new Intl.DateTimeFormat(locale, { weekday: "short", timeZone: "UTC" });
const DAY = 86_400_000;

/** Days since 1970 of a written day; nothing when it is none. @param {string} iso @returns {number | null} */
function dayOf(iso) {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(iso.trim());
  if (!parts) return null;
  const date = new Date(`${parts[0]}T00:00:00Z`);
  return Number.isNaN(date.getTime()) || isoOf(date.getTime() / DAY) !== parts[0] ? null : date.getTime() / DAY;
}

/** @param {number} day */
function isoOf(day) {
  return new Date(day * DAY).toISOString().slice(0, 10);
}

/** First day of the week as the locale has it, 1 for Monday. */
function weekStart() {
  const known = /** @type {any} */ (new Intl.Locale(locale ?? "en-GB"));
  return known.getWeekInfo?.().firstDay ?? known.weekInfo?.firstDay ?? 1;
}

/**
 * Puts quick days and a month to pick from beside a field.
 * @param {object} options
 * @param {HTMLInputElement} options.input
 * @param {HTMLElement} options.after
 * @param {string} options.today
 * @param {boolean} options.quick
 * @param {string} options.label
 * @param {(text: string) => Promise<string | null>} options.meant the day that a text means, as the shell reads it
 * @param {AbortSignal} options.signal
 */
export function dayField({ input, after, today, quick, label, meant, signal }) {
  const now = dayOf(today) ?? Math.floor(Date.now() / DAY);
  const set = (/** @type {number} */ day) => {
    input.value = isoOf(day);
    input.dispatchEvent(new Event("input", { bubbles: true }));
  };

  const open = h(
    "button",
    { type: "button", class: "link", "aria-expanded": "false", "data-part": `${input.id}-pick` },
    T.day.pick,
    h("span", { class: "hidden-words" }, `: ${label}`),
  );
  const panel = h("div", { class: "month", role: "group", "aria-label": label, hidden: true });
  const shortcuts = quick
    ? [
        [T.day.today, now, "today"],
        [T.day.yesterday, now - 1, "yesterday"],
      ].map(([name, day, key]) => {
        const one = h("button", { type: "button", class: "link", "data-part": `${input.id}-${key}` }, String(name));
        one.addEventListener("click", () => set(Number(day)), { signal });
        return one;
      })
    : [];
  after.after(h("div", { class: "day-quick" }, shortcuts, open), panel);

  let at = now;
  /** The day in the field, in whatever order it was typed. @type {number | null} */
  let chosen = null;
  const close = () => {
    panel.hidden = true;
    open.setAttribute("aria-expanded", "false");
  };
  /** @param {boolean} focus */
  const draw = (focus) => {
    const date = new Date(at * DAY);
    const first = Date.UTC(date.getUTCFullYear(), date.getUTCMonth(), 1) / DAY;
    const length = new Date(Date.UTC(date.getUTCFullYear(), date.getUTCMonth() + 1, 0)).getUTCDate();
    const lead = (new Date(first * DAY).getUTCDay() - weekStart() + 7) % 7;
    const weeks = [];
    for (let cell = first - lead; cell < first + length; cell += 7) {
      weeks.push(
        h(
          "tr",
          null,
          [0, 1, 2, 3, 4, 5, 6].map((step) => {
            const day = cell + step;
            if (day < first || day >= first + length) return h("td");
            return h(
              "td",
              null,
              h(
                "button",
                {
                  type: "button",
                  "data-day": day,
                  tabindex: day === at ? 0 : -1,
                  "aria-pressed": String(day === chosen),
                  "aria-label": long.format(day * DAY),
                  "aria-current": day === now ? "date" : null,
                },
                String(new Date(day * DAY).getUTCDate()),
              ),
            );
          }),
        ),
      );
    }
    const step = (/** @type {string} */ name, /** @type {number} */ by, /** @type {string} */ sign) => {
      const one = h("button", { type: "button", "aria-label": name, "data-step": by }, sign);
      return one;
    };
    panel.replaceChildren(
      h(
        "div",
        { class: "month-head" },
        step(T.day.earlier, -1, "‹"),
        h("span", { "aria-live": "polite" }, month.format(at * DAY)),
        step(T.day.later, 1, "›"),
      ),
      h(
        "table",
        null,
        h(
          "thead",
          null,
          h(
            "tr",
            null,
            [0, 1, 2, 3, 4, 5, 6].map((add) => h("th", { scope: "col" }, weekday.format((first - lead + add) * DAY))),
          ),
        ),
        h("tbody", null, weeks),
      ),
    );
    if (focus) /** @type {HTMLElement | null} */ (panel.querySelector(`[data-day="${at}"]`))?.focus();
  };
  /** @param {number} by */
  const turn = (by) => {
    const date = new Date(at * DAY);
    const last = new Date(Date.UTC(date.getUTCFullYear(), date.getUTCMonth() + by + 1, 0)).getUTCDate();
    at = Date.UTC(date.getUTCFullYear(), date.getUTCMonth() + by, Math.min(date.getUTCDate(), last)) / DAY;
  };
  open.addEventListener(
    "click",
    async () => {
      if (!panel.hidden) return close();
      const typed = await meant(input.value).catch(() => null);
      if (signal.aborted || !panel.hidden) return;
      chosen = dayOf(typed ?? "");
      at = chosen ?? now;
      panel.hidden = false;
      open.setAttribute("aria-expanded", "true");
      draw(true);
    },
    { signal },
  );
  panel.addEventListener(
    "click",
    (event) => {
      const hit = /** @type {HTMLElement | null} */ (/** @type {Element} */ (event.target).closest("button"));
      if (hit?.dataset.day) {
        set(Number(hit.dataset.day));
        close();
        open.focus();
      } else if (hit?.dataset.step) {
        turn(Number(hit.dataset.step));
        draw(false);
        /** @type {HTMLElement | null} */ (panel.querySelector(`[data-step="${hit.dataset.step}"]`))?.focus();
      }
    },
    { signal },
  );
  panel.addEventListener(
    "keydown",
    (event) => {
      const moves = /** @type {Record<string, number>} */ ({ ArrowLeft: -1, ArrowRight: 1, ArrowUp: -7, ArrowDown: 7 });
      if (event.key === "Escape") {
        close();
        open.focus();
      } else if (/** @type {HTMLElement} */ (event.target).dataset.day && event.key in moves) {
        at += moves[event.key];
        draw(true);
      } else if (event.key === "PageUp" || event.key === "PageDown") {
        turn(event.key === "PageUp" ? -1 : 1);
        draw(true);
      } else {
        return;
      }
      event.preventDefault();
    },
    { signal },
  );
}
