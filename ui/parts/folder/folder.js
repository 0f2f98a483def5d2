// The folder: where everything lies, how it stands, which devices write there; and how figures are written.

import { morphChildren, button, h } from "../dom/dom.js";
import { disclosure } from "../disclosure/disclosure.js";
import { CARRY } from "../../texts/carry.js";
import { T } from "../../texts/texts.js";

/** @param {import("../../main.js").Context} ctx @param {AbortSignal} signal */
export function folderScreen(ctx, signal) {
  const name = h("input", {
    type: "text",
    id: "device-name",
    "data-part": "device-name",
    spellcheck: "false",
    maxlength: 60,
    "aria-describedby": "device-name-trouble",
  });
  const nameTrouble = h("p", { class: "trouble", id: "device-name-trouble", hidden: true });
  const nameForm = h(
    "form",
    { class: "field", "data-island": "name", "data-key": "name" },
    h("label", { for: "device-name" }, T.folder.name),
    h(
      "div",
      { class: "field-line" },
      name,
      h("button", { class: "button", "data-part": "device-name-save" }, T.folder.nameKeep),
    ),
    nameTrouble,
  );
  const units = h(
    "fieldset",
    { class: "choice", "data-island": "units", "data-key": "units", "data-part": "units" },
    h("legend", null, T.folder.units),
    h("p", { class: "hint small quiet" }, T.folder.unitsHint),
    h(
      "div",
      { class: "choices" },
      [
        ["metric", T.folder.metric],
        ["imperial", T.folder.imperial],
      ].map(([value, words]) =>
        h(
          "label",
          null,
          h("input", { type: "radio", name: "units", value, id: `units-${value}` }),
          h("span", null, words),
        ),
      ),
    ),
  );
  const element = h("div", { class: "page stack folder" });
  let nameShown = "";

  /** @param {import("../../types.d.ts").AppView} view */
  const update = (view) => {
    const { folder } = view;
    if (!folder) return;
    const mend = folder.attention || folder.problems.length > 0;
    morphChildren(element, [
      h("h1", { tabindex: -1 }, T.folder.title),
      h(
        "section",
        { "data-key": "where" },
        h("h2", null, T.folder.path),
        h("p", { class: "path", "data-part": "folder-path" }, folder.path),
      ),
      h(
        "section",
        { "data-key": "state" },
        h("h2", null, T.folder.state),
        h("p", { "data-part": "folder-line", class: folder.attention ? "trouble" : null }, folder.line),
        folder.waiting > 0 &&
          h("p", { "data-part": "folder-waiting", "data-key": "waiting" }, T.folder.waiting(folder.waiting)),
        folder.problems.length > 0 &&
          h(
            "div",
            { "data-key": "problems", "data-part": "problems" },
            h("h3", null, T.folder.problems),
            h(
              "ul",
              null,
              folder.problems.map((problem) =>
                h(
                  "li",
                  { "data-key": problem.file, class: "problem" },
                  h("p", { class: "path" }, problem.file),
                  h("p", null, problem.what),
                  h("p", null, problem.advice),
                ),
              ),
            ),
          ),
        mend && button("write-back", T.folder.writeBack, { class: "button", "data-key": "write-back" }),
      ),
      h(
        "section",
        { "data-key": "devices" },
        h("h2", null, T.folder.devices),
        h(
          "ul",
          { "data-part": "devices" },
          folder.devices.map((device) =>
            h(
              "li",
              null,
              h("strong", null, device.name),
              device.this_one ? ` (${T.folder.thisOne})` : "",
              h("span", { class: "quiet" }, ` ${device.last_wrote}`),
            ),
          ),
        ),
      ),
      h("form", { "data-key": "name" }),
      h("fieldset", { "data-key": "units" }),
      h(
        "section",
        { "data-key": "leave" },
        h("p", null, h("a", { class: "link", href: "#/carry", "data-part": "carry" }, CARRY.link)),
        h(
          "div",
          { class: "row" },
          button("choose", T.folder.another, { class: "button" }),
          button("leave", folder.example ? T.folder.leaveExample : T.folder.leave, { class: "link" }),
        ),
        h("p", { class: "small quiet" }, folder.example ? T.folder.leaveExampleHint : T.folder.leaveHint),
      ),
      disclosure(
        T.folder.keys,
        { "data-key": "keys", "data-part": "keys" },
        h("dl", null, T.folder.keyList.map(([keys, does]) => [h("dt", null, keys), h("dd", null, does)]).flat()),
      ),
    ]);
    for (const [key, island] of /** @type {[string, HTMLElement][]} */ ([
      ["name", nameForm],
      ["units", units],
    ])) {
      const place = element.querySelector(`[data-key="${key}"]`);
      if (place && place !== island) place.replaceWith(island);
    }
    // A name that is being typed is not overwritten by what arrives.
    if (name.value === nameShown) name.value = folder.device;
    nameShown = folder.device;
    for (const choice of units.querySelectorAll("input")) choice.checked = choice.value === view.format.units;
  };

  nameForm.addEventListener(
    "submit",
    async (event) => {
      event.preventDefault();
      nameTrouble.hidden = true;
      name.removeAttribute("aria-invalid");
      try {
        ctx.show(await ctx.shell.setDeviceName(name.value));
        ctx.say(T.folder.nameKept);
      } catch (refusal) {
        nameTrouble.textContent = /** @type {{ sentence: string }} */ (refusal).sentence;
        nameTrouble.hidden = false;
        name.setAttribute("aria-invalid", "true");
        name.focus();
      }
    },
    { signal },
  );
  units.addEventListener(
    "change",
    () => {
      const chosen = /** @type {HTMLInputElement | null} */ (units.querySelector("input:checked"));
      if (chosen) ctx.attempt(ctx.shell.setUnits(chosen.value), "");
    },
    { signal },
  );
  element.addEventListener(
    "click",
    async (event) => {
      const act = /** @type {HTMLElement | null} */ (/** @type {Element} */ (event.target).closest("[data-act]"))
        ?.dataset.act;
      if (act === "write-back") ctx.attempt(ctx.shell.writeBack(), T.folder.wroteBack);
      else if (act === "choose") ctx.attempt(ctx.shell.chooseFolder(), "");
      else if (act === "leave") {
        const example = ctx.view().folder?.example;
        ctx.attempt(ctx.shell.closeFolder(), example ? "" : T.folder.left);
      }
    },
    { signal },
  );
  update(ctx.view());
  return { element, update };
}
