import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { gaugeNone, gaugeUsual } from "../../src/screens/instruments/studyExamples.ts";
import { listed, shown, sits } from "../../src/screens/listening/examples.ts";
import { answer, options, ordering } from "../../src/screens/promises/whatIfExamples.ts";
import { usual } from "../../src/screens/soaks/examples.ts";
import { workshop } from "../../src/screens/units/examples.ts";
import { openPage, openScreens, type Screens } from "./page.ts";

let screens: Screens;
beforeAll(async () => {
  screens = await openScreens("production");
}, 120_000);
afterAll(() => screens?.close());

interface Sent {
  readonly path: string;
  readonly body: Record<string, unknown>;
}

/** The built page before a workshop that answers from examples; what it was sent is kept. */
async function at(path: string, answers: Readonly<Record<string, () => unknown>>) {
  const { page, errors } = await openPage(screens.browser, 1280);
  await page.addInitScript(() => {
    window.EventSource = class extends EventTarget {
      close() {}
    } as unknown as typeof EventSource;
  });
  const sent: Sent[] = [];
  await page.route("**/api/**", async (route) => {
    const request = route.request();
    const pathname = decodeURIComponent(new URL(request.url()).pathname);
    const isPost = request.method() === "POST";
    if (isPost) sent.push({ path: pathname, body: request.postDataJSON() });
    const known: Readonly<Record<string, () => unknown>> = {
      "/api/workshop": () => workshop,
      "/api/evidence": () => ({ entries: [] }),
      ...answers,
    };
    const reply = known[isPost ? `POST ${pathname}` : pathname] ?? known[pathname];
    if (reply) return route.fulfill({ json: reply() });
    return route.fulfill({ status: 404, json: { error: { path: "page", message: `${pathname} is not answered` } } });
  });
  await page.goto(new URL(path, screens.address).href);
  await page.locator("h1").waitFor();
  return { page, sent, errors };
}

const written = (sent: readonly Sent[]) =>
  sent.filter(({ path }) => path === "/api/evidence").flatMap(({ body }) => body.entries as Record<string, unknown>[]);
const button = (page: Page, name: string) => page.getByRole("button", { name, exact: true });

test("a blind series is planned, answered trial by trial, a slip put right, and closed with a reason", async () => {
  const { page, sent, errors } = await at("/listening", {
    "/api/listening": () => listed,
    "POST /api/listening": () => ({ entry: { body: { series: sits.series, trials: sits.trials } } }),
    [`/api/listening/${sits.series}`]: () => sits,
    [`/api/listening/${sits.series}/answers/listener 2`]: () => ({
      ids: Array.from({ length: 10 }, (_, i) => `a${i}`),
    }),
  });
  const seal = button(page, "Draw the lot and seal it");
  await seal.click();
  await page.getByText("Give two different versions, at least one listener").waitFor();
  expect(sent).toEqual([]);
  const plan = page.getByRole("form", { name: "Plan a series" });
  await plan.getByLabel("Listeners", { exact: true }).fill("listener 2\nlistener 3");
  await plan.getByLabel("A listener worth finding is right in").fill("72,5");
  await plan.getByLabel("typed in").check();
  await plan.getByLabel("First version, dB").fill("-20,01");
  await plan.getByLabel("Second version, dB").fill("-19.99");
  await plan.getByLabel("Who writes this down").fill("owner");
  await seal.click();
  await page.getByRole("heading", { name: sits.series }).waitFor();
  expect(sent[0]).toMatchObject({
    path: "/api/listening",
    body: {
      by: "owner",
      model: "Neap",
      versions: ["A", "C"],
      asked: "difference",
      listeners: ["listener 2", "listener 3"],
      heard: 0.725,
      match: { first_dB: -20.01, second_dB: -19.99, doubt_dB: 0.03, shared_dB: 0.02 },
    },
  });

  await page.getByRole("link", { name: "Take answers" }).click();
  await page.getByRole("heading", { name: "Trial 10 of 23" }).waitFor();
  // Before the listener stands nothing that tells what is played.
  expect(await page.locator("article").textContent()).not.toMatch(/version [AC]/);
  await button(page, "B").click();
  await page.getByText("Trial 10 is written down.").waitFor();
  await button(page, "A slip of the hand: answer the last trial again").click();
  await button(page, "A").click();
  await page.getByRole("heading", { name: "Trial 11 of 23" }).waitFor();
  const given = { kind: "listening-answer", series: sits.series, listener: "listener 2", trial: 10 };
  expect(written(sent)).toEqual([
    expect.objectContaining({ ...given, answer: "second" }),
    expect.objectContaining({ ...given, answer: "first", supersedes: "a9" }),
  ]);

  await page.getByRole("link", { name: "The series" }).click();
  await page.getByLabel("Why it is stopped before all have answered").fill("listener 8 did not come");
  await button(page, "Close the series").click();
  await page.getByText("The series is closed.").waitFor();
  expect(written(sent).at(-1)).toMatchObject({
    kind: "listening-close",
    series: sits.series,
    why: "listener 8 did not come",
    by: "owner",
  });
  expect(errors).toEqual([]);
  await page.context().close();
}, 60_000);

test("a closed series says what it showed and takes no answer", async () => {
  const { page } = await at(`/listening/${encodeURIComponent(shown.series)}`, {
    [`/api/listening/${shown.series}`]: () => shown,
  });
  await page.getByRole("heading", { name: "What it showed" }).waitFor();
  expect(await page.getByRole("link", { name: "Take answers" }).count()).toBe(0);
  expect(await button(page, "Close the series").count()).toBe(0);
  await page.context().close();
}, 60_000);

