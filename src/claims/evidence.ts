import { z } from "zod";
import { bookBodies } from "./books/evidence.ts";
import { linkBodies } from "./links/evidence.ts";
import { listeningBodies } from "./listening/evidence.ts";
import { orderBodies } from "./orders/evidence.ts";
import { peopleBodies } from "./people/evidence.ts";
import { runBodies } from "./runs/evidence.ts";
import { timberBodies } from "./timber/evidence.ts";

/**
 * What the workshop writes down, and never edits: the shapes of every kind of evidence.
 *
 * An entry says what was done or read, when (`at`), and by whom (`by`, a role). The store adds the place in the
 * chain (`seq`), the time of writing and the hashes. A wrong entry is put right by a newer one that supersedes it.
 * Field names carry their unit, in the database as on the wire.
 */

const name = z.string().min(1).max(120);
const text = z.string().max(4000);
const number = z.number();
/** An instant with its offset, ISO 8601. */
export const instant = z.iso.datetime({ offset: true });

/** A physical thing named by what it is; a claim rests on such things and a rework touches them. */
export const thing = z.partialRecord(
  z.enum(["part", "position", "stage", "channel", "supply", "case", "instrument"]),
  name,
);

/** Languages that a customer's papers are printed in. */
export const paperLanguage = z.enum(["en", "de", "pl"]);

/** What a reading is about: a unit at a test point or channel, a valve's section, or an instrument. */
export const subject = z.strictObject({
  unit: name.optional(),
  valve: name.optional(),
  section: name.optional(),
  channel: name.optional(),
  position: name.optional(),
  point: name.optional(),
});

/**
 * One quantity that must lie inside its limits before a claim is proven.
 * `of: "unit"` (the default) reads the unit itself. `of: "valve"` reads whichever valve stands at `position`, so
 * that the evidence follows the valve when it is exchanged. Evidence answers a requirement when it names the same
 * place, no more and no less: a reading of the left channel says nothing about the right, nor about both.
 */
export const requirement = z.strictObject({
  quantity: name,
  of: z.enum(["unit", "valve"]).default("unit"),
  position: name.optional(),
  section: name.optional(),
  channel: name.optional(),
  point: name.optional(),
  low: number.optional(),
  high: number.optional(),
  /** Counted, not measured (cracks, missing screws), so that a figure without doubt may prove it. */
  counted: z.boolean().optional(),
});

export const claimSpec = z.strictObject({
  claim: name,
  title: name,
  /** The same for papers in other languages, where it is not one that the program knows. */
  told: z.partialRecord(paperLanguage, z.strictObject({ title: name, how: text.optional() })).optional(),
  /** Grouping on paper and screen: what kind of proof this is. */
  sheet: z.enum(["valves", "voltages", "sound", "hum", "timber", "supply", "safety"]),
  safety: z.boolean().default(false),
  requires: z.array(requirement).min(1),
  restsOn: z.array(thing).min(1),
  /** Who can make the check, with what skill; how long hands are busy and how long it then waits by itself. */
  check: z.strictObject({
    how: text,
    skill: name,
    place: name.optional(),
    hands_min: number.nonnegative(),
    wait_h: number.nonnegative().default(0),
    /** Where it waits by itself, when that takes up a place. */
    waitPlace: name.optional(),
    danger: z.enum(["none", "hot", "mains", "high-voltage", "dust"]).default("none"),
    /** Claims that must be proven before this check may be made. */
    after: z.array(name).default([]),
    /** Odds that a fresh unit fails here, from the shop's records; a guess says so in `how`. */
    failOdds: z.number().min(0).max(1).default(0.05),
    /** Hours lost when the failure is found only at a customer's. */
    lateCost_h: number.nonnegative().default(8),
    repair_h: number.nonnegative().default(1),
  }),
});

export const position = z.strictObject({
  position: name,
  type: name,
  /** Section name to the net list's part, `{ a: "V1a", b: "V1b" }`. */
  sections: z.record(name, name),
});

