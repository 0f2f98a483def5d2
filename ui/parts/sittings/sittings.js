// The list of sittings, the latest first: what is known of each, to correct, to remove and to restore.

import { button, h } from "../dom/dom.js";
import { disclosure } from "../disclosure/disclosure.js";
import { recordList } from "../record-list/record-list.js";
import { photoTile } from "../photos/tile.js";
import { t } from "../../messages.js";

/** @typedef {import("../../types.d.ts").SittingLine} SittingLine */
/** @typedef {import("../../types.d.ts").LoomView} LoomView */

const FIRST = 8;

/** @param {SittingLine} sitting */
function photos(sitting) {
  if (sitting.photos.length === 0) return null;
  return h(
    "ul",
    { class: "sitting-photos" },
    sitting.photos.map((photo) =>
      h("li", { "data-key": photo.id }, photoTile(photo, t("photos_enlarge", { photo: photo.text }))),
    ),
  );
}

/** @param {SittingLine} sitting */
function sittingItem(sitting) {
  return h(
    "li",
    { "data-key": `row-${sitting.id}`, "data-part": "sitting", "data-sitting": sitting.id },
    h(
      "details",
      { id: `sitting-${sitting.id}`, class: "sitting" },
      h(
        "summary",
        { "data-part": "sitting-summary" },
        h("span", { class: "sitting-day" }, sitting.day),
        h("span", { class: "sitting-line" }, sitting.line),
        sitting.photos.length > 0 &&
          h("span", { class: "small quiet" }, t("sittings_photos", { count: sitting.photos.length })),
      ),
      h(
        "div",
        { class: "sitting-body" },
        sitting.contested && h("p", { class: "trouble" }, t("sittings_contested")),
        sitting.note && h("p", { class: "sitting-note" }, sitting.note),
        photos(sitting),
        h("p", { class: "small quiet" }, t("sittings_saved_on", { device: sitting.device })),
        h(
          "div",
          { class: "row" },
          h(
            "a",
            { class: "button", href: `#/sitting/${sitting.id}`, "data-part": "sitting-correct" },
            t("sittings_correct"),
            h("span", { class: "hidden-words" }, `: ${sitting.day}`),
          ),
          h(
            "label",
            { class: "button file-button" },
            t("sittings_add_photos"),
            h("input", {
              type: "file",
              accept: "image/*",
              multiple: true,
              "data-photos-for": sitting.id,
              "data-part": "sitting-photos",
            }),
          ),
          button("remove-sitting", t("remove"), { class: "link", "data-record": sitting.id }),
        ),
      ),
    ),
  );
}

/** @param {LoomView} loom @param {boolean} all */
export function sittings(loom, all) {
  const shown = all ? loom.sittings : loom.sittings.slice(0, FIRST);
  return h(
    "section",
    { class: "sittings", "aria-labelledby": "sittings-title", "data-key": "sittings" },
    h(
      "div",
      { class: "sittings-head", "data-key": "sittings-head" },
      h("h2", { id: "sittings-title" }, t("sittings_title")),
      loom.state !== "removed" &&
        h("a", { class: "link", href: "#/log", "data-part": "log" }, t("loom_add_past_sitting")),
    ),
    loom.sittings.length === 0 && h("p", { class: "quiet", "data-key": "no-sitting" }, t("sittings_none")),
    h("ol", { class: "sitting-list", "data-part": "sittings", "data-key": "sitting-list" }, shown.map(sittingItem)),
    shown.length < loom.sittings.length &&
      button("all-sittings", t("sittings_show_all", { count: loom.sittings.length }), {
        class: "link no-print",
        "data-key": "all-sittings",
      }),
    loom.removed.length > 0 &&
      disclosure(
        t("sittings_removed", { count: loom.removed.length }),
        { class: "removed no-print", "data-part": "removed-sittings", "data-key": "removed" },
        recordList(
          loom.removed.map(({ id, day, line }) => ({ id, words: `${day}: ${line}`, about: day })),
          { act: "restore-sitting", label: t("restore") },
        ),
      ),
  );
}
