// The fields of a plan, in the order in which a weaver thinks of them; what is seldom known is behind disclosures.

import { h } from "../dom/dom.js";
import { folded, section, wide } from "../form/fields.js";
import { daysAWeek, giftDay, minutesADay, warpPer100, weaveChoice } from "../form/warp-fields.js";
import { P } from "../../texts/plan.js";
import { T } from "../../texts/texts.js";

/** @typedef {import("../form/form.js").Form<import("../../types.d.ts").PlanForm>} Form */

/** @param {Form} form @param {"wish" | "yarn"} way @param {import("../../types.d.ts").FormatView} format */
export function planFields(form, way, format) {
  const fields = new PlanFields(form, format);
  form.element.append(
    form.general,
    ...(way === "yarn" ? fields.fromYarn() : fields.fromWish()),
    fields.threads(way),
    fields.loom(),
    fields.changes(),
    fields.sample(),
    fields.sequence(),
    folded("plan-more-days", P.days, giftDay(form), daysAWeek(form), minutesADay(form)),
    form.text({ name: "name", label: P.name, hint: P.nameHint }),
  );
}

class PlanFields {
  /** @param {Form} form @param {import("../../types.d.ts").FormatView} format */
  constructor(form, format) {
    this.form = form;
    this.format = format;
    /** Unit of counts on a length: "per 10 cm". */
    this.perLength = format.density_unit.replace("picks ", "");
  }

