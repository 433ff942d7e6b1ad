import type { Sayer } from "../languages/sayer.ts";
import { type Drawing, graphite, hair, ink, letters, line, p, pencil, svg } from "./drawing.ts";
import type { PanelYear } from "./drawn.ts";
import { roundStep } from "./logFrame.ts";

const room = { left: 42, right: 100, top: 14, bottom: 24, width: 480 };

/** How far each panel of the case moves across its grain over the year at its destination. */
export function caseDrawing(
  panels: readonly PanelYear[],
  destination: string,
  say: Sayer,
  height = 170,
): Drawing | undefined {
  const frame = { ...room, height };
  const { drawings: words } = say.words;
  const millimetres = (mm: number) => say.digits(Number(mm.toFixed(2)).toString());
  const drawn = panels.filter(({ year }) => year.length >= 2).slice(0, 4);
  if (drawn.length === 0) return undefined;
  const all = drawn.flatMap(({ year }) => year.map(({ moved_mm }) => moved_mm));
  const step = roundStep(Math.max(0.2, Math.max(...all, 0) - Math.min(...all, 0)), 4);
  const low = step * Math.floor(Math.min(...all, 0) / step);
  const high = step * Math.ceil(Math.max(...all, 0) / step + 1e-9);
  const x = (month: number) => frame.left + ((month - 0.5) / 12) * (frame.width - frame.left - frame.right);
  const y = (mm: number) =>
    frame.height - frame.bottom - ((mm - low) / (high - low || 1)) * (frame.height - frame.top - frame.bottom);
  const ground = [
    ...Array.from({ length: Math.round((high - low) / step) + 1 }, (_, i) => low + i * step).flatMap((mm) => [
      line(`M${frame.left} ${p(y(mm))}H${frame.width - frame.right}`, Math.abs(mm) < 1e-9 ? graphite : hair, 0.5),
      letters(frame.left - 5, y(mm) + 3, millimetres(mm), { anchor: "end", size: 8 }),
    ]),
    ...words.months.map((name, i) => letters(x(i + 1), frame.height - 8, name, { anchor: "middle", size: 8 })),
    letters(frame.left - 5, frame.top - 4, "mm", { anchor: "end", size: 8, italic: true }),
  ];
  const dashes = ["", ' stroke-dasharray="6 3"', ' stroke-dasharray="2 2"', ' stroke-dasharray="8 2 2 2"'];
  const names = apart(
    drawn.map(({ year }) => y(year.at(-1)!.moved_mm) + 3),
    10,
  );
  const strokes = drawn.flatMap(({ panel, year }, i) => {
    const path = year.map(({ month, moved_mm }) => `${p(x(month))} ${p(y(moved_mm))}`).join("L");
    return [
      line(`M${path}`, i === 0 ? pencil : ink, 1.2, dashes[i]),
      letters(frame.width - frame.right + 6, names[i]!, say.trade(panel), { size: 8.5, colour: ink }),
    ];
  });
  const told = drawn.map(({ panel, year }) => {
    const moved = year.map(({ moved_mm }) => moved_mm);
    return words.casePanel(say.trade(panel), millimetres(Math.min(...moved)), millimetres(Math.max(...moved)));
  });
  return {
    id: "case",
    title: words.case(destination),
    alt: words.caseAlt(told.join("; ")),
    caption: words.caseCaption,
    svg: svg(frame.width, frame.height, [...ground, ...strokes]),
  };
}

/** Heights as wished, each at least `least` under the one above it. */
function apart(wished: readonly number[], least: number): readonly number[] {
  const order = wished.map((_, i) => i).toSorted((a, b) => wished[a]! - wished[b]!);
  const placed = [...wished];
  order.forEach((i, k) => {
    const above = k === 0 ? undefined : placed[order[k - 1]!];
    if (above !== undefined) placed[i] = Math.max(placed[i]!, above + least);
  });
  return placed;
}
