import { firstWhere } from "../maths/firstWhere.ts";
import { guard, type Verdict } from "../measurement/index.ts";
import type { Cabinet } from "./drawers.ts";
import type { Evidence } from "./evidence.ts";
import { key } from "./key.ts";
import { byTaking, inWords, taken_ms } from "./when.ts";

/** What is asked of a ledger to judge the trials of an instrument. */
export interface TrialBook {
  readonly cabinet: Cabinet;
  /** Grows with each entry that corrects another. */
  readonly corrections: number;
  about<K extends "trial" | "instrument">(kind: K, instrument: string): readonly Evidence<K>[];
  supersederOf(id: string): string | undefined;
}

export type Trust =
  | { readonly state: "good"; readonly trial: string }
  | { readonly state: "failed"; readonly trial: string; readonly why: string }
  | { readonly state: "undecided"; readonly trial?: string; readonly why: string; readonly wouldDecide: string };

/**
 * Whether a reading taken with an instrument at some moment may be believed.
 *
 * The last trial before it must not have failed, and neither must the first decided one after it: a failed trial
 * takes back everything since the last good one. Without a trial before it, a good one after it is enough.
 */
export function instrumentTrust(ledger: TrialBook, instrument: string, moment: Pick<Evidence, "at" | "seq">): Trust {
  ledger.cabinet.open(key("trust", instrument));
  const judged = ledger.cabinet.unwatched(() => judgedTrials(ledger, instrument));
  const count = countBefore(judged, taken_ms(moment), moment.seq);
  let decided = count - 1;
  while (judged[decided]?.state === "undecided") decided -= 1;
  const lastDecided = judged[decided];
  if (lastDecided?.state === "refuted") {
    return {
      state: "failed",
      trial: lastDecided.trial.id,
      why: `its instrument ${instrument} had failed its trial of ${inWords(lastDecided.trial.at)} and passed none since`,
    };
  }
  let next = count;
  while (judged[next]?.state === "undecided") next += 1;
  const nextDecided = judged[next];
  if (nextDecided?.state === "refuted") {
    return {
      state: "failed",
      trial: nextDecided.trial.id,
      why: `its instrument ${instrument} failed its trial of ${inWords(nextDecided.trial.at)}, the first since this was read`,
    };
  }
  if (nextDecided) return { state: "good", trial: nextDecided.trial.id };
  const last = judged[count - 1];
  if (last?.state === "proven") return { state: "good", trial: last.trial.id };
  return {
    state: "undecided",
    trial: last?.trial.id,
    why: last
      ? `the trial of ${instrument} of ${inWords(last.trial.at)} decided nothing`
      : `its instrument ${instrument} has never been tried`,
    wouldDecide: trialInWords(ledger, instrument),
  };
}

/**
 * Whether a trial that is about to be written changes nothing of what may be believed: a good one after a good one, the
 * newest of all. Every reading that the last one vouches for is vouched for as before.
 */
export function changesNoTrust(ledger: TrialBook, trial: Evidence<"trial">): boolean {
  return ledger.cabinet.unwatched(() => {
    const last = ledger
      .about("trial", trial.body.instrument)
      .findLast(({ id }) => ledger.supersederOf(id) === undefined);
    if (last === undefined || trial.body.supersedes !== undefined || byTaking(last, trial) >= 0) return false;
    return judgeTrial(ledger, last) === "proven" && judgeTrial(ledger, trial) === "proven";
  });
}

interface JudgedTrial {
  readonly trial: Evidence<"trial">;
  readonly at_ms: number;
  readonly state: Verdict;
}

interface JudgedOf {
  readonly trials: number;
  readonly definitions: number;
  readonly corrections: number;
  readonly judged: readonly JudgedTrial[];
}

/** Every figure asks for its instrument's trials; they are judged once for as long as nothing bears on them. */
const judgedOf = new WeakMap<TrialBook, Map<string, JudgedOf>>();

/** Trials of an instrument that stand, in the order they were taken, each judged. */
function judgedTrials(ledger: TrialBook, instrument: string): readonly JudgedTrial[] {
  const by = judgedOf.get(ledger) ?? new Map<string, JudgedOf>();
  judgedOf.set(ledger, by);
  const known = by.get(instrument);
  const [trials, definitions, corrections] = [
    ledger.about("trial", instrument),
    ledger.about("instrument", instrument).length,
    ledger.corrections,
  ];
  if (known?.trials === trials.length && known.definitions === definitions && known.corrections === corrections)
    return known.judged;
  const judged = trials
    .filter((trial) => ledger.supersederOf(trial.id) === undefined)
    .map((trial) => ({ trial, at_ms: taken_ms(trial), state: judgeTrial(ledger, trial) }));
  by.set(instrument, { trials: trials.length, definitions, corrections, judged });
  return judged;
}

/** How many of the trials were taken no later than a moment. */
function countBefore(judged: readonly JudgedTrial[], at_ms: number, seq: number): number {
  return firstWhere(0, judged.length, (i) => {
    const { at_ms: trial_ms, trial } = judged[i]!;
    return trial_ms > at_ms || (trial_ms === at_ms && trial.seq > seq);
  });
}

/** Where an instrument stands now, for the morning card and for whoever is about to read with it. */
export function instrumentStanding(
  ledger: TrialBook,
  instrument: string,
): { readonly state: "good" | "failed" | "undecided" | "untried"; readonly at?: string; readonly words: string } {
  const trials = ledger.about("trial", instrument).filter((trial) => ledger.supersederOf(trial.id) === undefined);
  const last = trials.at(-1);
  if (!last) return { state: "untried", words: `never tried: ${trialInWords(ledger, instrument)}` };
  const trust = instrumentTrust(ledger, instrument, { at: last.at, seq: last.seq });
  const read = `read ${last.body.value} ± ${last.body.doubt} on ${inWords(last.at)}`;
  if (trust.state === "good") return { state: "good", at: last.at, words: read };
  const mend = trialInWords(ledger, instrument);
  if (trust.state === "failed") return { state: "failed", at: last.at, words: `${read}; it must pass again: ${mend}` };
  return { state: "undecided", at: last.at, words: `${read}, which decides nothing: ${mend}` };
}

/**
 * A daily trial judged by its guard band: reading within `true ± limit` by its doubt.
 *
 * A trial that states no doubt decides nothing, except that it may fail.
 */
export function judgeTrial(ledger: TrialBook, trial: Evidence<"trial">): Verdict {
  const definitions = ledger.about("instrument", trial.body.instrument);
  const definition = definitions.findLast((d) => byTaking(d, trial) <= 0) ?? definitions[0];
  if (!definition) return "undecided";
  const { true: truth, limit } = definition.body.trial;
  const { value, doubt } = trial.body;
  const { state } = guard({ value, doubt, low: truth - limit, high: truth + limit });
  return doubt === 0 && state === "proven" ? "undecided" : state;
}

function trialInWords(ledger: TrialBook, instrument: string): string {
  const definition = ledger.about("instrument", instrument).at(-1);
  if (!definition) return `enter ${instrument} with what it is tried against, then try it`;
  const { reference, quantity, true: truth, limit } = definition.body.trial;
  return `try ${instrument} on ${reference}: ${quantity} must read ${truth} within ${limit} by its doubt`;
}
