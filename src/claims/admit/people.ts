import { BadInput, quote } from "../../maths/badInput.ts";
import type { BodyOf, EvidenceKind } from "../evidence.ts";
import { isEnough, type Right } from "../people/right.ts";
import { drawnBy, neededFor, peopleOf, standingAt } from "../people/rights.ts";
import type { Shop } from "../shop.ts";

interface Act {
  readonly kind: EvidenceKind;
  readonly by: string;
}

/** Once somebody is entered, every act is under a person who may do it. */
export function requireRight({ kind, by }: Act, shop: Shop): void {
  const standing = standingAt(shop.ledger, by);
  if (standing === undefined || (kind === "finding" && by === drawnBy)) return;
  const needed = neededFor(kind);
  if (isEnough(standing, needed)) return;
  const able = [...peopleOf(shop.ledger)].filter(([, one]) => isEnough(one, needed)).map(([person]) => person);
  const may = standing.may === "nothing" ? "nobody of that name may write here" : `${by} may ${standing.may}`;
  throw new BadInput(
    "by",
    quote(by),
    `${may}; ${inWords(needed)}: ${able.join(", ") || "nobody yet"}`,
    askThem(needed),
  );
}

const inWords = (needed: Right | "safety") =>
  needed === "safety"
    ? "limits are adopted by the licensed person who answers for them"
    : `it takes the right ${needed}`;

const askThem = (needed: Right | "safety") =>
  needed === "safety" ? "let that person enter them" : "ask one of them, or let an owner give the right";

/** The first person entered is the owner; after that owners enter people, and one always stays. */
export function admitPerson(entry: BodyOf<"person"> & { readonly by: string }, shop: Shop): void {
  const people = peopleOf(shop.ledger);
  if (entry.person === drawnBy) {
    throw new BadInput("person", quote(entry.person), "findings are drawn under this name", "choose another");
  }
  if (people.size === 0) {
    if (entry.may === "owner" && entry.by === entry.person) return;
    throw new BadInput("may", quote(entry.may), "the first person is the owner", "enter the owner first");
  }
  const owners = [...people].filter(([, { may }]) => may === "owner").map(([person]) => person);
  if (entry.may !== "owner" && owners.length === 1 && owners[0] === entry.person) {
    throw new BadInput("may", quote(entry.may), `${entry.person} is the only owner`, "make somebody else owner first");
  }
}
