import type { Calculation } from "./calculation.ts";
import { answerFields, type DescribedField, inputFields } from "./describe.ts";

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
    ...(paper.formula ? ["```text", ...paper.formula, "```", ""] : []),
    "| input | what |",
    "|---|---|",
    ...inputFields(paper).map(row),
    "",
    "| answer | what |",
    "|---|---|",
    ...answerFields(paper).map(row),
    "",
    ...list("Sources", paper.sources),
    ...list("Cautions", paper.cautions),
  ].join("\n");
}

function row({ name, isOptional, what }: DescribedField): string {
  return `| \`${name}${isOptional ? "?" : ""}\` | ${what.replaceAll("|", "\\|").replaceAll("\n", " ")} |`;
}
