// The warps that were cut off, each to be looked at again, and those that were removed.

import { morphChildren, button, closestTarget, h } from "../dom/dom.js";
import { disclosure } from "../disclosure/disclosure.js";
import { T } from "../../texts/texts.js";

/** @param {import("../../main.js").Context} ctx @param {AbortSignal} signal */
export function offScreen(ctx, signal) {
  const element = h("div", { class: "page stack" });
  /** @param {import("../../types.d.ts").AppView} view */
  const update = (view) => {
    const off = view.warps.filter(({ state }) => state === "off_the_loom");
    const removed = view.warps.filter(({ state }) => state === "removed");
    morphChildren(element, [
      h("h1", { tabindex: -1 }, T.off.title),
      h(
        "ul",
        { class: "off-list", "data-part": "off-list", "data-key": "off" },
        off.map((warp) =>
          h(
            "li",
            { "data-key": warp.id },
            h(
              "button",
              { type: "button", class: "warp-line", "data-act": "look-at", "data-warp": warp.id },
              h("strong", null, warp.name),
              h("span", { class: "quiet" }, warp.line),
            ),
          ),
        ),
      ),
      ...(removed.length > 0
        ? [
            disclosure(
              T.off.removed,
              { "data-key": "removed", "data-part": "removed-warps" },
              h(
                "ul",
                null,
                removed.map((warp) =>
                  h(
                    "li",
                    { class: "row", "data-key": warp.id },
                    h("span", null, warp.name),
                    button("restore", T.loom.restore, {
                      class: "link",
                      "data-record": warp.id,
                      "aria-label": T.off.restore(warp.name),
                    }),
                  ),
                ),
              ),
            ),
          ]
        : []),
    ]);
  };
  element.addEventListener(
    "click",
    async (event) => {
      const hit = closestTarget(event, "[data-act]");
      if (hit?.dataset.act === "look-at") {
        if (await ctx.attempt(ctx.shell.showWarp(hit.dataset.warp ?? ""), "")) ctx.go("#/loom");
      } else if (hit?.dataset.act === "restore") {
        ctx.attempt(ctx.shell.restore(hit.dataset.record ?? ""), T.warp.restored);
      }
    },
    { signal },
  );
  update(ctx.view());
  return { element, update };
}
