import type { BodyOf } from "../../claims/evidence.ts";
import { destinations } from "../shop.ts";

interface Home {
  readonly to: keyof typeof destinations;
  /** Room in the month it is driest, and in the dampest, and which month that is. */
  readonly room_C: readonly [dry: number, damp: number];
  readonly humidity_pct: readonly [dry: number, damp: number];
  readonly dampest: number;
  readonly basis: string;
}

/** Plain assumptions of the owner, as a customer told them or a plan of the house let guess. */
const homes: readonly Home[] = [
  {
    to: "canada",
    room_C: [21, 23],
    humidity_pct: [16, 44],
    dampest: 7,
    basis: "Heated, long dry winter; the customer has a hygrometer",
  },
  { to: "desert", room_C: [22, 26], humidity_pct: [18, 34], dampest: 8, basis: "Guess from the region's weather" },
  { to: "japan", room_C: [18, 27], humidity_pct: [42, 66], dampest: 7, basis: "Told by the customer" },
  {
    to: "singapore",
    room_C: [25, 27],
    humidity_pct: [61, 70],
    dampest: 12,
    basis: "Cooled in the evenings only, told by the customer",
  },
  { to: "alps", room_C: [20, 22], humidity_pct: [32, 52], dampest: 8, basis: "Heated with wood, guess" },
  { to: "australia", room_C: [17, 25], humidity_pct: [45, 62], dampest: 6, basis: "Guess from the region's weather" },
  { to: "denmark", room_C: [20, 22], humidity_pct: [38, 60], dampest: 8, basis: "Told by the customer" },
];

/** Air of a year's rooms between its driest and its dampest month. */
export const homeClimates: readonly BodyOf<"climate">[] = homes.map(({ to, room_C, humidity_pct, dampest, basis }) => ({
  kind: "climate",
  place: destinations[to].place,
  basis,
  months: Array.from({ length: 12 }, (_, i) => {
    const share = (1 + Math.cos((2 * Math.PI * (i + 1 - dampest)) / 12)) / 2;
    const between = ([dry, damp]: readonly [number, number]) => Number((dry + share * (damp - dry)).toFixed(1));
    return { month: i + 1, temperature_C: between(room_C), humidity_pct: between(humidity_pct) };
  }),
}));
