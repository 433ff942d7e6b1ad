import fc from "fast-check";
import { afterEach, describe, expect, test } from "vitest";
import { Instrument } from "./instrument.ts";
import { planSupply, type SupplyBounds } from "./supply.ts";
import { sourceAnswers, sourceAt } from "./testing/meter.ts";
import { simulated } from "./testing/simulated.ts";

const bounds: SupplyBounds = {
  limits: { output_Vrms: { low: 0, high: 253 }, frequency_Hz: { low: 45, high: 65 } },
  by: "owner",
  at: "2026-03-01T08:00:00Z",
  least_Hz: 50,
  leastWhy: "the building's own frequency",
};

const open: { close(): unknown }[] = [];
afterEach(async () => {
  for (const one of open.splice(0)) await one.close();
});

describe("a supply set as planned", () => {
  // source: B = √2·V/(2π·f·turns·area): at equal volts flux goes as 1/f, so f rises first and falls last
  test("frequency goes up before the voltage and comes down after it", () => {
    const up = planSupply({ output_Vrms: 0, frequency_Hz: 50 }, { output_Vrms: 230, frequency_Hz: 57 }, bounds);
    expect(up).toMatchObject({ ok: true, steps: [{ setting: "frequency_Hz" }, { setting: "output_Vrms" }] });
    const down = planSupply({ output_Vrms: 240, frequency_Hz: 57 }, { output_Vrms: 100, frequency_Hz: 50 }, bounds);
    expect(down).toMatchObject({ ok: true, steps: [{ setting: "output_Vrms" }, { setting: "frequency_Hz" }] });
  });

  test.each([
    [{ output_Vrms: 254 }, "output_Vrms", "0 to 253 V, as the owner set it"],
    [{ frequency_Hz: 66 }, "frequency_Hz", "45 to 65 Hz, as the owner set it"],
    [{ frequency_Hz: 49.9 }, "frequency_Hz", "the core's flux rises"],
    [{ output_V: 5 }, "output_V", "no limits for that"],
  ])("%j is refused", (wanted, path, words) => {
    const plan = planSupply({ output_Vrms: 230, frequency_Hz: 50 }, wanted, bounds);
    expect(plan).toMatchObject({ ok: false, path, allowed: expect.stringContaining(words) });
  });

  test("without limits nothing is set", () => {
    expect(planSupply({}, { output_Vrms: 1 }, undefined)).toMatchObject({ ok: false, path: "output_Vrms" });
  });

  test("volts alone are refused while it stands below the frequency that the core needs", () => {
    const plan = planSupply({ output_Vrms: 0, frequency_Hz: 47 }, { output_Vrms: 100 }, bounds);
    expect(plan).toMatchObject({ ok: false, path: "frequency_Hz" });
  });

  // property: whatever the way, flux never rises above the larger of both ends, and what is sent lies inside the limits
  test("on no way does the flux rise above both ends", () => {
    const volts = fc.double({ min: 0, max: 300, noNaN: true });
    const hertz = fc.double({ min: 40, max: 70, noNaN: true });
    fc.assert(
      fc.property(volts, hertz, volts, hertz, (v0, f0, v1, f1) => {
        const plan = planSupply({ output_Vrms: v0, frequency_Hz: f0 }, { output_Vrms: v1, frequency_Hz: f1 }, bounds);
        const inside = v1 <= 253 && f1 >= 50 && f1 <= 65;
        expect(plan.ok).toBe(inside);
        if (!plan.ok) return;
        const now: Record<string, number> = { output_Vrms: v0, frequency_Hz: f0 };
        const most = Math.max(v0 / f0, v1 / f1);
        for (const { setting, value } of plan.steps) {
          now[setting] = value;
          expect(now.output_Vrms! / now.frequency_Hz!).toBeLessThanOrEqual(most * (1 + 1e-12));
        }
      }),
    );
  });
});

async function source(state = { V: 0, Hz: 50, on: false, error: "" }) {
  const device = await simulated(sourceAnswers(state));
  const instrument = new Instrument("ac-source", sourceAt(device.wire));
  open.push(instrument, device);
  return { device, instrument, state };
}

test("a source is set and read back, and what lies beyond is never sent", async () => {
  const { device, instrument, state } = await source();
  const done = await instrument.set({ output_Vrms: 230, frequency_Hz: 57 }, bounds);
  expect(done).toEqual({
    ok: true,
    set: { frequency_Hz: 57, output_Vrms: 230 },
    readBack: { frequency_Hz: 57, output_Vrms: 230 },
    isOn: false,
  });
  expect(state).toMatchObject({ V: 230, Hz: 57 });
  const before = device.heard.length;
  expect(await instrument.set({ output_Vrms: 260 }, bounds)).toMatchObject({ ok: false, path: "output_Vrms" });
  expect(device.heard.slice(before).filter((line) => !line.endsWith("?"))).toEqual([]);
  expect(state).toMatchObject({ V: 230, Hz: 57 });
});

test("a source that refuses, or answers otherwise, is named", async () => {
  const wide: SupplyBounds = { ...bounds, limits: { ...bounds.limits, output_Vrms: { low: 0, high: 400 } } };
  const { instrument, device } = await source();
  await expect(instrument.set({ output_Vrms: 301 }, wide)).rejects.toMatchObject({ problem: "refused" });
  // Three questions before it is set, then its error, then what it is set to: that answer is garbled.
  device.slips = ["none", "none", "none", "garble"];
  await expect(instrument.set({ output_Vrms: 120 }, wide)).rejects.toMatchObject({ problem: "garbled" });
  const deaf = await simulated((line) => (line.startsWith("VOLT ") ? undefined : sourceAnswers()(line)));
  const other = new Instrument("ac-source", sourceAt(deaf.wire));
  open.push(other, deaf);
  await expect(other.set({ output_Vrms: 120 }, wide)).rejects.toMatchObject({ problem: "not confirmed" });
});

test("the output is switched on only inside the limits, and off always", async () => {
  const { instrument, state } = await source({ V: 280, Hz: 50, on: true, error: "" });
  expect(await instrument.switchOutput(false, undefined)).toMatchObject({ ok: true, isOn: false });
  expect(state.on).toBe(false);
  expect(await instrument.switchOutput(true, bounds)).toMatchObject({ ok: false, path: "output_Vrms", given: 280 });
  expect(state.on).toBe(false);
  await instrument.set({ output_Vrms: 230 }, bounds);
  expect(await instrument.switchOutput(true, bounds)).toMatchObject({ ok: true, isOn: true });
});
