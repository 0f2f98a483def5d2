// Taking everything out as files, and bringing tables in: read first, shown, then written as one action.

import { morphChildren, button, h } from "../dom/dom.js";
import { disclosure } from "../disclosure/disclosure.js";
import { LatestRequest } from "../request/request.js";
import { cardTable } from "../table/table.js";
import { CARRY } from "../../texts/carry.js";

/** @typedef {import("../../main.js").Context} Context */
/** @typedef {import("../../types.d.ts").ImportForm} ImportForm */
/** @typedef {import("../../types.d.ts").ImportView} ImportView */

/** Draws an SVG file's text as PNG; the picture is the page's own, so it leaves no trace on the canvas. @param {string} svg */
async function asPng(svg) {
  const address = URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" }));
  try {
    const picture = new Image();
    picture.src = address;
    await picture.decode();
    const canvas = h("canvas", { width: picture.naturalWidth, height: picture.naturalHeight });
    canvas.getContext("2d")?.drawImage(picture, 0, 0);
    const blob = await new Promise((done) => canvas.toBlob(done, "image/png"));
    return new Uint8Array(await /** @type {Blob} */ (blob).arrayBuffer());
  } finally {
    URL.revokeObjectURL(address);
  }
}

/** Text of a file: UTF-8, else as older spreadsheets write it. @param {File} file */
async function textOf(file) {
  const bytes = await file.arrayBuffer();
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder("windows-1252").decode(bytes);
  }
}

