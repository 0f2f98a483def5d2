// Fails for a function of the interface that is longer than MAX_LINES, and prints the longest functions.

import { readdirSync, readFileSync } from "node:fs";
import { parsers } from "prettier/plugins/acorn";

const MAX_LINES = 80;
const SHOWN = 5;
const folder = new URL("../../ui/", import.meta.url);
const FUNCTIONS = ["FunctionDeclaration", "FunctionExpression", "ArrowFunctionExpression"];

/** Calls `visit` for every function below `node` with the name of what it is assigned to, if any. */
function eachFunction(node, name, visit) {
  if (Array.isArray(node)) return node.forEach((one) => eachFunction(one, name, visit));
  if (typeof node?.type !== "string") return;
  const own = (node.id ?? node.key)?.name ?? name;
  if (FUNCTIONS.includes(node.type)) visit(node, own);
  for (const [key, child] of Object.entries(node)) {
    if (key !== "comments" && typeof child === "object") eachFunction(child, own, visit);
  }
}

const found = [];
for (const file of readdirSync(folder, { recursive: true }).filter((path) => path.endsWith(".js"))) {
  const text = readFileSync(new URL(file, folder), "utf8");
  const lineOf = (offset) => text.slice(0, offset).split("\n").length;
  eachFunction(parsers.acorn.parse(text, {}), "(anonymous)", ({ range: [start, end] }, name) => {
    const line = lineOf(start);
    found.push({ name, file, line, lines: lineOf(end) - line + 1 });
  });
}
if (found.length === 0) throw new Error(`no function was found in ${folder.pathname}`);

found.sort((a, b) => b.lines - a.lines);
const tooLong = found.filter(({ lines }) => lines > MAX_LINES);
console.log(`${found.length} functions; the longest, of ${MAX_LINES} lines allowed:`);
for (const { name, file, line, lines } of found.slice(0, Math.max(SHOWN, tooLong.length))) {
  console.log(`${String(lines).padStart(5)}  ${name}  ui/${file}:${line}`);
}
if (tooLong.length > 0) {
  console.error(`${tooLong.length} longer than ${MAX_LINES} lines: split them into named functions.`);
  process.exitCode = 1;
}
