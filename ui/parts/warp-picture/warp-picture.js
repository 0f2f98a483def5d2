// The warp to scale, from the cloth beam to the back beam: lying on a wide screen, upright on a narrow one with the cloth beam
// below, as it lies on the lap. Millimetres are only stretched to the space there is.

import { morphChildren, h, s } from "../dom/dom.js";
import { T } from "../../texts/texts.js";

/** @typedef {import("../../types.d.ts").WarpPicture} WarpPicture */
/** @typedef {import("../../types.d.ts").Band} Band */
/** @typedef {{ at: number, until?: number, text: string, kind: string }} Label */
/** @typedef {{ key: string, at: number, text: string, kind: string, sitting: string | null }} Part */

/**
 * Everything in the picture from the cloth beam to the back beam: bands, marks and the fell.
 * @param {WarpPicture} picture @returns {Part[]}
 */
function partsOf(picture) {
  const bands = picture.bands.map((band, n) => ({
    key: `band-${n}`,
    at: band.from_mm,
    text: band.label,
    kind: band.kind,
    sitting: band.sitting,
  }));
  const marks = picture.marks.map((mark, n) => ({
    key: `mark-${n}`,
    at: mark.at_mm,
    text: mark.label,
    kind: "mark",
    sitting: null,
  }));
  const fell = { key: "fell", at: picture.fell_mm, text: picture.fell_label, kind: "fell", sitting: null };
  // A mark or the fell lies before the band that begins there.
  const before = (/** @type {Part} */ part) => (part.kind === "mark" ? 0 : part.kind === "fell" ? 1 : 2);
  // What lies within a tenth of a millimetre lies at one place.
  const place = (/** @type {Part} */ part) => Math.round(part.at * 10);
  return [...bands, ...marks, fell].sort((one, other) => place(one) - place(other) || before(one) - before(other));
}

/** Drawn along x; an upright picture turns the pattern with it. @param {boolean} upright */
function patterns(upright) {
  const turn = upright ? "rotate(90)" : null;
  const make = (
    /** @type {string} */ name,
    /** @type {number} */ size,
    /** @type {string} */ d,
    /** @type {string} */ tone,
  ) =>
    s(
      "pattern",
      { id: `warp-${name}`, width: size, height: size, patternUnits: "userSpaceOnUse", patternTransform: turn },
      s("rect", { class: `ground-${tone}`, width: size, height: size }),
      s("path", { class: `line-${tone}`, d }),
    );
  return s(
    "defs",
    null,
    // Bare warp is long threads, what is spare the same threads broken into dots; cloth is threads across them, one sitting ribbed
    // and the next in a basket; waste leans, fringe waves, and what is missing is crossed out.
    make("ends", 6, "M0 3H6", "ends"),
    make("spare", 8, "M1 2h2M5 6h2", "spare"),
    make("cloth", 6, "M1.5 0V6M4.5 0V6", "cloth"),
    make("cloth-b", 8, "M0 2H4M4 6H8M2 4V8M6 0V4", "cloth-b"),
    make("waste", 10, "M0 10L10 0M-1 1L1 -1M9 11L11 9", "waste"),
    make("fringe", 12, "M0 3Q3 0 6 3T12 3M0 9Q3 12 6 9T12 9", "ends"),
    make("missing", 10, "M0 0L10 10M0 10L10 0", "missing"),
  );
}

/** @param {Band} band @param {number} turn */
function patternOf(band, turn) {
  const names = /** @type {Record<string, string>} */ ({
    front_waste: "waste",
    back_waste: "waste",
    woven: turn % 2 ? "cloth-b" : "cloth",
    to_weave: "ends",
    spare: "spare",
    fringe: "fringe",
    missing: "missing",
  });
  return `url(#warp-${names[band.kind] ?? "ends"})`;
}

/**
 * @param {{ signal: AbortSignal, open: (sitting: string) => void }} options
 */
