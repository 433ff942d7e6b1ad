import type { Shop } from "../../claims/index.ts";
import { BadInput, quote } from "../../maths/badInput.ts";
import { copyPlaces } from "../../store/copyPlaces.ts";
import { copiesHolding, eraseFromCopy, type Forgotten } from "../../store/eraseFromCopies.ts";
import type { Store } from "../../store/index.ts";
import { groupBy } from "../groupBy.ts";
import type { CustomersView, CustomerView, ErasureView, HoldingCopy } from "./views.ts";

export interface CustomersOptions {
  readonly store: Pick<Store, "customers" | "folder">;
  readonly shop: () => Shop;
}

/** What no program here can reach, said with every erasure. */
const alsoKeep =
  "Copies that were taken to other disks, backups of the whole machine, e-mails and printed sheets can't be seen from here; look there too.";

/** So many are shown at once; any other is found by a word. */
const mostShown = 60;

/** Names and addresses of customers, which orders know by an id alone, and their erasure on request. */
export class CustomersDesk {
  constructor(private readonly options: CustomersOptions) {}

  /** Everybody whom an order names or whose address is kept. */
  async list(): Promise<readonly CustomerView[]> {
    const kept = new Map((await this.options.store.customers.all()).map((one) => [one.customer, one]));
    const orders = [...this.options.shop().orders.values()].map(({ body }) => body);
    const ordered = groupBy(orders, ({ customer }) => customer);
    const ids = new Set([...kept.keys(), ...ordered.keys()]);
    return [...ids].sort().map((customer) => {
      const { name, address } = kept.get(customer) ?? {};
      return {
        customer,
        ...(name !== undefined && { name }),
        ...(address !== undefined && { address }),
        orders: (ordered.get(customer) ?? []).map(({ order }) => order),
      };
    });
  }

  /**
   * @param find  part of an id, a name, an address or an order's number; left out, who ordered last
   * @throws BadInput  where it is no text
   */
  async view(find: unknown = ""): Promise<CustomersView> {
    if (typeof find !== "string")
      throw new BadInput("find", quote(find), "part of an id, a name, an address or an order", "write what you seek");
    const sought = find.trim().toLowerCase();
    const all = await this.list();
    const said = ({ customer, name, address, orders }: CustomerView) =>
      [customer, name, address, ...orders].join("\n").toLowerCase();
    const found = sought === "" ? all : all.filter((one) => said(one).includes(sought));
    if (found.length <= mostShown) return { customers: found, inAll: found.length };
    const place = new Map([...this.options.shop().orders.keys()].map((order, i) => [order, i]));
    const last = ({ orders }: CustomerView) => Math.max(-1, ...orders.map((order) => place.get(order) ?? -1));
    const newest = new Set(found.toSorted((a, b) => last(b) - last(a)).slice(0, mostShown));
    return { customers: found.filter((one) => newest.has(one)), inAll: found.length };
  }

  async put(customer: string, name: unknown, address: unknown): Promise<void> {
    if (!/^[\p{L}\p{N}][\p{L}\p{N} ._:-]{0,79}$/u.test(customer))
      throw new BadInput("customer", quote(customer), "an id that orders can name", "take letters, digits and dashes");
    await this.options.store.customers.put({
      customer,
      name: readWords("name", name, 200),
      address: readWords("address", address, 1000),
    });
  }

  /** @param copies  whether copies that hold it are written anew without it */
  async erase(customer: string, copies: boolean): Promise<ErasureView> {
    const known = (await this.list()).map((one) => one.customer);
    const forgotten = { table: "customer", id: customer } as const;
    // Erased here already, it may still be in the log or in a copy.
    await this.options.store.customers.forget(customer);
    if (!known.includes(customer) && !this.isInCopies(forgotten)) {
      const some = known.slice(0, 12).join(", ");
      throw new BadInput("customer", quote(customer), `customers here: ${some || "none yet"}`, "check the id");
    }
    return this.erasure(forgotten, copies);
  }

  /** What still holds the name of a person who was erased here. */
  erasedPerson(person: string, copies: boolean): Promise<ErasureView> {
    return this.erasure({ table: "person", id: person }, copies);
  }

  private isInCopies(forgotten: Forgotten): boolean {
    return copyPlaces(this.options.store.folder).some((folder) => {
      try {
        return copiesHolding(folder, forgotten).length > 0;
      } catch {
        return false;
      }
    });
  }

  private async erasure(forgotten: Forgotten, copies: boolean): Promise<ErasureView> {
    const holding: HoldingCopy[] = [];
    const rewritten: HoldingCopy[] = [];
    const unread: { folder: string; why: string }[] = [];
    for (const folder of copyPlaces(this.options.store.folder)) {
      try {
        for (const copy of copiesHolding(folder, forgotten)) {
          if (copies) await eraseFromCopy(folder, copy, forgotten);
          (copies ? rewritten : holding).push({ folder, copy });
        }
      } catch (fault) {
        unread.push({ folder, why: (fault as Error).message });
      }
    }
    return { erased: forgotten.id, holding, rewritten, unread, alsoKeep };
  }
}

function readWords(path: string, words: unknown, most: number): string {
  const text = typeof words === "string" ? words.trim() : "";
  if (text !== "" && text.length <= most) return text;
  throw new BadInput(path, quote(words), `1 to ${most} characters`, "write it as it stands on the parcel");
}
