// Width against length: the sizes that the yarn makes. The chosen point is a corner of the piece, which is drawn from the corner
// of the axes. Points and words come from the shell; here they are only scaled to the space there is.

import { h } from "../dom/dom.js";
import { onResize, rootFontSize } from "../dom/size.js";
import { t } from "../../messages.js";
import { CurveScale, curveDrawing } from "./curve-drawing.js";

/** @typedef {import("../../types.d.ts").PlanCurve} PlanCurve */
/** @typedef {{ signal: AbortSignal, choose: (width: string) => void }} CurveOptions */

/** Points that a key moves by. @type {Record<string, number>} */
const KEY_STEPS = {
  ArrowRight: 1,
  ArrowUp: 1,
  ArrowLeft: -1,
  ArrowDown: -1,
  PageUp: 5,
  PageDown: -5,
  Home: -10000,
  End: 10000,
};

/** @param {CurveOptions} options */
export function planCurve(options) {
  return new CurveFigure(options);
}

class CurveFigure {
  /** @type {PlanCurve | null} */
  #curve = null;
  /** Index of the chosen point. */
  #chosen = 0;
  #isDragging = false;
  /** The point that Escape goes back to. @type {number | null} */
  #chosenBefore = null;
  /** @type {CurveScale | null} */
  #scale = null;
  /** What the drawing was made from. */
  #drawnFrom = "";
  #drawing = h("div", { class: "curve-drawing" });
  #knob = h("div", {
    class: "curve-knob",
    role: "slider",
    tabindex: 0,
    "aria-label": t("plan_curve_knob"),
    "aria-describedby": "curve-keys",
    "data-part": "plan-knob",
  });
  #area = h("div", { class: "curve-area", "data-part": "plan-curve-area" }, this.#drawing, this.#knob);
  #words = h("p", { class: "curve-words", "data-part": "plan-curve-words" });
  element = h(
    "figure",
    { class: "plan-curve", "data-part": "plan-curve", "data-island": "curve", "data-key": "plan-curve" },
    h("h3", null, t("plan_curve")),
    this.#words,
    this.#area,
    h("figcaption", { id: "curve-keys", class: "small quiet" }, t("plan_curve_keys")),
  );

  /** @param {CurveOptions} options */
  constructor({ signal, choose }) {
    this.choose = choose;
    const area = this.#area;
    area.addEventListener("pointerdown", (event) => this.#pointerDown(event), { signal });
    area.addEventListener("pointermove", (event) => this.#pointerMove(event), { signal });
    for (const end of ["pointerup", "pointercancel"]) {
      area.addEventListener(end, () => (this.#isDragging = false), { signal });
    }
    this.#knob.addEventListener("keydown", (event) => this.#keyDown(event), { signal });
    this.#knob.addEventListener("blur", () => this.#blur(), { signal });
    onResize(area, () => this.#draw(), signal);
  }

  /** @param {PlanCurve} curve */
  update(curve) {
    this.#curve = curve;
    if (!this.#isDragging) this.#chosen = curve.chosen;
    this.#chosen = Math.min(this.#chosen, Math.max(curve.points.length - 1, 0));
    this.#draw();
  }

  #draw() {
    const curve = this.#curve;
    const width = this.#area.clientWidth;
    if (!curve || width === 0 || curve.points.length === 0) return;
    const rem = rootFontSize();
    const drawnFrom = JSON.stringify([curve.points, width, rem]);
    if (drawnFrom !== this.#drawnFrom) {
      this.#drawnFrom = drawnFrom;
      this.#scale = new CurveScale(curve, width, rem);
      this.#drawing.replaceChildren(curveDrawing(curve, this.#scale));
    }
    this.#showChosen();
  }

  /** Puts the knob and the piece where the chosen point is. */
  #showChosen() {
    const points = this.#curve?.points ?? [];
    const point = points[this.#chosen];
    const scale = this.#scale;
    if (!point || !scale) return;
    const x = scale.x(point.width_mm);
    const y = scale.y(point.length_mm[1]);
    this.#knob.style.left = `${x}px`;
    this.#knob.style.top = `${y}px`;
    this.#knob.setAttribute("aria-valuemin", "1");
    this.#knob.setAttribute("aria-valuemax", String(points.length));
    this.#knob.setAttribute("aria-valuenow", String(this.#chosen + 1));
    this.#knob.setAttribute("aria-valuetext", point.words);
    this.#words.textContent = point.words;
    const piece = this.#drawing.querySelector(".curve-piece");
    piece?.setAttribute("width", String(Math.max(x - scale.x(0), 0)));
    piece?.setAttribute("y", String(y));
    piece?.setAttribute("height", String(Math.max(scale.y(0) - y, 0)));
  }

  /** @param {number} index of the wanted point */
  #moveTo(index) {
    if (!this.#curve) return;
    const { points } = this.#curve;
    const chosen = Math.min(Math.max(index, 0), points.length - 1);
    if (chosen === this.#chosen) return;
    this.#chosen = chosen;
    this.#showChosen();
    this.choose(points[chosen].width);
  }

  /** Chooses the point nearest to the pointer. @param {PointerEvent} event */
  #drag(event) {
    const points = this.#curve?.points;
    const scale = this.#scale;
    if (!points || !scale) return;
    const pointerX = event.clientX - this.#area.getBoundingClientRect().left;
    const distances = points.map(({ width_mm }) => Math.abs(scale.x(width_mm) - pointerX));
    this.#moveTo(distances.indexOf(Math.min(...distances)));
  }

  /** @param {PointerEvent} event */
  #pointerDown(event) {
    this.#isDragging = true;
    this.#chosenBefore = this.#chosen;
    this.#area.setPointerCapture(event.pointerId);
    this.#drag(event);
    this.#knob.focus({ preventScroll: true });
    event.preventDefault();
  }

  /** @param {PointerEvent} event */
  #pointerMove(event) {
    // Without a pressed button nothing is dragged: the button may have been released outside this window.
    if (this.#isDragging && event.buttons !== 0) this.#drag(event);
  }

  /** @param {KeyboardEvent} event */
  #keyDown(event) {
    const step = KEY_STEPS[event.key];
    if (event.key === "Escape" && this.#chosenBefore !== null) {
      event.preventDefault();
      this.#isDragging = false;
      this.#moveTo(this.#chosenBefore);
      this.#chosenBefore = null;
    } else if (step !== undefined) {
      event.preventDefault();
      this.#chosenBefore ??= this.#chosen;
      this.#moveTo(this.#chosen + step);
    }
  }

  /** Once the focus is elsewhere, Escape no longer moves the point. */
  #blur() {
    // When the figures around the knob are redrawn, it loses the focus for a moment.
    setTimeout(() => {
      if (document.activeElement !== this.#knob) this.#chosenBefore = null;
    });
  }
}
