// The line that shows how far a folder is read, once that takes long, and stops it. It is within reach of the thumb.

import { button, h } from "../dom/dom.js";
import { t } from "../../messages.js";

/**
 * @param {{ place: HTMLElement, stop: () => Promise<void>, hold: (held: boolean) => void }} options `hold` blocks the
 * screens, which cannot be answered before the reading is over
 * @returns {(files: import("../../shell.js").FilesRead | null) => void} to be called with what is read so far, and with nothing at the end
 */
export function readingLine({ place, stop, hold }) {
  // Announced once when it begins, not at every step.
  const announcement = h("p", { role: "status", class: "hidden-words", "data-part": "reading-announcement" });
  const words = h("p", { class: "reading-words", "data-part": "reading-words" });
  const bar = h("progress", { max: 1, "aria-label": t("reading_bar") });
  const stopper = button("stop-reading", t("stop"), { class: "button", "data-part": "reading-stop" });
  const line = h("div", { class: "reading no-print", "data-part": "reading", hidden: true }, words, bar, stopper);
  place.append(announcement, line);
  let stopping = false;
  stopper.addEventListener("click", () => {
    stopping = true;
    stopper.disabled = true;
    words.textContent = t("reading_stopping");
    stop();
  });
  return (files) => {
    if (!files) {
      line.hidden = true;
      announcement.textContent = "";
      hold(false);
      return;
    }
    const { done, of } = files;
    if (line.hidden) {
      stopping = false;
      stopper.disabled = false;
      line.hidden = false;
      announcement.textContent = t("reading_started");
      hold(true);
    }
    if (of === null) bar.removeAttribute("value");
    else {
      bar.max = Math.max(of, 1);
      bar.value = done;
    }
    if (!stopping) words.textContent = of === null ? t("reading_list") : t("reading_files", { done, count: of });
    // What was read is then put together, which takes a moment.
    stopper.hidden = done === of;
  };
}
