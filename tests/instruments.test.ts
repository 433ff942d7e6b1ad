import { type ChildProcess, spawn } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, onTestFinished, test } from "vitest";
import type { Evidence } from "../src/claims/evidence.ts";
import { Book } from "../src/claims/testing/smallShop.ts";
import { meterAt, sourceAnswers, sourceAt } from "../src/instruments/testing/meter.ts";
import { type Simulated, simulated } from "../src/instruments/testing/simulated.ts";
import { openStore } from "../src/store/index.ts";
import type { LinksView, TakenView } from "../src/workshop/instruments/linkViews.ts";
import { keptFolder, root } from "./helpers.ts";

const folder = join(keptFolder(), "workshop");
let server: Server;
beforeAll(async () => {
  mkdirSync(folder, { recursive: true });
  const store = await openStore(folder, { write: true });
  await store.append(Book.opened().entries.map(({ id, at, by, body }) => ({ id, at, by, ...body })));
  await store.close();
});
afterAll(() => server?.kill());

interface Server {
  readonly address: string;
  /** Ends it at once, as a power cut does. */
  kill(): Promise<void>;
}

const command = join(root, "bin", "stillglow");

async function started(): Promise<Server> {
  const args = [command, "serve", "--data", folder, "--no-backup", "--port", "0"];
  const child: ChildProcess = spawn(process.execPath, args, { cwd: root, stdio: ["ignore", "pipe", "inherit"] });
  const kill = () =>
    new Promise<void>((done) => {
      if (child.exitCode !== null || child.signalCode !== null) return done();
      child.once("exit", () => done());
      child.kill("SIGKILL");
    });
  const address = await new Promise<string>((resolve, reject) => {
    let said = "";
    child.stdout!.on("data", (bytes: Buffer) => {
      said += bytes;
      const found = /open at (http:\S+)/.exec(said)?.[1];
      if (found !== undefined) resolve(found);
    });
    child.once("exit", (code) => reject(new Error(`the server ended with ${code}: ${said}`)));
  });
  return { address, kill };
}

/** Runs the command while this process goes on answering as the instruments do. */
async function ran(...args: readonly string[]): Promise<{ status: number | null; stdout: string; stderr: string }> {
  const child = spawn(process.execPath, [command, ...args, "--data", folder], { cwd: root });
  let [stdout, stderr] = ["", ""];
  child.stdout.on("data", (bytes: Buffer) => {
    stdout += bytes;
  });
  child.stderr.on("data", (bytes: Buffer) => {
    stderr += bytes;
  });
  return new Promise((done) => child.once("close", (status) => done({ status, stdout, stderr })));
}

async function asked<T>(
  path: string,
  body?: object,
): Promise<{ status: number; answer: T & { error?: { path: string; message: string } } }> {
  const sent = body && {
    method: "POST",
    body: JSON.stringify(body),
    headers: { "content-type": "application/json" },
  };
  const response = await fetch(new URL(path, server.address), sent ?? {});
  return { status: response.status, answer: (await response.json()) as never };
}

const link = (instrument: string, description: object): object => ({
  instrument,
  title: instrument,
  trial: { reference: "a reference", quantity: "level_V", true: 10, limit: 0.1 },
  ...description,
});

/** Everything in the ledger, as whoever opens the folder next reads it. */
async function ledger(): Promise<readonly Evidence[]> {
  const store = await openStore(folder, { write: false });
  const entries = store.evidence();
  await store.close();
  return entries;
}

async function meter(): Promise<{ device: Simulated; reads: (volts: string) => void }> {
  let volts = "196.40";
  const device = await simulated((line) =>
    line === "*IDN?" ? "BENCH,METER,1,2" : line === "READ?" ? volts : undefined,
  );
  onTestFinished(() => device.close());
  const reads = (text: string) => {
    volts = text;
  };
  return { device, reads };
}

