import { BadInput, quote } from "../maths/badInput.ts";
import type { ProbeCardView, ProbeKind } from "../workshop/views.ts";
import { probeWords } from "./probeWords.ts";
import { type FolderOption, openToRead } from "./workshopFolder.ts";
import { writer } from "./writer.ts";

interface ProbeOptions extends FolderOption {
  readonly read?: readonly string[];
  readonly kind: string;
  readonly instrument?: string;
  readonly doubt?: string;
  readonly by: string;
  readonly json?: boolean;
}

const kinds: Readonly<Record<ProbeKind, string>> = { resistance: "resistance_ohm", dc: "level_V", gain: "gain_dB" };

/** `stillglow probe SERIAL`: windows, readings, suspects and the next probe; with --read, readings are written first. */
export async function probe(serial: string, options: ProbeOptions): Promise<void> {
  if (options.read && options.read.length > 0) await write(serial, options.read, options);
  const workshop = await openToRead(options);
  try {
    const card = workshop.probe(serial);
    const [windows, suspects] = await Promise.all([workshop.probeWindows(serial), workshop.probeSuspects(serial)]);
    const said = options.json ? JSON.stringify({ ...card, windows, suspects }) : probeWords(card, windows, suspects);
    process.stdout.write(`${said}\n`);
  } finally {
    await workshop.close();
  }
}

async function write(serial: string, given: readonly string[], options: ProbeOptions): Promise<void> {
  const { kind, instrument, doubt, by } = options;
  if (kind !== "dc" && kind !== "resistance" && kind !== "gain")
    throw new BadInput("--kind", quote(kind), "dc, resistance or gain", "say what was read");
  if (instrument === undefined)
    throw new BadInput("--instrument", "nothing", "the meter it was read with", "name an instrument on record");
  const card = await cardOf(serial, options);
  const door = await writer(options);
  try {
    const { now } = await door.conditions(serial);
    const half = doubt === undefined ? undefined : number(doubt, "--doubt");
    await door.enter(
      given.map((pair) => {
        const [name, value] = apart(pair);
        const point = pointNamed(card, name);
        const standing = point.readings.find((reading) => reading.kind === kind && reading.fallen === undefined);
        return {
          at: now,
          by,
          kind: "reading",
          subject: { unit: serial, point: name },
          quantity: kinds[kind],
          value,
          doubt: half ?? usualDoubt(kind, value),
          instrument,
          conditions: conditionsOf(kind, card, point.input),
          ...(standing && { supersedes: standing.evidence }),
        };
      }),
    );
  } finally {
    await door.close();
  }
}

async function cardOf(serial: string, options: FolderOption): Promise<ProbeCardView> {
  const workshop = await openToRead(options);
  try {
    return workshop.probe(serial);
  } finally {
    await workshop.close();
  }
}

function conditionsOf(kind: ProbeKind, card: ProbeCardView, input: string | undefined): object {
  if (kind === "resistance") return { to: card.ground, state: "dead" };
  return kind === "gain" ? { input: input ?? "", frequency_Hz: 1000 } : { meter_Mohm: card.meter_Mohm };
}

/** An ordinary hand-held meter's (common practice). */
function usualDoubt(kind: ProbeKind, value: number): number {
  if (kind === "gain") return 0.1;
  const doubt = kind === "dc" ? 0.02 + 0.005 * Math.abs(value) : 0.2 + 0.01 * value;
  return Number(doubt.toPrecision(2));
}

function pointNamed(card: ProbeCardView, name: string) {
  const found = card.points.find(({ point }) => point === name);
  if (found) return found;
  const known = card.points.map(({ point }) => point).join(", ");
  throw new BadInput("--read", quote(name), `test points are ${known || "none in this model"}`, "name a test point");
}

function apart(pair: string): readonly [string, number] {
  const cut = pair.lastIndexOf("=");
  if (cut < 1) throw new BadInput("--read", quote(pair), "a point and a value", 'write "left V1 plate=142.3"');
  return [pair.slice(0, cut).trim(), number(pair.slice(cut + 1), "--read")];
}

function number(text: string, option: string): number {
  const value = text.trim() === "" ? Number.NaN : Number(text.trim().replace(",", "."));
  if (!Number.isFinite(value)) throw new BadInput(option, quote(text), "a number", "write digits, comma or point");
  return value;
}
