// Export and import on one screen.

import { h } from "../dom/dom.js";
import { help } from "../guide/help.js";
import { t } from "../../messages.js";
import { ExportSection } from "./export.js";
import { ImportSection } from "./import.js";

/** @param {import("../../main.js").Context} ctx @param {AbortSignal} signal */
export function exportImportScreen(ctx, signal) {
  const exporting = new ExportSection(ctx, signal);
  const importing = new ImportSection(ctx, signal);
  const element = h(
    "div",
    { class: "page stack export-import" },
    h("h1", { tabindex: -1 }, t("export_import")),
    help("backup"),
    exporting.element,
    importing.element,
    h("a", { class: "link", href: "#/folder" }, t("export_import_back")),
  );
  const update = () => {
    exporting.update();
    importing.update();
  };
  return { element, update };
}
