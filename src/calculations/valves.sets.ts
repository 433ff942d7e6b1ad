import { z } from "zod";
import { gainsOf, netlistSchema } from "../circuits/index.ts";
import { BadInput, quote } from "../maths/badInput.ts";
import {
  type CurveDoubt,
  lawModel,
  type SetsAnswer,
  setsBySpread,
  setsInCircuit,
  type ValveModel,
} from "../valves/index.ts";
import { calculation } from "./calculation.ts";

const name = z.string().min(1).max(120);
const node = z.union([z.string().min(1).max(60), z.tuple([z.string().min(1).max(60), z.string().min(1).max(60)])]);
const number = z.number().min(-1e12).max(1e12);
const law = {
  current_A: z.number().positive().max(1e6),
  mu: z.number().positive().max(1e4),
  exponent: z.number().min(0.5).max(4),
  offset_V: number,
  bend: z.number().min(-1).max(1),
  lowPlate_V: z.number().min(0).max(1e4),
  softness_V: z.number().min(0).max(1e4),
  softness: z.number().min(0).max(1e4),
  gridCurrent: z
    .object({
      current_A: z.number().min(0),
      onset_V: number,
      softness_V: z.number().min(0),
      exponent: z.number().positive(),
    })
    .optional(),
};
/** A curve as `valves.fit` returns it. */
const curve = z.discriminatedUnion("kind", [
  z.object({ kind: z.literal("triode"), ...law, knee_V: z.number().min(0).max(1e4) }),
  z.object({
    kind: z.literal("pentode"),
    ...law,
    plateMu: z.number().positive(),
    screen: z.object({
      far: z.number().min(0).max(1),
      knee_V: z.number().positive(),
      kneePerDrive: z.number().min(0),
      power: z.number().positive(),
      tail: z.number().min(0),
    }),
  }),
]) satisfies z.ZodType<ValveModel>;
const bareLaw = z.object({ mu: z.number().positive().max(1e4), perveance_mA_per_V1p5: z.number().positive().max(1e4) });
const curveDoubt = z.object({
  current_pct: z.number().min(0).max(100).describe("95 % half-width of the plate current."),
  mu_pct: z.number().min(0).max(100),
});
/** Left out, `seconds` is this, so that a busy machine still answers within ten seconds. */
const USUAL_s = 8.5;
/** Searches end with the best found; many valves take a while to wind up. */
const longest_ms = (valves: number, seconds: number) => Math.max(0.5 * seconds, seconds - 1.25e-3 * valves) * 1e3;
const MOST_IN_CIRCUIT = 400;

const chosenSet = z.object({
  unit: name,
  positions: z.record(z.string(), name),
  cost: z.number(),
  doubt_dB: z.number().optional(),
});

