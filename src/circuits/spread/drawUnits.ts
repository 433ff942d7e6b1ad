import type { Random } from "../../maths/random.ts";
import type { ValveModel } from "../../valves/model.ts";
import type { Fitted } from "../circuit.ts";
import type { Curve } from "../device.ts";
import { isValve } from "../netlist.ts";
import { scaledPart } from "../scaled.ts";
import { bipolarCurve } from "../transistor.ts";
import { valveCurve } from "../valve.ts";
import { normalFiller } from "./normals.ts";
import type { UnitLanes } from "./unitLanes.ts";
import type { VariedBottle } from "./varied.ts";

/** Draws one lane after another; the same chance gives the same units. */
export interface UnitDraws {
  /** Draws a unit for every lane: its factors, and which bottles it has. */
  draw(): void;
  /** The unit of a lane as `refit` takes it. */
  fitted(lane: number): Fitted;
}

/**
 * Units drawn for the lanes of `units`: factors normal about one, and positive (one that is not is drawn again); of a
 * measured batch every bottle as likely, and no bottle twice in one unit while the batch has enough.
 */
export function unitDraws(units: UnitLanes, random: Random): UnitDraws {
  const { circuit, varied, lanes, factors } = units;
  const fill = normalFiller(random.fork("factors"));
  const bottleChance = random.fork("bottles");
  const again = random.fork("again");
  const chosen = varied.bottles.map(() => new Int32Array(lanes));
  const curves = new Map<ValveModel, Curve>();
  const curveOf = (part: number, model: ValveModel): Curve => {
    const valve = circuit.netlist.parts[part]!;
    if (!isValve(valve)) throw new Error(`${valve.id} is no valve`);
    const made = curves.get(model) ?? valveCurve(valve.kind, { by: "model", model });
    curves.set(model, made);
    return made;
  };
  const deviceOf = (part: number) => units.devices.find(({ device }) => device.part === part)!;
  const gains = varied.factors.flatMap(({ part }, f) => {
    const own = circuit.netlist.parts[part];
    return own?.kind === "bipolar" ? [{ part: own, device: deviceOf(part), f }] : [];
  });

  return {
    draw() {
      fill(factors, 0, factors.length);
      varied.factors.forEach(({ sd }, f) => {
        const from = f * lanes;
        for (let l = from; l < from + lanes; l++) {
          let factor = 1 + sd * factors[l]!;
          while (!(factor > 0)) factor = again.normal(1, sd);
          factors[l] = factor;
        }
      });
      for (let l = 0; l < lanes; l++) drawBottles(varied.bottles, chosen, l, bottleChance);
      varied.bottles.forEach((bottle, b) => {
        bottle.parts.forEach((part, s) => {
          const { curves: own, models } = deviceOf(part);
          for (let l = 0; l < lanes; l++) {
            const model = sectionOf(bottle, chosen[b]![l]!, s);
            models[l] = model;
            own[l] = curveOf(part, model);
          }
        });
      });
      for (const { part, device, f } of gains) {
        for (let l = 0; l < lanes; l++) {
          const drawn = scaledPart(part, factors[f * lanes + l]!);
          if (drawn.kind === "bipolar") device.curves[l] = bipolarCurve(drawn.law!, drawn.polarity);
        }
      }
    },
    fitted(lane) {
      const values = new Map<string, number>();
      const valves = new Map<string, { current: number; mu: number }>();
      const models = new Map<string, ValveModel>();
      const id = (part: number): string => circuit.netlist.parts[part]!.id;
      const times = (part: number, factor: number) => values.set(id(part), (values.get(id(part)) ?? 1) * factor);
      varied.factors.forEach(({ what, part }, f) => {
        const factor = factors[f * lanes + lane]!;
        if (what === "value") times(part, factor);
        else if (what === "mains") for (const source of varied.onMains) times(source, factor);
        else valves.set(id(part), { current: 1, mu: 1, ...valves.get(id(part)), [what]: factor });
      });
      varied.bottles.forEach((bottle, b) => {
        bottle.parts.forEach((part, s) => {
          models.set(id(part), sectionOf(bottle, chosen[b]![lane]!, s));
        });
      });
      return { values, factors: valves, models };
    },
  };
}

function sectionOf(bottle: VariedBottle, which: number, section: number): ValveModel {
  const sections = bottle.batch[which]!;
  return sections[Math.min(section, sections.length - 1)]!;
}

function drawBottles(
  bottles: readonly VariedBottle[],
  chosen: readonly Int32Array[],
  lane: number,
  random: Random,
): void {
  bottles.forEach(({ batch, from }, b) => {
    const taken = bottles.slice(0, b).flatMap((other, o) => (other.from === from ? [chosen[o]![lane]!] : []));
    let which = random.integer(batch.length);
    while (taken.length < batch.length && taken.includes(which)) which = random.integer(batch.length);
    chosen[b]![lane] = which;
  });
}
