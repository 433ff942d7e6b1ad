import type { TimberAnswers } from "../demo/timber/score.ts";
import type { Workshop } from "../workshop/workshop.ts";

/** What the keeper of the truth asks about timber. */
export interface AskedOfTimber {
  readonly cases: readonly { readonly unit: string }[];
}

/** What the tool says of boards, cases and cracks, from evidence alone. */
export async function timberAnswers(
  workshop: Workshop,
  asked: AskedOfTimber | undefined,
  tell: (what?: string) => void,
): Promise<TimberAnswers> {
  tell("weighing the timber shelf");
  const { pieces, cracks } = await workshop.timber({ wait: true });
  const cases = await Promise.all((asked?.cases ?? []).map(({ unit }) => workshop.unitCase(unit)));
  tell("looking back at the plate");
  const { share } = await workshop.earlyWeighing();
  const countOf = (words: string) => cracks.found.find(({ what }) => what.startsWith(words))?.count ?? 0;
  const of = Math.max(1, cracks.cracks);
  return {
    boards: pieces.map(({ piece, moisture }) => ({
      piece,
      ...(moisture && { low_pct: moisture.low_pct, high_pct: moisture.high_pct }),
    })),
    cases: cases.map(({ unit, verdict, panels }) => ({ unit, verdict, remedies: panels.map(({ remedy }) => remedy) })),
    cracks: {
      cracked: cracks.cracks,
      firstNight: countOf("first night") / of,
      secondDay: countOf("second day") / of,
      ...(share !== undefined && { wetShare: share }),
    },
  };
}
