import { z } from "zod";
import { atDestination, usualReadingDoubt_pct } from "../circuits/index.ts";
import { calculation } from "./calculation.ts";

const positive = z.number().positive().max(1e6);
const percent = z.number().min(0).max(100);
const name = z.string().min(1).max(100);

export default calculation({
  name: "supply.destination",
  title: "Which tap a unit needs at its destination, and whether heaters, HT and core bear the supply there",
  input: z.object({
    readings: z
      .array(z.object({ tap: name, supply_V: positive, frequency_Hz: positive, heater_V: positive, ht_V: positive }))
      .min(1)
      .max(1000)
      .describe("Of the warm unit at two supplies or more, heaters and HT under their own load."),
    taps: z
      .array(z.object({ name, nominal_V: positive }))
      .min(1)
      .max(100),
    destination: z.object({
      nominal_V: positive,
      tolerance_pct: z.number().min(0).max(50).describe("10 for ±10 %."),
      frequency_Hz: positive,
    }),
    core: z
      .object({ turns: positive.describe("Of the first tap."), area_cm2: positive, limit_T: positive })
      .optional()
      .describe("For the flux; left out, flux is not judged."),
    limits: z.object({
      heater_V: positive,
      heater_pct: percent,
      heaterExtreme_pct: percent.optional().describe("In place of heater_pct at the lowest and highest supply."),
      ht_max_V: positive,
    }),
    reading_doubt_pct: percent
      .optional()
      .describe(`95 % half-width of the meter; ${usualReadingDoubt_pct} if left out.`),
  }),
  output: z.object({
    tap: z.string(),
    cases: z
      .array(
        z.object({
          supply_V: z.number(),
          heater_V: z.number(),
          ht_V: z.number(),
          flux_T: z.number().optional().describe("Peak."),
          doubt: z.object({ heater_V: z.number(), ht_V: z.number() }),
        }),
      )
      .describe("At the lowest, nominal and highest supply."),
    state: z.enum(["proven", "refuted", "undecided"]),
    reasons: z.array(z.string()),
    notes: z.array(z.string()),
  }),
  compute(question) {
    const { reach, cases, reasons, ...answer } = atDestination(question);
    const { readings, destination, core, reading_doubt_pct = usualReadingDoubt_pct } = question;
    const lowest_Hz = Math.min(...readings.map(({ frequency_Hz }) => frequency_Hz));
    return {
      ...answer,
      cases: [...cases],
      reasons: [...reasons],
      notes: [
        `The meter is taken as good to ${reading_doubt_pct} % (95 %), the same for all its readings.`,
        "Figures are guides; local codes and a licensed practitioner decide. The fuse and the label must suit the destination's voltage too.",
        ...(reach > 0.1
          ? [
              `Carried ${Math.round(100 * reach)} % beyond the nearest reading; a reading at such a supply would be surer.`,
            ]
          : []),
        ...(core === undefined && destination.frequency_Hz < lowest_Hz
          ? [
              `Flux is not judged: no core was given, and at ${destination.frequency_Hz} Hz it is ${(lowest_Hz / destination.frequency_Hz).toPrecision(3)} times that at ${lowest_Hz} Hz on the same volts.`,
            ]
          : []),
        ...(readings.length === 1
          ? ["One reading only: carried in proportion, which overlooks the rectifier's drop."]
          : []),
      ],
    };
  },
  formula: [
    "x = supply/nominal of the tap (volts a turn; turns go as `nominal_V`)",
    "heater, HT = a + b·x least squares over all readings; a = 0 where all stand at one x",
    "B = √2·V/(2π·f·turns·area) peak flux density",
  ],
  sources: [
    "Transformer e.m.f. equation, V = √2·π·f·N·A·B (textbook)",
    "Straight line in volts per turn: common practice",
  ],
  validity:
    "Loads as at home, transformers not saturated, taps whose turns go as their nominal voltages. Supply impedance and waveform at the destination are unknown.",
  cautions: [
    "Heaters and HT are read on a live unit: one hand, guarded probes, and discharge before clipping on.",
    "A transformer below its rated frequency can saturate and burn out.",
  ],
  example: {
    readings: [
      { tap: "230", supply_V: 230, frequency_Hz: 50, heater_V: 6.3, ht_V: 300 },
      { tap: "230", supply_V: 240, frequency_Hz: 50, heater_V: 6.58, ht_V: 314 },
    ],
    taps: [
      { name: "230", nominal_V: 230 },
      { name: "240", nominal_V: 240 },
    ],
    destination: { nominal_V: 230, tolerance_pct: 6, frequency_Hz: 50 },
    limits: { heater_V: 6.3, heater_pct: 7, ht_max_V: 400 },
  },
});
