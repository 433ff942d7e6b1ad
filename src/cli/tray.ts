import { BadInput, quote } from "../maths/badInput.ts";
import { type RowReading, readTable, rowsOf } from "../workshop/readingsFile.ts";
import type { TrayView } from "../workshop/views.ts";
import { readText } from "./readText.ts";
import { setsWords, traysWords, trayWords } from "./trayWords.ts";
import { type FolderOption, openToRead } from "./workshopFolder.ts";
import { writer } from "./writer.ts";

interface TrayOptions extends FolderOption {
  readonly in?: string;
  readonly column?: readonly string[];
  readonly phase?: string;
  readonly instrument?: string;
  readonly sets?: boolean;
  readonly shelf?: boolean;
  readonly by: string;
  readonly json?: boolean;
}

/** `stillglow tray [BATCH]`: all trays, or one with its verdicts; with --in, readings are taken from a table first. */
export async function tray(batch: string | undefined, options: TrayOptions): Promise<void> {
  if (batch !== undefined && options.in !== undefined) await bring(batch, options.in, options);
  const workshop = await openToRead(options);
  const print = (view: unknown, words: string) =>
    process.stdout.write(`${options.json ? JSON.stringify(view) : words}\n`);
  try {
    if (batch === undefined) {
      const trays = await workshop.trays();
      print(trays, traysWords(trays));
    } else if (options.sets) {
      const sets = await workshop.valveSets(batch, options.shelf ? "shelf" : "tray");
      print(sets, setsWords(sets));
    } else {
      const view = await workshop.tray(batch);
      print(view, trayWords(view));
    }
  } finally {
    await workshop.close();
  }
}

/** Readings of a table into the ledger, all or none; a line that can't be taken is named and nothing is written. */
async function bring(batch: string, path: string, options: TrayOptions): Promise<void> {
  const { phase, instrument, by } = options;
  if (phase !== undefined && phase !== "cold" && phase !== "hot")
    throw new BadInput("--phase", quote(phase), "cold or hot", "say which session the table holds");
  if (instrument === undefined)
    throw new BadInput("--instrument", "nothing", "the tester it was read with", "name an instrument on record");
  const view = await viewOf(batch, options);
  if (!view.limits)
    throw new BadInput(
      "batch",
      quote(batch),
      `no test point of the ${view.type} is on record`,
      "enter its limits first",
    );
  const reference = view.reference?.valve ?? `REF-${view.type}`;
  const { readings, faults } = rowsOf(readTable(readText(path)), columnsOf(options.column ?? []), {
    sections: view.sections,
    valves: view.valves.map(({ valve }) => valve),
    reference,
    phase: phase ?? "cold",
    number,
  });
  const [fault] = faults;
  if (fault)
    throw new BadInput("--in", `line ${fault.line}`, fault.words, "mend the line, or the columns; nothing was written");
  const door = await writer(options);
  try {
    const now = new Date(Math.max(Date.parse(view.now), Date.parse(view.at))).toISOString();
    const entries = readings.map((reading) => ({ at: now, by, ...bodyOf(reading, view, instrument) }));
    const written = await door.enter(entries);
    if (!options.json) process.stdout.write(`${written.length} readings written down.\n\n`);
  } finally {
    await door.close();
  }
}

async function viewOf(batch: string, options: FolderOption): Promise<TrayView> {
  const workshop = await openToRead(options);
  try {
    return await workshop.tray(batch);
  } finally {
    await workshop.close();
  }
}

function bodyOf(reading: RowReading, { type, limits, clock_h }: TrayView, instrument: string): object {
  const { valve, section, phase, isReference, quantities, time_h = clock_h } = reading;
  if (isReference) return { kind: "reference-reading", valve, type, time_h, plate_mA: quantities.plate_mA, instrument };
  const { plate_V, grid_V } = limits!;
  return { kind: "valve-reading", valve, section, phase, time_h, plate_V, grid_V, ...quantities, instrument };
}

function columnsOf(pairs: readonly string[]): Record<string, string> {
  if (pairs.length === 0) {
    throw new BadInput(
      "--column",
      "nothing",
      "which column holds what",
      "write --column valve=Number --column plate_mA=Ia",
    );
  }
  return Object.fromEntries(
    pairs.map((pair) => {
      const cut = pair.indexOf("=");
      if (cut < 1) throw new BadInput("--column", quote(pair), "a figure and its column", "write plate_mA=Ia");
      return [pair.slice(0, cut).trim(), pair.slice(cut + 1).trim()];
    }),
  );
}

function number(typed: string): number | undefined {
  const value = Number(typed.trim().replace(",", ".").replace("\u2212", "-"));
  return Number.isFinite(value) ? value : undefined;
}
