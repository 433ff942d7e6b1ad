// node --import tsx scripts/years.ts [--data FOLDER] [--years 10] [--only open|screens|actions] [--times 5] [--page]
// Opens a shop of years with the real server, looks at every screen in a real browser, does every kind of work, and says
// how long each took beside what bare references took at the same time on the same machine. A folder that is named is
// copied; without one the years are made first. With --page the result goes into docs/growing.md.
import { execFileSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { cpus, loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { openBrowser, readyPage } from "../tests/screens/page.ts";
import { type Started, serverAt } from "../tests/serverAt.ts";
import { reachedWith } from "./reliabilityPage.ts";
import { everyAction } from "./years/actions.ts";
import { type Bare, bareReferences } from "./years/bare.ts";
import { type Looked, lookAt } from "./years/look.ts";
import { pathsOf } from "./years/paths.ts";
import { middleAnd95, spread } from "./years/spread.ts";

const { values } = parseArgs({
  options: {
    data: { type: "string" },
    years: { type: "string", default: "10" },
    only: { type: "string" },
    times: { type: "string", default: "5" },
    page: { type: "boolean", default: false },
  },
});
const times = Number(values.times);
const command = join(import.meta.dirname, "..", "bin", "stillglow");
const room = mkdtempSync(join(tmpdir(), "stillglow-years-"));
const folder = join(room, "shop");
const wanted = { paint_ms: 300, action_ms: 100, page_kB: 250 };
const when = values.page ? reachedWith() : "";
/** What was found, part by part; parts that were not asked for stand on the page as they were. */
const parts = new Map<string, string[]>();
let told: string[] = [];
const begin = (part: string) => {
  told = [];
  parts.set(part, told);
  process.stdout.write(`\n### ${part}\n\n`);
};
const say = (line = "") => {
  told.push(line);
  process.stdout.write(`${line}\n`);
};
const is = (part: string) => values.only === undefined || values.only === part;

try {
  if (values.data === undefined) made();
  else cpSync(values.data, folder, { recursive: true });
  if (is("screens")) readyPage();
  const bare = await bareReferences(room);
  const server = await opening(bare);
  try {
    if (is("screens")) {
      await screens(server, bare);
    }
    if (is("actions")) await actions(server, bare);
    say(`Memory in the end: ${memory_MB(server, "VmRSS")} MB, at most ${memory_MB(server, "VmHWM")} MB.`);
  } finally {
    await bare.stop();
    await server.stop();
  }
  if (is("open")) copies();
  if (values.page) write();
} finally {
  rmSync(room, { recursive: true, force: true });
}

function made(): void {
  const begun = performance.now();
  execFileSync(process.execPath, [command, "demo", "--years", values.years, "--once", "--json", "--data", folder], {
    stdio: ["ignore", "ignore", "inherit"],
  });
  say(`Made in ${Math.round((performance.now() - begun) / 1000)} s.`);
}

/** From starting the command until it says where it is, and until the first question is answered. */
async function opening(bare: Bare): Promise<Started> {
  begin("Opening");
  const begun = performance.now();
  const server = await serverAt({ folder });
  const open_ms = performance.now() - begun;
  const { entries, units } = await head(server.address);
  const answered_ms = performance.now() - begun;
  say(
    `${entries.toLocaleString("en")} entries, ${units.toLocaleString("en")} units; ledger ${size_MB(join(folder, "stillglow.db"))} MB.`,
  );
  await atRest(server);
  const rest_ms = performance.now() - begun;
  say(
    `Open after ${seconds(open_ms)}, first answer after ${seconds(answered_ms)}; an empty shop opens in ${seconds(bare.emptyShop_ms)}. What is worked out beforehand is done after ${seconds(rest_ms)}. Memory then ${memory_MB(server, "VmRSS")} MB.`,
  );
  say();
  return server;
}

/** Waits until the server has nothing left to do by itself: less than a twentieth of its time for three seconds on end. */
async function atRest({ process: { pid } }: Started): Promise<void> {
  const ticks = () => {
    const fields = readFileSync(`/proc/${pid}/stat`, "utf8").split(") ")[1]!.split(" ");
    return Number(fields[11]) + Number(fields[12]);
  };
  for (let calm = 0; calm < 3; ) {
    const before = ticks();
    await new Promise((done) => setTimeout(done, 1000));
    calm = ticks() - before <= 5 ? calm + 1 : 0;
  }
}

async function head(address: string): Promise<{ entries: number; units: number }> {
  const shop = (await (await fetch(new URL("/api/workshop", address))).json()) as { unitsInAll: number };
  const events = await fetch(new URL("/api/events", address));
  const reader = events.body!.getReader();
  const first = new TextDecoder().decode((await reader.read()).value);
  await reader.cancel();
  return {
    entries: (JSON.parse(first.slice(first.indexOf("{"))) as { entries: number }).entries,
    units: shop.unitsInAll,
  };
}

async function screens(server: Started, bare: Bare): Promise<void> {
  begin("Screens");
  say(
    "| screen | asks | server, median and 95th | first after a writing | held anew after | bare server, same bytes | paint | stands | kB |",
  );
  say("|---|---|---|---|---|---|---|---|---|");
  const all: Looked[] = [];
  for (const path of await pathsOf(server.address)) {
    // One that had opened and closed hundreds of pages would itself be slower.
    const browser = await openBrowser();
    const looked = await lookAt(browser, server.address, path, times).finally(() => browser.close());
    all.push(looked);
    const alike = await bare.answering(looked.largest_bytes, times * 4);
    say(
      `| ${path} | ${looked.asks} | ${middleAnd95(looked.server_ms)} | ${Math.round(looked.afterWriting_ms)} ms | ${looked.holds_ms === undefined ? "" : `${Math.round(looked.holds_ms)} ms`} | ${middleAnd95(alike)} | ${middleAnd95(looked.paint_ms)} | ${middleAnd95(looked.stands_ms)} | ${(looked.transferred_bytes / 1000).toFixed(0)} |`,
    );
  }
  say();
  const slow = (what: string, too: readonly Looked[]) =>
    say(`${what}: ${too.length === 0 ? "none" : too.map(({ path }) => path).join(", ")}.`);
  slow(
    `Screens that paint later than ${wanted.paint_ms} ms (95th)`,
    all.filter(({ paint_ms }) => spread(paint_ms).p95 > wanted.paint_ms),
  );
  slow(
    `Screens whose slowest question takes the server more than ${wanted.paint_ms} ms (95th)`,
    all.filter(({ server_ms }) => spread(server_ms).p95 > wanted.paint_ms),
  );
  slow(
    `Screens whose slowest question takes the server more than ${wanted.paint_ms} ms first after a writing`,
    all.filter(({ afterWriting_ms }) => afterWriting_ms > wanted.paint_ms),
  );
  say(
    "Where a time stands under “held anew”, the page showed at first how things stood before the writing, said so, and the answer that holds came so long after the page was asked for.",
  );
  say(
    `First screen, all that it fetches, compressed: ${(all[0]!.transferred_bytes / 1000).toFixed(0)} kB (wanted: under ${wanted.page_kB}).`,
  );
  say();
}

async function actions(server: Started, bare: Bare): Promise<void> {
  begin("Actions");
  say("| action | server, median and 95th |");
  say("|---|---|");
  const all: { readonly what: string; readonly taken_ms: readonly number[] }[] = [];
  for await (const { what, taken_ms, fault } of everyAction(server.address, times)) {
    if (fault === undefined) all.push({ what, taken_ms });
    say(`| ${what} | ${fault ?? middleAnd95(taken_ms)} |`);
  }
  say();
  say(`A bare insert of a row with the same flush to disk: ${middleAnd95(await bare.inserting(200))}.`);
  const slow = all.filter(({ taken_ms }) => spread(taken_ms).p95 > wanted.action_ms);
  say(
    `Actions over ${wanted.action_ms} ms (95th): ${slow.length === 0 ? "none" : slow.map(({ what }) => what).join(", ")}.`,
  );
  say();
}

function copies(): void {
  begin("Copies");
  for (const [what, args] of [
    ["Backup", ["backup", join(room, "copies"), "--data", folder]],
    ["Verify", ["verify", "--data", folder]],
  ] as const) {
    const begun = performance.now();
    execFileSync(process.execPath, [command, ...args], { stdio: "ignore" });
    say(`${what}: ${seconds(performance.now() - begun)}.`);
  }
}

function write(): void {
  const file = join(import.meta.dirname, "..", "docs", "growing.md");
  const title = "## Ten years of a shop";
  const [before, after = ""] = readFileSync(file, "utf8").split(title) as [string, string?];
  const kept = new Map(
    after
      .split("\n### ")
      .slice(1)
      .map((part) => [part.split("\n")[0]!, part] as const),
  );
  const conditions = `${when}; ${cpus().length} cores, load average ${loadavg()[0]!.toFixed(1)} at the end.`;
  for (const [part, lines] of parts) {
    kept.set(part, `${part}\n\n${conditions}\n\n${lines.join("\n").trim()}`);
  }
  const all = [...kept.values()].map((part) => `### ${part.trimEnd()}\n`).join("\n");
  writeFileSync(
    file,
    `${before.trimEnd()}\n\n${title}\n\nBy \`node --import tsx scripts/years.ts --page\`, part by part with \`--only\`.\n\n${all}`,
  );
}

function memory_MB(server: Started, which: "VmRSS" | "VmHWM"): number {
  const status = readFileSync(`/proc/${server.process.pid}/status`, "utf8");
  return Math.round(Number(new RegExp(`${which}:\\s+(\\d+)`).exec(status)?.[1] ?? 0) / 1024);
}

function size_MB(file: string): number {
  return Math.round(statSync(file).size / 1e6);
}

function seconds(taken_ms: number): string {
  return `${(taken_ms / 1000).toFixed(1)} s`;
}
