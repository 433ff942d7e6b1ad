/** A part of the frequency axis. */
export type Band = readonly [from_Hz: number, to_Hz: number];

/** Of the axis drawn, the share that a step sideways moves by, and that a step closer leaves. */
const step = 0.25;
const closer = 0.5;
/** No part is narrower than this ratio of its ends. */
const narrowest = 1.002;

export type Zoom = "closer" | "wider" | "lower" | "higher" | "whole";

/**
 * The next part of a log axis to draw, kept within the whole; nothing when that is the whole.
 *
 * @param about_Hz  what stays in its place when looked at from closer; the middle where left out
 */
export function zoomed(
  band: Band | undefined,
  whole: Band,
  how: Zoom,
  about_Hz = Math.sqrt((band ?? whole)[0] * (band ?? whole)[1]),
): Band | undefined {
  if (how === "whole") return undefined;
  const [from, to] = (band ?? whole).map(Math.log) as [number, number];
  const [least, most] = whole.map(Math.log) as [number, number];
  const width = to - from;
  const at = Math.min(to, Math.max(from, Math.log(about_Hz)));
  const [wanted, begins] =
    how === "lower"
      ? [width, from - step * width]
      : how === "higher"
        ? [width, from + step * width]
        : (() => {
            const factor = how === "closer" ? closer : 1 / closer;
            const next = Math.max(Math.log(narrowest), width * factor);
            return [next, at - (at - from) * (next / width)] as const;
          })();
  const drawn = Math.min(wanted, most - least);
  const start = Math.min(most - drawn, Math.max(least, begins));
  if (drawn >= (most - least) * 0.999) return undefined;
  return [Math.exp(start), Math.exp(start + drawn)];
}

/** What a key does to the picture it is pressed on. */
export const zoomKeys: Readonly<Record<string, Zoom>> = {
  "+": "closer",
  "=": "closer",
  "-": "wider",
  ArrowUp: "closer",
  ArrowDown: "wider",
  ArrowLeft: "lower",
  ArrowRight: "higher",
  "0": "whole",
  Home: "whole",
};
