// What the tape says: a length, from where it was measured, how tight the warp was, and whether a mark was set there.

import { t } from "../../messages.js";

/**
 * @template {import("./form.js").Values} V
 * @param {import("./form.js").Form<V>} form
 * @param {{ unit: string, label: string, hint?: string, mark: string, markHint?: string }} words `mark` is the label of setting a mark
 */
export function tapeFields(form, { unit, label, hint, mark, markHint }) {
  return {
    measured: form.text({ name: "measured", label, hint, unit, what: "rough_length", keys: "decimal" }),
    markSet: form.check({ name: "mark_set", label: mark, hint: markHint }),
    from: form.choice({
      name: "measured_from",
      label: t("sitting_from"),
      fallback: "start",
      choices: [
        ["start", t("sitting_from_start")],
        ["mark", t("sitting_from_mark")],
      ],
    }),
    tension: form.choice({
      name: "measured_tension",
      label: t("sitting_tension"),
      fallback: "tight",
      choices: [
        ["tight", t("sitting_tight")],
        ["relaxed", t("sitting_relaxed")],
      ],
    }),
  };
}
