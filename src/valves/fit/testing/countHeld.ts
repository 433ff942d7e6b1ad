import { type Random, randomStream } from "../../../maths/random.ts";
import { catalogueEntry, catalogueTypes, type ValveModel } from "../../model.ts";
import { fitAnswer } from "../answer.ts";
import {
  type DrawnValve,
  drawPlace,
  OTHER_LAWS,
  ofAnotherLaw,
  ofOurLaw,
  readValve,
  trueFigures,
} from "./drawnValves.ts";

/** One kind of valve and reading to count. */
export interface Cell {
  readonly kind: DrawnValve["kind"];
  readonly law: "ours" | "another";
  readonly knows: "type" | "none";
  readonly points: number;
}

/** How many figures were said of each valve, and how many lay within their doubt. */
export class Tally {
  readonly valves: { said: number; held: number }[] = [];
  nextValve(): void {
    this.valves.push({ said: 0, held: 0 });
  }
  add(value: number | undefined, doubt: number | undefined, truth: number): void {
    if (value === undefined || doubt === undefined) return;
    const valve = this.valves.at(-1)!;
    valve.said++;
    if (Math.abs(value - truth) <= doubt) valve.held++;
  }
  get said(): number {
    return this.valves.reduce((sum, v) => sum + v.said, 0);
  }
  /** Share of figures held. */
  get share(): number {
    return this.valves.reduce((sum, v) => sum + v.held, 0) / this.said;
  }
  /** Deviation of that share by chance: the figures of one valve go together, so that valves are the draws. */
  get deviation(): number {
    const share = this.share;
    const squares = this.valves.reduce((sum, v) => sum + (v.held - share * v.said) ** 2, 0);
    return Math.sqrt(squares) / this.said;
  }
  get told(): string {
    return `${(100 * this.share).toFixed(1)} ± ${(196 * this.deviation).toFixed(1)} %`;
  }
}

export interface Held {
  readonly figures: Tally;
  /** Empty for another law, which has none of our parameters. */
  readonly parameters: Tally;
  /** By name, figures and parameters. */
  readonly byName: ReadonlyMap<string, Tally>;
  /** The fits' root mean square distance from their readings, as a share of the highest. */
  readonly rms: readonly number[];
}

/** Draws valves and readings, fits them, and counts figures at two places and parameters within their stated doubt. */
export function countHeld({ kind, law, knows, points: count }: Cell, draws: number, seed: string): Held {
  const [figures, parameters, byName] = [new Tally(), new Tally(), new Map<string, Tally>()];
  const rms: number[] = [];
  for (let draw = 0; draw < draws; draw++) {
    const random = randomStream(`${seed} ${kind} ${law} ${knows} ${count} ${draw}`);
    const valve = drawValve(kind, law, random);
    const { points, screens } = readValve(valve, count, random);
    const [a, b] = [points[random.integer(count)]!, points[random.integer(count)]!];
    const between = {
      plate_V: (a.plate_V + b.plate_V) / 2,
      grid_V: (a.grid_V + b.grid_V) / 2,
      screen_V: a.screen_V ?? 0,
    };
    const at = [between, drawPlace(valve, screens, random)];
    const answer = fitAnswer({ kind, type: knows === "type" ? valve.type : undefined, points, at });
    for (const tally of [figures, parameters, ...byName.values()]) tally.nextValve();
    const add = (all: Tally, name: string, value: number | undefined, doubt: number | undefined, truth: number) => {
      if (!byName.has(name)) {
        byName.set(name, new Tally());
        byName.get(name)!.nextValve();
      }
      for (const tally of [all, byName.get(name)!]) tally.add(value, doubt, truth);
    };
    at.forEach((place, i) => {
      const truth = trueFigures(valve, place);
      const said = answer.at[i]!;
      for (const name of ["plate_mA", "gm_mS", "rp_ohm", "mu", "screen_mA"] as const) {
        if (name !== "screen_mA" || kind === "pentode") add(figures, name, said[name], said.doubt[name], truth[name]);
      }
    });
    if (valve.model) {
      const [truth, said] = [flat(valve.model), flat(answer.model)];
      for (const [name, doubt] of Object.entries(answer.doubt!.model)) {
        if (kind === "pentode" && name === "lowPlate_V") continue;
        add(parameters, `model.${name}`, said[name], doubt, truth[name]!);
      }
    }
    rms.push(answer.rms_mA / Math.max(...points.map((p) => p.plate_mA)));
  }
  return { figures, parameters, byName, rms };
}

function drawValve(kind: Cell["kind"], law: Cell["law"], random: Random): DrawnValve {
  const ofKind = (type: string) => catalogueEntry(type)!.kind === kind;
  if (law === "another") {
    const others = OTHER_LAWS.filter(([type]) => ofKind(type));
    return ofAnotherLaw(others[random.integer(others.length)]!, random);
  }
  const types = catalogueTypes().filter(ofKind);
  return ofOurLaw(types[random.integer(types.length)]!, random);
}

const flat = (model: ValveModel): Record<string, number> => ({
  ...(model as unknown as Record<string, number>),
  ...(model.kind === "pentode" &&
    Object.fromEntries(Object.entries(model.screen).map(([name, value]) => [`screen.${name}`, value]))),
});
