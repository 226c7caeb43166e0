// Finds the messages of the program in its code: what the catalogues of other languages must have.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import ts from "typescript";

/** Rooms that write whole sentences in English, which the screens say by `spoken`. */
const SENTENCE_ROOMS = [
  "run",
  "entry",
  "procedure",
  "assess",
  "envelope",
  "care",
  "shift",
  "control",
  "uncertainty",
  "grading",
  "record",
  "store",
  "report",
];
/** Pages, JSON and CSV that only commands write, in English; the screens show none of these. */
const WRITTEN_ONLY =
  /^src\/report\/(?:(?!handover|motion|value)\w*(?:Page|Json|Csv)|page\w*|topics|conventions|sievesDue|sievesUsed|subject|entrySubject|paragraphs)\.ts$/;
/** Properties of the screens' tables that are shown: of keys, and of places. */
const TABLE_WORDS = ["word", "help", "about"];

export const filesIn = (folder) =>
  readdirSync(folder, { withFileTypes: true }).flatMap((entry) =>
    entry.isDirectory()
      ? filesIn(join(folder, entry.name))
      : /\.tsx?$/.test(entry.name)
        ? [join(folder, entry.name)]
        : [],
  );

const parse = (file) => ts.createSourceFile(file, readFileSync(file, "utf8"), ts.ScriptTarget.Latest, true);

/** Two words at least, or two around a number: a name of something in the code has no blank in it. */
const isPhrase = (text) =>
  /\p{L}{2,}[,:;.!?)]* +\(?\p{L}|\p{L} +\p{L}{2,}|\p{L}{2,} +\d+ +\p{L}{2,}/u.test(text.replace(/\{\d+\}/g, " 0 "));

/** Publications are cited by their names, which are the same in every language. */
const isCitation = (text) =>
  /\((?:both )?memory\)|J\. |e-Handbook|\b(OIML|ASTM|AASHTO|ANSI|ISO|EN|USP|AFS|WAQTC|BRE|M 46-01|Journal)\b/.test(
    text,
  );

/** The text of a literal or a template, with `{0}`, `{1}` ... for what is filled in; null for anything else. */
function messageOf(node) {
  if (ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node)) return node.text;
  if (ts.isTemplateExpression(node))
    return node.head.text + node.templateSpans.map((span, i) => `{${i}}${span.literal.text}`).join("");
  return null;
}

const above = (node, holds) => {
  for (let at = node.parent; at; at = at.parent) if (holds(at)) return at;
  return null;
};
const isCallOf = (node, name) =>
  ts.isCallExpression(node) && ts.isIdentifier(node.expression) && node.expression.text === name;
const inFunction = (node) => above(node, (at) => ts.isFunctionLike(at)) !== null;
/** What only programmers read, or nobody: faults, types, names in comparisons, keys of tables. */
const isUnseen = (node) =>
  above(
    node,
    (at) =>
      ts.isThrowStatement(at) || ts.isLiteralTypeNode(at) || ts.isImportDeclaration(at) || ts.isExportDeclaration(at),
  ) !== null ||
  (ts.isBinaryExpression(node.parent) && /^[!=]==$/.test(node.parent.operatorToken.getText())) ||
  ts.isCaseClause(node.parent) ||
  (ts.isPropertyAssignment(node.parent) && node.parent.name === node) ||
  ts.isElementAccessExpression(node.parent);

const propertyOf = (node) => {
  const property = above(node, (at) => ts.isPropertyAssignment(at));
  const between = above(node, (at) => ts.isFunctionLike(at) || ts.isPropertyAssignment(at));
  return property === between && property ? property.name.getText() : null;
};

const within = (room, file) => file.startsWith(`src/${room}/`) || file === `src/${room}.ts`;
/** The catalogue that a file's messages stand in: of the screens one a folder, else one a room. */
export function catalogueOf(file) {
  const [, room, folder, deeper] = file.split("/");
  if (room === "screens") return deeper === undefined ? "screens" : folder;
  return room.replace(".ts", "");
}

/** Names that the code tells things apart by; they may have a blank in them and are no messages by themselves. */
function namesIn(sources) {
  const names = new Set();
  const look = (node) => {
    if (ts.isLiteralTypeNode(node) && ts.isStringLiteral(node.literal)) names.add(node.literal.text);
    if (ts.isPropertyAssignment(node) && node.name.getText() === "act" && ts.isStringLiteral(node.initializer))
      names.add(node.initializer.text);
    if (ts.isAsExpression(node) && ts.isArrayLiteralExpression(node.expression))
      for (const one of node.expression.elements) if (ts.isStringLiteral(one)) names.add(one.text);
    if (ts.isCallExpression(node) && /\.(enum|literal)$/.test(node.expression.getText()))
      for (const one of node.arguments.flatMap((a) => (ts.isArrayLiteralExpression(a) ? [...a.elements] : [a])))
        if (ts.isStringLiteral(one)) names.add(one.text);
    ts.forEachChild(node, look);
  };
  for (const source of sources) look(source);
  return names;
}

function foundIn(source, names) {
  const file = source.fileName;
  const ofScreens = within("screens", file);
  const ofSentences = SENTENCE_ROOMS.some((room) => within(room, file)) && !WRITTEN_ONLY.test(file);
  const found = [];
  const put = (kind, node, message) =>
    found.push({ kind, file, line: source.getLineAndCharacterOfPosition(node.getStart()).line + 1, message });
  const look = (node) => {
    if (ts.isTaggedTemplateExpression(node) && node.tag.getText() === "say") {
      put(inFunction(node) ? "message" : "too early", node, messageOf(node.template));
      if (ts.isTemplateExpression(node.template)) for (const span of node.template.templateSpans) look(span.expression);
      return;
    }
    const message = messageOf(node);
    if (message !== null && isUnseen(node)) put("name", node, message);
    if (message !== null && !isUnseen(node) && !isCallOf(node.parent, "phrase")) {
      if (ofScreens && TABLE_WORDS.includes(propertyOf(node) ?? "")) put("message", node, message);
      else if (isPhrase(message) && !names.has(message)) {
        if (ofScreens) put("unsaid", node, message);
        else if (ofSentences && !isCitation(message)) put("message", node, message.trim());
      } else put("name", node, message.trim());
    }
    if (isCallOf(node, "phrase")) put("message", node, messageOf(node.arguments[0]));
    ts.forEachChild(node, look);
  };
  look(source);
  return found;
}

/**
 * All messages of the code under `src`.
 *
 * @returns of each its kind: "message"; "name" for what a catalogue may have, but need not: words by which the code tells
 *   things apart, such as verdicts, and which the screens show; or a mistake: "unsaid" (a phrase of the screens that no `say` says) or
 *   "too early" (a `say` outside any function: it is said once and for ever in English)
 */
export function wordsInCode(folder = "src") {
  const sources = filesIn(folder).map(parse);
  const names = namesIn(sources);
  return sources.flatMap((source) => foundIn(source, names));
}
