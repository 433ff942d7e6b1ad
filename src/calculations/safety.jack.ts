import { z } from "zod";
import { atTheJack, judgeTest } from "../safety/index.ts";
import { calculation } from "./calculation.ts";

const doubt = z.number().min(0).max(1e6);

export default calculation({
  name: "safety.jack",
  title: "What headphones get at the jack: direct voltage, greatest power and level",
  input: z.object({
    dc_mV: z
      .number()
      .min(-1e6)
      .max(1e6)
      .describe("Into a load like the headphone; the worst of cold, switching on, settled."),
    doubt_mV: doubt.describe("95 % half-width."),
    limit_mV: z.number().min(0).max(1e6).describe("As the workshop set it: no standard does."),
    greatest_Vrms: z.number().positive().max(1000).describe("Greatest steady level before clipping."),
    headphones: z
      .array(
        z.object({
          name: z.string().min(1).max(120),
          impedance_ohm: z.number().positive().max(1e6),
          sensitivity_dB_per_V: z.number().min(0).max(200),
        }),
      )
      .min(1)
      .max(50),
  }),
  output: z.object({
    state: z
      .enum(["proven", "refuted", "undecided"])
      .describe("Of the direct voltage, with a guard band of its doubt."),
    margin_mV: z.number().describe("How far inside the limit; negative outside."),
    headphones: z.array(
      z.object({ name: z.string(), dc_mW: z.number(), greatest_mW: z.number(), greatest_dBSPL: z.number() }),
    ),
    notes: z.array(z.string()),
  }),
  compute({ dc_mV, doubt_mV, limit_mV, greatest_Vrms, headphones }) {
    const { state, margin } = judgeTest({
      name: "jack",
      unit: "mV",
      value: Math.abs(dc_mV),
      doubt: doubt_mV,
      limit: limit_mV,
      kind: "max",
    });
    const found = headphones.map(({ name, ...headphone }) => ({
      name,
      ...atTheJack({ dc_V: dc_mV / 1000, greatest_Vrms, headphone }),
    }));
    return {
      state,
      margin_mV: margin,
      headphones: found,
      notes: [
        "A flat headphone response is assumed for the level.",
        ...(found.some(({ greatest_dBSPL }) => greatest_dBSPL > 120)
          ? [
              "The greatest level passes 120 dB: it can hurt at once. Turn the volume down before putting headphones on.",
            ]
          : []),
        "EN 50332 limits portable players and leaves out headphones at mains-operated equipment: a yardstick, no requirement.",
      ],
    };
  },
  formula: ["P = U²/Z, level = sensitivity + 20·lg(U)"],
  sources: [
    "Definitions of power and sensitivity; no normative limit of direct voltage at a headphone output was found",
  ],
  validity: "A headphone that is a resistance of its nominal impedance.",
  cautions: ["Measure into a resistor, never into headphones on a head. Long loud listening harms hearing."],
  example: {
    dc_mV: 4.2,
    doubt_mV: 0.5,
    limit_mV: 15,
    greatest_Vrms: 5,
    headphones: [{ name: "300 ohm", impedance_ohm: 300, sensitivity_dB_per_V: 101.2 }],
  },
});
