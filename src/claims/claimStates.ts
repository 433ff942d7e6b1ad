import { isUndoneBy, reworksBearingOn } from "./bearing.ts";
import type { Evidence, Model } from "./evidence.ts";
import { type Bench, checkInWords, judgeFigure } from "./figure.ts";
import { Ledger } from "./ledger.ts";
import { isByOwner } from "./people/rights.ts";
import type { ClaimState, FigureState } from "./state.ts";
import { inWords } from "./when.ts";

/**
 * The state of every claim of a unit: a pure function of the model and of all that was written down.
 *
 * A claim is proven when each figure it requires has live evidence inside its limits by its doubt; refuted when one
 * lies outside by its doubt. Evidence falls (`void`) when a later rework touched what the claim rests on, when an
 * instrument under it failed its trial, or when something it was drawn from fell. A claim that is not proven is
 * `conceded` while a concession of the owner stands for it; a safety claim never is.
 *
 * @param evidence  entries in any order, or a ledger of them; those dated after `now` prove nothing
 * @param now       instant, ISO 8601 with offset
 * @example claimStates(model, evidence, "0031", "2026-11-25T09:00:00Z").filter((claim) => claim.state === "void")
 */
export function claimStates(
  model: Model,
  evidence: readonly Evidence[] | Ledger,
  unit: string,
  now: string,
): readonly ClaimState[] {
  const ledger = evidence instanceof Ledger ? evidence : Ledger.of(evidence);
  const fitted = ledger.fitted(unit);
  return model.claims.map((claim) => {
    const reworks = reworksBearingOn(ledger, model, unit, claim);
    return claimState({ ledger, model, unit, fitted, claim, reworks, now_ms: Date.parse(now) });
  });
}

function claimState(bench: Bench): ClaimState {
  const { claim } = bench;
  const figures = claim.requires.map((requirement) => judgeFigure(bench, requirement));
  const decisive = mostPressing(figures);
  const common = {
    claim: claim.claim,
    title: claim.title,
    sheet: claim.sheet,
    safety: claim.safety,
    figures,
    check: claim.check,
  };
  const because =
    decisive.state === "proven" && figures.length > 1
      ? `All ${figures.length} figures lie inside their limits by their doubt.`
      : sentence(decisive, figures.length > 1);
  if (decisive.state === "proven") return { ...common, state: "proven", because };

  const concession = standingConcession(bench, figures);
  if (concession) {
    return {
      ...common,
      state: "conceded",
      because: `The owner conceded it on ${inWords(concession.at)}: ${concession.body.reason}`,
      concession: concession.id,
    };
  }
  return { ...common, state: decisive.state, because, wouldDecide: decisive.wouldDecide ?? checkInWords(claim) };
}

const pressing = ["refuted", "void", "open", "undecided", "proven"] as const satisfies readonly FigureState["state"][];

function mostPressing(figures: readonly FigureState[]): FigureState {
  return pressing.flatMap((state) => figures.filter((figure) => figure.state === state))[0]!;
}

function sentence({ where, why }: FigureState, oneOfSeveral: boolean): string {
  const text = oneOfSeveral ? `${where}: ${why}` : why;
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}

/**
 * A concession stands for what was known when it was given: a touching rework ends it, and so does a figure written
 * down since that refutes the claim.
 */
function standingConcession(
  { ledger, unit, claim, reworks }: Bench,
  figures: readonly FigureState[],
): Evidence<"concession"> | undefined {
  if (claim.safety) return undefined;
  return ledger
    .about("concession", unit)
    .findLast(
      (concession) =>
        concession.body.claim === claim.claim &&
        isByOwner(concession, ledger) &&
        !reworks.some((rework) => isUndoneBy(concession, rework, true)) &&
        !figures.some(({ state, evidence }) => state === "refuted" && ledger.get(evidence!)!.seq > concession.seq),
    );
}
