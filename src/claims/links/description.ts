import { z } from "zod";

/**
 * How an instrument is spoken to over its wire: a small file that its user writes.
 *
 * Every text is matched and sent as it stands; nothing in it is ever run. `docs/instruments.md` explains each field.
 */

const name = z.string().min(1).max(120);
/** Sent to the instrument with the line ending behind it, so that it can't hold one itself. */
const sent = z
  .string()
  .min(1)
  .max(200)
  .regex(/^[ -~]+$/, "printable signs without a line end, which is added");

/** A regular expression that can be compiled, and holds the named groups that it must. */
const pattern = (...groups: readonly string[]) =>
  z
    .string()
    .min(1)
    .max(300)
    .refine(isPattern, { message: "a regular expression that can be read", abort: true })
    .refine((text) => groups.every((group) => groupsOf(text).includes(group)), {
      message: `a regular expression with ${groups.map((group) => `a group (?<${group}>…)`).join(" and ")}`,
    });

function isPattern(text: string): boolean {
  try {
    new RegExp(text);
    return true;
  } catch {
    return false;
  }
}

function groupsOf(text: string): readonly string[] {
  return Object.keys(new RegExp(`${text}|`).exec("")?.groups ?? {});
}

const number = z.number();
const ending = z.enum(["LF", "CR", "CRLF"]);

const tcp = z.strictObject({
  kind: z.literal("tcp"),
  host: z
    .string()
    .max(253)
    .regex(/^[A-Za-z0-9]([A-Za-z0-9.:-]*[A-Za-z0-9])?$/, "a host's name or address")
    .describe("name or address of the instrument on the shop's network; no other is ever called"),
  port: z.number().int().min(1).max(65535).describe("its port"),
});

const serial = z.strictObject({
  kind: z.literal("serial"),
  path: z
    .string()
    .max(120)
    .regex(/^(\/dev\/(?!.*\.\.)[\w./:-]+|COM\d{1,3})$/, "a serial port, /dev/… or COM1 and so on")
    .describe("the port, /dev/… or COM1 and so on; one named by its adapter stays the same after unplugging"),
  baud: z.number().int().min(50).max(4_000_000).default(9600).describe("signs a second"),
  dataBits: z
    .union([z.literal(7), z.literal(8)])
    .default(8)
    .describe("7 or 8"),
  parity: z.enum(["none", "even", "odd"]).default("none").describe("none, even or odd"),
  stopBits: z
    .union([z.literal(1), z.literal(2)])
    .default(1)
    .describe("1 or 2"),
  flow: z.enum(["none", "rts-cts", "xon-xoff"]).default("none").describe("none, rts-cts or xon-xoff"),
});

const unitFactors = z.record(z.string().min(1).max(12), number.positive());

const doubt = z
  .strictObject({
    reading_pct: number.min(0).max(100).default(0).describe("per cent of the reading"),
    counts: number.min(0).max(1e6).default(0).describe("so many of the last digit as it was printed"),
    fixed: number.min(0).default(0).describe("in the quantity's own unit"),
  })
  .refine(({ reading_pct, counts, fixed }) => reading_pct + counts + fixed > 0, {
    message: "a doubt above 0: without one a reading proves nothing",
  });

const read = z.strictObject({
  quantity: name
    .regex(/^[a-zA-Z][A-Za-z0-9]*(_[A-Za-z0-9]+)?$/, "a quantity that ends in its unit, such as level_V")
    .describe("our name of it, ending in its unit: level_V, mass_g"),
  prepare: z.array(sent).max(8).default([]).describe("sent before the question, without answers"),
  send: sent.optional().describe("the question; left out when the instrument speaks by itself"),
  answer: pattern("value").describe(
    "regular expression of the whole answer; group `value` is the figure, groups `unit` and `clock` may be there",
  ),
  units: unitFactors.optional().describe("what group `unit` may hold, each with the factor into our unit"),
  scale: number
    .refine((factor) => factor !== 0, { message: "a factor other than 0" })
    .default(1)
    .describe("factor into our unit, where none is printed"),
  range: z
    .strictObject({
      low: number.describe("what it can show at least"),
      high: number.describe("what it can show at most"),
    })
    .refine(({ low, high }) => low < high, { message: "a range whose low lies below its high" })
    .describe("in our unit; a figure outside was garbled or is an overload"),
  overload: pattern().optional().describe("regular expression of what it says when too much is applied"),
  unsteady: pattern()
    .optional()
    .describe("regular expression of an answer that has not come to rest; the next is waited for"),
  doubt: doubt.describe("95 % half-width, the sum of the three"),
  conditions: z
    .record(name, z.union([number, name]))
    .default({})
    .describe('what is to be noted with every reading: { "meter_Mohm": 10 }'),
});

