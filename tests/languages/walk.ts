import { type Spoken, spokenIn } from "./untold.ts";

/** Asks the workshop's API; what it answers as JSON, or undefined where it has nothing. */
export type Ask = (address: string) => Promise<unknown>;

export interface Walk {
  /** Every unit, tray and piece, and the slow answers too; else a few of each kind. */
  readonly whole: boolean;
}

interface Seen {
  readonly units: readonly { readonly unit: string; readonly model: string; readonly state: string }[];
  readonly pieces: readonly string[];
}

const shop = [
  ...["workshop", "morning", "trays", "instruments", "safety-limits", "checks", "costs", "notebook", "promises"],
  ...["promises/kept", "promises/what-if", "promises/ordering", "look-back", "timber", "timber/cracks"],
  ...["timber/early-weighing", "timber/cuts", "timber/runs", "waiting"],
];
/** Longer than a page of the suite may take. */
const slowOfUnit = ["hum", "probe/windows", "probe/suspects"];
const ofUnit = ["", "/conditions", "/bench", "/safety", "/case", "/probe"];

/** Every composed sentence that the API's answers hold, with where it was seen. */
export async function spokenByShop(ask: Ask, { whole }: Walk): Promise<readonly Spoken[]> {
  const found: Spoken[] = [];
  const see = async (path: string): Promise<unknown> => {
    const address = `/api/${path}`;
    const answer = await ask(address);
    found.push(...spokenIn(answer, address));
    return answer;
  };
  const part = encodeURIComponent;
  const { units, pieces } = (await see("workshop")) as Seen;
  for (const one of shop.slice(1)) await see(one);
  const { trays } = (await ask("/api/trays")) as { readonly trays: readonly { readonly batch: string }[] };
  for (const { batch } of whole ? trays : everyOther(trays, 3)) {
    await see(`trays/${part(batch)}`);
    if (whole) await see(`trays/${part(batch)}/sets`);
  }
  const { models } = (await ask("/api/notebook")) as { readonly models: readonly { readonly model: string }[] };
  for (const { model } of whole ? models : models.slice(0, 1)) {
    await see(`notebook/${part(model)}`);
    if (whole) await see(`notebook/${part(model)}/outlook`);
  }
  for (const { unit } of whole ? units : [...oneOfEach(units), ...units.filter(({ unit: one }) => one === "0417")]) {
    for (const one of ofUnit) await see(`units/${part(unit)}${one}`);
    if (whole) for (const one of slowOfUnit) await see(`units/${part(unit)}/${one}`);
  }
  if (!whole && units.some(({ unit }) => unit === "0417")) await see("units/0417/hum");
  for (const piece of whole ? pieces : everyOther(pieces, Math.ceil(pieces.length / 5))) {
    await see(`timber/pieces/${part(piece)}`);
  }
  return found;
}

const everyOther = <T>(all: readonly T[], step: number): readonly T[] => all.filter((_, at) => at % step === 0);

/** One unit in each state of each model. */
function oneOfEach(units: Seen["units"]): readonly Seen["units"][number][] {
  const kinds = new Map(units.map((one) => [`${one.model} ${one.state === "released"}`, one]));
  return [...kinds.values()].slice(0, 4);
}
