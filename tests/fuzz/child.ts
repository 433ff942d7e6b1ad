import { Session } from "node:inspector/promises";
import { type Outcome, type Trial, tried } from "./trial.ts";

/** A process of its own for what may crash, hang or fill the memory: it answers one trial after the other. */
export type Asked = { readonly ask: "trial"; readonly trial: Trial } | { readonly ask: "coverage" };
export type Said =
  | { readonly say: "ready" }
  | { readonly say: "outcome"; readonly outcome: Outcome; readonly cpu_ms: number }
  | { readonly say: "coverage"; readonly reached: readonly Reached[] };

/** Which parts of a file of the source ran since the last time: stretches of its text as it was loaded. */
export interface Reached {
  readonly file: string;
  readonly length: number;
  readonly ran: readonly (readonly [from: number, to: number])[];
}

const session = new Session();
session.connect();
await session.post("Profiler.enable");
await session.post("Profiler.startPreciseCoverage", { callCount: true, detailed: true });

const say = (said: Said) => process.send!(said);

process.on("message", async (asked: Asked) => {
  if (asked.ask === "coverage") return say({ say: "coverage", reached: await coverage() });
  const before = process.cpuUsage();
  const outcome = await tried(asked.trial);
  const { user, system } = process.cpuUsage(before);
  say({ say: "outcome", outcome, cpu_ms: (user + system) / 1000 });
});
// An error that nobody waited for is a crash in a server too.
process.on("unhandledRejection", (fault) => {
  say({ say: "outcome", outcome: { was: "fault", words: `unhandled: ${String(fault)}` }, cpu_ms: 0 });
});
say({ say: "ready" });

async function coverage(): Promise<Reached[]> {
  const { result } = await session.post("Profiler.takePreciseCoverage");
  return result
    .filter(({ url }) => /\/src\/(?!.*\.test\.).*\.ts$/.test(url.replace(/\?.*$/, "")))
    .map(({ url, functions }) => {
      const length = Math.max(...functions.flatMap(({ ranges }) => ranges.map(({ endOffset }) => endOffset)));
      const painted = new Uint8Array(length);
      for (const { ranges } of functions) {
        for (const { startOffset, endOffset, count } of ranges) painted.fill(count > 0 ? 1 : 0, startOffset, endOffset);
      }
      return { file: url.replace(/^.*\/src\//, "src/"), length, ran: stretches(painted) };
    });
}

function stretches(painted: Uint8Array): [number, number][] {
  const found: [number, number][] = [];
  for (let from = painted.indexOf(1); from >= 0; ) {
    const end = painted.indexOf(0, from);
    found.push([from, end < 0 ? painted.length : end]);
    from = end < 0 ? -1 : painted.indexOf(1, end);
  }
  return found;
}