export function warpPicture({ signal, open }) {
  const stage = h("div", { class: "warp-stage" });
  const caption = h("figcaption", { id: "warp-text", class: "small quiet", "data-part": "picture-text" });
  const told = h("p", { class: "warp-told", "data-part": "picture-told", "aria-live": "polite" });
  const ticks = h("p", { class: "small quiet", "data-part": "picture-ticks" });
  const list = h("ol", { class: "warp-list", id: "warp-list", hidden: true, "data-part": "picture-list" });
  const listed = h(
    "button",
    {
      type: "button",
      class: "link no-print",
      "aria-expanded": "false",
      "aria-controls": list.id,
      "data-part": "picture-words",
    },
    T.picture.words,
  );
  listed.addEventListener(
    "click",
    () => {
      list.hidden = !list.hidden;
      listed.setAttribute("aria-expanded", String(!list.hidden));
    },
    { signal },
  );
  const arrows = h("p", { class: "hidden-words no-print", id: "warp-arrows" });
  const element = h(
    "figure",
    { class: "warp-picture", "data-part": "warp-picture", "data-island": "warp", "data-key": "warp-picture" },
    stage,
    told,
    caption,
    ticks,
    listed,
    list,
    arrows,
  );
  /** @type {WarpPicture | null} */
  let picture = null;
  let unit = "cm";
  let chosen = "";
  /** @type {Part[]} */
  let order = [];
  let drawn = "";

  const draw = () => {
    const width = stage.clientWidth;
    if (!picture || width === 0) return;
    const rem = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 16;
    const upright = width < 40 * rem;
    const state = JSON.stringify([picture, width, upright, unit, rem]);
    if (state === drawn) return;
    drawn = state;
    const focused = stage.contains(document.activeElement)
      ? document.activeElement?.getAttribute("data-stop")
      : undefined;
    const beam = 16;
    const long = upright ? 34 * rem : width;
    // Beside it the labels need room, however large the text is.
    const thick = upright ? Math.min(6 * rem, 0.3 * width) : 6.5 * rem;
    const span = long - 2 * beam - 4;
    const whole = Math.max(picture.whole_mm, 1);
    /** How far along the picture a place of the warp lies. @param {number} mm */
    const along = (mm) => beam + 2 + (Math.min(Math.max(mm, 0), whole) / whole) * span;
    /** A box along the warp. @param {number} from @param {number} to @param {number} inset */
    const box = (from, to, inset) =>
      upright
        ? { x: inset, y: long - to, width: thick - 2 * inset, height: Math.max(to - from, 0) }
        : { x: from, y: inset, width: Math.max(to - from, 0), height: thick - 2 * inset };
    /** A line across the warp. @param {number} at @param {number} out */
    const across = (at, out) => (upright ? `M${-out} ${long - at}H${thick + out}` : `M${at} ${-out}V${thick + out}`);

    const parts = [];
    /** @type {Map<string, SVGElement>} */
    const found = new Map();
    /** One thing that the keys step to and a screen reader reads. @param {string} key @param {SVGElement} group @param {string} text */
    const stop = (key, group, text) => {
      for (const [name, value] of Object.entries({
        role: "img",
        "aria-label": text,
        "data-stop": key,
        tabindex: "-1",
      })) {
        group.setAttribute(name, value);
      }
      found.set(key, group);
    };
    /** @type {Label[]} */
    const labels = [];
    let turn = 0;
    for (const [n, band] of picture.bands.entries()) {
      const from = along(band.from_mm);
      const to = along(band.to_mm);
      const woven = band.kind === "woven";
      const inset = band.kind === "woven" ? 6 : band.kind === "to_weave" ? 6 : 2;
      const shape = box(from, to, inset);
      const group = s("g", { class: `band ${band.kind}`, "data-band": band.kind });
      group.append(s("rect", { ...shape, class: "band-body", fill: patternOf(band, turn) }));
      if (band.photo) {
        group.append(
          s("image", { ...shape, href: band.photo, preserveAspectRatio: "xMidYMid slice", class: "band-photo" }),
        );
      }
      group.append(s("rect", { ...shape, class: "band-edge" }));
      if (woven) turn += 1;
      stop(`band-${n}`, group, band.label);
      // Thin bands still take a finger: the place that is touched is never thinner than the picture can spare.
      const touch = box(Math.min(from, (from + to) / 2 - 6), Math.max(to, (from + to) / 2 + 6), 0);
      group.append(s("rect", { ...touch, class: "band-touch" }));
      if (band.sitting) {
        group.setAttribute("role", "button");
        group.setAttribute("data-sitting", band.sitting);
      } else if (band.label) labels.push({ at: (from + to) / 2, text: band.label, kind: band.kind });
      parts.push(group);
    }
    const last = picture.bands.filter((band) => band.sitting).at(-1);
    if (last) labels.push({ at: (along(last.from_mm) + along(last.to_mm)) / 2, text: last.label, kind: "woven" });
    const step = unit === "in" ? 152.4 : 100;
    const tape = [];
    for (let mm = 0; mm <= whole; mm += step)
      tape.push(upright ? `M${thick + 3} ${long - along(mm)}h5` : `M${along(mm)} ${thick + 3}v5`);
    for (const [n, mark] of picture.marks.entries()) {
      const at = along(mark.at_mm);
      const group = s(
        "g",
        { class: "warp-mark" },
        s("path", { d: across(at, 3) }),
        s("circle", upright ? { cx: -3, cy: long - at, r: 4 } : { cx: at, cy: -3, r: 4 }),
      );
      stop(`mark-${n}`, group, mark.label);
      parts.push(group);
      labels.push({ at, text: mark.label, kind: "mark" });
    }
    const fell = along(picture.fell_mm);
    labels.push({ at: fell, text: T.picture.fell, kind: "fell" });
    const edge = s(
      "g",
      { class: "warp-fell" },
      s("path", { class: "fell-edge", d: across(fell, 9) }),
      s("path", { class: "fell-line", d: across(fell, 9) }),
      s("path", {
        class: "fell-flag",
        d: upright ? `M${thick + 11} ${long - fell}l-9 -7v14z` : `M${fell} ${thick + 11}l-7 -9h14z`,
      }),
    );
    stop("fell", edge, picture.fell_label);
    const svg = s(
      "svg",
      {
        class: "warp-svg",
        role: "group",
        "aria-label": T.picture.title,
        "aria-describedby": "warp-text warp-arrows",
        viewBox: upright ? `-12 0 ${thick + 24} ${long}` : `0 -12 ${long} ${thick + 24}`,
        width: upright ? thick + 24 : long,
        height: upright ? long : thick + 24,
      },
      patterns(upright),
      parts,
      s("path", { class: "tape", "aria-hidden": "true", d: tape.join("") }),
      s("rect", { ...box(0, beam, -4), class: "beam", rx: 7 }),
      s("rect", { ...box(long - beam, long, -4), class: "beam", rx: 7 }),
      edge,
    );
    const beside = h(
      "div",
      { class: "warp-labels", "aria-hidden": "true" },
      labels.map(({ text, kind }) => h("span", { class: `warp-label ${kind}` }, text)),
    );
    stage.className = `warp-stage ${upright ? "upright" : "lying"}`;
    stage.replaceChildren(svg, beside);
    place(beside, labels, upright, long, thick, width, svg);
    order = partsOf(picture);
    // The way in is where she is: the last sitting, else the fell.
    const way = order.findLast(({ sitting }) => sitting)?.key ?? "fell";
    found.get(found.has(chosen) ? chosen : way)?.setAttribute("tabindex", "0");
    tell(chosen);
    if (focused) found.get(focused)?.focus();
  };

  /**
   * Puts the labels beside the picture so that none covers another, each with a thread to its place.
   * @param {HTMLElement} list @param {Label[]} labels @param {boolean} upright @param {number} long @param {number} thick
   * @param {number} width @param {SVGSVGElement} svg
   */
  const place = (list, labels, upright, long, thick, width, svg) => {
    const boxes = labels.map((label, at) => ({ label, span: /** @type {HTMLElement} */ (list.children[at]) }));
    const leaders = [];
    if (upright) {
      const left = thick + 40;
      list.style.insetInlineStart = `${left}px`;
      list.style.width = `${Math.max(width - left, 40)}px`;
      boxes.sort((one, other) => other.label.at - one.label.at);
      let free = 0;
      for (const { label, span } of boxes) {
        const wish = long - label.at - span.offsetHeight / 2;
        const top = Math.max(wish, free);
        span.style.top = `${top}px`;
        free = top + span.offsetHeight + 4;
        leaders.push(`M${thick + 12} ${long - label.at}L${thick + 26} ${top + span.offsetHeight / 2}`);
      }
      list.style.height = `${Math.max(free, long)}px`;
      stage.style.minHeight = `${Math.max(free, long)}px`;
    } else {
      /** @type {[number, number][][]} */
      const lanes = [];
      // The fell is named nearest to the fell; the others find room around it.
      const first = (/** @type {Label} */ label) => (label.kind === "fell" ? 0 : 1);
      boxes.sort((one, other) => first(one.label) - first(other.label) || one.label.at - other.label.at);
      const height = Math.max(...boxes.map(({ span }) => span.offsetHeight), 0) + 4;
      for (const { label, span } of boxes) {
        const size = span.offsetWidth;
        const start = Math.min(Math.max(label.at - size / 2, 0), Math.max(width - size, 0));
        const end = start + size + 10;
        let lane = lanes.findIndex((taken) => taken.every(([from, to]) => end < from || start > to));
        if (lane < 0) lane = lanes.push([]) - 1;
        lanes[lane].push([start, end]);
        span.style.insetInlineStart = `${start}px`;
        span.style.top = `${lane * height}px`;
        leaders.push(
          `M${label.at} ${thick + 10}L${Math.min(Math.max(label.at, start + 4), start + size - 4)} ${thick + 22 + lane * height}`,
        );
      }
      list.style.height = `${lanes.length * height}px`;
      svg.setAttribute("viewBox", `0 -12 ${long} ${thick + 24}`);
    }
    svg.append(s("path", { class: "leader", "aria-hidden": "true", d: leaders.join("") }));
  };

  /** @param {string} key */
  const tell = (key) => {
    chosen = key;
    told.textContent = order.find((part) => part.key === key)?.text ?? "";
    for (const one of stage.querySelectorAll("[data-stop]")) {
      one.classList.toggle("told", one.getAttribute("data-stop") === key);
    }
  };

  stage.addEventListener(
    "focusin",
    (event) => {
      const key = /** @type {Element} */ (event.target).getAttribute("data-stop");
      if (key) tell(key);
    },
    { signal },
  );
  stage.addEventListener(
    "pointerover",
    (event) => {
      const key = /** @type {Element} */ (event.target).closest("[data-stop]")?.getAttribute("data-stop");
      if (key) tell(key);
    },
    { signal },
  );
  stage.addEventListener(
    "click",
    (event) => {
      const sitting = /** @type {Element} */ (event.target).closest("[data-sitting]")?.getAttribute("data-sitting");
      if (sitting) open(sitting);
    },
    { signal },
  );
  stage.addEventListener(
    "keydown",
    (event) => {
      const at = order.findIndex(({ key }) => key === document.activeElement?.getAttribute("data-stop"));
      if (at < 0) return;
      const go = /** @type {Record<string, number>} */ ({
        ArrowRight: at + 1,
        ArrowUp: at + 1,
        ArrowLeft: at - 1,
        ArrowDown: at - 1,
        Home: 0,
        End: order.length - 1,
      })[event.key];
      const { sitting } = order[at];
      if ((event.key === "Enter" || event.key === " ") && sitting) open(sitting);
      else if (go !== undefined) {
        const to = order[Math.min(Math.max(go, 0), order.length - 1)].key;
        for (const one of /** @type {NodeListOf<SVGElement>} */ (stage.querySelectorAll("[data-stop]"))) {
          one.setAttribute("tabindex", one.getAttribute("data-stop") === to ? "0" : "-1");
          if (one.getAttribute("data-stop") === to) one.focus();
        }
      } else return;
      event.preventDefault();
    },
    { signal },
  );
  const watch = new ResizeObserver(draw);
  watch.observe(stage);
  signal.addEventListener("abort", () => watch.disconnect());

  return {
    element,
    /** @param {WarpPicture} next @param {string} lengthUnit */
    update(next, lengthUnit) {
      picture = next;
      unit = lengthUnit;
      morphChildren(caption, [document.createTextNode(next.text)]);
      morphChildren(
        list,
        partsOf(next).map(({ key, text, kind }) => h("li", { class: kind, "data-key": key }, text)),
      );
      // A plan, or a warp on which nothing is woven, has no sitting to open.
      const opens = next.bands.some(({ sitting }) => sitting);
      arrows.textContent = opens ? `${T.picture.arrows} ${T.picture.opens}` : T.picture.arrows;
      ticks.textContent = unit === "in" ? T.picture.ticksIn : T.picture.ticksCm;
      draw();
    },
  };
}
