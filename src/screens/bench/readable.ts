import { quantityWords } from "../../measurement/quantityWords.ts";
import type { BenchFigure } from "../../workshop/bench/views.ts";
import { asWritten, withDoubt } from "../common/number.ts";

export interface Readable {
  readonly value: number;
  readonly doubt?: number;
  readonly recorder?: number;
  readonly unit: string;
}

const steps = [
  { below: 1e-3, scale: 1e6, prefix: "µ" },
  { below: 1, scale: 1e3, prefix: "m" },
] as const;

/** A doubt smaller than this share of its figure is finer than anyone reads. */
const finest = 5e-4;

/** A figure with its doubt, to four figures where the doubt is smaller still. */
export function written({ value, doubt }: Pick<Readable, "value" | "doubt">): string {
  if (doubt !== undefined && doubt >= finest * Math.abs(value)) return withDoubt(value, doubt);
  return asWritten(Number(value.toPrecision(4)).toString());
}

/** What the recorder adds by itself hides the unit's own from half of the figure on. */
export const isRecorders = ({ value, recorder }: BenchFigure): boolean =>
  recorder !== undefined && recorder >= value / 2;

/** A bench figure in the unit that people read it in: a millivolt as mV, a microvolt as µV. */
export function readable({ quantity, value, doubt, recorder }: BenchFigure): Readable {
  const { unit } = quantityWords(quantity);
  const step = unit.startsWith("V") && value !== 0 ? steps.find(({ below }) => Math.abs(value) < below) : undefined;
  const scale = step?.scale ?? 1;
  return {
    value: value * scale,
    ...(doubt !== undefined && { doubt: doubt * scale }),
    ...(recorder !== undefined && { recorder: recorder * scale }),
    unit: `${step?.prefix ?? ""}${unit}`,
  };
}
