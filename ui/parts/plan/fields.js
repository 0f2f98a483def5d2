// The fields of a plan, in the order in which a weaver thinks of them; what is seldom known lies behind disclosures.

import { h } from "../dom/dom.js";
import { disclosure } from "../disclosure/disclosure.js";
import { P } from "../../texts/plan.js";
import { T } from "../../texts/texts.js";

/** @typedef {import("../form/form.js").Form<import("../../types.d.ts").PlanForm>} Form */

/** @param {Form} form @param {"wish" | "yarn"} way @param {import("../../types.d.ts").FormatView} format */
export function planFields(form, way, format) {
  const unit = format.length_unit;
  const per = format.density_unit.replace("picks ", "");
  /** @param {string} name @param {HTMLElement} field */
  const offering = (name, field) => {
    field.append(h("div", { class: "offers", "data-offers": name, "data-part": `plan-offers-${name}` }));
    return field;
  };
  /** A place for what the measure was understood as. @param {string} name @param {HTMLElement} field */
  const measured = (name, field) => {
    field
      .querySelector(".field-line")
      ?.after(h("p", { class: "understood", "data-understood": name, "data-part": `plan-${name}-understood` }));
    return field;
  };
  const wide = (/** @type {HTMLElement} */ field) => {
    field.classList.add("wide");
    return field;
  };
  const length = (/** @type {string} */ name, /** @type {string} */ label, hint = "") =>
    measured(name, form.text({ name, label, hint, unit, keys: "text" }));
  const percent = (/** @type {string} */ name, /** @type {string} */ label, hint = "") =>
    offering(name, form.text({ name, label, hint, unit: "%", keys: "decimal" }));
  const text = (/** @type {string} */ name, /** @type {string} */ label, hint = "", behind = "") =>
    form.text({ name, label, hint, unit: behind || undefined });
  const whole = (/** @type {string} */ name, /** @type {string} */ label) =>
    form.text({ name, label, keys: "numeric" });
  const choice = (
    /** @type {string} */ name,
    /** @type {string} */ label,
    /** @type {[string, string][]} */ choices,
    fallback = choices[0][0],
  ) => wide(form.choice({ name, label, choices, fallback }));
  const section = (/** @type {string} */ title, /** @type {(HTMLElement | null)[]} */ ...fields) =>
    h("section", null, h("h2", null, title), h("div", { class: "form-grid" }, fields));
  const more = (
    /** @type {string} */ part,
    /** @type {string} */ title,
    /** @type {(HTMLElement | null)[]} */ ...fields
  ) => disclosure(title, { "data-part": `plan-more-${part}` }, h("div", { class: "form-grid" }, fields));

  const edges = [
    choice("edge", P.edge, [
      ["none", P.none],
      ["fringe", P.fringe],
      ["hem", P.hem],
    ]),
    length("edge_length", P.edgeLength, P.edgeHint),
    form.check({ name: "fringe_from_waste", label: P.fringeWaste }),
  ];
  /** @type {[string, string][]} */
  const sure = [
    ["label", P.label],
    ["measured", P.measured],
    ["rough", P.rough],
  ];
  const mass = (/** @type {string} */ name, /** @type {string} */ label) =>
    measured(name, form.text({ name, label, hint: P.massHint, unit: format.mass_unit }));

  const first =
    way === "yarn"
      ? [
          section(
            P.yarnTitle,
            wide(form.check({ name: "one_yarn", label: P.oneYarn })),
            measured("warp_have", text("warp_have", P.warpHave, P.haveHint)),
            mass("warp_mass", P.warpMass),
            text("warp_count", P.warpCount, P.countHint),
            choice("warp_sure", P.sure, sure),
            measured("weft_have", text("weft_have", P.weftHave, P.haveHint)),
            mass("weft_mass", P.weftMass),
            text("weft_count", P.weftCount, P.weftCountHint),
            choice("weft_sure", P.sure, sure),
          ),
          section(
            P.piece,
            length("width", P.chosenWidth, P.chosenWidthHint),
            length("length", P.orLength, P.orLengthHint),
            whole("pieces", P.pieces),
            offering("loom_width", length("loom_width", P.loom, P.loomHint)),
            ...edges,
          ),
        ]
      : [
          section(
            P.piece,
            length("length", P.length, P.lengthHint),
            length("width", P.width, P.widthHint),
            ...edges,
            whole("pieces", P.pieces),
            measured("further", text("further", P.further, P.furtherHint(unit))),
          ),
        ];
  const counts =
    way === "yarn"
      ? []
      : [text("warp_count", P.warpCount, P.countHint), text("weft_count", P.weftCount, P.weftCountHint)];
  form.element.append(
    form.general,
    ...first,
    section(
      P.threads,
      offering("sett", text("sett", P.sett, P.settHint(per))),
      offering("picks", text("picks", P.picks, P.picksHint(format.density_unit))),
      ...counts,
      text("weft_name", P.weftName, P.weftNameHint),
      choice("weave", P.weave, [
        ["plain", P.plain],
        ["twill", P.twill],
        ["pick_up", P.pickUp],
      ]),
      wide(
        more(
          "sett",
          P.settHelp,
          text("wraps", P.wraps, P.wrapsHint(per)),
          choice("k", P.k, [
            ["usual", P.kUsual],
            ["soft", P.kSoft],
            ["cotton", P.kCotton],
          ]),
          way === "wish" ? length("reed_width", P.reed, P.reedHint) : null,
        ),
      ),
    ),
    section(
      P.loomTitle,
      wide(offering("waste", length("waste", P.waste, P.wasteHint))),
      length("header", P.header),
      length("sample", P.sample),
      length("gap", P.gap, P.gapHint),
    ),
    more(
      "changes",
      P.changes,
      wide(
        offering(
          "warp_per_100",
          form.text({
            name: "warp_per_100",
            label: P.takeUp,
            before: P.takeUpBefore(unit),
            unit: P.takeUpAfter(unit),
            keys: "decimal",
          }),
        ),
      ),
      choice("take_up_of", P.takeUpOf, [
        ["off_loom", P.offLoom],
        ["under_tension", P.tight],
      ]),
      percent("shrinkage_percent", P.shrinkage),
      percent("release_percent", P.release, P.releaseHint),
      percent("draw_in_percent", P.drawIn),
      percent("width_shrinkage_percent", P.widthLoss),
      percent("weft_allowance_percent", P.allowance),
    ),
    more(
      "sample",
      P.fromSample,
      wide(h("p", { class: "quiet" }, P.sampleHint)),
      length("sample_warp", P.sampleWarp),
      length("sample_reed", P.sampleReed),
      length("sample_length", P.sampleLength),
      length("sample_width", P.sampleWidth),
      length("sample_length_washed", P.sampleLengthWashed),
      length("sample_width_washed", P.sampleWidthWashed),
    ),
    more(
      "sequence",
      P.sequence,
      wide(h("p", { class: "quiet" }, T.warp.sequenceHint)),
      form.area({ name: "repeat", label: T.warp.repeat, lines: 5 }),
      form.area({ name: "opening", label: T.warp.opening, lines: 5 }),
      form.area({ name: "balance", label: T.warp.balance }),
      form.area({ name: "closing", label: T.warp.closing }),
    ),
    more(
      "days",
      P.days,
      form.day({ name: "gift_on", label: T.warp.gift, hint: `${T.warp.giftHint} ${T.day.hint}` }),
      form.text({ name: "days_a_week", label: T.warp.daysAWeek, keys: "decimal" }),
    ),
    form.text({ name: "name", label: P.name, hint: P.nameHint }),
  );
}
