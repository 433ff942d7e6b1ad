/** What only a refusal holds. */
export const refusalPart = "refusals";

/**
 * The parts of the house whose sentences an answer usually holds, by its address; the first that fits counts. A part
 * more than needed costs its bytes, one too few a second fetch: the sentences at hand always decide.
 */
const partsByAddress: readonly (readonly [RegExp, readonly string[]])[] = [
  [/^\/api\/units\/[^/]+\/(hum|bench|recordings)\b/, ["day", "sound"]],
  [/^\/api\/units\/[^/]+\/probe\b/, ["day", "circuits"]],
  [/^\/api\/units\/[^/]+\/case\b/, ["day", "timber"]],
  [/^\/api\/(units\/[^/]+\/safety|safety-limits|checks|costs|look-back)\b/, ["day", "office"]],
  // A folder holds the proofs of every trade.
  [/^\/api\/units\/[^/]+$/, ["day", "valves", "sound", "timber", "circuits"]],
  [/^\/api\/trays\b/, ["day", "valves"]],
  [/^\/api\/timber\b/, ["day", "timber"]],
  [/^\/api\/notebook\b/, ["day", "circuits"]],
  [/^\/api\/promises\/(kept|what-if|ordering)\b/, ["day", "office"]],
  [/^\/api\/exchange\b/, ["day", "exchange"]],
  [/^\/api\/people\b/, ["day", "people"]],
];

/** What the first page's answers hold, and those of most others. */
const usually: readonly string[] = ["day"];

export const partsAt = (address: string): readonly string[] =>
  partsByAddress.find(([pattern]) => pattern.test(address))?.[1] ?? usually;
