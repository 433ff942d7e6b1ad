import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { decided, none, spectrumOf } from "../../src/screens/hum/examples.ts";
import { usual } from "../../src/screens/morning/examples.ts";
import { few } from "../../src/screens/promises/examples.ts";
import { manyGaps } from "../../src/screens/unit/examples.ts";
import { workshop } from "../../src/screens/units/examples.ts";
import { openPage, openScreens, type Screens } from "./page.ts";

let screens: Screens;
beforeAll(async () => {
  screens = await openScreens("production");
});
afterAll(() => screens?.close());

interface Sent {
  readonly path: string;
  readonly body: Record<string, unknown>;
}

type Reply = { readonly status?: number; readonly json: unknown };

/** The built page before a workshop that answers from examples and remembers what it was sent. */
async function atWork(
  path: string,
  replies: Readonly<Record<string, () => Reply | Promise<Reply>>> = {},
): Promise<{ page: Page; sent: Sent[] }> {
  const { page } = await openPage(screens.browser, 1280);
  // These answers can't be kept flowing as the workshop's news are; the real server's are tried in realDemo.test.ts.
  await page.addInitScript(() => {
    window.EventSource = class extends EventTarget {
      close() {}
    } as unknown as typeof EventSource;
  });
  const sent: Sent[] = [];
  const answers: Record<string, () => Reply | Promise<Reply>> = {
    "/api/workshop": () => ({ json: workshop }),
    "/api/morning": () => ({ json: usual }),
    "/api/promises": () => ({ json: few }),
    "/api/units/0231": () => ({ json: manyGaps }),
    "/api/units/0231/hum": () => ({ json: decided }),
    "/api/evidence": () => ({ json: { entries: [] } }),
    "/api/recordings": () => ({ json: { file_sha256: "a".repeat(64) } }),
    "/api/units/0231/release": () => ({ json: manyGaps.release }),
    ...replies,
  };
  await page.route("**/api/**", async (route) => {
    const request = route.request();
    const { pathname } = new URL(request.url());
    if (pathname === "/api/events") return route.fulfill({ contentType: "text/event-stream", body: ": here\n\n" });
    if (request.method() === "POST") {
      const isJson = request.headers()["content-type"]?.includes("json");
      sent.push({
        path: pathname,
        body: isJson ? request.postDataJSON() : { bytes: request.postDataBuffer()?.length },
      });
    }
    const spectrum = /recordings\/([^/]+)\/spectrum$/.exec(pathname);
    const reply = spectrum ? { json: spectrumOf(decided, spectrum[1] ?? "", "left") } : await answers[pathname]?.();
    if (!reply)
      return route.fulfill({
        status: 422,
        json: { error: { path: "unit", message: "0499; not in the ledger; check the label" } },
      });
    return route.fulfill({ status: 200, ...reply });
  });
  await page.goto(new URL(path, screens.address).href);
  await page.locator("h1").waitFor();
  return { page, sent };
}

const entriesOf = (sent: readonly Sent[]) =>
  sent.filter(({ path }) => path === "/api/evidence").flatMap(({ body }) => body.entries as Record<string, unknown>[]);

