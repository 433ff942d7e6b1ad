import { spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { networkInterfaces } from "node:os";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { at, Book } from "../../src/claims/testing/smallShop.ts";
import { openStore } from "../../src/store/index.ts";
import { People } from "../../src/store/people.ts";
import { secretOf } from "../../src/workshop/people/passphrase.ts";
import { keptFolder, serve, stillglow } from "../helpers.ts";
import { isTooWide, openBrowser, readyPage } from "./page.ts";
import { bench, breaches, phone, smallTargets } from "./walk.ts";

/** Light to try, as what is looked at here is not how long it takes; kept anew at the usual cost on the way in. */
const lightCost = { log2N: 4, r: 8, p: 1 };
const folder = join(keptFolder(), "workshop");
const passphrases = {
  holder: "a kettle on the harbour wall",
  "bench-2": "solder smells of pine trees",
} as const;
let browser: Browser;
let address: string;
let stop: (() => Promise<void>) | undefined;
let said: string;

beforeAll(async () => {
  readyPage();
  browser = await openBrowser();
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, "workshop.json"), JSON.stringify({ title: "A small shop", ownDate: at(30) }));
  const store = await openStore(folder, { write: true, clock: () => at(29) });
  const book = Book.opened();
  book.proveAll(1);
  await store.append(book.entries.map(({ id, at: when, by, body }) => ({ id, at: when, by, ...body })));
  const people = new People(store.engine);
  for (const [person, may] of [
    ["holder", "owner"],
    ["bench-2", "measure"],
  ] as const) {
    await people.put({ person, name: `Name of ${person}`, secret: await secretOf(passphrases[person], lightCost) });
    await store.append([{ at: at(29), by: "holder", kind: "person", person, may }]);
  }
  await store.close();
  ({ address, stop, said } = await serve(["serve", "--data", folder, "--listen", "0.0.0.0", "--no-backup"], {
    kept: true,
  }));
  // The first name that it tells may be one that only a shop's own network knows.
  address = `https://127.0.0.1:${new URL(address).port}`;
});
afterAll(async () => {
  await browser?.close();
  await stop?.();
});

const newContext = (size = bench) =>
  browser.newContext({ viewport: size, reducedMotion: "reduce", ignoreHTTPSErrors: true, permissions: ["microphone"] });

test("whoever measures signs in, writes under their own name, may not release; the owner does", async () => {
  const context = await newContext();
  const page = await context.newPage();
  page.setDefaultTimeout(60_000);
  const signIn = async (person: keyof typeof passphrases) => {
    await page.getByLabel("Who signs in").fill(person);
    await page.getByLabel("Passphrase", { exact: true }).fill(passphrases[person]);
    await page.keyboard.press("Enter");
    await page.getByText(`Signed in: Name of ${person}`).waitFor();
  };
  await page.goto(`${address}/unit/0101`);
  await page.getByRole("heading", { name: "Sign in" }).waitFor();
  expect(await breaches(page)).toEqual([]);
  expect(await page.getByText("0101").count()).toBe(0);
  await page.setViewportSize(phone);
  expect([await isTooWide(page), await smallTargets(page)]).toEqual([false, []]);
  await page.setViewportSize(bench);
  await page.getByLabel("Who signs in").fill("bench-2");
  await page.getByLabel("Passphrase", { exact: true }).fill("a wrong one");
  await page.keyboard.press("Enter");
  await page.getByText("That person and passphrase do not belong together").waitFor();
  await signIn("bench-2");

  // On the page that was asked for.
  await page.getByRole("heading", { name: /0101/ }).first().waitFor();
  const release = page.locator("#release");
  await release.getByText("This is for people who release: Name of holder.").waitFor();
  expect(await release.getByRole("button", { name: /release/i }).count()).toBe(0);
  const refused = await page.evaluate(async () => {
    const answer = await fetch("/api/units/0101/release", {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: "{}",
    });
    return answer.status;
  });
  expect(refused).toBe(403);

  await page.goto(`${address}/instruments`);
  const meter = page.getByRole("listitem").filter({ has: page.getByRole("heading", { name: "meter", exact: true }) });
  await meter.getByText("Enter a trial").click();
  await meter.getByLabel("It reads").fill("10,001");
  await meter.getByLabel("Doubt of that reading").fill("0.01");
  await meter.getByText("Name of bench-2").waitFor();

  // The session ends elsewhere; what was typed stays, and goes out after signing in again.
  const cookies = await context.cookies();
  await context.clearCookies();
  await meter.getByRole("button", { name: "Write the trial down" }).click();
  const sheet = page.getByRole("dialog", { name: "You were signed out in between" });
  await sheet.waitFor();
  expect(await breaches(page)).toEqual([]);
  await sheet.getByLabel("Passphrase", { exact: true }).fill(passphrases["bench-2"]);
  await page.keyboard.press("Enter");
  await sheet.waitFor({ state: "detached" });
  expect(await meter.getByLabel("It reads").inputValue()).toBe("10,001");
  await meter.getByRole("button", { name: "Write the trial down" }).click();
  await meter
    .getByText(/written down/i)
    .first()
    .waitFor();
  expect(cookies[0]).toMatchObject({ name: "__Host-stillglow", httpOnly: true, secure: true, sameSite: "Strict" });

  await page.getByRole("button", { name: "Sign out" }).click();
  await page.getByRole("heading", { name: "Sign in" }).waitFor();
  await page.goto(`${address}/unit/0101`);
  await signIn("holder");
  await release.getByRole("button", { name: /release/i }).click();
  await release
    .getByText(/released|proof/i)
    .first()
    .waitFor();
  await page.goto(`${address}/people`);
  await page.getByRole("heading", { name: "Enter somebody" }).waitFor();
  expect(await breaches(page)).toEqual([]);
  await page.setViewportSize(phone);
  expect([await isTooWide(page), await smallTargets(page)]).toEqual([false, []]);
  await context.close();

  const store = await openStore(folder, { write: false });
  const trial = store.evidence({ kind: "trial" }).at(-1)!;
  expect([trial.by, trial.body]).toMatchObject(["bench-2", { value: 10.001 }]);
  expect(store.evidence({ kind: "release" }).map(({ by }) => by)).toEqual(["holder"]);
  await store.close();
});

