import { afterEach, expect, onTestFinished, test } from "vitest";
import { InstrumentFault, type Problem } from "./fault.ts";
import { Instrument } from "./instrument.ts";
import { balanceAt, meterAt } from "./testing/meter.ts";
import { pseudoTerminal, type Simulated, type Slip, simulated } from "./testing/simulated.ts";

const at = "2026-03-01T09:00:00Z";
const open: { close(): unknown }[] = [];
afterEach(async () => {
  for (const one of open.splice(0)) await one.close();
});

async function meter(
  more: object = {},
): Promise<{ device: Simulated; instrument: Instrument; reads: (volts: string) => void }> {
  let volts = "12.3456";
  const device = await simulated((line) =>
    line === "*IDN?" ? "BENCH,METER,1,2" : line === "READ?" ? volts : undefined,
  );
  const instrument = new Instrument("meter-lan", meterAt(device.wire, more));
  open.push(instrument, device);
  const reads = (text: string) => {
    volts = text;
  };
  return { device, instrument, reads };
}

const problemOf = (asked: Promise<unknown>): Promise<Problem | "none"> =>
  asked.then(
    () => "none" as const,
    (fault: unknown) => {
      if (fault instanceof InstrumentFault) return fault.problem;
      throw fault;
    },
  );

test("a meter is asked who it is, prepared once, and read with its doubt", async () => {
  const { device, instrument } = await meter();
  const figure = await instrument.read("level_V", at);
  // source: by hand, 0.1 % of 12.3456 + 2 of the last digit (0.0001) + 0.001 = 0.0135456, to three figures
  expect(figure).toMatchObject({ ok: true, value: 12.3456, doubt: 0.0135, raw: "12.3456" });
  await instrument.read("level_V", at);
  expect(device.heard).toEqual(["*IDN?", "CONF:VOLT:DC AUTO", "READ?", "READ?"]);
  expect(device.calls()).toBe(1);
});

const wrongs: readonly (readonly [Slip, Problem])[] = [
  ["drop mid-line", "lost"],
  ["garble", "garbled"],
  ["echo", "echo"],
  ["silent", "silent"],
  ["late", "silent"],
  ["two lines", "two answers"],
  ["no end", "garbled"],
  ["overload", "overload"],
  ["far out", "out of range"],
];
test.each(wrongs)("an answer that is wrong by %s is named %s, and the next is read right", async (slip, problem) => {
  const { device, instrument, reads } = await meter();
  await instrument.read("level_V", at);
  device.slips = [slip];
  expect(await problemOf(instrument.read("level_V", at))).toBe(problem);
  // Whatever was still on its way is not taken for the next answer.
  reads("1.5000");
  expect((await instrument.read("level_V", at)).value).toBe(1.5);
});

test("a second answer that comes later is not taken for the next question's", async () => {
  const { device, instrument, reads } = await meter();
  device.slips = ["none", "second line later"];
  await instrument.read("level_V", at);
  await new Promise((done) => setTimeout(done, 120));
  reads("2.5000");
  expect(await problemOf(instrument.read("level_V", at))).toBe("unasked");
  expect((await instrument.read("level_V", at)).value).toBe(2.5);
});

test("an instrument that says it is another is not read", async () => {
  const device = await simulated((line) => (line === "*IDN?" ? "OTHER,THING,9,9" : "12.0"));
  const instrument = new Instrument("meter-lan", meterAt(device.wire));
  open.push(instrument, device);
  expect(await problemOf(instrument.read("level_V", at))).toBe("another instrument");
  expect(device.heard).toEqual(["*IDN?"]);
});

test("one that is off is named, and read once it is back", async () => {
  const { device, instrument } = await meter();
  await instrument.read("level_V", at);
  await device.unplug();
  expect(await problemOf(instrument.read("level_V", at))).toMatch(/lost|unreachable/);
  expect(await problemOf(instrument.read("level_V", at))).toBe("unreachable");
  expect(instrument.state).toMatchObject({ state: "lost", why: expect.stringContaining("refuses the connection") });
  await device.plug();
  expect((await instrument.read("level_V", at)).value).toBe(12.3456);
});

test("questions asked at once are put one after the other", async () => {
  const { instrument, device } = await meter();
  const all = await Promise.all(Array.from({ length: 8 }, () => instrument.read("level_V", at)));
  expect(all.map(({ value }) => value)).toEqual(Array(8).fill(12.3456));
  expect(device.heard.filter((line) => line === "READ?")).toHaveLength(8);
});

test("a checksum that does not fit is named", async () => {
  // source: sums by hand: "1.5" is 0x31 + 0x2e + 0x35 = 0x94
  let said = "1.5*94";
  const device = await simulated((line) => (line === "READ?" ? said : undefined));
  const description = meterAt(device.wire, { checksum: { kind: "sum", mark: "*" }, identify: undefined });
  const instrument = new Instrument("meter-lan", description);
  open.push(instrument, device);
  expect((await instrument.read("level_V", at)).value).toBe(1.5);
  said = "1.6*94";
  expect(await problemOf(instrument.read("level_V", at))).toBe("checksum");
});

