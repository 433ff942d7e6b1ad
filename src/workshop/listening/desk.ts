import { randomBytes } from "node:crypto";
import { z } from "zod";
import { refusal } from "../../calculations/refusal.ts";
import type { Evidence } from "../../claims/evidence.ts";
import type { Series, Shop } from "../../claims/index.ts";
import { levelMatch, playings } from "../../listening/index.ts";
import { BadInput, quote } from "../../maths/badInput.ts";
import { quantityWords } from "../../measurement/quantityWords.ts";
import type { Calculate } from "../calculate.ts";
import { blindOf } from "../notebook/blind.ts";
import { heardIn } from "./heard.ts";
import type { LevelReadingView, ListeningIndexView, SeriesCardView, SeriesView, SwitchingView } from "./views.ts";

const name = z.string().trim().min(1).max(120);
const share = z.number().min(0).max(1);

const startQuestion = z.strictObject({
  by: name,
  series: name.optional(),
  model: name,
  versions: z.tuple([name, name]),
  asked: z.enum(["difference", "preference"]),
  listeners: z.array(name).min(1).max(200),
  heard: share.default(0.75),
  power: share.default(0.8),
  falseAlarm: share.default(0.05),
  /** Left out, as many as the design asks for. */
  trials: z.number().int().min(1).max(1000).optional(),
  through: name.optional(),
  source: name.optional(),
  match: z
    .strictObject({
      first_dB: z.number().optional(),
      second_dB: z.number().optional(),
      doubt_dB: z.number().optional(),
      shared_dB: z.number().default(0),
      within_dB: z.number().default(0.1),
      from: z.tuple([name, name]).optional(),
    })
    .optional(),
});

export interface ListeningCase {
  readonly shop: Shop;
  readonly now: string;
  readonly calculate: Calculate;
}

/** Every blind series, and what a new one may be made of. */
export function listeningIndex({ shop, now }: ListeningCase): ListeningIndexView {
  const versions = new Map<string, string[]>();
  for (const { body } of shop.versions.values()) {
    versions.set(body.model, [...(versions.get(body.model) ?? []), body.version]);
  }
  return {
    now,
    series: shop.listening.names.map((series) => cardOf(shop.listening.series(series)!)),
    models: [...versions].filter(([, all]) => all.length > 1).map(([model, all]) => ({ model, versions: all })),
    headphones: [...shop.headphones.keys()],
    levels: levelsOn(shop),
  };
}

export async function seriesView(series: string, asked: ListeningCase): Promise<SeriesView> {
  const { shop, now } = asked;
  const found = seriesNamed(shop, series);
  const { plan, answers, closed } = found;
  const { through, source, trials, design, listeners, match } = plan.body;
  const level = match && levelOf(match);
  const card = cardOf(found);
  const heard = heardIn(found);
  const shown = closed ? await blindOf(plan.body, heard, asked.calculate) : {};
  return {
    ...card,
    now,
    ...(through !== undefined && { through }),
    ...(source !== undefined && { source }),
    trials,
    ...(design && { design }),
    ...(level && { level }),
    progress: listeners.map((listener) => ({ listener, answered: answers.get(listener)?.size ?? 0 })),
    ...(closed && { closed: { at: closed.at, by: closed.by, why: closed.body.why } }),
    ...shown,
    notes: closed ? notesOf(card, level?.state) : [],
  };
}

function notesOf({ answered, of, versions }: SeriesCardView, level: string | undefined): readonly string[] {
  return [
    ...(answered < of
      ? [
          `It was stopped at ${answered} of ${of} answers. A series stopped when its answers pleased would make chance look like hearing: the reason stands beside it.`,
        ]
      : []),
    ...(level === undefined
      ? [`Nobody read how loud ${versions[0]} and ${versions[1]} were set: what was told apart may be loudness.`]
      : level === "undecided"
        ? ["The levels were not proven alike: what was told apart may be loudness."]
        : []),
  ];
}

/** What to play a listener; opened by whoever switches. */
export function switchingView(series: string, listener: string, shop: Shop): SwitchingView {
  const { plan, answers } = seriesNamed(shop, series);
  const { lot, listeners, trials, asked, versions } = plan.body;
  if (!listeners.includes(listener)) {
    throw new BadInput("listener", quote(listener), `listeners of ${series} are ${listeners.join(", ")}`, "name one");
  }
  const named = (which: "first" | "second") => versions[which === "first" ? 0 : 1];
  return {
    series,
    listener,
    asked,
    trials: playings(lot, listener, trials, asked).map((playing, i) => ({
      trial: i + 1,
      plays:
        playing.asked === "difference"
          ? [versions[0], versions[1], named(playing.third)]
          : [named(playing.before), named(playing.before === "first" ? "second" : "first")],
      isAnswered: answers.get(listener)?.has(i + 1) ?? false,
    })),
  };
}

/** Ids of a listener's standing answers, trial by trial, so that a slip of the hand can be put right; they say nothing more. */
export function answerIds(series: string, listener: string, shop: Shop): { readonly ids: readonly (string | null)[] } {
  const { plan, answers } = seriesNamed(shop, series);
  const own = answers.get(listener);
  return { ids: Array.from({ length: plan.body.trials }, (_, i) => own?.get(i + 1)?.id ?? null) };
}

