import { type Drawing, graphite, hair, ink, letters, line, p, pencil, svg } from "./drawing.ts";

export interface HumLine {
  readonly frequency_Hz: number;
  readonly channel: string;
  readonly level_Vrms: number;
  readonly causes: readonly { readonly words: string; readonly share: number }[];
  /** Headphones it is heard on, each in a word. */
  readonly heard: readonly string[];
}

const row = 26;
const bar = { left: 120, width: 190 };
const washes = ["#22549b", "#8a8172", "#c7bea8", "#e8e0cb"];

/** A row per line, its bar split by cause as on the hearing's page; beside it whether it is heard. */
export function humDrawing(lines: readonly HumLine[]): Drawing | undefined {
  if (lines.length === 0) return undefined;
  const causes = [...new Set(lines.flatMap((one) => one.causes.map(({ words }) => words)))];
  const colour = (words: string) => washes[Math.min(washes.length - 1, causes.indexOf(words))]!;
  const height = 22 + lines.length * row + causes.length * 14 + 8;
  const parts = lines.flatMap(({ frequency_Hz, channel, level_Vrms, causes: shares, heard }, i) => {
    const y = 18 + i * row;
    let x = bar.left;
    const pieces = shares.map(({ words, share }) => {
      const width = bar.width * share;
      const piece = `<rect x="${p(x)}" y="${y}" width="${p(width)}" height="12" fill="${colour(words)}" stroke="${ink}" stroke-width="0.4"/>`;
      x += width;
      return piece;
    });
    return [
      letters(0, y + 10, `${frequency_Hz.toFixed(1)} Hz, ${channel}`, { colour: ink }),
      letters(bar.left - 6, y + 10, microvolts(level_Vrms), { anchor: "end", size: 8 }),
      ...pieces,
      line(`M${bar.left} ${y}h${bar.width}v12h${-bar.width}z`, hair, 0.5),
      letters(bar.left + bar.width + 8, y + 10, heard.length === 0 ? "heard on none" : `heard on ${heard.join(", ")}`, {
        size: 8,
        colour: heard.length === 0 ? graphite : ink,
      }),
    ];
  });
  const key = causes.flatMap((words, i) => {
    const y = 24 + lines.length * row + i * 14;
    return [
      `<rect x="${bar.left}" y="${y}" width="9" height="9" fill="${colour(words)}" stroke="${ink}" stroke-width="0.4"/>`,
      letters(bar.left + 14, y + 8, words, { size: 8.5, colour: i === 0 ? pencil : graphite }),
    ];
  });
  const told = lines.map(({ frequency_Hz, channel, level_Vrms, causes: shares, heard }) => {
    const most = shares.reduce((best, one) => (one.share > best.share ? one : best), { words: "undecided", share: 0 });
    return `${frequency_Hz.toFixed(1)} Hz ${channel}, ${microvolts(level_Vrms)}, mostly ${most.words}, ${heard.length === 0 ? "heard on none" : `heard on ${heard.join(", ")}`}`;
  });
  return {
    id: "hum",
    title: "Hum, line by line",
    alt: `Each mains line with its cause: ${told.join("; ")}.`,
    caption: "Each bar is one line of the hum, split by what causes it.",
    svg: svg(480, height, [...parts, ...key]),
  };
}

function microvolts(level_Vrms: number): string {
  return `${Number((level_Vrms * 1e6).toPrecision(3))} \u00b5V`;
}
