import type { Evidence } from "../../claims/evidence.ts";
import type { Shop } from "../../claims/index.ts";
import type { Calculate } from "../calculate.ts";
import { groupBy } from "../groupBy.ts";
import { type Heard, heardIn } from "../listening/heard.ts";
import type { BlindView } from "./views.ts";

type Listening = Evidence<"listening">;
type Asked = Listening["body"]["asked"];

interface BlindAnswer {
  readonly p: number;
  readonly odds: number;
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
  readonly order?: NonNullable<BlindView["preferred"]>["order"];
}

interface Choice {
  readonly winner: string;
  readonly loser: string;
  readonly listener: string;
  readonly times?: number;
  readonly first?: string;
}

/** What was heard blind between versions of a model: who told them apart, and which was preferred. */
export async function blindResults(model: string, shop: Shop, calculate: Calculate): Promise<BlindView> {
  const made = shop.ledger
    .ofKind("listening")
    .filter(({ id, body }) => body.model === model && shop.ledger.supersederOf(id) === undefined);
  const series = shop.listening.names
    .map((name) => shop.listening.series(name)!)
    .filter(({ plan }) => plan.body.model === model)
    .reverse();
  const told = [
    ...of(made, "difference"),
    ...series.flatMap((one) => heardIn(one).flatMap((heard) => toldIn(one.plan.body, heard))),
  ];
  const choices = [
    ...of(made, "preference").flatMap(choicesOf),
    ...series.flatMap((one) => heardIn(one).flatMap(chosenIn)),
  ];
  const pairs = [...groupBy(told, ({ versions }) => [...versions].sort().join("\n"))];
  return {
    told: await Promise.all(pairs.map(([, trials]) => toldApart(trials, calculate))),
    ...(choices.length > 0 && { preferred: await preferences(choices, calculate) }),
  };
}

/** What one closed series showed by itself. */
export async function blindOf(
  plan: Pick<Evidence<"listening-series">["body"], "versions" | "through">,
  heard: readonly Heard[],
  calculate: Calculate,
): Promise<{ readonly told?: BlindView["told"][number] & { readonly odds: number } } & Pick<BlindView, "preferred">> {
  const told = heard.flatMap((one) => toldIn(plan, one));
  const choices = heard.flatMap(chosenIn);
  return {
    ...(told.length > 0 && { told: await toldApart(told, calculate) }),
    ...(choices.length > 0 && { preferred: await preferences(choices, calculate) }),
  };
}

type Told = Pick<Listening["body"], "versions" | "listener" | "through"> & {
  readonly asked: { readonly trials: number; readonly right: number };
};

function toldIn(
  { versions, through }: Pick<Evidence<"listening-series">["body"], "versions" | "through">,
  heard: Heard,
): readonly Told[] {
  if (heard.kind !== "difference") return [];
  const { listener, trials, right } = heard;
  return [{ versions, listener, ...(through !== undefined && { through }), asked: { trials, right } }];
}

function chosenIn(heard: Heard): readonly Choice[] {
  return heard.kind === "preference" ? heard.choices.map((choice) => ({ ...choice, listener: heard.listener })) : [];
}

function choicesOf({ versions: [first, second], asked, listener }: Made<"preference">): readonly Choice[] {
  return [
    { winner: second, loser: first, times: asked.second, listener },
    { winner: first, loser: second, times: asked.trials - asked.second, listener },
  ].filter(({ times }) => times > 0);
}

type Made<K extends Asked["kind"]> = Omit<Listening["body"], "asked"> & {
  readonly asked: Extract<Asked, { readonly kind: K }>;
};

function of<K extends Asked["kind"]>(made: readonly Listening[], kind: K): readonly Made<K>[] {
  return made.flatMap(({ body }) => (body.asked.kind === kind ? [body as Made<K>] : []));
}

async function toldApart(
  made: readonly Told[],
  calculate: Calculate,
): Promise<BlindView["told"][number] & { readonly odds: number }> {
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
    odds: together!.odds,
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
  choices: readonly Choice[],
  calculate: Calculate,
): Promise<NonNullable<BlindView["preferred"]>> {
  const ordered = choices.filter(({ first }) => first !== undefined);
  const isMixed = ordered.length > 0 && ordered.length < choices.length;
  const ask = (of: readonly Choice[]) => calculate<PairsAnswer>("listening.pairs", { choices: of });
  const [answer, apart] = await Promise.all([ask(choices), isMixed ? ask(ordered) : undefined]);
  const { state, reason, ranking, p: byChoice, listeners, order = apart?.order } = answer;
  // With listeners told apart, chance is that of other listeners, not of more choices by the same.
  const p = listeners?.p ?? byChoice;
  return {
    trials: sum(choices.map(({ times = 1 }) => times)),
    listeners: new Set(choices.map(({ listener }) => listener)).size,
    ranking,
    ...(p !== undefined && { p }),
    ...(order && { order, ordered: sum(ordered.map(({ times = 1 }) => times)) }),
    ...(state === "undecided" && reason !== undefined && { reason }),
  };
}

const sum = (numbers: readonly number[]) => numbers.reduce((a, b) => a + b, 0);