  /** What the yarn is enough for. */
  fromYarn() {
    return [
      section(
        P.yarnTitle,
        wide(this.form.check({ name: "one_yarn", label: P.oneYarn })),
        this.#echoed("warp_have", P.warpHave, P.haveHint),
        this.#mass("warp_mass", P.warpMass),
        this.#echoed("warp_count", P.warpCount, P.countHint),
        this.#certainty("warp_sure"),
        this.#echoed("weft_have", P.weftHave, P.haveHint),
        this.#mass("weft_mass", P.weftMass),
        this.#echoed("weft_count", P.weftCount, P.weftCountHint),
        this.#certainty("weft_sure"),
      ),
      section(
        P.piece,
        this.#length("width", P.chosenWidth, P.chosenWidthHint),
        this.#length("length", P.orLength, P.orLengthHint),
        this.#pieces(),
        withOffers("loom_width", this.#length("loom_width", P.loom, P.loomHint)),
        ...this.#edges(),
      ),
    ];
  }

  /** The piece that is wished for. */
  fromWish() {
    const furtherHint = P.furtherHint(this.format.length_unit);
    return [
      section(
        P.piece,
        this.#length("length", P.length, P.lengthHint),
        this.#length("width", P.width, P.widthHint),
        ...this.#edges(),
        this.#pieces(),
        this.#echoed("further", P.further, furtherHint),
      ),
    ];
  }

  /** @param {"wish" | "yarn"} way */
  threads(way) {
    const settHint = P.settHint(this.perLength);
    const picksHint = P.picksHint(this.format.density_unit);
    // From the yarn, the counts stand with the yarn.
    const counts =
      way === "yarn"
        ? []
        : [this.#echoed("warp_count", P.warpCount, P.countHint), this.#echoed("weft_count", P.weftCount, P.weftCountHint)];
    return section(
      P.threads,
      withOffers("sett", this.#echoed("sett", P.sett, settHint)),
      withOffers("picks", this.#echoed("picks", P.picks, picksHint)),
      ...counts,
      this.#text("weft_name", P.weftName, P.weftNameHint),
      weaveChoice(this.form, ["plain", "twill", "pick_up"]),
      wide(this.#settHelp(way)),
    );
  }

  /** A sett from wraps or from the yarn. @param {"wish" | "yarn"} way */
  #settHelp(way) {
    return folded(
      "plan-more-sett",
      P.settHelp,
      this.#echoed("wraps", P.wraps, P.wrapsHint(this.perLength)),
      this.#choice("k", P.k, [
        ["usual", P.kUsual],
        ["soft", P.kSoft],
        ["cotton", P.kCotton],
      ]),
      way === "wish" ? this.#length("reed_width", P.reed, P.reedHint) : null,
    );
  }

  loom() {
    return section(
      P.loomTitle,
      wide(withOffers("waste", this.#length("waste", P.waste, P.wasteHint))),
      this.#length("header", P.header),
      this.#length("sample", P.sample),
      this.#length("gap", P.gap, P.gapHint),
    );
  }

  /** Take-up, shrinkage and draw-in. */
  changes() {
    const unit = this.format.length_unit;
    const words = { label: P.takeUp, before: P.takeUpBefore(unit), unit: P.takeUpAfter(unit) };
    return folded(
      "plan-more-changes",
      P.changes,
      wide(withOffers("warp_per_100", warpPer100(this.form, words))),
      this.#choice("take_up_of", P.takeUpOf, [
        ["off_loom", P.offLoom],
        ["under_tension", P.tight],
      ]),
      this.#percent("shrinkage_percent", P.shrinkage),
      this.#percent("release_percent", P.release, P.releaseHint),
      this.#percent("draw_in_percent", P.drawIn),
      this.#percent("width_shrinkage_percent", P.widthLoss),
      this.#percent("weft_allowance_percent", P.allowance),
    );
  }

  /** The measures of a sample, from which the changes are calculated. */
  sample() {
    return folded(
      "plan-more-sample",
      P.fromSample,
      wide(h("p", { class: "quiet" }, P.sampleHint)),
      this.#length("sample_warp", P.sampleWarp),
      this.#length("sample_reed", P.sampleReed),
      this.#length("sample_length", P.sampleLength),
      this.#length("sample_width", P.sampleWidth),
      this.#length("sample_length_washed", P.sampleLengthWashed),
      this.#length("sample_width_washed", P.sampleWidthWashed),
    );
  }

  sequence() {
    const { form } = this;
    return folded(
      "plan-more-sequence",
      P.sequence,
      wide(h("p", { class: "quiet" }, T.warp.sequenceHint)),
      form.area({ name: "repeat", label: T.warp.repeat, lines: 5 }),
      form.area({ name: "opening", label: T.warp.opening, lines: 5 }),
      form.area({ name: "balance", label: T.warp.balance }),
      form.area({ name: "closing", label: T.warp.closing }),
    );
  }

  #edges() {
    return [
      this.#choice("edge", P.edge, [
        ["none", P.none],
        ["fringe", P.fringe],
        ["hem", P.hem],
      ]),
      this.#length("edge_length", P.edgeLength, P.edgeHint),
      this.form.check({ name: "fringe_from_waste", label: P.fringeWaste }),
    ];
  }

  #pieces() {
    return this.form.text({ name: "pieces", label: P.pieces, keys: "numeric" });
  }

  /** How the length of a yarn is known. @param {string} name */
  #certainty(name) {
    return this.#choice(name, P.sure, [
      ["label", P.label],
      ["measured", P.measured],
      ["rough", P.rough],
    ]);
  }

  /** @param {string} name @param {string} label @param {string} [hint] */
  #text(name, label, hint = "") {
    return this.form.text({ name, label, hint });
  }

  /** A text with the place for how it was understood. @param {string} name @param {string} label @param {string} [hint] */
  #echoed(name, label, hint) {
    return showsUnderstood(name, this.#text(name, label, hint));
  }

  /** @param {string} name @param {string} label @param {string} [hint] */
  #length(name, label, hint = "") {
    const field = this.form.text({ name, label, hint, unit: this.format.length_unit, keys: "text" });
    return showsUnderstood(name, field);
  }

  /** @param {string} name @param {string} label */
  #mass(name, label) {
    return showsUnderstood(name, this.form.text({ name, label, hint: P.massHint, unit: this.format.mass_unit }));
  }

  /** @param {string} name @param {string} label @param {string} [hint] */
  #percent(name, label, hint = "") {
    return withOffers(name, this.form.text({ name, label, hint, unit: "%", keys: "decimal" }));
  }

  /** The first choice is taken when nothing is chosen. @param {string} name @param {string} label @param {[string, string][]} choices */
  #choice(name, label, choices) {
    return wide(this.form.choice({ name, label, choices, fallback: choices[0][0] }));
  }
}

/** Adds the place for figures that earlier warps offer. @param {string} name @param {HTMLElement} field */
function withOffers(name, field) {
  field.append(h("div", { class: "offers", "data-offers": name, "data-part": `plan-offers-${name}` }));
  return field;
}

/** Adds the place for how a measure was understood. @param {string} name @param {HTMLElement} field */
function showsUnderstood(name, field) {
  const place = h("p", { class: "understood", "data-understood": name, "data-part": `plan-${name}-understood` });
  field.querySelector(".field-line")?.after(place);
  return field;
}
