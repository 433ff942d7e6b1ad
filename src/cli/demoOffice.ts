import type { OfficeAnswers } from "../demo/officeTruth.ts";
import type { Workshop } from "../workshop/workshop.ts";

/** What the tool says of orders, faults and returns, and of what the plate's own record suggests, from evidence alone. */
export async function officeAnswers(
  workshop: Workshop,
  isBefore: (order: string) => boolean,
  tell: (what?: string) => void,
): Promise<OfficeAnswers> {
  tell("looking back at orders and faults");
  const [kept, back, options, open] = [
    await workshop.promisesKept(),
    await workshop.lookBack(),
    await workshop.whatIfOptions(),
    await workshop.promises(),
  ];
  const change = options.suggested.map((one) => one.change).find((one) => one.kind === "place");
  const place = change?.kind === "place" && change.cycle_h !== undefined ? change : undefined;
  tell("trying the plate's own suggestion");
  const answer = place && (await workshop.whatIf({ changes: [place] }));
  return {
    orders: kept.orders.filter(({ order }) => isBefore(order)),
    open: open.length,
    faults: back.arrows.map(({ fault, possible, found, faults }) => ({ fault, possible, found, count: faults })),
    returns: { count: back.returns.count, without: back.returns.without },
    ...(answer && {
      plate: {
        place: place.place,
        enough_h: place.cycle_h!,
        earlier: answer.earlier,
        later: answer.later,
        saved: answer.saved,
      },
    }),
  };
}
