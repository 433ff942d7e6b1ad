import { fixed } from "../common/number.ts";
import { spoken } from "../languages/spoken.ts";

/** English of the timber screens. */

export const shelf = spoken("timber", "shelf", {
  what: "the timber shelf",
  title: "Timber",
  emptyTitle: "No timber stands here yet",
  empty:
    "Name the places where it will stand and what warms them, then receive the first blank: its species, size and ring angle. Everything else follows from its weighings.",
  weigh: "Weigh pieces",
  places: "Chamber and plate",
  cuts: "Sawing plan",
  receive: "Receive a blank",
  place: "Add or change a place",
  air: "Log the air of a place",
  standing: (count: number) => (count === 1 ? "One piece stands in the shop." : `${count} pieces stand in the shop.`),
  due: (count: number) => (count === 1 ? "One is to be weighed now." : `${count} are to be weighed now.`),
  ready: (count: number) => (count === 1 ? "One is ready." : `${count} are ready.`),
  computing: (count: number) =>
    count === 1 ? "One piece is still being computed." : `${count} pieces are still being computed.`,
  how: "Each section is the end of a board, darker where it is wetter, its thickness drawn larger than its width. On the rule below it the hatching is what a year at its destination makes of it; the stroke is what it holds now, with its doubt.",
  loose: "from its places alone",
  approach: "only the approach is known",
  pending: "being computed",
  unbound: "for no unit",
  none: "Nothing stands here.",
  cases: "Cases",
  caseOf: (name: string, panels: number) => `${name}, ${panels} panels`,
  caseFree: "given to no unit yet",
  lastWeighed: (when: string) => `weighed ${when}`,
  neverWeighed: "never weighed",
  ripe: (at: string) => `ripe ${at}`,
});

export const standingWords = spoken("timber", "standingWords", {
  inside: "inside the band",
  "too wet": "too wet",
  "too dry": "too dry",
  "cannot tell": "cannot tell",
} as const);

export const weigh = spoken("timber", "weigh", {
  garbled: "A line of the balance could not be read: print it again.",
  unsteady: (mass: string) => `${mass} g, still moving: wait until it rests.`,
  what: "the shelf",
  title: "Weigh",
  lead: "Scan or type the piece, then its mass, then Enter. Keys never leave this desk.",
  piece: "Piece",
  mass: "Mass",
  write: "Write it down",
  balance: "Balance",
  balanceHint: "As it stands among the instruments",
  noBalance: "Which balance? Choose it once; it is remembered here.",
  unknown: (piece: string) => `No piece “${piece}” is on record. It is kept aside below.`,
  done: (piece: string, mass: string) => `${piece} weighed ${mass} g.`,
  connect: "Read the balance by its cable",
  connected: "The balance is joined. Press its print key, or Enter here.",
  lost: "The balance was unplugged. Type masses until it is back.",
  noSerial: "This browser reads no serial port. Masses are typed, or the balance acts as a keyboard.",
  nothing: "The balance sends nothing that reads as grams.",
  nextUp: "Next, by what a weighing would tell",
  aside: "Kept aside",
  keptAside: (mass: string, why: string) =>
    `The weighing of ${mass} g is written down but does not count, as it does not fit this piece: ${why}. Weigh again, or put it right on the piece’s page.`,
  unexplained: (mass: string, alone: string, holds: string) =>
    `The weighing of ${mass} g is written down, but nothing known of this piece explains it: by itself it would be ${alone} %, by everything together ${holds} %. Weigh again, or put it right on the piece’s page.`,
  asideHow: "Not written down, and nothing of it lost. Mend it and write it, or let it go.",
  mend: "Mend it",
  drop: "Let it go",
  holds: (mean: string, doubt: string) => `It holds ${mean} ± ${doubt} %.`,
  todayTitle: "Weighed in this sitting",
});

