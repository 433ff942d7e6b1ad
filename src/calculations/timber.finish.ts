import { z } from "zod";
import { finishingCalendar } from "../timber/index.ts";
import { calculation } from "./calculation.ts";
import { plainCopy } from "./timberAnswer.ts";
import { handsSchema } from "./timberInput.ts";

const finish = z.enum(["oil", "wax", "shellac", "lacquer", "varnish"]);
const hour = z.number().min(0).max(1e6);

export default calculation({
  name: "timber.finish",
  title: "When coats go on, when a case may be handled, and when it may be warmed",
  input: z.object({
    coats: z
      .array(
        z.object({
          finish,
          coats: z.number().int().min(1).max(30),
          between_h: hour.optional().describe("As its tin says, at 20 °C."),
          handle_h: hour.optional(),
          hard_h: hour.optional(),
        }),
      )
      .min(1)
      .max(10),
    temperature_C: z.number().min(-30).max(60).describe("Of the finishing room."),
    humidity_pct: z.number().min(0).max(100),
    begin_h: hour.default(0).describe("When the first coat goes on."),
    done_h: z.array(hour).max(300).optional().describe("Hours at which the first of these coats went on already."),
    now_h: hour.optional().describe("No other coat goes on before."),
    cure: z
      .partialRecord(
        finish,
        z.object({ between_h: hour.optional(), handle_h: hour.optional(), hard_h: hour.optional() }),
      )
      .optional()
      .describe("As the tin says, at 20 °C."),
    wishes: z
      .array(z.object({ name: z.string().min(1).max(100), begin_h: hour, kind: z.enum(["heat", "pack", "assemble"]) }))
      .max(50)
      .optional()
      .describe("Warm runs, soaks, parcels wished for."),
    day: z
      .object({ from: z.number().min(0).max(24), to: z.number().min(0).max(24) })
      .optional()
      .describe("Clock hours at which someone can put on a coat."),
    hands: handsSchema,
    hourZero: z.number().min(0).max(24).optional().describe("Clock hour at hour 0."),
  }),
  output: z.object({
    steps: z.array(
      z.object({
        hour: z.number(),
        what: z.string(),
        kind: z.enum(["coat", "turn", "handle", "hard"]),
        isDone: z.boolean().optional(),
      }),
    ),
    handle_h: z.number(),
    hard_h: z.number().describe("No heat soak and no parcel before."),
    slower: z.number().describe("Curing time in this air over that at 20 °C and 50 %."),
    wishes: z.array(z.object({ name: z.string(), isAllowed: z.boolean(), earliest_h: z.number(), why: z.string() })),
    cautions: z.array(z.string()),
    notes: z.array(z.string()),
  }),
  compute: ({ cure, ...question }) =>
    plainCopy(finishingCalendar({ ...plainCopy(question), ...(cure ? { cure: withoutGaps(cure) } : {}) })),
  formula: ["curing time = usual·2^((20 − t)/10)·(1 + 0.5·max(0, h − 60)/20 for drying oils)"],
  sources: [
    "Oils and oil varnishes: makers' leaflets, reference/timberFinishes.json (read); other curing times: common practice, no source",
  ],
  validity: "Thin coats by hand at 5 to 30 °C. Oils on oily woods may never harden: try an offcut first.",
  cautions: [
    "Rags with drying oil heat up by themselves and can catch fire within hours: flat outdoors, or under water in a closed metal can.",
    "Hardwood dust sensitises and harms lungs: extract it and wear a mask.",
  ],
  example: {
    coats: [{ finish: "oil", coats: 3 }],
    temperature_C: 18,
    humidity_pct: 65,
    begin_h: 0,
    wishes: [{ name: "soak on the amplifier", begin_h: 120, kind: "heat" }],
    day: { from: 8, to: 17 },
    hourZero: 8,
  },
});

/** Times left out, not held as nothing. */
function withoutGaps<K extends string>(
  cure: Partial<Record<K, { readonly [time: string]: number | undefined } | undefined>>,
): Partial<Record<K, Record<string, number>>> {
  const entries = Object.entries(cure) as [K, { readonly [time: string]: number | undefined } | undefined][];
  return Object.fromEntries(
    entries.map(([name, times]) => [
      name,
      Object.fromEntries(Object.entries(times ?? {}).filter((one): one is [string, number] => one[1] !== undefined)),
    ]),
  ) as Partial<Record<K, Record<string, number>>>;
}
