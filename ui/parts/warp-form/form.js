// The form of a warp: what is always known first, the rest behind disclosures.

import { folded, formEnd, section, wide } from "../form/fields.js";
import { Form } from "../form/form.js";
import { daysAWeek, giftDay, minutesADay, warpPer100, weaveChoice } from "../form/warp-fields.js";
import { SequenceEditor } from "../sequence/sequence.js";
import { T } from "../../texts/texts.js";

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
    form.text({ name: "name", label: T.warp.name, hint: T.warp.nameHint }),
    clothSection(form, format),
    weftSection(form, format),
    giftDay(form),
    folded("warp-more-sequence", T.warp.sequence, weaveChoice(form, ["", "plain", "pick_up"]), ...sequence.parts),
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
  const density = format.density_unit;
  const warpUse = {
    label: T.warp.takeUp,
    hint: T.warp.takeUpHint,
    before: T.warp.takeUpBefore(unit),
    unit: T.warp.takeUpAfter(unit),
  };
  const picksHint = T.warp.picksHint(density);
  return section(
    T.warp.cloth,
    lengthField(form, unit, "wound", T.warp.wound, T.warp.woundHint),
    lengthField(form, unit, "waste", T.warp.waste, T.warp.wasteHint),
    form.text({
      name: "picks",
      label: T.warp.picks,
      hint: picksHint,
      unit: density,
      what: "density",
      keys: "decimal",
    }),
    form.text({ name: "wanted", label: T.warp.wanted, hint: T.warp.wantedHint(unit), unit, what: "lengths" }),
    // In which state the wanted length is measured stands beside it.
    wide(
      form.choice({
        name: "wanted_state",
        label: T.warp.wantedState,
        fallback: "finished",
        choices: [
          ["finished", T.warp.finished],
          ["off_loom", T.warp.offLoom],
          ["under_tension", T.warp.underTension],
        ],
      }),
    ),
    wide(warpPer100(form, warpUse)),
  );
}

/** @param {WarpForm} form @param {FormatView} format */
function weftSection(form, format) {
  const { mass, massHint, length, lengthHint } = T.warp;
  return section(
    T.warp.weft,
    lengthField(form, format.length_unit, "reed_width", T.warp.reed),
    form.text({ name: "weft_name", label: T.warp.weftName }),
    form.text({ name: "weft_mass", label: mass, hint: massHint, unit: format.mass_unit, what: "rough_mass" }),
    form.text({ name: "weft_length", label: length, hint: lengthHint, what: "rough_yarn_length" }),
  );
}

/** @param {WarpForm} form @param {FormatView} format */
function piecesPart(form, format) {
  const unit = format.length_unit;
  return folded(
    "warp-more-pieces",
    T.warp.more,
    form.text({ name: "pieces", label: T.warp.pieces, hint: T.warp.piecesHint, keys: "numeric" }),
    percentField(form, "shrinkage_percent", T.warp.shrinkage),
    lengthField(form, unit, "fringe", T.warp.fringe),
    form.check({ name: "fringe_from_waste", label: T.warp.fringeWaste }),
    lengthField(form, unit, "gap", T.warp.gap, T.warp.gapHint),
    percentField(form, "weft_allowance_percent", T.warp.allowance, T.warp.allowanceHint),
  );
}

/** Days of weaving, and who it is for. @param {WarpForm} form */
function daysPart(form) {
  return folded(
    "warp-more-people",
    T.warp.people,
    form.day({ name: "begun_on", label: T.warp.begun, quick: true }),
    daysAWeek(form),
    minutesADay(form),
    form.text({ name: "weaving_days", label: T.warp.weavingDays, hint: T.warp.weavingDaysHint }),
    form.day({ name: "away_from", label: T.warp.awayFrom }),
    form.day({ name: "away_until", label: T.warp.awayUntil }),
    form.day({ name: "every_day_until", label: T.warp.everyDayUntil }),
    form.check({ name: "for_child", label: T.warp.child }),
    wide(form.area({ name: "note", label: T.warp.note })),
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
