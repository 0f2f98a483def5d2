// A link from where a question arises to the page of the guide that answers it.

import { h } from "../dom/dom.js";
import { t } from "../../messages.js";

const HELP = /** @type {const} */ ({
  "first-warp": "help_first_warp",
  "at-the-loom": "help_at_the_loom",
  "plan-from-yarn": "help_plan_from_yarn",
  "off-the-loom": "help_off_the_loom",
  "two-devices": "help_two_devices",
  backup: "help_backup",
  deleting: "help_deleting",
  figures: "help_figures",
});

/** @param {...(keyof typeof HELP)} pages */
export function help(...pages) {
  const link = (/** @type {keyof typeof HELP} */ page) =>
    h("a", { class: "link", href: `#/guide/${page}`, "data-part": `help-${page}` }, t(HELP[page]));
  return h("p", { class: "help small no-print", "data-key": "help" }, pages.map(link));
}
