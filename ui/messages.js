// Every text of the interface itself, in the language that the shell was asked for. The shell compiles the texts from its catalogue;
// what is left to do here is to write arguments and to choose among cases.

/** @typedef {import("./message-types.d.ts").Messages} Messages */
/** @typedef {import("./message-types.d.ts").PlainMessage} PlainMessage */
/** @typedef {import("./message-types.d.ts").InterfaceMessages} InterfaceMessages */
/** @typedef {import("./message-types.d.ts").MessagePattern} MessagePattern */
/** @typedef {Exclude<import("./message-types.d.ts").MessagePart, string>} PartWithArgument */
/** @typedef {Record<string, string | number>} Arguments */

/** @type {InterfaceMessages["messages"]} */
let patterns = {};
let numbers = new Intl.NumberFormat("en");
let plurals = new Intl.PluralRules("en");

/** Texts that are made from now on are in this language. @param {InterfaceMessages} received */
export function setMessages({ language, messages }) {
  patterns = messages;
  // As in sentences from the shell, digits are not grouped.
  numbers = new Intl.NumberFormat(language, { useGrouping: false });
  plurals = new Intl.PluralRules(language);
  document.documentElement.lang = language;
}

/**
 * The text of a message.
 * @type {{ (id: PlainMessage): string, <I extends keyof Messages>(id: I, values: Messages[I]): string }}
 */
export const t = (/** @type {string} */ id, /** @type {Arguments} */ values = {}) => {
  const pattern = patterns[id];
  // Without an answer of the shell there are no texts; the id says more than nothing.
  return pattern === undefined ? id : write(pattern, values);
};

/** @param {MessagePattern} pattern @param {Arguments} values @returns {string} */
function write(pattern, values) {
  if (typeof pattern === "string") return pattern;
  return pattern.map((part) => (typeof part === "string" ? part : writePart(part, values))).join("");
}

/** @param {PartWithArgument} part @param {Arguments} values */
function writePart(part, values) {
  if ("select" in part) return write(chosen(part, values[part.select]), values);
  const value = values[part.argument];
  // A true minus sign, as in figures from the shell.
  return typeof value === "number" ? numbers.format(value).replace("-", "\u2212") : value;
}

/** @param {Extract<PartWithArgument, { select: string }>} part @param {string | number} value */
function chosen({ cases, otherwise }, value) {
  const plural = typeof value === "number" ? cases[plurals.select(value)] : undefined;
  return cases[value] ?? plural ?? otherwise;
}
