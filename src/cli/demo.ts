import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { claimStates, releaseDecision, releaseEntry } from "../claims/index.ts";
import { type Demo, makeDemo } from "../demo/index.ts";
import { type Answers, score } from "../demo/score.ts";
import type { Truth } from "../demo/truth.ts";
import { BadInput, quote } from "../maths/badInput.ts";
import { openStore, type Store } from "../store/index.ts";
import { version } from "../workshop/version.ts";
import { openWorkshop } from "../workshop/workshop.ts";
import { answersOf } from "./demoAnswers.ts";
import { writeYears } from "./demoYears.ts";
import { serveWorkshop } from "./serve.ts";
import { humWords, promiseWords, proposalWords, unitWords } from "./words.ts";

interface DemoOptions {
  readonly data?: string;
  readonly port: string;
  readonly seed: string;
  /** Years of the shop before. */
  readonly years: string;
  readonly fresh?: boolean;
  readonly once?: boolean;
  readonly score?: boolean;
  readonly json?: boolean;
}

/** The unit whose five-minute run the demo tells. */
const told = "0417";
const home = join(import.meta.dirname, "..", "..", ".stillglow", "demo");
const mostYears = 30;

/** `stillglow demo`: makes the invented workshop, answers for its unit 0417, and serves its page. */
export async function demo(options: DemoOptions): Promise<void> {
  const seed = Number(options.seed);
  if (!Number.isSafeInteger(seed) || seed < 0)
    throw new BadInput(
      "--seed",
      quote(options.seed),
      "a whole number of 0 or more",
      "give another seed, or leave it out",
    );
  const years = Number(options.years);
  if (!Number.isInteger(years) || years < 0 || years > mostYears)
    throw new BadInput(
      "--years",
      quote(options.years),
      `a whole number from 0 to ${mostYears}`,
      "give fewer years, or leave it out",
    );
  const folder = resolve(options.data ?? (years === 0 ? home : `${home}-${years}-years`));
  const tell = options.json ? () => undefined : progressLine();
  await makeUnlessThere(folder, { seed, years, fresh: options.fresh ?? false }, tell);
  const workshop = await openWorkshop(folder, { write: !(options.score || options.once) });
  let isServing = false;
  try {
    if (options.score) {
      const truth = readTruth(folder);
      return printScore(await answersOf(workshop, folder, truth, tell), truth, options.json ?? false);
    }
    tell("computing unit 0417 from its evidence");
    const unit = await workshop.unit(told);
    const hum = await workshop.humHearing(told);
    const promises = await workshop.promises();
    tell();
    if (options.json) process.stdout.write(`${JSON.stringify({ unit, hum, promises })}\n`);
    else {
      const parts = [
        humWords(hum),
        ...(unit.proposal ? [proposalWords(unit.proposal)] : []),
        unitWords(unit),
        promiseWords(promises),
      ];
      process.stdout.write(`${parts.join("\n\n")}\n`);
    }
    if (options.once) return;
    isServing = true;
  } finally {
    if (!isServing) await workshop.close();
  }
  await serveWorkshop(workshop, { folder, port: options.port });
}

/** Where the truth lies: beside the data folder, never in it. */
export function truthFile(folder: string): string {
  return `${folder.replace(/[\\/]+$/, "")}-truth.json`;
}

async function makeUnlessThere(
  folder: string,
  { seed, years, fresh }: { readonly seed: number; readonly years: number; readonly fresh: boolean },
  tell: (what?: string) => void,
): Promise<void> {
  const marker = join(folder, "workshop.json");
  if (existsSync(marker) && !fresh) {
    const about = JSON.parse(readFileSync(marker, "utf8")) as { seed?: number; years?: number };
    if (about.seed === seed && (about.years ?? 0) === years) {
      tell();
      if (existsSync(truthFile(folder))) return;
    }
  }
  if (existsSync(folder) && !existsSync(marker)) {
    throw new BadInput(
      "--data",
      quote(folder),
      "a new folder, or one that this command made",
      "name another folder; nothing in it was touched",
    );
  }
  const half = `${folder}.half-made`;
  rmSync(half, { recursive: true, force: true });
  if (years > 0) {
    mkdirSync(half, { recursive: true });
    await writeYears(half, { seed, years }, tell);
  }
  const made = makeDemo(seed, (share, what) => tell(`${what} (${Math.round(share * 100)} %)`));
  await writeDemo(made, half, { tell, years });
  rmSync(folder, { recursive: true, force: true });
  renameSync(half, folder);
  writeFileSync(truthFile(folder), JSON.stringify(made.truth));
}

