import type { Sayer } from "../languages/sayer.ts";
import { type Drawing, graphite, hair, ink, letters, line, p, pencil, svg } from "./drawing.ts";
import type { HumLine } from "./drawn.ts";

const row = 26;
const bar = { left: 120, width: 190 };
const washes = ["#22549b", "#8a8172", "#c7bea8", "#e8e0cb"];

/** A row per line, its bar split by cause as on the hearing's page; beside it whether it is heard. */
export function humDrawing(given: readonly HumLine[], say: Sayer): Drawing | undefined {
  if (given.length === 0) return undefined;
  const { drawings: said } = say.words;
  const lines = given.map((one) => ({
    name: `${say.digits(one.frequency_Hz.toFixed(1))} Hz, ${say.trade(one.channel)}`,
    level: microvolts(one.level_Vrms, say),
    causes: one.causes.map(({ cause, position, share }) => ({
      words: [said.causes[cause] ?? cause, position].filter(Boolean).join(" "),
      share,
    })),
    heard: one.heard.length === 0 ? said.heardOnNone : said.heardOn(one.heard.join(", ")),
    isHeard: one.heard.length > 0,
  }));
  const causes = [...new Set(lines.flatMap((one) => one.causes.map(({ words }) => words)))];
  const colour = (words: string) => washes[Math.min(washes.length - 1, causes.indexOf(words))]!;
  const height = 22 + lines.length * row + causes.length * 14 + 8;
  const parts = lines.flatMap(({ name, level, causes: shares, heard, isHeard }, i) => {
    const y = 18 + i * row;
    let x = bar.left;
    const pieces = shares.map(({ words, share }) => {
      const width = bar.width * share;
      const piece = `<rect x="${p(x)}" y="${y}" width="${p(width)}" height="12" fill="${colour(words)}" stroke="${ink}" stroke-width="0.4"/>`;
      x += width;
      return piece;
    });
    return [
      letters(0, y + 10, name, { colour: ink }),
      letters(bar.left - 6, y + 10, level, { anchor: "end", size: 8 }),
      ...pieces,
      line(`M${bar.left} ${y}h${bar.width}v12h${-bar.width}z`, hair, 0.5),
      letters(bar.left + bar.width + 8, y + 10, heard, { size: 8, colour: isHeard ? ink : graphite }),
    ];
  });
  const key = causes.flatMap((words, i) => {
    const y = 24 + lines.length * row + i * 14;
    return [
      `<rect x="${bar.left}" y="${y}" width="9" height="9" fill="${colour(words)}" stroke="${ink}" stroke-width="0.4"/>`,
      letters(bar.left + 14, y + 8, words, { size: 8.5, colour: i === 0 ? pencil : graphite }),
    ];
  });
  const told = lines.map(({ name, level, causes: shares, heard }) => {
    const most = shares.reduce((best, one) => (one.share > best.share ? one : best), {
      words: said.undecided,
      share: 0,
    });
    return said.humLine(name, level, most.words, heard);
  });
  return {
    id: "hum",
    title: said.hum,
    alt: said.humAlt(told.join("; ")),
    caption: said.humCaption,
    svg: svg(480, height, [...parts, ...key]),
  };
}

function microvolts(level_Vrms: number, { digits }: Sayer): string {
  return `${digits(String(Number((level_Vrms * 1e6).toPrecision(3))))} \u00b5V`;
}
