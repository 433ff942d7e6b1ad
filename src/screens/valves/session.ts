import type { TrayView } from "../../workshop/views.ts";

export type Phase = "cold" | "hot";

/** What is to be read next in a session: the reference valve, or a section of a valve. */
export type Next =
  | { readonly kind: "reference"; readonly valve: string }
  | { readonly kind: "section"; readonly valve: string; readonly section: string };

/** A reference reading older than this, by the tester's clock, says nothing of the session that begins. */
const fresh_h = 4;

export const referenceName = (tray: Pick<TrayView, "reference" | "type">): string =>
  tray.reference?.valve ?? `REF-${tray.type}`;

/** The session a tray waits for: cold until every section was read cold, then hot. */
export function sessionOf({ valves, sections }: Pick<TrayView, "valves" | "sections">): Phase {
  const all = valves.length * sections.length;
  return readIn(valves, "cold") < all && readIn(valves, "hot") === 0 ? "cold" : "hot";
}

/** How many sections of the tray were read in a session. */
export function readIn(valves: TrayView["valves"], phase: Phase): number {
  return valves.reduce(
    (sum, { readings }) => sum + new Set(readings.filter((r) => r.phase === phase).map((r) => r.section)).size,
    0,
  );
}

/** Whether the reference valve was read since this session could have begun. */
function isReferenceFresh(tray: Pick<TrayView, "reference" | "clock_h">): boolean {
  const last = tray.reference?.readings.at(-1);
  return last !== undefined && tray.clock_h - last.time_h <= fresh_h;
}

/** What this bench wrote down since the tray was fetched: the reference valve, or a section of a valve. */
export interface Written {
  readonly valve: string;
  readonly section?: string;
}

/**
 * The next thing to read: the reference first, then each section not yet read, in the tray's order.
 *
 * @param written  in this session, and not yet among the tray's readings
 */
export function nextOf(
  tray: TrayView,
  phase: Phase,
  after?: { readonly valve: string },
  written: readonly Written[] = [],
): Next | undefined {
  const reference: Next = { kind: "reference", valve: referenceName(tray) };
  if (!isReferenceFresh(tray) && !written.some(({ valve }) => valve === reference.valve)) return reference;
  const from = after
    ? Math.max(
        0,
        tray.valves.findIndex(({ valve }) => valve === after.valve),
      )
    : 0;
  const order = [...tray.valves.slice(from), ...tray.valves.slice(0, from)];
  for (const { valve, readings } of order) {
    const section = tray.sections.find(
      (name) =>
        !readings.some((reading) => reading.phase === phase && reading.section === name) &&
        !written.some((one) => one.valve === valve && one.section === name),
    );
    if (section !== undefined) return { kind: "section", valve, section };
  }
  return undefined;
}
