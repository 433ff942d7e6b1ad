import { expect, test } from "vitest";
import { BadInput } from "../../src/maths/badInput.ts";
import { writeInstant } from "../../src/production/instants.ts";
import { sha256 } from "../../src/store/chain.ts";
import { tried } from "./trial.ts";

/** What hostile input once got the better of. */
test("a schedule longer than the longest step is answered", async () => {
  const step = (place: string, hours: number) => ({ place, hours });
  const jobs = [[step("bench", 2)], [step("bench", 1.5), step("saw", 1e9)]];
  expect(await tried({ of: "calculation", name: "production.schedule", input: { jobs } })).toEqual({ was: "answered" });
});

test("what to do is said however long the list of what is allowed", () => {
  const names = Array.from({ length: 300 }, (_, i) => `stage ${i}`).join(", ");
  const { message } = new BadInput("stage", '"wiring"', names, "name one of these");
  expect(message.length).toBeLessThan(1900);
  expect(message.split("; ").at(-1)).toBe("name one of these");
});

test("a time between two milliseconds is written as the nearer one", () => {
  expect(writeInstant(0.9055, "UTC")).toBe("1970-01-01T00:00:00.001+00:00");
});

test("a copy whose ledger is an empty file that its note agrees with is refused", async () => {
  const note = {
    kind: "stillglow backup",
    made: "2026-03-01T12:00:00.000Z",
    entries: 0,
    head: "0".repeat(64),
    database_sha256: sha256(""),
    recordings: [],
    photos: [],
  };
  const bytes = Buffer.from(JSON.stringify(note));
  expect(await tried({ of: "reader", name: "backup's note", bytes })).toMatchObject({ was: "refused" });
});