const model = z.strictObject({
  kind: z.literal("model"),
  model: name,
  revision: name,
  title: name,
  told: z.partialRecord(paperLanguage, z.strictObject({ title: name })).optional(),
  /** The version of the notebook that was released as this revision. */
  fromVersion: name.optional(),
  netlist: z.record(z.string(), z.unknown()),
  positions: z.array(position),
  /** Which channels a valve position can reach; left out, all. */
  feeds: z.record(name, z.array(name)).optional(),
  channels: z.array(name).min(1),
  /** Where the signal enters and leaves, one entry a channel. */
  input: z.record(name, name),
  output: z.record(name, name),
  outputImpedance_ohm: number.nonnegative(),
  balanceLimit_dB: number.positive(),
  claims: z.array(claimSpec).min(1),
  /** Work before the checks begin, in order. */
  build: z.array(
    z.strictObject({
      step: name,
      skill: name.optional(),
      place: name.optional(),
      hours: z.strictObject({ fast: number.nonnegative(), usual: number.nonnegative(), slow: number.nonnegative() }),
      unattended: z.boolean().optional(),
      failOdds: z.number().min(0).max(1).optional(),
    }),
  ),
  shelf: z.strictObject({ step: name, hours: number.nonnegative() }).optional(),
});

const instrument = z.strictObject({
  kind: z.literal("instrument"),
  instrument: name,
  title: name,
  /** What it is tried against each day, and how far its reading of that may lie from the true value. */
  trial: z.strictObject({ reference: name, quantity: name, true: number, limit: number.positive() }),
});

const order = z.strictObject({
  kind: z.literal("order"),
  order: name,
  customer: name,
  model: name,
  revision: name,
  units: z.array(name).min(1),
  due: instant.optional(),
  released: instant.optional(),
  destination: z.strictObject({ place: name, nominal_V: number.positive(), frequency_Hz: number.positive() }),
  /** The customer's, in which the papers that go with its units are printed. */
  language: paperLanguage.optional(),
  /** What the customer chose: `{ timber: "white ash", finish: "oil" }`. */
  options: z.record(name, name).optional(),
});

const unit = z.strictObject({
  kind: z.literal("unit"),
  unit: name,
  order: name,
  model: name,
  revision: name,
  fitted: z.record(name, name),
  tap: name,
  /** Build steps already finished when the unit was opened here. */
  built: z.array(name).default([]),
});

const stepDone = z.strictObject({ kind: z.literal("step"), unit: name, step: name });

const batch = z.strictObject({
  kind: z.literal("batch"),
  batch: name,
  type: name,
  seller: name,
  valves: z.array(name).min(1),
  sections: z.array(name).min(1),
});

/** The bench conditions of readings before and after a heat run, and the limits they are judged by. */
const valveLimits = z.strictObject({
  kind: z.literal("valve-limits"),
  type: name,
  plate_V: number,
  grid_V: number,
  referenceTrue_mA: number.positive(),
  reading_doubt_pct: number.positive(),
  /** Hours on the rack between the cold and the hot readings. */
  heatRun_h: number.positive().optional(),
  limits: z.strictObject({
    drift_pct: number.positive(),
    sectionSpread_pct: number.positive(),
    gridCurrent_uA: number.positive().optional(),
    leakage_uA: number.positive().optional(),
    gm_min_pct: number.positive().optional(),
  }),
});

const valveReading = z.strictObject({
  kind: z.literal("valve-reading"),
  valve: name,
  section: name,
  phase: z.enum(["cold", "hot", "curve"]),
  /** Hours on the tester's clock, counted as the reference valve's readings are. */
  time_h: number,
  plate_V: number,
  grid_V: number,
  plate_mA: number.nonnegative(),
  /** Of a pentode or beam tetrode. */
  screen_V: number.optional(),
  screen_mA: number.nonnegative().optional(),
  gm_mS: number.optional(),
  gridCurrent_uA: number.optional(),
  leakage_uA: number.optional(),
  instrument: name,
  supersedes: name.optional(),
});

const referenceReading = z.strictObject({
  kind: z.literal("reference-reading"),
  valve: name,
  type: name,
  time_h: number,
  plate_mA: number.positive(),
  instrument: name,
  supersedes: name.optional(),
});

const reading = z.strictObject({
  kind: z.literal("reading"),
  subject,
  quantity: name,
  value: number,
  /** 95 % half-width, same unit as the value. */
  doubt: number.nonnegative(),
  instrument: name,
  conditions: z.record(name, z.union([number, z.string()])).default({}),
  supersedes: name.optional(),
});

const sweep = z.strictObject({
  start_Hz: number.positive(),
  stop_Hz: number.positive(),
  duration_s: number.positive(),
  level_Vpk: number.positive().optional(),
  /** Start frequency times duration over ln(stop/start) is whole, so that harmonics keep their phase. */
  synchronised: z.boolean().optional(),
});

