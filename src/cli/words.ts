import Table from "cli-table3";
import type { HumHearingView, PromiseView, ProposalView, UnitView } from "../workshop/views.ts";

/** Plain text for a terminal: what the screens show, in the same words. */

const signs: Record<string, string> = {
  proven: "✓",
  refuted: "✗",
  undecided: "?",
  open: "·",
  void: "∅",
  conceded: "~",
};

export function unitWords(view: UnitView): string {
  const { place, nominal_V, frequency_Hz } = view.destination;
  return [
    `Unit ${view.unit}, ${view.model} revision ${view.revision}, order ${view.order}, for ${place} (${nominal_V} V, ${frequency_Hz} Hz)`,
    view.due ? `due ${dayWords(view.due)}` : "no date asked for",
    "",
    table(
      ["", "claim", "state", "because"],
      view.claims.map((claim) => [signs[claim.state]!, claim.title, claim.state, claim.because]),
      [3, 34, 11, 68],
    ),
    "",
    ...releaseWords(view),
    ...(view.nextChecks.length > 0
      ? [
          "",
          "Next checks, the cheapest first:",
          ...view.nextChecks.slice(0, 5).map((next) => `  ${next.title}: ${next.why}`),
        ]
      : []),
    ...(view.cautions.length > 0 ? ["", ...view.cautions.map((caution) => `Caution: ${caution}`)] : []),
  ].join("\n");
}

export function releaseWords(view: Pick<UnitView, "unit" | "release" | "released">): string[] {
  if (view.released) return [`Unit ${view.unit} is released.`];
  if (view.release.granted) return [`Nothing is missing: unit ${view.unit} may be released.`];
  return [
    `Release would be refused; ${view.release.missing.length} missing:`,
    ...view.release.missing.map(({ title, state, because }) => `  ${signs[state]} ${title} (${state}): ${because}`),
  ];
}

export function humWords(view: HumHearingView): string {
  const shown = view.lines.filter((line) => matters(line, view.lines));
  const left = view.lines.length - shown.length;
  const rows = shown.map((line) => {
    const main = line.causes.toSorted((a, b) => b.share - a.share)[0];
    return [
      line.channel,
      line.recording,
      `${line.frequency_Hz.toFixed(1)} Hz`,
      line.of === "supply" ? "its supply" : "building",
      `${microvolts(line.level_Vrms)} ± ${microvolts(line.doubt_Vrms)} µV`,
      main ? likeliest(main) : "",
      heardWords(line.heardOn),
    ];
  });
  return [
    `Hum hearing of unit ${view.unit}, building mains ${view.building_Hz} Hz`,
    "",
    ...view.recordings.map(
      (r) =>
        `  ${r.recording}: ${r.source === "building" ? "on the building's mains" : `regenerated at ${r.frequency_Hz} Hz`}, ${r.duration_s.toFixed(1)} s, valves ${Object.entries(
          r.valves,
        )
          .map(([position, valve]) => `${position}=${valve}`)
          .join(" ")}`,
    ),
    "",
    rows.length > 0
      ? table(
          ["channel", "recording", "line", "follows", "level", "likeliest cause, share of its power", "heard on"],
          rows,
        )
      : "No mains-related line stands out of the floor.",
    ...(left > 0 ? [`${left} fainter lines are left out here; --json lists them all.`] : []),
    "",
    ...view.sentences.map((sentence) => `  ${sentence}`),
    view.nextRecording ? `\nNext recording to make: ${view.nextRecording.why}` : "",
  ].join("\n");
}

/** Lines within reach of hearing, and the strongest of each family in each channel and recording. */
function matters(line: HumHearingView["lines"][number], all: HumHearingView["lines"]): boolean {
  if (line.heardOn.some(({ margin_dB }) => margin_dB > -10)) return true;
  const family = all.filter((l) => l.channel === line.channel && l.recording === line.recording && l.of === line.of);
  return family.every(({ level_Vrms }) => level_Vrms <= line.level_Vrms);
}

