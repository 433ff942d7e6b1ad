import { expect, test } from "vitest";
import { keptOf } from "./useDraft.ts";

const blank = { value: "", doubt: "" };

test("a kept draft gives back the fields the form still has", () => {
  expect(keptOf('{"value":"0,012","gone":"1"}', blank)).toEqual({ value: "0,012" });
});

test("what is no draft is taken as none", () => {
  for (const text of [null, "", "{", "7", "null", '{"value":7}']) expect(keptOf(text, blank)).toEqual({});
});