/** What was played into the unit while it was recorded; levels are those at its input, where they are known. */
export const stimulus = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("silence") }),
  z.strictObject({
    kind: z.literal("tone"),
    frequency_Hz: number.positive(),
    level_Vpk: number.positive().optional(),
  }),
  z.strictObject({
    kind: z.literal("two tones"),
    tones_Hz: z.tuple([number.positive(), number.positive()]),
    products: z.enum(["modulation", "difference"]),
    level_Vpk: number.positive().optional(),
  }),
  sweep.extend({ kind: z.literal("sweep") }),
]);

const recording = z.strictObject({
  kind: z.literal("recording"),
  unit: name,
  recording: name,
  /** Content hash of the WAV file, SHA-256 in hex. */
  file_sha256: z.string().regex(/^[0-9a-f]{64}$/),
  fullScale_Vpk: number.positive(),
  channels: z.array(name).min(1),
  supply: z.strictObject({
    source: z.enum(["building", "regenerated"]),
    frequency_Hz: number.positive(),
    /** The regenerator, an instrument on trial like any other: cut peaks or a sag cure a hum that is still there. */
    instrument: name.optional(),
  }),
  building_Hz: number.positive(),
  valves: z.record(name, name),
  input: name,
  instrument: name,
  /** What the recording is for. */
  purpose: z.enum(["hum", "tone", "two tones", "sweep", "noise", "tap", "supply", "switching on"]).default("hum"),
  stimulus: stimulus.optional(),
  /** Which channels were driven, the others left quiet. */
  driven: z.enum(["both", "left", "right"]).optional(),
  /** Where the volume control stood, as its scale or clock says. */
  volume: name.optional(),
  load_ohm: number.positive().optional(),
  /** Whether the recorder passes direct voltage, where that is known. */
  coupling: z.enum(["dc", "ac"]).optional(),
  supersedes: name.optional(),
});

/** A figure that a calculation drew from other evidence; it stands or falls with what it was drawn from. */
const finding = z.strictObject({
  kind: z.literal("finding"),
  subject,
  quantity: name,
  value: number,
  doubt: number.nonnegative(),
  calculation: name,
  version: name,
  from: z.array(name).min(1),
  supersedes: name.optional(),
});

const rework = z.strictObject({
  kind: z.literal("rework"),
  unit: name,
  /** What hands touched. A valve exchanged is named by its position. */
  touched: z.array(thing).min(1),
  /** Position to the valve now fitted there. */
  fitted: z.record(name, name).optional(),
  why: text,
});

const trial = z.strictObject({
  kind: z.literal("trial"),
  instrument: name,
  value: number,
  doubt: number.nonnegative(),
  supersedes: name.optional(),
});

const recorderChannel = z.strictObject({
  fullScale_Vpk: number.positive(),
  doubt_Vpk: number.nonnegative(),
  thd_pct: number.nonnegative().optional(),
  noise_Vrms: number.nonnegative().optional(),
  noiseA_Vrms: number.nonnegative().optional(),
  /** Against 1 kHz; taken off what is measured through this recorder. */
  response: z
    .strictObject({ frequencies_Hz: z.array(number.positive()).max(400), gain_dB: z.array(number).max(400) })
    .optional(),
});

/** What a recorder is worth, found by looping its output to its input: full scale in volts, response, own noise and distortion. */
const recorderCalibration = z.strictObject({
  kind: z.literal("recorder-calibration"),
  instrument: name,
  rate_Hz: number.positive(),
  /** Grain of the samples handed over; a browser may hand over 16 bits of a 24-bit recorder. */
  grain_bits: number.positive(),
  channels: z.record(name, recorderChannel),
  /** Content hashes of the recordings that it was drawn from. */
  files_sha256: z.array(z.string().regex(/^[0-9a-f]{64}$/)).min(1),
  supersedes: name.optional(),
});

const concession = z.strictObject({
  kind: z.literal("concession"),
  unit: name,
  claim: name,
  reason: z.string().min(8).max(4000),
});

const release = z.strictObject({
  kind: z.literal("release"),
  unit: name,
  version: name,
  /** Newest hash of the chain when the release was granted. */
  resting_sha256: z.string().regex(/^[0-9a-f]{64}$/),
  claims: z.array(
    z.strictObject({
      claim: name,
      state: z.enum(["proven", "conceded"]),
      figures: z.array(z.record(z.string(), z.unknown())),
    }),
  ),
});

