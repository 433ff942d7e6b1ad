import type { Calculation } from "./calculation.ts";

type Load = () => Promise<{ default: Calculation }>;

/**
 * Everything that can be computed, by name. Command line, HTTP, forms and the reference page are all made from
 * this list. Each is loaded only when asked for, so that the command starts quickly.
 */
export const calculations: Readonly<Record<string, Load>> = {
  "bench.balance": () => import("./bench.balance.ts"),
  "bench.impedance": () => import("./bench.impedance.ts"),
  "bench.loopback": () => import("./bench.loopback.ts"),
  "bench.noise": () => import("./bench.noise.ts"),
  "bench.supply": () => import("./bench.supply.ts"),
  "bench.sweep": () => import("./bench.sweep.ts"),
  "bench.switchon": () => import("./bench.switchon.ts"),
  "bench.tap": () => import("./bench.tap.ts"),
  "bench.tone": () => import("./bench.tone.ts"),
  "bench.twotone": () => import("./bench.twotone.ts"),
  "circuits.check": () => import("./circuits.check.ts"),
  "circuits.distortion": () => import("./circuits.distortion.ts"),
  "circuits.noise": () => import("./circuits.noise.ts"),
  "circuits.resistance": () => import("./circuits.resistance.ts"),
  "circuits.response": () => import("./circuits.response.ts"),
  "circuits.rest": () => import("./circuits.rest.ts"),
  "circuits.spread": () => import("./circuits.spread.ts"),
  "circuits.startup": () => import("./circuits.startup.ts"),
  "circuits.suspects": () => import("./circuits.suspects.ts"),
  "circuits.version": () => import("./circuits.version.ts"),
  "circuits.yield": () => import("./circuits.yield.ts"),
  "hum.audible": () => import("./hum.audible.ts"),
  "hum.trace": () => import("./hum.trace.ts"),
  "listening.blind": () => import("./listening.blind.ts"),
  "listening.design": () => import("./listening.design.ts"),
  "listening.level": () => import("./listening.level.ts"),
  "listening.pairs": () => import("./listening.pairs.ts"),
  "measurement.budget": () => import("./measurement.budget.ts"),
  "measurement.capability": () => import("./measurement.capability.ts"),
  "measurement.chart": () => import("./measurement.chart.ts"),
  "measurement.gauge": () => import("./measurement.gauge.ts"),
  "measurement.groups": () => import("./measurement.groups.ts"),
  "measurement.guard": () => import("./measurement.guard.ts"),
  "measurement.readings": () => import("./measurement.readings.ts"),
  "measurement.risk": () => import("./measurement.risk.ts"),
  "production.checks": () => import("./production.checks.ts"),
  "production.cost": () => import("./production.cost.ts"),
  "production.next": () => import("./production.next.ts"),
  "production.options": () => import("./production.options.ts"),
  "production.promise": () => import("./production.promise.ts"),
  "production.schedule": () => import("./production.schedule.ts"),
  "production.soak": () => import("./production.soak.ts"),
  "production.whatif": () => import("./production.whatif.ts"),
  "production.where": () => import("./production.where.ts"),
  "safety.discharge": () => import("./safety.discharge.ts"),
  "safety.dose": () => import("./safety.dose.ts"),
  "safety.jack": () => import("./safety.jack.ts"),
  "safety.store": () => import("./safety.store.ts"),
  "safety.verdict": () => import("./safety.verdict.ts"),
  "supply.destination": () => import("./supply.destination.ts"),
  "timber.case": () => import("./timber.case.ts"),
  "timber.cracks": () => import("./timber.cracks.ts"),
  "timber.dry": () => import("./timber.dry.ts"),
  "timber.emc": () => import("./timber.emc.ts"),
  "timber.finish": () => import("./timber.finish.ts"),
  "timber.move": () => import("./timber.move.ts"),
  "timber.panels": () => import("./timber.panels.ts"),
  "timber.papers": () => import("./timber.papers.ts"),
  "timber.piece": () => import("./timber.piece.ts"),
  "timber.runs": () => import("./timber.runs.ts"),
  "valves.buy": () => import("./valves.buy.ts"),
  "valves.fit": () => import("./valves.fit.ts"),
  "valves.sets": () => import("./valves.sets.ts"),
  "valves.verdict": () => import("./valves.verdict.ts"),
};

/** The calculation of that name, or nothing. Only own names count, so `toString` is no calculation. */
export async function calculationNamed(name: string): Promise<Calculation | undefined> {
  return Object.hasOwn(calculations, name) ? (await calculations[name]!()).default : undefined;
}
