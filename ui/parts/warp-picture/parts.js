// Everything in the picture of a warp, in the order in which the arrow keys step through it.

/** @typedef {import("../../types.d.ts").WarpPicture} WarpPicture */
/** @typedef {{ key: string, at: number, text: string, kind: string, sitting: string | null }} Part */

/**
 * Everything in the picture from the cloth beam to the back beam: bands, marks and the fell.
 * @param {WarpPicture} picture @returns {Part[]}
 */
export function partsOf(picture) {
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
  // A mark or the fell comes before the band that begins there.
  const before = (/** @type {Part} */ part) => (part.kind === "mark" ? 0 : part.kind === "fell" ? 1 : 2);
  // Parts within a tenth of a millimetre are at one place.
  const place = (/** @type {Part} */ part) => Math.round(part.at * 10);
  return [...bands, ...marks, fell].sort((one, other) => place(one) - place(other) || before(one) - before(other));
}
