import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { setPriority } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { encodeWav } from "../../src/bench/encodeWav.ts";
import { bytesInMemory, readWav } from "../../src/bench/wav.ts";
import { stimulusSamples, synchronised } from "../../src/screens/bench/capture/stimulus.ts";
import type { BenchSheetView } from "../../src/workshop/bench/views.ts";
import { keptFolder, serve, stillglow } from "../helpers.ts";
import { isTooWide, openBrowser, picture, readyPage } from "./page.ts";
import { breaches } from "./walk.ts";

/** What the sound card would deliver: a tone with a known third harmonic, two channels, the right one quieter. */
const rate_Hz = 44_100;
const tone_Hz = 1000;
const peak = { left: 0.25, right: 0.24 };
const third = 0.003;

function heard(seconds: number): Uint8Array {
  const samples = [peak.left, peak.right].map((level) =>
    new Float64Array(seconds * rate_Hz).map((_, n) => {
      const phase = (2 * Math.PI * tone_Hz * n) / rate_Hz;
      return level * (Math.sin(phase) + third * Math.sin(3 * phase));
    }),
  );
  return encodeWav(rate_Hz, samples, { encoding: "pcm16" });
}

const by = "technician";
const at = "2026-03-02T14:00:00Z";
const side = (name: "left" | "right", s: "L" | "R") => [
  { id: `IN${s}`, kind: "voltage", between: [`g${s}`, "0"], dc_V: 0, ac_V: 1, stage: "gain", channel: name },
  { id: `RL${s}`, kind: "resistor", ohm: 47_000, between: ["ht", `a${s}`], stage: "gain", channel: name },
  { id: `RK${s}`, kind: "resistor", ohm: 1000, between: [`k${s}`, "0"], stage: "gain", channel: name },
  {
    id: s === "L" ? "V1a" : "V1b",
    kind: "triode",
    type: "6SN7GT",
    plate: `a${s}`,
    grid: `g${s}`,
    cathode: `k${s}`,
    stage: "gain",
    channel: name,
  },
];
const entries = [
  {
    kind: "instrument",
    instrument: "card-1",
    title: "Sound card of the bench",
    trial: { reference: "loop-back lead", quantity: "level_Vrms", true: 0.35, limit: 0.01 },
  },
  {
    kind: "model",
    model: "Lantern",
    revision: "A",
    title: "Line amplifier",
    netlist: {
      ground: "0",
      testPoints: ["aL", "aR"],
      parts: [
        { id: "HT", kind: "voltage", between: ["ht", "0"], dc_V: 250, stage: "supply", channel: "both" },
        ...side("left", "L"),
        ...side("right", "R"),
      ],
    },
    positions: [{ position: "V1", type: "6SN7GT", sections: { a: "V1a", b: "V1b" } }],
    channels: ["left", "right"],
    input: { left: "INL", right: "INR" },
    output: { left: "aL", right: "aR" },
    outputImpedance_ohm: 0,
    balanceLimit_dB: 0.5,
    claims: [
      {
        claim: "balance",
        title: "Left and right are alike",
        sheet: "sound",
        requires: [
          { quantity: "balance_dB", low: -0.5, high: 0.5 },
          { quantity: "gain_dB", channel: "left", low: -20, high: 20 },
        ],
        restsOn: [{ position: "V1" }],
        check: { how: "A tone into both", skill: "bench", hands_min: 10 },
      },
    ],
    build: [],
  },
  { kind: "batch", batch: "B1", type: "6SN7GT", seller: "nobody", valves: ["T-1"], sections: ["a", "b"] },
  {
    kind: "order",
    order: "O-1",
    customer: "K-1",
    model: "Lantern",
    revision: "A",
    units: ["0007"],
    destination: { place: "inland", nominal_V: 120, frequency_Hz: 60 },
  },
  {
    kind: "unit",
    unit: "0007",
    order: "O-1",
    model: "Lantern",
    revision: "A",
    fitted: { V1: "T-1" },
    tap: "120 V",
  },
].map((entry) => ({ at, by, ...entry }));

const folder = keptFolder();
const workshop = join(folder, "workshop");
const recorderCard = join(folder, "recorder");
let browser: Browser;
let page: Page;
let served: Awaited<ReturnType<typeof serve>>;
const errors: string[] = [];

/** Sound comes in real time: where that is allowed, what plays and takes it goes before whatever else the machine does. */
function goFirst(isFirst: boolean): void {
  try {
    setPriority(isFirst ? -10 : 0);
  } catch {
    // Not allowed to everybody.
  }
}

