import { z } from "zod";
import { cracksBack } from "../timber/index.ts";
import { calculation } from "./calculation.ts";
import { plainCopy } from "./timberAnswer.ts";

const share = z.object({ value: z.number(), low: z.number(), high: z.number() });
const hours = z.number().min(0).max(1e6);
const name = z.string().min(1).max(100);

export default calculation({
  name: "timber.cracks",
  title: "In which stage and hour cracks appear, by species and thickness",
  input: z.object({
    pieces: z
      .array(
        z.object({
          piece: name,
          species: name,
          thickness_mm: z.number().positive().max(1000),
          stages: z
            .array(z.object({ stage: name, hours }))
            .min(1)
            .max(30)
            .describe("Each closed by an inspection."),
          checkIndex: z.number().min(0).max(1e6).optional(),
        }),
      )
      .min(1)
      .max(20_000)
      .describe("All pieces inspected, whole ones too."),
    defects: z
      .array(
        z.object({
          piece: name,
          kind: z.enum(["crack", "bow", "cup"]),
          stage: name,
          stageHour: hours.describe("Hours in that stage when it was first seen."),
          size_mm: z.number().min(0).max(1e5),
          photo: z.string().max(200).optional(),
        }),
      )
      .max(50_000),
  }),
  output: z.object({
    groups: z
      .array(
        z.object({
          stage: z.string(),
          species: z.string(),
          thickness: z.string(),
          pieces: z.number(),
          cracked: z.number(),
          share: share.describe("With Wilson's 95 % interval."),
          half_h: z.number().optional().describe("Hours in the stage by which half of its cracks were seen."),
          mostBy_h: z.number().optional().describe("The same for nine tenths."),
          longest_mm: z.number(),
          byDay: z.array(z.object({ day: z.number(), cracks: z.number() })),
        }),
      )
      .describe("Most cracks first."),
    pieces: z
      .array(z.object({ stage: z.string(), species: z.string(), hours: z.number(), failed: z.boolean() }))
      .describe("Ready for production.soak."),
    index: z
      .object({ told: z.number(), low: z.number(), high: z.number(), cracked: z.number(), whole: z.number() })
      .optional()
      .describe("Share of pairs in which the cracked piece had the higher check index."),
    notes: z.array(z.string()),
  }),
  compute: ({ pieces, defects }) =>
    plainCopy(
      cracksBack(
        pieces.map(({ checkIndex, ...piece }) => ({ ...piece, ...(checkIndex === undefined ? {} : { checkIndex }) })),
        defects.map(({ photo, ...defect }) => ({ ...defect, ...(photo === undefined ? {} : { photo }) })),
      ),
    ),
  sources: [
    "E. B. Wilson, J. American Statistical Association 22 (1927) 209-212 (from memory)",
    "J. A. Hanley and B. J. McNeil, Radiology 143 (1982) 29-36 (from memory)",
  ],
  validity: "Pieces inspected alike and recorded whether they cracked or not; few pieces give wide intervals.",
  cautions: ["Hot plates burn; let a piece cool before it is looked over."],
  example: {
    pieces: ["T1", "T2", "T3", "T4"].map((piece) => ({
      piece,
      species: "white ash",
      thickness_mm: 22,
      stages: [
        { stage: "warm chamber", hours: 48 },
        { stage: "hot plate", hours: 40 },
      ],
    })),
    defects: [{ piece: "T2", kind: "crack", stage: "hot plate", stageHour: 11, size_mm: 34, photo: "T2-plate.jpg" }],
  },
});
