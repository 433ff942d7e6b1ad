import { type Drawing, graphite, hair, ink, letters, line, p, pencil, svg } from "./drawing.ts";
import { roundStep } from "./logFrame.ts";

export interface PanelYear {
  readonly panel: string;
  /** Clearance that is left at its movement; a panel may move so far either way. */
  readonly room_mm: number;
  readonly year: readonly { readonly month: number; readonly moved_mm: number }[];
}

const months = ["J", "F", "M", "A", "M", "J", "J", "A", "S", "O", "N", "D"];
const frame = { left: 42, right: 100, top: 14, bottom: 24, width: 480, height: 170 };

/** How far each panel of the case moves across its grain over the year at its destination. */
export function caseDrawing(panels: readonly PanelYear[], destination: string): Drawing | undefined {
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
    ...months.map((name, i) => letters(x(i + 1), frame.height - 8, name, { anchor: "middle", size: 8 })),
    letters(frame.left - 5, frame.top - 4, "mm", { anchor: "end", size: 8, italic: true }),
  ];
  const dashes = ["", ' stroke-dasharray="6 3"', ' stroke-dasharray="2 2"', ' stroke-dasharray="8 2 2 2"'];
  const ends: number[] = [];
  const strokes = drawn.flatMap(({ panel, year }, i) => {
    const path = year.map(({ month, moved_mm }) => `${p(x(month))} ${p(y(moved_mm))}`).join("L");
    const wanted = y(year.at(-1)!.moved_mm) + 3;
    const free = ends.reduce((at, taken) => (Math.abs(at - taken) < 10 ? taken + 10 : at), wanted);
    ends.push(free);
    return [
      line(`M${path}`, i === 0 ? pencil : ink, 1.2, dashes[i]),
      letters(frame.width - frame.right + 6, free, panel, { size: 8.5, colour: ink }),
    ];
  });
  const told = drawn.map(({ panel, year }) => {
    const moved = year.map(({ moved_mm }) => moved_mm);
    return `${panel} from ${millimetres(Math.min(...moved))} to ${millimetres(Math.max(...moved))} mm`;
  });
  return {
    id: "case",
    title: `The case over a year in ${destination}`,
    alt: `Movement of the panels across the grain, month by month, against their size when joined: ${told.join("; ")}.`,
    caption:
      "Against the size when joined; wider is up. Computed from the panels' own weighings and the climate there.",
    svg: svg(frame.width, frame.height, [...ground, ...strokes]),
  };
}

const millimetres = (mm: number) => Number(mm.toFixed(2)).toString().replace("-", "\u2212");
