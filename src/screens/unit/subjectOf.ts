import type { Subject } from "../../claims/evidence.ts";
import type { UnitView } from "../../workshop/views.ts";
import type { Figure } from "./sheets.ts";

/**
 * What a reading of this figure is about.
 *
 * The server says it where it can. Otherwise it is read back from the words for the place: position, `section b`,
 * `left channel`, a test point, and in brackets the valve that is meant.
 */
export function subjectOf({ unit, fitted }: Pick<UnitView, "unit" | "fitted">, figure: Figure): Subject {
  if (figure.subject) return figure.subject;
  if (figure.where === "" || figure.where === `unit ${unit}`) return { unit };
  let rest = figure.where;
  const take = (pattern: RegExp): string | undefined => {
    const found = pattern.exec(rest);
    if (!found) return undefined;
    rest = rest.replace(found[0], " ").trim();
    return found[1];
  };
  const valve = take(/\(([^()]+)\)$/);
  const position = Object.keys(fitted).find((name) => rest === name || rest.startsWith(`${name} `));
  const afterPosition = position === undefined ? rest : rest.slice(position.length).trim();
  // `V1 heater` is a test point of the unit: a position stands alone or before a section unless a valve is meant.
  const isPosition = position !== undefined && (valve !== undefined || /^(section \S+)?$/.test(afterPosition));
  if (isPosition) rest = afterPosition;
  const section = take(/(?:^|\s)section (\S+)/);
  const channel = take(/(?:^|\s)?(\S+) channel(?=\s|$)/);
  const point = rest === "" ? undefined : rest;
  return {
    ...(valve === undefined ? { unit, ...(isPosition && { position }) } : { valve }),
    ...(section && { section }),
    ...(channel && { channel }),
    ...(point && { point }),
  };
}