/** @param {Context} ctx @param {AbortSignal} signal */
export function carryScreen(ctx, signal) {
  const folder = h("input", {
    type: "text",
    id: "carry-folder",
    "data-part": "carry-folder",
    spellcheck: "false",
    "aria-describedby": "carry-folder-hint",
  });
  const file = h("input", {
    type: "file",
    id: "carry-file",
    accept: ".csv,.tsv,.txt,text/csv",
    "data-part": "carry-file",
    "aria-describedby": "carry-file-name",
  });
  const name = h("span", { id: "carry-file-name", "data-part": "carry-file-name" });
  const list = h(
    "select",
    { id: "carry-list", "data-part": "carry-list" },
    h("option", { value: "" }, CARRY.guess),
    // Pictures come in with their sittings; the rest is made from these.
    ["sittings", "warps", "wefts", "finishing", "readings", "weighings", "joins", "places", "plans"].map((name) =>
      h("option", { value: name }, CARRY.names[/** @type {"warps"} */ (name)]),
    ),
  );
  const warp = h("select", { id: "carry-warp", "data-part": "carry-warp" });
  const told = h("div", { class: "stack", "data-part": "import" });
  const said = h("p", { role: "status", class: "quiet" });
  const bar = h("progress", { "aria-label": CARRY.progress, max: 1 });
  const count = h("span", { class: "quiet" });
  const stop = button("stop-import", CARRY.stop, { class: "button" });
  const busy = h("div", { class: "carry-busy", "data-part": "import-busy", hidden: true }, bar, count, stop);
  const out = h("section", { class: "stack", "aria-labelledby": "carry-out" });
  /** @type {ImportForm} */
  const form = { text: "", list: "", columns: [], warp: "" };
  /** What is going on, from its first row to its last. @param {string} words */
  const begin = (words) => {
    said.textContent = words;
    count.textContent = "";
    bar.removeAttribute("value");
    busy.hidden = false;
    return (/** @type {import("../../shell.js").RowsDone} */ { done, of }) => {
      bar.max = Math.max(of, 1);
      bar.value = done;
      count.textContent = CARRY.rows(done, of);
      // From the last row on it is written, all at once.
      stop.hidden = done === of;
    };
  };
  const end = () => {
    busy.hidden = true;
    stop.hidden = false;
    said.textContent = "";
  };

  const take = (/** @type {string} */ what, /** @type {string} */ words) =>
    button("take-out", words, { class: "button", "data-what": what });
  const drawOut = () => {
    const { loom } = ctx.desk();
    morphChildren(out, [
      h("h2", { id: "carry-out" }, CARRY.out),
      h("p", { class: "quiet" }, CARRY.outLead),
      h("div", { class: "field", "data-key": "folder", "data-island": "folder" }),
      h("h3", null, CARRY.lists),
      h(
        "div",
        { class: "row" },
        Object.entries(CARRY.names).map(([what, words]) => take(what, words)),
      ),
      ...(loom
        ? [
            h("h3", null, CARRY.warp(loom.name)),
            h(
              "div",
              { class: "row" },
              take("sheet", CARRY.sheet),
              take("progress-png", CARRY.picture),
              take("progress", CARRY.pictureSvg),
            ),
          ]
        : []),
    ]);
    const place = /** @type {HTMLElement} */ (out.querySelector('[data-key="folder"]'));
    if (!place.contains(folder)) {
      place.replaceChildren(
        h("label", { for: folder.id }, CARRY.folder),
        h("p", { class: "hint", id: "carry-folder-hint" }, CARRY.folderHint),
        h("div", { class: "field-line" }, folder),
      );
    }
    const chosen = warp.value;
    warp.replaceChildren(
      h("option", { value: "" }, CARRY.noWarp),
      ...ctx
        .view()
        .warps.filter(({ state }) => state !== "removed")
        .map(({ id, name }) => h("option", { value: id, selected: id === chosen }, name)),
    );
  };

  /** @param {ImportView | null} view */
  const show = (view) => {
    if (!view) {
      told.replaceChildren();
      return;
    }
    const names = view.columns
      .filter(({ field }) => field !== "-")
      .map((column) => view.fields.find(({ field }) => field === column.field)?.label ?? column.heading);
    // Brought up to date, so that whoever goes through the columns by keyboard stays at hers.
    morphChildren(told, [
      h("p", { class: "headline", role: "status", "data-part": "import-line", "data-key": "line" }, view.line),
      disclosure(
        CARRY.columns,
        { open: true, "data-key": "columns" },
        h(
          "ul",
          { class: "carry-columns" },
          view.columns.map((column, at) =>
            h(
              "li",
              null,
              h("strong", null, column.heading || "–"),
              h("span", { class: "small quiet" }, column.sample ? CARRY.sample(column.sample) : ""),
              h(
                "select",
                { "data-column": at, "aria-label": CARRY.taken(column.heading), "data-part": "import-column" },
                view.fields.map(({ field, label }) =>
                  h("option", { value: field, selected: field === column.field }, label),
                ),
              ),
            ),
          ),
        ),
      ),
      ...(view.shown.length > 0
        ? [
            h(
              "div",
              { class: "import-scroll", tabindex: 0, role: "group", "aria-label": view.line, "data-key": "rows" },
              cardTable({
                name: "import-table",
                part: "import-rows",
                columns: names,
                rows: view.shown.map((cells) => ({ cells })),
                written: (text) => h("span", { class: "import-cell" }, text),
              }),
            ),
          ]
        : []),
      ...(view.refused.length > 0
        ? [
            disclosure(
              CARRY.refused,
              { open: true, "data-key": "refused" },
              h(
                "ul",
                { "data-part": "import-refused" },
                view.refused.map((row) =>
                  h("li", null, h("strong", null, `${CARRY.refusedLine(row.line)}: `), row.why),
                ),
              ),
            ),
          ]
        : []),
      ...(view.good > 0
        ? [button("bring-in", CARRY.bring, { class: "button", "data-part": "bring-in", "data-key": "bring" })]
        : []),
    ]);
    // What was chosen in a select does not follow its options any more.
    told.querySelectorAll("select").forEach((one, at) => (one.value = view.columns[at]?.field ?? "-"));
  };
  /** The columns stand, to be chosen otherwise; what was said of the rows does not hold. @param {import("../../shell.js").ErrorView} refusal */
  const showRefused = (refusal) => {
    for (const key of ["rows", "refused", "bring"]) told.querySelector(`[data-key="${key}"]`)?.remove();
    const line = told.querySelector('[data-key="line"]');
    if (line) line.textContent = refusal.sentence;
  };

  /** Whether only a column was chosen otherwise. */
  let isColumnChange = false;
  const preview = new LatestRequest({
    async ask(current) {
      // What is being read for an earlier look is not wanted any more.
      if (!busy.hidden) await ctx.shell.stopImport();
      const heard = begin(CARRY.reading);
      return ctx.shell.previewImport(form, (rows) => !current.aborted && heard(rows));
    },
    show(view) {
      show(view);
      end();
    },
    fail(refusal) {
      if (isColumnChange) showRefused(/** @type {import("../../types.d.ts").ErrorView} */ (refusal));
      else {
        show(null);
        ctx.complain(refusal);
      }
      end();
    },
    signal,
  });

  const element = h(
    "div",
    { class: "page stack carry" },
    h("h1", { tabindex: -1 }, CARRY.title),
    out,
    h(
      "section",
      { class: "stack", "aria-labelledby": "carry-in" },
      h("h2", { id: "carry-in" }, CARRY.in),
      h("p", { class: "quiet" }, CARRY.inLead),
      h("div", { class: "field-line" }, h("label", { class: "button file-button" }, CARRY.file, file), name),
      h("div", { class: "field" }, h("label", { for: list.id }, CARRY.list), h("div", { class: "field-line" }, list)),
      h(
        "div",
        { class: "field" },
        h("label", { for: warp.id }, CARRY.warpFor),
        h("div", { class: "field-line" }, warp),
      ),
      said,
      busy,
      told,
    ),
    h("a", { class: "link", href: "#/folder" }, CARRY.back),
  );

  element.addEventListener(
    "change",
    async (event) => {
      const hit = /** @type {HTMLElement} */ (event.target);
      if (hit === file && file.files?.[0]) {
        form.text = await textOf(file.files[0]);
        form.columns = [];
        // The same file, changed meanwhile, can be chosen again only when none is chosen.
        name.textContent = file.files[0].name;
        file.value = "";
      } else if (hit === list) {
        form.list = list.value;
        form.columns = [];
      } else if (hit === warp) form.warp = warp.value;
      else if (hit.dataset.column !== undefined) {
        form.columns = [.../** @type {NodeListOf<HTMLSelectElement>} */ (told.querySelectorAll("[data-column]"))].map(
          (one) => one.value,
        );
      } else return;
      isColumnChange = hit.dataset.column !== undefined;
      if (form.text) preview.now();
    },
    { signal },
  );
  element.addEventListener(
    "click",
    async (event) => {
      const hit = /** @type {HTMLElement | null} */ (/** @type {Element} */ (event.target).closest("[data-act]"));
      if (hit?.dataset.act === "take-out") {
        const { what = "" } = hit.dataset;
        const { loom } = ctx.view();
        const about = ["sheet", "progress", "progress-png"].includes(what) ? (loom?.id ?? null) : null;
        try {
          let path;
          if (what === "progress-png") {
            const svg = await ctx.shell.progressPicture(about ?? "");
            path = await ctx.shell.exportPicture(await asPng(svg), loom?.name ?? "", folder.value);
          } else path = await ctx.shell.export({ what, warp: about, split: "", folder: folder.value });
          if (path) ctx.say(CARRY.written(path));
        } catch (refusal) {
          ctx.complain(refusal);
        }
      } else if (hit?.dataset.act === "stop-import") {
        ctx.shell.stopImport();
      } else if (hit?.dataset.act === "bring-in") {
        const heard = begin(CARRY.writing);
        preview.cancel();
        try {
          const { view, import: imported } = await ctx.shell.import(form, heard);
          form.text = "";
          name.textContent = "";
          show(null);
          ctx.show(view);
          ctx.say(imported.line);
          // The button is gone that was pressed.
          file.focus();
        } catch (refusal) {
          ctx.complain(refusal);
        } finally {
          end();
        }
      }
    },
    { signal },
  );
  drawOut();
  return { element, update: drawOut };
}
