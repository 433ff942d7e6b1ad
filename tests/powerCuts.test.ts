import { expect, test } from "vitest";
import { temporaryFolder } from "./helpers.ts";
import { cutPower } from "./powerCuts.ts";

/** A sample; `node --import tsx scripts/powerCuts.ts` makes thousands. */
test("whatever of the pages since the last acknowledgement a power cut drops or tears, no acknowledged entry is lost", async () => {
  const told = await cutPower({ room: temporaryFolder(), writings: 160, cutsAWriting: 1, every: 10, seed: "sample" });
  expect(told).toMatchObject({ lost: [], torn: [], broken: [] });
  expect(told.cuts).toBeGreaterThan(15);
  expect(told.partlyWritten).toBeGreaterThan(0.6 * told.cuts);
  expect(told.whileMoving).toBeGreaterThan(0);
});

test("a disk that says it has what it has not is found out by the same trial", async () => {
  const room = temporaryFolder();
  let earlier: Parameters<NonNullable<Parameters<typeof cutPower>[0]["disk"]>>[0] | undefined;
  const told = await cutPower({
    room,
    writings: 12,
    cutsAWriting: 1,
    every: 1,
    seed: "lying",
    disk: (before) => {
      const left = earlier ?? before;
      earlier = before;
      return left;
    },
  });
  expect(told.lost.length).toBeGreaterThan(5);
});
