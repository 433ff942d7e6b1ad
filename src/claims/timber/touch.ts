import type { Evidence, Thing } from "../evidence.ts";

/**
 * Work on the timber of a unit's case as the touch it is: a coat reaches the finish, planing the timber and the finish.
 * What that voids follows from what each claim rests on, as with any rework.
 *
 * @example touchOf(coatOnUnit0031) // touched [{ case: "finish" }]
 */
export function touchOf(entry: Evidence): Evidence<"rework"> | undefined {
  const { body } = entry;
  if (body.kind === "rework") return entry as Evidence<"rework">;
  if (body.kind !== "coat" && body.kind !== "machined") return undefined;
  if (body.unit === undefined) return undefined;
  const touched: Thing[] =
    body.kind === "coat" ? [{ case: "finish" }] : [{ case: "timber" }, { case: "finish" }, { case: "closure" }];
  const why = body.kind === "coat" ? `a coat of ${body.finish}` : `${body.piece} was machined`;
  return { ...entry, body: { kind: "rework", unit: body.unit, touched, why } };
}
