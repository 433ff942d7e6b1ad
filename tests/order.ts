import { join, relative } from "node:path";
import { BaseSequencer, type TestSpecification } from "vitest/node";

const root = join(import.meta.dirname, "..");

/**
 * Files that take longest go first, so that no worker is left with one of them at the end; and files that wait for the
 * made demo come after the one that makes it.
 */
const first = [
  "tests/mainJob.test.ts",
  "tests/screens/examples.test.ts",
  "tests/kills.test.ts",
  "tests/newWorkshop.test.ts",
  "tests/screens/probe.test.ts",
  "tests/screens/bench.test.ts",
  "tests/screens/timber.test.ts",
  "tests/screens/notebook.test.ts",
  "tests/screens/newcomer.test.ts",
  "tests/screens/valves.test.ts",
  "tests/command.test.ts",
  "tests/screens/realDemo.test.ts",
  "tests/screens/instruments.test.ts",
  "tests/screens/handbook.test.ts",
  "tests/exchange.test.ts",
  "tests/newDossier.test.ts",
  "tests/backup.test.ts",
  "src/server/people/people.test.ts",
  "src/hum/benches.test.ts",
  "src/hum/traceHum.test.ts",
  "tests/growing.test.ts",
  "src/workshop/queue/queue.test.ts",
  "tests/screens/work.test.ts",
  "src/demo/stories.test.ts",
];

export class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const rank = ({ moduleId }: TestSpecification) => {
      const at = first.indexOf(relative(root, moduleId).replaceAll("\\", "/"));
      return at < 0 ? first.length : at;
    };
    return (await super.sort(files)).sort((a, b) => rank(a) - rank(b));
  }
}
