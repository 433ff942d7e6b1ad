import { levelMatch } from "../../listening/index.ts";
import { BadInput, quote } from "../../maths/badInput.ts";
import type { BodyOf } from "../evidence.ts";
import type { Series } from "../listening/room.ts";
import type { Shop } from "../shop.ts";
import { requireDistinct, requireKnown } from "./refuse.ts";
import { versionsOf } from "./version.ts";

/** A series is planned once, between two versions on record, and not with levels that are known to differ. */
export function admitSeries(plan: BodyOf<"listening-series">, shop: Shop): void {
  const { series, model, versions, listeners, match } = plan;
  if (shop.listening.series(series)) {
    throw new BadInput(
      "series",
      quote(series),
      "a series is planned once",
      "give it another name: what was planned and heard stays as it was",
    );
  }
  const known = versionsOf(model, shop);
  for (const [i, version] of versions.entries()) requireKnown(`versions[${i}]`, version, known, `version of ${model}`);
  requireDistinct("versions", versions, "version");
  requireDistinct("listeners", listeners, "listener");
  if (!match) return;
  const { from = [], within_dB, ...pair } = match;
  for (const [i, id] of from.entries()) {
    const kind = shop.ledger.get(id)?.body.kind;
    if (kind === "reading" || kind === "finding") continue;
    throw new BadInput(
      `match.from[${i}]`,
      quote(id),
      "the id of a reading on record",
      "name the reading, or type the levels alone",
    );
  }
  const { state, pairs, trim_dB } = asMatch(() => levelMatch([{ at: "1 kHz", ...pair }], within_dB));
  if (state !== "refuted") return;
  throw new BadInput(
    "match",
    `${versions[1]} reads ${pairs[0]!.difference_dB.toFixed(2)} dB above ${versions[0]}`,
    `within ${within_dB} dB by the doubt: above that the louder one is heard, not the better`,
    `give ${versions[1]} ${trim_dB.toFixed(2)} dB and read both again`,
  );
}

function asMatch<T>(work: () => T): T {
  try {
    return work();
  } catch (fault) {
    if (fault instanceof BadInput) throw BadInput.at(fault.path.replace("pairs[0]", "match"), fault);
    throw fault;
  }
}

/** One answer for each trial, in order, of a listener who was planned, while the series is open. */
export function admitAnswer(given: BodyOf<"listening-answer">, shop: Shop): void {
  const { plan, answers, closed } = requireSeries(given.series, shop);
  const { series, listeners, trials } = plan.body;
  if (closed) {
    throw new BadInput(
      "series",
      quote(series),
      `series ${series} is closed: an answer given now would know its lot`,
      "plan another series",
    );
  }
  const older = given.supersedes === undefined ? undefined : shop.ledger.get(given.supersedes)?.body;
  if (older?.kind === "listening-answer" && older.series !== series) {
    throw new BadInput(
      "supersedes",
      quote(given.supersedes),
      `it answers series ${older.series}, which may be closed and read`,
      `name an answer of series ${series}, or leave it out`,
    );
  }
  requireKnown("listener", given.listener, listeners, `listener of series ${series}`);
  if (given.trial > trials) {
    throw new BadInput("trial", quote(given.trial), `1 to ${trials}, as series ${series} was planned`, "count again");
  }
  const own = answers.get(given.listener);
  const standing = own?.get(given.trial);
  if (standing && given.supersedes !== standing.id) {
    throw new BadInput(
      "trial",
      quote(given.trial),
      `${given.listener} has answered it`,
      "go on with the next, or supersede the answer that was a slip of the hand",
    );
  }
  const next = (own?.size ?? 0) + 1;
  if (!standing && given.trial > next) {
    throw new BadInput(
      "trial",
      quote(given.trial),
      `the next of ${given.listener} is ${next}`,
      "answer the trials in the order they are played",
    );
  }
}

/** A series is closed once; where answers are missing it says why it was stopped. */
export function admitClose({ series, why }: BodyOf<"listening-close">, shop: Shop): void {
  const found = requireSeries(series, shop);
  if (found.closed) {
    throw new BadInput("series", quote(series), "it is closed already", "read its result");
  }
  const { listeners, trials } = found.plan.body;
  const missing = listeners.reduce((sum, one) => sum + trials - (found.answers.get(one)?.size ?? 0), 0);
  if (missing === 0 || why.trim().length >= 8) return;
  throw new BadInput(
    "why",
    quote(why),
    `series ${series} lacks ${missing} of its ${listeners.length * trials} answers: say why it is stopped, in 8 characters or more`,
    "let them be answered, or give the reason",
  );
}

export function admitListenerNote(note: BodyOf<"listener-note">, shop: Shop): void {
  const known = versionsOf(note.model, shop);
  requireKnown("version", note.version, known, `version of ${note.model}`);
  if (note.against === undefined) return;
  requireKnown("against", note.against, known, `version of ${note.model}`);
  requireDistinct("against", [note.version, note.against], "version");
}

function requireSeries(name: string, shop: Shop): Series {
  requireKnown("series", name, shop.listening.names, "series");
  return shop.listening.series(name)!;
}
