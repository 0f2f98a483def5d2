// Drawings in pixels: the size of the text, and when the space for a drawing changes.

/** The font size of the page in pixels, which follows the reader's setting. */
export function rootFontSize() {
  return Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 16;
}

/** Calls `changed` when the size of the element changes. @param {Element} element @param {() => void} changed @param {AbortSignal} signal */
export function onResize(element, changed, signal) {
  const observer = new ResizeObserver(changed);
  observer.observe(element);
  signal.addEventListener("abort", () => observer.disconnect());
}
