// The plan that is typed: the same for both ways of planning, and there again after looking elsewhere.

/** @typedef {import("../../types.d.ts").PlanForm} PlanForm */
/** @typedef {"wish" | "yarn" | "begin"} Way */

/** @returns {PlanForm} */
export const emptyPlan = () => ({
  way: "",
  name: "",
  length: "",
  width: "",
  pieces: "",
  further: "",
  edge: "",
  edge_length: "",
  fringe_from_waste: false,
  sett: "",
  wraps: "",
  weave: "",
  k: "",
  warp_count: "",
  weft_count: "",
  weft_name: "",
  picks: "",
  reed_width: "",
  opening: "",
  repeat: "",
  balance: "",
  closing: "",
  fibre: "",
  finish: "",
  warp_per_100: "",
  take_up_of: "",
  release_percent: "",
  shrinkage_percent: "",
  draw_in_percent: "",
  width_shrinkage_percent: "",
  weft_allowance_percent: "",
  waste: "",
  header: "",
  sample: "",
  gap: "",
  sample_warp: "",
  sample_reed: "",
  sample_length: "",
  sample_width: "",
  sample_length_washed: "",
  sample_width_washed: "",
  one_yarn: false,
  warp_have: "",
  warp_mass: "",
  warp_sure: "",
  weft_have: "",
  weft_mass: "",
  weft_sure: "",
  loom_width: "",
  gift_on: "",
  days_a_week: "",
  minutes_a_day: "",
});

/** What is typed in the plan's form. The shell remembers it through a restart. */
class TypedPlan {
  form = emptyPlan();
  /** The kept plan it came from; empty for none. */
  from = "";
  /** What was typed before the plan was cleared, to be restored. @type {{ form: PlanForm, from: string } | null} */
  before = null;
  /** The way that was opened last. @type {Way | null} */
  lastWay = null;
  /** The folder it was typed for. @type {string | null} */
  #folder = null;

  /** Takes up what was typed last, on a new start or in another folder. @param {import("../../types.d.ts").AppView} view */
  restore(view) {
    const here = view.folder?.path ?? null;
    if (here === this.#folder) return;
    this.#folder = here;
    this.before = null;
    const left = view.plans.find(({ record }) => record === "");
    this.form = left ? left.form : emptyPlan();
    this.from = left?.from ?? "";
  }

  /** The way to open without one in the address. @param {import("../../types.d.ts").AppView} view @returns {Way} */
  usualWay(view) {
    if (this.lastWay) return this.lastWay;
    if (this.form.way === "yarn") return "yarn";
    return view.warps.length > 0 || this.form.way ? "wish" : "begin";
  }

  /** Sets what is typed aside, so that it can be restored. */
  setAside() {
    this.before = { form: this.form, from: this.from };
  }

  /** The warp is begun. */
  clear() {
    this.form = emptyPlan();
    this.from = "";
    this.before = null;
    this.lastWay = null;
  }
}

export const typed = new TypedPlan();
