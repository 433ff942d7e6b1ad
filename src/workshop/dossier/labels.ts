import type { Shop } from "../../claims/index.ts";
import type { Labelled } from "../../dossier/labels.ts";
import { BadInput, quote } from "../../maths/badInput.ts";

/** What a scanned code names here, and the page that shows it. */
export interface Place {
  readonly kind: Labelled["kind"];
  readonly path: string;
  readonly lines: readonly string[];
}

const mostLabels = 2000;

/** The page that a label's code opens; nothing for a code that names nothing here. */
export function placeOf(shop: Shop, code: string): Place | undefined {
  const at = (path: string) => path.split("/").map(encodeURIComponent).join("/");
  const unit = shop.unit(code);
  if (unit) {
    const destination = shop.orders.get(unit.order)?.body.destination;
    return {
      kind: "unit",
      path: `/unit/${at(code)}`,
      lines: [
        `${unit.model}, revision ${unit.revision}`,
        `order ${unit.order}`,
        ...(destination ? [`${destination.nominal_V} V, ${destination.frequency_Hz} Hz`] : []),
      ],
    };
  }
  if (shop.orderNaming(code) !== undefined) return { kind: "unit", path: `/unit/${at(code)}`, lines: [] };
  const valve = shop.valve(code);
  if (valve) {
    return {
      kind: "valve",
      path: `/valves/${at(valve.batch)}?valve=${at(code)}`,
      lines: [valve.type, `batch ${valve.batch}`],
    };
  }
  const piece = shop.timber.state(code);
  if (piece) return { kind: "board", path: `/timber/piece/${at(code)}`, lines: [piece.species] };
  const batch = shop.batch(code)?.body;
  return batch && { kind: "batch", path: `/valves/${at(code)}`, lines: [batch.type, `from ${batch.seller}`] };
}

/**
 * The labels of things named by their codes, in the order given; a batch's own label is followed by those of its valves
 * where `withValves` asks for them.
 * @throws BadInput for a code that names nothing here, or for more labels than one print may hold
 */
export function labelled(shop: Shop, codes: readonly string[], withValves = false): Labelled[] {
  if (codes.length === 0) throw new BadInput("codes", "none", "one code or more", "name what is to be labelled");
  const all = codes.flatMap((code) => {
    const place = placeOf(shop, code);
    if (!place) {
      throw new BadInput(
        "codes",
        quote(code),
        "a unit, valve, batch or board of this workshop",
        "check the number, or enter the thing first",
      );
    }
    const own: Labelled = { kind: place.kind, code, lines: place.lines };
    if (place.kind !== "batch" || !withValves) return [own];
    const inside = [...shop.valves.values()].filter(({ batch }) => batch === code);
    return [
      own,
      ...inside.map(
        ({ valve, type, batch }): Labelled => ({ kind: "valve", code: valve, lines: [type, `batch ${batch}`] }),
      ),
    ];
  });
  if (all.length > mostLabels) {
    throw new BadInput("codes", `${all.length} labels`, `at most ${mostLabels} in one print`, "print them in parts");
  }
  return all;
}
