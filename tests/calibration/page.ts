import { appendFileSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { shareInterval } from "../../src/maths/statistics/index.ts";
import { type Count, roomOf, verdictOn } from "./count.ts";

/** Counts of one run, with how they were reached. */
export interface Counted extends Count {
  readonly draws: number;
  readonly seed: string;
  /** Day, and for a command the revision. */
  readonly reached: string;
}

const title = "## Calibration: how often stated intervals and odds come true";
export const countedFolder = join(import.meta.dirname, "..", "..", ".stillglow", "calibration");

/** Notes what the suite counted, for the page that is written at its end. */
export function recordCounted(counted: readonly Counted[]): void {
  mkdirSync(countedFolder, { recursive: true });
  const lines = counted.map((one) => `${JSON.stringify({ ...one, misses: [] })}\n`);
  appendFileSync(join(countedFolder, `${process.pid}.jsonl`), lines.join(""));
}

/** And what is to be said beside the counts. */
export function recordRemarks(remarks: Remarks): void {
  mkdirSync(countedFolder, { recursive: true });
  writeFileSync(join(countedFolder, "remarks.json"), JSON.stringify(remarks));
}

/** The section of a page with what this run of the suite counted; as it was where it counted nothing. */
export function sectionOfSuite(page: string): string | undefined {
  if (!existsSync(countedFolder)) return sectionIn(page);
  const counted = readdirSync(countedFolder)
    .filter((file) => file.endsWith(".jsonl"))
    .flatMap((file) => readFileSync(join(countedFolder, file), "utf8").trim().split("\n"))
    .map((line) => JSON.parse(line) as Counted);
  const remarks = join(countedFolder, "remarks.json");
  return sectionWith(
    page,
    "suite",
    counted,
    existsSync(remarks) ? (JSON.parse(readFileSync(remarks, "utf8")) as Remarks) : undefined,
  );
}

/** What is said beside the counts: about each calculation, and about those that estimate nothing. */
export interface Remarks {
  readonly drawn: Readonly<Record<string, string>>;
  readonly fewer: Readonly<Record<string, string>>;
  readonly estimatesNothing: Readonly<Record<string, string>>;
}

/** A row as the page has it: key, suite, command. */
type Row = readonly [suite: string, command: string];

const cell = (text: string) => text.replaceAll("|", "/").replaceAll("\n", " ");
const keyOf = ({ of, what }: Pick<Count, "of" | "what">) => `${cell(of)} | ${cell(what)}`;

function rowsIn(page: string): Map<string, Row> {
  const rows = page.matchAll(/^\| ([^|]+ \| [^|]+) \| ([^|]*) \| ([^|]*) \|$/gm);
  const kept = [...rows].filter(([, key]) => key !== "calculation | what is said");
  return new Map(kept.map(([, key, suite, command]) => [key!, [suite!, command!]]));
}

/** The section of the page, up to the next of its kind. */
export function sectionIn(page: string): string | undefined {
  const from = page.indexOf(title);
  if (from < 0) return undefined;
  const end = page.indexOf("\n## ", from + title.length);
  return page.slice(from, end < 0 ? undefined : end + 1);
}

const pct = (share: number) => (100 * share).toFixed(1);

function told(count: Counted): string {
  const { isTrue, count: of, stated, isOdds, atLeast, draws, seed, reached } = count;
  const { low, high } = shareInterval(isTrue, of);
  const room = roomOf(count);
  const said = isOdds
    ? `, ${pct(stated)} % said on the mean`
    : `, must ${atLeast ? `be ${pct(room.low)} % or more` : `lie in ${pct(room.low)} to ${pct(room.high)} %`}`;
  return `${isTrue} of ${of}, ${pct(isTrue / of)} % (${pct(low)} to ${pct(high)} %)${said}: ${verdictOn(count)}; ${draws} draws, seed ${cell(seed)}, ${reached}`;
}

/**
 * The section with new counts in it. Those of the other side, suite or command, stay as the page has them, and so do
 * those of calculations that were not asked this time.
 */
export function sectionWith(page: string, side: "suite" | "command", counted: readonly Counted[], remarks?: Remarks) {
  const rows = rowsIn(sectionIn(page) ?? "");
  const asked = new Set(counted.map(({ of }) => cell(of)));
  const at = side === "suite" ? 0 : 1;
  for (const [key, row] of rows) {
    if (asked.has(key.split(" | ")[0]!)) rows.set(key, at === 0 ? ["", row[1]] : [row[0], ""]);
  }
  for (const one of counted) {
    const [suite, command] = rows.get(keyOf(one)) ?? ["", ""];
    rows.set(keyOf(one), at === 0 ? [told(one), command] : [suite, told(one)]);
  }
  const table = [...rows]
    .filter(([, [suite, command]]) => suite !== "" || command !== "")
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([key, [suite, command]]) => `| ${key} | ${suite} | ${command} |`);
  const lists = remarks ? listsOf(remarks) : (/^### [\s\S]*$/m.exec(sectionIn(page) ?? "")?.[0] ?? "");
  return `${[head, ...table, "", lists.trimEnd()].join("\n").trimEnd()}\n`;
}

const head = `${title}

Every calculation that estimates is asked about things drawn with their truth known, by other code than that which
answers, and what it said is counted. Of several figures of one kind in an answer one is taken by lot, so that draws are
independent; in brackets stands the 95 % interval of the share (Clopper and Pearson). Each run of the suite makes other
draws, 200 where time allows, and fails only at what would come about by chance once in 10,000 runs, were all shares
just within the room given. **Two hundred draws can't tell 92 from 97 %**: at 95 % their interval is 91 to 98 %, so that
"too few to tell" is the usual verdict on a share near an end. Two thousand, told apart to a percent, are made by

    node --import tsx scripts/calibrate.ts --draws 2000 --only NAME

| calculation | what is said | in the suite: came true | by command: came true |
|---|---|---|---|`;

function listsOf({ drawn, fewer, estimatesNothing }: Remarks): string {
  const list = (of: Readonly<Record<string, string>>) =>
    Object.entries(of)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([name, words]) => `- \`${name}\`: ${words}`)
      .join("\n");
  return [
    "### How truth is drawn",
    list(drawn),
    "### Fewer than 200 draws in the suite",
    list(fewer),
    "### Calculations that estimate nothing",
    list(estimatesNothing),
  ].join("\n\n");
}

/** Puts the section into the page: after its head, before the other sections. */
export function withSection(page: string, section: string): string {
  const old = sectionIn(page);
  if (old !== undefined) return page.replace(old, () => `${section}\n`);
  const at = page.search(/^## /m);
  return at < 0 ? `${page.trimEnd()}\n\n${section}` : `${page.slice(0, at)}${section}\n${page.slice(at)}`;
}
