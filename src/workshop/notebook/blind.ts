import type { Evidence } from "../../claims/evidence.ts";
import type { Shop } from "../../claims/index.ts";
import type { Calculate } from "../calculate.ts";
import { groupBy } from "../groupBy.ts";
import type { BlindView } from "./views.ts";

type Listening = Evidence<"listening">;
type Asked = Listening["body"]["asked"];

interface BlindAnswer {
  readonly p: number;
  readonly needed?: number;
  readonly power: number;
  readonly moreTrials?: number;
  readonly share: { readonly value: number; readonly low: number; readonly high: number };
}

interface PairsAnswer {
  readonly state: "solved" | "undecided";
  readonly reason?: string;
  readonly ranking: NonNullable<BlindView["preferred"]>["ranking"];
  readonly p?: number;
  readonly listeners?: { readonly count: number; readonly spread: number; readonly p?: number };
}

/** What was heard blind between versions of a model: who told them apart, and which was preferred. */
export async function blindResults(
  model: string,
  { shop, evidence }: { readonly shop: Shop; readonly evidence: readonly Evidence[] },
  calculate: Calculate,
): Promise<BlindView> {
  const made = evidence.filter(
    (entry): entry is Listening =>
      entry.body.kind === "listening" && entry.body.model === model && shop.ledger.supersederOf(entry.id) === undefined,
  );
  const told = of(made, "difference");
  const pairs = [...groupBy(told, ({ versions }) => [...versions].sort().join("\n"))];
  const preferred = of(made, "preference");
  return {
    told: await Promise.all(pairs.map(([, trials]) => toldApart(trials, calculate))),
    ...(preferred.length > 0 && { preferred: await preferences(preferred, calculate) }),
  };
}

type Made<K extends Asked["kind"]> = Omit<Listening["body"], "asked"> & {
  readonly asked: Extract<Asked, { readonly kind: K }>;
};

function of<K extends Asked["kind"]>(made: readonly Listening[], kind: K): readonly Made<K>[] {
  return made.flatMap(({ body }) => (body.asked.kind === kind ? [body as Made<K>] : []));
}

async function toldApart(
  made: readonly Made<"difference">[],
  calculate: Calculate,
): Promise<BlindView["told"][number]> {
  const byListener = [...groupBy(made, ({ listener }) => listener)].map(([listener, own]) => ({
    listener,
    through: [...new Set(own.flatMap(({ through }) => through ?? []))],
    trials: sum(own.map(({ asked }) => asked.trials)),
    right: sum(own.map(({ asked }) => asked.right)),
  }));
  const ask = ({ trials, right }: { trials: number; right: number }) =>
    calculate<BlindAnswer>("listening.blind", { trials, right });
  const whole = { trials: sum(byListener.map((l) => l.trials)), right: sum(byListener.map((l) => l.right)) };
  const [together, ...each] = await Promise.all([ask(whole), ...byListener.map(ask)]);
  return {
    versions: made[0]!.versions,
    together: { ...whole, ...answerOf(together!) },
    listeners: byListener
      .map((heard, i) => {
        const { p, needed } = each[i]!;
        // So many listeners were tried that the best of them would do well by chance.
        const amongAll = Math.min(1, p * byListener.length);
        return { ...heard, p, amongAll, ...(needed !== undefined && { needed }) };
      })
      .sort((a, b) => a.p - b.p || a.listener.localeCompare(b.listener, "en", { numeric: true })),
  };
}

const answerOf = ({ p, needed, power, moreTrials, share }: BlindAnswer) => ({
  p,
  power,
  share,
  ...(needed !== undefined && { needed }),
  ...(moreTrials !== undefined && { moreTrials }),
});

async function preferences(
  made: readonly Made<"preference">[],
  calculate: Calculate,
): Promise<NonNullable<BlindView["preferred"]>> {
  const choices = made.flatMap(({ versions: [first, second], asked, listener }) => [
    { winner: second, loser: first, times: asked.second, listener },
    { winner: first, loser: second, times: asked.trials - asked.second, listener },
  ]);
  const counted = choices.filter(({ times }) => times > 0);
  const {
    state,
    reason,
    ranking,
    p: byChoice,
    listeners,
  } = await calculate<PairsAnswer>("listening.pairs", { choices: counted });
  // With listeners told apart, chance is that of other listeners, not of more choices by the same.
  const p = listeners?.p ?? byChoice;
  return {
    trials: sum(made.map(({ asked }) => asked.trials)),
    listeners: new Set(made.map(({ listener }) => listener)).size,
    ranking,
    ...(p !== undefined && { p }),
    ...(state === "undecided" && reason !== undefined && { reason }),
  };
}

const sum = (numbers: readonly number[]) => numbers.reduce((a, b) => a + b, 0);
