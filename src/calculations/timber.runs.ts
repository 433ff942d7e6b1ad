import { z } from "zod";
import { BadInput } from "../maths/badInput.ts";
import { planRuns } from "../timber/index.ts";
import { calculation } from "./calculation.ts";
import { plainCopy } from "./timberAnswer.ts";
import { handsSchema, pieceSchema, stageSchema } from "./timberInput.ts";

/** Pieces times places that keep an answer below ten seconds on a slow machine. */
const mostFits = 60;

export default calculation({
  name: "timber.runs",
  title: "Which pieces go into the chamber or on the plate together, and what to weigh next",
  input: z.object({
    pieces: z
      .array(
        z.object({
          ...pieceSchema,
          id: z.string().min(1).max(100),
          target_pct: z.number().min(0).max(100),
          leaves_h: z.number().min(0).max(1e6).optional().describe("Moved on then, whatever it holds; from now."),
          room: z.number().positive().max(1e6).optional().describe("In the place's own measure; 1 where left out."),
        }),
      )
      .min(1)
      .max(mostFits)
      .describe("Stages are those up to now."),
    places: z
      .array(
        z.object({
          name: z.string().min(1).max(100),
          stage: stageSchema.omit({ place: true, hours: true }).describe("The air that a piece would see there."),
          capacity: z.number().positive().max(1e6),
          freeFrom_h: z.number().min(0).max(1e6).optional(),
        }),
      )
      .min(1)
      .max(10),
    mostCheckIndex: z.number().positive().max(1e6).optional().describe("Keep pieces from places beyond it."),
    hands: handsSchema,
    weighing_min: z.number().positive().max(600).optional().describe("Minutes of hands for one weighing; 3 left out."),
  }),
  output: z.object({
    batches: z.array(
      z.object({
        place: z.string(),
        start_h: z.number(),
        end_h: z.number(),
        pieces: z.array(
          z.object({
            id: z.string(),
            out_h: z.number(),
            low_h: z.number(),
            high_h: z.number().optional().describe("Left out where there is no upper end."),
            ifLeft_pct: z.number().describe("Moisture at the batch's end, were it left in."),
            isOverDryIfLeft: z.boolean(),
          }),
        ),
      }),
    ),
    makespan_h: z.number(),
    bound_h: z.number().describe("No plan of these runs can end before."),
    unplaced: z.array(z.object({ id: z.string(), why: z.string() })),
    weigh: z.array(
      z.object({
        id: z.string(),
        hour: z.number(),
        perMinute: z.number().describe("Nats of information per minute of hands."),
        before: z.number(),
        after: z.number(),
        of: z.enum(["hoursToTarget", "moisture"]),
        why: z.string(),
      }),
    ),
    notes: z.array(z.string()),
  }),
  compute(question) {
    if (question.pieces.length * question.places.length > mostFits) {
      throw new BadInput(
        "pieces",
        `${question.pieces.length} pieces for ${question.places.length} places`,
        `at most ${mostFits} pairs of piece and place`,
        "plan the pieces of the coming days first",
      );
    }
    return plainCopy(planRuns(question));
  },
  sources: [
    "Drying as in timber.piece",
    "Full batches, slowest first: P. Brucker, Scheduling Algorithms, chapter on batching (from memory)",
    "Three minutes for one weighing: common practice, no source",
  ],
  validity:
    "Places of steady air that may be opened to take single pieces out. The least makespan for one place and pieces of one size; else within bound_h.",
  cautions: [
    "Plates and chambers burn, and wood chars slowly on a plate whose control fails: a limiter of its own, and nobody away.",
    "No piece with soft oil, and no rag, goes into the chamber or on a plate.",
  ],
  example: {
    pieces: [18, 22, 26].map((thickness_mm, i) => ({
      id: `B-${101 + i}`,
      species: "white ash",
      thickness_mm,
      start_pct: 11.5,
      stages: [{ place: "shop air", hours: 100, temperature_C: 17, humidity_pct: 62 }],
      weighings: [
        { hour: 4, mass_g: 560.4 + 80 * i },
        { hour: 100, mass_g: 559.6 + 80 * i },
      ],
      ovenDry_g: 502.3 + 71.7 * i,
      target_pct: 8,
    })),
    places: [
      { name: "warm chamber", stage: { temperature_C: 45, humidity_pct: 28 }, capacity: 2 },
      { name: "hot plate", stage: { temperature_C: 20, humidity_pct: 50, plate_C: 90 }, capacity: 1 },
    ],
  },
});
