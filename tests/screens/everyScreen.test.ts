import type { BrowserContext, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { decided, spectrumOf } from "../../src/screens/hum/examples.ts";
import { serve, temporaryFolder } from "../helpers.ts";
import { inTurn } from "../inTurn.ts";
import { type Answers, everywhere, head, screens, walkedElsewhere } from "./answers.ts";
import { openScreens, type Screens } from "./page.ts";
import { bench, breaches, phone } from "./walk.ts";

let opened: Screens;
beforeAll(async () => {
  opened = await openScreens("production");
}, 120_000);
afterAll(() => opened?.close());

/** How long a screen may take on a machine that has much else to do. */
const patience_ms = 15_000;

/** Looks at each in turn and says of which something failed, and what. */
async function ofEach<T extends { readonly path: string }>(
  all: readonly T[],
  look: (one: T, find: (what: string) => void) => Promise<void>,
): Promise<readonly string[]> {
  const found: string[] = [];
  for (const one of all) {
    try {
      await look(one, (what) => found.push(`${one.path} ${what}`));
    } catch (fault) {
      found.push(`${one.path}: ${fault instanceof Error ? fault.message : String(fault)}`);
    }
  }
  return found;
}

/** What the page does with a question: answer it, let it wait, or say that something went wrong. */
type Mood = "answers" | "waits" | "fails";

interface Stood {
  readonly page: Page;
  readonly errors: string[];
  /** From now on the workshop answers so; what was waiting is answered. */
  become(mood: Mood, answers?: Answers): Promise<void>;
  /** Goes to a screen within the page, as a link does. */
  go(path: string): Promise<void>;
  close(): Promise<void>;
}

/** The built page before a workshop that answers from examples. */
async function stand(size: { readonly width: number; readonly height: number }): Promise<Stood> {
  const context: BrowserContext = await opened.browser.newContext({ viewport: size, reducedMotion: "reduce" });
  const page = await context.newPage();
  page.setDefaultTimeout(patience_ms);
  const errors: string[] = [];
  page.on("pageerror", ({ message }) => errors.push(message));
  await page.addInitScript(() => {
    // News of a ledger that does not grow.
    window.EventSource = class extends EventTarget {
      close() {}
    } as unknown as typeof EventSource;
    const at = window as unknown as { shifted: number };
    at.shifted = 0;
    new PerformanceObserver((seen) => {
      for (const entry of seen.getEntries()) at.shifted += (entry as unknown as { value: number }).value;
    }).observe({ type: "layout-shift", buffered: true });
  });
  let mood: Mood = "answers";
  let answers: Answers = {};
  let release = () => {};
  let held = Promise.resolve();
  await page.route("**/api/**", async (route) => {
    const pathname = decodeURIComponent(new URL(route.request().url()).pathname);
    const isOwn = pathname !== "/api/workshop" && !(pathname in everywhere);
    if (isOwn && mood === "waits") await held;
    if (isOwn && mood === "fails") {
      return route.fulfill({ status: 500, json: { error: { path: "", message: "The ledger could not be read." } } });
    }
    const [, recording] = /recordings\/([^/]+)\/spectrum$/.exec(pathname) ?? [];
    const json =
      recording !== undefined
        ? spectrumOf(decided, recording, "left")
        : { "/api/workshop": head, ...everywhere, ...answers }[pathname];
    if (json === undefined) {
      const message = `${pathname}; not among what this workshop answers; see answers.ts`;
      return route.fulfill({ status: 422, json: { error: { path: "address", message } } });
    }
    return route.fulfill({ json });
  });
  await page.goto(new URL("/nowhere", opened.address).href);
  await page.locator("main .empty").waitFor();
  return {
    page,
    errors,
    become: async (now, next = answers) => {
      mood = now;
      answers = next;
      release();
      if (now === "waits") {
        held = new Promise((done) => {
          release = done;
        });
      }
    },
    go: (path) => page.evaluate((to) => history.pushState(null, "", to), path),
    close: () => context.close(),
  };
}

const said = async (page: Page, of = "main") => (await page.locator(of).first().allInnerTexts()).join(" ");

/** Waits until the screen stands and nothing of it is being fetched. */
async function untilShown(page: Page): Promise<void> {
  await page.locator("main h1").first().waitFor();
  await page.waitForFunction(() => !document.querySelector("main .waiting, main .trouble"));
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
}

/** Words that no page may show: what a missing figure or name turns into. */
const nonsense = /\b(undefined|NaN|null|Infinity|\[object|Invalid Date)\b/;

/** Screens on which an empty workshop tells its first steps, and those that are of a unit. */
const toBeginWith = ["/", "/promises", "/units"];
const ofUnit = ["/unit/0231", "/unit/0231/hum"];

const asking = screens.filter(({ answers }) => Object.keys(answers).length > 0);

describe("each screen", () => {
  test("says what it waits for, then stands without having jumped", async () => {
    const { page, errors, become, go, close } = await stand(bench);
    const found = await ofEach(inTurn(asking, 2), async ({ path, answers }, find) => {
      await become("answers", {});
      await go("/nowhere");
      await page.getByRole("heading", { name: "No such page" }).waitFor();
      await become("waits", answers);
      await go(path);
      await page.locator("main [role=status]", { hasText: "…" }).first().waitFor();
      await page.evaluate(() => {
        (window as unknown as { shifted: number }).shifted = 0;
      });
      await become("answers");
      await untilShown(page);
      const shifted = await page.evaluate(() => (window as unknown as { shifted: number }).shifted);
      // source: web.dev, "Cumulative Layout Shift": up to 0.1 is good, over 0.25 poor
      if (shifted > 0.1) find(`jumps by ${shifted.toFixed(2)}`);
      const text = await said(page);
      if (text.length < 40) find("is blank");
      if (nonsense.test(text)) find(`says ${nonsense.exec(text)?.[0]}`);
    });
    expect(found).toEqual([]);
    expect(errors).toEqual([]);
    await close();
  }, 300_000);

  test("says what went wrong and asks again when told to", async () => {
    const { page, errors, become, go, close } = await stand(bench);
    const known = new Set<string>();
    const found = await ofEach(inTurn(asking, 2, 1), async ({ path, answers }, find) => {
      // What another screen has fetched already is shown and not asked for.
      const isKnown = known.has(Object.keys(answers)[0]!);
      for (const one of Object.keys(answers)) known.add(one);
      if (isKnown) return;
      await become("answers", {});
      await go("/nowhere");
      await page.getByRole("heading", { name: "No such page" }).waitFor();
      await become("fails", answers);
      await go(path);
      const trouble = page.locator("main .trouble");
      await trouble.first().waitFor();
      if (!(await said(page, "main .trouble")).includes("The ledger could not be read.")) find("does not say what");
      if ((await page.locator("main .waiting").count()) > 0) find("waits as well");
      await become("answers");
      for (let left = 4; left > 0 && (await trouble.count()) > 0; left -= 1) {
        await trouble.first().getByRole("button", { name: "Ask again" }).click();
        await page.waitForTimeout(100);
      }
      await untilShown(page);
    });
    expect(found).toEqual([]);
    expect(errors).toEqual([]);
    await close();
  }, 300_000);

  test("of an empty workshop says so, and what to do first", async () => {
    const { address } = await serve(["serve", "--data", temporaryFolder(), "--no-backup"]);
    const context = await opened.browser.newContext({ viewport: bench, reducedMotion: "reduce" });
    const page = await context.newPage();
    const errors: string[] = [];
    page.on("pageerror", ({ message }) => errors.push(message));
    await page.goto(address);
    page.setDefaultTimeout(patience_ms);
    const all = [...screens.map(({ path }) => path), ...walkedElsewhere].map((path) => ({ path }));
    const found = await ofEach(all, async ({ path }, find) => {
      await page.evaluate((to) => history.pushState(null, "", to), path);
      await page.locator("main h1, main .trouble h1").first().waitFor();
      await page.waitForFunction(() => !document.querySelector("main .waiting"));
      const text = await said(page);
      if (text.length < 80) find(`is blank: ${text}`);
      if (nonsense.test(text)) find(`says ${nonsense.exec(text)?.[0]}`);
      if (toBeginWith.includes(path)) {
        if (!/What to do first[\s\S]*stillglow enter/.test(text)) find("does not say what to do first");
        for (const breach of await breaches(page)) find(breach);
      }
      if (ofUnit.includes(path) && !text.includes("No such unit here")) find("does not say that there is no such unit");
      if ((await page.locator("main").locator("a, button, input, summary, code").count()) === 0) {
        find("leads nowhere");
      }
    });
    expect(found).toEqual([]);
    expect(errors).toEqual([]);
    await context.close();
  }, 300_000);
});

/** Where the keys stand: whether it can be seen, and that it shows. */
const here = () => {
  const one = document.activeElement as HTMLElement;
  const box = one.getBoundingClientRect();
  const isRinged = (at: Element) => {
    const { outlineStyle, outlineWidth } = getComputedStyle(at);
    return outlineStyle !== "none" && Number.parseFloat(outlineWidth) >= 2;
  };
  return {
    isInMain: one.closest("main") !== null && one.tagName !== "MAIN",
    isRinged: isRinged(one) || [...one.children].some(isRinged),
    isInView: box.bottom > 0 && box.top < window.innerHeight,
    html: one.outerHTML.slice(0, 110),
  };
};

/** More stops than any page has. */
const most = 250;

/** What the keys must reach within the page: of radio buttons one of each group. */
const stopsIn = () => {
  const all = [
    ...document.querySelectorAll<HTMLElement>(
      "main :is(a[href], button, input, select, textarea, summary, [tabindex]):not([disabled], [tabindex='-1'], [type=hidden])",
    ),
  ].filter((one) => one.checkVisibility({ checkVisibilityCSS: true }) && one.getClientRects().length > 0);
  const groups = new Set<string>();
  return all.filter((one) => {
    if (!(one instanceof HTMLInputElement) || one.type !== "radio") return true;
    if (groups.has(one.name)) return false;
    groups.add(one.name);
    return true;
  }).length;
};

/** Screens that are worked with in one hand; the others are walked at the bench. */
const inHand = /^\/(unit\/0231.*|promises|timber|valves\/.*)?$/;

describe("by keys alone", () => {
  test.each([
    ["on a phone", phone, screens.filter(({ path }) => inHand.test(path))],
    ["at the bench", bench, screens.filter(({ path }) => !inHand.test(path))],
  ] as const)(
    "%s every control of every screen is reached, in order, seen, and left again",
    async (_, size, walked) => {
      const { page, errors, become, go, close } = await stand(size);
      const found = await ofEach(inTurn(walked, 2), async ({ path, answers }, find) => {
        await become("answers", answers);
        await go(path);
        await untilShown(page);
        await page.evaluate(() => {
          document.querySelector<HTMLElement>("main")?.focus({ preventScroll: true });
          window.scrollTo(0, 0);
        });
        let reached = 0;
        for (; reached < most; reached += 1) {
          await page.keyboard.press("Tab");
          const at = await page.evaluate(here);
          if (!at.isInMain) break;
          if (!at.isRinged) find(`has no ring on ${at.html}`);
          if (!at.isInView) find(`has out of sight ${at.html}`);
        }
        const wanted = await page.evaluate(stopsIn);
        if (reached < wanted) find(`reached ${reached} of ${wanted} controls`);
        await page.keyboard.press("Shift+Tab");
        if (wanted > 0 && !(await page.evaluate(here)).isInMain) find("has no way back");
        const turned = await page.evaluate(() =>
          [...document.querySelectorAll<HTMLElement>("main *")]
            .filter((one) => one.tabIndex > 0 || getComputedStyle(one).order !== "0")
            .map((one) => one.outerHTML.slice(0, 90)),
        );
        for (const html of turned) find(`has out of its order ${html}`);
      });
      expect(found).toEqual([]);
      expect(errors).toEqual([]);
      await close();
    },
    300_000,
  );

  test("a code scanned into a reading opens what it names and leaves the reading; a figure typed as fast stays", async () => {
    const { page, errors, become, go, close } = await stand(bench);
    const card = screens.find(({ path }) => path === "/unit/0231/probe")!;
    const answers = { ...card.answers, "/api/codes/T-118": { path: "/people" } };
    await become("answers", answers);
    await go(card.path);
    await untilShown(page);
    const reading = page.getByLabel("Reading").first();
    await reading.fill("0,3");
    await reading.focus();
    await scan(page, "T-118");
    await page.waitForURL("**/people");
    await go(card.path);
    await untilShown(page);
    expect(await reading.inputValue()).toBe("0,3");
    await reading.focus();
    // An instrument that types its reading as a keyboard does is no scanner.
    await reading.fill("");
    await scan(page, "41.5");
    expect(new URL(page.url()).pathname).toBe(card.path);
    expect(await reading.inputValue()).toBe("41.5");
    // What names nothing stands as it was typed.
    await reading.fill("");
    await scan(page, "X-999");
    await page.getByText("is not a number", { exact: false }).first().waitFor();
    expect(await reading.inputValue()).toBe("X-999");
    // From anywhere else: the keys stand on a button, and it is not pressed.
    await page.getByRole("button", { name: "Write it down" }).focus();
    await scan(page, "T-118");
    await page.waitForURL("**/people");
    expect(errors).toEqual([]);
    await close();
  }, 300_000);
});

/** Keys as a scanner sends them, within one turn of the page: no machine is too busy for them to look fast. */
const scan = (page: Page, code: string) =>
  page.evaluate((typed) => {
    const one = document.activeElement as HTMLElement;
    // Made at once, as their times are the scanner's and not those at which a busy page gets round to them.
    const presses = [...typed, "Enter"].map(
      (key) => new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true }),
    );
    for (const press of presses) {
      if (!one.dispatchEvent(press) || !(one instanceof HTMLInputElement)) continue;
      if (press.key === "Enter") one.form?.requestSubmit();
      else document.execCommand("insertText", false, press.key);
    }
  }, code);
