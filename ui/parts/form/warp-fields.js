// Fields that the plan of a warp and the form of a warp have in common.

import { T } from "../../texts/texts.js";
import { wide } from "./fields.js";

/** @typedef {keyof typeof T.weave.names} Weave */

/**
 * How it is woven; the first weave is chosen when nothing was.
 * @template {import("./form.js").Values} V
 * @param {import("./form.js").Form<V>} form @param {Weave[]} weaves to choose from; an empty one is "not said"
 */
export function weaveChoice(form, weaves) {
  return wide(
    form.choice({
      name: "weave",
      label: T.weave.title,
      fallback: weaves[0],
      choices: weaves.map((weave) => [weave, T.weave.names[weave]]),
    }),
  );
}

/** The day of the gift. @template {import("./form.js").Values} V @param {import("./form.js").Form<V>} form */
export function giftDay(form) {
  return form.day({ name: "gift_on", label: T.warp.gift, hint: `${T.warp.giftHint} ${T.day.hint}` });
}

/** Weaving days in a week. @template {import("./form.js").Values} V @param {import("./form.js").Form<V>} form */
export function daysAWeek(form) {
  return form.text({ name: "days_a_week", label: T.warp.daysAWeek, keys: "decimal" });
}

/** Minutes of weaving on such a day. @template {import("./form.js").Values} V @param {import("./form.js").Form<V>} form */
export function minutesADay(form) {
  return form.text({ name: "minutes_a_day", label: T.warp.minutesADay, what: "minutes" });
}

/** Warp used for 100 of cloth. @template {import("./form.js").Values} V @param {import("./form.js").Form<V>} form @param {{ label: string, hint?: string, before: string, unit: string }} words */
export function warpPer100(form, words) {
  return form.text({ name: "warp_per_100", keys: "decimal", ...words });
}