test("an instrument is linked from its file by the command, and read by it through the server", async () => {
  const { device } = await meter();
  const path = join(folder, "..", "meter.json");
  writeFileSync(path, JSON.stringify(link("meter-lan", meterAt(device.wire))));
  expect(await ran("instruments", "link", path)).toMatchObject({ status: 0, stdout: "meter-lan is linked.\n" });
  server = await started();
  const read = await ran(
    "instruments",
    "read",
    "meter-lan",
    "level_V",
    "--unit",
    "0101",
    "--as",
    "ht_V",
    "--id",
    "m-cli",
  );
  expect(read).toMatchObject({
    status: 0,
    stdout: expect.stringMatching(/196\.4 ± .* V\n.*untried.*\nWritten down as m-cli/),
  });
  await device.unplug();
  const cut = await asked("/api/instruments/meter-lan/read", { quantity: "level_V" });
  expect(cut).toMatchObject({ status: 502, answer: { error: { path: expect.stringMatching(/unreachable|lost/) } } });
});

describe("a server with instruments", () => {
  test("refuses a description by the field at fault", async () => {
    const file = link("meter-lan", meterAt({ kind: "tcp", host: "127.0.0.1", port: 9 }));
    const byBench = await asked("/api/instruments/links", { by: "bench", file });
    expect(byBench).toMatchObject({ status: 422, answer: { error: { path: expect.stringMatching(/by$/) } } });
    const quantity = meterAt({ kind: "tcp", host: "127.0.0.1", port: 9 }).quantities[0]!;
    for (const [change, path, words] of [
      [{ quantities: [{ ...quantity, answer: "^(\\d+)$" }] }, "quantities[0].answer", "a group (?<value>…)"],
      [{ quantities: [{ ...quantity, answer: "^((?<value>" }] }, "quantities[0].answer", "can be read"],
      [{ quantities: [quantity, quantity] }, "quantities", "each quantity once"],
      [{ quantities: [{ ...quantity, doubt: {} }] }, "quantities[0].doubt", "a doubt above 0"],
      [{ quantities: [{ ...quantity, send: "READ?\nOUTP ON" }] }, "quantities[0].send", ""],
      [{ wire: { kind: "serial", path: "/dev/../etc/passwd" } }, "wire.path", ""],
      [{ wire: { kind: "serial", path: "/etc/passwd" } }, "wire.path", ""],
      [{ wire: { kind: "pipe", path: "x" } }, "wire.kind", "serial"],
      [{ baud: 9600 }, "baud", "no such field"],
      [{ instrument: "fresh", trial: undefined }, "trial", "not on record yet"],
    ] as const) {
      const refused = await asked("/api/instruments/links", { by: "owner", file: { ...file, ...change } });
      expect(refused).toMatchObject({
        status: 422,
        answer: { error: { path, message: expect.stringContaining(words) } },
      });
    }
  });

  test("reads once under an id, writes it once, and names what is the matter", async () => {
    const { device } = await meter();
    const before = (await ledger()).length;
    const linked = await asked("/api/instruments/links", {
      by: "owner",
      file: link("meter-lan", meterAt(device.wire)),
    });
    expect(linked.status).toBe(200);

    const read = { quantity: "level_V", id: "m-one" };
    const first = await asked<TakenView>("/api/instruments/meter-lan/read", read);
    expect(first.answer).toMatchObject({ id: "m-one", value: 196.4, standing: { state: "untried" } });
    device.slips = ["far out"];
    const again = await asked<TakenView>("/api/instruments/meter-lan/read", read);
    expect(again.answer).toEqual(first.answer);
    expect(device.heard.filter((line) => line === "READ?")).toHaveLength(1);

    const keep = { by: "bench", about: { unit: "0101" }, as: "ht_V" };
    const kept = await asked<{ entry: Evidence }>("/api/instruments/measurements/m-one", keep);
    const twice = await asked<{ entry: Evidence }>("/api/instruments/measurements/m-one", keep);
    expect(twice.answer).toEqual(kept.answer);
    expect(kept.answer.entry).toMatchObject({
      id: "m-one",
      body: { kind: "reading", quantity: "ht_V", value: 196.4, instrument: "meter-lan", subject: { unit: "0101" } },
    });
    // A form that was sent twice, its first answer lost.
    const entry = {
      at: new Date().toISOString(),
      by: "bench",
      id: "m-form",
      kind: "reading",
      subject: { unit: "0101" },
    };
    const form = { entries: [{ ...entry, quantity: "ht_V", value: 200, doubt: 1, instrument: "meter-lan" }] };
    expect((await asked("/api/evidence", form)).status).toBe(200);
    expect((await asked("/api/evidence", form)).status).toBe(200);

    const fault = await asked("/api/instruments/meter-lan/read", { quantity: "level_V" });
    expect(fault).toMatchObject({ status: 502, answer: { error: { path: "problem.out of range" } } });
    for (const [path, body, field] of [
      ["meter-lan/read", { quantity: "mass_g" }, "quantity"],
      ["nowhere/read", { quantity: "level_V" }, "instrument"],
      ["measurements/m-none", keep, "measurement"],
      ["meter-lan/logs", { by: "bench", quantity: "level_V", about: {}, every_s: 1, for_s: 9 }, "about.unit"],
      [
        "meter-lan/logs",
        { by: "bench", quantity: "level_V", about: { unit: "0101" }, every_s: 0, for_s: 9 },
        "every_s",
      ],
      ["meter-lan/output", { by: "bench", on: true }, "on"],
    ] as const) {
      const refused = await asked(`/api/instruments/${path}`, body);
      expect(refused).toMatchObject({ status: 422, answer: { error: { path: field } } });
    }
    const fresh = (await ledger()).slice(before).map(({ id, body }) => `${body.kind} ${id}`);
    expect(fresh.filter((one) => one.startsWith("reading"))).toEqual(["reading m-one", "reading m-form"]);
  });

  test("logs on through a kill, and every reading that was acknowledged stands once", async () => {
    const { device, reads } = await meter();
    await asked("/api/instruments/links", { by: "owner", file: link("meter-lan", meterAt(device.wire)) });
    const wish = { id: "log-ht", by: "bench", quantity: "level_V", about: { unit: "0101" }, every_s: 1, for_s: 600 };
    const begun = await Promise.all([1, 2].map(() => asked("/api/instruments/meter-lan/logs", wish)));
    expect(begun.map(({ answer }) => answer)).toEqual([{ log: "log-ht" }, { log: "log-ht" }]);

    const acknowledged = new Map<number, number>();
    const missed = new Set<string>();
    const watch = async (until: () => boolean) => {
      const give_up = Date.now() + 20_000;
      while (!until()) {
        if (Date.now() > give_up) throw new Error(`seen ${JSON.stringify([...acknowledged])}, ${[...missed]}`);
        const { answer } = await asked<LinksView>("/api/instruments/links");
        for (const { step, value, problem } of answer.linked[0]!.logs.flatMap(({ steps }) => steps)) {
          if (problem !== undefined) missed.add(problem);
          if (value === undefined) continue;
          expect(acknowledged.get(step) ?? value).toBe(value);
          acknowledged.set(step, value);
        }
        await new Promise((done) => setTimeout(done, 60));
      }
    };
    await watch(() => acknowledged.size >= 2);
    device.slips = ["garble"];
    await watch(() => missed.has("garbled"));
    await server.kill();
    expect((await ledger()).some(({ id }) => id.startsWith("log-ht."))).toBe(false);
    reads("201.10");
    server = await started();
    const before = acknowledged.size;
    await watch(() => acknowledged.size >= before + 1);
    const stopped = await asked("/api/instruments/logs/log-ht/stop", { by: "bench" });
    expect(stopped.status).toBe(200);
    await asked("/api/instruments/logs/log-ht/stop", { by: "bench" });
    const entries = await ledger();
    const logged = entries.filter(({ id, body }) => body.kind === "reading" && id.startsWith("log-ht."));
    const values = logged.map(({ id, body }) => [Number(id.slice(7)), body.kind === "reading" && body.value]);
    expect(new Set(values.map(([step]) => step)).size).toBe(values.length);
    for (const [step, value] of acknowledged) expect(values).toContainEqual([step, value]);
    expect([...new Set(values.map(([, value]) => value))]).toEqual([196.4, 201.1]);
    const ends = entries.filter(({ body }) => body.kind === "log-end");
    expect(ends).toHaveLength(1);
    expect(ends[0]!.body).toMatchObject({ because: "stopped by bench", logged: values.length });
    expect(logged[0]!.body).toMatchObject({ instrument: "meter-lan", conditions: { log: "log-ht", meter_Mohm: 10 } });
  });

  test("sets a supply inside its owner's limits, never below a core's frequency, and writes what it confirmed", async () => {
    const state = { V: 0, Hz: 50, on: false, error: "" };
    const device = await simulated(sourceAnswers(state));
    onTestFinished(() => device.close());
    const file = link("ac-source", sourceAt(device.wire));
    expect((await asked("/api/instruments/links", { by: "owner", file })).status).toBe(200);
    const set = (settings: object, more: object = {}) =>
      asked("/api/instruments/ac-source/supply", { by: "bench", settings, ...more });
    expect((await set({ output_Vrms: 10 })).answer.error?.message).toContain("no limits");
    const entry = { at: new Date().toISOString(), kind: "supply-limits", instrument: "ac-source" };
    const limits = { output_Vrms: { low: 0, high: 253 }, frequency_Hz: { low: 45, high: 62 } };
    const bench = await asked("/api/evidence", { entries: [{ ...entry, by: "bench", limits }] });
    expect(bench).toMatchObject({ status: 422, answer: { error: { path: "entries[0].by" } } });
    await asked("/api/evidence", { entries: [{ ...entry, by: "owner", limits }] });

    const sent = device.heard.length;
    const beyond = [
      [{ output_Vrms: 254 }, {}, "output_Vrms", "0 to 253 V, as the owner set it"],
      [{ frequency_Hz: 47 }, {}, "frequency_Hz", "the core's flux rises"],
      // Unit 0101 is built for 120 V and 60 Hz.
      [{ output_Vrms: 100, frequency_Hz: 57 }, { unit: "0101" }, "frequency_Hz", "60 Hz and above, which unit 0101"],
      [{ output_Vrms: 140, frequency_Hz: 60 }, { unit: "0101" }, "output_Vrms", "at most 132 V"],
      [{ output_V: 5 }, {}, "output_V", "can be set in output_Vrms, frequency_Hz"],
    ] as const;
    for (const [settings, more, path, words] of beyond) {
      const refused = await set(settings, more);
      expect(refused).toMatchObject({
        status: 422,
        answer: { error: { path, message: expect.stringContaining(words) } },
      });
    }
    expect(device.heard.slice(sent).filter((line) => !line.endsWith("?"))).toEqual([]);

    const id = "set-once";
    const done = await set({ output_Vrms: 230, frequency_Hz: 57 }, { id });
    expect(done.answer).toMatchObject({ settings: { output_Vrms: 230, frequency_Hz: 57 }, isOn: false });
    expect((await set({ output_Vrms: 230, frequency_Hz: 57 }, { id })).answer).toEqual(done.answer);
    expect(device.heard.filter((line) => line === "VOLT 230.0")).toHaveLength(1);
    const on = await asked("/api/instruments/ac-source/output", { by: "bench", on: true });
    expect(on.answer).toMatchObject({ isOn: true });
    expect(state).toMatchObject({ V: 230, Hz: 57, on: true });
    const sets = (await ledger()).flatMap(({ body }) => (body.kind === "supply-set" ? [body] : []));
    expect(sets).toHaveLength(2);
    expect(sets[0]).toMatchObject({ set: { output_Vrms: 230, frequency_Hz: 57 }, readBack: { output_Vrms: 230 } });
  });
});
