// Fails for text in the code of the interface that belongs in the catalogue, for a message that nothing shows, and for a text that is
// made before there are messages.

import { readdirSync, readFileSync } from "node:fs";
import { parsers } from "prettier/plugins/acorn";

const folder = new URL("../../ui/", import.meta.url);
const read = (path) => readFileSync(new URL(path, folder), "utf8");
const files = readdirSync(folder, { recursive: true }).filter((path) => path.endsWith(".js"));
const LETTERS = /\p{L}{2}/u;

/** Properties and options whose value is read by people. */
const SHOWN = ["aria-label", "aria-description", "aria-valuetext", "title", "alt", "placeholder"];
const OPTIONS = ["label", "hint", "before", "words", "text"];
/** Properties of elements that hold text. */
const CONTENT = ["textContent", "innerText", "innerHTML", "title", "ariaLabel", "placeholder", "alt"];
/** Functions, with the place of the first argument that is shown: `h(name, props, ...children)`. */
const CALLS = {
  h: 2,
  s: 2,
  button: 1,
  disclosure: 0,
  section: 0,
  folded: 1,
  say: 0,
  tell: 0,
  complain: 0,
  announce: 0,
};

/** The strings that a value may be, for every way through conditions and templates. */
function* strings(node) {
  if (!node) return;
  if (node.type === "Literal" && typeof node.value === "string") yield [node.value, node];
  else if (node.type === "TemplateLiteral") {
    for (const part of node.quasis) yield [part.value.cooked, part];
  } else if (node.type === "ConditionalExpression") {
    yield* strings(node.consequent);
    yield* strings(node.alternate);
  } else if (node.type === "LogicalExpression" || node.type === "BinaryExpression") {
    if (!/[=<>]/.test(node.operator)) yield* strings(node.left);
    if (!/[=<>]/.test(node.operator)) yield* strings(node.right);
  } else if (node.type === "ArrayExpression") {
    for (const element of node.elements) yield* strings(element);
  } else if (node.type === "SpreadElement") yield* strings(node.argument);
}

/** The parts of the syntax tree that people may read. */
function* shown(node) {
  if (node.type === "CallExpression") {
    const name = node.callee.name ?? node.callee.property?.name;
    if (Object.hasOwn(CALLS, name)) yield* node.arguments.slice(CALLS[name]);
    if (name === "setAttribute" && SHOWN.includes(node.arguments[0]?.value)) yield node.arguments[1];
    if (["append", "prepend", "replaceChildren", "before", "after", "replaceWith"].includes(name))
      yield* node.arguments;
  } else if (node.type === "Property") {
    const key = node.key.name ?? node.key.value;
    if (SHOWN.includes(key) || OPTIONS.includes(key)) yield node.value;
  } else if (node.type === "AssignmentExpression" && CONTENT.includes(node.left.property?.name)) yield node.right;
}

/** Calls `visit` for every node of a syntax tree, and with what stands around it. */
function each(node, visit, around = []) {
  if (Array.isArray(node)) return node.forEach((one) => each(one, visit, around));
  if (typeof node?.type !== "string") return;
  visit(node, around);
  for (const [key, child] of Object.entries(node)) {
    if (key !== "comments" && typeof child === "object") each(child, visit, [node, ...around]);
  }
}

const texts = new Map();
const used = new Set();
/** Where a text is made when its module is loaded, before the shell has given any. */
const tooEarly = [];
for (const file of files) {
  const source = read(file);
  const found = (text, node) => {
    const line = source.slice(0, node.range[0]).split("\n").length;
    texts.set(`ui/${file}:${line}: ${JSON.stringify(text)}`, text);
  };
  each(parsers.acorn.parse(source, {}), (node, around) => {
    const isLater = around.some(({ type }) => /Function|ClassBody/.test(type));
    if (node.type === "CallExpression" && node.callee.name === "t" && !isLater) {
      tooEarly.push(`ui/${file}:${source.slice(0, node.range[0]).split("\n").length}`);
    }
    for (const part of shown(node)) {
      for (const [text, at] of strings(part)) if (LETTERS.test(text)) found(text, at);
    }
    // A sentence is text wherever it stands; one that is thrown is for developers.
    const isThrown = around.some((outer) => outer.type === "NewExpression" && outer.callee.name === "Error");
    if (node.type !== "Literal" && node.type !== "TemplateElement") return;
    const text = node.type === "Literal" ? node.value : node.value.cooked;
    if (typeof text !== "string") return;
    if (/^\p{Lu}\p{Ll}+[ ,]+\p{Ll}+/u.test(text) && !isThrown) found(text, node);
    // An id of one word may stand for something else: it counts where a text is made, or in a list of ids by name.
    const parent = around[0];
    if (
      /_/.test(text) ||
      parent.type === "Property" ||
      (parent.type === "CallExpression" && parent.callee.name === "t")
    )
      used.add(text);
  });
}
for (const [, text] of read("index.html").matchAll(/>([^<>]*\p{L}[^<>]*)</gu)) {
  // The title of the window before anything is shown is the product's name.
  if (text !== "Fellmark") texts.set(`ui/index.html: ${JSON.stringify(text.trim())}`, text);
}

const ids = [...read("message-types.d.ts").matchAll(/^ {2}(\w+): \{/gm)].map(([, id]) => id);
if (ids.length === 0) throw new Error("ui/message-types.d.ts names no message");
const unused = ids.filter((id) => !used.has(id));
console.log(`${ids.length} messages; ${texts.size} texts in code; ${unused.length} messages that nothing shows`);
for (const place of texts.keys()) console.error(`text in code, ${place}`);
for (const place of tooEarly) console.error(`text before there are messages, ${place}`);
for (const id of unused) console.error(`no code shows ${id}`);
if (texts.size + unused.length + tooEarly.length > 0) process.exitCode = 1;
