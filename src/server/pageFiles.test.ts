import { hash } from "node:crypto";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { brotliCompressSync, brotliDecompressSync, gunzipSync, gzipSync } from "node:zlib";
import fastify from "fastify";
import { afterAll, beforeAll, expect, test } from "vitest";
import { addCompression } from "./compressed.ts";
import { addPageFiles, isScreen } from "./pageFiles.ts";

const folder = mkdtempSync(join(tmpdir(), "stillglow-page-"));
const script = `export const words = ${JSON.stringify("valve ".repeat(400))};`;
const style = "html{background:#f6f4ee}";
const light = "document.documentElement.dataset.light = 'day';";
const index = `<!doctype html><title>Stillglow</title><style>${style}</style><script>${light}</script>`;
const units = { units: Array.from({ length: 200 }, (_, i) => ({ unit: `0${100 + i}`, model: "Ebb" })) };
const app = fastify();

beforeAll(async () => {
  mkdirSync(join(folder, "assets"));
  writeFileSync(join(folder, "index.html"), index);
  writeFileSync(join(folder, "assets", "App-1.js"), script);
  writeFileSync(join(folder, "assets", "App-1.js.br"), brotliCompressSync(script));
  writeFileSync(join(folder, "assets", "App-1.js.gz"), gzipSync(script));
  addCompression(app);
  app.get("/api/units", async () => units);
  app.get("/api/short", async () => ({ ok: true }));
  await addPageFiles(app, folder);
  app.setNotFoundHandler((request, reply) =>
    isScreen(request) ? reply.sendFile("index.html") : reply.code(404).send({ error: "nothing here" }),
  );
});
afterAll(async () => {
  await app.close();
  rmSync(folder, { recursive: true });
});

const get = (url: string, encodings?: string) =>
  app.inject({ url, headers: encodings === undefined ? {} : { "accept-encoding": encodings } });

test("a part of the page goes out as it was compressed when the page was built, to whoever can read it so", async () => {
  const brotli = await get("/assets/App-1.js", "gzip, deflate, br");
  expect(brotli.headers["content-encoding"]).toBe("br");
  expect(brotli.headers["content-type"]).toContain("javascript");
  expect(brotliDecompressSync(brotli.rawPayload).toString()).toBe(script);
  const gzip = await get("/assets/App-1.js", "gzip");
  expect(gunzipSync(gzip.rawPayload).toString()).toBe(script);
  const plain = await get("/assets/App-1.js");
  expect(plain.headers["content-encoding"]).toBeUndefined();
  expect(plain.payload).toBe(script);
  for (const { headers } of [brotli, gzip, plain]) expect(headers.vary).toContain("accept-encoding");
});

test("a part is kept by its name, the page itself asked for anew; a part of an older page is not there", async () => {
  expect((await get("/assets/App-1.js")).headers["cache-control"]).toContain("immutable");
  for (const screen of ["/", "/unit/0417"]) {
    const { statusCode, headers, payload } = await get(screen);
    expect([statusCode, headers["cache-control"]], screen).toEqual([200, "no-cache"]);
    expect(payload).toContain("<title>Stillglow</title>");
  }
  expect((await get("/assets/App-0.js")).statusCode).toBe(404);
  expect((await get("/api/nothing")).statusCode).toBe(404);
});

test("the page's policy names the very bytes of style and script that it carries, and a part's policy nothing", async () => {
  const named = (text: string) => `'sha256-${hash("sha256", text, "base64")}'`;
  const policy = (await get("/unit/0417")).headers["content-security-policy"];
  expect(policy).toMatch(/^default-src 'self'; /);
  expect(policy).toContain(`; style-src 'self' ${named(style)}; script-src 'self' ${named(light)}`);
  expect(policy).not.toContain("unsafe");
  expect((await get("/assets/App-1.js")).headers["content-security-policy"]).toBeUndefined();
});

test("a long answer travels compressed to whoever can read it so, a short one as it is", async () => {
  const long = await get("/api/units", "gzip, br");
  expect(long.headers["content-encoding"]).toBe("gzip");
  expect(long.rawPayload.length).toBeLessThan(0.2 * JSON.stringify(units).length);
  expect(JSON.parse(gunzipSync(long.rawPayload).toString())).toEqual(units);
  expect((await get("/api/units")).json()).toEqual(units);
  expect((await get("/api/short", "gzip")).headers["content-encoding"]).toBeUndefined();
});
