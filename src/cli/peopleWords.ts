import Table from "cli-table3";
import type { CustomerView, ErasureView, HoldingCopy, PersonView } from "../workshop/people/views.ts";

const plain = { head: [], border: [] };

export function peopleWords(people: readonly PersonView[]): string {
  if (people.length === 0)
    return 'Nobody signs in here; whoever sits at this machine may do everything.\nEnter the owner first: stillglow people add owner --name "…"';
  const table = new Table({ style: plain, head: ["id", "name", "may", "safety limits", "since", "signed in"] });
  for (const { person, name, may, answersForSafety, since, sessions, isErased } of people) {
    const seats = sessions === 0 ? "" : `at ${sessions} ${sessions === 1 ? "browser" : "browsers"}`;
    table.push([
      person,
      isErased ? "(erased)" : name,
      may,
      answersForSafety ? "answers for them" : "",
      since.slice(0, 10),
      seats,
    ]);
  }
  return table.toString();
}

export function customersWords(customers: readonly CustomerView[]): string {
  if (customers.length === 0) return "No order names a customer yet.";
  const table = new Table({ style: plain, head: ["id", "name", "address", "orders"] });
  for (const { customer, name, address, orders } of customers) {
    const some =
      orders.length > 4 ? `${orders.slice(0, 4).join(", ")} and ${orders.length - 4} more` : orders.join(", ");
    table.push([customer, name ?? "(none kept)", address ?? "", some]);
  }
  return table.toString();
}

/** What an erasure reached, and plainly what it did not. */
export function erasureWords(what: string, { holding, rewritten, unread, alsoKeep }: ErasureView): string {
  const list = (copies: readonly HoldingCopy[]) => copies.map(({ folder, copy }) => `  ${folder}/${copy}`);
  const count = (copies: readonly HoldingCopy[]) => `${copies.length} ${copies.length === 1 ? "copy" : "copies"}`;
  return [
    `${what}: erased from the workshop's file and its log. Ledger and dossiers stand as they did.`,
    ...(rewritten.length > 0
      ? [`Taken out of ${count(rewritten)} too, each read whole afterwards:`, ...list(rewritten)]
      : []),
    ...(holding.length > 0
      ? [`Still held by ${count(holding)}; the same command with --copies takes it out of them:`, ...list(holding)]
      : []),
    ...unread.map(({ folder, why }) => `Not looked into: ${folder} (${why})`),
    alsoKeep,
  ].join("\n");
}
