import { type Random, randomStream } from "../../../maths/random.ts";
import { catalogueEntry, catalogueTypes, type ValveModel } from "../../model.ts";
import { type FitAnswer, fitAnswer } from "../answer.ts";
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

/** One figure as a fit states it, beside the drawn valve's own. */
export interface StatedFigure {
  readonly name: string;
  readonly of: "figures" | "parameters";
  readonly value: number;
  readonly doubt: number;
  readonly truth: number;
}

/** All that was stated of one drawn valve. */
export interface StatedOfValve {
  readonly type: string;
  readonly stated: readonly StatedFigure[];
  /** The fit's root mean square distance from its readings, as a share of the highest. */
  readonly rms: number;
}

/** Draws a valve and its readings, fits them, and lists figures at two places and parameters with their doubts. */
export function stateValve(cell: Cell, draw: number, seed: string): StatedOfValve {
  const { kind, law, knows, points } = cell;
  const { question, stated } = drawFit(cell, randomStream(`${seed} ${kind} ${law} ${knows} ${points} ${draw}`));
  return stated(fitAnswer(question));
}

/** A drawn valve as it is asked about, and what an answer states of it. */
export function drawFit({ kind, law, knows, points: count }: Cell, random: Random) {
  const valve = drawValve(kind, law, random);
  const { points, screens } = readValve(valve, count, random);
  const [a, b] = [points[random.integer(count)]!, points[random.integer(count)]!];
  const between = {
    plate_V: (a.plate_V + b.plate_V) / 2,
    grid_V: (a.grid_V + b.grid_V) / 2,
    screen_V: a.screen_V ?? 0,
  };
  const at = [between, drawPlace(valve, screens, random)];
  const question = { kind, ...(knows === "type" && { type: valve.type }), points, at };
  const stated = (answer: FitAnswer): StatedOfValve => {
    const stated: StatedFigure[] = [];
    const add = (
      of: StatedFigure["of"],
      name: string,
      value: number | undefined,
      doubt: number | undefined,
      truth: number,
    ) => {
      if (value !== undefined && doubt !== undefined) stated.push({ name, of, value, doubt, truth });
    };
    at.forEach((place, i) => {
      const truth = trueFigures(valve, place);
      const said = answer.at[i]!;
      for (const name of ["plate_mA", "gm_mS", "rp_ohm", "mu", "screen_mA"] as const) {
        if (name !== "screen_mA" || kind === "pentode") add("figures", name, said[name], said.doubt[name], truth[name]);
      }
    });
    if (valve.model) {
      const [truth, said] = [flat(valve.model), flat(answer.model)];
      for (const [name, doubt] of Object.entries(answer.doubt!.model)) {
        if (kind === "pentode" && name === "lowPlate_V") continue;
        add("parameters", `model.${name}`, said[name], doubt, truth[name]!);
      }
    }
    return { type: valve.type, stated, rms: answer.rms_mA / Math.max(...points.map((p) => p.plate_mA)) };
  };
  return { question, stated };
}

/** How often stated intervals held the truth, told by valves. */
export interface Tally {
  readonly valves: number;
  readonly said: number;
  readonly held: number;
  /** Deviation of the share by chance: the figures of one valve go together, so that valves are the draws. */
  readonly deviation: number;
}

export const isHeld = ({ value, doubt, truth }: StatedFigure): boolean => Math.abs(value - truth) <= doubt;

export function tally(valves: readonly StatedOfValve[], of: StatedFigure["of"], name?: string): Tally {
  const each = valves
    .map(({ stated }) => stated.filter((s) => s.of === of && (name === undefined || s.name === name)))
    .filter((stated) => stated.length > 0)
    .map((stated) => ({ said: stated.length, held: stated.filter(isHeld).length }));
  const said = each.reduce((sum, v) => sum + v.said, 0);
  const held = each.reduce((sum, v) => sum + v.held, 0);
  const squares = each.reduce((sum, v) => sum + (v.held - (held / said) * v.said) ** 2, 0);
  return { valves: each.length, said, held, deviation: Math.sqrt(squares) / said };
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