test("another machine may take sound over the workshop's own certificate, whose fingerprint it can compare", async () => {
  const context = await newContext();
  const page = await context.newPage();
  // By an address of this machine that others know it by too, where it has one.
  const outside = Object.values(networkInterfaces())
    .flatMap((all) => all ?? [])
    .find(({ internal, family }) => !internal && family === "IPv4")?.address;
  await page.goto(`https://${outside ?? "127.0.0.1"}:${new URL(address).port}/`);
  await page.getByRole("heading", { name: "Sign in" }).waitFor();
  const sound = await page.evaluate(async () => {
    const heard = await navigator.mediaDevices?.getUserMedia({ audio: true }).then(
      (stream) => stream.getAudioTracks().length,
      (fault: Error) => fault.name,
    );
    return { isSecure: window.isSecureContext, mayAsk: typeof navigator.mediaDevices?.getUserMedia, heard };
  });
  // A machine without a microphone finds none; it is not forbidden to look.
  expect(sound).toMatchObject({ isSecure: true, mayAsk: "function" });
  expect([1, "NotFoundError"]).toContain(sound.heard);
  await context.close();
  // source: the fingerprint as OpenSSL tells it of the file
  const pem = join(folder, "https", "certificate.pem");
  const told = spawnSync("openssl", ["x509", "-in", pem, "-noout", "-fingerprint", "-sha256"], { encoding: "utf8" });
  const own = said.match(/(?:[0-9A-F]{2}:){31}[0-9A-F]{2}/)?.[0];
  expect(own).toBeDefined();
  if (told.status === 0) expect(told.stdout).toContain(own);
  expect(statSync(join(folder, "https", "key.pem")).mode & 0o777).toBe(0o600);
  expect(statSync(join(folder, "local.token")).mode & 0o777).toBe(0o600);
});

test("plain HTTP gets nothing on the network, and a command of this machine still acts, under a person", async () => {
  const port = new URL(address).port;
  await expect(fetch(`http://127.0.0.1:${port}/api/workshop`)).rejects.toThrow();
  const entry = {
    at: at(29),
    by: "bench-2",
    kind: "headphone",
    headphone: "h9",
    impedance_ohm: 32,
    sensitivity_dB_per_V: 110,
  };
  const entered = stillglow(["enter", "--data", folder, "--json"], JSON.stringify(entry));
  expect([entered.status, entered.stderr]).toEqual([0, ""]);
  expect(JSON.parse(entered.stdout)[0].by).toBe("bench-2");
  // Whoever can't read the token gets in no more than any stranger.
  const { commands } = JSON.parse(readFileSync(join(folder, "lock.json"), "utf8")) as { commands: string };
  expect((await fetch(new URL("/api/people", commands))).status).toBe(401);
  const added = stillglow(
    ["people", "add", "visitor", "--name", "A visitor", "--may", "look", "--data", folder],
    "only here to look\n",
  );
  expect([added.status, added.stderr]).toEqual([0, ""]);
});
