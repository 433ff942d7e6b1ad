/** A time or a delay known by three numbers; all equal means fixed, else a triangle distribution. */
export interface Spread {
  readonly fast: number;
  readonly usual: number;
  readonly slow: number;
}

export interface Calendar {
  /** Hours at work by day of the week, `{ mon: ["08:00-12:00", "13:00-17:00"] }`. */
  readonly week: Readonly<Record<string, readonly string[] | undefined>>;
  /** Dates on which nobody of this calendar works, `"2027-01-01"`. */
  readonly closed?: readonly string[];
  /** IANA name of the zone these hours are meant in, for people elsewhere; left out, the shop's. */
  readonly timeZone?: string;
}

export interface Person {
  readonly id: string;
  readonly skills: readonly string[];
  readonly calendar: string;
  /** Days this person does not work, both ends included, `{ from: "2027-03-08", to: "2027-03-12" }`. */
  readonly away?: readonly { readonly from: string; readonly to: string }[];
}

export interface Place {
  readonly id: string;
  /** A single place holds each unit on its own; a batch place runs several together and is not opened before. */
  readonly kind: "single" | "batch";
  readonly capacity?: number;
  readonly cycle_h?: number;
  /** What stands in it already: slots, each until an instant; a batch place is shut until the last of them. */
  readonly busy?: readonly { readonly slots: number; readonly until: string }[];
}

export interface Step {
  readonly step: string;
  readonly skill?: string;
  readonly place?: string;
  readonly hours: Spread;
  readonly unattended?: boolean;
  readonly failOdds?: number;
  readonly onFail?: { readonly back?: string; readonly repair_h?: number };
  /** A unit fails here for certain the first time it comes, whatever the odds: to see what one fail does. */
  readonly failsOnce?: boolean;
}

export interface Part {
  readonly id: string;
  readonly model: string;
  readonly step: string;
  readonly lead_days: Spread;
  /** When it was ordered; left out, not yet. It holds the step in every route that a unit of the model takes. */
  readonly ordered?: string;
  /** Orders it was bought for; left out, every order of the model waits for it. */
  readonly orders?: readonly string[];
}

export interface Order {
  readonly id: string;
  readonly model: string;
  readonly units: number;
  /** Which route each unit takes, where they differ from the model's: what is left to do on units already begun. */
  readonly route?: readonly string[];
  readonly due?: string;
  readonly released?: string;
}

/** The shop as it stands at `now`, with all that is open in it. Instants are ISO 8601 with their offset. */
export interface PromiseInput {
  readonly now: string;
  /** An IANA name; left out, times of day keep the offset of `now`. */
  readonly timeZone?: string;
  readonly calendars: Readonly<Record<string, Calendar>>;
  readonly people: readonly Person[];
  readonly places: readonly Place[];
  readonly routes: Readonly<Record<string, readonly Step[]>>;
  readonly parts?: readonly Part[];
  readonly orders: readonly Order[];
  readonly runs: number;
  /** A whole number or any text. */
  readonly seed: number | string;
  /** Takes a due date before `now` as most urgent, and says so, instead of refusing it. */
  readonly allowOverdue?: boolean;
}

export interface OrderPromise {
  readonly id: string;
  /** The instant by which 50, 80, 95 % of the runs have the order done. */
  readonly p50: string;
  readonly p80: string;
  readonly p95: string;
  /** Person, place or part that was most often the longest wait; the longest step when nothing was waited for. */
  readonly heldBy: string;
  /** Share of the runs in which it was so. */
  readonly heldShare: number;
  /** Share of the runs that have the order done by its due date. */
  readonly onTime?: number;
  /** 95 % half-widths of the three dates, from the finite number of runs. */
  readonly doubt_h: { readonly p50: number; readonly p80: number; readonly p95: number };
}

export interface PromiseResult {
  readonly orders: readonly OrderPromise[];
  /** For each part not yet ordered: the latest instant of ordering that does not make that order later. */
  readonly orderBy: readonly { readonly part: string; readonly order: string; readonly by: string }[];
  /** Share of its slots' time, from now to the last order's end, that a place is held. */
  readonly load: readonly { readonly place: string; readonly share: number }[];
  /** Share of a person's hours at work in that time that is spent on units. */
  readonly hands: readonly { readonly person: string; readonly share: number }[];
  readonly notes: readonly string[];
}
