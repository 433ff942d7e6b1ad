import type { Submission } from "../../claims/evidence.ts";

/** A model as a person writes it down, defaults left out. */
export type ModelBody = Omit<Extract<Submission, { kind: "model" }>, "id" | "at" | "by">;
export type Claim = ModelBody["claims"][number];
type Requirement = Claim["requires"][number];

/** Positions whose valves must have been steady through the heat run, and whose sections must agree. */
export function valvesSteady(
  positions: readonly { position: string; sections: readonly string[]; spread_pct: number }[],
): Claim {
  return {
    claim: "valves",
    title: "Every valve is steady through the heat run",
    sheet: "valves",
    requires: positions.flatMap(({ position, sections, spread_pct }): Requirement[] => [
      ...sections.map((section) => ({
        quantity: "drift_pct",
        of: "valve" as const,
        position,
        section,
        low: -5,
        high: 5,
      })),
      ...(sections.length > 1
        ? [{ quantity: "sectionSpread_pct", of: "valve" as const, position, high: spread_pct }]
        : []),
    ]),
    restsOn: [{ instrument: "valve-tester" }],
    check: {
      how: "Read every section on the valve tester cold, run the valve 48 h at working heat, read it again",
      skill: "valves",
      hands_min: 20,
      wait_h: 48,
      danger: "high-voltage",
      failOdds: 0.06,
      lateCost_h: 12,
      repair_h: 1,
    },
  };
}

/** Voltages at the test points of one stage, each inside its window. */
export function testPoints(
  stage: string,
  title: string,
  {
    points,
    extra = [],
    restsOn,
  }: {
    readonly points: readonly { readonly point: string; readonly low: number; readonly high: number }[];
    readonly extra?: readonly Requirement[];
    readonly restsOn: Claim["restsOn"];
  },
): Claim {
  return {
    claim: `test-points-${stage}`,
    title,
    sheet: "voltages",
    requires: [...points.map(({ point, low, high }) => ({ quantity: "level_V", point, low, high })), ...extra],
    restsOn,
    check: {
      how: `Probe the test points of the ${stage} stage with one hand, after a night of idling`,
      skill: "voltages",
      place: "wiring bench",
      hands_min: 15 + 2 * points.length,
      wait_h: 16,
      danger: "high-voltage",
      after: ["earth-bond", "insulation"],
      failOdds: 0.08,
      lateCost_h: 10,
      repair_h: 1.5,
    },
  };
}

export interface SupplyLimits {
  readonly heaters: readonly { point: string; volts: number }[];
  readonly ht: readonly { readonly point: string; readonly low: number; readonly high: number }[];
  readonly flux_T: number;
}

/** What the mains transformer gives at the customer's socket, and what is printed on the back for it. */
export function supplyClaims({ heaters, ht, flux_T }: SupplyLimits): readonly Claim[] {
  const tap = { supply: "tap" };
  const live: Pick<Claim["check"], "skill" | "place" | "danger" | "after"> = {
    skill: "voltages",
    place: "wiring bench",
    danger: "mains",
    after: ["earth-bond", "insulation"],
  };
  return [
    {
      claim: "heaters",
      title: "Heaters get their voltage at the destination",
      sheet: "supply",
      requires: heaters.map(({ point, volts }) => ({
        quantity: "level_Vrms",
        point,
        low: Number((volts * 0.95).toFixed(3)),
        high: Number((volts * 1.05).toFixed(3)),
      })),
      restsOn: [tap],
      check: {
        ...live,
        how: "True-RMS volts at each heater, the destination's mains set on the regulator",
        hands_min: 12,
      },
    },
    {
      claim: "ht",
      title: "HT is inside its window at the destination",
      sheet: "supply",
      requires: ht.map(({ point, low, high }) => ({ quantity: "level_V", point, low, high })),
      restsOn: [tap, { supply: "ht" }],
      check: {
        ...live,
        how: "HT at the reservoir, loaded, the destination's mains set",
        hands_min: 8,
        danger: "high-voltage",
      },
    },
    {
      claim: "flux",
      title: "The core keeps clear of saturation at the destination",
      sheet: "supply",
      requires: [{ quantity: "flux_T", high: flux_T }],
      restsOn: [tap],
      check: {
        ...live,
        how: "Magnetising current at 110 % of the destination's mains; flux from turns and area",
        hands_min: 10,
      },
    },
    {
      claim: "fuse",
      title: "The fuse suits the tap",
      sheet: "supply",
      requires: [{ quantity: "fuseOverCurrent", low: 1.3, high: 2 }],
      restsOn: [tap],
      check: { ...live, how: "Read the fuse's rating on its cap against the primary current measured", hands_min: 4 },
    },
    {
      claim: "label",
      title: "The rating label says what the tap is set to",
      sheet: "supply",
      requires: [{ quantity: "labelDifference_V", low: 0, high: 0, counted: true }],
      restsOn: [tap],
      check: {
        how: "Read the label aloud against the tap and the order",
        skill: "wiring",
        hands_min: 2,
        danger: "none",
        failOdds: 0.01,
        repair_h: 0.2,
      },
    },
  ];
}

