// What she needs now and then while weaving and not at every pick: another place in the sequence, keys, the tick, the reminder.

import { h } from "../dom/dom.js";
import { bind, bound, canBeBound, keyName } from "../tap/keys.js";
import { isLoud, setLoud, ticker } from "../tap/tick.js";
import { allWritten } from "../tap/presses.js";
import { L } from "../../texts/at-loom.js";

/** @typedef {import("../../main.js").Context} Context */
/** @typedef {import("../../types.d.ts").Places} Places */

/** A number between two buttons, for a thumb. @param {string} id @param {string} label @param {string} hint @param {string} value */
function stepper(id, label, hint, value) {
  const input = h("input", {
    type: "text",
    inputmode: "numeric",
    id,
    value,
    "data-part": id,
    "aria-describedby": `${id}-hint`,
  });
  const step = (/** @type {number} */ by, /** @type {string} */ words) => {
    const one = h("button", { type: "button", class: "button", "aria-label": `${label} ${words}` }, words);
    one.addEventListener("click", () => {
      input.value = String(Math.max((Number.parseInt(input.value, 10) || 0) + by, 0));
    });
    return one;
  };
  const element = h(
    "div",
    { class: "field stepper" },
    h("label", { for: id }, label),
    h("div", { class: "field-line" }, step(-1, "−1"), input, step(1, "+1")),
    h("p", { class: "hint", id: `${id}-hint` }, hint),
  );
  return { element, input };
}

/** @param {Context} ctx @param {string} warp @param {AbortSignal} signal */
function placePart(ctx, warp, signal) {
  const inner = h("div", { class: "stack", "data-part": "places" });
  const trouble = h("p", { class: "trouble", role: "alert", hidden: true, "data-part": "place-trouble" });
  const element = h(
    "section",
    { "aria-labelledby": "place-title", class: "stack" },
    h("h2", { id: "place-title" }, L.place.title),
    trouble,
    inner,
  );
  /** @param {Places} places */
  const draw = (places) => {
    const repeat = stepper("place-repeat", L.place.repeat, L.place.repeatHint, places.now.repeat);
    const piece = places.pieces > 1 ? stepper("place-piece", L.place.piece, "", places.now.piece) : null;
    const go = async (/** @type {string} */ section, /** @type {number} */ row) => {
      const form = {
        piece: piece?.input.value ?? "",
        section,
        repeat: section === "opening" ? "" : repeat.input.value,
        row: String(row),
      };
      try {
        ctx.show(await ctx.shell.setPlace(warp, form));
        ctx.say(L.placeSet);
        ctx.go("#/tap");
      } catch (refusal) {
        const { sentence, field } = /** @type {{ sentence: string, field: string | null }} */ (refusal);
        trouble.textContent = sentence;
        trouble.hidden = false;
        (field === "piece" ? piece?.input : repeat.input)?.focus();
      }
    };
    inner.replaceChildren(
      h("p", { class: "quiet" }, L.place.hint),
      h("div", { class: "form-grid" }, repeat.element, piece?.element),
      ...places.sections.map((section) =>
        h(
          "div",
          { class: "place-section" },
          h("h3", null, section.name),
          h(
            "ol",
            { class: "place-rows" },
            section.rows.map((words, at) => {
              const now = section.section === places.now.section && String(at + 1) === places.now.row;
              const row = h(
                "button",
                {
                  type: "button",
                  class: "button",
                  "data-part": "place-row",
                  "data-place": `${section.section}-${at + 1}`,
                  "aria-current": now ? "true" : null,
                },
                `${at + 1}. ${words}`,
                now && h("span", { class: "small" }, ` ${L.place.now}`),
              );
              row.addEventListener("click", () => go(section.section, at + 1), { signal });
              return h("li", null, row);
            }),
          ),
        ),
      ),
    );
  };
  (async () => {
    await allWritten(ctx);
    const places = await ctx.shell.places(warp).catch(() => null);
    if (signal.aborted) return;
    if (places) draw(places);
    else inner.replaceChildren(h("p", null, `${L.place.none} `, h("a", { href: "#/change" }, L.place.write), "."));
  })();
  return element;
}

