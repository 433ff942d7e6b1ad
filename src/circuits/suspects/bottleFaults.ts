import { bottlesOf } from "../bottles.ts";
import { isValve, type Netlist } from "../netlist.ts";
import type { Fault } from "./fault.ts";
import { insulationOf, open_ohm } from "./library.ts";

/**
 * A bottle gone cold: a broken heater, a pin that makes no contact, or no valve in its socket. All its sections stop at
 * once, which no fault of one section does.
 *
 * Where the net list draws the heater as a resistor, the fault is that part's; else the first section's.
 */
export function bottleFaults(netlist: Netlist): Fault[] {
  return [...bottlesOf(netlist)].flatMap(([bottle, places]): Fault[] => {
    const sections = places.map((place) => netlist.parts[place]!).filter(isValve);
    const heater = netlist.parts.findIndex(
      (part) =>
        part.kind === "resistor" && [bottle, ...sections.map(({ id }) => id)].some((id) => part.id === `${id}h`),
    );
    if (heater < 0 && sections.length < 2) return [];
    const cold = { silent: places, added: sections.flatMap(insulationOf) };
    const ids = sections.map(({ id }) => id).join(" and ");
    const shared = {
      prior: 1.5,
      starts: [0],
      words: () => `${ids} cold: heater, socket pins, or no valve fitted`,
    };
    const drawn = netlist.parts[heater];
    if (drawn?.kind === "resistor") {
      return [
        {
          ...shared,
          part: drawn.id,
          fault: "open",
          felt: { steady: true, signal: true, dead: true },
          edit: () => ({ ...cold, instead: new Map([[heater, { ...drawn, ohm: open_ohm }]]), freed: [heater] }),
        },
      ];
    }
    return [
      {
        ...shared,
        part: sections[0]!.id,
        fault: "dead",
        detail: "the whole bottle",
        also: { with: sections[1]!.id },
        felt: { steady: true, signal: true, dead: false },
        edit: () => cold,
      },
    ];
  });
}