beforeAll(async () => {
  readyPage();
  goFirst(true);
  const lines = entries.map((entry) => JSON.stringify(entry)).join("\n");
  expect(stillglow(["enter", "--data", workshop], lines)).toMatchObject({ status: 0, stderr: "" });
  browser = await hearing(heard(20));
  mkdirSync(recorderCard);
  served = await serve(["serve", "--data", workshop, "--recorder-folder", recorderCard], { kept: true });
  page = await (await browser.newContext({ viewport: { width: 1280, height: 900 } })).newPage();
  page.setDefaultTimeout(60_000);
  page.on("pageerror", (error) => errors.push(error.message));
}, 120_000);
/** What the browser's stand-in for a sound card plays over and over; read anew whenever a page opens the card. */
const card = join(folder, "card.wav");

async function hearing(wav: Uint8Array): Promise<Browser> {
  writeFileSync(card, wav);
  return openBrowser([
    "--use-fake-ui-for-media-stream",
    "--use-fake-device-for-media-stream",
    `--use-file-for-fake-audio-capture=${card}`,
  ]);
}

afterAll(async () => {
  goFirst(false);
  await browser?.close();
  await served?.stop();
});

const sheet = async () => (await (await fetch(`${served.address}/api/units/0007/bench`)).json()) as BenchSheetView;
/** What the next recording will be called. */
const nextName = async () => `b${(await sheet()).recordings.length + 1}`;

/**
 * The browser's stand-in for a sound card leaves samples out where the machine has no time for it. What it spoilt is
 * recorded anew, as a person would, at most twice; what is found in the last recording counts.
 */
async function recordedWhole(played: Uint8Array, record: (name: string) => Promise<void>): Promise<string> {
  for (let trial = 1; ; trial += 1) {
    const name = await nextName();
    await record(name);
    if (trial === 3 || piecesOf(newestFile(), played) < tooManyPieces) return name;
  }
}

test("the recorder is looped back: full scale, own noise and distortion go into the ledger", async () => {
  await page.goto(`${served.address}/unit/0007/bench`);
  await page.getByText("No recorder is calibrated here yet").waitFor();
  await page.getByRole("heading", { name: "Loop the recorder back" }).click();
  const loop = page.locator(".loopback");
  await loop.getByLabel("Recorder").fill("card-1");
  await loop.getByLabel("The meter reads").fill("0,35");
  await loop.getByLabel("Who writes this down").fill(by);
  const done = loop.getByText(/card-1: full scale is/);
  const refused = loop.getByText(/of its level beside it/);
  // A stand-in for a card that stumbled with the machine has put something beside the tone: that is refused, and a person
  // would record anew.
  for (let trial = 1; trial <= 3; trial += 1) {
    await loop.getByRole("button", { name: "Record the tone" }).click();
    await loop.getByRole("button", { name: "Record the tone" }).waitFor({ state: "hidden" });
    await loop.getByText(/^Recorded 5 s at \d+ Hz/).waitFor();
    if (trial === 1) await picture(page, "bench-loopback");
    const answered = page.waitForResponse((response) => response.url().endsWith("/api/calc/bench.loopback"));
    await loop.getByRole("button", { name: "Write the calibration down" }).click();
    await answered;
    await done.or(refused).waitFor();
    if (await done.isVisible()) break;
  }
  await done.waitFor();

  const [recorder] = (await sheet()).recorders;
  // source: what the file holds: 0.35 V r.m.s. read at a peak of 0.25 of full scale, third harmonic 0.3 %
  const expected_Vpk = 0.35 / (peak.left / Math.SQRT2);
  expect(recorder!.channels[0]!.fullScale_Vpk / expected_Vpk).toBeCloseTo(1, 2);
  expect(recorder!.channels[0]!.thd_pct).toBeCloseTo(100 * third, 1);
  // A browser that hands over 16 bits is found out.
  expect(recorder!.grain_bits).toBeLessThanOrEqual(16);
  await page.getByText("samples of 16 bits as handed over").waitFor();
  expect(errors).toEqual([]);
}, 120_000);

