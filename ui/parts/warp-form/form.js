// The form of a warp: what is always known first, the rest behind disclosures.

import { folded, formEnd, section, wide } from "../form/fields.js";
import { Form } from "../form/form.js";
import { daysAWeek, fibreAndFinish, giftDay, minutesADay, warpPer100, weaveChoice } from "../form/warp-fields.js";
import { SequenceEditor } from "../sequence/sequence.js";
import { t } from "../../messages.js";

/** @typedef {import("../../types.d.ts").WarpForm} WarpValues */
/** @typedef {import("../../types.d.ts").FormatView} FormatView */
/** @typedef {import("../../main.js").Context} Context */
/** @typedef {Form<WarpValues>} WarpForm */

/**
 * @param {Context} ctx @param {AbortSignal} signal
 * @param {{ draft: string, values: WarpValues, saveLabel: string, save: (values: WarpValues) => Promise<void> }} options
 */
export function warpForm(ctx, signal, { draft, values, saveLabel, save }) {
  const { format } = ctx.view();
  const form = new Form({ id: "warp", draft, values, ctx, signal, submit: save });
  const sequence = new SequenceEditor(ctx, signal, form);
  form.element.append(
    form.general,
    form.text({ name: "name", label: t("name"), hint: t("warp_name_hint") }),
    clothSection(form, format),
    weftSection(form, format),
    giftDay(form),
    folded("warp-more-sequence", t("warp_sequence"), weaveChoice(form, ["", "plain", "pick_up"]), ...sequence.parts),
    piecesPart(form, format),
    daysPart(form),
    formEnd({ label: saveLabel, part: "warp-save" }),
  );
  sequence.draw();
  return form;
}

/** @param {WarpForm} form @param {FormatView} format */
function clothSection(form, format) {
  const unit = format.length_unit;
  const warpUse = {
    label: t("warp_take_up"),
    hint: t("warp_take_up_hint"),
    before: t("warp_take_up_before", { unit }),
    unit: t("warp_take_up_after", { unit }),
  };
  return section(
    t("warp_cloth"),
    lengthField(form, unit, "wound", t("warp_wound"), t("warp_wound_hint")),
    lengthField(form, unit, "waste", t("warp_waste"), t("warp_waste_hint")),
    form.text({
      name: "picks",
      label: t("warp_picks"),
      hint: t("warp_picks_hint", { unit }),
      unit: t("unit_picks_per", { unit }),
      what: "density",
      keys: "decimal",
    }),
    form.text({
      name: "wanted",
      label: t("warp_wanted"),
      hint: t("warp_wanted_hint", { unit }),
      unit,
      what: "lengths",
    }),
    // In which state the wanted length is measured stands beside it.
    wide(
      form.choice({
        name: "wanted_state",
        label: t("warp_wanted_state"),
        fallback: "finished",
        choices: [
          ["finished", t("warp_finished")],
          ["off_loom", t("warp_relaxed")],
          ["under_tension", t("warp_under_tension")],
        ],
      }),
    ),
    wide(warpPer100(form, warpUse)),
  );
}

/** @param {WarpForm} form @param {FormatView} format */
function weftSection(form, format) {
  return section(
    t("warp_weft"),
    lengthField(form, format.length_unit, "reed_width", t("warp_reed_width")),
    form.text({ name: "weft_name", label: t("warp_yarn") }),
    form.text({
      name: "weft_mass",
      label: t("yarns_weight"),
      hint: t("yarns_weight_hint"),
      unit: format.mass_unit,
      what: "rough_mass",
    }),
    form.text({
      name: "weft_length",
      label: t("yarns_length"),
      hint: t("yarns_length_hint"),
      what: "rough_yarn_length",
    }),
  );
}

/** @param {WarpForm} form @param {FormatView} format */
function piecesPart(form, format) {
  const unit = format.length_unit;
  return folded(
    "warp-more-pieces",
    t("warp_more_pieces"),
    form.text({ name: "pieces", label: t("warp_pieces"), hint: t("warp_pieces_hint"), keys: "numeric" }),
    percentField(form, "shrinkage_percent", t("warp_shrinkage")),
    ...fibreAndFinish(form),
    lengthField(form, unit, "fringe", t("warp_fringe")),
    form.check({ name: "fringe_from_waste", label: t("warp_fringe_from_waste") }),
    lengthField(form, unit, "gap", t("warp_gap"), t("warp_gap_hint")),
    percentField(form, "weft_allowance_percent", t("warp_weft_allowance"), t("warp_weft_allowance_hint")),
  );
}

/** Days of weaving, and who it is for. @param {WarpForm} form */
function daysPart(form) {
  return folded(
    "warp-more-people",
    t("warp_days"),
    form.day({ name: "begun_on", label: t("warp_started_on"), quick: true }),
    daysAWeek(form),
    minutesADay(form),
    form.text({ name: "weaving_days", label: t("warp_weaving_days"), hint: t("warp_weaving_days_hint") }),
    form.day({ name: "away_from", label: t("warp_away_from") }),
    form.day({ name: "away_until", label: t("warp_away_until") }),
    form.day({ name: "every_day_until", label: t("warp_every_day_until") }),
    form.check({ name: "for_child", label: t("warp_for_child") }),
    wide(form.area({ name: "note", label: t("note") })),
  );
}

/** @param {WarpForm} form @param {string} unit @param {string} name @param {string} label @param {string} [hint] */
function lengthField(form, unit, name, label, hint = "") {
  return form.text({ name, label, hint, unit, what: "length", keys: "decimal" });
}

/** @param {WarpForm} form @param {string} name @param {string} label @param {string} [hint] */
function percentField(form, name, label, hint = "") {
  return form.text({ name, label, hint, unit: "%", what: "percent", keys: "decimal" });
}
