import type { Reporter, SerializedError, TestCase, TestModule, TestSpecification } from "vitest/node";

const named = ({ moduleId, project }: TestModule) => moduleId.replace(`${project.config.root}/`, "");
/** Files after which a line says how far the run is. */
const stride = 25;
const longestWord = 4000;

/** Says what failed as soon as it has, and little else: a run that is cut off keeps what it found. */
export default class AtOnce implements Reporter {
  private began_ms = 0;
  private files = 0;
  private done = 0;
  private failed = 0;

  onTestRunStart(files: readonly TestSpecification[]): void {
    this.began_ms = Date.now();
    this.files = files.length;
  }

  onTestCaseResult(test: TestCase): void {
    const { state, errors } = test.result();
    if (state === "failed") this.say(`${named(test.module)} > ${test.fullName}`, errors);
  }

  onTestModuleEnd(file: TestModule): void {
    const own = [...file.errors(), ...[...file.children.allSuites()].flatMap((suite) => suite.errors())];
    if (own.length > 0) this.say(named(file), own);
    this.done += 1;
    if (this.done % stride === 0 || this.done === this.files) {
      const after_s = Math.round((Date.now() - this.began_ms) / 1000);
      console.log(`stillglow: ${this.done} of ${this.files} test files after ${after_s} s, ${this.failed} faults`);
    }
  }

  onTestRunEnd(_: readonly TestModule[], unhandled: readonly SerializedError[]): void {
    if (unhandled.length > 0) this.say("outside any test", unhandled);
  }

  private say(where: string, errors: readonly SerializedError[]): void {
    this.failed += 1;
    console.error(`\nFAILED ${where}`);
    for (const { message, diff, stacks = [] } of errors) {
      console.error([message, diff].filter(Boolean).join("\n").slice(0, longestWord).replace(/^/gm, "  "));
      for (const { file, line } of stacks.slice(0, 3)) console.error(`    ${file}:${line}`);
    }
  }
}
