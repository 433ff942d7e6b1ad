import { z } from "zod";
import type { Calculation } from "./calculation.ts";

/** The reference page of every calculation, in Markdown, made from their own papers. */
export function calculationsPage(papers: readonly Calculation[]): string {
  return [
    "# Calculations",
    "",
    "Made from the list in `src/calculations/`; the command line, the HTTP interface and the screens use the same one.",
    "",
    "```sh",
    "stillglow calc                      # the list",
    "stillglow calc NAME --schema        # JSON Schema of input and output",
    "stillglow calc NAME --in FILE       # an answer; recordings are found relative to the file",
    "stillglow calc --batch              # JSON Lines in, JSON Lines out",
    "```",
    "",
    ...papers.map(section),
  ].join("\n");
}

function section(paper: Calculation): string {
  const list = (title: string, lines: readonly string[]) =>
    lines.length === 0 ? [] : [`**${title}**`, "", ...lines.map((line) => `- ${line}`), ""];
  return [
    `## ${paper.name}`,
    "",
    `${paper.title}.`,
    "",
    paper.validity,
    "",
    "| input | what |",
    "|---|---|",
    ...fields(z.toJSONSchema(paper.input, { io: "input", unrepresentable: "any" })),
    "",
    "| answer | what |",
    "|---|---|",
    ...fields(z.toJSONSchema(paper.output, { io: "output", unrepresentable: "any" })),
    "",
    ...list("Sources", paper.sources),
    ...list("Cautions", paper.cautions),
  ].join("\n");
}

interface Schema {
  readonly type?: unknown;
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly items?: Schema;
  readonly description?: string;
  readonly enum?: readonly unknown[];
  /** Forms of an answer that may be undecided; the first is the usual one. */
  readonly oneOf?: readonly Schema[];
}

function fields(schema: unknown): string[] {
  const { oneOf } = schema as Schema;
  const { properties = {}, required = [] } = oneOf?.[0] ?? (schema as Schema);
  return Object.entries(properties).map(
    ([name, field]) => `| \`${name}${required.includes(name) ? "" : "?"}\` | ${cell(describe(field))} |`,
  );
}

function describe(field: Schema): string {
  if (field.description) return field.description;
  if (field.enum) return `one of ${field.enum.join(", ")}`;
  const inner = field.items?.properties ?? field.properties;
  const names = inner
    ? ` of ${Object.keys(inner)
        .map((name) => `\`${name}\``)
        .join(", ")}`
    : "";
  if (field.type === "array") return `list${names}`;
  if (field.type === "object") return inner ? `object${names}` : "object by name";
  return String(field.type ?? "one of several forms");
}

function cell(text: string): string {
  return text.replaceAll("|", "\\|").replaceAll("\n", " ");
}