export const places = spoken("timber", "places", {
  what: "the chamber and plate board",
  title: "Chamber and plate",
  lead: "What ripens when. Pieces of one thickness and one target dry alike, and each comes out at its own hour.",
  emptyTitle: "No place is written down",
  empty: "Add the shop, the warm chamber and the hot plate with what they are set to.",
  air: (temperature: string, humidity: string, emc: string) =>
    `${temperature} °C, ${humidity} % humidity: wood comes to ${emc} % in it`,
  noAir: "its air was never logged, so nothing can be said of what ripens here",
  roomAir: "in the air of the room",
  set: (set: string) => `set to ${set} °C`,
  oneFace: "one face open",
  holds: (count: number) => `room for ${count}`,
  stands: "Here",
  empty1: "Empty.",
  cautionPlate:
    "Plates burn, and wood on a plate whose control fails chars slowly: a limiter of its own, and nobody away.",
  cautionRags:
    "Rags with drying oil heat by themselves: spread them flat outdoors, or under water in a closed can. Never near chamber or plate.",
  move: "Move pieces",
});

export const runs = spoken("timber", "runs", {
  planned: (place: string, at: string) => `by plan to ${place} ${at}`,
  waits: "When each piece comes out is being worked out …",
  weigh: "Weigh next",
  notes: "How it was planned",
  ripe: "At their target: take out",
  noTarget: "For no unit, so without a target",
  inside: "Comes out",
  next: (at: string) => `Could go in next, ${at}`,
  group: (thickness: number) => `${thickness} mm`,
  to: (target: string) => `to ${target} %`,
  out: (at: string) => at,
  outOpen: "or much later, if ever: weigh it",
  over: (names: string, left: readonly { readonly ifLeft_pct: number }[]) =>
    `Take ${names || "them"} out in time: left in until the last of all is ripe, ${left.length === 1 ? "it" : "they"} would be down to ${fixed(Math.min(...left.map(({ ifLeft_pct }) => ifLeft_pct)), 1)} %.`,
});

export const cracks = spoken("timber", "cracks", {
  title: "When pieces cracked",
  none: "No crack is on record.",
  ofPlated: (count: number, pieces: number) =>
    `${count} of ${pieces} pieces that went over the plate, or were made of such.`,
  whole: "Still whole, by hours on the plate",
  wholeHow: (pieces: number) =>
    `${pieces} pieces. Shaded: where the share may lie, 95 of 100. Nothing is drawn where too few were left to look at.`,
  wholeLabel: (points: readonly { readonly hours: number; readonly survival: number }[]) =>
    `Share still whole: ${points.map(({ hours, survival }) => `${Math.round(100 * survival)} % at ${Math.round(hours)} h`).join(", ")}`,
  where: "In which work, of which wood",
  share: (count: number, of: number, low: string, high: string) => `${count} of ${of}, ${low} to ${high} %`,
  silent: (count: number) =>
    count === 1
      ? "One more group is too small to say anything of."
      : `${count} more groups are too small to say anything of.`,
  early: "What a weighing before the plate would have told",
  earlyWaiting: "Being worked out from every piece that went over the plate …",
});

export const underWay = spoken("timber", "underWay", {
  pieces: (done: number, of: number) => `${done} of ${of} pieces are worked out by their weighings`,
  last: "All pieces are worked out; the last step takes a few seconds",
});

export const cuts = spoken("timber", "cuts", {
  round: (defects: string) => `cut round: ${defects}`,
  what: "the sawing plan",
  title: "Sawing plan",
  lead: "Which piece of which board becomes which panel, over all cases not made yet. Nothing is written down before it is sawn.",
  waits: "Being worked out over all boards and cases …",
  noneTitle: "No panels are wanted yet",
  none: "Write down what the case of a unit is to be made of; the boards on the shelf are then shared out over all such cases.",
  size: (length: number, width: number, thickness: number) => `${length} × ${width} × ${thickness} mm`,
  ring: (angle: number) => `rings at ${angle}°`,
  area: (used: number, opened: number) => `${Math.round((100 * used) / Math.max(1e-9, opened))} % of it becomes panels`,
  offcuts: (lengths: readonly number[]) =>
    lengths.length === 0 ? "" : `kept: ${lengths.map((one) => Math.round(one)).join(", ")} mm`,
  sum: (opened: number, wasted: number) =>
    `${fixed(opened / 100, 2)} m² of board, ${fixed(wasted / 100, 2)} m² of it waste.`,
  dryFirst: (by: string) => `dry it by ${by} % first`,
  moves: (movement: string) => `its year moves it ${movement} mm`,
  stave: (stave: number, staves: number) => (staves === 1 ? "" : `, stave ${stave} of ${staves}`),
  saw: "It was sawn so",
  into: "Pieces as they left the saw: number, length, width in mm",
  write: "Write the sawing down",
  done: "The pieces stand on the shelf under their own numbers, kept for their units.",
  unplaced: "Panels without a board",
  aside: "Boards left aside",
  wanted: "What a case is to be made of",
  open: "Nothing is written down for",
  notes: "How it was planned",
});

