import { createHash } from "node:crypto";
import { existsSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { Readable } from "node:stream";
import { describe, expect, onTestFinished, test } from "vitest";
import { temporaryFolder } from "../../tests/helpers.ts";
import { channel, wavFile } from "../../tests/synthesis.ts";
import { calculations } from "../calculations/list.ts";
import { openWorkshop } from "../workshop/workshop.ts";
import { buildServer } from "./server.ts";

async function door(more: { most_bytes?: number } = {}) {
  const folder = temporaryFolder();
  const workshop = await openWorkshop(folder, { write: true });
  const app = await buildServer({ workshop, ...more });
  onTestFinished(async () => {
    await app.close();
    await workshop.close();
  });
  return { app, workshop, folder };
}
const json = { "content-type": "application/json", host: "127.0.0.1:4171" };

describe("calculations over HTTP", () => {
  // source: Wood Handbook (2010), table 4-2: 9.2 % at 21.1 °C and 50 %
  test("answer as the command line does", async () => {
    const { app } = await door();
    const answer = await app.inject({
      method: "POST",
      url: "/api/calc/timber.emc",
      headers: json,
      payload: { temperature_C: 21.1, humidity_pct: 50 },
    });
    expect(answer.statusCode).toBe(200);
    expect(answer.json().emc_pct).toBeCloseTo(9.2, 1);
  });

  test("bad input is 422 with one field, an unknown name 404, broken JSON 400, none with a stack trace", async () => {
    const { app } = await door();
    const post = (url: string, payload: string) => app.inject({ method: "POST", url, headers: json, payload });
    const bad = await post("/api/calc/timber.emc", '{"temperature_C":"warm","humidity_pct":50}');
    expect(bad.statusCode).toBe(422);
    expect(bad.json()).toMatchObject({ error: { path: "temperature_C" } });
    expect((await post("/api/calc/timber.magic", "{}")).statusCode).toBe(404);
    const broken = await post("/api/calc/timber.emc", "{");
    expect(broken.statusCode).toBe(400);
    for (const answer of [bad, broken]) expect(answer.body).not.toMatch(/\\n\s+at /);
  });

  test("are published as OpenAPI 3.1, every one of them", async () => {
    const { app } = await door();
    const described = (await app.inject({ url: "/api/openapi.json", headers: json })).json();
    expect(described.openapi).toBe("3.1.0");
    expect(Object.keys(described.paths).sort()).toEqual(
      Object.keys(calculations)
        .map((name) => `/api/calc/${name}`)
        .sort(),
    );
    expect(
      described.paths["/api/calc/timber.emc"].post.requestBody.content["application/json"].schema.properties,
    ).toHaveProperty("humidity_pct");
  });

  test("find a recording by its hash, and no file by its path", async () => {
    const { app, folder } = await door();
    const wav = wavFile([channel([{ frequency_Hz: 1000.3, level_Vrms: 0.1 }], 1e-7, 2, 48_000, 3)], 48_000, 1);
    const kept = await app.inject({
      method: "POST",
      url: "/api/recordings",
      headers: { ...json, "content-type": "audio/wav" },
      payload: wav,
    });
    expect(kept.statusCode).toBe(200);
    const ask = (recording: string) =>
      app.inject({
        method: "POST",
        url: "/api/calc/bench.tone",
        headers: json,
        payload: { recording, fullScale_Vpk: 1 },
      });
    const { file_sha256 } = kept.json();
    // source: the tone put in, 0.1 V at 1000.3 Hz
    expect((await ask(file_sha256)).json().channels.left.level_Vrms).toBeCloseTo(0.1, 4);
    const outside = join(folder, "outside.wav");
    writeFileSync(outside, wav);
    for (const path of [outside, "../outside.wav", "/etc/passwd"]) {
      const refused = await ask(path);
      expect(refused.statusCode).toBe(422);
      expect(refused.json()).toMatchObject({ error: { path: "recording" } });
    }
  });

  test("a file that is not WAV is not kept", async () => {
    const { app } = await door();
    const refused = await app.inject({
      method: "POST",
      url: "/api/recordings",
      headers: { ...json, "content-type": "audio/wav" },
      payload: Buffer.from("root:x:0:0"),
    });
    expect(refused.statusCode).toBe(422);
    expect(refused.body).not.toContain("root");
  });
});

describe("a recording of any size", () => {
  const upload = async (app: Awaited<ReturnType<typeof door>>["app"], wav: Uint8Array) =>
    app.inject({
      method: "POST",
      url: "/api/recordings",
      headers: { ...json, "content-type": "audio/wav" },
      payload: Readable.from(pieces(wav)),
    });
  function* pieces(bytes: Uint8Array) {
    for (let from = 0; from < bytes.length; from += 50_000) yield bytes.subarray(from, from + 50_000);
  }
  const wav = wavFile([channel([{ frequency_Hz: 1000.3, level_Vrms: 0.1 }], 1e-7, 2, 48_000, 3)], 48_000, 1);

  test("comes in piece by piece under its hash; one too large, or no recording, leaves nothing behind", async () => {
    const { app, folder } = await door({ most_bytes: wav.length });
    const kept = () => (existsSync(join(folder, "recordings")) ? readdirSync(join(folder, "recordings")) : []);
    const large = await upload(app, Buffer.concat([wav, Buffer.alloc(10)]));
    expect(large.statusCode).toBe(422);
    expect(large.json().error.message).toMatch(/cut it into shorter files/);
    expect((await upload(app, wav.subarray(20))).statusCode).toBe(422);
    expect(kept()).toEqual([]);
    const { file_sha256 } = (await upload(app, wav)).json();
    expect(file_sha256).toBe(createHash("sha256").update(wav).digest("hex"));
    expect(kept()).toEqual([`${file_sha256}.wav`]);
    expect((await upload(app, wav)).json()).toEqual({ file_sha256 });
  });
});

describe("who may write", () => {
  test("another page may not, nor a name that merely leads here", async () => {
    const { app } = await door();
    const payload = { entries: [] };
    const from = (headers: Record<string, string>) =>
      app.inject({ method: "POST", url: "/api/evidence", headers: { ...json, ...headers }, payload });
    expect((await from({ origin: "https://elsewhere.example" })).statusCode).toBe(403);
    expect((await from({ host: "rebound.example:4171" })).statusCode).toBe(403);
    expect((await from({ origin: "http://127.0.0.1:4171" })).statusCode).toBe(200);
  });

  test("evidence is taken all or none, with the entry and the field named", async () => {
    const { app } = await door();
    const headphone = {
      at: "2026-01-05T10:00:00Z",
      by: "owner",
      kind: "headphone",
      headphone: "closed",
      impedance_ohm: 60,
      sensitivity_dB_per_V: 104,
    };
    const refused = await app.inject({
      method: "POST",
      url: "/api/evidence",
      headers: json,
      payload: { entries: [headphone, { ...headphone, headphone: "open", impedance_ohm: -3 }] },
    });
    expect(refused.statusCode).toBe(422);
    expect(refused.json().error.path).toBe("entries[1].impedance_ohm");
    const before = (await app.inject({ url: "/api/workshop", headers: json })).json().head;
    const taken = await app.inject({
      method: "POST",
      url: "/api/evidence",
      headers: json,
      payload: { entries: [headphone] },
    });
    expect(taken.statusCode).toBe(200);
    expect((await app.inject({ url: "/api/workshop", headers: json })).json().head).not.toBe(before);
  });
});
