import type { ClaimSpec, Model } from "./evidence.ts";

type Danger = ClaimSpec["check"]["danger"];

const dangers = ["none", "dust", "hot", "mains", "high-voltage"] as const satisfies readonly Danger[];

/** 0 for a check that hurts nobody, rising to high voltage. */
export function dangerRank(danger: Danger): number {
  return dangers.indexOf(danger);
}

/** Whether a slip can kill: such checks wait for the safety tests that protect whoever makes them. */
export function isLive(danger: Danger): boolean {
  return danger === "mains" || danger === "high-voltage";
}

/** For each claim, every claim that must be proven before its check, directly or through others. */
export function forerunners(model: Pick<Model, "claims">): ReadonlyMap<string, ReadonlySet<string>> {
  const direct = new Map(model.claims.map((claim) => [claim.claim, claim.check.after] as const));
  const all = new Map<string, ReadonlySet<string>>();
  for (const { claim, check } of model.claims) {
    const reached = new Set<string>();
    const toFollow = [...check.after];
    while (toFollow.length > 0) {
      const next = toFollow.pop()!;
      if (reached.has(next)) continue;
      reached.add(next);
      toFollow.push(...(direct.get(next) ?? []));
    }
    all.set(claim, reached);
  }
  return all;
}
