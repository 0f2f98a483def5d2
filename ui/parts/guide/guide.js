// The guide: its contents with what there is to know about the program, and its pages.

import { button, closestTarget, h } from "../dom/dom.js";
import { disclosure } from "../disclosure/disclosure.js";
import { t } from "../../messages.js";

/** @typedef {import("../../main.js").Context} Context */
/** @typedef {import("../../types.d.ts").GuideContents} GuideContents */
/** @typedef {import("../../types.d.ts").GuideNode} GuideNode */
/** @typedef {import("../../types.d.ts").GuidePage} GuidePage */

/** @param {Context} ctx @param {AbortSignal} signal @param {string} page its id, or nothing for the contents */
export function guideScreen(ctx, signal, page) {
  const article = h("div", {
    class: "guide-page stack",
    "data-part": "guide-page",
  });
  const element = h(
    "div",
    { class: "page guide stack" },
    h(
      "p",
      { class: "guide-ways" },
      button("guide-back", t("back"), {
        class: "link",
        "data-part": "guide-back",
      }),
      page ? h("a", { class: "link", href: "#/guide", "data-part": "guide-contents" }, t("guide_contents")) : null,
    ),
    article,
  );
  const leave = (/** @type {Event} */ event) => {
    if (closestTarget(event, "[data-act]")?.dataset.act === "guide-back") history.back();
  };
  element.addEventListener("click", leave, { signal });
  fill(ctx, signal, article, page);
  return { element, update() {} };
}

/** @param {Context} ctx @param {AbortSignal} signal @param {HTMLElement} article @param {string} page */
async function fill(ctx, signal, article, page) {
  try {
    const found = page ? await ctx.shell.guidePage(page) : null;
    const content = found ? pageContent(found) : contents(await ctx.shell.guideContents());
    if (signal.aborted) return;
    article.replaceChildren(...content);
    const title = article.querySelector("h1");
    title?.setAttribute("tabindex", "-1");
    title?.focus({ preventScroll: true });
    await Promise.all([...article.querySelectorAll("img")].map((img) => loadPicture(ctx, img)));
  } catch (refusal) {
    ctx.showError(refusal);
  }
}

/** @param {GuideContents} contents */
function contents({ pages, version, licence }) {
  const link = (/** @type {GuideContents["pages"][number]} */ { page, title }) =>
    h("li", null, h("a", { href: `#/guide/${page}`, "data-part": `guide-${page}` }, title));
  return [
    h("h1", null, t("guide")),
    h("ol", { class: "guide-list" }, pages.map(link)),
    h("h2", null, t("about")),
    h("p", { "data-part": "about-version" }, t("about_version", { version })),
    h("p", null, t("about_folder")),
    h("p", null, t("about_cautions")),
    disclosure(t("about_licence"), { "data-part": "about-licence" }, h("p", { class: "guide-licence" }, licence)),
    h("p", { class: "small quiet" }, t("about_libraries")),
  ];
}

/** @param {GuidePage} page */
function pageContent({ content, language, is_untranslated: isUntranslated, next }) {
  return [
    isUntranslated && h("p", { class: "small quiet", "data-part": "guide-untranslated" }, t("guide_untranslated")),
    h("div", { class: "stack", lang: language }, content.map(nodeOf)),
    next &&
      h(
        "p",
        { class: "guide-next" },
        h(
          "a",
          {
            class: "link",
            href: `#/guide/${next.page}`,
            "data-part": "guide-next",
          },
          t("guide_next", { title: next.title }),
        ),
      ),
  ].filter((part) => part instanceof Node);
}

/** @param {GuideNode} node @returns {Node} */
function nodeOf(node) {
  switch (node.type) {
    case "text":
      return document.createTextNode(node.text);
    case "link":
      return h("a", { href: `#/guide/${node.page}` }, node.children.map(nodeOf));
    case "picture":
      return h("img", {
        class: "guide-picture",
        alt: node.text,
        "data-picture": node.name,
      });
    case "element":
      return h(node.tag, null, node.children.map(nodeOf));
  }
}

/** The page may show pictures of its own making only, so the bytes come through the shell. @param {Context} ctx @param {HTMLImageElement} img */
async function loadPicture(ctx, img) {
  const bytes = await ctx.shell.guidePicture(img.dataset.picture ?? "");
  const address = URL.createObjectURL(new Blob([bytes], { type: "image/png" }));
  img.addEventListener("load", () => URL.revokeObjectURL(address), {
    once: true,
  });
  img.src = address;
}
