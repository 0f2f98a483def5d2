// Width against length: the sizes that the yarn makes. The point chosen is a corner of the piece, which is drawn from the corner
// of the axes. Points and words come from the shell; here they are only stretched to the space there is.

import { h, s } from "../dom/dom.js";
import { P } from "../../texts/plan.js";

/** @typedef {import("../../types.d.ts").PlanCurve} PlanCurve */

/** @param {{ signal: AbortSignal, choose: (width: string) => void }} options */
export function planCurve({ signal, choose }) {
  const drawing = h("div", { class: "curve-drawing" });
  const knob = h("div", {
    class: "curve-knob",
    role: "slider",
    tabindex: 0,
    "aria-label": P.knob,
    "aria-describedby": "curve-keys",
    "data-part": "plan-knob",
  });
  const stage = h("div", { class: "curve-stage", "data-part": "plan-stage" }, drawing, knob);
  const words = h("p", { class: "curve-words", "data-part": "plan-curve-words" });
  const element = h(
    "figure",
    { class: "plan-curve", "data-part": "plan-curve", "data-island": "curve", "data-key": "plan-curve" },
    h("h3", null, P.curve),
    words,
    stage,
    h("figcaption", { id: "curve-keys", class: "small quiet" }, P.curveKeys),
  );
  /** @type {PlanCurve | null} */
  let curve = null;
  let at = 0;
  let dragging = false;
  /** Where the point was when it was taken hold of. @type {number | null} */
  let held = null;
  /** @type {(mm: number) => number} */
  let x = () => 0;
  /** @type {(mm: number) => number} */
  let y = () => 0;
  let drawn = "";

  const place = () => {
    if (!curve) return;
    const point = curve.points[at];
    if (!point) return;
    knob.style.left = `${x(point.width_mm)}px`;
    knob.style.top = `${y(point.length_mm[1])}px`;
    knob.setAttribute("aria-valuemin", "1");
    knob.setAttribute("aria-valuemax", String(curve.points.length));
    knob.setAttribute("aria-valuenow", String(at + 1));
    knob.setAttribute("aria-valuetext", point.words);
    words.textContent = point.words;
    const piece = drawing.querySelector(".curve-piece");
    piece?.setAttribute("width", String(Math.max(x(point.width_mm) - x(0), 0)));
    piece?.setAttribute("y", String(y(point.length_mm[1])));
    piece?.setAttribute("height", String(Math.max(y(0) - y(point.length_mm[1]), 0)));
  };

  const draw = () => {
    const width = stage.clientWidth;
    if (!curve || width === 0 || curve.points.length === 0) return;
    const rem = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 16;
    const state = JSON.stringify([curve.points, width, rem]);
    if (state !== drawn) {
      drawn = state;
      const left = 4.6 * rem;
      const top = 2.2 * rem;
      const bottom = 3.2 * rem;
      const height = 17 * rem;
      const { points } = curve;
      const widest = Math.max(...points.map((point) => point.width_mm), 1);
      const longest = Math.max(curve.longest_mm, 1);
      x = (mm) => left + (mm / widest) * (width - left - 14);
      y = (mm) => top + (1 - mm / longest) * (height - top - bottom);
      const line = (/** @type {0 | 1 | 2} */ which) =>
        points.map((point) => `${x(point.width_mm)} ${y(point.length_mm[which])}`);
      const svg = s(
        "svg",
        {
          class: "curve-svg",
          "aria-hidden": "true",
          focusable: "false",
          width,
          height,
          viewBox: `0 0 ${width} ${height}`,
        },
        s(
          "defs",
          null,
          s(
            "pattern",
            { id: "curve-band", width: 7, height: 7, patternUnits: "userSpaceOnUse" },
            s("path", { class: "curve-hatch", d: "M0 7L7 0" }),
          ),
          s(
            "pattern",
            { id: "curve-cloth", width: 6, height: 6, patternUnits: "userSpaceOnUse" },
            s("path", { class: "curve-weave", d: "M1.5 0V3M4.5 3V6M3 1.5H6M0 4.5H3" }),
          ),
        ),
        s("rect", { class: "curve-piece", x: x(0), y: y(0), width: 0, height: 0, fill: "url(#curve-cloth)" }),
        s("path", {
          class: "curve-band",
          fill: "url(#curve-band)",
          d: `M${line(2).join("L")}L${line(0).reverse().join("L")}Z`,
        }),
        s("path", { class: "curve-line", d: `M${line(1).join("L")}` }),
        s("path", { class: "curve-axes", d: `M${x(0)} ${top}V${y(0)}H${width - 8}` }),
        curve.width_ticks.map(({ at_mm, label }) =>
          s(
            "g",
            { class: "curve-tick" },
            s("path", { d: `M${x(at_mm)} ${y(0)}v6` }),
            s("text", { x: x(at_mm), y: y(0) + 1.35 * rem, "text-anchor": "middle" }, label),
          ),
        ),
        curve.length_ticks.map(({ at_mm, label }) =>
          s(
            "g",
            { class: "curve-tick" },
            s("path", { d: `M${x(0)} ${y(at_mm)}h-6` }),
            s("text", { x: x(0) - 9, y: y(at_mm) + 0.3 * rem, "text-anchor": "end" }, label),
          ),
        ),
        s("text", { class: "curve-name", x: width - 10, y: y(0) + 2.7 * rem, "text-anchor": "end" }, P.curveWidth),
        s("text", { class: "curve-name", x: 0, y: 0.9 * rem }, P.curveLength),
      );
      drawing.replaceChildren(svg);
    }
    place();
  };

  /** @param {number} next */
  const move = (next) => {
    if (!curve) return;
    const to = Math.min(Math.max(next, 0), curve.points.length - 1);
    if (to === at) return;
    at = to;
    place();
    choose(curve.points[at].width);
  };

  /** @param {PointerEvent} event */
  const drag = (event) => {
    if (!curve) return;
    const here = event.clientX - stage.getBoundingClientRect().left;
    let best = 0;
    curve.points.forEach((point, index) => {
      if (Math.abs(x(point.width_mm) - here) < Math.abs(x(curve?.points[best].width_mm ?? 0) - here)) best = index;
    });
    move(best);
  };
  stage.addEventListener(
    "pointerdown",
    (event) => {
      dragging = true;
      held = at;
      stage.setPointerCapture(event.pointerId);
      drag(event);
      knob.focus({ preventScroll: true });
      event.preventDefault();
    },
    { signal },
  );
  // A pointer with nothing pressed is not the one that drags: a window that opened or closed above this one, or a button let go
  // where this window could not see it.
  stage.addEventListener("pointermove", (event) => dragging && event.buttons !== 0 && drag(event), { signal });
  for (const end of ["pointerup", "pointercancel"]) {
    stage.addEventListener(
      end,
      () => {
        dragging = false;
      },
      { signal },
    );
  }
  knob.addEventListener(
    "keydown",
    (event) => {
      const steps = /** @type {Record<string, number>} */ ({
        ArrowRight: 1,
        ArrowUp: 1,
        ArrowLeft: -1,
        ArrowDown: -1,
        PageUp: 5,
        PageDown: -5,
        Home: -10000,
        End: 10000,
      });
      if (event.key === "Escape" && held !== null) {
        event.preventDefault();
        dragging = false;
        move(held);
        held = null;
        return;
      }
      const step = steps[event.key];
      if (step === undefined) return;
      event.preventDefault();
      held ??= at;
      move(at + step);
    },
    { signal },
  );
  // Once the keys are elsewhere, where the point is is where it stays.
  knob.addEventListener(
    "blur",
    () => {
      // The figures may be set anew around it: the keys are gone for that moment and given back.
      setTimeout(() => {
        if (document.activeElement !== knob) held = null;
      });
    },
    { signal },
  );
  const watch = new ResizeObserver(draw);
  watch.observe(stage);
  signal.addEventListener("abort", () => watch.disconnect());

  return {
    element,
    /** @param {PlanCurve} next */
    update(next) {
      curve = next;
      if (!dragging) at = next.chosen;
      at = Math.min(at, Math.max(next.points.length - 1, 0));
      draw();
    },
  };
}