export default calculation({
  name: "valves.sets",
  title: "Choose sets of valves that match",
  input: z.object({
    valves: z
      .array(
        z.object({
          id: name,
          features: z.record(z.string(), z.number().min(-1e9).max(1e9)).default({}).describe("Figures to match by."),
          model: curve.optional().describe("Curve as valves.fit gives it, for matching in the circuit."),
          law: bareLaw.optional().describe("Instead of a model: the bare three-halves law."),
          models: z.record(z.string(), curve).optional().describe("A curve for each section: {a, b}."),
          doubt: curveDoubt.optional().describe("How well the curve is known, as valves.fit gives it in `doubt`."),
          doubts: z.record(z.string(), curveDoubt).optional().describe("The same for each section: {a, b}."),
        }),
      )
      .min(1)
      .max(2000),
    demand: z
      .array(
        z.object({
          unit: name,
          positions: z.array(name).min(1).max(24),
          due: z.string().max(60).optional().describe("ISO 8601; counts only where not all units can have valves."),
        }),
      )
      .min(1)
      .max(2000),
    reserve: z
      .array(z.object({ unit: name, positions: z.array(name).min(1).max(24) }))
      .min(1)
      .max(400)
      .optional()
      .describe("Units in the field to keep a set for: chosen from what the orders leave."),
    cost: z
      .object({ kind: z.literal("spread"), weights: z.record(z.string(), z.number().min(0).max(1e9)) })
      .optional()
      .describe("Cost of a set: sum over features of weight times (largest less smallest)."),
    limit: z
      .number()
      .min(0)
      .max(1e12)
      .optional()
      .describe("Sets that cost more are not made; left out, none is too dear."),
    netlist: netlistSchema.optional().describe("Instead of cost: match by gain in this circuit, in dB."),
    input: z
      .union([name, z.array(name).min(1).max(16)])
      .optional()
      .describe("Source of each channel."),
    output: z
      .union([node, z.array(node).min(1).max(16)])
      .optional()
      .describe("Output of each channel."),
    frequency_Hz: z.number().positive().max(1e9).default(1000),
    above_dB: z
      .array(z.number().min(-60).max(60))
      .min(2)
      .max(16)
      .optional()
      .describe(
        "How far each channel's measured gain lies above the net list's with the valves that stand in it now: what the chassis' own parts do.",
      ),
    seconds: z
      .number()
      .min(1)
      .max(3600)
      .optional()
      .describe("Time granted to the search, which ends sooner where the best is proven; left out, 8.5."),
  }),
  output: z.object({
    sets: z.array(chosenSet),
    reserveSets: z
      .array(chosenSet)
      .optional()
      .describe("Sets kept for units in the field, where `reserve` asks for them."),
    reserveUnplaced: z.array(name).optional(),
    unplaced: z.array(name),
    reserve: z.array(name).describe("Valves in no set, those nearest to the middle of all first."),
    totalCost: z.number(),
    optimal: z.boolean().describe("True when no better answer exists, by proof."),
    gap: z.number().describe("How far the total cost is from what no answer can be under."),
    notes: z.array(z.string()),
  }),
  async compute(input) {
    refuseDoubles(
      input.valves.map((v) => v.id),
      (i) => `valves[${i}].id`,
    );
    input.demand.forEach((d, i) => {
      refuseDoubles(d.positions, (k) => `demand[${i}].positions[${k}]`);
      if (d.due !== undefined && Number.isNaN(Date.parse(d.due))) {
        throw new BadInput(
          `demand[${i}].due`,
          quote(d.due),
          "a date as ISO 8601 writes it",
          "write it like 2027-03-01",
        );
      }
    });
    const kept = input.reserve ?? [];
    refuseDoubles(
      [...input.demand, ...kept].map((d) => d.unit),
      (i) => (i < input.demand.length ? `demand[${i}].unit` : `reserve[${i - input.demand.length}].unit`),
    );
    kept.forEach((r, i) => {
      refuseDoubles(r.positions, (k) => `reserve[${i}].positions[${k}]`);
    });
    const limit = input.limit ?? Number.MAX_VALUE;
    const choose = (asked: Asked, until_ms: number) => {
      const hasTime = () => performance.now() < until_ms;
      return asked.netlist === undefined ? bySpread(asked, limit, hasTime) : inCircuit(asked, limit, hasTime);
    };
    const begun_ms = performance.now();
    const end_ms = begun_ms + longest_ms(input.valves.length, input.seconds ?? USUAL_s);
    const orders_ms = kept.length > 0 ? begun_ms + 0.65 * (end_ms - begun_ms) : end_ms;
    const answer = await choose(input, orders_ms);
    const isShort = !answer.optimal && performance.now() >= orders_ms;
    const left = new Set(answer.reserve);
    const further =
      kept.length > 0 && left.size > 0
        ? await choose({ ...input, valves: input.valves.filter((v) => left.has(v.id)), demand: kept }, end_ms)
        : undefined;
    const plain = (sets: SetsAnswer["sets"]) => sets.map((set) => ({ ...set, positions: { ...set.positions } }));
    return {
      ...answer,
      sets: plain(answer.sets),
      unplaced: [...answer.unplaced],
      reserve: [...(further ?? answer).reserve],
      ...(kept.length > 0
        ? {
            reserveSets: plain(further?.sets ?? []),
            reserveUnplaced: [...(further?.unplaced ?? kept.map((r) => r.unit))],
          }
        : {}),
      notes: [
        ...answer.notes,
        ...(isShort
          ? [
              "The search was ended by the clock, so that another run may differ; a faster or less busy machine may do better.",
            ]
          : []),
        ...(kept.length > 0
          ? ["Reserve sets were chosen from what the orders leave; totalCost, optimal and gap are those of the orders."]
          : []),
      ],
    };
  },
  sources: [
    "J. Edmonds, Maximum matching and a polyhedron with 0,1-vertices, 1965 (from memory)",
    "HiGHS, branch and bound for whole-number programs (used as a library)",
  ],
  validity:
    "Proven best, mostly within seconds: one feature (any number of valves), pairs, and sets of any sizes among 24 valves (in a circuit of up to five). Beyond, sets of any sizes by features: optimal says so where it is proven; else gap is the distance to a bound that holds. 100 to 400 valves with some to spare: usually within 1 % in two seconds of processor time. All of 400 valves in fours: 1 to 2 % in eight, within 1 % as a rule in twenty (grant them by seconds, a busy machine needs more); all of 2,000 in fours: 2 % in 14, 1 % in a minute, 8 % without seconds. Sets of seven to twelve by two features: 48 to 60 valves proven in two to four seconds of processor time, 96 within 2 % in eight, 200 within 1 % in thirty; by three features 48 valves in eights proven, 72 in twelves within 8 % in eight; 400 valves and more keep the bound of their halves, 30 to 40 % under what is found, unless seconds grant minutes. In a circuit: one valve a channel, channels alike: proven for any number; channels unlike: threes and fours of 60 to 100 valves proven or within 2 %, sixes within some 5 %; where valves of one channel make up for one another the best total is next to nothing, some thousandths of a dB over all sets, and gap, though most of it, is as small. Up to 2,000 valves, 400 in a circuit. Without seconds no answer takes more than ten.",
  cautions: [],
  example: {
    valves: [
      { id: "T-1", features: { plate_mA: 9.1, gm_mS: 2.6 } },
      { id: "T-2", features: { plate_mA: 8.2, gm_mS: 2.4 } },
      { id: "T-3", features: { plate_mA: 9.0, gm_mS: 2.7 } },
      { id: "T-4", features: { plate_mA: 8.3, gm_mS: 2.5 } },
      { id: "T-5", features: { plate_mA: 10.9, gm_mS: 2.9 } },
    ],
    demand: [
      { unit: "0231", positions: ["V1L", "V1R"] },
      { unit: "0418", positions: ["V1L", "V1R"] },
    ],
    cost: { kind: "spread", weights: { plate_mA: 1, gm_mS: 2 } },
    limit: 1,
  },
});

