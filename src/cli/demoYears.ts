import { answer } from "../calculations/answer.ts";
import type { Surroundings } from "../calculations/calculation.ts";
import type { Submission } from "../claims/evidence.ts";
import { claimStates, releaseDecision, releaseEntry } from "../claims/index.ts";
import { type Happening, yearsBefore } from "../demo/index.ts";
import { BadInput, quote } from "../maths/badInput.ts";
import { openStore, type Store } from "../store/index.ts";
import { missingFindings, valveFindings } from "../workshop/findings.ts";
import { ValveShelf } from "../workshop/valveShelf.ts";
import { verdictsOf } from "../workshop/valveTable.ts";
import { version } from "../workshop/version.ts";

type Judge = Extract<Happening, { kind: "judge" }>;
type Release = Extract<Happening, { kind: "release" }>;

/** So many entries go to the disk at once, where nothing has to be decided before. */
const together = 4000;

/** The store's clock while years are written in an hour: it shows each entry the instant at which somebody wrote it. */
class ToldClock {
  private told: readonly string[] = [];
  private next = 0;

  constructor(private now: string) {}

  tell(instants: readonly string[]): void {
    this.told = instants;
    this.next = 0;
  }

  readonly read = (): string => {
    this.now = this.told[this.next] ?? this.now;
    this.next += 1;
    return this.now;
  };
}

/**
 * Writes the years before the demo into an empty folder, through the store as any shop writes: each sitting at its own
 * date, findings drawn when a tray was read, units released when their proofs stand.
 */
export async function writeYears(
  folder: string,
  { seed, years, share }: { readonly seed: number; readonly years: number; readonly share?: number },
  tell: (what?: string) => void = () => undefined,
): Promise<void> {
  const { customers, happenings } = yearsBefore(seed, years, share);
  const clock = new ToldClock("2000-01-01T00:00:00Z");
  const store = await openStore(folder, { clock: clock.read });
  try {
    for (const { id, name, address } of customers) await store.customers.put({ customer: id, name, address });
    const book = new YearBook(store, clock);
    let year = "";
    for (const happening of happenings()) {
      await book.take(happening);
      if (happening.recordedAt.slice(0, 7) === year) continue;
      year = happening.recordedAt.slice(0, 7);
      tell(`writing the years before down, ${year}`);
    }
    await book.write();
  } finally {
    await store.close();
  }
}

class YearBook {
  private readonly shelf: ValveShelf;
  private waiting: { readonly recordedAt: string; readonly entry: Submission }[] = [];

  constructor(
    private readonly store: Store,
    private readonly clock: ToldClock,
  ) {
    this.shelf = new ValveShelf(store.shop);
  }

  async take(happening: Happening): Promise<void> {
    if (happening.kind === "written") {
      const { recordedAt } = happening;
      for (const { recordedAt: _, ...entry } of happening.entries) this.waiting.push({ recordedAt, entry });
      if (this.waiting.length >= together) await this.write();
    } else if (happening.kind === "judge") await this.judge(happening);
    else await this.release(happening);
  }

  async write(): Promise<void> {
    const { waiting } = this;
    this.waiting = [];
    if (waiting.length === 0) return;
    this.clock.tell(waiting.map(({ recordedAt }) => recordedAt));
    await this.store.append(waiting.map(({ entry }) => entry));
  }

  private async judge({ type, valves, recordedAt }: Judge): Promise<void> {
    await this.write();
    const { shop } = this.store;
    const readings = this.shelf.readingsOfValves(type, valves);
    if (!readings) return;
    const claims = [...shop.models.values()].flatMap(({ body }) => body.claims);
    for (const verdict of await verdictsOf(readings, calculate)) {
      const taken = (readings.byValve.get(verdict.id) ?? []).filter(({ body }) => body.phase !== "curve");
      const drawn = valveFindings(verdict, taken, readings.reference, readings.limits.reading_doubt_pct);
      for (const finding of missingFindings(shop, claims, drawn)) {
        const at = finding.from
          .map((id) => shop.ledger.get(id)!.at)
          .toSorted()
          .at(-1)!;
        this.waiting.push({ recordedAt, entry: { at, by: "stillglow", kind: "finding", ...finding } });
      }
    }
  }

  /** What the owner may concede of what lies a hair beside its window is conceded; a unit that lacks more stays. */
  private async release({ unit, by, concedes, recordedAt: at }: Release): Promise<void> {
    await this.write();
    const { store } = this;
    const states = () => claimStates(store.shop.modelOf(unit)!, store.shop.ledger, unit, at);
    const open = releaseDecision(states()).missing;
    const isSafety = new Set(store.shop.modelOf(unit)!.claims.flatMap(({ claim, safety }) => (safety ? [claim] : [])));
    if (open.some(({ claim, state }) => isSafety.has(claim) || state === "open" || state === "void")) return;
    this.clock.tell([...open.map(() => at), at]);
    if (open.length > 0) {
      const conceded = open.map(
        ({ claim }) => ({ at, by, kind: "concession", unit, claim, reason: concedes }) as const,
      );
      await store.append(conceded);
    }
    this.clock.tell([at]);
    await store.append([{ at, by, ...releaseEntry(unit, states(), version, store.head()) }]);
  }
}

/** Nothing of these years was recorded. */
const withoutRecordings: Surroundings = {
  recording: (path, field) => {
    throw new BadInput(field, quote(path), "no recording", "judge by readings alone");
  },
};

async function calculate<T>(name: string, input: unknown): Promise<T> {
  const answered = await answer(name, input, withoutRecordings);
  if (!answered.ok) throw new Error(`${name}: ${answered.error.path}: ${answered.error.message}`);
  return answered.output as T;
}
