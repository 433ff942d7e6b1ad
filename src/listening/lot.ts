import { randomStream } from "../maths/random.ts";
import { halves, tosses } from "../maths/tosses.ts";

/** What one listener is played in one trial; versions stand as `first` and `second` of the series. */
export type Playing =
  | { readonly asked: "difference" /** Which of the two the third playing is. */; readonly third: "first" | "second" }
  | {
      readonly asked: "preference" /** Which of the two is played before the other. */;
      readonly before: "first" | "second";
    };

/**
 * What a lot draws for a listener: the same lot, listener and length always draw the same.
 *
 *     difference  each trial first or second by the toss of a coin, so that no run of answers tells the next
 *     preference  half of the trials each way round, in drawn order, so that order and version can be told apart
 *
 * @param lot  drawn once for a series, kept with it
 */
export function playings(
  lot: string,
  listener: string,
  trials: number,
  asked: "difference" | "preference",
): readonly Playing[] {
  const chance = randomStream(lot).fork(listener);
  const which = (isFirst: boolean) => (isFirst ? "first" : "second");
  return asked === "difference"
    ? tosses(trials, chance).map((isFirst) => ({ asked, third: which(isFirst) }))
    : halves(trials, chance).map((isFirst) => ({ asked, before: which(isFirst) }));
}

/** Whether an answer names the third playing, or which version a preference took. */
export function answered(
  playing: Playing,
  answer: "first" | "second",
): { readonly isRight: boolean } | { readonly took: "first" | "second"; readonly before: "first" | "second" } {
  if (playing.asked === "difference") return { isRight: answer === playing.third };
  const other = playing.before === "first" ? "second" : "first";
  return { took: answer === "first" ? playing.before : other, before: playing.before };
}
