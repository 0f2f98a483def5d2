// Photos added to sittings on the screen of a warp: chosen or dropped on a sitting, or pasted for the latest.

/** @param {import("../../main.js").Context} ctx @param {HTMLElement} element @param {AbortSignal} signal */
export function acceptPhotos(ctx, element, signal) {
  /** @param {Event} event */
  const chosen = (event) => {
    const input = /** @type {HTMLInputElement} */ (event.target);
    const { photosFor } = input.dataset;
    if (!photosFor || !input.files) return;
    ctx.photos.add(photosFor, [...input.files]);
    input.value = "";
  };
  /** @param {DragEvent} event */
  const dropped = (event) => {
    const target = /** @type {Element} */ (event.target);
    const sitting = target.closest('[data-part="sitting"]')?.getAttribute("data-sitting");
    const files = [...(event.dataTransfer?.files ?? [])];
    if (!sitting || files.length === 0) return;
    event.preventDefault();
    ctx.photos.add(sitting, files);
  };
  /** @param {ClipboardEvent} event */
  const pasted = (event) => {
    const files = [...(event.clipboardData?.files ?? [])];
    const latest = ctx.view().loom?.sittings[0]?.id;
    if (files.length === 0 || !latest) return;
    event.preventDefault();
    ctx.photos.add(latest, files);
  };
  element.addEventListener("change", chosen, { signal });
  element.addEventListener("dragover", (event) => event.preventDefault(), { signal });
  element.addEventListener("drop", dropped, { signal });
  document.addEventListener("paste", pasted, { signal });
}