interface Asked {
  readonly valves: readonly {
    readonly id: string;
    readonly features: Readonly<Record<string, number>>;
    readonly model?: ValveModel | undefined;
    readonly law?: { readonly mu: number; readonly perveance_mA_per_V1p5: number } | undefined;
    readonly models?: Readonly<Record<string, ValveModel>> | undefined;
    readonly doubt?: CurveDoubt | undefined;
    readonly doubts?: Readonly<Record<string, CurveDoubt>> | undefined;
  }[];
  readonly demand: readonly {
    readonly unit: string;
    readonly positions: readonly string[];
    readonly due?: string | undefined;
  }[];
  readonly cost?: { readonly weights: Readonly<Record<string, number>> } | undefined;
  readonly netlist?: z.output<typeof netlistSchema> | undefined;
  readonly input?: string | readonly string[] | undefined;
  readonly output?: z.output<typeof node> | readonly z.output<typeof node>[] | undefined;
  readonly frequency_Hz: number;
  readonly above_dB?: readonly number[] | undefined;
}

function bySpread({ valves, demand, cost }: Asked, limit: number, hasTime: () => boolean): Promise<SetsAnswer> {
  if (cost === undefined) {
    throw new BadInput(
      "cost",
      "nothing",
      "cost with weights, or a netlist with input and output",
      "say what makes valves alike",
    );
  }
  return setsBySpread({ valves, demand, weights: cost.weights, limit, hasTime });
}

function inCircuit(
  { valves, demand, netlist, input, output, frequency_Hz, above_dB }: Asked,
  limit_dB: number,
  hasTime: () => boolean,
): Promise<SetsAnswer> {
  if (netlist === undefined || input === undefined || output === undefined) {
    throw new BadInput(
      input === undefined ? "input" : "output",
      "nothing",
      "the source and the output of each channel",
      "name them",
    );
  }
  if (valves.length > MOST_IN_CIRCUIT) {
    throw new BadInput(
      "valves",
      `${valves.length} valves`,
      `at most ${MOST_IN_CIRCUIT} in a circuit`,
      "choose in batches",
    );
  }
  const outputs = isOne(output) ? [output] : output;
  // One source may feed every channel.
  const inputs = typeof input === "string" ? outputs.map(() => input) : input;
  if (inputs.length !== outputs.length) {
    throw new BadInput(
      "output",
      `${outputs.length} outputs for ${inputs.length} inputs`,
      "one output for each input, in order",
      "make the lists alike",
    );
  }
  if (outputs.length < 2) {
    throw new BadInput(
      "output",
      quote(output),
      "two channels or more, since their gains are compared",
      "give a list of sources and one of outputs",
    );
  }
  const parts = netlist.parts.flatMap((p) => (p.kind === "triode" || p.kind === "pentode" ? [p.id] : []));
  const most = Math.max(...demand.map((d) => d.positions.length));
  if (most > 6) {
    throw new BadInput(
      "demand",
      `${most} positions in a unit`,
      "at most 6 positions in a circuit",
      "choose stage by stage",
    );
  }
  if (above_dB !== undefined && above_dB.length !== outputs.length) {
    throw new BadInput(
      "above_dB",
      `${above_dB.length} figures for ${outputs.length} channels`,
      "one figure for each output, in order",
      "make the lists alike",
    );
  }
  const drawn = gainsOf(netlist, inputs, outputs, frequency_Hz);
  const fitting: typeof drawn = (candidate) => drawn(candidate).map((gain_dB, i) => gain_dB + (above_dB?.[i] ?? 0));
  const curved = valves.map(({ law, model, ...valve }) => ({ ...valve, model: model ?? (law && lawModel(law)) }));
  return setsInCircuit({ valves: curved, demand, limit_dB, hasTime, parts, gainsOf: fitting });
}

/** A list of two names could be one output between two nodes or two outputs; two channels are what is compared here. */
function isOne(output: z.output<typeof node> | readonly z.output<typeof node>[]): output is z.output<typeof node> {
  return typeof output === "string";
}

function refuseDoubles(names: readonly string[], path: (i: number) => string): void {
  const seen = new Set<string>();
  names.forEach((given, i) => {
    if (seen.has(given)) throw new BadInput(path(i), quote(given), "a name used once", "give each its own name");
    seen.add(given);
  });
}
