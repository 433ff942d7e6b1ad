/** What only a refusal holds. */
export const refusalPart = "refusals";

/**
 * The parts of the house whose sentences an answer usually holds, by its address; the first that fits counts. A part
 * more than needed costs its bytes, one too few a second asking: the sentences at hand always decide.
 */
const partsByAddress: readonly (readonly [RegExp, readonly string[]])[] = [
  [/^\/api\/(workshop|morning|session)$/, ["day"]],
];

export const partsAt = (address: string): readonly string[] =>
  partsByAddress.find(([pattern]) => pattern.test(address))?.[1] ?? ["day"];
