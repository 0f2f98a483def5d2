// First start: what Fellmark is, in a sentence, and the three ways in; and why the folder that was to be opened is not.

import { button, closestTarget, h, s } from "../dom/dom.js";
import { disclosure } from "../disclosure/disclosure.js";
import { Form } from "../form/form.js";
import { T } from "../../texts/texts.js";

/** A little cloth on its warp, with the fell. */
export function clothPicture() {
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
  const form = new Form({
    id: "welcome",
    draft: "welcome",
    values: { path: "" },
    ctx,
    signal,
    async submit({ path }) {
      forget();
      await named();
      ctx.show(await ctx.shell.openFolder(path));
    },
  });
  const proposed = ctx.view().device;
  const device = h("input", {
    type: "text",
    id: "welcome-device",
    "data-part": "welcome-device",
    value: proposed,
    maxlength: 60,
    spellcheck: "false",
    "aria-describedby": "welcome-device-hint",
  });
  /** Calls the device what she typed, before it writes anything. */
  const named = async () => {
    const name = device.value.trim();
    if (name && name !== ctx.view().device) await ctx.shell.setDeviceName(name);
  };
  const opener = h("button", { class: "button", "data-part": "open-path" }, T.welcome.open);
  const why = h("p", { class: "welcome-unopened", id: "welcome-unopened", "data-part": "unopened", hidden: true });
  form.element.append(form.general, why, form.text({ name: "path", label: T.welcome.path }), opener);
  const typed = disclosure(T.welcome.typed, { "data-part": "typed-path" }, form.element);
  /** What is told of a folder that is not open, so that it is told once. @type {import("../../types.d.ts").Unopened | null} */
  let told = null;
  const forget = () => {
    told = null;
    why.hidden = true;
    opener.removeAttribute("aria-describedby");
  };
  /** One press tries again. @param {import("../../types.d.ts").AppView} view */
  const tell = ({ unopened }) => {
    if (!unopened || (told?.path === unopened.path && told.sentence === unopened.sentence)) return;
    told = unopened;
    typed.open = true;
    form.write("path", unopened.path);
    if (unopened.stopped) {
      why.textContent = unopened.sentence;
      why.hidden = false;
      opener.setAttribute("aria-describedby", why.id);
      opener.focus();
    } else form.fail({ field: "path", sentence: unopened.sentence });
  };
  const element = h(
    "div",
    { class: "welcome" },
    clothPicture(),
    h(
      "div",
      { class: "stack" },
      h("h1", { tabindex: -1 }, T.welcome.title),
      h("p", { class: "welcome-what" }, T.welcome.what),
      h("p", { class: "quiet" }, T.welcome.where),
      h(
        "div",
        { class: "field welcome-device" },
        h("label", { for: device.id }, T.welcome.device),
        h("p", { class: "hint", id: "welcome-device-hint" }, T.welcome.deviceHint(proposed)),
        h("div", { class: "field-line" }, device),
      ),
      h("div", null, button("choose", T.welcome.choose, { class: "shuttle", "data-part": "choose-folder" })),
      typed,
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
      const act = closestTarget(event, "[data-act]")?.dataset.act;
      if (act === "choose" || act === "example") forget();
      if (act === "choose")
        ctx.attempt(
          named().then(() => ctx.shell.chooseFolder()),
          "",
        );
      if (act === "example") ctx.attempt(ctx.shell.openSample(), "");
    },
    { signal },
  );
  return { element, update: tell, focus: ctx.view().unopened ? () => tell(ctx.view()) : undefined };
}
