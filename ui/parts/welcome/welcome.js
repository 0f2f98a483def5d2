// First start: what Fellmark is, in a sentence, and the three ways in.

import { button, h, s } from "../dom/dom.js";
import { createForm } from "../form/form.js";
import { T } from "../../texts/texts.js";

/** A little cloth on its warp, with the fell. */
function picture() {
  const rows = [];
  for (let y = 118; y <= 190; y += 9) rows.push(`M14 ${y}H186`);
  const ends = [];
  for (let x = 20; x <= 180; x += 10) ends.push(`M${x} 4V196`);
  return s(
    "svg",
    { class: "welcome-picture", viewBox: "0 0 220 200", "aria-hidden": "true", focusable: "false" },
    s("path", { class: "welcome-ends", d: ends.join("") }),
    s("path", { class: "welcome-weft", d: rows.join("") }),
    s("path", { class: "welcome-fell-edge", d: "M4 106H196" }),
    s("path", { class: "welcome-fell", d: "M4 106H196" }),
    s("path", { class: "welcome-flag", d: "M198 106l16 -11v22z" }),
  );
}

/** @param {import("../../main.js").Context} ctx @param {AbortSignal} signal */
export function welcomeScreen(ctx, signal) {
  const form = createForm({
    id: "welcome",
    draft: "welcome",
    values: { path: "" },
    ctx,
    signal,
    async submit({ path }) {
      ctx.show(await ctx.shell.openFolder(path));
    },
  });
  form.element.append(
    form.general,
    form.text({ name: "path", label: T.welcome.path }),
    h("button", { class: "button", "data-part": "open-path" }, T.welcome.open),
  );
  const element = h(
    "div",
    { class: "welcome" },
    picture(),
    h(
      "div",
      { class: "stack" },
      h("h1", { tabindex: -1 }, T.welcome.title),
      h("p", { class: "welcome-what" }, T.welcome.what),
      h("p", { class: "quiet" }, T.welcome.where),
      h("div", null, button("choose", T.welcome.choose, { class: "shuttle", "data-part": "choose-folder" })),
      h("details", { "data-part": "typed-path" }, h("summary", null, T.welcome.typed), form.element),
      h(
        "div",
        { class: "welcome-example" },
        button("example", T.welcome.example, { class: "button", "data-part": "begin-example" }),
        h("p", { class: "small quiet" }, T.welcome.exampleHint),
      ),
    ),
  );
  element.addEventListener(
    "click",
    (event) => {
      const act = /** @type {HTMLElement | null} */ (/** @type {Element} */ (event.target).closest("[data-act]"))
        ?.dataset.act;
      if (act === "choose") ctx.attempt(ctx.shell.chooseFolder(), "");
      if (act === "example") ctx.attempt(ctx.shell.beginExample(), "");
    },
    { signal },
  );
  return { element, update() {} };
}
