import { createContext, Script } from "node:vm";

/** Longer lines are no answer of a bench instrument. */
export const longestLine = 512;

/** A pattern that branches without end is stopped here; by the wall's clock, so that a busy machine accuses none. */
const most_ms = 1000;
/** So often stopped, a pattern is tried no more. */
const mostStops = 2;

const context = createContext({ text: "" });
const scripts = new Map<string, Script>();
const stops = new Map<string, number>();

/**
 * Holds a line against a pattern that its user wrote, in bounded time.
 *
 * @returns the named groups, or undefined where the line does not fit
 * @throws RangeError  when the pattern takes too long on this line
 */
export function matched(pattern: string, line: string): Readonly<Record<string, string | undefined>> | undefined {
  const stopped = stops.get(pattern) ?? 0;
  if (stopped >= mostStops) throw tooLong(pattern);
  let script = scripts.get(pattern);
  if (!script) {
    script = new Script(`new RegExp(${JSON.stringify(pattern)}).exec(text)`);
    if (scripts.size > 500) scripts.clear();
    scripts.set(pattern, script);
  }
  context.text = line.slice(0, longestLine);
  try {
    const found = script.runInContext(context, { timeout: most_ms }) as RegExpExecArray | null;
    return found ? { ...found.groups } : undefined;
  } catch {
    stops.set(pattern, stopped + 1);
    throw tooLong(pattern);
  }
}

const tooLong = (pattern: string) => new RangeError(`the pattern ${pattern.slice(0, 60)} takes too long on an answer`);
