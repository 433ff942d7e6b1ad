import { BadInput, quote } from "../maths/badInput.ts";
import { gaugeStudy, windowShare } from "../measurement/index.ts";
import { cellOf, takeTable } from "../workshop/instruments/studyTable.ts";
import { readText } from "./readText.ts";
import { gaugeWords, studyWords } from "./studyWords.ts";
import { type FolderOption, openToRead } from "./workshopFolder.ts";
import { writer } from "./writer.ts";

interface GaugeOptions extends FolderOption {
  readonly low?: string;
  readonly high?: string;
  readonly instrument?: string;
  readonly quantity?: string;
  readonly by: string;
  readonly at?: string;
  readonly json?: boolean;
}

const number = (typed: string): number | undefined => {
  const value = Number(typed.trim().replace(",", "."));
  return typed.trim() === "" || !Number.isFinite(value) ? undefined : value;
};

/** `stillglow gauge [TABLE]`: a study worked out of a table, or those on record. */
export async function gauge(table: string | undefined, options: GaugeOptions): Promise<void> {
  if (table === undefined) {
    const workshop = await openToRead(options);
    try {
      const view = await workshop.gaugeStudies();
      process.stdout.write(`${options.json ? JSON.stringify(view) : gaugeWords(view)}\n`);
    } finally {
      await workshop.close();
    }
    return;
  }
  const readings = readingsIn(table);
  const result = gaugeStudy(readings);
  const [low, high] = [limit("--low", options.low), limit("--high", options.high)];
  const window = low === undefined && high === undefined ? undefined : windowShare(result.gauge_sd, low, high);
  if (options.instrument !== undefined) await writeDown(readings, options.instrument, options);
  process.stdout.write(`${options.json ? JSON.stringify({ ...result, ...window }) : studyWords(result, window)}\n`);
}

function readingsIn(table: string) {
  const taken = takeTable(readText(table), number);
  if (!taken.ok) {
    const words = "line" in taken ? `line ${taken.line}: ${quote(taken.words)}` : `columns ${taken.head.join(", ")}`;
    throw new BadInput(table, words, "columns part, who and value, a number in each line", "name the columns so");
  }
  const { parts, people, times } = taken.sheet;
  return parts.flatMap((part) =>
    people.flatMap((operator) =>
      Array.from({ length: times }, (_, i) => taken.cells[cellOf(part, operator, i + 1)]).flatMap((typed) =>
        typed === undefined ? [] : [{ part, operator, value: number(typed)! }],
      ),
    ),
  );
}

async function writeDown(readings: ReturnType<typeof readingsIn>, instrument: string, options: GaugeOptions) {
  if (options.quantity === undefined) {
    throw new BadInput("--quantity", "nothing", "what the instrument reads, with its unit", "add --quantity level_V");
  }
  const door = await writer(options);
  try {
    const at = options.at ?? new Date().toISOString();
    await door.enter([{ kind: "gauge-study", at, by: options.by, instrument, quantity: options.quantity, readings }]);
  } finally {
    await door.close();
  }
}

function limit(path: string, typed: string | undefined): number | undefined {
  if (typed === undefined) return undefined;
  const value = number(typed);
  if (value === undefined) throw new BadInput(path, quote(typed), "a number", "give the limit as a number");
  return value;
}
