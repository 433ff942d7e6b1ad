/** What a person may do, from little to much; each may do all before it. */
export const rights = ["nothing", "look", "measure", "release", "owner"] as const;
export type Right = (typeof rights)[number];

/** What somebody may do, as the newest entry of them says. */
export interface Standing {
  readonly may: Right;
  readonly answersForSafety: boolean;
}

/** Whether it is enough for a right, or for what the licensed person alone does who answers for safety limits. */
export function isEnough({ may, answersForSafety }: Standing, needed: Right | "safety"): boolean {
  if (needed === "safety") return answersForSafety && may !== "nothing";
  return rights.indexOf(may) >= rights.indexOf(needed);
}
