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

const stringsIn = (nodes) => nodes.filter((node) => ts.isStringLiteral(node)).map(({ text }) => text);
const flat = (nodes) => nodes.flatMap((node) => (ts.isArrayLiteralExpression(node) ? [...node.elements] : [node]));

/** Names that stand in a node: of a type, of an act, of a list that types are made of, of a schema. */
function namesAt(node) {
  if (ts.isLiteralTypeNode(node)) return stringsIn([node.literal]);
  if (ts.isPropertyAssignment(node) && node.name.getText() === "act") return stringsIn([node.initializer]);
  if (ts.isAsExpression(node))
    return stringsIn(ts.isArrayLiteralExpression(node.expression) ? flat([node.expression]) : []);
  const ofSchema = ts.isCallExpression(node) && /\.(enum|literal)$/.test(node.expression.getText());
  return ofSchema ? stringsIn(flat([...node.arguments])) : [];
}

/** Names that the code tells things apart by; they may have a blank in them and are no messages by themselves. */
function namesIn(sources) {
  const names = new Set();
  const look = (node) => {
    for (const name of namesAt(node)) names.add(name);
    ts.forEachChild(node, look);
  };
  for (const source of sources) look(source);
  return names;
}

/** What a literal is: a message, a name, or a mistake. */
function kindOf(node, message, file, names) {
  const ofScreens = within("screens", file);
  if (isUnseen(node)) return "name";
  if (isCallOf(node.parent, "phrase")) return "message";
  if (ofScreens && TABLE_WORDS.includes(propertyOf(node) ?? "")) return "message";
  if (!isPhrase(message) || names.has(message)) return "name";
  if (ofScreens) return "unsaid";
  const spoken = SENTENCE_ROOMS.some((room) => within(room, file)) && !WRITTEN_ONLY.test(file);
  return spoken && !isCitation(message) ? "message" : "name";
}

const isSaid = (node) => ts.isTaggedTemplateExpression(node) && node.tag.getText() === "say";

function foundIn(source, names) {
  const file = source.fileName;
  const found = [];
  const put = (kind, node, message) =>
    found.push({ kind, file, line: source.getLineAndCharacterOfPosition(node.getStart()).line + 1, message });
  const look = (node) => {
    if (isSaid(node)) {
      put(inFunction(node) ? "message" : "too early", node, messageOf(node.template));
      return ts.forEachChild(node.template, (span) => ts.forEachChild(span, look));
    }
    const message = messageOf(node);
    const kind = message === null ? null : kindOf(node, message, file, names);
    // A sentence is found again without the blanks around it; what the screens say keeps them.
    if (kind !== null) put(kind, node, within("screens", file) ? message : message.trim());
    ts.forEachChild(node, look);
  };
  look(source);
  return found;
}

/**
 * All messages of the code under `src`.
 *
 * @returns of each its kind: "message"; "name" for what a catalogue may have, but need not: words by which the code tells
 *   things apart, such as verdicts, and which the screens show; or a mistake: "unsaid" (a phrase of the screens that no
 *   `say` says) or "too early" (a `say` outside any function: it is said once and for ever in English)
 */
export function wordsInCode(folder = "src") {
  const sources = filesIn(folder).map(parse);
  const names = namesIn(sources);
  return sources.flatMap((source) => foundIn(source, names));
}
