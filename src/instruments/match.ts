import { createContext, Script } from "node:vm";

/** Longer lines are no answer of a bench instrument. */
export const longestLine = 512;

/** A pattern that branches without end is stopped here. */
const most_ms = 50;

const context = createContext({ text: "" });
const scripts = new Map<string, Script>();

/**
 * Holds a line against a pattern that its user wrote, in bounded time.
 *
 * @returns the named groups, or undefined where the line does not fit
 * @throws RangeError  when the pattern takes too long on this line
 */
export function matched(pattern: string, line: string): Readonly<Record<string, string | undefined>> | undefined {
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
    throw new RangeError(`the pattern ${pattern.slice(0, 60)} takes too long on an answer`);
  }
}
