// How much room there is, measured in text: large text on a small screen leaves none for what is fixed on it. Media queries
// cannot measure it, since they do not follow the size of the page's own text.

import { h } from "../dom/dom.js";

/** Keeps `html[data-room]` at `tight` or `ample`. */
export function watchRoom() {
  const probe = h("div", { class: "room-probe", "aria-hidden": "true" });
  document.body.append(probe);
  const measure = () => {
    const text = probe.offsetWidth || 16;
    const tight = window.innerWidth / text < 18 || window.innerHeight / text < 28;
    document.documentElement.dataset.room = tight ? "tight" : "ample";
  };
  new ResizeObserver(measure).observe(probe);
  window.addEventListener("resize", measure);
  measure();
}