const setting = z.strictObject({
  setting: z
    .enum(["output_Vrms", "output_V", "frequency_Hz"])
    .describe("what is set: output_Vrms, output_V or frequency_Hz"),
  send: sent
    .refine((text) => text.split("{value}").length === 2, { message: "text that holds {value} once" })
    .describe("what sets it; {value} is put in"),
  decimals: z.number().int().min(0).max(6).default(1).describe("to how many decimals it is sent"),
  ask: sent.describe("asks what it is set to"),
  answer: pattern("value").describe("regular expression of that answer, with group `value`"),
  agrees: number.positive().describe("how far what is read back may lie from what was sent"),
});

const switching = z.strictObject({
  on: sent.describe("switches the output on"),
  off: sent.describe("switches it off"),
  ask: sent.describe("asks whether it is on"),
  isOn: pattern().describe("regular expression of the answer when on"),
  isOff: pattern().describe("regular expression of the answer when off"),
});

const checksum = z.strictObject({
  kind: z.enum(["sum", "xor"]).describe("sum of the bytes modulo 256, or all taken together by exclusive or"),
  mark: z.string().length(1).describe("the sign between the answer and its two hexadecimal digits"),
});

export const linkDescription = z
  .strictObject({
    wire: z
      .discriminatedUnion("kind", [tcp, serial])
      .describe('where the instrument is; its `kind` is "tcp" or "serial"'),
    ending: ending.default("LF").describe("what ends a line that is sent: LF, CR or CRLF; answers may end in any"),
    timeout_ms: z.number().int().min(50).max(120_000).default(2000).describe("how long an answer is waited for"),
    echo: z.boolean().default(false).describe("whether it repeats what is sent before it answers"),
    checksum: checksum.optional().describe("where every answer ends in one"),
    identify: z
      .strictObject({
        send: sent.describe("the question"),
        answer: pattern().describe("regular expression that its answer must fit"),
      })
      .optional()
      .describe("asked on opening, so that another instrument at the same port is noticed"),
    errors: z
      .strictObject({
        send: sent.describe("asks for its last error"),
        none: pattern().describe("regular expression of the answer when there is none"),
      })
      .optional()
      .describe("asked after each setting"),
    triedEvery_h: number.positive().max(100_000).default(24).describe("hours after which its last trial has run out"),
    quantities: z.array(read).max(40).default([]).describe("what it reads"),
    settings: z.array(setting).max(3).default([]).describe("what it sets, a programmable supply"),
    output: switching.optional().describe("how its output is switched"),
  })
  .refine(({ quantities, settings }) => quantities.length + settings.length > 0, {
    message: "at least one quantity that it reads or one setting",
    path: ["quantities"],
  })
  .refine(
    ({ quantities, settings, identify, errors }) => {
      const silent = quantities.filter(({ send }) => send === undefined).length;
      const isAsked = identify !== undefined || errors !== undefined || settings.length > 0;
      return silent === 0 || (silent === quantities.length && !isAsked);
    },
    {
      message: "either questions for everything, or none: an instrument that speaks by itself is asked nothing",
      path: ["quantities"],
    },
  )
  .refine(({ quantities }) => new Set(quantities.map(({ quantity }) => quantity)).size === quantities.length, {
    message: "each quantity once",
    path: ["quantities"],
  })
  .refine(({ settings }) => new Set(settings.map(({ setting: one }) => one)).size === settings.length, {
    message: "each setting once",
    path: ["settings"],
  });

/** The file as its user writes it: the description, and of which instrument. */
export const linkFile = z.strictObject({
  instrument: name.describe("the id under which its trials stand"),
  title: name.optional().describe("its name in words; needed when it is not on record yet"),
  trial: z
    .strictObject({
      reference: name.describe("the thing it is tried on"),
      quantity: name.describe("what is read of it"),
      true: number.describe("what it must read"),
      limit: number.positive().describe("how far off it may read"),
    })
    .optional()
    .describe("what it is tried on; needed when it is not on record yet"),
  ...linkDescription.shape,
});

export type LinkDescription = z.infer<typeof linkDescription>;
export type LinkQuantity = LinkDescription["quantities"][number];
export type SettingName = LinkDescription["settings"][number]["setting"];
