// node --import tsx scripts/calibrate.ts [--draws N] [--only NAME,NAME] [--seed WORD] [--from N] [--seconds N]
//   [--lanes N] [--dry]
// Holds what calculations say, intervals and odds, against truths drawn afresh; writes its side of docs/accuracy.md.
// --only takes names or beginnings of names; --seconds ends each calculation's draws after so many seconds of the
// processor, and the page says how many were made; --lanes makes draws in so many processes; --dry writes nothing. A
// draw follows from name, seed and number, so that one that misses is made again with --from. Draws are kept as they
// are made: with the same seed at the same revision, a run that was ended goes on where it was.
import { execFileSync, fork } from "node:child_process";
import { appendFileSync, existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { shareInterval } from "../src/maths/statistics/index.ts";
import { calibrations } from "../tests/calibration/calibrations.ts";
import { countsOf, type Draw, oneDraw, verdictOn } from "../tests/calibration/count.ts";
import { sectionWith, withSection } from "../tests/calibration/page.ts";
import { remarks } from "../tests/calibration/remarks.ts";
import type { Calibration } from "../tests/calibration/trial.ts";

/** What a lane is asked to draw, and what it answers; it ends when told to disconnect. */
interface Made extends Draw {
  readonly used_s: number;
}

const { values } = parseArgs({
  options: {
    draws: { type: "string", default: "2000" },
    only: { type: "string", default: "" },
    seed: { type: "string", default: new Date().toISOString().slice(0, 10) },
    from: { type: "string", default: "0" },
    seconds: { type: "string", default: "Infinity" },
    lanes: { type: "string", default: "1" },
    dry: { type: "boolean", default: false },
    lane: { type: "boolean", default: false },
  },
});
const root = join(import.meta.dirname, "..");
const page = join(root, "docs", "accuracy.md");
const asked = askedFor(values.only);
await (values.lane ? drawAsTold(asked[0]!) : holdAll());

function askedFor(only: string): readonly Calibration[] {
  const words = only.split(",");
  const found = calibrations.filter(({ of }) =>
    words.some((word) => (calibrations.some((one) => one.of === word) ? of === word : of.startsWith(word))),
  );
  if (found.length === 0) throw new Error(`no calculation that estimates begins with ${only}`);
  return found;
}

async function holdAll(): Promise<void> {
  const git = (...args: string[]) => execFileSync("git", args, { cwd: root, encoding: "utf8" }).trim();
  const revision = git("rev-parse", "--short=12", "HEAD");
  // Draws of a tree that no revision names are not another one's.
  const isNamed = git("status", "--porcelain", "--untracked-files=no", "src", "tests") === "";
  for (const { of } of asked) {
    const kept = join(root, ".stillglow", "draws", `${of} ${values.seed} ${revision}.jsonl`);
    const made = await drawnInLanes(of, isNamed ? kept : undefined);
    const used_s = made.reduce((sum, draw) => sum + draw.used_s, 0);
    process.stdout.write(`${of}: ${made.length} draws, ${used_s.toFixed(1)} s of the processor\n`);
    const counts = countsOf(of, made);
    for (const count of counts) {
      const { what, isTrue, count: all, stated, misses } = count;
      const { low, high } = shareInterval(isTrue, all);
      const share = (value: number) => (100 * value).toFixed(1);
      process.stdout.write(
        `  ${verdictOn(count).padEnd(15)} ${isTrue}/${all} ${share(isTrue / all)} % (${share(low)} to ${share(high)}), said ${share(stated)}: ${what}${misses.length > 0 ? `; misses ${misses.slice(0, 5).join(" ")}` : ""}\n`,
      );
    }
    if (values.dry) continue;
    const reached = `${new Date().toISOString().slice(0, 10)} on ${revision}`;
    const told = counts.map((count) => ({ ...count, draws: made.length, seed: values.seed, reached }));
    const text = readFileSync(page, "utf8");
    writeFileSync(page, withSection(text, sectionWith(text, "command", told, remarks())));
  }
}

/** Each lane makes the next draw that none has made, until there are enough. */
async function drawnInLanes(of: string, kept: string | undefined): Promise<readonly Made[]> {
  const first = Number(values.from);
  const end = first + Number(values.draws);
  const made = (kept ? readKept(kept) : []).filter(({ draw }) => draw >= first && draw < end);
  const done = new Set(made.map(({ draw }) => draw));
  let used_s = made.reduce((sum, draw) => sum + draw.used_s, 0);
  let next = first;
  const nextDraw = () => {
    while (done.has(next)) next++;
    return used_s > Number(values.seconds) || next >= end ? undefined : next++;
  };
  const lane = () => {
    const child = fork(import.meta.filename, ["--lane", "--only", of, "--seed", values.seed]);
    return new Promise<void>((resolve, reject) => {
      const tell = () => {
        const draw = nextDraw();
        if (draw === undefined) child.disconnect();
        else child.send(draw);
      };
      child.on("message", (draw: Made) => {
        made.push(draw);
        used_s += draw.used_s;
        if (kept) appendFileSync(kept, `${JSON.stringify(draw)}\n`);
        tell();
      });
      child.on("error", reject);
      child.on("exit", (code) => (code === 0 ? resolve() : reject(new Error(`a lane of ${of} ended with ${code}`))));
      tell();
    });
  };
  await Promise.all(Array.from({ length: Number(values.lanes) }, lane));
  return made;
}

/** A line that was being written when the run was ended is drawn anew. */
function readKept(path: string): Made[] {
  mkdirSync(join(path, ".."), { recursive: true });
  if (!existsSync(path)) return [];
  const whole = readFileSync(path, "utf8").split("\n").slice(0, -1);
  writeFileSync(path, whole.map((line) => `${line}\n`).join(""));
  return whole.map((line) => JSON.parse(line));
}

function drawAsTold(calibration: Calibration): Promise<void> {
  process.on("message", async (draw: number) => {
    const before = process.cpuUsage();
    const one = await oneDraw(calibration, values.seed, draw);
    const { user, system } = process.cpuUsage(before);
    process.send!({ ...one, used_s: (user + system) / 1e6 } satisfies Made);
  });
  return new Promise((resolve) => process.once("disconnect", resolve));
}