/** People, places and working hours, as `production.promise` takes them. */
const shop = z.strictObject({
  kind: z.literal("shop"),
  /** What the workshop calls itself, at the head of its pages and papers. */
  title: name.optional(),
  timeZone: name,
  calendars: z.record(
    name,
    z.strictObject({ week: z.record(name, z.array(z.string())), closed: z.array(z.string()).optional() }),
  ),
  people: z.array(z.strictObject({ id: name, skills: z.array(name), calendar: name })),
  places: z.array(
    z.strictObject({
      id: name,
      kind: z.enum(["single", "batch"]),
      capacity: number.optional(),
      cycle_h: number.optional(),
    }),
  ),
  building_Hz: number.positive(),
  /** Supplies the bench can give a unit; `regenerated` upward of the nominal only, for the core's flux. */
  cleanSupply_Hz: z.array(number.positive()).default([]),
  currency: z.string().length(3),
});

const headphone = z.strictObject({
  kind: z.literal("headphone"),
  headphone: name,
  impedance_ohm: number.positive(),
  sensitivity_dB_per_V: number,
});

/** A model under design, as it stood on one page of the notebook; what it comes to is computed, never written. */
const version = z.strictObject({
  kind: z.literal("version"),
  model: name,
  version: name,
  /** The net list as it was drawn up; a part's price stands on it as `cost_cents`. */
  netlist: z.record(z.string(), z.unknown()),
  channels: z.array(z.strictObject({ channel: name, input: name, output: name })).max(8),
  /** What its outputs really drive, and the level that distortion is told at. */
  loads: z
    .array(z.strictObject({ name, ohm: number.positive(), level_Vrms: number.positive().optional() }))
    .max(8)
    .default([]),
  /** What a unit must keep to be good, besides the ratings of its valves and its test points. */
  limits: z
    .strictObject({ balance_dB: number.positive().optional(), gain_dB: number.positive().optional() })
    .default({}),
  from: name.optional(),
  why: text,
  supersedes: name.optional(),
});

/**
 * One listener's blind trials between two versions of a model, levels made equal, their number fixed beforehand: either
 * told which of the two a third playing was, or asked which of the two is preferred. Listeners stand by number or role.
 */
const listening = z.strictObject({
  kind: z.literal("listening"),
  model: name,
  versions: z.tuple([name, name]),
  listener: name,
  through: name.optional(),
  /** How far apart the two were set, measured at the listener's headphone; above 0.1 dB or so level itself is heard. */
  match: z
    .strictObject({ difference_dB: number, doubt_dB: number.nonnegative(), instrument: name.optional() })
    .optional(),
  asked: z.discriminatedUnion("kind", [
    z.strictObject({
      kind: z.literal("difference"),
      trials: z.number().int().min(1).max(10_000),
      right: z.number().int().min(0).max(10_000),
    }),
    z.strictObject({
      kind: z.literal("preference"),
      trials: z.number().int().min(1).max(10_000),
      /** How often the second of the two versions was preferred. */
      second: z.number().int().min(0).max(10_000),
    }),
  ]),
  supersedes: name.optional(),
});

export const body = z.discriminatedUnion("kind", [
  model,
  version,
  listening,
  instrument,
  order,
  unit,
  stepDone,
  batch,
  valveLimits,
  valveReading,
  referenceReading,
  reading,
  recording,
  finding,
  rework,
  trial,
  recorderCalibration,
  concession,
  release,
  shop,
  headphone,
  ...bookBodies,
  ...listeningBodies,
  ...linkBodies,
  ...orderBodies,
  ...runBodies,
  ...peopleBodies,
  ...timberBodies,
]);

/** What a person hands in: who, when, and the body. An id may be chosen, so that later entries can name it. */
export const submission = z.intersection(
  z.strictObject({
    id: z
      .string()
      .regex(/^[A-Za-z0-9._:-]{1,80}$/)
      .optional(),
    at: instant,
    by: name,
  }),
  body,
);

export type Thing = z.infer<typeof thing>;
export type Subject = z.infer<typeof subject>;
export type Requirement = z.infer<typeof requirement>;
export type ClaimSpec = z.infer<typeof claimSpec>;
export type EvidenceBody = z.infer<typeof body>;
export type EvidenceKind = EvidenceBody["kind"];
type Bodies = { readonly [K in EvidenceKind]: Extract<EvidenceBody, { kind: K }> };
export type BodyOf<K extends EvidenceKind> = Bodies[K];
export type Model = BodyOf<"model">;
export type Submission = z.input<typeof submission>;

/** An entry as it stands in the chain. */
export type Evidence<K extends EvidenceKind = EvidenceKind> = {
  readonly id: string;
  readonly seq: number;
  /** When it was done or read, as its author says. */
  readonly at: string;
  /** When it was written down, by the store's clock; never earlier than the entry before it. */
  readonly recordedAt: string;
  readonly by: string;
  readonly body: BodyOf<K>;
};
