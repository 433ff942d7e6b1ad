import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { calculations } from "../src/calculations/list.ts";
import { stillglow, temporaryFolder } from "./helpers.ts";
import { channel, wavFile } from "./synthesis.ts";

const emc = { temperature_C: 21.1, humidity_pct: 50 };

describe("stillglow calc", () => {
  test("lists what can be computed, a line each, the name first", () => {
    const { stdout, status } = stillglow(["calc"]);
    expect(status).toBe(0);
    expect(
      stdout
        .trim()
        .split("\n")
        .map((line) => line.split(/\s+/)[0]),
    ).toEqual(Object.keys(calculations));
  });

  // source: Wood Handbook (2010), table 4-2: 9.2 % at 21.1 °C (70 °F) and 50 %
  test("answers from stdin and from a file alike, from any folder", () => {
    const folder = temporaryFolder();
    writeFileSync(join(folder, "air.json"), JSON.stringify(emc));
    const fromStdin = stillglow(["calc", "timber.emc"], JSON.stringify(emc), folder);
    const fromFile = stillglow(["calc", "timber.emc", "--in", "air.json"], "", folder);
    expect(fromStdin).toEqual(fromFile);
    expect(JSON.parse(fromFile.stdout).emc_pct).toBeCloseTo(9.2, 1);
  });

  test("names field, value, limit and mend; status 2, nothing on stdout, no stack trace", () => {
    const { stdout, stderr, status } = stillglow(
      ["calc", "timber.emc"],
      JSON.stringify({ ...emc, humidity_pct: "5o" }),
    );
    expect(status).toBe(2);
    expect(stdout).toBe("");
    expect(stderr).toMatch(/^stillglow: timber\.emc: humidity_pct: "5o"; .+; .+\n$/);
  });

  test("one bad line never ends a batch, and answers keep their order", () => {
    const lines = [
      JSON.stringify({ name: "timber.emc", input: emc }),
      "{ not json",
      JSON.stringify({ name: "measurement.guard", input: { value: 0.5, doubt: 0.1, high: 1 } }),
      '{"name":"timber.emc"}',
      "7",
    ];
    const answers = stillglow(["calc", "--batch"], lines.join("\n"))
      .stdout.trim()
      .split("\n")
      .map((line) => JSON.parse(line));
    expect(answers.map(({ ok }) => ok)).toEqual([true, false, true, false, false]);
    // source: one doubt inside the limit, so proven; contract of measurement.guard
    expect(answers[2].output.state).toBe("proven");
    expect(answers[1].error).toMatchObject({ path: "" });
    expect(answers[3].error).toMatchObject({ path: "input" });
  });
});

describe("recordings named in an input", () => {
  const question = (recording: string) => JSON.stringify({ recording, fullScale_Vpk: 1 });
  const tone = wavFile([channel([{ frequency_Hz: 997, level_Vrms: 0.2 }], 1e-7, 3, 48_000, 5)], 48_000, 1);

  test("are found beside the input file", () => {
    const folder = temporaryFolder();
    mkdirSync(join(folder, "takes"));
    writeFileSync(join(folder, "takes", "tone.wav"), tone);
    writeFileSync(join(folder, "ask.json"), question("takes/tone.wav"));
    const { stdout } = stillglow(["calc", "bench.tone", "--in", join(folder, "ask.json")]);
    // source: the tone put in
    expect(JSON.parse(stdout).channels.left.level_Vrms).toBeCloseTo(0.2, 4);
  });

  test("cut short, missing, a folder, a device, no WAV at all: what can be used is, the rest has its own word", () => {
    const folder = temporaryFolder();
    writeFileSync(join(folder, "cut.wav"), tone.subarray(0, 44 + 48_000 * 4 * 2 + 2));
    writeFileSync(join(folder, "secret.wav"), "root:x:0:0:root");
    const refused = [
      ["nowhere.wav", /no file of that name/],
      [".", /no folder, device or pipe/],
      ["/dev/zero", /no folder, device or pipe/],
      ["secret.wav", /not WAV/],
    ] as const;
    const asked = ["cut.wav", ...refused.map(([path]) => path)];
    const lines = asked.map((path) => JSON.stringify({ name: "bench.tone", input: JSON.parse(question(path)) }));
    const { stdout } = stillglow(["calc", "--batch"], lines.join("\n"), folder);
    const [cut, ...others] = stdout
      .trim()
      .split("\n")
      .map((line) => JSON.parse(line));
    expect(cut).toMatchObject({ ok: true, output: { truncated: true, usable_s: 2 } });
    expect(others).toHaveLength(refused.length);
    for (const [n, [, word]] of refused.entries()) {
      expect(others[n]).toMatchObject({ ok: false, error: { path: "recording" } });
      expect(others[n].error.message).toMatch(word);
    }
    expect(stdout).not.toContain("root:x");
  });

  test("that is no WAV is named at its field on a line of its own, with status 2", () => {
    const folder = temporaryFolder();
    writeFileSync(join(folder, "secret.wav"), "root:x:0:0:root");
    const { status, stderr } = stillglow(["calc", "bench.tone"], question("secret.wav"), folder);
    expect(status).toBe(2);
    expect(stderr).toMatch(/^stillglow: bench\.tone: recording: .*not WAV/);
    expect(stderr).not.toContain("root:x");
  });
});

describe("the other commands", () => {
  test("help shows examples", () => {
    const help = stillglow(["--help"]);
    expect(help.status).toBe(0);
    expect(help.stdout).toMatch(/Examples:/);
  });

  test("a workshop that is not there, an unknown unit, a port that is none: each is named", () => {
    const folder = temporaryFolder();
    const missing = stillglow(["unit", "0231", "--data", join(folder, "none")]);
    expect(missing).toMatchObject({ status: 2, stdout: "" });
    expect(missing.stderr).toMatch(/--data.*none/);
    expect(stillglow(["enter", "--data", folder], "")).toMatchObject({ status: 0 });
    const unknown = stillglow(["unit", "0001", "--data", folder]);
    expect(unknown.status).toBe(2);
    expect(unknown.stderr).toMatch(/unit: "0001"; this workshop has no unit yet/);
    expect(stillglow(["serve", "--data", folder, "--port", "seven"])).toMatchObject({ status: 2 });
  });
});

test.each([
  [["unit"], /^stillglow: missing required argument 'serial'\n/],
  [["brew"], /^stillglow: unknown command 'brew'\n/],
  [["serve", "--colour", "blue"], /^stillglow: unknown option '--colour'\n/],
])("wrong use %j is named in the program's own form, with status 2", (words, said) => {
  const { stdout, stderr, status } = stillglow(words);
  expect(status).toBe(2);
  expect(stdout).toBe("");
  expect(stderr).toMatch(said);
});
