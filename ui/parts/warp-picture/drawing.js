// The drawing of a warp: beams, bands, marks and the fell, with a name for each that is read and stepped to.

import { s } from "../dom/dom.js";
import { t } from "../../messages.js";
import { patternOf, patterns } from "./patterns.js";

/** @typedef {import("../../types.d.ts").WarpPicture} WarpPicture */
/** @typedef {import("../../types.d.ts").Band} Band */
/** @typedef {import("../../types.d.ts").PictureMark} Mark */
/** @typedef {import("./scale.js").WarpScale} WarpScale */
/** @typedef {{ at: number, text: string, kind: string }} Label */

/** One thing that the keys step to and a screen reader reads. @param {string} key @param {SVGElement} group @param {string} text */
function makeStop(key, group, text) {
  for (const [name, value] of Object.entries({ role: "img", "aria-label": text, "data-stop": key, tabindex: "-1" })) {
    group.setAttribute(name, value);
  }
  return group;
}

/** @param {Band} band @param {string} key @param {number} turn counts the woven bands before it @param {WarpScale} scale */
function bandGroup(band, key, turn, scale) {
  const from = scale.along(band.from_mm);
  const to = scale.along(band.to_mm);
  const shape = scale.box(from, to, band.kind === "woven" || band.kind === "to_weave" ? 6 : 2);
  // Thin bands still take a finger: the place that is touched is never thinner than the picture can spare.
  const middle = (from + to) / 2;
  const touch = scale.box(Math.min(from, middle - 6), Math.max(to, middle + 6), 0);
  const photo = { ...shape, href: band.photo, preserveAspectRatio: "xMidYMid slice", class: "band-photo" };
  const group = s(
    "g",
    { class: `band ${band.kind}`, "data-band": band.kind },
    s("rect", { ...shape, class: "band-body", fill: patternOf(band, turn) }),
    band.photo && s("image", photo),
    s("rect", { ...shape, class: "band-edge" }),
    s("rect", { ...touch, class: "band-touch" }),
  );
  makeStop(key, group, band.label);
  if (band.sitting) {
    group.setAttribute("role", "button");
    group.setAttribute("data-sitting", band.sitting);
  }
  return group;
}

/** @param {Band[]} bands @param {WarpScale} scale */
function bandGroups(bands, scale) {
  let woven = 0;
  return bands.map((band, at) => bandGroup(band, `band-${at}`, band.kind === "woven" ? woven++ : woven, scale));
}

/** @param {Mark} mark @param {string} key @param {WarpScale} scale */
function markGroup(mark, key, scale) {
  const at = scale.along(mark.at_mm);
  const knot = scale.isUpright ? { cx: -3, cy: scale.long - at, r: 4 } : { cx: at, cy: -3, r: 4 };
  const group = s("g", { class: "warp-mark" }, s("path", { d: scale.across(at, 3) }), s("circle", knot));
  return makeStop(key, group, mark.label);
}

/** @param {WarpPicture} picture @param {WarpScale} scale */
function fellGroup(picture, scale) {
  const at = scale.along(picture.fell_mm);
  const tip = scale.thick + 11;
  const flag = scale.isUpright ? `M${tip} ${scale.long - at}l-9 -7v14z` : `M${at} ${tip}l-7 -9h14z`;
  const group = s(
    "g",
    { class: "warp-fell" },
    s("path", { class: "fell-edge", d: scale.across(at, 9) }),
    s("path", { class: "fell-line", d: scale.across(at, 9) }),
    s("path", { class: "fell-flag", d: flag }),
  );
  return makeStop("fell", group, picture.fell_label);
}

/** The ticks of the tape beside the warp. @param {WarpScale} scale @param {string} unit */
function tape(scale, unit) {
  const step = unit === "in" ? 152.4 : 100;
  const { thick, long } = scale;
  const ticks = [];
  for (let mm = 0; mm <= scale.wholeMm; mm += step) {
    const at = scale.along(mm);
    ticks.push(scale.isUpright ? `M${thick + 3} ${long - at}h5` : `M${at} ${thick + 3}v5`);
  }
  return s("path", { class: "tape", "aria-hidden": "true", d: ticks.join("") });
}

/** @param {WarpPicture} picture @param {WarpScale} scale @param {string} unit of length */
export function warpDrawing(picture, scale, unit) {
  const { beam, long } = scale;
  return s(
    "svg",
    {
      class: "warp-svg",
      role: "group",
      "aria-label": t("picture_title"),
      "aria-describedby": "warp-text warp-arrows",
      ...scale.frame(),
    },
    patterns(scale.isUpright),
    bandGroups(picture.bands, scale),
    picture.marks.map((mark, at) => markGroup(mark, `mark-${at}`, scale)),
    tape(scale, unit),
    s("rect", { ...scale.box(0, beam, -4), class: "beam", rx: 7 }),
    s("rect", { ...scale.box(long - beam, long, -4), class: "beam", rx: 7 }),
    fellGroup(picture, scale),
  );
}

/** What is named beside the drawing; where there is little room, only what decides. Every part has its name when it is pointed at. */
const NAMED = ["to_weave", "spare", "missing"];

/** @param {WarpPicture} picture @param {WarpScale} scale @returns {Label[]} */
export function labelsOf(picture, scale) {
  const middle = (/** @type {Band} */ band) => (scale.along(band.from_mm) + scale.along(band.to_mm)) / 2;
  const bands = picture.bands
    .filter(({ kind, label }) => label && (NAMED.includes(kind) || (kind === "back_waste" && !scale.isNarrow)))
    .map((band) => ({ at: middle(band), text: band.label, kind: band.kind }));
  const marks = (scale.isNarrow ? [] : picture.marks).map((mark) => ({
    at: scale.along(mark.at_mm),
    text: mark.label,
    kind: "mark",
  }));
  const fell = { at: scale.along(picture.fell_mm), text: t("picture_fell"), kind: "fell" };
  return [...bands, ...marks, fell];
}
