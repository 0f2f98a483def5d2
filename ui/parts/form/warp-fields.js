// Fields that the plan of a warp and the form of a warp have in common.

import { t } from "../../messages.js";
import { wide } from "./fields.js";

/** @typedef {keyof typeof WEAVES} Weave */

const WEAVES = /** @type {const} */ ({
  "": "warp_weave_unset",
  plain: "warp_weave_plain",
  twill: "warp_weave_twill",
  pick_up: "warp_weave_pick_up",
});

/**
 * How it is woven; the first weave is chosen when nothing was.
 * @template {import("./form.js").Values} V
 * @param {import("./form.js").Form<V>} form @param {Weave[]} weaves to choose from; an empty one is "not said"
 */
export function weaveChoice(form, weaves) {
  return wide(
    form.choice({
      name: "weave",
      label: t("warp_weave"),
      fallback: weaves[0],
      choices: weaves.map((weave) => [weave, t(WEAVES[weave])]),
    }),
  );
}

const FIBRES = /** @type {const} */ ([
  ["", "warp_fibre_unset"],
  ["cotton", "warp_fibre_cotton"],
  ["linen", "warp_fibre_linen"],
  ["cottolin", "warp_fibre_cottolin"],
  ["wool", "warp_fibre_wool"],
  ["silk", "warp_fibre_silk"],
  ["viscose", "warp_fibre_viscose"],
  ["acrylic", "warp_fibre_acrylic"],
]);

/** Fibre and finish. @template {import("./form.js").Values} V @param {import("./form.js").Form<V>} form */
export function fibreAndFinish(form) {
  return [
    wide(
      form.choice({
        name: "fibre",
        label: t("warp_fibre"),
        fallback: "",
        choices: FIBRES.map(([fibre, name]) => [fibre, t(name)]),
      }),
    ),
    wide(
      form.choice({
        name: "finish",
        label: t("warp_finish"),
        fallback: "washed",
        choices: [
          ["washed", t("warp_finish_washed")],
          ["fulled", t("warp_finish_fulled")],
        ],
      }),
    ),
  ];
}

/** The day of the gift. @template {import("./form.js").Values} V @param {import("./form.js").Form<V>} form */
export function giftDay(form) {
  return form.day({
    name: "gift_on",
    label: t("warp_gift_day"),
    hint: `${t("warp_gift_day_hint")} ${t("day_hint")}`,
  });
}

/** Weaving days in a week. @template {import("./form.js").Values} V @param {import("./form.js").Form<V>} form */
export function daysAWeek(form) {
  return form.text({ name: "days_a_week", label: t("warp_days_a_week"), keys: "decimal" });
}

/** Minutes of weaving on such a day. @template {import("./form.js").Values} V @param {import("./form.js").Form<V>} form */
export function minutesADay(form) {
  return form.text({ name: "minutes_a_day", label: t("warp_minutes_a_day"), what: "minutes" });
}

/** Warp used for 100 of cloth. @template {import("./form.js").Values} V @param {import("./form.js").Form<V>} form @param {{ label: string, hint?: string, before: string, unit: string }} words */
export function warpPer100(form, words) {
  return form.text({ name: "warp_per_100", keys: "decimal", ...words });
}
