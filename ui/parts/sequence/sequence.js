// A pick sequence while it is written: rows in words by section, what is wrong beside them, and the cloth it makes.

import { h } from "../dom/dom.js";
import { disclosure } from "../disclosure/disclosure.js";
import { clothDrawing } from "../cloth/cloth.js";
import { LatestRequest } from "../request/request.js";
import { L } from "../../texts/at-loom.js";
import { T } from "../../texts/texts.js";

/** @typedef {import("../../main.js").Context} Context */
/** @typedef {import("../../types.d.ts").PickSequenceView} PickSequenceView */
/** @typedef {import("../../types.d.ts").PickSequenceForm} PickSequenceForm */

const SECTIONS = /** @type {const} */ (["opening", "repeat", "balance", "closing"]);
const ENDS = /** @type {const} */ (["stick_up_ends", "stick_down_ends", "stick_edge_ends"]);
const SHAFTS = /** @type {const} */ (["threading", "shed_lifts"]);
/** Everything the drawing depends on. */
const DRAWN = [...SECTIONS, ...ENDS, ...SHAFTS, "picks", "sett"];

/** What is drawn. @param {import("../../types.d.ts").WarpForm} form @returns {PickSequenceForm} */
function draftOf(form) {
  return {
    opening: form.opening,
    repeat: form.repeat,
    balance: form.balance,
    closing: form.closing,
    stick_edge_ends: form.stick_edge_ends,
    stick_up_ends: form.stick_up_ends,
    stick_down_ends: form.stick_down_ends,
    threading: form.threading,
    shed_lifts: form.shed_lifts,
    picks: form.picks,
    sett: form.sett,
  };
}

/**
 * The fields of a sequence, for the warp's form.
 * @param {Context} ctx @param {AbortSignal} signal
 * @param {import("../form/form.js").Form<import("../../types.d.ts").WarpForm>} form
 */
export function sequenceFields(ctx, signal, form) {
  const examples = h("div", { class: "row", "data-part": "examples" });
  const mirror = h(
    "button",
    { type: "button", class: "button", "data-part": "mirror", hidden: true },
    L.sequence.mirror,
  );
  const counts = h("p", { class: "quiet", "data-part": "sequence-counts" });
  const told = h("div", { class: "sequence-told", "aria-live": "polite", "data-part": "sequence-told" });
  const figure = h("figure", { class: "sequence-cloth", "data-part": "sequence-cloth" });
  /** @type {PickSequenceView | null} */
  let view = null;

  const area = (/** @type {string} */ name, /** @type {string} */ label, lines = 4) =>
    form.area({ name, label, lines });
  const ends = (/** @type {string} */ name, /** @type {string} */ label) => form.text({ name, label, keys: "numeric" });
  const wide = (/** @type {HTMLElement} */ field) => {
    field.classList.add("wide");
    return field;
  };
  const parts = [
    wide(h("p", { class: "quiet" }, T.warp.sequenceHint)),
    wide(h("div", null, h("p", { class: "small quiet" }, L.sequence.examples), examples)),
    area("opening", T.warp.opening),
    area("repeat", T.warp.repeat),
    area("balance", T.warp.balance, 3),
    h("div", null, area("closing", T.warp.closing), mirror),
    wide(
      h(
        "fieldset",
        { class: "stick-ends" },
        h("legend", null, L.sequence.stick),
        h(
          "div",
          { class: "stick-fields" },
          ends("stick_up_ends", L.sequence.up),
          ends("stick_down_ends", L.sequence.down),
          ends("stick_edge_ends", L.sequence.edge),
        ),
      ),
    ),
    wide(
      disclosure(
        L.sequence.shafts,
        { "data-part": "sequence-shafts" },
        h("p", { class: "small quiet" }, L.sequence.shaftsHint),
        h(
          "div",
          { class: "form-grid" },
          area("shed_lifts", L.sequence.lifts, 4),
          form.text({ name: "threading", label: L.sequence.threading, hint: L.sequence.threadingHint }),
        ),
      ),
    ),
    form.text({
      name: "sett",
      label: L.sequence.sett,
      hint: L.sequence.settHint,
      unit: ctx.view().format.density_unit.replace("picks", "ends"),
      what: "sett",
      keys: "decimal",
    }),
    wide(
      h(
        "section",
        { class: "sequence-view stack", "aria-labelledby": "drawn-title" },
        h("h3", { id: "drawn-title" }, L.sequence.drawn),
        counts,
        told,
        figure,
        h("p", { class: "small quiet" }, L.sequence.legend),
      ),
    ),
    wide(
      form.choice({
        name: "picks_per_tap",
        label: L.sequence.count,
        fallback: "1",
        choices: [
          ["1", L.sequence.one],
          ["2", L.sequence.two],
        ],
      }),
    ),
  ];

  const nameOf = (/** @type {string} */ section) =>
    /** @type {Record<string, string>} */ ({
      opening: T.warp.opening,
      repeat: T.warp.repeat,
      balance: T.warp.balance,
      closing: T.warp.closing,
    })[section] ?? section;

  /** @param {PickSequenceView} next */
  const show = (next) => {
    view = next;
    for (const name of [...SECTIONS, ...ENDS, ...SHAFTS]) {
      form.mark(name, next.troubles.find(({ field }) => field === name)?.sentence ?? "");
    }
    counts.textContent = next.counts;
    told.replaceChildren(
      ...next.warnings.map((line) => h("p", { class: "trouble" }, line)),
      ...next.notes.map((line) => h("p", { class: "small quiet" }, line)),
    );
    figure.replaceChildren(
      ...(next.cloth
        ? [clothDrawing(next.cloth, nameOf), h("figcaption", { class: "small quiet" }, next.cloth.text)]
        : []),
    );
    mirror.hidden = !next.mirrored;
    if (examples.childElementCount === 0) {
      examples.replaceChildren(
        ...next.examples.map(({ name }, at) =>
          h(
            "button",
            { type: "button", class: "button", "data-example": at, "aria-label": L.sequence.example(name) },
            name,
          ),
        ),
      );
    }
  };

  const drawing = new LatestRequest({
    ask: () => ctx.shell.drawSequence(draftOf(form.values())),
    // The drawing is a help only; keeping the form says what is wrong.
    show,
    signal,
  });
  form.element.addEventListener(
    "input",
    (event) => {
      const { name } = /** @type {HTMLInputElement} */ (event.target);
      if (DRAWN.includes(name)) drawing.later();
    },
    { signal },
  );
  examples.addEventListener(
    "click",
    (event) => {
      const hit = /** @type {HTMLElement | null} */ (/** @type {Element} */ (event.target).closest("[data-example]"));
      const example = hit && view?.examples[Number(hit.dataset.example)];
      if (!example) return;
      for (const section of SECTIONS) form.write(section, example[section]);
    },
    { signal },
  );
  mirror.addEventListener("click", () => view && form.write("closing", view.mirrored), { signal });
  return { parts, draw: () => drawing.now() };
}
