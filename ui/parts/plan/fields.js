// The fields of a plan, in the order in which a weaver thinks of them; what is seldom known is behind disclosures.

import { h } from "../dom/dom.js";
import { folded, section, wide } from "../form/fields.js";
import { daysAWeek, fibreAndFinish, giftDay, minutesADay, warpPer100, weaveChoice } from "../form/warp-fields.js";
import { t } from "../../messages.js";

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
    folded("plan-more-days", t("plan_days"), giftDay(form), daysAWeek(form), minutesADay(form)),
    form.text({ name: "name", label: t("name"), hint: t("plan_name_hint") }),
  );
}

class PlanFields {
  /** @param {Form} form @param {import("../../types.d.ts").FormatView} format */
  constructor(form, format) {
    this.form = form;
    this.format = format;
  }

  /** What the yarn is enough for. */
  fromYarn() {
    return [
      section(
        t("plan_yarn"),
        wide(this.form.check({ name: "one_yarn", label: t("plan_one_yarn") })),
        this.#echoed("warp_have", t("plan_warp_length"), t("plan_yarn_length_hint")),
        this.#mass("warp_mass", t("plan_warp_weight")),
        this.#echoed("warp_count", t("plan_warp_size"), t("plan_warp_size_hint")),
        this.#certainty("warp_sure"),
        this.#echoed("weft_have", t("plan_weft_length"), t("plan_yarn_length_hint")),
        this.#mass("weft_mass", t("plan_weft_weight")),
        this.#echoed("weft_count", t("plan_weft_size"), t("plan_weft_size_hint")),
        this.#certainty("weft_sure"),
      ),
      section(
        t("plan_piece"),
        this.#length("width", t("plan_finished_width"), t("plan_finished_width_hint")),
        this.#length("length", t("plan_or_length"), t("plan_or_length_hint")),
        this.#pieces(),
        withOffers("loom_width", this.#length("loom_width", t("plan_loom_width"), t("plan_loom_width_hint"))),
        ...this.#edges(),
      ),
    ];
  }

  /** The piece that is wished for. */
  fromWish() {
    const furtherHint = t("plan_further_hint", { unit: this.format.length_unit });
    return [
      section(
        t("plan_piece"),
        this.#length("length", t("plan_length"), t("plan_length_hint")),
        this.#length("width", t("plan_width"), t("plan_width_hint")),
        ...this.#edges(),
        this.#pieces(),
        this.#echoed("further", t("plan_further"), furtherHint),
      ),
    ];
  }

  /** @param {"wish" | "yarn"} way */
  threads(way) {
    const settHint = t("plan_sett_hint", { unit: this.format.length_unit });
    const picksHint = t("plan_picks_hint", { unit: this.format.length_unit });
    // From the yarn, the counts stand with the yarn.
    const counts =
      way === "yarn"
        ? []
        : [
            this.#echoed("warp_count", t("plan_warp_size"), t("plan_warp_size_hint")),
            this.#echoed("weft_count", t("plan_weft_size"), t("plan_weft_size_hint")),
          ];
    return section(
      t("plan_threads"),
      withOffers("sett", this.#echoed("sett", t("sequence_sett"), settHint)),
      withOffers("picks", this.#echoed("picks", t("warp_picks"), picksHint)),
      ...counts,
      this.#text("weft_name", t("plan_weft_name"), t("plan_weft_name_hint")),
      weaveChoice(this.form, ["plain", "twill", "pick_up"]),
      wide(this.#settHelp(way)),
    );
  }

  /** A sett from wraps or from the yarn. @param {"wish" | "yarn"} way */
  #settHelp(way) {
    return folded(
      "plan-more-sett",
      t("plan_find_sett"),
      this.#echoed("wraps", t("plan_wraps"), t("plan_wraps_hint", { unit: this.format.length_unit })),
      this.#choice("k", t("plan_k"), [
        ["usual", t("plan_k_usual")],
        ["soft", t("plan_k_soft")],
        ["cotton", t("plan_k_cotton")],
      ]),
      way === "wish" ? this.#length("reed_width", t("plan_reed_width"), t("plan_reed_width_hint")) : null,
    );
  }

  loom() {
    return section(
      t("plan_loom"),
      wide(withOffers("waste", this.#length("waste", t("warp_waste"), t("plan_waste_hint")))),
      this.#length("header", t("plan_header")),
      this.#length("sample", t("plan_sample_first")),
      this.#length("gap", t("warp_gap"), t("warp_gap_hint")),
    );
  }

  /** Take-up, shrinkage and draw-in. */
  changes() {
    const unit = this.format.length_unit;
    const words = {
      label: t("warp_take_up"),
      before: t("plan_take_up_before", { unit }),
      unit: t("warp_take_up_after", { unit }),
    };
    return folded(
      "plan-more-changes",
      t("plan_changes"),
      ...fibreAndFinish(this.form),
      wide(withOffers("warp_per_100", warpPer100(this.form, words))),
      this.#choice("take_up_of", t("plan_take_up_of"), [
        ["off_loom", t("warp_relaxed")],
        ["under_tension", t("warp_under_tension")],
      ]),
      this.#percent("shrinkage_percent", t("plan_shrinkage")),
      this.#percent("release_percent", t("plan_relaxation"), t("plan_relaxation_hint")),
      this.#percent("draw_in_percent", t("plan_draw_in")),
      this.#percent("width_shrinkage_percent", t("plan_width_shrinkage")),
      this.#percent("weft_allowance_percent", t("warp_weft_allowance")),
    );
  }

  /** The measures of a sample, from which the changes are calculated. */
  sample() {
    return folded(
      "plan-more-sample",
      t("plan_sample"),
      wide(h("p", { class: "quiet" }, t("plan_sample_hint"))),
      this.#length("sample_warp", t("plan_sample_warp")),
      this.#length("sample_reed", t("plan_sample_reed")),
      this.#length("sample_length", t("plan_sample_length")),
      this.#length("sample_width", t("plan_sample_width")),
      this.#length("sample_length_washed", t("plan_sample_length_washed")),
      this.#length("sample_width_washed", t("plan_sample_width_washed")),
    );
  }

  sequence() {
    const { form } = this;
    return folded(
      "plan-more-sequence",
      t("warp_sequence"),
      wide(h("p", { class: "quiet" }, t("warp_sequence_hint"))),
      form.area({ name: "repeat", label: t("warp_repeat"), lines: 5 }),
      form.area({ name: "opening", label: t("warp_opening"), lines: 5 }),
      form.area({ name: "balance", label: t("warp_balance") }),
      form.area({ name: "closing", label: t("warp_closing") }),
    );
  }

  #edges() {
    return [
      this.#choice("edge", t("plan_edge"), [
        ["none", t("plan_edge_none")],
        ["fringe", t("plan_edge_fringe")],
        ["hem", t("plan_edge_hem")],
      ]),
      this.#length("edge_length", t("plan_edge_length"), t("plan_edge_hint")),
      this.form.check({ name: "fringe_from_waste", label: t("warp_fringe_from_waste") }),
    ];
  }

  #pieces() {
    return this.form.text({ name: "pieces", label: t("plan_pieces"), keys: "numeric" });
  }

  /** How the length of a yarn is known. @param {string} name */
  #certainty(name) {
    return this.#choice(name, t("plan_known_how"), [
      ["label", t("plan_by_label")],
      ["measured", t("plan_measured")],
      ["rough", t("plan_estimated")],
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
    return showsUnderstood(
      name,
      this.form.text({ name, label, hint: t("plan_weight_hint"), unit: this.format.mass_unit }),
    );
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