test("a tone is recorded with countdown and levels, written down, judged, and closes what it can", async () => {
  const name = await recordedWhole(heard(1), async (name) => {
    await page.goto(`${served.address}/unit/0007/bench`);
    const form = page.locator(".take-form");
    await form.getByLabel("Length of the record").fill("3");
    await form.getByLabel("At the unit’s input").fill("0.5");
    await form.getByLabel("Volume control at").fill("12 o'clock");
    await form.getByRole("button", { name: "Record", exact: true }).click();
    await form.getByText(/Begins in 3/).waitFor();
    await form.getByText(/Recording: \d+ of 3 s/).waitFor();
    await form.locator(".level-rule").first().waitFor();
    await form.getByText(/^Recorded 3 s at/).waitFor();
    // A reload loses neither what was typed nor what was recorded.
    await form.getByText("It stays in this browser, through a reload too").waitFor();
    await page.reload();
    await form.getByText("It was recorded before this page was opened anew").waitFor();
    await form.getByText(/^Recorded 3 s at/).waitFor();
    await form.getByRole("button", { name: "Write it down" }).click();
    await page.getByText(`${name} is written down.`).waitFor();
  });
  await page.getByRole("heading", { name: `Tone ${name}` }).waitFor();

  expectRaw(newestFile(), heard(1));
  const { recordings } = await sheet();
  const figure = (channel: string | undefined, quantity: string) =>
    recordings[0]!.figures.find((one) => one.channel === channel && one.quantity === quantity)!;
  expect(figure("left", "level_Vrms").value).toBeCloseTo(0.35, 2);
  expect(figure("left", "thd_pct").value).toBeCloseTo(100 * third, 1);
  expect(figure("left", "thd_pct").recorder).toBeGreaterThan(0);
  expect(figure(undefined, "balance_dB").value).toBeCloseTo(20 * Math.log10(peak.left / peak.right), 1);
  const drawn = await drawnFigures();
  expect(drawn.find(({ quantity }) => quantity === "balance_dB")?.value).toBeCloseTo(0.355, 1);
  // source: 0.35 V r.m.s. over 0.5 V peak, which is 0.3536 V r.m.s.
  expect(drawn.find(({ quantity }) => quantity === "gain_dB")?.value).toBeCloseTo(20 * Math.log10(0.35 / 0.35355), 1);
  expect(errors).toEqual([]);
}, 240_000);

interface DrawnFigure {
  readonly quantity: string;
  readonly value?: number;
}

/** Findings are drawn once the recording is answered for, some time after it was written down. */
async function drawnFigures(): Promise<readonly DrawnFigure[]> {
  const figures = async () => {
    const unit = (await (await fetch(`${served.address}/api/units/0007`)).json()) as {
      claims: readonly { figures: readonly DrawnFigure[] }[];
    };
    return unit.claims[0]!.figures;
  };
  await expect
    .poll(async () => (await figures()).find(({ quantity }) => quantity === "balance_dB")?.value, { timeout: 30_000 })
    .toBeDefined();
  return figures();
}

/** The recording that reached the server last. */
function newestFile(): Uint8Array {
  const kept = join(workshop, "recordings");
  const files = readdirSync(kept).map((name) => join(kept, name));
  const newest = files.reduce((a, b) => (statSync(b).mtimeMs > statSync(a).mtimeMs ? b : a));
  return new Uint8Array(readFileSync(newest));
}

const tooManyPieces = 8;

/**
 * The samples that went to the server are the sound card's own, one for one. The browser's stand-in for a card may leave
 * some out where the machine is busy, now and then twice within a sample; it may not change one, and all but a few places
 * follow each other.
 */
function expectRaw(wav: Uint8Array, played: Uint8Array): void {
  const sent = readWav(bytesInMemory(wav));
  expect(sent).toMatchObject({ rate_Hz, bits: 16, float: false });
  expect(sent.samples[0]!.length).toBe(3 * rate_Hz);
  expect(piecesOf(wav, played)).toBeLessThan(tooManyPieces);
}

/**
 * Of how many pieces of what the card plays, over and over, a recording is made, each one as long as can be; one that was
 * still from its beginning is not counted, as it may be from anywhere. Counts no further than too many.
 *
 * @throws when a sample is none of the card's
 */