/** Writes the demo's evidence as a shop would have: entry by entry, each at its own date, then what follows from it. */
export async function writeDemo(
  made: Demo,
  folder: string,
  { tell = () => undefined, years = 0 }: { readonly tell?: (what?: string) => void; readonly years?: number } = {},
): Promise<void> {
  const about = { title: "Quarrin Ness", seed: made.seed, ...(years > 0 && { years }) };
  mkdirSync(dirname(folder), { recursive: true });
  mkdirSync(folder, { recursive: true });
  const typedIn = made.entries.filter(({ recordedAt }) => Date.parse(recordedAt) <= Date.parse(made.paperClosed));
  const since = made.entries.slice(typedIn.length);
  let written = 0;
  const write = (entries: Demo["entries"]) =>
    withStore(folder, entries[0]!.recordedAt, async (store, setClock) => {
      for (const { recordedAt, entries: sitting } of byMoment(entries)) {
        setClock(recordedAt);
        await store.append(sitting);
        written += sitting.length;
        tell(`writing evidence down (${Math.round((100 * written) / made.entries.length)} %)`);
      }
    });
  await write(typedIn);
  await withStore(folder, made.paperClosed, async (store) => {
    for (const bytes of made.recordings.values()) await store.putRecording(bytes);
    for (const { id, name, address } of made.customers) await store.customers.put({ customer: id, name, address });
  });
  await drawFindings(folder, { ...about, ownDate: made.paperClosed });
  await releasePastUnits(folder, made);
  await write(since);
  tell("drawing findings from recordings and readings");
  await drawFindings(folder, { ...about, ownDate: made.now });
}

async function withStore(
  folder: string,
  now: string,
  use: (store: Store, setClock: (now: string) => void) => Promise<void>,
): Promise<void> {
  let clock = now;
  const store = await openStore(folder, { clock: () => clock });
  try {
    await use(store, (at) => {
      clock = at;
    });
  } finally {
    await store.close();
  }
}

/** What follows from the evidence so far, written down as of a date that the workshop then keeps. */
async function drawFindings(folder: string, about: { readonly ownDate: string }): Promise<void> {
  writeFileSync(join(folder, "workshop.json"), `${JSON.stringify(about)}\n`);
  const workshop = await openWorkshop(folder, { write: true });
  try {
    await workshop.settle();
  } finally {
    await workshop.close();
  }
}

/** Units of the year before were released on paper; here as soon as what was read of them has been judged. */
function releasePastUnits(folder: string, made: Demo): Promise<void> {
  return withStore(folder, made.paperClosed, async (store) => {
    for (const { unit, at, by } of made.releases) {
      const model = store.shop.modelOf(unit)!;
      const states = claimStates(model, store.shop.ledger, unit, store.now());
      if (!releaseDecision(states).granted) continue;
      await store.append([{ at, by, ...releaseEntry(unit, states, version, store.head()) }]);
    }
  });
}

/** Entries written in one sitting, kept in order. */
function byMoment(entries: Demo["entries"]): { recordedAt: string; entries: object[] }[] {
  const moments: { recordedAt: string; entries: object[] }[] = [];
  for (const { recordedAt, ...entry } of entries) {
    const last = moments.at(-1);
    if (last && last.recordedAt === recordedAt) last.entries.push(entry);
    else moments.push({ recordedAt, entries: [entry] });
  }
  return moments;
}

function readTruth(folder: string): Truth {
  return JSON.parse(readFileSync(truthFile(folder), "utf8")) as Truth;
}

function printScore(answers: Answers, truth: Truth, asJson: boolean): void {
  const kept = score(truth, answers);
  if (asJson) process.stdout.write(`${JSON.stringify(kept)}\n`);
  else {
    const part = (title: string, lines: readonly string[]) =>
      `${title}: ${lines.length}\n${lines.map((line) => `  ${line}\n`).join("")}`;
    process.stdout.write(
      part("Stories found", kept.found) +
        part("Undecided, and rightly so", kept.undecidedRight) +
        part("False accusations", kept.falseAccusations) +
        part("Missed", kept.missed),
    );
  }
  if (kept.falseAccusations.length + kept.missed.length > 0) process.exitCode = 1;
}

/** One line on a terminal that is written over; plain lines elsewhere, and not the same one twice. */
function progressLine(): (what?: string) => void {
  const { stderr } = process;
  let last = "";
  return (what) => {
    if (stderr.isTTY) stderr.write(what === undefined ? "\r\u001b[K" : `\r\u001b[K${what} …`);
    else if (what !== undefined && what.replace(/\(.*\)$/, "") !== last) {
      last = what.replace(/\(.*\)$/, "");
      stderr.write(`${last.trim()} …\n`);
    }
  };
}
