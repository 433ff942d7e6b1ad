import { graphite, hair, letters, line, p } from "./drawing.ts";

/** A frame with hertz along a log axis and decibels up a plain one. */
export interface LogFrame {
  readonly width: number;
  readonly height: number;
  x(frequency_Hz: number): number;
  y(level: number): number;
  /** Rules, figures and words of both axes. */
  readonly ground: readonly string[];
}

const margin = { left: 42, right: 10, top: 12, bottom: 30 };

export interface LogFrameAsked {
  readonly width?: number;
  readonly height?: number;
  readonly ends_Hz: readonly [number, number];
  readonly ends: readonly [number, number];
  readonly unit: string;
  /** Digits as the record's language writes them. */
  digits(text: string): string;
}

/** Steps of 1, 2 or 5 times a power of ten that cut the span into about `count` parts. */
export function roundStep(span: number, count: number): number {
  const raw = span / count;
  const decade = 10 ** Math.floor(Math.log10(raw));
  return decade * ([1, 2, 5, 10].find((one) => one * decade >= raw) ?? 10);
}

export function logFrame({ width = 480, height = 190, ends_Hz, ends, unit, digits }: LogFrameAsked): LogFrame {
  const [low_Hz, high_Hz] = ends_Hz.map(Math.log10) as [number, number];
  const [low, high] = ends;
  const x = (frequency_Hz: number) =>
    margin.left + ((Math.log10(frequency_Hz) - low_Hz) / (high_Hz - low_Hz)) * (width - margin.left - margin.right);
  const y = (level: number) =>
    height - margin.bottom - ((level - low) / (high - low)) * (height - margin.top - margin.bottom);
  const bottom = height - margin.bottom;
  const ground: string[] = [];
  for (let decade = Math.floor(low_Hz); decade <= Math.ceil(high_Hz); decade++) {
    for (const digit of [1, 2, 3, 4, 5, 6, 7, 8, 9]) {
      const at_Hz = digit * 10 ** decade;
      if (at_Hz < ends_Hz[0] * 0.999 || at_Hz > ends_Hz[1] * 1.001) continue;
      ground.push(line(`M${p(x(at_Hz))} ${p(margin.top)}V${p(bottom)}`, hair, digit === 1 ? 0.7 : 0.3));
      if (digit === 1 || digit === 2 || digit === 5) {
        ground.push(letters(x(at_Hz), bottom + 12, digits(hertz(at_Hz)), { anchor: "middle", size: 8 }));
      }
    }
  }
  const step = roundStep(high - low, 5);
  for (let level = Math.ceil(low / step) * step; level <= high + step * 1e-6; level += step) {
    ground.push(line(`M${margin.left} ${p(y(level))}H${width - margin.right}`, hair, 0.4));
    ground.push(letters(margin.left - 5, y(level) + 3, digits(signed(level, step)), { anchor: "end", size: 8 }));
  }
  ground.push(
    line(`M${margin.left} ${margin.top}V${p(bottom)}H${width - margin.right}`, graphite, 0.8),
    letters(margin.left - 5, margin.top - 3, unit, { anchor: "end", size: 8, italic: true }),
    letters(width - margin.right, height - 4, "Hz", { anchor: "end", size: 8, italic: true }),
  );
  return { width, height, x, y, ground };
}

const hertz = (frequency_Hz: number) => (frequency_Hz >= 1000 ? `${frequency_Hz / 1000} k` : `${frequency_Hz}`);

function signed(level: number, step: number): string {
  const decimals = Math.max(0, -Math.floor(Math.log10(step)));
  return (Math.abs(level) < step * 1e-6 ? 0 : level).toFixed(decimals);
}
