// The labels beside the picture of a warp, put so that none covers another, each with a line to its place.

/** @typedef {import("./scale.js").WarpScale} WarpScale */
/** @typedef {import("./drawing.js").Label} Label */
/** @typedef {{ label: Label, span: HTMLElement }} Placed */

/** Below each other; returns the lines to their places. @param {HTMLElement} list @param {Placed[]} boxes @param {WarpScale} scale */
function placeBeside(list, boxes, { thick, long, width }) {
  const left = thick + 40;
  list.style.insetInlineStart = `${left}px`;
  list.style.width = `${Math.max(width - left, 40)}px`;
  boxes.sort((one, other) => other.label.at - one.label.at);
  let free = 0;
  const leaders = boxes.map(({ label, span }) => {
    const top = Math.max(long - label.at - span.offsetHeight / 2, free);
    span.style.top = `${top}px`;
    free = top + span.offsetHeight + 4;
    return `M${thick + 12} ${long - label.at}L${thick + 26} ${top + span.offsetHeight / 2}`;
  });
  list.style.height = `${Math.max(free, long)}px`;
  return leaders;
}

/** In as many lanes as are needed; returns the lines to their places. @param {HTMLElement} list @param {Placed[]} boxes @param {WarpScale} scale */
function placeBelow(list, boxes, { thick, width }) {
  /** @type {[number, number][][]} */
  const lanes = [];
  // The fell is named nearest to the fell; the others find room around it.
  const first = (/** @type {Label} */ label) => (label.kind === "fell" ? 0 : 1);
  boxes.sort((one, other) => first(one.label) - first(other.label) || one.label.at - other.label.at);
  const height = Math.max(...boxes.map(({ span }) => span.offsetHeight), 0) + 4;
  const leaders = boxes.map(({ label, span }) => {
    const size = span.offsetWidth;
    const start = Math.min(Math.max(label.at - size / 2, 0), Math.max(width - size, 0));
    const end = start + size + 10;
    let lane = lanes.findIndex((taken) => taken.every(([from, to]) => end < from || start > to));
    if (lane < 0) lane = lanes.push([]) - 1;
    lanes[lane].push([start, end]);
    span.style.insetInlineStart = `${start}px`;
    span.style.top = `${lane * height}px`;
    const meets = Math.min(Math.max(label.at, start + 4), start + size - 4);
    return `M${label.at} ${thick + 10}L${meets} ${thick + 22 + lane * height}`;
  });
  list.style.height = `${lanes.length * height}px`;
  return leaders;
}

/** Puts the labels in their places; returns the lines to them as a path. @param {HTMLElement} list @param {Label[]} labels @param {WarpScale} scale */
export function placeLabels(list, labels, scale) {
  const boxes = labels.map((label, at) => ({ label, span: /** @type {HTMLElement} */ (list.children[at]) }));
  const place = scale.isUpright ? placeBeside : placeBelow;
  return place(list, boxes, scale).join("");
}
