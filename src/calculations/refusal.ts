import type { z } from "zod";
import { BadInput, quote } from "../maths/badInput.ts";

type Issue = z.core.$ZodIssue;

/**
 * Turns the first fault that a schema finds into the one error a person reads: field, what was given, what is
 * allowed, what to do.
 */
export function refusal(error: z.ZodError, input: unknown): BadInput {
  const issue = sharpest(error.issues[0]!);
  const given = at(input, issue.path);
  const { allowed, mend } = explain(issue, given);
  const path = issue.code === "unrecognized_keys" ? [...issue.path, issue.keys[0]!] : issue.path;
  return new BadInput(fieldPath(path), quote(given), allowed, mend);
}

/** `["points", 3, "plate_mA"]` as it stands in the contract: `points[3].plate_mA`. */
export function fieldPath(path: readonly PropertyKey[]): string {
  return path.reduce<string>((sofar, key) => {
    if (typeof key === "number") return `${sofar}[${key}]`;
    const plain = String(key).slice(0, 80);
    return sofar === "" ? plain : `${sofar}.${plain}`;
  }, "");
}

/** Of the ways an alternative failed, the one that got furthest: most likely what the author meant. */
function sharpest(issue: Issue): Issue {
  if (issue.code !== "invalid_union" || issue.errors.length === 0) return issue;
  const ways = issue.errors.filter((way) => way.length > 0).map((way) => sharpest(way[0]!));
  const wrongTypeAtRoot = (i: Issue) => i.path.length === 0 && i.code === "invalid_type";
  const best = ways.sort(
    (a, b) => Number(wrongTypeAtRoot(a)) - Number(wrongTypeAtRoot(b)) || b.path.length - a.path.length,
  )[0];
  if (!best || wrongTypeAtRoot(best)) return issue;
  return { ...best, path: [...issue.path, ...best.path] };
}

function explain(issue: Issue, given: unknown): { allowed: string; mend: string } {
  const missing = given === undefined;
  switch (issue.code) {
    case "invalid_type": {
      const wanted = words[issue.expected] ?? issue.expected;
      if (missing) return { allowed: `${wanted} is needed`, mend: "add the field" };
      return { allowed: `${wanted} is allowed`, mend: typeMend(issue.expected, given) };
    }
    case "too_small":
      return {
        allowed: `${measure(issue.origin)} ${issue.inclusive ? "of at least" : "above"} ${issue.minimum}`,
        mend: issue.origin === "array" || issue.origin === "string" ? "give more" : "give a value inside the limit",
      };
    case "too_big":
      return {
        allowed: `${measure(issue.origin)} ${issue.inclusive ? "of at most" : "below"} ${issue.maximum}`,
        mend: issue.origin === "array" || issue.origin === "string" ? "give fewer" : "give a value inside the limit",
      };
    case "invalid_value":
      return {
        allowed: `one of ${issue.values.map((v) => quote(v)).join(", ")}`,
        mend: missing ? "add the field" : "choose one of these",
      };
    case "invalid_union":
      if (missing && !("options" in issue)) return { allowed: "a value is needed", mend: "add the field" };
      if ("options" in issue && issue.options && issue.options.length > 0) {
        return {
          allowed: `one of ${issue.options.map((option) => quote(option)).join(", ")}`,
          mend: "choose one of these",
        };
      }
      return { allowed: "none of the allowed forms fits", mend: "see the form with --schema" };
    case "unrecognized_keys":
      return { allowed: "no such field", mend: "leave it out, or check its spelling with --schema" };
    case "invalid_format":
      return { allowed: `text of the form ${issue.format}`, mend: "write it in that form" };
    case "not_multiple_of":
      return { allowed: `a multiple of ${issue.divisor}`, mend: "round it" };
    default:
      return { allowed: issue.message, mend: "see the form with --schema" };
  }
}

const words: Record<string, string> = {
  number: "a number",
  int: "a whole number",
  string: "text",
  boolean: "true or false",
  array: "a list",
  object: "an object",
  record: "an object",
  tuple: "a list",
  nan: "a number",
};

function typeMend(expected: string, given: unknown): string {
  if (expected === "number" && typeof given === "string")
    return "write the number without quotes, letters or unit, with a decimal point";
  if (expected === "number" || expected === "int") return "write a plain finite number";
  return "see the form with --schema";
}

function measure(origin: string): string {
  if (origin === "array" || origin === "set") return "a list with a length";
  if (origin === "string") return "text with a length";
  return "a value";
}

function at(input: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (value, key) =>
      value !== null && typeof value === "object" ? (value as Record<PropertyKey, unknown>)[key] : undefined,
    input,
  );
}
