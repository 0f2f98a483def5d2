// Choosing photos (from a file, by dropping, by pasting), keeping them one after another, and looking at one large.

import { morphChildren, button, h } from "../dom/dom.js";
import { T } from "../../texts/texts.js";

/**
 * A chooser that holds the photos until they are kept.
 * @param {{ id: string, signal: AbortSignal, start?: File[] }} options
 */
export function photoChooser({ id, signal, start = [] }) {
  /** @type {{ file: File, url: string }[]} */
  let chosen = [];
  const input = h("input", {
    type: "file",
    accept: "image/*",
    multiple: true,
    id: `${id}-photos`,
    "data-part": `${id}-photos`,
  });
  const list = h("ul", { class: "chosen-photos", "data-part": `${id}-chosen` });
  const element = h(
    "div",
    { class: "photo-chooser", "data-part": `${id}-drop` },
    h("p", { class: "photo-title" }, T.sitting.photos),
    h("label", { class: "button file-button" }, T.sittings.addPhotos, input),
    h("p", { class: "hint small quiet", id: `${id}-photos-hint` }, T.photos.hint),
    list,
  );
  input.setAttribute("aria-describedby", `${id}-photos-hint`);

  const draw = () =>
    morphChildren(
      list,
      chosen.map(({ file, url }, at) =>
        h(
          "li",
          { "data-key": url },
          h("img", { src: url, alt: T.photos.chosen(file.name) }),
          h("button", { type: "button", class: "link small", "data-drop-at": at }, T.photos.leaveOut(file.name)),
        ),
      ),
    );
  /** @param {Iterable<File>} files */
  const add = (files) => {
    for (const file of files) chosen.push({ file, url: URL.createObjectURL(file) });
    draw();
  };
  add(start);
  input.addEventListener(
    "change",
    () => {
      add(input.files ?? []);
      input.value = "";
    },
    { signal },
  );
  list.addEventListener(
    "click",
    (event) => {
      const hit = /** @type {HTMLElement | null} */ (/** @type {Element} */ (event.target).closest("[data-drop-at]"));
      if (!hit) return;
      const [gone] = chosen.splice(Number(hit.dataset.dropAt), 1);
      URL.revokeObjectURL(gone.url);
      draw();
      input.focus();
    },
    { signal },
  );
  element.addEventListener("dragover", (event) => event.preventDefault(), { signal });
  element.addEventListener(
    "drop",
    (event) => {
      event.preventDefault();
      add(event.dataTransfer?.files ?? []);
    },
    { signal },
  );
  document.addEventListener(
    "paste",
    (event) => {
      const files = event.clipboardData?.files;
      if (!files?.length) return;
      event.preventDefault();
      add(files);
    },
    { signal },
  );
  signal.addEventListener("abort", () => chosen.forEach(({ url }) => URL.revokeObjectURL(url)));
  return { element, files: () => chosen.map(({ file }) => file) };
}

/**
 * Keeps photos one after another and shows how far it is; what could not be kept is offered again.
 * @param {{ place: HTMLElement, keep: (sitting: string, file: File) => Promise<unknown>, said: (words: string) => void }} options
 */
export function photoKeeper({ place, keep, said }) {
  /** @type {{ sitting: string, file: File }[]} */
  let waiting = [];
  /** @type {{ sitting: string, file: File, why: string }[]} */
  let left = [];
  let kept = 0;
  let busy = false;
  let stopped = false;

  const draw = () => {
    const all = kept + waiting.length + left.length;
    place.hidden = !busy && left.length === 0;
    morphChildren(
      place,
      busy
        ? [
            h("p", null, T.photos.sending(kept + left.length + 1, all)),
            h("progress", { max: all, value: kept + left.length, "aria-label": T.sitting.photos }),
            button("photos-stop", T.photos.stop, { class: "button" }),
          ]
        : left.length > 0
          ? [
              h("p", null, T.photos.stopped(left.length)),
              ...left
                .filter(({ why }) => why)
                .map(({ file, why }) => h("p", { class: "trouble" }, T.photos.failed(file.name, why))),
              button("photos-again", T.photos.again, { class: "button" }),
              button("photos-forget", T.photos.forget, { class: "link" }),
            ]
          : [],
    );
  };
  const run = async () => {
    if (busy) return;
    busy = true;
    stopped = false;
    kept = 0;
    while (waiting.length > 0 && !stopped) {
      draw();
      const next = waiting[0];
      try {
        await keep(next.sitting, next.file);
        kept += 1;
      } catch (refusal) {
        left.push({ ...next, why: /** @type {{ sentence: string }} */ (refusal).sentence });
      }
      waiting.shift();
    }
    left.push(...waiting.map((one) => ({ ...one, why: "" })));
    waiting = [];
    busy = false;
    draw();
    if (kept > 0) said(T.photos.done(kept));
  };
  place.addEventListener("click", (event) => {
    const act = /** @type {HTMLElement | null} */ (/** @type {Element} */ (event.target).closest("[data-act]"))?.dataset
      .act;
    if (act === "photos-stop") stopped = true;
    if (act === "photos-forget") left = [];
    if (act === "photos-again") {
      waiting = left;
      left = [];
      run();
    }
    draw();
  });
  return {
    /** @param {string} sitting @param {File[]} files */
    add(sitting, files) {
      waiting.push(...files.map((file) => ({ sitting, file })));
      if (files.length > 0) run();
    },
  };
}

/** Shows one photo large. @param {string} address @param {string} text */
export function showPhoto(address, text) {
  const dialog = h(
    "dialog",
    { class: "photo-large", "aria-label": text },
    h("img", { src: address, alt: text }),
    h("form", { method: "dialog" }, h("button", { class: "button", "data-part": "photo-close" }, T.sittings.close)),
  );
  dialog.addEventListener("close", () => dialog.remove());
  document.body.append(dialog);
  dialog.showModal();
}
