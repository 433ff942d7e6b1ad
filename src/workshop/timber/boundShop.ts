import type { Shop } from "../../claims/index.ts";

/** What the destination is asked by; a shop's methods need their shop. */
export function boundShop(shop: Shop) {
  const { timber, orders, units } = shop;
  return { timber, orders, units, orderNaming: (unit: string) => shop.orderNaming(unit) };
}