export const piece = spoken("timber", "piece", {
  what: (name: string) => `piece ${name}`,
  back: "The shelf",
  size: (length: number, width: number, thickness: number) => `${length} × ${width} × ${thickness} mm`,
  ring: (angle: number) =>
    angle < 30
      ? `flat-sawn, rings at ${angle}°`
      : angle > 60
        ? `quarter-sawn, rings at ${angle}°`
        : `rings at ${angle}°`,
  from: (parent: string) => `sawn from ${parent}`,
  into: "Sawn into",
  inCase: (name: string, panel: string) => `${panel} of case ${name}`,
  holds: "It holds",
  skin: "skin",
  core: "core",
  course: "Its course",
  courseHow:
    "Blue line: its mean, with the doubt about it; dashed: skin and core. Dots: what it weighed, as moisture. Hatched: the year at its destination.",
  noCourse: "No course can be drawn yet.",
  moisture: "Moisture, %",
  span: "Shown",
  thisStay: "Where it stands now",
  wholeLife: "All that is known",
  check: (index: string, words: string) => `Check index ${index}, ${words}: a number to rank by, not a chance.`,
  rankWaits: "Where that stands among the shop’s own past pieces is being worked out …",
  next: (at: string) => `Weigh it next ${at}`,
  ripe: (at: string) => `Ripe ${at}`,
  target: (target: string) => `target ${target} %`,
  aside: "Weighings kept aside by the fit",
  history: "History",
  notes: "How it was computed",
  work: "Write down work on it",
  move: "It was moved",
  machine: "It was machined",
  saw: "It was sawn into panels",
  coat: "A coat was put on",
  flaw: "A crack or bend was found",
  offcut: "An offcut came out of the oven",
  keep: "It is kept for a unit",
  correct: "Correct",
  photo: "Photo of the flaw",
  now: "now",
});

export const caseWords = spoken("timber", "caseWords", {
  what: (unit: string) => `the case of unit ${unit}`,
  title: (unit: string) => `Case of ${unit}`,
  back: (unit: string) => `Folder of unit ${unit}`,
  goesTo: (place: string) => `It goes to ${place}.`,
  noClimate: "Nothing says what air that is: enter it below.",
  panel: (panel: string, pieceName: string) => `${panel}, ${pieceName}`,
  held: { edges: "held at both edges", centre: "held at its centre", free: "free" } as const,
  across: (width: string, angle: string) => `${width} mm across, rings at ${angle}°`,
  room: (gap: string) => `${gap} mm to swell into`,
  warm: "inner face warmed",
  joined: (moisture: string, doubt: string) => `joined at ${moisture} ± ${doubt} %`,
  year: (dry: string, wet: string) => `the year makes it ${dry} to ${wet} %`,
  clearance: "Room left",
  take: "Its fixing must take",
  curve: "Through the year",
  curveHow:
    "The line is the panel's edge month by month, upward when it grows. It must stay out of the hatching: the neighbour it would press on, or with both edges held, the width at which it was joined, give or take what wood bears.",
  months: ["J", "F", "M", "A", "M", "J", "J", "A", "S", "O", "N", "D"],
  remedy: "Remedy",
  coats: "Coats",
  hard: (at: string) => `hard ${at}`,
  turn: (at: string) => `turn it ${at}`,
  noSoak: (at: string) => `No heat soak before ${at}: the oil is still hardening.`,
  soakTooEarly: (at: string) =>
    `The soak of ${at} did not wait for the oil to be hard. Let it harden, then soak the case again.`,
  climate: "Air of its rooms",
  climateBasis: "Where this comes from",
  join: "Join panels into a case",
  give: "Give it a case",
  coat: "A coat was put on this case",
  opened: "The case was opened",
  openedHow: "Earth bond and the soak are then to be proven again.",
  basis: (words: string) => `Air there: ${words}.`,
});