function piecesOf(wav: Uint8Array, played: Uint8Array): number {
  const sent = readWav(bytesInMemory(wav)).samples;
  const made = readWav(bytesInMemory(played)).samples;
  const [length, period] = [sent[0]!.length, made[0]!.length];
  const agrees = (n: number, place: number) => [0, 1].every((c) => sent[c]![n] === made[c]![place % period]);
  const agreesUntil = (from: number, place: number, end = length) => {
    let n = from;
    while (n < end && agrees(n, place + n - from)) n += 1;
    return n;
  };
  let pieces = 0;
  for (let n = 0; n < length && pieces < tooManyPieces; ) {
    let still = n + 1;
    while (still < length && [0, 1].every((c) => sent[c]![still] === sent[c]![n])) still += 1;
    const known = Math.min(n + 32, length);
    let reached = n;
    for (let place = 0; place < period && !(reached >= known && still >= known); place += 1) {
      const near = agreesUntil(n, place, known);
      reached = Math.max(reached, near === known ? agreesUntil(n, place) : near);
    }
    expect(reached, `sample ${n} is none of the card's`).toBeGreaterThan(n);
    if (still >= known && reached >= known) reached = Math.max(reached, still);
    else pieces += 1;
    n = reached;
  }
  return pieces;
}

test("stopping keeps nothing, and a form that lacks something records nothing", async () => {
  const before = (await sheet()).recordings;
  await page.goto(`${served.address}/unit/0007/bench`);
  const form = page.locator(".take-form");
  await form.getByRole("button", { name: "Record", exact: true }).click();
  await form.getByRole("button", { name: "Stop", exact: true }).click();
  await form.getByText("Stopped. Nothing was kept.").waitFor();
  await form.getByLabel("Tone", { exact: true }).last().fill("a thousand");
  await form.getByRole("button", { name: "Record", exact: true }).click();
  await form.getByText("Something is missing or unreadable above; nothing was recorded.").waitFor();
  await form.getByText("is not a number").waitFor();
  expect((await sheet()).recordings).toHaveLength(before.length);
  await form
    .getByRole("button", { name: "Begin afresh" })
    .click({ timeout: 3000 })
    .catch(() => undefined);
}, 120_000);

test("a recorder's file is brought in with the same conditions", async () => {
  const name = await nextName();
  await page.goto(`${served.address}/unit/0007/bench`);
  await page.getByLabel("Silence").check();
  await page.getByLabel("WAV file").setInputFiles({ name: "quiet.wav", mimeType: "audio/wav", buffer: quiet() });
  await page.getByRole("button", { name: "Bring it in" }).click();
  await page.getByText(`${name} is written down.`).waitFor();
  const { recordings } = await sheet();
  expect(recordings[0]).toMatchObject({ purpose: "noise", calculation: "bench.noise" });
  expect(recordings[0]!.figures.map(({ quantity }) => quantity)).toContain("hissA_Vrms");
}, 120_000);

test("a file that appears on the recorder's card waits, is given to the unit, and is not offered again", async () => {
  const name = await nextName();
  const onCard = join(recorderCard, "REC_0042.WAV");
  writeFileSync(onCard, quiet(11));
  await page.goto(`${served.address}/unit/0007/bench`);
  const waits = page.locator(".recorder-files");
  await waits.getByLabel(/REC_0042\.WAV/).check();
  await page.getByLabel("Silence").check();
  await page.getByRole("button", { name: "Bring it in" }).click();
  await page.getByText(`${name} is written down.`).waitFor();
  await waits.getByText("Nothing waits.").waitFor();
  expect((await sheet()).recordings[0]).toMatchObject({ recording: name, purpose: "noise" });
  // The same bytes under another name are no news; something that is no recording is named.
  writeFileSync(join(recorderCard, "copy.wav"), quiet(11));
  writeFileSync(join(recorderCard, "notes.wav"), "bought a new card today");
  await page.reload();
  await waits.getByText(/notes\.wav was not taken in/).waitFor();
  expect(await waits.getByRole("radio").count()).toBe(0);
  expect(existsSync(onCard)).toBe(true);
  expect(errors).toEqual([]);
}, 120_000);

function quiet(seed = 7): Buffer {
  let state = seed;
  const noise = () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32 - 0.5;
  };
  const samples = [0, 1].map(() => new Float64Array(2 * rate_Hz).map(() => 1e-4 * (noise() + noise() + noise())));
  return Buffer.from(encodeWav(rate_Hz, samples, { encoding: "pcm24" }));
}

const stereo = (seconds: number, at: (t: number, n: number) => number) => {
  const samples = new Float64Array(seconds * rate_Hz).map((_, n) => at(n / rate_Hz, n));
  return encodeWav(rate_Hz, [samples, samples.map((value) => 0.8 * value)], { encoding: "pcm16" });
};
const sine = (frequency_Hz: number, t: number) => Math.sin(2 * Math.PI * frequency_Hz * t);

