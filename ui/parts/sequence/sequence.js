// A pick sequence while it is written: rows in words by section, what is wrong beside them, and the cloth it makes.

import { closestTarget, h } from "../dom/dom.js";
import { disclosure } from "../disclosure/disclosure.js";
import { grid, wide } from "../form/fields.js";
import { clothDrawing } from "../cloth/cloth.js";
import { LatestRequest } from "../request/request.js";
import { t } from "../../messages.js";

/** @typedef {import("../../main.js").Context} Context */
/** @typedef {import("../../types.d.ts").PickSequenceView} PickSequenceView */
/** @typedef {import("../../types.d.ts").PickSequenceForm} PickSequenceForm */
/** @typedef {import("../form/form.js").Form<import("../../types.d.ts").WarpForm>} WarpForm */

const SECTIONS = /** @type {const} */ (["opening", "repeat", "balance", "closing"]);
const SECTION_NAMES = /** @type {const} */ ({
  opening: "warp_opening",
  repeat: "warp_repeat",
  balance: "warp_balance",
  closing: "warp_closing",
});
const STICK_ENDS = /** @type {const} */ (["stick_up_ends", "stick_down_ends", "stick_edge_ends"]);
const SHAFTS = /** @type {const} */ (["threading", "shed_lifts"]);
/** Members that can be wrong in themselves. */
const CHECKED = [...SECTIONS, ...STICK_ENDS, ...SHAFTS];
/** Members that the drawing depends on. */
const DRAWN = /** @type {const} */ ([...SECTIONS, ...STICK_ENDS, ...SHAFTS, "picks", "sett"]);

/** The fields of a sequence, and what is drawn from them, in the form of a warp. */
export class SequenceEditor {
  /** @type {PickSequenceView | null} */
  #view = null;
  #examples = h("div", { class: "row", "data-part": "examples" });
  #mirror = h("button", { type: "button", class: "button", "data-part": "mirror", hidden: true }, t("sequence_mirror"));
  #counts = h("p", { class: "quiet", "data-part": "sequence-counts" });
  #messages = h("div", { class: "sequence-messages", "aria-live": "polite", "data-part": "sequence-messages" });
  #figure = h("figure", { class: "sequence-cloth", "data-part": "sequence-cloth" });

