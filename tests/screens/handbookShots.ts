/** A picture of the handbook: where it is taken, and how much of the screen it shows. */
export interface Shot {
  readonly name: string;
  readonly chapter: string;
  readonly path: string;
  /** Where it begins; left out, at the top of the page. */
  readonly from?: string;
  /** About so many pixels of it: to where no line of words is cut through. */
  readonly height: number;
}

export const shots: readonly Shot[] = [
  { name: "morning", chapter: "morning", path: "/", height: 1100 },
  { name: "promises", chapter: "orders-and-promises", path: "/promises", height: 820 },
  { name: "tray", chapter: "heat-run", path: "/valves/B-32", height: 800 },
  { name: "trays", chapter: "sets", path: "/valves", height: 640 },
  { name: "probe", chapter: "probe-card", path: "/unit/0417/probe", height: 1080 },
  { name: "bench", chapter: "bench-sheet", path: "/unit/0237/bench", height: 1000 },
  { name: "hum", chapter: "hum-hearing", path: "/unit/0417/hum", height: 1060 },
  { name: "supply", chapter: "supply", path: "/unit/0585/hum", from: ".supplies", height: 700 },
  { name: "timber", chapter: "timber", path: "/timber", height: 640 },
  { name: "case", chapter: "case", path: "/unit/0417/case", height: 780 },
  { name: "safety", chapter: "safety", path: "/unit/0417/safety", height: 820 },
  { name: "listening", chapter: "listening", path: "/listening", height: 760 },
  { name: "notebook", chapter: "notebook", path: "/notebook/Ebb", height: 840 },
  { name: "unit", chapter: "release", path: "/unit/0417", height: 1180 },
  { name: "instruments", chapter: "instruments", path: "/instruments", height: 760 },
  { name: "look-back", chapter: "look-back", path: "/look-back", height: 1060 },
];
