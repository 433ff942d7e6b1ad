import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import ts from "typescript";
import { expect, test } from "vitest";

/**
 * A part of the page that is fetched later brings the tables of messages that it speaks from. Read from the sources'
 * syntax: whatever a part imports, and the tables among that, which its opener or the first page must have fetched.
 */
const screens = join(import.meta.dirname, "..");

interface Fetched {
  readonly file: string;
  readonly tables: readonly string[];
}
interface Module {
  /** What is loaded with it. */
  readonly imports: readonly string[];
  /** What it fetches later, by `fetchedWith` or by itself. */
  readonly fetches: readonly Fetched[];
  /** Tables that it takes when it is loaded. */
  readonly takes: readonly string[];
}

const modules = new Map<string, Module>();

function moduleOf(file: string): Module {
  const known = modules.get(file);
  if (known) return known;
  const source = ts.createSourceFile(file, readFileSync(file, "utf8"), ts.ScriptTarget.Latest, false);
  const here = (specifier: ts.Node) =>
    ts.isStringLiteral(specifier) && specifier.text.startsWith(".") && /\.tsx?$/.test(specifier.text)
      ? [join(dirname(file), specifier.text)].filter((path) => path.startsWith(screens) && existsSync(path))
      : [];
  const imports: string[] = [];
  const fetches: Fetched[] = [];
  const takes: string[] = [];
  const text = (node: ts.Node | undefined) => (node && ts.isStringLiteral(node) ? [node.text] : []);
  const visit = (node: ts.Node, tables: readonly string[]): void => {
    if (ts.isImportDeclaration(node) && !node.importClause?.isTypeOnly) imports.push(...here(node.moduleSpecifier));
    if (ts.isExportDeclaration(node) && node.moduleSpecifier) imports.push(...here(node.moduleSpecifier));
    let within = tables;
    if (ts.isCallExpression(node)) {
      const [first, second] = node.arguments;
      if (node.expression.kind === ts.SyntaxKind.ImportKeyword && first) {
        fetches.push(...here(first).map((path) => ({ file: path, tables })));
      }
      if (ts.isIdentifier(node.expression) && node.expression.text === "spoken") takes.push(...text(first));
      if (ts.isIdentifier(node.expression) && node.expression.text === "fetchedWith" && second) {
        within = ts.isArrayLiteralExpression(first!) ? first.elements.flatMap(text) : [];
      }
    }
    node.forEachChild((child) => visit(child, within));
  };
  visit(source, []);
  const read = { imports, fetches, takes };
  modules.set(file, read);
  return read;
}

/** All that is loaded with a file. */
function loadedWith(file: string): ReadonlySet<string> {
  const found = new Set<string>();
  const wanted = [file];
  for (let next = wanted.pop(); next !== undefined; next = wanted.pop()) {
    if (found.has(next)) continue;
    found.add(next);
    wanted.push(...moduleOf(next).imports);
  }
  return found;
}

const tablesOf = (file: string) => [...new Set([...loadedWith(file)].flatMap((one) => moduleOf(one).takes))].sort();

/** Every part that is fetched later, from a file on, with the tables that are here by then. */
function fetchedFrom(file: string, here: ReadonlySet<string>, seen = new Set<string>()): readonly Fetched[] {
  if (seen.has(file)) return [];
  seen.add(file);
  return [...loadedWith(file)].flatMap((one) =>
    moduleOf(one).fetches.flatMap((part) => {
      const by = new Set([...here, ...part.tables]);
      return [{ file: part.file, tables: [...by] }, ...fetchedFrom(part.file, by, seen)];
    }),
  );
}

const first = /^const first: .*= \[(.*)\];$/m
  .exec(readFileSync(join(screens, "languages", "chosen.ts"), "utf8"))![1]!
  .match(/\w+/g)!;

test("the first page speaks from the tables that are fetched before it alone", () => {
  const taken = ["App.tsx", "people/SignIn.tsx"].flatMap((file) => tablesOf(join(screens, file)));
  expect([...new Set(taken)].sort()).toEqual([...first].sort());
});

test("each part that is fetched later brings the tables it speaks from, and no others", () => {
  const parts = fetchedFrom(join(screens, "App.tsx"), new Set(first));
  expect(parts.length).toBeGreaterThan(35);
  const wrong = parts.flatMap(({ file, tables }) => {
    const needed = tablesOf(file);
    const lacking = needed.filter((table) => !tables.includes(table));
    return lacking.length > 0 ? [`${relative(screens, file)} also speaks from ${lacking.join(", ")}`] : [];
  });
  expect(wrong).toEqual([]);
  const idle = [...modules].flatMap(([, { fetches }]) =>
    fetches.flatMap(({ file, tables }) => {
      const within = [file, ...fetchedFrom(file, new Set()).map((part) => part.file)].flatMap(tablesOf);
      const unused = tables.filter((table) => !within.includes(table));
      return unused.length > 0 ? [`${relative(screens, file)} never speaks from ${unused.join(", ")}`] : [];
    }),
  );
  expect(idle).toEqual([]);
});

test("each language has a file for each table, under its name", () => {
  const tables = [...new Set(everySource().flatMap((file) => moduleOf(file).takes))].sort();
  expect(tables.length).toBeGreaterThan(25);
  for (const tag of ["de", "pl"]) {
    const files = readdirSync(join(screens, "languages", tag)).filter((file) => file.endsWith(".ts"));
    expect(files.map((file) => file.replace(/\.ts$/, "")).sort(), tag).toEqual(tables);
  }
});

const everySource = (): readonly string[] =>
  readdirSync(screens, { recursive: true, encoding: "utf8" })
    .filter((file) => /\.tsx?$/.test(file) && !file.includes(".test.") && !file.startsWith("languages"))
    .map((file) => join(screens, file));
