import { z } from "zod";
import { BadInput, quote } from "../maths/badInput.ts";
import { judgeTray, type VerdictLimits } from "../valves/index.ts";
import { calculation } from "./calculation.ts";

const KNOWN = [
  "drift_pct",
  "sectionSpread_pct",
  "gridCurrent_uA",
  "leakage_uA",
  "gm_min_pct",
  "slump_pct",
  "settling_pct",
] as const;
const limit = z.number().positive().max(1e6);
const id = z.string().min(1).max(120);
const hours = z.number().min(-1e7).max(1e7);

export default calculation({
  name: "valves.verdict",
  title: "Judge valves by their readings before and after the heat run",
  input: z.object({
    limits: z.looseObject({
      drift_pct: limit.optional().describe("Greatest change over the heat run, either way."),
      sectionSpread_pct: limit.optional().describe("Greatest difference of the sections over their mean, after it."),
      gridCurrent_uA: limit.optional(),
      leakage_uA: limit.optional().describe("Heater to cathode."),
      gm_min_pct: limit.optional().describe("Least gm, in per cent of the gm the catalogue prints for the type."),
      slump_pct: limit.optional().describe("Greatest fall of plate current at a lowered heater."),
      settling_pct: limit.optional().describe("Most that may still come after the last reading of three or more."),
    }),
    reference: z
      .array(z.object({ time_h: hours, plate_mA: z.number().positive().max(20000) }))
      .min(1)
      .max(5000)
      .describe("Readings of the reference valve, on the same tester and clock."),
    referenceTrue_mA: z.number().positive().max(20000).describe("The reference valve's true plate current."),
    positions: z
      .array(
        z.object({
          position: id,
          type: z.string().min(1).max(60).optional().describe("Left out, any type."),
          gridLeak_ohm: z.number().min(0).max(1e9).describe("From the grid to its bias, in the unit."),
          cathode_ohm: z
            .number()
            .min(0)
            .max(1e9)
            .optional()
            .describe("Where a cathode resistor sets the bias; left out, bias is fixed."),
          sections: z.array(id).min(1).max(8).optional().describe("Sections that the place uses; left out, all."),
          limits: z
            .object({
              ...Object.fromEntries(KNOWN.map((name) => [name, limit.optional()])),
              biasShift_V: limit.optional(),
              plateShift_pct: limit.optional().describe("Left out with biasShift_V too, 10 %."),
            })
            .optional()
            .describe("Limits of this place, in the stead of the tray's."),
        }),
      )
      .min(1)
      .max(40)
      .optional()
      .describe("Places that the valves might serve."),
    testerGridLeak_ohm: z.number().min(0).max(1e9).default(0).describe("Grid resistance of the tester."),
    reading_doubt_pct: z.number().min(0).max(100).describe("95 % half-width of one reading, scatter only."),
    valves: z
      .array(
        z.object({
          id,
          type: z.string().min(1).max(60),
          sections: z
            .array(
              z.object({
                name: id,
                readings: z
                  .array(
                    z.object({
                      time_h: hours,
                      phase: z.enum(["cold", "hot"]).describe("Before or after the heat run."),
                      plate_mA: z.number().min(0).max(20000),
                      gm_mS: z.number().min(0).max(1000).optional(),
                      gridCurrent_uA: z.number().min(-1e6).max(1e6).optional(),
                      leakage_uA: z.number().min(-1e6).max(1e6).optional(),
                      heater_pct: z
                        .number()
                        .min(30)
                        .max(130)
                        .optional()
                        .describe(
                          "Heater voltage in per cent of its rating; below 97 the reading tells emission alone.",
                        ),
                    }),
                  )
                  .max(500),
              }),
            )
            .min(1)
            .max(8),
        }),
      )
      .min(1)
      .max(5000),
  }),
  output: z.object({
    testerShift_pct: z.number().describe("The reference valve's last reading against its true current."),
    doubt: z.object({ testerShift_pct: z.number() }),
    valves: z.array(
      z.object({
        id,
        verdict: z.enum(["use", "hold", "reject"]),
        reasons: z.array(z.string()),
        sections: z.array(
          z.object({
            name: id,
            drift_pct: z.number().optional().describe("Left out, with a reason, where a reading is missing."),
            doubt_pct: z.number().optional(),
            cold_mA: z.number().optional().describe("Last reading before the heat run, tester put right."),
            hot_mA: z.number().optional(),
            state: z.enum(["inside", "outside", "undecided"]),
            reason: z.string().optional(),
            slump_pct: z.number().optional(),
            slumpDoubt_pct: z.number().optional(),
            settling: z
              .object({
                state: z.enum(["settled", "settling", "undecided"]),
                final_mA: z.number().describe("Plate current expected in the end."),
                remaining_pct: z.number().describe("Change still to come after the last reading."),
                doubt: z.object({ final_mA: z.number(), remaining_pct: z.number() }),
                readAgain_h: z
                  .number()
                  .optional()
                  .describe("When the next reading tells most, on the readings' clock."),
                reason: z.string(),
              })
              .optional(),
          }),
        ),
        sectionSpread_pct: z.number().optional(),
        doubt: z.object({ sectionSpread_pct: z.number() }).optional(),
        advice: z
          .array(
            z.object({
              position: id,
              serves: z.enum(["yes", "no", "undecided"]),
              reasons: z.array(z.string()),
              shifts: z.array(
                z.object({
                  section: id,
                  biasShift_V: z.number().describe("Bias moved by grid current in the place's grid leak."),
                  plateShift_mA: z.number().optional(),
                  plateShift_pct: z.number().optional(),
                  doubt: z.object({
                    biasShift_V: z.number(),
                    plateShift_mA: z.number().optional(),
                    plateShift_pct: z.number().optional(),
                  }),
                }),
              ),
            }),
          )
          .optional()
          .describe("One for each place of the valve's type, where places are given."),
      }),
    ),
    notes: z.array(z.string()),
  }),
  compute(input) {
    refuseDoubles(input.valves);
    if (KNOWN.every((name) => input.limits[name] === undefined)) {
      throw new BadInput(
        "limits",
        quote(input.limits),
        `at least one of ${KNOWN.join(", ")}`,
        "give the limits to judge by",
      );
    }
    const unknown = Object.keys(input.limits).filter((name) => !KNOWN.some((known) => known === name));
    const limits: VerdictLimits = Object.fromEntries(KNOWN.map((name) => [name, input.limits[name]]));
    const tray = judgeTray({ ...input, limits });
    return {
      testerShift_pct: tray.testerShift_pct,
      doubt: { ...tray.doubt },
      valves: tray.valves.map(({ advice, ...valve }) => ({
        ...valve,
        reasons: [...valve.reasons],
        sections: valve.sections.map((section) => ({ ...section })),
        ...(advice && {
          advice: advice.map((a) => ({ ...a, reasons: [...a.reasons], shifts: a.shifts.map((x) => ({ ...x })) })),
        }),
      })),
      notes: [
        ...tray.notes,
        ...unknown.map(
          (name) => `Limit ${name.slice(0, 60)} is not one that is judged here; it was left out of account.`,
        ),
      ],
    };
  },
  formula: [
    "put right: I = reading / (reference reading at that time / referenceTrue_mA)",
    "drift = I_hot / I_cold − 1 last hot and last cold reading",
    "spread = (I_max − I_min) / mean of the sections, last hot readings",
    "I(t) = I_end + A·e^(−t/τ), A about 0 ± 10 % of I, τ from 0.08 to 3 spans of the readings, even in ln τ",
  ],
  sources: [
    "JCGM 100:2008, Guide to the expression of uncertainty in measurement, 5.1: propagation through a linear approximation (from memory)",
    "JCGM 106:2012: acceptance with a guard band (from memory)",
    "Bias shift: Ohm's law and the definition of gm; settling: exponential approach (common practice), every pace weighed by Bayes' rule",
  ],
  validity:
    "One tester, one reference valve known to hold its current. Scatter of readings is taken as independent and about normal; errors they share are the reference valve's to show.",
  cautions: ["Valves and sockets stay hot, and the tester's plate supply lethal, while readings are taken."],
  example: {
    limits: { drift_pct: 5, sectionSpread_pct: 10 },
    reference: [
      { time_h: 0, plate_mA: 9 },
      { time_h: 48, plate_mA: 9.27 },
    ],
    referenceTrue_mA: 9,
    reading_doubt_pct: 0.5,
    valves: [
      {
        id: "T-1",
        type: "6SN7GT",
        sections: [
          {
            name: "a",
            readings: [
              { time_h: 0, phase: "cold", plate_mA: 9.1 },
              { time_h: 48, phase: "hot", plate_mA: 9.35 },
            ],
          },
          {
            name: "b",
            readings: [
              { time_h: 0, phase: "cold", plate_mA: 9.0 },
              { time_h: 48, phase: "hot", plate_mA: 8.44 },
            ],
          },
        ],
      },
    ],
  },
});

function refuseDoubles(valves: readonly { id: string; sections: readonly { name: string }[] }[]): void {
  const seen = new Set<string>();
  valves.forEach((valve, i) => {
    if (seen.has(valve.id)) throw doubled(`valves[${i}].id`, valve.id);
    seen.add(valve.id);
    const names = new Set<string>();
    valve.sections.forEach((section, k) => {
      if (names.has(section.name)) throw doubled(`valves[${i}].sections[${k}].name`, section.name);
      names.add(section.name);
    });
  });
}

function doubled(path: string, given: string): BadInput {
  return new BadInput(path, quote(given), "a name used once", "put all readings of one thing under one name");
}
