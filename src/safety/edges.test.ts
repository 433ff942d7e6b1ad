import { describe, expect, test } from "vitest";
import { bleederFor, chargedLimit_V } from "./bleeder.ts";
import { discharge } from "./discharge.ts";
import { weeklyDose } from "./dose.ts";
import { atTheJack } from "./jack.ts";
import { isRoutine, mustPrecede, routineOrder } from "./order.ts";
import { judgeAll, judgeTest } from "./routineTests.ts";

const store = { capacitance_uF: 100, bleeder_ohm: 220e3, start_V: 450, limit_V: 60 };
const design = { capacitance_uF: 100, start_V: 450, limit_V: 60, time_s: 60 };
const jack = { dc_V: 0.01, greatest_Vrms: 1, headphone: { impedance_ohm: 300, sensitivity_dB_per_V: 100 } };
const adult = { level_dBA: 80, hours: 40 };
const read = { name: "x", unit: "ohm", value: 0.05, doubt: 0.01, limit: 0.1, kind: "max" } as const;
const at = (path: string) => expect.objectContaining({ name: "BadInput", path });

describe("nothing that is no quantity of its kind is reckoned with", () => {
  test.each([Number.NaN, Number.POSITIVE_INFINITY, -1])("%d V at the start of a discharge", (start_V) => {
    expect(() => discharge({ ...store, start_V })).toThrow(at("start_V"));
  });

  test.each(["capacitance_uF", "bleeder_ohm", "limit_V"] as const)("%s of a discharge", (name) => {
    for (const value of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => discharge({ ...store, [name]: value })).toThrow(at(name));
    }
  });

  test.each(["capacitance_uF", "start_V", "limit_V", "time_s"] as const)("%s of a bleeder", (name) => {
    for (const value of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => bleederFor({ ...design, [name]: value })).toThrow(at(name));
    }
  });

  test("a store that starts at its limit needs no bleeder; a capacitor of nothing has no limit", () => {
    expect(() => bleederFor({ ...design, start_V: 60 })).toThrow(at("start_V"));
    expect(() => chargedLimit_V(0, 1)).toThrow(at("capacitance_uF"));
  });

  test("a headphone and what it gets", () => {
    const { headphone } = jack;
    for (const impedance_ohm of [0, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => atTheJack({ ...jack, headphone: { ...headphone, impedance_ohm } })).toThrow(
        at("headphone.impedance_ohm"),
      );
    }
    for (const value of [Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => atTheJack({ ...jack, dc_V: value })).toThrow(at("dc_V"));
      expect(() => atTheJack({ ...jack, headphone: { ...headphone, sensitivity_dB_per_V: value } })).toThrow(
        at("headphone.sensitivity_dB_per_V"),
      );
    }
    for (const greatest_Vrms of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => atTheJack({ ...jack, greatest_Vrms })).toThrow(at("greatest_Vrms"));
    }
  });

  test("a level and a week, which have their ends", () => {
    expect(weeklyDose(0, 168, adult).share).toBeGreaterThan(0);
    expect(weeklyDose(194, 1, { level_dBA: 194, hours: 168 }).share).toBeCloseTo(1 / 168, 12);
    for (const level of [-0.1, 194.1, Number.NaN]) {
      expect(() => weeklyDose(level, 1, adult)).toThrow(at("level_dBA"));
      expect(() => weeklyDose(80, 1, { ...adult, level_dBA: level })).toThrow(at("allowance.level_dBA"));
    }
    for (const hours of [0, -1, 168.1, Number.NaN]) {
      expect(() => weeklyDose(80, hours, adult)).toThrow(at("hours"));
      expect(() => weeklyDose(80, 1, { ...adult, hours })).toThrow(at("allowance.hours"));
    }
  });

  test.each(["value", "doubt", "limit"] as const)("%s of a routine test", (name) => {
    for (const value of [Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => judgeTest({ ...read, [name]: value })).toThrow(at(name));
    }
  });
});

// source: by hand; t = RC·ln(V₀/V), so that dt/t of R and C add as squares and dV₀ gives RC·dV₀/V₀
test("the doubt of a discharge is that of its parts and of its start", () => {
  const constant_s = 22;
  const time_s = constant_s * Math.log(450 / 60);
  const doubt_s = (doubt: object, more: object = {}) => discharge({ ...store, ...more, doubt }).doubt.time_s;
  expect(doubt_s({})).toBe(0);
  expect(doubt_s({ bleeder_ohm: 11e3 })).toBeCloseTo(0.05 * time_s, 9);
  expect(doubt_s({ start_V: 9 })).toBeCloseTo((constant_s * 9) / 450, 9);
  expect(doubt_s({ capacitance_uF: 10, bleeder_ohm: 11e3, start_V: 9 })).toBeCloseTo(
    Math.hypot(0.1 * time_s, 0.05 * time_s, (constant_s * 9) / 450),
    9,
  );
  // At or below the limit only a start that may be above it costs time.
  expect(doubt_s({ start_V: 5 }, { start_V: 50 })).toBe(0);
  expect(doubt_s({ start_V: 16 }, { start_V: 50 })).toBeCloseTo(constant_s * (66 / 60 - 1), 9);
  expect(doubt_s({}, { start_V: 50 })).toBe(0);
});

// source: by hand, P = V₀²/R; a resistor runs at half its rating
test("a bleeder's heat and rating", () => {
  const found = bleederFor(design);
  expect(found.dissipation_W).toBeCloseTo(450 ** 2 / found.most_ohm, 9);
  expect(found.rating_W).toBeCloseTo((2 * 450 ** 2) / found.most_ohm, 9);
});

// source: by hand from the rule in judgeTest
test("what may be read at most, or at least, to be proven", () => {
  expect(judgeTest(read).acceptance).toBeCloseTo(0.09, 12);
  expect(judgeTest({ ...read, kind: "min" }).acceptance).toBeCloseTo(0.11, 12);
  expect(judgeTest(read).margin).toBeCloseTo(0.05, 12);
  expect(judgeTest({ ...read, kind: "min" }).margin).toBeCloseTo(-0.05, 12);
});

test("a reading one doubt outside is undecided however large its figures are, and one without doubt is outside at once", () => {
  const judged = (value: number, doubt: number, limit: number) => judgeTest({ ...read, value, doubt, limit }).state;
  // In binary, 1000.4 − 1000.3 is a little over 0.1.
  expect(1000.4 - 1000.3).toBeGreaterThan(0.1);
  expect(judged(1000.4, 0.1, 1000.3)).toBe("undecided");
  expect(judged(1000.4, 0.0999, 1000.3)).toBe("refuted");
  expect(judged(0.1 + 2 ** -56, 0, 0.1)).toBe("refuted");
});

test("one refuted test refutes all, one undecided leaves all undecided", () => {
  expect(judgeAll(["proven", "refuted", "undecided"])).toBe("refuted");
  expect(judgeAll(["proven", "undecided"])).toBe("undecided");
  expect(judgeAll(["proven", "proven"])).toBe("proven");
});

test("only the tests of the order are routine, and what is hot or at the jack holds no other up", () => {
  const own = routineOrder.map(({ quantity }) => quantity);
  expect(own.every(isRoutine)).toBe(true);
  expect(isRoutine("gain_dB")).toBe(false);
  expect(mustPrecede("jack_mV", own)).toEqual(["bond_ohm", "resistance_Mohm", "discharge_s", "touch_mA"]);
  expect(mustPrecede("gain_dB", [...own, "gain_dB"])).toEqual(own.slice(0, 4));
});
