// The web view's own menu can load the page anew, which would lose what is being typed. It opens where it is needed: in fields, to paste.

/** @param {Document} page */
export function keepContextMenuToFields(page) {
  page.addEventListener("contextmenu", (event) => {
    const target = event.target instanceof Element ? event.target : null;
    const field = target?.closest("input:not([type=radio], [type=checkbox], [type=range], [type=file]), textarea");
    if (!field && !page.getSelection()?.toString()) event.preventDefault();
  });
}
