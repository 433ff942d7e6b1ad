import { readdirSync, readFileSync } from "node:fs";
import ts from "typescript";
import { root } from "../helpers.ts";
import type { Spoken } from "./untold.ts";

/** Every part of the house whose refusals reach a screen; the terminal speaks English. */
export const houseOfRefusals = [
  ...["maths", "measurement", "valves", "circuits", "bench", "hum", "timber", "safety", "production", "listening"],
  ...["claims", "dossier", "calculations", "instruments", "store", "workshop", "server"],
];

/**
 * The words of every refusal in the house, read from its source: what was given, what is allowed, what to do.
 *
 * Gaps are filled with samples by what they are named after; both ways of a choice are taken. Words that a refusal gets
 * from elsewhere are looked up in the same file, and left out when they come from further away.
 */
export function refusalsInSource(folders: readonly string[]): readonly Spoken[] {
  return folders.flatMap((folder) => {
    const files = readdirSync(`${root}/src/${folder}`, { recursive: true, encoding: "utf8" });
    return files
      .filter((file) => file.endsWith(".ts") && !file.endsWith(".test.ts"))
      .flatMap((file) => refusalsIn(`src/${folder}/${file}`));
  });
}

function refusalsIn(file: string): readonly Spoken[] {
  const text = readFileSync(`${root}/${file}`, "utf8");
  if (!text.includes("new BadInput(")) return [];
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.ESNext, true);
  const constants = constantsOf(source);
  const found: Spoken[] = [];
  const visit = (node: ts.Node) => {
    if (ts.isNewExpression(node) && node.expression.getText() === "BadInput") {
      for (const part of node.arguments?.slice(1) ?? []) {
        for (const sentence of waysOf(part, constants)) if (sentence) found.push({ sentence, where: file });
      }
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

type Constants = ReadonlyMap<string, ts.Expression>;

function constantsOf(source: ts.SourceFile): Constants {
  const constants = new Map<string, ts.Expression>();
  const visit = (node: ts.Node) => {
    if (ts.isVariableDeclaration(node) && ts.isIdentifier(node.name) && node.initializer) {
      constants.set(node.name.text, node.initializer);
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return constants;
}

const joining = new Set([ts.SyntaxKind.QuestionQuestionToken, ts.SyntaxKind.BarBarToken]);

/** All that an expression may say; undefined where it can't be read from here. */
function waysOf(node: ts.Expression, constants: Constants, depth = 0): readonly (string | undefined)[] {
  if (ts.isStringLiteralLike(node)) return [node.text];
  if (ts.isParenthesizedExpression(node)) return waysOf(node.expression, constants, depth);
  if (ts.isConditionalExpression(node)) {
    return [...waysOf(node.whenTrue, constants, depth), ...waysOf(node.whenFalse, constants, depth)];
  }
  if (ts.isBinaryExpression(node) && joining.has(node.operatorToken.kind)) {
    return [...waysOf(node.left, constants, depth), ...waysOf(node.right, constants, depth)];
  }
  if (ts.isTemplateExpression(node)) {
    return node.templateSpans.reduce<readonly (string | undefined)[]>(
      (ways, span) => {
        const gaps = waysOf(span.expression, constants, depth + 1).map((way) => way ?? sampleOf(span.expression));
        return ways.flatMap((way) => gaps.map((gap) => `${way}${gap}${span.literal.text}`));
      },
      [node.head.text],
    );
  }
  if (ts.isIdentifier(node) && depth < 3) {
    const constant = constants.get(node.text);
    const isWords =
      constant &&
      (ts.isStringLiteralLike(constant) || ts.isTemplateExpression(constant) || ts.isConditionalExpression(constant));
    if (isWords) return waysOf(constant, constants, depth + 1);
  }
  return [undefined];
}

const numeric =
  /_(?!pct\b)?[A-Za-z]+$|length|size|count|most|least|trials|samples|Math\.|toFixed|toPrecision|toLocale|^\d|[*+/-] \d|^n$|seconds|frequencies|low|high|limit/;

function sampleOf(gap: ts.Expression): string {
  const text = gap.getText();
  if (/quote\(|join\(/.test(text)) return '"A-7"';
  return numeric.test(text) ? "12" : "A-7";
}