export const planning = spoken("timber", "planning", {
  title: "What is planned",
  until: "until",
  skinCore: (skin: string, core: string) => `skin ${skin}, core ${core} %`,
  undone: (percent: number) => `${percent} % of what its air asks for still to come`,
  plan: "Plan where it goes next",
  begins: "The first stage begins",
  beginsHint: "Date and clock, such as 2027-03-05 17:00",
  stages: "Stages: place and hours",
  stagesExample: (places: readonly string[]) =>
    places.length > 1 ? `${places[1]} 48; ${places[0]} 24 planed to 18` : `${places[0] ?? "warm chamber"} 48`,
  stagesHint: (example: string) =>
    `One after another with semicolons, and the millimetres it is planed to as a stage begins; such as ${example}. Leave it empty to give the plan up`,
  writePlan: "Write the plan down",
  planDone: "Planned. What it will hold as each stage ends stands above.",
  planGivenUp: "The plan is given up: it stays where it is.",
  badMoment: "The date can’t be read: write it like 2027-03-05 17:00.",
  badStage: (typed: string, example: string) =>
    `“${typed}” can’t be read as a stage: write its place and its hours, such as ${example}.`,
  marks: "It was looked over",
  defects: "Not clear: what, mm from the end, mm from the edge",
  defectsHint:
    "knot, check, sapwood or other, with semicolons; without the edge it takes the whole width. Such as knot 480-520 30-60; check 0-40. Empty: clear all over",
  figure: "Figure",
  figures: ["Plain", "Some", "Fine", "The finest"],
  notJudged: "Not judged",
  writeMarks: "Write down what was seen",
  marksDone: "On record: panels are cut round it.",
  badMark: (typed: string) =>
    `“${typed}” can’t be read: write knot, check, sapwood or other, then where, such as knot 480-520 30-60.`,
  finishTitle: "Finishing plan",
  finishPlan: "Plan the finish",
  firstCoat: "First coat on",
  who: "Whose hands",
  finish: "Finish",
  product: "What the tin says",
  coats: "Coats",
  between: "Next coat after",
  hardens: "Hard after",
  tinHint: "By the tin; usual times where left out",
  last: "And last, one coat of",
  nothing: "Nothing more",
  writeFinish: "Write the plan down",
  finishDone: "Planned: every coat stands in the calendar, on days its hands are in.",
  badCoats: "Coats are a number from 1 to 12.",
  planSoak: "Plan the soak",
  soakBegins: "It begins",
  where: "Where",
  soakHours: "For how long",
  writeSoak: "Write the soak down",
  soakDone: "Planned: the calendar says whether it waits for the finish.",
  coatsLeft: (count: number, who: string) =>
    `${count} ${count === 1 ? "coat" : "coats"} to come, by the hours of the ${who}.`,
  coatsOn: "All planned coats are on.",
  extraCoats: (count: number) => `${count} more than planned ${count === 1 ? "is" : "are"} on.`,
  isOn: "(is on)",
  soak: (place: string, until: string) => `Soak on ${place}, until ${until}.`,
  soakTooSoon: (why: string, at: string) => `Too soon: ${why}. Not before ${at}.`,
  airAssumed: "No air of a room is logged: reckoned as at 20 °C and 50 %.",
});

export const finishing = spoken("timber", "finishing", {
  title: "Finish",
  nextCoat: "Another coat from",
  handle: "Dry to handle",
  hard: "Hard through",
  handleAndHard: "Dry to handle, hard through",
  heat: "Heat soak, parcel from",
  withNext: (at: string) =>
    `With another coat as early as that, it is hard ${at}. Usual times, by the room’s air; the tin’s own win.`,
  noAir: "The room’s air is not on record, or too cold for a finish: only what the tin says is told.",
});