test("the folder can be worked by keyboard alone: role, exchange recorded, reading with a comma, release asked for", async () => {
  const { page, sent } = await atWork("/unit/0231");
  const tabTo = async (label: string | RegExp, role: "textbox" | "button" = "textbox") => {
    const target = page.getByRole(role, { name: label }).first();
    for (let presses = 0; presses < 120; presses += 1) {
      if (await target.evaluate((one) => one === document.activeElement)) return;
      await page.keyboard.press("Tab");
    }
    throw new Error(`${label} was not reached by tabbing`);
  };

  await tabTo("Who writes this down");
  await page.keyboard.type("bench");
  await tabTo("Record the exchange", "button");
  await page.keyboard.press("Enter");
  await page.getByText("T-118 now stands in V2").waitFor();
  expect(entriesOf(sent)[0]).toEqual({
    kind: "rework",
    unit: "0231",
    touched: [{ position: "V2" }],
    fitted: { V2: "T-118" },
    why: "T-117 replaced by T-118 in V2, as proposed",
    at: workshop.now,
    by: "bench",
  });

  await tabTo("Reading");
  await page.keyboard.type("0,012");
  await page.keyboard.press("Tab");
  await page.keyboard.type("0.004");
  await tabTo("Write it down", "button");
  await page.keyboard.press("Enter");
  await page.getByText("Written down for").waitFor();
  expect(entriesOf(sent).at(-1)).toEqual({
    kind: "reading",
    subject: { unit: "0231", channel: "left" },
    quantity: "jackDc_V",
    value: 0.012,
    doubt: 0.004,
    instrument: "bench meter 2",
    at: workshop.now,
    by: "bench",
  });

  await tabTo("Release unit 0231", "button");
  await page.keyboard.press("Enter");
  const refused = page.getByRole("alert").filter({ hasText: "Not released" });
  await refused.waitFor();
  expect(await refused.getByRole("listitem").count()).toBe(manyGaps.release.missing.length);
  await page.context().close();
}, 120_000);

test("a reading with a letter in it is refused beside its field, and what was typed stays", async () => {
  const { page, sent } = await atWork("/unit/0231");
  await page.getByLabel("Who writes this down").last().fill("bench");
  const reading = page.getByRole("textbox", { name: "Reading" }).first();
  await reading.fill("0,0l2");
  await page.getByRole("button", { name: "Write it down" }).first().click();
  await page.getByText("“0,0l2” is not a number").waitFor();
  expect(await reading.inputValue()).toBe("0,0l2");
  expect(await reading.getAttribute("aria-invalid")).toBe("true");
  expect(sent).toEqual([]);
  await page.context().close();
});

test("when the workshop refuses or doesn't answer, its words are shown and what was typed stays", async () => {
  const refusal = {
    status: 422,
    json: { error: { path: "entries[0].instrument", message: "bench meter 9 is not written down" } },
  };
  const { page } = await atWork("/unit/0231", { "/api/evidence": () => refusal });
  const form = page.locator("#readings form").first();
  await form.getByLabel("Reading").first().fill("0.01");
  await form.getByLabel("Doubt, give or take").first().fill("0.002");
  await form.getByLabel("Instrument").fill("bench meter 9");
  await form.getByLabel("Who writes this down").fill("bench");
  await form.getByRole("button", { name: "Write it down" }).click();
  await form.getByText("bench meter 9 is not written down").waitFor();
  expect(await form.getByLabel("Reading").first().inputValue()).toBe("0.01");
  await page.route("**/api/**", (route) => route.abort());
  await form.getByRole("button", { name: "Write it down" }).click();
  await form.getByText("does not answer").waitFor();
  expect(await form.getByLabel("Instrument").inputValue()).toBe("bench meter 9");
  await page.context().close();
});

test("only the owner concedes, with a reason, and a safety claim is not offered", async () => {
  const { page, sent } = await atWork("/unit/0231");
  await page.getByText("Concede a claim in writing").click();
  const offered = await page.getByLabel("Claim", { exact: true }).locator("option").allInnerTexts();
  expect(offered).not.toContain("No direct voltage at the headphone jack");
  await page.getByLabel("Reason, in a sentence").fill("The customer measured it with us");
  await page.getByRole("button", { name: "Write the concession" }).click();
  await page.getByText("Only the owner concedes").waitFor();
  expect(sent).toEqual([]);
  await page.getByLabel("I am the owner and put my name to it").check();
  await page.getByRole("button", { name: "Write the concession" }).click();
  await page.getByText("Conceded in writing").waitFor();
  expect(entriesOf(sent)[0]).toMatchObject({ kind: "concession", unit: "0231", by: "owner" });
  await page.context().close();
});

