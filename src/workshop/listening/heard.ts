import type { Series } from "../../claims/index.ts";
import { answered, playings } from "../../listening/index.ts";

type Versions = readonly [string, string];

/** What a listener of a closed series got right, or took. */
export type Heard =
  | { readonly kind: "difference"; readonly listener: string; readonly trials: number; readonly right: number }
  | {
      readonly kind: "preference";
      readonly listener: string;
      readonly choices: readonly { readonly winner: string; readonly loser: string; readonly first: string }[];
    };

/** The answers of a closed series, weighed by its lot; of a series that is open, nothing. */
export function heardIn({ plan, answers, closed }: Series): readonly Heard[] {
  if (!closed) return [];
  const { lot, listeners, trials, asked, versions } = plan.body;
  return listeners.flatMap((listener): readonly Heard[] => {
    const own = answers.get(listener);
    if (!own || own.size === 0) return [];
    const played = playings(lot, listener, trials, asked);
    const weighed = [...own].map(([trial, { body }]) => answered(played[trial - 1]!, body.answer));
    if (asked === "difference") {
      const right = weighed.filter((one) => "isRight" in one && one.isRight).length;
      return [{ kind: "difference", listener, trials: own.size, right }];
    }
    return [
      {
        kind: "preference",
        listener,
        choices: weighed.flatMap((one) => ("took" in one ? [choiceOf(one, versions)] : [])),
      },
    ];
  });
}

function choiceOf({ took, before }: { took: "first" | "second"; before: "first" | "second" }, [a, b]: Versions) {
  const [winner, loser] = took === "first" ? [a, b] : [b, a];
  return { winner, loser, first: before === "first" ? a : b };
}
