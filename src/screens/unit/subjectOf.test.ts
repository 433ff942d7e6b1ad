import { expect, test } from "vitest";
import type { Figure } from "./sheets.ts";
import { subjectOf } from "./subjectOf.ts";

const unit = { unit: "0099", fitted: { V1: { valve: "K-7", type: "6SN7GT", reasons: [] } } };
const figure = (where: string): Figure => ({ quantity: "plate_V", where, state: "open", why: "" });

test("a place in words is read back as what the reading is about", () => {
  expect(subjectOf(unit, figure("unit 0099"))).toEqual({ unit: "0099" });
  expect(subjectOf(unit, figure("left channel"))).toEqual({ unit: "0099", channel: "left" });
  expect(subjectOf(unit, figure("left channel a1"))).toEqual({ unit: "0099", channel: "left", point: "a1" });
  expect(subjectOf(unit, figure("V1 section b (K-7)"))).toEqual({ valve: "K-7", section: "b" });
  expect(subjectOf(unit, figure("V1 section b"))).toEqual({ unit: "0099", position: "V1", section: "b" });
  expect(subjectOf(unit, figure("V1 heater"))).toEqual({ unit: "0099", point: "V1 heater" });
  expect(subjectOf(unit, figure("V1"))).toEqual({ unit: "0099", position: "V1" });
  expect(subjectOf(unit, figure("left V1 plate"))).toEqual({ unit: "0099", point: "left V1 plate" });
  expect(subjectOf(unit, figure("right channel 20 kHz"))).toEqual({ unit: "0099", channel: "right", point: "20 kHz" });
  expect(subjectOf(unit, figure("jack sleeve to chassis"))).toEqual({ unit: "0099", point: "jack sleeve to chassis" });
});

test("a subject that the server names is taken as it stands", () => {
  const named = { ...figure("anything at all"), subject: { unit: "0099", point: "k2" } };
  expect(subjectOf(unit, named)).toEqual({ unit: "0099", point: "k2" });
});
