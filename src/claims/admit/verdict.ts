import { BadInput, quote } from "../../maths/badInput.ts";
import { claimStates } from "../claimStates.ts";
import type { BodyOf } from "../evidence.ts";
import { isByOwner } from "../people/rights.ts";
import { releaseDecision } from "../release.ts";
import type { Shop } from "../shop.ts";
import { requireDistinct, requireKnown } from "./refuse.ts";
import { requireUnit } from "./unit.ts";

export function admitConcession(concession: BodyOf<"concession"> & { readonly by: string }, shop: Shop): void {
  const model = requireUnit(concession.unit, shop);
  const names = model.claims.map(({ claim }) => claim);
  requireKnown("claim", concession.claim, names, `claim of ${model.model}`);
  if (model.claims.find(({ claim }) => claim === concession.claim)?.safety) {
    throw new BadInput(
      "claim",
      quote(concession.claim),
      "a safety claim can't be conceded",
      "prove it: repair, record the rework, and test again",
    );
  }
  if (isByOwner({ by: concession.by }, shop.ledger)) return;
  throw new BadInput("by", quote(concession.by), "only the owner concedes", "ask the owner to enter it");
}

/** A release is granted on the states as they are now, and must say exactly what they are. */
export function admitRelease(
  release: BodyOf<"release">,
  shop: Shop,
  { now, head }: { readonly now: string; readonly head?: string },
): void {
  const model = requireUnit(release.unit, shop);
  if (shop.isReleased(release.unit) && shop.cameBackAfter(release.unit) === undefined) {
    throw new BadInput("unit", quote(release.unit), "it stands released", "record a rework first, if one was done");
  }
  const states = claimStates(model, shop.ledger, release.unit, now);
  const { granted, missing } = releaseDecision(states);
  if (!granted) {
    const some = missing.slice(0, 6).map(({ claim, state }) => `${claim} (${state})`);
    const more = missing.length > 6 ? ` and ${missing.length - 6} more` : "";
    throw new BadInput(
      "unit",
      quote(release.unit),
      `refused while ${missing.length} of ${states.length} claims are not proven or conceded`,
      `close ${some.join(", ")}${more}`,
    );
  }
  requireDistinct(
    "claims",
    release.claims.map(({ claim }) => claim),
    "claim",
  );
  for (const { claim, state } of states) {
    const said = release.claims.findIndex((entry) => entry.claim === claim);
    if (said >= 0 && release.claims[said]!.state === state) continue;
    const path = said < 0 ? "claims" : `claims[${said}].state`;
    throw new BadInput(
      path,
      said < 0 ? `nothing on ${claim}` : release.claims[said]!.state,
      `${claim} is ${state}`,
      "ask for the release again",
    );
  }
  for (const [i, { claim }] of release.claims.entries()) {
    requireKnown(
      `claims[${i}].claim`,
      claim,
      states.map((state) => state.claim),
      `claim of ${model.model}`,
    );
  }
  if (head !== undefined && release.resting_sha256 !== head) {
    throw new BadInput(
      "resting_sha256",
      quote(release.resting_sha256),
      "the newest hash of the chain; something was written down since",
      "ask for the release again",
    );
  }
}
