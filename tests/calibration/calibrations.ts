import { bench } from "./drawn/bench.ts";
import { circuits } from "./drawn/circuits.ts";
import { hum } from "./drawn/hum.ts";
import { listening } from "./drawn/listening.ts";
import { measurement } from "./drawn/measurement.ts";
import { production } from "./drawn/production.ts";
import { safety } from "./drawn/safety.ts";
import { timber } from "./drawn/timber.ts";
import { valves } from "./drawn/valves.ts";
import type { Calibration } from "./trial.ts";

/** Every calculation that estimates, with how it is held to what is true. */
export const calibrations: readonly Calibration[] = [
  ...bench,
  ...circuits,
  ...hum,
  ...listening,
  ...measurement,
  ...production,
  ...safety,
  ...timber,
  ...valves,
].toSorted((a, b) => (a.of < b.of ? -1 : 1));
