import { BadInput, quote } from "../maths/badInput.ts";
import type { Finish } from "./coats.ts";
import { type Hands, whenThere } from "./hands.ts";

/**
 * Days that a finish takes at 20 °C and 50 % humidity, thin coats. Oil and varnish as makers tell them
 * (reference/timberFinishes.json), the others common practice, no source: tins differ.
 */
export interface Cure {
  /** Until the next coat. */
  readonly between_h: number;
  /** Until it may be handled and assembled. */
  readonly handle_h: number;
  /** Until it is hard through, and may be warmed or packed. */
  readonly hard_h: number;
  /** Dries by taking up oxygen: rags heat up, and a warm soak too early seals soft oil in and can heat up itself. */
  readonly isDryingOil: boolean;
}

export const usualCure: Readonly<Record<Finish, Cure>> = {
  oil: { between_h: 24, handle_h: 72, hard_h: 14 * 24, isDryingOil: true },
  wax: { between_h: 12, handle_h: 24, hard_h: 48, isDryingOil: false },
  shellac: { between_h: 4, handle_h: 24, hard_h: 7 * 24, isDryingOil: false },
  lacquer: { between_h: 3, handle_h: 24, hard_h: 7 * 24, isDryingOil: false },
  varnish: { between_h: 24, handle_h: 48, hard_h: 14 * 24, isDryingOil: true },
};

export interface FinishingQuestion {
  /** One after another, each with its own tin's times where they differ from those of its finish. */
  readonly coats: readonly ({ readonly finish: Finish; readonly coats: number } & Partial<Omit<Cure, "isDryingOil">>)[];
  /** Hours at which the first of these coats went on already. */
  readonly done_h?: readonly number[];
  /** The present: no other coat goes on before. */
  readonly now_h?: number;
  readonly temperature_C: number;
  readonly humidity_pct: number;
  /** Hour at which the first coat goes on. */
  readonly begin_h: number;
  /** As the tin says, in place of what is usual. */
  readonly cure?: Partial<Record<Finish, Partial<Omit<Cure, "isDryingOil">>>>;
  /** Warm runs, soaks and parcels wished for, hours on the same count. */
  readonly wishes?: readonly {
    readonly name: string;
    readonly begin_h: number;
    readonly kind: "heat" | "pack" | "assemble";
  }[];
  /** Hours of the day at which someone can put on a coat, 8 to 17 for instance; any hour where left out. */
  readonly day?: { readonly from: number; readonly to: number };
  /** Clock hour of the day at hour 0. */
  readonly hourZero?: number;
  /** When someone is there, in place of `day`: days off and all. */
  readonly hands?: Hands;
}

export interface FinishingAnswer {
  readonly steps: readonly {
    readonly hour: number;
    readonly what: string;
    readonly kind: "coat" | "turn" | "handle" | "hard";
    /** It went on already. */
    readonly isDone?: boolean;
  }[];
  readonly handle_h: number;
  readonly hard_h: number;
  /** Curing in this air against that at 20 °C and 50 %. */
  readonly slower: number;
  readonly wishes: readonly {
    readonly name: string;
    readonly isAllowed: boolean;
    readonly earliest_h: number;
    readonly why: string;
  }[];
  readonly cautions: readonly string[];
  readonly notes: readonly string[];
}

/**
 * When each coat goes on, when the case may be handled, and when it is hard enough for warmth or a parcel.
 *
 *     curing time = usual·2^((20 − t)/10)·(1 + 0.5·max(0, h − 60)/20 for drying oils)
 *
 * @throws BadInput  no coats, a count below 1, air colder than 5 °C, where no finish cures
 * @remarks Common practice, no source: a rule of thumb that halves the time for ten kelvin. The tin's own times win.
 *   No heat soak before an oil is hard: warmth thins soft oil out of the pores and its curing gives off heat.
 */
