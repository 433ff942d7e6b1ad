import discharge from "../../../src/calculations/safety.discharge.ts";
import jack from "../../../src/calculations/safety.jack.ts";
import verdict from "../../../src/calculations/safety.verdict.ts";
import destination from "../../../src/calculations/supply.destination.ts";
import { type Calibration, calibrated, near, odds, type Said } from "../trial.ts";
import { between, decades, pick, times } from "./chance.ts";

/** source: V = V₀·e^(−t/RC) with parts off by what is said of them. */
const discharges = calibrated(discharge, {
  drawn:
    "10 to 500 µF, 22 kohm to 1 Mohm, 80 to 600 V, limits of 30 to 120 V; parts and start off by 0.1 to 10 % (95 %)",
  draw(random) {
    const [capacitance_uF, bleeder_ohm] = [decades(random, 1, 2.7), decades(random, 4.3, 6)];
    const [start_V, limit_V] = [between(random, 80, 600), between(random, 30, 120)];
    if (start_V < limit_V) return undefined;
    const share = () => decades(random, -3, -1);
    const doubt = {
      capacitance_uF: capacitance_uF * share(),
      bleeder_ohm: bleeder_ohm * share(),
      start_V: start_V * share() * 0.3,
    };
    const really = (value: number, half: number) => value + random.normal(0, half / 1.96);
    const tau_s = really(capacitance_uF, doubt.capacitance_uF) * 1e-6 * really(bleeder_ohm, doubt.bleeder_ohm);
    const truth_s = tau_s * Math.max(0, Math.log(really(start_V, doubt.start_V) / limit_V));
    return {
      input: { capacitance_uF, bleeder_ohm, start_V, limit_V, doubt },
      said: ({ time_s, doubt }) => [near("time_s", time_s, doubt.time_s, truth_s)],
    };
  },
});

const proofs = (state: string, isInside: boolean): Said[] =>
  state === "undecided"
    ? []
    : [
        {
          what: state === "proven" ? "proven is inside" : "refuted is outside",
          stated: 0.975,
          isTrue: (state === "proven") === isInside,
          atLeast: true,
        },
      ];

/** source: direct voltages about the limit, of either sign, read with the doubt that is said. */
const jacks = calibrated(jack, {
  drawn: "direct voltages of up to three times the limit either way, doubts of a twentieth to the whole of it",
  draw(random) {
    const limit_mV = decades(random, 0.5, 2);
    const doubt_mV = limit_mV * decades(random, -1.3, 0);
    const truth_mV = between(random, -3, 3) * limit_mV;
    return {
      input: {
        dc_mV: truth_mV + random.normal(0, doubt_mV / 1.96),
        doubt_mV,
        limit_mV,
        greatest_Vrms: 2,
        headphones: [{ name: "one", impedance_ohm: 300, sensitivity_dB_per_V: 103 }],
      },
      said: ({ state }) => proofs(state, Math.abs(truth_mV) <= limit_mV),
    };
  },
});

/** source: true values even about the limit, as the risk takes them to be, and a reading of each. */
const verdicts = calibrated(verdict, {
  drawn:
    "one to five tests, true values even to four doubts either side of the limit, limits from below and from above",
  draw(random) {
    const made = times(1 + random.integer(5), (i) => {
      const [limit, doubt] = [decades(random, -1, 3), decades(random, -2, 1)];
      const kind = pick(random, ["max", "min"] as const);
      const truth = limit + between(random, -4, 4) * doubt;
      const value = truth + random.normal(0, doubt / 1.96);
      return { truth, test: { name: `test ${i}`, value, unit: "x", doubt, limit, kind } };
    });
    return {
      input: { tests: made.map(({ test }) => test) },
      said: ({ tests }) =>
        tests.flatMap(({ state, riskFalseAccept }, i) => {
          const { truth, test } = made[i]!;
          // Readings at the very ends of what was drawn say too little of what lies beyond.
          if (Math.abs(test.value - test.limit) > 2.5 * test.doubt) return [];
          const isInside = test.kind === "max" ? truth <= test.limit : truth >= test.limit;
          return [odds("riskFalseAccept", riskFalseAccept, !isInside), ...proofs(state, isInside)];
        }),
    };
  },
});

/** source: heaters and HT on a straight line over volts a turn, read by a meter whose one error is that said. */
const destinations = calibrated(destination, {
  drawn:
    "two to six readings at one to three supplies, heaters and HT on a line through or beside zero, a meter off by 0.1 to 2 % (95 %), single readings by 0.03 to 0.3 %",
  draw(random) {
    const taps = [100, 115, 230].map((nominal_V) => ({ name: `${nominal_V}`, nominal_V }));
    const [meter_pct, scatter_pct] = [decades(random, -1, 0.3), decades(random, -1.5, -0.5)];
    const lines = [6.3, 320].map((at_V) => {
      const rest = between(random, -0.1, 0.05);
      return (x: number) => at_V * (rest + (1 - rest) * x);
    }) as [(x: number) => number, (x: number) => number];
    const off = 1 + random.normal(0, meter_pct / 196);
    const read = (volts: number) => volts * off * (1 + random.normal(0, scatter_pct / 196));
    const supplies = pick(random, [[230], [220, 240], [207, 230, 253]]);
    const readings = times(supplies.length + 1 + random.integer(4), (i) => {
      const supply_V = supplies[i % supplies.length]!;
      return {
        tap: "230",
        supply_V,
        frequency_Hz: 50,
        heater_V: read(lines[0](supply_V / 230)),
        ht_V: read(lines[1](supply_V / 230)),
      };
    });
    // One supply alone can't show a line beside zero.
    if (supplies.length === 1 && Math.abs(lines[0](0)) + Math.abs(lines[1](0)) > 0) return undefined;
    const nominal_V = pick(random, [100, 115, 120, 230, 240]);
    const nominals = new Map(taps.map((tap) => [tap.name, tap.nominal_V]));
    return {
      input: {
        readings,
        taps,
        destination: { nominal_V, tolerance_pct: between(random, 2, 10), frequency_Hz: 50 },
        limits: { heater_V: 6.3, heater_pct: 5, ht_max_V: 350 },
        reading_doubt_pct: meter_pct,
      },
      said: ({ tap, cases }) =>
        cases.flatMap(({ supply_V, heater_V, ht_V, doubt }) => {
          const x = supply_V / nominals.get(tap)!;
          return [near("heater_V", heater_V, doubt.heater_V, lines[0](x)), near("ht_V", ht_V, doubt.ht_V, lines[1](x))];
        }),
    };
  },
});

export const safety: readonly Calibration[] = [discharges, jacks, verdicts, destinations];
