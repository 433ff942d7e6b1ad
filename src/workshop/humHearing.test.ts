import { expect, test } from "vitest";
import { foldShop } from "../claims/index.ts";
import { Book } from "../claims/testing/smallShop.ts";
import { fairnessOf, partByFairness } from "./fairness.ts";
import { humHearing, humRecordings } from "./humHearing.ts";

const recording = (name: string, supply: object) => ({
  kind: "recording" as const,
  unit: "0101",
  recording: name,
  file_sha256: "a".repeat(64),
  fullScale_Vpk: 1,
  channels: ["left", "right"],
  supply: supply as { source: "building"; frequency_Hz: number },
  building_Hz: 50,
  valves: { V1: "N1", V2: "T1" },
  input: "shorted",
  instrument: "recorder",
});

function hearings(): Book {
  const book = Book.opened();
  book.write(1, {
    kind: "instrument",
    instrument: "regenerator",
    title: "Regenerated supply",
    trial: { reference: "bench load", quantity: "crestFactor", true: Math.SQRT2, limit: 0.03 },
  });
  book.trial(2, 1.411, "regenerator", 0.004);
  book.write(3, recording("house", { source: "building", frequency_Hz: 50 }));
  book.write(4, recording("clean", { source: "regenerated", frequency_Hz: 57, instrument: "regenerator" }));
  return book;
}

test("a regenerator that fails its next trial takes its recordings out of the hearing, and it is said why", async () => {
  const book = hearings();
  const never = async <T>(): Promise<T> => {
    throw new Error("nothing was recorded of the supply itself");
  };
  const believed = async () => {
    const { ledger } = foldShop(book.entries);
    const recordings = humRecordings(book.entries, "0101");
    return partByFairness(recordings, await fairnessOf({ ledger, unit: "0101", recordings, calculate: never }));
  };
  expect((await believed()).leftOut).toEqual([]);
  // Peaks cut: crest factor 1.29 where a sine has 1.414.
  book.trial(6, 1.29, "regenerator", 0.004);
  const { believed: kept, leftOut } = await believed();
  expect(kept.map(({ body }) => body.recording)).toEqual(["house"]);
  expect(leftOut[0]).toMatchObject({ recording: "clean" });
  expect(leftOut[0]!.why).toMatch(/regenerator failed its trial of 2026-03-01/);

  const asked: unknown[] = [];
  const view = await humHearing(
    {
      unit: "0101",
      building_Hz: 50,
      outputImpedance_ohm: 30,
      recordings: kept,
      leftOut,
      headphones: [],
      saysOf: () => [],
      lengthOf: () => ({ duration_s: 8, truncated: false }),
    },
    async <T>(_: string, input: unknown) => {
      asked.push(input);
      return { lines: [], verdict: {}, nextRecording: null } as T;
    },
  );
  expect((asked[0] as { recordings: unknown[] }).recordings).toHaveLength(1);
  expect(view.sentences.join(" ")).toMatch(/Recording clean is not compared: .*cut peaks/);
});
