// The warp to scale, from the cloth beam to the back beam: across the whole width; upright with the cloth beam below where large
// text leaves no room for that. Millimetres are only stretched to the space there is.

import { morphChildren, h, s } from "../dom/dom.js";
import { onResize, rootFontSize } from "../dom/size.js";
import { t } from "../../messages.js";
import { labelsOf, warpDrawing } from "./drawing.js";
import { placeLabels } from "./labels.js";
import { partsOf } from "./parts.js";
import { WarpScale } from "./scale.js";

/** @typedef {import("../../types.d.ts").WarpPicture} WarpPicture */
/** @typedef {import("./parts.js").Part} Part */

/** @param {{ signal: AbortSignal, open: (sitting: string) => void }} options `open` shows a sitting */
export function warpPicture(options) {
  return new WarpFigure(options);
}

class WarpFigure {
  /** @type {WarpPicture | null} */
  #picture = null;
  #unit = "cm";
  /** The part that is pointed at or stepped to. */
  #chosen = "";
  /** @type {Part[]} */
  #order = [];
  /** What the drawing was made from. */
  #drawnFrom = "";
  #area = h("div", { class: "warp-area" });
  #caption = h("figcaption", { id: "warp-text", class: "hidden-words", "data-part": "picture-text" });
  #selected = h("p", { class: "warp-selected", "data-part": "picture-selected", "aria-live": "polite" });
  #legend = h("p", { class: "warp-legend small quiet", "data-part": "picture-ticks" });
  #list = h("ol", { class: "warp-list", id: "warp-list", hidden: true, "data-part": "picture-list" });
  #arrows = h("p", { class: "hidden-words no-print", id: "warp-arrows" });

  /** @param {{ signal: AbortSignal, open: (sitting: string) => void }} options */
  constructor({ signal, open }) {
    this.open = open;
    this.element = h(
      "figure",
      { class: "warp-picture", "data-part": "warp-picture", "data-island": "warp", "data-key": "warp-picture" },
      this.#area,
      h("div", { class: "warp-foot" }, this.#selected, this.#legend, this.#listButton(signal)),
      this.#caption,
      this.#list,
      this.#arrows,
    );
    const stop = (/** @type {Event} */ event) =>
      /** @type {Element} */ (event.target).closest("[data-stop]")?.getAttribute("data-stop");
    const select = (/** @type {Event} */ event) => {
      const key = stop(event);
      if (key) this.#select(key);
    };
    this.#area.addEventListener("focusin", select, { signal });
    this.#area.addEventListener("pointerover", select, { signal });
    this.#area.addEventListener("click", (event) => this.#click(event), { signal });
    this.#area.addEventListener("keydown", (event) => this.#keyDown(event), { signal });
    onResize(this.#area, () => this.#draw(), signal);
  }

  /** @param {WarpPicture} picture @param {string} unit of length */
  update(picture, unit) {
    this.#picture = picture;
    this.#unit = unit;
    morphChildren(this.#caption, [document.createTextNode(picture.text)]);
    morphChildren(
      this.#list,
      partsOf(picture).map(({ key, text, kind }) => h("li", { class: kind, "data-key": key }, text)),
    );
    // A plan, or a warp on which nothing is woven, has no sitting to open.
    const opens = picture.bands.some(({ sitting }) => sitting);
    this.#arrows.textContent = opens ? `${t("picture_arrows")} ${t("picture_opens")}` : t("picture_arrows");
    const ticks = t("picture_ticks", { unit });
    this.#legend.textContent = picture.bands.some(({ photo }) => photo) ? `${ticks} ${t("picture_photos")}` : ticks;
    this.#draw();
  }

  /** Shows the picture in words. @param {AbortSignal} signal */
  #listButton(signal) {
    const list = this.#list;
    const toggle = h(
      "button",
      {
        type: "button",
        class: "link no-print",
        "aria-expanded": "false",
        "aria-controls": list.id,
        "data-part": "picture-words",
      },
      t("picture_as_text"),
    );
    toggle.addEventListener(
      "click",
      () => {
        list.hidden = !list.hidden;
        toggle.setAttribute("aria-expanded", String(!list.hidden));
      },
      { signal },
    );
    return toggle;
  }

  #draw() {
    const picture = this.#picture;
    const area = this.#area;
    const width = area.clientWidth;
    if (!picture || width === 0) return;
    const rem = rootFontSize();
    const from = JSON.stringify([picture, width, this.#unit, rem]);
    if (from === this.#drawnFrom) return;
    this.#drawnFrom = from;
    const focused = area.contains(document.activeElement)
      ? document.activeElement?.getAttribute("data-stop")
      : undefined;
    const scale = new WarpScale(width, rem, picture.whole_mm);
    const svg = warpDrawing(picture, scale, this.#unit);
    const labels = labelsOf(picture, scale);
    const beside = h(
      "div",
      { class: "warp-labels", "aria-hidden": "true" },
      labels.map(({ text, kind }) => h("span", { class: `warp-label ${kind}` }, text)),
    );
    area.className = `warp-area ${scale.isUpright ? "upright" : "lying"}`;
    area.replaceChildren(svg, beside);
    svg.append(s("path", { class: "leader", "aria-hidden": "true", d: placeLabels(beside, labels, scale) }));
    if (scale.isUpright) area.style.minHeight = beside.style.height;
    this.#order = partsOf(picture);
    // The Tab key enters where weaving goes on: at the last sitting, else the fell.
    const entry = this.#order.findLast(({ sitting }) => sitting)?.key ?? "fell";
    (this.#stop(this.#chosen) ?? this.#stop(entry))?.setAttribute("tabindex", "0");
    this.#select(this.#chosen);
    if (focused) this.#stop(focused)?.focus();
  }

  /** @param {string} key */
  #stop(key) {
    return this.#stops().find((one) => one.getAttribute("data-stop") === key);
  }

  /** @returns {SVGElement[]} */
  #stops() {
    return [.../** @type {NodeListOf<SVGElement>} */ (this.#area.querySelectorAll("[data-stop]"))];
  }

  /** @param {string} key */
  #select(key) {
    this.#chosen = key;
    this.#selected.textContent = this.#order.find((part) => part.key === key)?.text ?? "";
    for (const one of this.#stops()) one.classList.toggle("selected", one.getAttribute("data-stop") === key);
  }

  /** @param {Event} event */
  #click(event) {
    const hit = /** @type {Element} */ (event.target).closest("[data-sitting]");
    const sitting = hit?.getAttribute("data-sitting");
    if (sitting) this.open(sitting);
  }

  /** @param {KeyboardEvent} event */
  #keyDown(event) {
    const order = this.#order;
    const at = order.findIndex(({ key }) => key === document.activeElement?.getAttribute("data-stop"));
    if (at < 0) return;
    /** @type {Record<string, number>} */
    const goes = {
      ArrowRight: at + 1,
      ArrowUp: at + 1,
      ArrowLeft: at - 1,
      ArrowDown: at - 1,
      Home: 0,
      End: order.length - 1,
    };
    const { sitting } = order[at];
    if ((event.key === "Enter" || event.key === " ") && sitting) this.open(sitting);
    else if (event.key in goes) this.#stepTo(order[Math.min(Math.max(goes[event.key], 0), order.length - 1)].key);
    else return;
    event.preventDefault();
  }

  /** @param {string} key */
  #stepTo(key) {
    for (const one of this.#stops()) one.setAttribute("tabindex", one.getAttribute("data-stop") === key ? "0" : "-1");
    this.#stop(key)?.focus();
  }
}