export function finishingCalendar(question: FinishingQuestion): FinishingAnswer {
  const { coats, temperature_C, humidity_pct, begin_h } = question;
  if (coats.length === 0) throw new BadInput("coats", "none", "at least one", "name the finish and how many coats");
  if (temperature_C < 5) {
    throw new BadInput(
      "temperature_C",
      quote(temperature_C),
      "5 or more",
      "warm the finishing room; no finish cures in the cold",
    );
  }
  const warmth = 2 ** ((20 - temperature_C) / 10);
  const steps: FinishingAnswer["steps"][number][] = [];
  let next_h = begin_h;
  let [handle_h, hard_h, slowest] = [begin_h, begin_h, 1];
  let put = 0;
  coats.forEach(({ finish, coats: count, ...own }, i) => {
    if (!(count >= 1)) throw new BadInput(`coats[${i}].coats`, quote(count), "1 or more", "give how many coats");
    const cure = { ...usualCure[finish], ...question.cure?.[finish], ...own };
    const slower = warmth * (cure.isDryingOil ? 1 + (0.5 * Math.max(0, humidity_pct - 60)) / 20 : 1);
    slowest = Math.max(slowest, slower);
    for (let coat = 1; coat <= count; coat++) {
      const done_h = question.done_h?.[put++];
      const isDone = done_h !== undefined;
      const hour = done_h ?? whenSomeone(Math.max(next_h, question.now_h ?? next_h), question);
      const name = `${ordinal(coat)} coat of ${finish}`;
      steps.push({ hour, what: name, kind: "coat", ...(isDone && { isDone }) });
      if (!isDone)
        steps.push({
          hour: hour + 0.5,
          what: `wipe off what stands, turn the pieces; rags to the water can`,
          kind: "turn",
        });
      next_h = hour + slower * cure.between_h;
      handle_h = Math.max(handle_h, hour + slower * cure.handle_h);
      hard_h = Math.max(hard_h, hour + slower * cure.hard_h);
    }
  });
  steps.push({ hour: handle_h, what: "dry to handle: assemble", kind: "handle" });
  steps.push({ hour: hard_h, what: "hard through: may be warmed, soaked and packed", kind: "hard" });
  const hasOil = coats.some(({ finish }) => usualCure[finish].isDryingOil);
  return {
    steps: steps.sort((a, b) => a.hour - b.hour),
    handle_h,
    hard_h,
    slower: slowest,
    wishes: (question.wishes ?? []).map(({ name, begin_h: wished_h, kind }) => {
      const earliest_h = kind === "assemble" ? handle_h : hard_h;
      const isAllowed = wished_h >= earliest_h;
      const reason =
        kind === "heat" && hasOil
          ? "no heat before the oil is hard"
          : kind === "pack"
            ? "a parcel sticks to a soft finish"
            : "the finish is still soft";
      return {
        name,
        isAllowed,
        earliest_h,
        why: isAllowed ? "the finish is ready for it" : `${reason}: wait until hour ${Math.ceil(earliest_h)}`,
      };
    }),
    cautions: [
      ...(hasOil
        ? [
            "Rags and sanding dust with drying oil heat up by themselves and can catch fire within hours: spread them single and flat outdoors, or keep them under water in a closed metal can; never in the bin, near the chamber or a plate.",
          ]
        : []),
      "Sanding makes hardwood dust, which sensitises and harms lungs (2 mg/m³ over 8 h is the limit in the EU): extract it and wear a mask.",
      "Solvents of shellac, lacquer and varnish catch fire and dull the mind: air the room, no flame, no running plate.",
    ],
    notes: [
      "Oils: makers put a day between coats and 7 to 14 days until they are all but hard (reference/timberFinishes.json); the other times are common practice, no source. What the tin says wins.",
      "Three to four hours of sanding and oiling are usual for one large case (common practice, no source).",
      "A coat slows the exchange of moisture and does not stop it; coat both faces alike, or the panel cups.",
    ],
  };
}

function ordinal(n: number): string {
  return ["first", "second", "third", "fourth", "fifth", "sixth"][n - 1] ?? `${n}th`;
}

/** The hour itself, or the next one at which someone is there. */
function whenSomeone(hour: number, { day, hourZero = 0, hands }: FinishingQuestion): number {
  if (hands || !day) return whenThere(hour, hands);
  const clock = (((hour + hourZero) % 24) + 24) % 24;
  if (clock < day.from) return hour + day.from - clock;
  if (clock > day.to) return hour + 24 - clock + day.from;
  return hour;
}
