// Making elements, and updating what is on the page without losing focus, caret or open disclosures.

const SVG = "http://www.w3.org/2000/svg";

/** @typedef {Record<string, string | number | boolean | null | undefined>} Props */
/** @typedef {Node | string | number | false | null | undefined} Child */

/**
 * @param {Element} made
 * @param {Props | null | undefined} props
 * @param {(Child | Child[])[]} children
 */
function fill(made, props, children) {
  for (const [name, value] of Object.entries(props ?? {})) {
    if (value === false || value === null || value === undefined) continue;
    made.setAttribute(name, value === true ? "" : String(value));
  }
  for (const child of children.flat()) {
    if (child === false || child === null || child === undefined) continue;
    made.append(child instanceof Node ? child : String(child));
  }
}

/**
 * An HTML element. Attributes are set as written; `true` is an empty attribute, `false` and nothing leave it out.
 * @template {keyof HTMLElementTagNameMap} K
 * @param {K} tag
 * @param {Props | null} [props]
 * @param {...(Child | Child[])} children
 * @returns {HTMLElementTagNameMap[K]}
 */
export function h(tag, props, ...children) {
  const made = document.createElement(tag);
  fill(made, props, children);
  return made;
}

/**
 * An SVG element.
 * @template {keyof SVGElementTagNameMap} K
 * @param {K} tag
 * @param {Props | null} [props]
 * @param {...(Child | Child[])} children
 * @returns {SVGElementTagNameMap[K]}
 */
export function s(tag, props, ...children) {
  const made = document.createElementNS(SVG, tag);
  fill(made, props, children);
  return made;
}

/** @param {Node | null} node @returns {string} */
function keyOf(node) {
  if (!(node instanceof Element)) return "";
  return node.getAttribute("data-key") ?? node.id;
}

/** @param {Node} one @param {Node} other */
function isSameKind(one, other) {
  return one.nodeType === other.nodeType && one.nodeName === other.nodeName;
}

/** @param {Element} from @param {Element} to */
function morphAttributes(from, to) {
  for (const { name } of [...from.attributes]) {
    // A disclosure that was opened stays open.
    if (name === "open" || to.hasAttribute(name)) continue;
    from.removeAttribute(name);
  }
  for (const { name, value } of [...to.attributes]) {
    if (from.getAttribute(name) !== value) from.setAttribute(name, value);
  }
}

/** @param {Node} from @param {Node} to */
function morph(from, to) {
  if (!(from instanceof Element) || !(to instanceof Element)) {
    if (from.nodeValue !== to.nodeValue) from.nodeValue = to.nodeValue;
    return;
  }
  // An island keeps itself up to date.
  if (from.hasAttribute("data-island")) return;
  morphAttributes(from, to);
  morphChildren(from, [...to.childNodes]);
}

/**
 * Makes the children of `from` like `wanted`, keeping every element that can stay. Elements are matched by `data-key` or `id`,
 * the others by their place.
 * @param {Element} from
 * @param {Node[]} wanted
 */
export function morphChildren(from, wanted) {
  const keyed = new Map();
  for (const child of from.children) {
    const key = keyOf(child);
    if (key) keyed.set(key, child);
  }
  const keys = new Set(wanted.map(keyOf));
  /** @type {Node | null} */
  let cursor = from.firstChild;
  for (const next of wanted) {
    while (cursor && keyOf(cursor) && !keys.has(keyOf(cursor))) {
      const gone = cursor;
      cursor = cursor.nextSibling;
      from.removeChild(gone);
    }
    const key = keyOf(next);
    /** @type {Node | null} */
    const match = key ? (keyed.get(key) ?? null) : cursor && !keyOf(cursor) ? cursor : null;
    if (match && isSameKind(match, next)) {
      if (match === cursor) cursor = match.nextSibling;
      else from.insertBefore(match, cursor);
      morph(match, next);
    } else {
      from.insertBefore(next, cursor);
    }
  }
  while (cursor) {
    const gone = cursor;
    cursor = cursor.nextSibling;
    from.removeChild(gone);
  }
}

/** Whether a key press belongs to a field that is being typed into. @param {EventTarget | null} target */
export function isTyping(target) {
  if (!(target instanceof HTMLElement)) return false;
  if (target instanceof HTMLInputElement) return !["radio", "checkbox", "button", "file"].includes(target.type);
  return target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement || target.isContentEditable;
}

/** A button whose action is found by `data-act`. @param {string} act @param {string} label @param {Props} [props] */
export function button(act, label, props) {
  return h("button", { type: "button", "data-act": act, ...props }, label);
}

/** The nearest element around the target of an event that matches. @param {Event} event @param {string} selector */
export function closestTarget(event, selector) {
  const target = /** @type {Element} */ (event.target);
  return /** @type {HTMLElement | null} */ (target.closest(selector));
}

/**
 * Puts an element that updates itself in the place that `morphChildren` made for it.
 * @param {Element} root @param {string} key `data-key` of the place @param {HTMLElement} island
 */
export function placeIsland(root, key, island) {
  const place = root.querySelector(`[data-key="${key}"]`);
  if (place && place !== island) place.replaceWith(island);
}
