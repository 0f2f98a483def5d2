// Export and import on one screen.

import { h } from "../dom/dom.js";
import { CARRY } from "../../texts/carry.js";
import { ExportSection } from "./export.js";
import { ImportSection } from "./import.js";

/** @param {import("../../main.js").Context} ctx @param {AbortSignal} signal */
export function carryScreen(ctx, signal) {
  const exporting = new ExportSection(ctx, signal);
  const importing = new ImportSection(ctx, signal);
  const element = h(
    "div",
    { class: "page stack carry" },
    h("h1", { tabindex: -1 }, CARRY.title),
    exporting.element,
    importing.element,
    h("a", { class: "link", href: "#/folder" }, CARRY.back),
  );
  const update = () => {
    exporting.update();
    importing.update();
  };
  return { element, update };
}