test("a run is begun at its place and ended with what failed in it; hours that are none are refused", async () => {
  const { page, sent, errors } = await at("/soaks", { "/api/soaks": () => usual });
  const begin = page.locator("form.begin");
  await begin.getByLabel("Hours until it is ripe").fill("two days");
  await begin.getByLabel("Who writes this down").fill("woodworker");
  await begin.getByRole("button", { name: "It is begun" }).click();
  await begin.getByText("Give what, where and for how many hours.").waitFor();
  expect(sent).toEqual([]);
  await begin.getByLabel("Hours until it is ripe").fill("36,5");
  await begin.getByLabel("Slot").fill("2");
  await begin.getByRole("button", { name: "It is begun" }).click();
  await begin.getByText("0590 goes on by itself").waitFor();

  const run = page.getByRole("listitem").filter({ hasText: "0422 (slot 1)" });
  await run.locator("summary").click();
  await run.getByLabel("failed").check();
  await run.getByRole("combobox").selectOption("0423");
  await run.getByLabel(/hour/i).last().fill("3,2");
  await run.getByLabel("What failed").fill("dry joint");
  await run.getByLabel("Who writes this down").fill("woodworker");
  await run.getByRole("button").last().click();
  await expect.poll(() => written(sent).length).toBe(2);
  expect(written(sent)).toEqual([
    expect.objectContaining({
      ...{ kind: "begun", units: ["0590"], valves: [], step: "plate", place: "hot plate", slot: 2, hours: 36.5 },
      by: "woodworker",
    }),
    expect.objectContaining({
      ...{ kind: "ended", run: "rack 61", things: ["0423"], outcome: "failed", hours: 3.2, fault: "dry joint" },
    }),
  ]);
  expect(errors).toEqual([]);
  await page.context().close();
}, 60_000);

test("a gauge study is typed in with commas, worked out, and written down; a gap is named before", async () => {
  const { result } = gaugeUsual.studies[0]!;
  const { page, sent } = await at("/instruments/gauge", {
    "/api/gauge-studies": () => gaugeNone,
    "/api/calc/measurement.gauge": () => result,
  });
  await page.getByLabel("Instrument").fill("Valve tester");
  await page.getByLabel("What it reads").fill("plate_mA");
  await page.getByLabel("Parts, by their numbers").fill("T-1, T-2");
  await page.getByLabel("People who read").fill("bench technician, owner");
  const readings: [string, string, number, string, number][] = [];
  for (const [part, base] of [
    ["T-1", 8],
    ["T-2", 9],
  ] as const) {
    for (const who of ["bench technician", "owner"]) {
      for (const nth of [1, 2]) readings.push([part, who, nth, `${base},0${nth}`, base + nth / 100]);
    }
  }
  for (const [part, who, nth, text] of readings.slice(1)) {
    await page.getByLabel(`${part}, ${who}, reading ${nth}`).fill(text);
  }
  await button(page, "Work it out").click();
  await page.getByText("Fill in every field").waitFor();
  expect(sent).toEqual([]);
  await page.getByLabel("T-1, bench technician, reading 1").fill(readings[0]![3]);
  await button(page, "Work it out").click();
  await page.getByLabel("Written down by").fill("owner");
  await button(page, "Write the study down").click();
  await expect.poll(() => written(sent).length).toBe(1);
  expect(written(sent)[0]).toMatchObject({
    kind: "gauge-study",
    instrument: "valve-tester",
    quantity: "plate_mA",
    readings: readings.map(([part, operator, , , value]) => expect.objectContaining({ part, operator, value })),
  });
  await page.context().close();
}, 60_000);

test("each kind of change is asked as it was typed, and its answer told", async () => {
  const { page, sent } = await at("/promises/what-if", {
    "/api/promises/what-if": () => options,
    "POST /api/promises/what-if": () => answer,
    "/api/promises/ordering": () => ({ ready: ordering }),
  });
  const work = button(page, "Work it out");
  const form = page.locator("form.change-form");
  await form.getByLabel("Place", { exact: true }).selectOption("hot plate");
  await work.click();
  await form.getByLabel("A day off").check();
  await work.click();
  await page.getByText("Needed").or(form.locator(".field-error")).first().waitFor();
  await form.getByLabel("Day", { exact: true }).fill("2027-03-17");
  await work.click();
  await form.getByLabel("A rush order").check();
  await form.getByLabel("Units", { exact: true }).fill("2");
  await form.getByLabel("Wanted by", { exact: true }).fill("2027-04-01");
  await work.click();
  await form.getByLabel("A unit fails").check();
  await form.getByLabel("Fails at", { exact: true }).selectOption("case");
  await work.click();
  await expect.poll(() => sent.length).toBe(4);
  expect(sent.map(({ body }) => body.changes)).toEqual([
    [{ kind: "place", place: "hot plate", slots: 1 }],
    [{ kind: "holiday", date: "2027-03-17" }],
    [{ kind: "rush", model: "Ebb", units: 2, due: "2027-04-01" }],
    [{ kind: "fail", unit: "0431", step: "case" }],
  ]);
  await page.getByText(answer.words).waitFor();
  await page.context().close();
}, 60_000);