test("a pattern that branches without end is stopped and named", async () => {
  const device = await simulated((line) => (line === "READ?" ? `${"1".repeat(60)}x` : undefined));
  const [quantity] = meterAt(device.wire).quantities;
  const description = meterAt(device.wire, {
    identify: undefined,
    quantities: [{ ...quantity, answer: "^(?<value>(1+)+)$" }],
  });
  const instrument = new Instrument("meter-lan", description);
  open.push(instrument, device);
  const read = async () => {
    const from = performance.now();
    await expect(instrument.read("level_V", at)).rejects.toThrow("takes too long");
    return performance.now() - from;
  };
  expect(await read()).toBeLessThan(8000);
  await read();
  // Twice stopped, it is tried no more.
  expect(await read()).toBeLessThan(900);
});

test("a value that was noisy and then repeats to the last digit is stuck", async () => {
  const { instrument, reads } = await meter();
  for (let i = 0; i < 16; i += 1) {
    reads((12 + 0.0003 * ((i * 7) % 5)).toFixed(4));
    await instrument.read("level_V", at);
  }
  reads("12.3333");
  const seen: (Problem | "none")[] = [];
  for (let i = 0; i < 7; i += 1) seen.push(await problemOf(instrument.read("level_V", at)));
  // source: by hand, p = 1/17 after 16 readings without a repeat; (1/17)^5 = 7.0e-7 < 1e-6 at the fifth repeat
  expect(seen).toEqual(["none", "none", "none", "none", "none", "stuck", "stuck"]);
  reads("12.3334");
  expect((await instrument.read("level_V", at)).value).toBe(12.3334);
});

/** A balance as it prints by itself, on a pseudo-terminal. */
async function balance() {
  const terminal = await pseudoTerminal();
  if (!terminal) return undefined;
  const instrument = new Instrument("balance", balanceAt({ kind: "serial", path: terminal.path, baud: 9600 }));
  open.push(instrument, terminal);
  let text = "ST,GS,+   512.3 g";
  const beat = setInterval(() => terminal.say(`${text}\r\n`), 60);
  onTestFinished(() => clearInterval(beat));
  const prints = (now: string) => {
    text = now;
  };
  return { terminal, instrument, prints };
}

test.runIf(process.platform === "linux")("a balance that prints by itself is read over a serial line", async () => {
  const here = await balance();
  expect(here, "the command `script` of bsdutils is needed").toBeDefined();
  const { instrument, prints, terminal } = here!;
  expect(await instrument.read("mass_g", at)).toMatchObject({ value: 512.3, doubt: 0.2 });
  prints("ST,GS,+   0.5123 kg");
  expect(await instrument.read("mass_g", at)).toMatchObject({ value: 512.3, doubt: 0.2 });
  prints("ST,GS,+   51#.3 g");
  expect(await problemOf(instrument.read("mass_g", at))).toBe("garbled");
  prints("OL");
  expect(await problemOf(instrument.read("mass_g", at))).toBe("overload");
  prints("US,GS,+   498.1 g");
  const coming = instrument.read("mass_g", at);
  setTimeout(() => prints("ST,GS,+   500.0 g"), 300);
  expect((await coming).value).toBe(500);
  expect(terminal.heard()).toBe("");
  await terminal.close();
  expect(await problemOf(instrument.read("mass_g", at))).toMatch(/lost|unreachable/);
});

test.runIf(process.platform === "linux")(
  "a meter on a serial line is asked, and a late answer never taken for the next",
  async () => {
    const terminal = await pseudoTerminal();
    expect(terminal, "the command `script` of bsdutils is needed").toBeDefined();
    const description = meterAt(
      { kind: "serial", path: terminal!.path },
      { identify: undefined, ending: "CR", timeout_ms: 200 },
    );
    const instrument = new Instrument("meter-serial", description);
    open.push(instrument, terminal!);
    let late_ms = 0;
    let volts = "4.2000";
    terminal!.onHeard((text) => {
      if (!text.includes("READ?")) return;
      const said = volts;
      setTimeout(() => terminal!.say(`${said}\r\n`), late_ms);
    });
    expect((await instrument.read("level_V", at)).value).toBe(4.2);
    late_ms = 1000;
    expect(await problemOf(instrument.read("level_V", at))).toBe("silent");
    late_ms = 0;
    volts = "9.9000";
    expect((await instrument.read("level_V", at)).value).toBe(9.9);
    expect(terminal!.heard()).toMatch(/^CONF:VOLT:DC AUTO\rREAD\?\r/);
  },
);