/** The entry that plans a series: its number of trials reckoned, its levels read, its lot drawn. */
export async function plannedSeries(
  question: unknown,
  { shop, now, calculate }: ListeningCase,
): Promise<Record<string, unknown>> {
  const parsed = startQuestion.safeParse(question);
  if (!parsed.success) throw refusal(parsed.error, question);
  const { by, series, heard, power, falseAlarm, trials, match, ...rest } = parsed.data;
  const several = rest.asked === "difference" ? rest.listeners.length : 1;
  const design = await calculate<{ trials: number; falseAlarm: number; power: number }>("listening.design", {
    heard,
    power,
    falseAlarm,
    listeners: several,
  });
  return {
    at: now,
    by,
    kind: "listening-series",
    series: series ?? freeName(shop, `${rest.model} ${rest.versions.join(" ")}`),
    ...rest,
    trials: trials ?? design.trials,
    design: { heard, falseAlarm, power },
    lot: randomBytes(16).toString("hex"),
    ...(match && { match: matchOf(match, shop) }),
  };
}

function freeName(shop: Shop, stem: string): string {
  const taken = new Set(shop.listening.names);
  for (let i = 1; ; i++) if (!taken.has(`${stem} ${i}`)) return `${stem} ${i}`;
}

type Match = NonNullable<z.output<typeof startQuestion>["match"]>;

function matchOf({ from, first_dB, second_dB, doubt_dB, ...rest }: Match, shop: Shop) {
  if (from) {
    const [first, second] = from.map((id, i) => levelReading(shop, id, `match.from[${i}]`));
    return {
      ...rest,
      first_dB: first!.level_dB,
      second_dB: second!.level_dB,
      doubt_dB: Math.max(first!.doubt_dB, second!.doubt_dB),
      from,
    };
  }
  for (const [field, value] of Object.entries({ first_dB, second_dB, doubt_dB })) {
    if (value === undefined) {
      throw new BadInput(`match.${field}`, "nothing", "a level in dB", "read both, or leave the level check out");
    }
  }
  return { ...rest, first_dB: first_dB!, second_dB: second_dB!, doubt_dB: doubt_dB! };
}

function levelReading(shop: Shop, id: string, path: string): LevelReadingView {
  const found = shop.ledger.get(id);
  const level = found && asLevel(found);
  if (level) return level;
  throw new BadInput(path, quote(id), "a reading of a level on record", "name one, or type the levels");
}

/** Levels are read in volts or in decibels; a doubt in volts becomes one in decibels. */
function asLevel({ id, at, body }: Evidence): LevelReadingView | undefined {
  if (body.kind !== "reading" || !/^level\w*_(dB|dBV|Vrms|mVrms)$/.test(body.quantity)) return undefined;
  const { unit } = quantityWords(body.quantity);
  const { subject, value, doubt, quantity } = body;
  // What a listener gets, not a heater's voltage.
  if (subject.channel === undefined && !/jack|head|out|ear/i.test(subject.point ?? "")) return undefined;
  const where = [subject.unit, subject.channel, subject.point].filter(Boolean).join(", ");
  const what = `${where}: ${Number(value.toPrecision(5))} ${unit}`;
  if (/_dBV?$/.test(quantity)) return { id, at, what, level_dB: value, doubt_dB: doubt };
  if (!(value > 0)) return undefined;
  return { id, at, what, level_dB: 20 * Math.log10(value), doubt_dB: (20 / Math.LN10) * (doubt / value) };
}

const mostLevels = 40;

/** The newest levels; only of so many is anything worked out. */
function levelsOn({ listening }: Shop): readonly LevelReadingView[] {
  const newest = listening.levels
    .map((entry) => ({ entry, at_ms: Date.parse(entry.at) }))
    .sort((a, b) => b.at_ms - a.at_ms);
  const found: LevelReadingView[] = [];
  for (const { entry } of newest) {
    const level = asLevel(entry);
    if (level) found.push(level);
    if (found.length === mostLevels) break;
  }
  return found;
}

function levelOf(match: NonNullable<Series["plan"]["body"]["match"]>): NonNullable<SeriesView["level"]> {
  const { within_dB, from = [], ...pair } = match;
  const { state, pairs, wouldDecide_dB } = levelMatch([{ at: "1 kHz", ...pair }], within_dB);
  const { difference_dB, doubt_dB } = pairs[0]!;
  return {
    state,
    difference_dB,
    doubt_dB,
    within_dB,
    from,
    ...(wouldDecide_dB !== undefined && { wouldDecide_dB }),
  };
}

function cardOf({ plan, answers, closed }: Series): SeriesCardView {
  const { series, model, versions, asked, listeners, trials } = plan.body;
  const answered = listeners.reduce((sum, one) => sum + (answers.get(one)?.size ?? 0), 0);
  const of = listeners.length * trials;
  return {
    series,
    model,
    versions,
    asked,
    at: plan.at,
    by: plan.by,
    listeners: listeners.length,
    answered,
    of,
    state: closed ? "closed" : answered === of ? "answered" : "open",
  };
}

function seriesNamed(shop: Shop, series: string): Series {
  const found = shop.listening.series(series);
  if (found) return found;
  const known = shop.listening.names;
  throw new BadInput(
    "series",
    quote(series),
    known.length === 0 ? "no series is planned yet" : `known: ${known.slice(0, 20).join(", ")}`,
    "check its name",
  );
}
