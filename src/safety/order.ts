/** A routine test that protects whoever makes the next one. */
export interface RoutineOrder {
  readonly quantity: string;
  readonly name: string;
  /** What must not go wrong while it is made. */
  readonly caution: string;
}

/**
 * The order of routine tests that protects the tester: each is made only after those before it are proven.
 *
 * Earth continuity comes first because the later tests use the earth conductor as part of their circuit, and a broken
 * one shows a false pass; insulation before mains power, so that nothing live is touched first; the discharge before
 * anybody reaches into the chassis; leakage last, on a unit that may be powered.
 *
 * @source  manufacturers' guidance on production safety testing (two public pages, read; reference/safety.json)
 */
export const routineOrder: readonly RoutineOrder[] = [
  {
    quantity: "bond_ohm",
    name: "protective earth continuity",
    caution:
      "The unit is unplugged from the mains. Press the probe on bare metal; read the voltage drop at the unit, not at the tester.",
  },
  {
    quantity: "resistance_Mohm",
    name: "insulation",
    caution:
      "500 V stand on mains parts: guard the area, touch nothing, discharge before opening. Only the mains part is tested; keep it off windings and valves.",
  },
  {
    quantity: "discharge_s",
    name: "discharge of the stores",
    caution:
      "Full high tension until unplugged, lethal for as long as this test takes. One hand away from the chassis; a second person at the switch.",
  },
  {
    quantity: "touch_mA",
    name: "touch current",
    caution: "Mains on, earth lifted in the tester and nowhere else. Touch nothing metal; both ways round.",
  },
  {
    quantity: "temperature_C",
    name: "hot surfaces",
    caution: "Valves and their guards burn. Read with a probe on a stick or let it cool.",
  },
  {
    quantity: "jack_mV",
    name: "direct voltage at the jack",
    caution: "Into a resistor, never into a headphone on a head, cold and at switching on.",
  },
];

/** Whether a quantity is one of these tests, whose limit is adopted by whoever answers for it. */
export const isRoutine = (quantity: string): boolean => routineRank(quantity) < routineOrder.length;

/** Place in that order; what it does not name comes last. */
export function routineRank(quantity: string): number {
  const rank = routineOrder.findIndex((test) => test.quantity === quantity);
  return rank < 0 ? routineOrder.length : rank;
}

/**
 * The tests that must be made before one, of those that a unit has.
 *
 * @param own  quantities in any order
 */
export function mustPrecede(quantity: string, own: readonly string[]): readonly string[] {
  const rank = routineRank(quantity);
  return own.filter((other) => routineRank(other) < rank && routineRank(other) < 4);
}