/**
 * The routine safety tests of a mains amplifier with an earthed chassis.
 *
 * Limits are guides of common practice; local codes and a licensed practitioner decide.
 *
 * @param stores  points that hold a charge of their own, where there is more than one
 */
export function safetyClaims(stores: readonly string[] = []): readonly Claim[] {
  const tap = { supply: "tap" };
  const bench = { skill: "safety", place: "audio bench", danger: "mains" } as const;
  return [
    {
      claim: "earth-bond",
      title: "Every touchable metal part is bonded to earth",
      sheet: "safety",
      safety: true,
      requires: [{ quantity: "bond_ohm", high: 0.1 }],
      restsOn: [tap, { case: "closure" }],
      check: {
        ...bench,
        how: "10 A for 3 s from the earth pin to chassis, jack and screws",
        hands_min: 5,
        failOdds: 0.02,
      },
    },
    {
      claim: "insulation",
      title: "Mains is insulated from the chassis",
      sheet: "safety",
      safety: true,
      requires: [{ quantity: "resistance_Mohm", low: 4 }],
      restsOn: [tap],
      check: {
        ...bench,
        how: "500 V between both mains pins and earth for a minute, then discharge",
        hands_min: 6,
        danger: "high-voltage",
        after: ["earth-bond"],
        failOdds: 0.01,
      },
    },
    {
      claim: "touch-current",
      title: "No more than a harmless current reaches a hand",
      sheet: "safety",
      safety: true,
      requires: [{ quantity: "touch_mA", high: 0.25 }],
      restsOn: [tap],
      check: {
        ...bench,
        how: "Touch current with the earth lifted, both ways round, at 110 % of the destination's mains",
        hands_min: 8,
        after: ["earth-bond", "insulation"],
        failOdds: 0.01,
      },
    },
    {
      claim: "discharge",
      title: "The HT falls below 60 V in time after unplugging",
      sheet: "safety",
      safety: true,
      requires:
        stores.length === 0
          ? [{ quantity: "discharge_s", high: 60 }]
          : stores.map((point) => ({ quantity: "discharge_s", point, high: 60 })),
      restsOn: [tap, { supply: "ht" }],
      check: {
        ...bench,
        how:
          stores.length === 0
            ? "Unplug at full HT, clock the meter down to 60 V"
            : `Unplug at full HT, clock the meter down to 60 V at each store by itself: ${stores.join(", ")}; one that is empty says nothing of the others`,
        hands_min: 5,
        danger: "high-voltage",
        after: ["earth-bond", "insulation"],
        failOdds: 0.01,
      },
    },
  ];
}

/** The wooden case: dry enough for where it goes, free at its gaps, and safe to stand warm. */
export function caseClaims(gap_mm: number): readonly Claim[] {
  return [
    {
      claim: "case-moisture",
      title: "The case is as dry as its destination",
      sheet: "timber",
      requires: [{ quantity: "moistureDifference_pct", low: -2, high: 2 }],
      restsOn: [{ case: "timber" }],
      check: {
        how: "Moisture at three panels, less the middle of the destination's year",
        skill: "wood",
        place: "case shop",
        hands_min: 10,
        failOdds: 0.07,
        repair_h: 6,
      },
    },
    {
      claim: "case-whole",
      title: "The case will stay whole at its destination",
      sheet: "timber",
      requires: [{ quantity: "panelsAtRisk", high: 0, counted: true }],
      restsOn: [{ case: "timber" }],
      check: {
        how: "Weigh the panels before they are joined, write down how each is held and its room to move",
        skill: "wood",
        place: "case shop",
        hands_min: 10,
        failOdds: 0.05,
        lateCost_h: 40,
        repair_h: 8,
      },
    },
    {
      claim: "case-gap",
      title: "Lid and panels keep their gaps under the finish",
      sheet: "timber",
      requires: [{ quantity: "gap_mm", point: "lid", low: gap_mm }],
      restsOn: [{ case: "finish" }, { case: "timber" }],
      check: {
        how: "Feeler gauge round the lid after the last coat has hardened",
        skill: "wood",
        hands_min: 6,
        danger: "dust",
        failOdds: 0.05,
        repair_h: 3,
      },
    },
    {
      claim: "case-soak",
      title: "The closed case stands the heat",
      sheet: "timber",
      requires: [
        { quantity: "temperature_C", point: "wood over the valves", high: 60 },
        { quantity: "cracks", low: 0, high: 0, counted: true },
      ],
      restsOn: [{ case: "closure" }],
      check: {
        how: "Closed and idling for a night on the soak shelf, then temperature and a look with the lens",
        skill: "audio",
        hands_min: 10,
        wait_h: 12,
        waitPlace: "soak shelf",
        danger: "hot",
        after: ["earth-bond", "insulation", "touch-current"],
        failOdds: 0.04,
        repair_h: 8,
      },
    },
  ];
}