/** Records one stimulus with what the card now plays, and gives the sheet's newest recording. */
async function recorded(desk: Page, played: Uint8Array, purpose: string, fields: Readonly<Record<string, string>>) {
  writeFileSync(card, played);
  const form = desk.locator(".take-form");
  await recordedWhole(played, async (name) => {
    await form.getByLabel(purpose, { exact: true }).first().check();
    await form.getByLabel("Who writes this down").fill(by);
    for (const [label, value] of Object.entries(fields)) await form.getByLabel(label).fill(value);
    await form.getByRole("button", { name: "Record", exact: true }).click();
    await form.getByText(/^Recorded .* in samples of 16 bits\.$/).waitFor();
    expect(await form.locator(".capture-desk [role=alert]").allTextContents()).toEqual([]);
    await form.getByRole("button", { name: "Write it down" }).click();
    await desk.getByText(`${name} is written down.`).waitFor();
  });
  const [newest] = (await sheet()).recordings;
  return (quantity: string, channel = "left") =>
    newest!.figures.find((one) => one.channel === channel && one.quantity === quantity)!.value;
}

test("two tones, a sweep and silence are recorded as they are played, and judged", async () => {
  const desk = await (await browser.newContext({ viewport: { width: 390, height: 844 } })).newPage();
  desk.setDefaultTimeout(60_000);
  await desk.goto(`${served.address}/unit/0007/bench`);
  // source: by hand. Lines of 0.25 and 0.24 % of the high tone beside it at ± 60 Hz are 0.5 % modulation
  const tones = stereo(5, (t) => {
    const sides = 0.0025 * (sine(7060, t) - sine(6940, t));
    return 0.2 * sine(60, t) + 0.05 * (sine(7000, t) + sides);
  });
  const twoTones = await recorded(desk, tones, "Two tones", { "Length of the record": "2" });
  expect(twoTones("imd_pct")).toBeCloseTo(0.5, 1);

  // source: the sweep as the page plays it, at 0.25 of full scale for 0.5 V at the input; 1 kHz passes late enough to be
  //         heard however slowly the page begins
  const sweep = synchronised({ start_Hz: 20, stop_Hz: 20_000, duration_s: 2 });
  const played = stimulusSamples({ kind: "sweep", sweep, level: 0.25 }, rate_Hz, sweep.duration_s);
  const swept = stereo(8, (_, n) => played[n - 1.2 * rate_Hz] ?? 0);
  const fields = { "Sweep from": "20", "Sweep to": "20000", "Sweep lasts": "2", "At the unit’s input": "0.5" };
  const fullScale_Vpk = (await sheet()).recorders[0]!.channels[0]!.fullScale_Vpk;
  const response = await recorded(desk, swept, "Sweep", fields);
  expect(response("gain_at_1kHz_dB")).toBeCloseTo(20 * Math.log10((0.25 * fullScale_Vpk) / 0.5), 1);
  expect(response("gain_at_1kHz_dB", "right") - response("gain_at_1kHz_dB")).toBeCloseTo(20 * Math.log10(0.8), 1);

  // source: samples even between ± a have r.m.s. a/√3, and 20 Hz to 20 kHz holds 20/22.05 of that power; hum apart
  let state = 5;
  const even = () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 31 - 1;
  };
  const quietCard = stereo(5, (t) => 0.01 * even() + 0.02 * sine(50, t));
  const silence = await recorded(desk, quietCard, "Silence", { "Length of the record": "2" });
  // A-weighting lets 0.5 to 1 of white noise below 20 kHz through.
  const hiss_Vrms = (fullScale_Vpk * 0.01) / Math.sqrt(3);
  expect(silence("hissA_Vrms") / hiss_Vrms).toBeGreaterThan(0.5);
  expect(silence("hissA_Vrms") / hiss_Vrms).toBeLessThan(1);
  await desk.context().close();
}, 180_000);

test("the sheet obeys WCAG 2.2 AA and fits a phone held in one hand", async () => {
  for (const [width, height] of [
    [1440, 900],
    [390, 844],
  ] as const) {
    await page.setViewportSize({ width, height });
    await page.goto(`${served.address}/unit/0007/bench`);
    await page.getByRole("heading", { name: "The recorder", exact: true }).waitFor();
    await page.locator(".bench-recording").first().waitFor();
    expect(await isTooWide(page)).toBe(false);
    expect(await breaches(page)).toEqual([]);
    await picture(page, `bench-${width}`);
  }
  expect(errors).toEqual([]);
}, 120_000);
