import { z } from "zod";
import { linkFile } from "../claims/links/description.ts";
import { InstrumentFault } from "../instruments/fault.ts";
import { BadInput, quote } from "../maths/badInput.ts";
import type { About, SupplyView } from "../workshop/instruments/linkViews.ts";
import { linkedWords, supplyWords, takenWords } from "./instrumentWords.ts";
import { type LinkDoor, linkDoor } from "./linkDoor.ts";
import { readText } from "./readText.ts";
import type { FolderOption } from "./workshopFolder.ts";

type Options = FolderOption & Readonly<Record<string, unknown>>;
type Said = { readonly view: unknown; readonly words: string };

/** `stillglow instruments linked`, `link`, `read`, `log`, `set` and so on; exit status 1 where an instrument fails. */
export async function instruments(what: string, args: readonly string[], options: Options): Promise<void> {
  if (what === "link" && options.schema === true) {
    process.stdout.write(`${JSON.stringify(z.toJSONSchema(linkFile, { io: "input" }))}\n`);
    return;
  }
  const door = await linkDoor(options);
  try {
    const said = await deeds[what]!(door, args, options);
    if (said) process.stdout.write(`${options.json === true ? JSON.stringify(said.view) : said.words}\n`);
  } catch (fault) {
    if (!(fault instanceof InstrumentFault) && !(fault instanceof BadInput && fault.path.startsWith("problem.")))
      throw fault;
    process.stderr.write(`stillglow: ${fault.message}; nothing was written down\n`);
    process.exitCode = 1;
  } finally {
    await door.close();
  }
}

type Deed = (door: LinkDoor, args: readonly string[], options: Options) => Promise<Said | undefined>;

const deeds: Readonly<Record<string, Deed>> = {
  linked: async (door) => {
    const view = await door.view();
    return { view, words: linkedWords(view) };
  },
  link: async (door, [file], { by }) => {
    if (file === undefined) {
      throw new BadInput("file", "nothing", "a JSON file that describes an instrument", "name it, or see --schema");
    }
    const view = await door.link(jsonIn(file), String(by));
    return { view, words: `${view.instrument} is linked.` };
  },
  unlink: async (door, [instrument], { by }) => {
    const [view] = await door.enter([{ at: await door.now(), by, kind: "link", instrument, description: null }]);
    return { view, words: `${instrument} is no longer linked.` };
  },
  read: async (door, [instrument, quantity], options) => {
    const { by, id, as } = options;
    const taken = await door.read(instrument!, { quantity, ...(id !== undefined && { id }) });
    const about = aboutOf(options);
    if (Object.keys(about).length === 0) return { view: taken, words: takenWords(taken) };
    const { entry } = await door.keep(taken.id, { by, about, ...(as !== undefined && { as }) });
    return { view: entry, words: `${takenWords(taken)}\nWritten down as ${entry.id}.` };
  },
  log: async (door, [instrument, quantity], options) => {
    const { by, id, as } = options;
    const { log } = await door.startLog(instrument!, {
      by,
      quantity,
      about: aboutOf(options),
      every_s: numberIn("--every", options.every),
      for_s: numberIn("--for", options.for) * 60,
      conditions: conditionsIn(options.condition),
      ...(id !== undefined && { id }),
      ...(as !== undefined && { as }),
    });
    if (!door.own) return { view: { log }, words: `${log} is running in the server.` };
    process.stderr.write(`${log} is running; Ctrl-C lets it rest until the workshop is opened again.\n`);
    await untilEnded(door, log);
    const ended = (await door.view()).ended.find((one) => one.log === log);
    return { view: ended ?? { log }, words: ended ? `${ended.logged} logged; ${ended.because}` : `${log} rests.` };
  },
  stop: async (door, [log], { by }) => {
    await door.stopLog(log!, String(by));
    return { view: { log }, words: `${log} is stopped. What was read stands.` };
  },
  limits: async (door, [instrument], { by, why, volts, dc, hertz }) => {
    const limits = {
      ...(volts !== undefined && { output_Vrms: rangeIn("--volts", volts) }),
      ...(dc !== undefined && { output_V: rangeIn("--dc", dc) }),
      ...(hertz !== undefined && { frequency_Hz: rangeIn("--hertz", hertz) }),
    };
    const at = await door.now();
    const [view] = await door.enter([
      { at, by, kind: "supply-limits", instrument, limits, ...(why !== undefined && { why }) },
    ]);
    return { view, words: `These limits of ${instrument} hold from now on.` };
  },
  set: async (door, [instrument], { by, unit, volts, dc, hertz }) => {
    const settings = {
      ...(volts !== undefined && { output_Vrms: numberIn("--volts", volts) }),
      ...(dc !== undefined && { output_V: numberIn("--dc", dc) }),
      ...(hertz !== undefined && { frequency_Hz: numberIn("--hertz", hertz) }),
    };
    return told(await door.set(instrument!, { by, settings, ...(unit !== undefined && { unit }) }));
  },
  output: async (door, [instrument, state], { by, unit }) => {
    if (state !== "on" && state !== "off") throw new BadInput("state", quote(state), "on or off", "say one of them");
    return told(await door.output(instrument!, { by, on: state === "on", ...(unit !== undefined && { unit }) }));
  },
};

const told = (view: SupplyView): Said => ({ view, words: supplyWords(view) });

function jsonIn(file: string): unknown {
  const text = readText(file);
  try {
    return JSON.parse(text);
  } catch (fault) {
    throw new BadInput(file, (fault as Error).message, "a JSON file that describes an instrument", "mend its JSON");
  }
}

function aboutOf({ unit, point, channel, valve, section, piece }: Options): About {
  const given = Object.entries({ unit, point, channel, valve, section, piece });
  return Object.fromEntries(given.filter(([, value]) => value !== undefined));
}

function numberIn(option: string, given: unknown): number {
  const value = Number(String(given).replace(",", "."));
  if (String(given).trim() !== "" && Number.isFinite(value)) return value;
  throw new BadInput(option, quote(given), "a number", "write digits, with a comma or a point for decimals");
}

function rangeIn(option: string, given: unknown): { readonly low: number; readonly high: number } {
  const [low, high, ...more] = String(given).split("..");
  if (high === undefined || more.length > 0) throw new BadInput(option, quote(given), "low..high", "such as 0..253");
  return { low: numberIn(option, low), high: numberIn(option, high) };
}

function conditionsIn(given: unknown): Readonly<Record<string, string | number>> {
  const pairs = Array.isArray(given) ? (given as string[]) : [];
  return Object.fromEntries(
    pairs.map((pair) => {
      const at = pair.indexOf("=");
      if (at < 1) throw new BadInput("--condition", quote(pair), "name=value", "such as load_ohm=32");
      const value = pair.slice(at + 1);
      return [pair.slice(0, at), value !== "" && Number.isFinite(Number(value)) ? Number(value) : value];
    }),
  );
}

/** Until the log is over, or somebody stops the command. */
async function untilEnded(door: LinkDoor, log: string): Promise<void> {
  const { links } = door.own!;
  await new Promise<void>((done) => {
    // Its timers keep nothing alive by themselves.
    const alive = setInterval(() => undefined, 1000);
    const end = () => {
      stop();
      clearInterval(alive);
      process.off("SIGINT", end);
      done();
    };
    const look = () => {
      const runs = links.view().linked.some(({ logs }) => logs.some((one) => one.log === log));
      if (!runs) end();
    };
    const stop = links.subscribe(look);
    process.on("SIGINT", end);
    look();
  });
}
