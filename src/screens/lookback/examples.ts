import type { LookBackView } from "../../workshop/promises/views.ts";

/** Invented faults for the preview page and the browser tests. */

const rung = (stage: string, found: number, possible: number): LookBackView["rungs"][number] => ({
  stage,
  title: stage,
  found,
  possible,
  spent_h: 2 * found,
});

type Arrow = LookBackView["arrows"][number];
const arrow = (fault: string, found: string, possible: string, faults: number, spent_h: number): Arrow => ({
  fault,
  found,
  possible,
  faults,
  units: [],
  spent_h,
  spent_cents: 5200 * spent_h,
  early: 0,
  state: "undecided",
  words: "Of this sort only 0 were found there: what it would have saved is undecided.",
});
const saving = (one: Arrow, words: string): Arrow => ({ ...one, early: 4, state: "saves", words });

export const many: LookBackView = {
  rungs: [
    rung("chassis", 0, 3),
    rung("wiring", 4, 9),
    rung("plate", 3, 14),
    rung("case", 6, 0),
    rung("valves", 4, 7),
    rung("balance", 3, 0),
    rung("hum", 3, 0),
    rung("case-soak", 2, 0),
    rung("customer", 8, 0),
  ],
  arrows: [
    saving(
      arrow("cracked panel", "customer", "plate", 5, 34),
      "Found there, they would have taken 28 h (23 to 33) and 2140 EUR (1800 EUR to 2480 EUR) less.",
    ),
    saving(
      arrow("valve drifted", "customer", "valves", 3, 11),
      "Found there, they would have taken 9 h (8 to 10) and 920 EUR (810 EUR to 1030 EUR) less.",
    ),
    {
      ...arrow("cracked panel", "case", "plate", 6, 9),
      early: 3,
      state: "silent",
      words: "What finding them there would have saved can’t be told from chance.",
    },
    arrow("dry joint", "balance", "wiring", 3, 4),
    arrow("earth screw loose", "hum", "chassis", 3, 3),
    arrow("cracked panel", "case-soak", "plate", 2, 7),
  ],
  currency: "EUR",
  units: 92,
  faults: 33,
  late: 22,
  returns: { count: 11, of: 92, without: 2 },
  plate: [
    "14 of 19 cracked pieces had cracked by the first morning on the plate.",
    "The second day there showed none more.",
  ],
  suggested: [
    {
      title: "hot plate: 24 h instead of 48 h",
      because: "Every crack that it ever showed had shown by 14 h.",
      change: { kind: "place", place: "hot plate", cycle_h: 24 },
    },
  ],
  notes: ["An arrow saves when its interval leaves zero out."],
};

export const none: LookBackView = {
  ...many,
  rungs: [],
  arrows: [],
  faults: 0,
  late: 0,
  returns: { count: 0, of: 0, without: 0 },
  plate: [],
  suggested: [],
  notes: [],
};
