import type { BodyOf } from "../claims/evidence.ts";
import { randomStream } from "../maths/random.ts";
import { benchReadings } from "./benchReadings.ts";
import { modelNamed } from "./models/models.ts";
import type { Take } from "./physics/bench.ts";
import { type Recorded, record } from "./recordings.ts";
import type { Truth, UnitTruth } from "./truth.ts";
import { valvesAt } from "./units.ts";

export interface Retake {
  readonly unit: string;
  /** A name that the unit has no recording of yet. */
  readonly recording: string;
  /** Every position, and the valve that stands there now. */
  readonly fitted: Readonly<Record<string, string>>;
  readonly supply: Take["supply"];
  readonly seed: number;
  readonly seconds?: number;
  readonly fullScale_Vpk?: number;
}

/** The recording that a person at the bench would get now: from what is really so, not from what was written down. */
export function retake(truth: Truth, asked: Retake): Recorded {
  return record(
    {
      recording: asked.recording,
      unit: unitNamed(truth, asked.unit),
      fitted: valvesAt(asked.fitted, shelfOf(truth)),
      supply: asked.supply,
      building_Hz: truth.physics.building_Hz,
      buildingDistortion: 0.6,
      fullScale_Vpk: asked.fullScale_Vpk ?? 0.02,
      seconds: asked.seconds ?? 8,
    },
    randomStream(`retake ${truth.physics.seed} ${asked.seed} ${asked.recording}`),
  );
}

/**
 * What a person at the bench would read now for the claims named, with these valves standing in the unit.
 *
 * Claims that are judged from recordings or from the valve tester give no readings here.
 */
export function retestReadings(
  truth: Truth,
  asked: {
    readonly unit: string;
    readonly fitted: Readonly<Record<string, string>>;
    readonly claims: readonly string[];
    readonly seed: number;
  },
): readonly BodyOf<"reading">[] {
  const unit = unitNamed(truth, asked.unit);
  const model = modelNamed(unit.model);
  const bench = { model, truth: unit, fitted: valvesAt(asked.fitted, shelfOf(truth)) };
  return asked.claims.flatMap((name) => {
    const claim = model.claims.find((c) => c.claim === name);
    if (!claim) throw new RangeError(`${unit.model} makes no claim ${name}`);
    return benchReadings(
      bench,
      claim,
      randomStream(`retest ${truth.physics.seed} ${asked.seed} ${asked.unit} ${name}`),
    );
  });
}

function unitNamed(truth: Truth, unit: string): UnitTruth {
  const found = truth.physics.units.find((u) => u.unit === unit);
  if (!found) throw new RangeError(`the truth knows no finished unit ${unit}`);
  return found;
}

function shelfOf(truth: Truth) {
  return new Map(truth.physics.valves.map((valve) => [valve.valve, valve]));
}