export function proposalWords(proposal: ProposalView): string {
  const { promise } = proposal;
  return [
    `Proposed: exchange ${proposal.out} at ${proposal.position} for ${proposal.in} (best of ${proposal.considered} on the shelf).`,
    ...proposal.because.map((sentence) => `  ${sentence}`),
    `  predicted imbalance ${proposal.balance_dB.toFixed(2)} ± ${proposal.doubt_dB.toFixed(2)} dB, limit ${proposal.limit_dB} dB`,
    `  voids ${proposal.voids.length} proofs: ${proposal.voids.map((claim) => claim.title).join("; ")}`,
    "  retests, in order:",
    ...proposal.retests.map(
      (test, index) =>
        `    ${index + 1}. ${test.title}: ${test.hands_min} min of hands${test.wait_h > 0 ? ` after ${test.wait_h} h of waiting` : ""}${test.danger === "none" ? "" : ` (${test.danger})`}`,
    ),
    `  promise: ${promise.promised ? `${dayWords(promise.promised)} was promised; ` : ""}before the exchange ${dayWords(promise.before_p80)} at 80 %, after it ${dayWords(promise.after_p80)} at 80 %; held by ${promise.heldBy}`,
  ].join("\n");
}

export function promiseWords(promises: readonly PromiseView[]): string {
  return table(
    ["order", "model", "promised", "half", "80 %", "95 %", "held by"],
    promises.map((p) => [
      p.order,
      p.model,
      p.promised ? dayWords(p.promised) : "–",
      dayWords(p.p50),
      dayWords(p.p80),
      dayWords(p.p95),
      p.heldBy,
    ]),
  );
}

/** `Fri 5 Mar 2027`, in the offset that the instant carries. */
export function dayWords(instant: string): string {
  const [year, month, day] = instant.slice(0, 10).split("-").map(Number) as [number, number, number];
  const weekday = ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"][
    new Date(Date.UTC(year, month - 1, day)).getUTCDay()
  ];
  const monthName = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"][month - 1];
  return `${weekday} ${day} ${monthName} ${year}`;
}

function causeWords(cause: HumHearingView["lines"][number]["causes"][number]): string {
  return cause.cause === "valve" ? `valve ${cause.valve ?? ""} at ${cause.position ?? ""}`.trim() : cause.cause;
}

/** A cause that may hold nothing of the line at all is not named as if it did. */
function likeliest(main: HumHearingView["lines"][number]["causes"][number]): string {
  const range = `${percent(main.low)} to ${percent(main.high)}`;
  return main.low < 0.05 ? `not told apart (${causeWords(main)} ${range})` : `${causeWords(main)}, ${range}`;
}

function heardWords(heard: HumHearingView["lines"][number]["heardOn"]): string {
  const of = (audible: string) => heard.filter((h) => h.audible === audible).map((h) => h.headphone);
  const yes = of("yes");
  const perhaps = of("doubtful");
  const parts = [
    yes.length > 0 ? yes.join(", ") : undefined,
    perhaps.length > 0 ? `perhaps ${perhaps.join(", ")}` : undefined,
  ].filter((part) => part !== undefined);
  return parts.length > 0 ? parts.join("; ") : "none";
}

function percent(share: number): string {
  return `${Math.round(share * 100)} %`;
}

function microvolts(level_Vrms: number): string {
  return (level_Vrms * 1e6).toPrecision(3);
}

/** Rows without rules between them, on paper-like ground: a terminal has little room. */
export function table(head: string[], rows: string[][], widths?: number[]): string {
  const bare = Object.fromEntries(
    [
      "top",
      "top-mid",
      "top-left",
      "top-right",
      "bottom",
      "bottom-mid",
      "bottom-left",
      "bottom-right",
      "left",
      "left-mid",
      "mid",
      "mid-mid",
      "right",
      "right-mid",
    ].map((place) => [place, ""]),
  );
  const made = new Table({
    head,
    chars: { ...bare, middle: " " },
    style: { head: [], border: [], "padding-left": 0, "padding-right": 1 },
    wordWrap: true,
    ...(widths ? { colWidths: widths } : {}),
  });
  made.push(...rows);
  return made.toString();
}
