// What the tape says: a length, from where it was measured, how tight the warp was, and whether a mark was set there.

import { T } from "../../texts/texts.js";

/**
 * @template {import("./form.js").Values} V
 * @param {import("./form.js").Form<V>} form
 * @param {{ unit: string, label: string, hint?: string, mark: string }} words `mark` is the label of setting a mark
 */
export function tapeFields(form, { unit, label, hint, mark }) {
  return {
    measured: form.text({ name: "measured", label, hint, unit, what: "rough_length", keys: "decimal" }),
    markSet: form.check({ name: "mark_set", label: mark }),
    from: form.choice({
      name: "measured_from",
      label: T.sitting.from,
      fallback: "start",
      choices: [
        ["start", T.sitting.fromStart],
        ["mark", T.sitting.fromMark],
      ],
    }),
    tension: form.choice({
      name: "measured_tension",
      label: T.sitting.tension,
      fallback: "tight",
      choices: [
        ["tight", T.sitting.tight],
        ["relaxed", T.sitting.relaxed],
      ],
    }),
  };
}
