import { expect, test } from "vitest";
import { StandingAnswers } from "./standingAnswers.ts";

/** A record with a clock, and a question that is answered when the test says so. */
function asked() {
  let grown = 0;
  const waiting: { answer(value: string): void; fail(): void }[] = [];
  const standing = new StandingAnswers({ now: () => `at ${grown}`, grown: () => grown }, 10);
  let holding: Promise<string> | undefined;
  return {
    write: () => {
      grown += 1;
      holding = undefined;
    },
    ask: (patience_ms = 5) =>
      standing.ask(
        "dates",
        () => {
          holding ??= new Promise((answer, fail) => waiting.push({ answer, fail: () => fail(new Error("no")) }));
          return holding;
        },
        patience_ms,
      ),
    waiting,
  };
}

test("the first answer is waited for, and one that holds is given without a moment", async () => {
  const { ask, waiting } = asked();
  const first = ask();
  await new Promise((done) => setTimeout(done, 20));
  waiting[0]!.answer("May");
  expect(await first).toEqual({ answer: "May" });
  expect(await ask()).toEqual({ answer: "May" });
  expect(waiting).toHaveLength(1);
});

test("once something was written the older answer is given with its moment, until the one that holds is there", async () => {
  const { ask, write, waiting } = asked();
  const first = ask();
  waiting[0]!.answer("May");
  await first;
  write();
  expect(await ask()).toEqual({ answer: "May", asOf: "at 0" });
  waiting[1]!.answer("June");
  expect(await ask()).toEqual({ answer: "June" });
});

test("what comes within the patience is never given as older, and what was begun before a writing never as holding", async () => {
  const { ask, write, waiting } = asked();
  const first = ask();
  waiting[0]!.answer("May");
  await first;
  write();
  const second = ask(10_000);
  waiting[1]!.answer("June");
  expect(await second).toEqual({ answer: "June" });
  write();
  expect(await ask()).toMatchObject({ asOf: "at 1" });
  write();
  // Worked out once at a time: the one under way is of before the last entry.
  expect(await ask()).toMatchObject({ answer: "June", asOf: "at 1" });
  expect(waiting).toHaveLength(3);
  const third = ask(20);
  waiting[2]!.answer("July");
  expect(await third).toEqual({ answer: "July", asOf: "at 2" });
  waiting[3]!.answer("August");
  expect(await ask()).toEqual({ answer: "August" });
});

test("a failure is told to whoever asks next, not hidden behind what held before", async () => {
  const { ask, write, waiting } = asked();
  const first = ask();
  waiting[0]!.answer("May");
  await first;
  write();
  expect(await ask()).toMatchObject({ asOf: "at 0" });
  waiting[1]!.fail();
  await new Promise((done) => setTimeout(done, 1));
  write();
  const next = ask();
  waiting[2]!.fail();
  await expect(next).rejects.toThrow("no");
});
