// node --import tsx scripts/calibrate.ts [--draws N] [--only NAME,NAME] [--seed WORD] [--from N] [--seconds N] [--dry]
// Holds what calculations say, intervals and odds, against truths drawn afresh; writes its side of docs/accuracy.md.
// --only takes names or beginnings of names; --seconds ends each calculation's draws after so many seconds of the
// processor, and the page says how many were made; --dry writes nothing. A draw follows from name, seed and number, so
// that one that misses is made again with --from.
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { shareInterval } from "../src/maths/statistics/index.ts";
import { calibrations } from "../tests/calibration/calibrations.ts";
import { countDraws, verdictOn } from "../tests/calibration/count.ts";
import { sectionWith, withSection } from "../tests/calibration/page.ts";
import { remarks } from "../tests/calibration/remarks.ts";

const { values } = parseArgs({
  options: {
    draws: { type: "string", default: "2000" },
    only: { type: "string", default: "" },
    seed: { type: "string", default: new Date().toISOString().slice(0, 10) },
    from: { type: "string", default: "0" },
    seconds: { type: "string", default: "Infinity" },
    dry: { type: "boolean", default: false },
  },
});
const page = join(import.meta.dirname, "..", "docs", "accuracy.md");
const revision = execFileSync("git", ["rev-parse", "--short=12", "HEAD"], { encoding: "utf8" }).trim();
const reached = `${new Date().toISOString().slice(0, 10)} on ${revision}`;
const draws = Number(values.draws);

const words = values.only.split(",");
const asked = calibrations.filter(({ of }) =>
  words.some((word) => (calibrations.some((one) => one.of === word) ? of === word : of.startsWith(word))),
);
if (asked.length === 0) throw new Error(`no calculation that estimates begins with ${values.only}`);
for (const calibration of asked) {
  const before = process.cpuUsage();
  const used_s = () => {
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1e6;
  };
  const isEnough = () => used_s() > Number(values.seconds);
  const { counts, made } = await countDraws(calibration, draws, values.seed, { from: Number(values.from), isEnough });
  process.stdout.write(`${calibration.of}: ${made} draws, ${used_s().toFixed(1)} s of the processor\n`);
  for (const count of counts) {
    const { what, isTrue, count: of, stated, misses } = count;
    const { low, high } = shareInterval(isTrue, of);
    const share = (value: number) => (100 * value).toFixed(1);
    process.stdout.write(
      `  ${verdictOn(count).padEnd(15)} ${isTrue}/${of} ${share(isTrue / of)} % (${share(low)} to ${share(high)}), said ${share(stated)}: ${what}${misses.length > 0 ? `; misses ${misses.slice(0, 5).join(" ")}` : ""}\n`,
    );
  }
  if (values.dry) continue;
  const told = counts.map((count) => ({ ...count, draws: made, seed: values.seed, reached }));
  const text = readFileSync(page, "utf8");
  writeFileSync(page, withSection(text, sectionWith(text, "command", told, remarks())));
}
