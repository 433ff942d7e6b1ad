import type { Shop } from "../../claims/index.ts";

/** What the destination is asked by; a shop's methods need their shop. */
export function boundShop(shop: Shop) {
  return {
    timber: shop.timber,
    unit: (name: string) => shop.unit(name),
    order: (name: string) => shop.order(name),
    orderNaming: (unit: string) => shop.orderNaming(unit),
  };
}