test("a recording is brought in with the conditions it was made under", async () => {
  const { page, sent } = await atWork("/unit/0231/hum", { "/api/units/0231/hum": () => ({ json: none }) });
  await page.getByLabel("WAV file").setInputFiles({ name: "a.wav", mimeType: "audio/wav", buffer: Buffer.alloc(100) });
  await page.getByLabel("Full scale of the recorder").fill("0,5");
  await page.getByLabel("clean supply").check();
  await page.getByLabel("Frequency of its supply").fill("57");
  await page.getByLabel("Valve in V2").fill("T-118");
  await page.getByLabel("Recorder", { exact: true }).fill("recorder");
  await page.getByLabel("Who writes this down").fill("bench");
  await page.getByRole("button", { name: "Bring it in" }).click();
  await page.getByText("Brought in: recording r1").waitFor();
  expect(sent[0]).toEqual({ path: "/api/recordings", body: { bytes: 100 } });
  expect(entriesOf(sent)[0]).toMatchObject({
    kind: "recording",
    recording: "r1",
    file_sha256: "a".repeat(64),
    fullScale_Vpk: 0.5,
    channels: ["left", "right"],
    supply: { source: "regenerated", frequency_Hz: 57 },
    building_Hz: 50,
    valves: { V1: "T-001", V2: "T-118" },
    input: "shorted",
    instrument: "recorder",
  });
  await page.context().close();
});

test("a scanned barcode opens its unit from anywhere; slow typing outside a field does nothing", async () => {
  const { page } = await atWork("/");
  await page.keyboard.type("0231", { delay: 150 });
  await page.keyboard.press("Enter");
  expect(new URL(page.url()).pathname).toBe("/");
  await page.evaluate(() => {
    for (const key of ["0", "2", "3", "1", "Enter"])
      document.body.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true }));
  });
  await page.getByRole("heading", { name: "Unit 0231" }).waitFor();
  expect(new URL(page.url()).pathname).toBe("/unit/0231");
  expect(await page.title()).toBe("Unit 0231 · Stillglow");
  await page.getByLabel("Serial").fill("0499");
  await page.keyboard.press("Enter");
  await page.getByText("0499; not in the ledger").waitFor();
  await page.context().close();
});

test("every screen shows what the workshop answers", async () => {
  const { page } = await atWork("/");
  await page.getByRole("heading", { name: "Wednesday 25 November 2026" }).waitFor();
  await page.getByRole("link", { name: "Promises" }).click();
  await page
    .getByRole("img", { name: /80 in 100 by Mon/ })
    .first()
    .waitFor();
  await page.getByRole("link", { name: "Units" }).click();
  await page.getByRole("link", { name: /0231/ }).click();
  await page.getByRole("link", { name: "Hum hearing" }).click();
  await page.getByRole("img", { name: /Spectrum of recording r2, left channel: .*57 Hz/ }).waitFor();
  await page.context().close();
});

test("a form is free as soon as the workshop has it; what is worked out anew meanwhile is not shown as new", async () => {
  let folder: Reply | Promise<Reply> = { json: manyGaps };
  const { page, sent } = await atWork("/unit/0231", { "/api/units/0231": () => folder });
  let finish = (_: Reply): void => {};
  folder = new Promise((resolve) => {
    finish = resolve;
  });
  const older = page.getByText("What stands here is still from before.");
  const pencil = () =>
    page.locator("main").evaluate((main) => {
      const styles = getComputedStyle(main);
      return styles.getPropertyValue("--pencil") === styles.getPropertyValue("--graphite") ? "graphite" : "blue";
    });
  expect(await pencil()).toBe("blue");

  const form = page.locator("#readings details[open]").first();
  await form.getByLabel("Who writes this down").fill("bench");
  await form.getByLabel("Reading").first().fill("0,012");
  await form.getByLabel("Doubt, give or take").first().fill("0,004");
  await form.getByRole("button", { name: "Write it down" }).click();
  await page.getByText("Written down for").waitFor();
  expect(entriesOf(sent)).toHaveLength(1);
  expect(await form.getByLabel("Reading").first().inputValue()).toBe("");
  expect(await form.getByRole("button", { name: "Write it down" }).isEnabled()).toBe(true);
  await older.waitFor();
  expect(await pencil()).toBe("graphite");

  finish({ json: manyGaps });
  await older.waitFor({ state: "detached" });
  expect(await pencil()).toBe("blue");
  await page.context().close();
});