  /** @param {Context} ctx @param {AbortSignal} signal @param {WarpForm} form */
  constructor(ctx, signal, form) {
    this.form = form;
    /** The elements, in the order in which they stand in the form. */
    this.parts = [
      ...this.#sectionFields(),
      wide(this.#stickFields()),
      wide(this.#shaftFields()),
      this.#settField(t("unit_ends_per", { unit: ctx.view().format.length_unit })),
      wide(this.#drawing()),
      wide(this.#picksPerTap()),
    ];
    this.request = new LatestRequest({
      ask: () => ctx.shell.drawSequence(this.#draft()),
      // Without `fail`: when the form is saved, it says what is wrong.
      show: (view) => this.#show(view),
      signal,
    });
    const typed = (/** @type {Event} */ event) => {
      const { name } = /** @type {HTMLInputElement} */ (event.target);
      if (DRAWN.some((member) => member === name)) this.request.later();
    };
    form.element.addEventListener("input", typed, { signal });
    this.#examples.addEventListener("click", (event) => this.#takeExample(event), { signal });
    this.#mirror.addEventListener("click", () => this.#view && form.write("closing", this.#view.mirrored), { signal });
  }

  draw() {
    this.request.now();
  }

  #sectionFields() {
    const area = (/** @type {typeof SECTIONS[number]} */ name, lines = 4) =>
      this.form.area({ name, label: t(SECTION_NAMES[name]), lines });
    return [
      wide(h("p", { class: "quiet" }, t("warp_sequence_hint"))),
      wide(h("div", null, h("p", { class: "small quiet" }, t("sequence_examples")), this.#examples)),
      area("opening"),
      area("repeat"),
      area("balance", 3),
      h("div", null, area("closing"), this.#mirror),
    ];
  }

  /** Ends on the pick-up stick. */
  #stickFields() {
    const ends = (/** @type {string} */ name, /** @type {string} */ label) =>
      this.form.text({ name, label, keys: "numeric" });
    return h(
      "fieldset",
      { class: "stick-ends" },
      h("legend", null, t("sequence_stick")),
      h(
        "div",
        { class: "stick-fields" },
        ends("stick_up_ends", t("sequence_stick_up")),
        ends("stick_down_ends", t("sequence_stick_down")),
        ends("stick_edge_ends", t("sequence_stick_edge")),
      ),
    );
  }

  /** Sheds and threading of a loom with shafts. */
  #shaftFields() {
    const { form } = this;
    return disclosure(
      t("sequence_sheds"),
      { "data-part": "sequence-shafts" },
      h("p", { class: "small quiet" }, t("sequence_sheds_hint")),
      grid(
        form.area({ name: "shed_lifts", label: t("sequence_lifts"), lines: 4 }),
        form.text({ name: "threading", label: t("sequence_threading"), hint: t("sequence_threading_hint") }),
      ),
    );
  }

  /** @param {string} unit of density, in ends */
  #settField(unit) {
    const [label, hint] = [t("sequence_sett"), t("sequence_sett_hint")];
    return this.form.text({ name: "sett", label, hint, unit, what: "sett", keys: "decimal" });
  }

  #drawing() {
    return h(
      "section",
      { class: "sequence-view stack", "aria-labelledby": "drawn-title" },
      h("h3", { id: "drawn-title" }, t("sequence_drawing")),
      this.#counts,
      this.#messages,
      this.#figure,
      h("p", { class: "small quiet" }, t("sequence_legend")),
    );
  }

  #picksPerTap() {
    return this.form.choice({
      name: "picks_per_tap",
      label: t("sequence_per_press"),
      fallback: "1",
      choices: [
        ["1", t("sequence_one_pick")],
        ["2", t("sequence_two_picks")],
      ],
    });
  }

  /** What is drawn. */
  #draft() {
    const values = this.form.values();
    return /** @type {PickSequenceForm} */ (Object.fromEntries(DRAWN.map((member) => [member, values[member]])));
  }

  /** @param {PickSequenceView} view */
  #show(view) {
    this.#view = view;
    for (const name of CHECKED) {
      this.form.mark(name, view.errors.find(({ field }) => field === name)?.sentence ?? "");
    }
    this.#counts.textContent = view.counts;
    this.#messages.replaceChildren(
      ...view.warnings.map((sentence) => h("p", { class: "trouble" }, sentence)),
      ...view.notes.map((sentence) => h("p", { class: "small quiet" }, sentence)),
    );
    this.#figure.replaceChildren(
      ...(view.cloth
        ? [clothDrawing(view.cloth, sectionName), h("figcaption", { class: "small quiet" }, view.cloth.text)]
        : []),
    );
    this.#mirror.hidden = !view.mirrored;
    if (this.#examples.childElementCount === 0) this.#examples.replaceChildren(...view.examples.map(exampleButton));
  }

  /** @param {Event} event */
  #takeExample(event) {
    const hit = closestTarget(event, "[data-example]");
    const example = hit && this.#view?.examples[Number(hit.dataset.example)];
    if (!example) return;
    for (const section of SECTIONS) this.form.write(section, example[section]);
  }
}

/** @param {string} section */
function sectionName(section) {
  const known = SECTIONS.find((name) => name === section);
  return known ? t(SECTION_NAMES[known]) : section;
}

/** @param {PickSequenceView["examples"][number]} example @param {number} index */
function exampleButton({ name }, index) {
  return h(
    "button",
    { type: "button", class: "button", "data-example": index, "aria-label": t("sequence_example", { name }) },
    name,
  );
}
