import type { Entry } from "../dossier.ts";

/** Languages that a unit's record can be printed in. */
export const dossierLanguages = ["en", "de", "pl"] as const;
export type DossierLanguage = (typeof dossierLanguages)[number];

type State = "open" | "proven" | "refuted" | "undecided" | "void" | "conceded";
type Danger = "high-voltage" | "mains" | "hot" | "dust";
type EntryWords = { readonly [K in Entry["kind"]]: (entry: Extract<Entry, { kind: K }>, say: Saying) => string };

/** What a sentence about an entry needs of the language around it. */
export interface Saying {
  /** A name of the trade or of the shop, in the language where it is known there. */
  trade(phrase: string): string;
  value(quantity: string, value: number, doubt: number): string;
  quantity(quantity: string): string;
}

/** The words of a unit's printed record in one language. */
export interface DossierWords {
  readonly locale: string;
  readonly decimal: "." | ",";
  readonly sheets: Readonly<Record<string, string>>;
  readonly states: Readonly<Record<State, string>>;
  readonly revision: (title: string, revision: string) => string;
  readonly releasedOn: (date: string, by: string) => string;
  readonly notReleased: string;
  readonly missing: (count: number, titles: string) => string;
  readonly builtFor: (place: string, volts: string, hertz: string) => string;
  readonly whatWasProven: string;
  readonly provenSoFar: string;
  readonly nearest: string;
  readonly measured: string;
  readonly allowed: string;
  readonly concededInWriting: string;
  readonly provenFigures: (count: number) => string;
  readonly notProven: string;
  readonly valves: string;
  readonly valve: (type: string, valve: string) => string;
  readonly beforeOpening: string;
  readonly forItsOwner: readonly string[];
  readonly forTheWorkshop: string;
  readonly proofs: (sheet: string) => string;
  readonly allInside: (count: number) => string;
  readonly concededOn: (date: string, reason: string) => string;
  readonly stands: Readonly<Record<Exclude<State, "proven" | "conceded">, string>>;
  /** The ledger's own sentence, where it is written in another language. */
  readonly ledgerSays: (sentence: string) => string;
  readonly safetyProof: string;
  readonly howChecked: (how: string) => string;
  readonly figureHead: readonly [string, string, string, string, string, string, string];
  readonly computedBy: (calculation: string) => string;
  readonly exactly: (value: string) => string;
  readonly between: (low: string, high: string) => string;
  readonly atLeast: (value: string) => string;
  readonly atMost: (value: string) => string;
  readonly where: { readonly section: string; readonly channel: (channel: string) => string };
  readonly channels: Readonly<Record<string, string>>;
  readonly pictures: string;
  readonly balance: {
    readonly title: string;
    readonly table: string;
    readonly head: readonly [string, string];
    readonly causes: Readonly<Record<"control" | "valves" | "circuit" | "alike" | "undecided", string>>;
    readonly spread: (spread: string) => string;
  };
  readonly builtFrom: string;
  readonly batch: string;
  readonly seller: string;
  readonly verdict: string;
  readonly verdicts: Readonly<Record<string, string>>;
  readonly sections: { readonly title: string; readonly head: readonly [string, string, string, string] };
  readonly sectionSpread: string;
  readonly supply: {
    readonly title: string;
    readonly tap: string;
    readonly mains: string;
    readonly power: string;
    readonly fuse: string;
    readonly notRead: string;
  };
  readonly steps: { readonly title: string; readonly head: readonly [string, string, string, string] };
  readonly stepsBefore: (steps: string) => string;
  readonly case: {
    readonly title: string;
    readonly table: string;
    readonly head: readonly [string, string, string, string, string, string];
    readonly stands: Readonly<Record<"proven" | "refuted" | "undecided", string>>;
    readonly coats: string;
    readonly coat: (name: string, date: string) => string;
  };
  readonly instruments: {
    readonly title: string;
    readonly table: string;
    readonly head: readonly [string, string, string];
    readonly never: string;
    readonly notOnRecord: string;
    readonly trial: (read: string, reference: string, date: string) => string;
    readonly states: Readonly<Record<"good" | "failed" | "undecided" | "untried", string>>;
  };
  readonly history: {
    readonly title: string;
    readonly conceded: (title: string) => string;
    readonly concession: (reason: string, by: string, date: string) => string;
    readonly table: string;
    readonly head: readonly [string, string, string, string];
    readonly entries: EntryWords;
  };
  readonly signatures: {
    readonly title: string;
    readonly lead: string;
    readonly table: string;
    readonly head: readonly [string, string, string];
    readonly wrote: (entries: number) => string;
    readonly between: (from: string, to: string) => string;
    readonly released: (entry: string) => string;
    readonly byHand: readonly [string, string];
  };
  readonly cautions: {
    readonly title: string;
    readonly dangers: Readonly<Record<Danger, string>>;
    readonly always: string;
  };
  readonly checking: {
    readonly title: string;
    readonly text: string;
    readonly head: string;
    readonly version: string;
    readonly releasedBy: string;
    readonly release: (by: string, date: string, entry: string) => string;
    readonly resting: string;
    readonly judged: string;
  };
  readonly mark: (unit: string) => string;
  readonly foot: (shop: string, unit: string, head: string) => string;
  readonly pageOf: string;
  readonly plate: { readonly number: string; readonly fuse: string };
  readonly drawings: {
    readonly response: string;
    readonly responseAlt: (channels: string) => string;
    readonly responseAt: (channel: string, points: string) => string;
    readonly at: (level: string, frequency: string) => string;
    readonly responseCaption: (recording: string) => string;
    readonly noise: (channel: string) => string;
    readonly noiseAlt: (channel: string, recording: string, level: string, hertz: string) => string;
    readonly noiseCaption: (recording: string, channel: string, hertz: string) => string;
    readonly hum: string;
    readonly humAlt: (lines: string) => string;
    readonly humCaption: string;
    readonly humLine: (line: string, level: string, cause: string, heard: string) => string;
    readonly heardOnNone: string;
    readonly heardOn: (headphones: string) => string;
    readonly undecided: string;
    readonly causes: Readonly<Record<string, string>>;
    readonly case: (place: string) => string;
    readonly caseAlt: (panels: string) => string;
    readonly casePanel: (panel: string, low: string, high: string) => string;
    readonly caseCaption: string;
    readonly months: readonly string[];
  };
  /** Names of the trade: quantities, and what the program itself writes into a model; the shop's own stay as they are. */
  readonly trade: Readonly<Record<string, string>>;
  /** Names that stand within others, as a test point's: `left V2 plate`. */
  readonly parts: Readonly<Record<string, string>>;
}
