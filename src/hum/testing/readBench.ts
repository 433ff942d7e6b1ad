import type { Random } from "../../maths/random.ts";
import { type Bench, keyOf, type Phasor } from "./drawBench.ts";

/** Relative spread of a source from recording to recording: contacts, and the building's field and mains. */
const contact = 0.03;
const building = 0.03;
/** A clean supply without flat tops feeds the unit a little less. */
const cleanGain = 0.97;

/** The phasors of one channel in one recording, by order: the supply's own family, and the building's. */
export interface Sounding {
  /** Left out where the supply drives both families. */
  readonly own?: readonly Phasor[];
  readonly building: readonly Phasor[];
}

/**
 * What one recording of a bench holds: each source scattered, the unit's own hum changed by the supply it runs on,
 * each family turned by the instant its supply was started.
 */
export function sound(
  bench: Bench,
  recording: number,
  channel: string,
  random: Random,
  contactScatter = contact,
): Sounding {
  const setting = bench.settings[recording]!;
  const starts = random.fork(`starts ${recording}`);
  const scatter = random.fork(`scatter ${recording} ${channel}`);
  const clean = setting.supply.source === "regenerated";
  const rise = Math.log(setting.supply.frequency_Hz / bench.building_Hz);
  const reaching = Object.keys(setting.valves).filter((position) => bench.feeds[position]!.includes(channel));

  const { gain: all = [], own: made = [], field: picked = [] } = bench.mishap ?? {};
  const ownChange = (all[recording] ?? 1) * (made[recording] ?? 1);
  const fieldChange = (all[recording] ?? 1) * (picked[recording] ?? 1);

  const own = [
    // Ripple falls with frequency; leakage from the heater does not.
    { key: keyOf(channel, "amplifier"), gain: Math.exp(-rise) },
    ...reaching.map((position) => ({ key: keyOf(channel, "valve", position, setting.valves[position]), gain: 1 })),
  ].map(({ key, gain }) => ({
    key,
    gain: ownChange * gain * (clean ? cleanGain : 1) * (1 + scatter.normal(0, contactScatter)),
  }));
  const field = [keyOf(channel, "pick-up"), ...(clean ? [] : [keyOf(channel, "mains")])].map((key) => ({
    key,
    gain: fieldChange * (1 + scatter.normal(0, building)),
  }));

  const start = starts.uniform();
  if (!setting.offset) return { building: turned(bench, start, [...own, ...field]) };
  return { own: turned(bench, start, own), building: turned(bench, starts.uniform(), field) };
}

function turned(bench: Bench, start: number, sources: readonly { key: string; gain: number }[]): Phasor[] {
  return bench.orders.map((order, i) => {
    const cosine = Math.cos(2 * Math.PI * start * order);
    const sine = Math.sin(2 * Math.PI * start * order);
    let re = 0;
    let im = 0;
    for (const { key, gain } of sources) {
      const phasor = bench.phasors.get(key)![i]!;
      re += gain * phasor.re;
      im += gain * phasor.im;
    }
    return { re: re * cosine - im * sine, im: re * sine + im * cosine };
  });
}
