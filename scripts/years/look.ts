import type { Browser, Page } from "playwright-core";

export interface Looked {
  readonly path: string;
  /** Questions of the screen, the slowest of which counts. */
  readonly asks: string;
  /** From the question to the first byte of its answer, the slowest question of each look, in ms. */
  readonly server_ms: readonly number[];
  /** The same at the first look after something was written down. */
  readonly afterWriting_ms: number;
  /** Until every answer held anew, where that look showed one of a moment before. */
  readonly holds_ms?: number;
  readonly paint_ms: readonly number[];
  /** Until the heading stands and nothing is awaited. */
  readonly stands_ms: readonly number[];
  readonly transferred_bytes: number;
  readonly largest_bytes: number;
}

const patience_ms = 60_000;

/** Looks at a screen as a browser that was never here: so often anew, and once right after a reading was written. */
export async function lookAt(browser: Browser, address: string, path: string, times: number): Promise<Looked> {
  await writeReading(address);
  const first = await once(browser, address, path);
  const looks = [];
  for (let i = 0; i < times; i++) looks.push(await once(browser, address, path));
  return {
    path,
    asks: first.asks,
    server_ms: looks.map(({ server_ms }) => server_ms),
    afterWriting_ms: first.server_ms,
    ...(first.holds_ms !== undefined && { holds_ms: first.holds_ms }),
    paint_ms: looks.map(({ paint_ms }) => paint_ms),
    stands_ms: looks.map(({ stands_ms }) => stands_ms),
    transferred_bytes: first.transferred_bytes,
    largest_bytes: first.largest_bytes,
  };
}

async function once(browser: Browser, address: string, path: string) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, reducedMotion: "reduce" });
  try {
    const page = await context.newPage();
    const asked: { path: string; server_ms: number; bytes: number }[] = [];
    let transferred_bytes = 0;
    const older = new Set<string>();
    let wasOlder = false;
    page.on("response", (response) => {
      const { pathname } = new URL(response.url());
      if (response.headers()["as-of"] === undefined) older.delete(pathname);
      else {
        older.add(pathname);
        wasOlder = true;
      }
    });
    page.on("requestfinished", async (request) => {
      const { pathname } = new URL(request.url());
      if (pathname === "/api/events") return;
      const sizes = await request.sizes().catch(() => undefined);
      const bytes = (sizes?.responseBodySize ?? 0) + (sizes?.responseHeadersSize ?? 0);
      transferred_bytes += bytes;
      if (!pathname.startsWith("/api/")) return;
      const { requestStart, responseStart } = request.timing();
      asked.push({ path: pathname, server_ms: responseStart - requestStart, bytes });
    });
    const begun = performance.now();
    await page.goto(new URL(path, address).href, { waitUntil: "commit", timeout: patience_ms });
    await untilStands(page);
    const stands_ms = performance.now() - begun;
    const paint_ms = await page.evaluate(
      () => performance.getEntriesByName("first-contentful-paint")[0]?.startTime ?? Number.NaN,
    );
    await page.waitForTimeout(100);
    const slowest = asked.toSorted((a, b) => b.server_ms - a.server_ms);
    while (older.size > 0 && performance.now() - begun < patience_ms) await page.waitForTimeout(20);
    const holds_ms = performance.now() - begun;
    return {
      ...(wasOlder ? { holds_ms } : {}),
      asks: slowest
        .slice(0, 2)
        .map((one) => one.path)
        .join(", "),
      server_ms: slowest[0]?.server_ms ?? 0,
      paint_ms,
      stands_ms,
      transferred_bytes,
      largest_bytes: Math.max(0, ...asked.map(({ bytes }) => bytes)),
    };
  } finally {
    await context.close();
  }
}

async function untilStands(page: Page): Promise<void> {
  await page.locator("main h1, main .trouble, main .empty").first().waitFor({ timeout: patience_ms });
  await page.waitForFunction(() => !document.querySelector("main .waiting"), undefined, { timeout: patience_ms });
}

/** A reading of the bench's meter, so that what was kept of answers is asked again. */
async function writeReading(address: string): Promise<void> {
  const entry = {
    at: await now(address),
    by: "bench technician",
    kind: "trial",
    instrument: "meter-A",
    value: 10,
    doubt: 0.0024,
  };
  const answered = await fetch(new URL("/api/evidence", address), {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ entries: [entry] }),
  });
  if (!answered.ok) throw new Error(`a trial was refused: ${await answered.text()}`);
}

export async function now(address: string): Promise<string> {
  return ((await (await fetch(new URL("/api/workshop", address))).json()) as { now: string }).now;
}
