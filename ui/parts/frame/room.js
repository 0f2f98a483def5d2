// How much room there is, measured in text: large text on a small screen leaves none for what lies fixed on it. Media queries
// cannot tell, since they do not follow the size of the page's own text.

import { h } from "../dom/dom.js";

/** Keeps `html[data-room]` at `tight` or `ample`. */
export function watchRoom() {
  const probe = h("div", { class: "room-probe", "aria-hidden": "true" });
  document.body.append(probe);
  const tell = () => {
    const text = probe.offsetWidth || 16;
    const tight = window.innerWidth / text < 18 || window.innerHeight / text < 28;
    document.documentElement.dataset.room = tight ? "tight" : "ample";
  };
  new ResizeObserver(tell).observe(probe);
  window.addEventListener("resize", tell);
  tell();
}
