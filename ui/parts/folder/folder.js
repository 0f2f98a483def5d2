// The folder: where it is, its state, the devices that write into it; and the settings of this device.

import { morphChildren, button, closestTarget, h, placeIsland } from "../dom/dom.js";
import { disclosure } from "../disclosure/disclosure.js";
import { help } from "../guide/help.js";
import { t } from "../../messages.js";
import { MarkAgain } from "./mark-again.js";
import { DeviceName, UnitChoice } from "./settings.js";

/** @typedef {import("../../types.d.ts").FolderView} FolderView */
/** @typedef {import("../../main.js").Context} Context */

/** Keys, and what they do. */
const KEYS = /** @type {const} */ ([
  ["folder_keys_pick", "folder_keys_pick_does"],
  ["folder_keys_back", "folder_keys_back_does"],
  ["folder_keys_not_beaten", "folder_keys_not_beaten_does"],
  ["folder_keys_undo", "folder_keys_undo_does"],
  ["folder_keys_arrows", "folder_keys_arrows_does"],
]);

/** @param {Context} ctx @param {AbortSignal} signal */
export function folderScreen(ctx, signal) {
  const element = h("div", { class: "page stack folder" });
  const name = new DeviceName(ctx, signal);
  const units = new UnitChoice(ctx, signal, "units");
  const weights = new UnitChoice(ctx, signal, "weights");
  const markAgain = new MarkAgain(ctx, signal);
  /** @param {import("../../types.d.ts").AppView} view */
  const update = ({ folder, format }) => {
    if (!folder) return;
    morphChildren(element, sections(folder));
    if (folder.unmarked) placeIsland(element, "mark", markAgain.element);
    markAgain.update(folder);
    placeIsland(element, "name", name.element);
    placeIsland(element, "units", units.element);
    placeIsland(element, "weights", weights.element);
    name.update(folder.device);
    units.update(format.units);
    weights.update(format.weights);
  };
  element.addEventListener("click", (event) => act(ctx, event), { signal });
  update(ctx.view());
  return { element, update };
}

/** @param {Context} ctx @param {Event} event */
function act(ctx, event) {
  const action = closestTarget(event, "[data-act]")?.dataset.act;
  if (action === "write-back") ctx.attempt(ctx.shell.writeBack(), t("folder_written_back"));
  else if (action === "choose") ctx.attempt(ctx.shell.chooseFolder(), "");
  else if (action === "leave") {
    const isExample = ctx.view().folder?.example;
    ctx.attempt(ctx.shell.closeFolder(), isExample ? "" : t("folder_closed"));
  }
}

/** @param {FolderView} folder */
function sections(folder) {
  return [
    h("h1", { tabindex: -1 }, t("folder")),
    h(
      "section",
      { "data-key": "where" },
      h("h2", null, t("folder_path")),
      h("p", { class: "path", "data-part": "folder-path" }, folder.path),
    ),
    stateSection(folder),
    devicesSection(folder),
    h("form", { "data-key": "name" }),
    h("fieldset", { "data-key": "units" }),
    h("fieldset", { "data-key": "weights" }),
    leaveSection(folder),
    h(
      "section",
      { "data-key": "guide" },
      h("h2", null, t("guide")),
      h("p", null, h("a", { class: "link", href: "#/guide", "data-part": "guide" }, t("guide_and_about"))),
      help("backup", "deleting"),
    ),
    disclosure(
      t("folder_keys"),
      { "data-key": "keys", "data-part": "keys" },
      h(
        "dl",
        null,
        KEYS.flatMap(([keys, does]) => [h("dt", null, t(keys)), h("dd", null, t(does))]),
      ),
    ),
  ];
}

/** @param {FolderView} folder */
function stateSection(folder) {
  const needsRepair = (folder.attention || folder.problems.length > 0) && !folder.unmarked;
  return h(
    "section",
    { "data-key": "state" },
    h("h2", null, t("folder_status")),
    h("p", { "data-part": "folder-line", class: folder.attention ? "trouble" : null }, folder.line),
    folder.waiting > 0 &&
      h("p", { "data-part": "folder-waiting", "data-key": "waiting" }, t("folder_waiting", { count: folder.waiting })),
    folder.problems.length > 0 && problemList(folder.problems),
    folder.unmarked && h("div", { "data-key": "mark" }),
    needsRepair && button("write-back", t("folder_write_back"), { class: "button", "data-key": "write-back" }),
  );
}

/** @param {FolderView["problems"]} problems */
function problemList(problems) {
  const item = (/** @type {FolderView["problems"][number]} */ { file, what, advice }) =>
    h(
      "li",
      { "data-key": file, class: "problem" },
      h("p", { class: "path" }, file),
      h("p", null, what),
      h("p", null, advice),
    );
  return h(
    "div",
    { "data-key": "problems", "data-part": "problems" },
    h("h3", null, t("folder_problems")),
    h("ul", null, problems.map(item)),
  );
}

/** @param {FolderView} folder */
function devicesSection({ devices }) {
  const item = (/** @type {FolderView["devices"][number]} */ device) =>
    h(
      "li",
      null,
      h("strong", null, device.name),
      device.this_one ? ` (${t("folder_this_device")})` : "",
      h("span", { class: "quiet" }, ` ${device.last_wrote}`),
    );
  return h(
    "section",
    { "data-key": "devices" },
    h("h2", null, t("folder_devices")),
    h("ul", { "data-part": "devices" }, devices.map(item)),
    help("two-devices"),
  );
}

/** @param {FolderView} folder */
function leaveSection({ example }) {
  return h(
    "section",
    { "data-key": "leave" },
    h("p", null, h("a", { class: "link", href: "#/export-import", "data-part": "export-import" }, t("export_import"))),
    h(
      "div",
      { class: "row" },
      button("choose", t("folder_choose_another"), { class: "button" }),
      button("leave", example ? t("close_sample") : t("folder_close"), { class: "link" }),
    ),
    h("p", { class: "small quiet" }, example ? t("folder_close_sample_hint") : t("folder_close_hint")),
  );
}