/** @param {AbortSignal} signal */
function keysPart(signal) {
  const now = h("p", { "data-part": "keys-now", role: "status" });
  /** @type {"pick" | "back" | null} */
  let asking = null;
  const choose = (/** @type {"pick" | "back"} */ what, /** @type {string} */ words) =>
    h("button", { type: "button", class: "button", "data-part": `bind-${what}` }, words);
  const pick = choose("pick", L.keys.bind);
  const back = choose("back", L.keys.bindBack);
  const free = h("button", { type: "button", class: "link", "data-part": "bind-free" }, L.keys.free);
  const show = () => {
    const keys = bound();
    const said = [keys.pick ? L.keys.bound(keyName(keys.pick)) : keys.back ? "" : L.keys.any];
    if (keys.back) said.push(L.keys.boundBack(keyName(keys.back)));
    now.textContent = asking ? L.keys.press : said.filter(Boolean).join(" ");
    free.hidden = !keys.pick && !keys.back;
    pick.setAttribute("aria-pressed", String(asking === "pick"));
    back.setAttribute("aria-pressed", String(asking === "back"));
  };
  pick.addEventListener("click", () => {
    asking = asking === "pick" ? null : "pick";
    show();
  });
  back.addEventListener("click", () => {
    asking = asking === "back" ? null : "back";
    show();
  });
  free.addEventListener("click", () => {
    bind({ pick: null, back: null });
    asking = null;
    show();
    pick.focus();
  });
  document.addEventListener(
    "keydown",
    (event) => {
      if (!asking) return;
      if (event.key === "Escape" || event.key === "Tab") {
        asking = null;
        show();
        return;
      }
      if (!canBeBound(event)) return;
      event.preventDefault();
      event.stopPropagation();
      bind({ ...bound(), [asking]: event.key });
      asking = null;
      show();
    },
    { signal, capture: true },
  );
  // A key chosen while its button has the focus must not press the button again.
  document.addEventListener("keyup", (event) => event.key === " " && asking && event.preventDefault(), { signal });
  show();
  return h(
    "section",
    { "aria-labelledby": "keys-title", class: "stack" },
    h("h2", { id: "keys-title" }, L.keys.title),
    now,
    h("div", { class: "row" }, pick, back, free),
    h("p", { class: "small quiet" }, `${L.keys.escape} ${L.keys.here}`),
  );
}

function soundPart() {
  const tick = ticker();
  const box = h("input", { type: "checkbox", id: "tick", checked: isLoud(), "data-part": "tap-sound" });
  box.addEventListener("change", () => {
    setLoud(box.checked);
    if (box.checked) tick();
  });
  return h(
    "section",
    { "aria-labelledby": "tick-title" },
    h("h2", { id: "tick-title" }, L.sound.title),
    h("div", { class: "field check" }, h("label", null, box, h("span", null, L.sound.on))),
  );
}

/** @param {Context} ctx @param {AbortSignal} signal */
function stretchPart(ctx, signal) {
  const chosen = String(ctx.view().folder?.stretch_minutes ?? 0);
  const set = h(
    "fieldset",
    { class: "choice", "data-part": "stretch-every" },
    h("legend", null, L.stretch.title),
    h("p", { class: "hint small quiet" }, L.stretch.hint),
    h(
      "div",
      { class: "choices" },
      L.stretch.choices.map(([value, words]) =>
        h(
          "label",
          null,
          h("input", { type: "radio", name: "stretch", value, id: `stretch-${value}`, checked: value === chosen }),
          h("span", null, words),
        ),
      ),
    ),
  );
  set.addEventListener(
    "change",
    () => {
      const one = /** @type {HTMLInputElement | null} */ (set.querySelector("input:checked"));
      if (one) ctx.attempt(ctx.shell.setStretch(one.value), "");
    },
    { signal },
  );
  return set;
}

/** @param {Context} ctx @param {AbortSignal} signal */
export function moreScreen(ctx, signal) {
  const { loom, running } = ctx.view();
  const warp = running?.warp ?? loom?.id;
  if (!warp) return null;
  const element = h(
    "div",
    { class: "page stack weaving-settings" },
    h("h1", { tabindex: -1 }, L.more_title),
    h("p", null, h("a", { class: "shuttle", href: "#/tap", "data-part": "more-back" }, L.back)),
    placePart(ctx, warp, signal),
    keysPart(signal),
    soundPart(),
    stretchPart(ctx, signal),
  );
  return { element, update() {} };
}
