import type { Figure } from "../../circuits/versions/index.ts";
import type { ClaimSpec, Model, Requirement, Submission, Thing } from "../../claims/evidence.ts";
import type { Shop } from "../../claims/index.ts";

/** A model as a person writes it down, defaults left out. */
export type ModelEntry = Omit<Extract<Submission, { kind: "model" }>, "id" | "at" | "by">;
type Claim = ModelEntry["claims"][number];
type Require = Claim["requires"][number];
type Check = Claim["check"];

export interface ClaimGround {
  readonly netlist: Model["netlist"];
  readonly positions: Model["positions"];
  readonly channels: readonly string[];
  readonly figures: readonly Figure[];
  readonly points: readonly {
    readonly name: string;
    readonly stage: string;
    readonly low_V: number;
    readonly high_V: number;
  }[];
  /** Positions of other stages that move a point, by its name. */
  readonly behind: ReadonlyMap<string, readonly string[]>;
  readonly loads: readonly { readonly name: string }[];
  readonly balance_dB: number;
  readonly gain_dB: number;
  readonly shop: Shop;
}

/** Heater voltage that each valve position must get, by the catalogue. */
export type HeaterOf = (type: string) => { readonly V: number } | undefined;

const round = (value: number, figures = 3) => Number(value.toPrecision(figures));

/** Who and where, as far as the shop has such people and places; what it doesn't name is left for it to find. */
export function checkers(shop: Shop) {
  const people = shop.shop?.people ?? [];
  const skills = new Set(people.flatMap((person) => person.skills));
  const places = new Set((shop.shop?.places ?? []).map(({ id }) => id));
  const first = people[0]?.skills[0] ?? "bench";
  return {
    skill: (name: string) => (skills.has(name) || skills.size === 0 ? name : first),
    place: (name: string): { place?: string } => (places.has(name) ? { place: name } : {}),
  };
}

const afterLive = ["earth-bond", "insulation"];

export function modelClaims(ground: ClaimGround, heaterOf: HeaterOf): readonly Claim[] {
  const stages = [...new Set(ground.points.map(({ stage }) => stage))].filter((stage) => !isSupply(stage));
  const testPoints = stages.map((stage) => testPointClaim(ground, stage));
  return [
    ...valveClaim(ground),
    ...testPoints,
    ...soundClaims(
      ground,
      testPoints.map(({ claim }) => claim),
    ),
    ...supplyClaims(ground, heaterOf),
    ...safetyClaims(ground.shop),
  ];
}

const isSupply = (stage: string) => stage === "supply" || stage === "heaters";

function valveClaim({ positions, shop }: ClaimGround): Claim[] {
  if (positions.length === 0) return [];
  const requires = positions.flatMap(({ position, type, sections }): Require[] => {
    const limits = shop.valveLimits.get(type)?.body.limits;
    const drift = limits?.drift_pct ?? 5;
    const names = Object.keys(sections);
    return [
      ...names.map((section) => ({
        quantity: "drift_pct",
        of: "valve" as const,
        position,
        section,
        low: -drift,
        high: drift,
      })),
      ...(names.length > 1
        ? [{ quantity: "sectionSpread_pct", of: "valve" as const, position, high: limits?.sectionSpread_pct ?? 15 }]
        : []),
    ];
  });
  const who = checkers(shop);
  return [
    {
      claim: "valves",
      title: "Every valve is steady through the heat run",
      sheet: "valves",
      requires,
      restsOn: [{ instrument: testerOf(shop) }],
      check: {
        how: "Read every section on the valve tester cold, run the valve two days at working heat, read it again",
        skill: who.skill("valves"),
        hands_min: 10 * positions.length,
        wait_h: 48,
        danger: "high-voltage",
        lateCost_h: 12,
      },
    },
  ];
}

/** The instrument that valves are read on: the one that read them last, else one tried by plate current. */
function testerOf(shop: Shop): string {
  const tried = [...shop.instruments.values()].find(({ body }) => body.trial.quantity === "plate_mA");
  return tried?.body.instrument ?? "valve-tester";
}

function testPointClaim({ points, behind, positions, netlist, shop }: ClaimGround, stage: string): Claim {
  const mine = points.filter((point) => point.stage === stage);
  const own = new Set(positionsInStage(netlist, positions, stage));
  const others = [...new Set(mine.flatMap(({ name }) => behind.get(name) ?? []))].filter((one) => !own.has(one));
  const who = checkers(shop);
  return {
    claim: `test-points-${slug(stage)}`,
    title: `${capital(stage)} stage: its test points lie in their windows`,
    sheet: "voltages",
    requires: mine.map(({ name, low_V, high_V }) => ({
      quantity: "level_V",
      point: name,
      low: round(low_V),
      high: round(high_V),
    })),
    restsOn: [{ stage }, ...others.map((position) => ({ position }))],
    check: {
      how: `Probe the test points of the ${stage} stage with one hand, warmed up`,
      skill: who.skill("voltages"),
      ...who.place("wiring bench"),
      hands_min: 15 + 2 * mine.length,
      wait_h: 1,
      danger: "high-voltage",
      after: afterLive,
      failOdds: 0.08,
      lateCost_h: 10,
      repair_h: 1.5,
    },
  };
}

function positionsInStage(netlist: Model["netlist"], positions: Model["positions"], stage: string): string[] {
  const parts = Array.isArray(netlist.parts) ? (netlist.parts as readonly { id?: unknown; stage?: unknown }[]) : [];
  const ids = new Set(parts.filter((part) => part.stage === stage).map(({ id }) => id));
  return positions.filter(({ sections }) => Object.values(sections).some((id) => ids.has(id))).map((p) => p.position);
}

function soundClaims(ground: ClaimGround, after: readonly string[]): Claim[] {
  const { channels, figures, loads, positions, balance_dB, gain_dB, shop } = ground;
  if (channels.length === 0) return [];
  const who = checkers(shop);
  const bench = {
    skill: who.skill("audio"),
    ...who.place("audio bench"),
    danger: "hot" as const,
    after: after.length > 0 ? [...after] : afterLive,
  };
  const valued = (channel: string, of: string, quantity: string) =>
    figures.find(({ key }) => key === `sound ${channel} ${of} ${quantity}`)?.value;
  const load = loads[0]?.name ?? "";
  const valves: Thing[] = positions.map(({ position }) => ({ position }));
  const restsOn = valves.length > 0 ? valves : [{ channel: channels[0]! }];
  const per = (limits: (channel: string) => Omit<Require, "channel"> | undefined): Require[] =>
    channels.flatMap((channel) => {
      const limit = limits(channel);
      return limit ? [{ ...limit, channel } as Require] : [];
    });
  const into = load === "" ? "" : ` into ${load}`;
  const claims: (Claim | undefined)[] = [
    claim("balance", `Gain is the model’s${channels.length > 1 ? ", alike in all channels" : ""}`, [
      ...(channels.length > 1 ? [{ quantity: "balance_dB", low: -balance_dB, high: balance_dB }] : []),
      ...per((channel) => {
        const gain = valued(channel, load, "gain_dB") ?? valued(channel, "", "gain_dB");
        return gain === undefined
          ? undefined
          : { quantity: "gain_dB", low: round(gain - gain_dB), high: round(gain + gain_dB) };
      }),
    ]),
    claim(
      "output-impedance",
      "Output impedance is the model’s",
      per((channel) => {
        const ohm = valued(channel, "", "outputImpedance_ohm");
        return ohm === undefined ? undefined : { quantity: "outputImpedance_ohm", high: round(1.3 * ohm) };
      }),
    ),
    claim(
      "dc-at-output",
      "No direct voltage at the output",
      per((channel) => {
        const dc_mV = valued(channel, "", "dcAtOutput_mV") ?? 0;
        const reach = Math.max(15, 0.2 * Math.abs(dc_mV));
        return Math.abs(dc_mV) > 2000
          ? undefined
          : { quantity: "jack_mV", low: round(dc_mV - reach), high: round(dc_mV + reach) };
      }),
    ),
    claim("response", "The ends of the band are where the model puts them", [
      ...["20 Hz", "20 kHz"].flatMap((point) =>
        per((channel) => {
          const end = valued(channel, `${load} at ${point}`, "response_dB");
          return end === undefined
            ? undefined
            : { quantity: "response_dB", point, low: round(end - 0.5), high: round(end + 0.5) };
        }),
      ),
    ]),
    claim(
      "noise",
      "The hiss stays low",
      per((channel) => {
        const hiss = figures.find(({ key }) => key === `noise ${channel} at the output hissA_uVrms`)?.value;
        return hiss === undefined ? undefined : { quantity: "hissA_uVrms", high: round(2 * hiss) };
      }),
    ),
    claim(
      "distortion",
      "Distortion is the model’s",
      per((channel) => {
        const thd = figures.find(
          ({ key }) => key.startsWith(`sound ${channel} ${load} at `) && key.endsWith(" thd_pct"),
        )?.value;
        return thd === undefined ? undefined : { quantity: "thd_pct", high: round(1.6 * thd + 0.01) };
      }),
    ),
    {
      claim: "hum",
      title: "No hum of its own is heard on any of the shop’s headphones",
      sheet: "hum",
      requires: channels.map((channel) => ({ quantity: "hum_margin_dB", channel, high: 0 })),
      restsOn: [...restsOn, { supply: "tap" }],
      check: {
        ...bench,
        how: "Input shorted, 8 s on the building’s mains and 8 s regenerated",
        hands_min: 30,
        failOdds: 0.1,
        lateCost_h: 14,
        repair_h: 3,
      },
    },
  ];
  return claims.filter((one) => one !== undefined);

  function claim(name: string, title: string, requires: Require[]): Claim | undefined {
    if (requires.length === 0) return undefined;
    return {
      claim: name,
      title,
      sheet: "sound",
      requires,
      restsOn,
      check: { ...bench, how: hows[name]!(into), hands_min: 12, failOdds: 0.05, repair_h: 1.5 },
    };
  }
}

const hows: Readonly<Record<string, (into: string) => string>> = {
  balance: (into) => `1 kHz${into}, all channels driven alike, loop-back taken first`,
  "output-impedance": () => "Level at 1 kHz unloaded and loaded, one channel at a time",
  "dc-at-output": () => "Millivolts at the output, at switching on and settled",
  response: (into) => `Sweep from 10 Hz to 40 kHz${into}, against 1 kHz`,
  noise: () => "Input shorted, hiss without lines, A-weighted",
  distortion: (into) => `1 kHz${into} at the level told, orders 2 to 10`,
};

function supplyClaims({ positions, points, shop }: ClaimGround, heaterOf: HeaterOf): Claim[] {
  const who = checkers(shop);
  const tap: Thing = { supply: "tap" };
  const live: Pick<Check, "skill" | "place" | "danger" | "after"> = {
    skill: who.skill("voltages"),
    ...who.place("wiring bench"),
    danger: "mains",
    after: [...afterLive],
  };
  const heaters = positions.flatMap(({ position, type }): Require[] => {
    const heater = heaterOf(type);
    if (!heater) return [];
    const [low, high] = [round(heater.V * 0.95), round(heater.V * 1.05)];
    return [{ quantity: "level_Vrms", point: `${position} heater`, low, high }];
  });
  const rails = points.filter(({ stage }) => isSupply(stage));
  return [
    ...(heaters.length > 0
      ? [
          {
            claim: "heaters",
            title: "Heaters get their voltage at the destination",
            sheet: "supply" as const,
            requires: heaters,
            restsOn: [tap],
            check: {
              ...live,
              how: "True-RMS volts at each heater, the destination’s mains set on the regulator",
              hands_min: 6 * heaters.length,
            },
          },
        ]
      : []),
    ...(rails.length > 0
      ? [
          {
            claim: "supply",
            title: "The supply’s points are inside their windows at the destination",
            sheet: "supply" as const,
            requires: rails.map(({ name, low_V, high_V }) => ({
              quantity: "level_V",
              point: name,
              low: round(low_V),
              high: round(high_V),
            })),
            restsOn: [tap, { stage: rails[0]!.stage }],
            check: {
              ...live,
              how: "Supply points, loaded, the destination’s mains set on the regulator",
              hands_min: 4 + 2 * rails.length,
              danger: "high-voltage" as const,
            },
          },
        ]
      : []),
    {
      claim: "fuse",
      title: "The fuse suits the tap",
      sheet: "supply",
      requires: [{ quantity: "fuseOverCurrent", low: 1.3, high: 2 }],
      restsOn: [tap],
      check: { ...live, how: "Read the fuse’s rating on its cap against the primary current measured", hands_min: 4 },
    },
    {
      claim: "label",
      title: "The rating label says what the tap is set to",
      sheet: "supply",
      requires: [{ quantity: "labelDifference_V", low: 0, high: 0, counted: true }],
      restsOn: [tap],
      check: {
        how: "Read the label aloud against the tap and the order",
        skill: who.skill("wiring"),
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
 * Limits are guides of common practice, to be set by the responsible person; local codes and a licensed practitioner
 * decide.
 */
function safetyClaims(shop: Shop): Claim[] {
  const who = checkers(shop);
  const bench = { skill: who.skill("safety"), ...who.place("audio bench"), danger: "mains" as const, failOdds: 0.01 };
  const tap: Thing = { supply: "tap" };
  const test = (
    claim: string,
    title: string,
    requires: Require,
    restsOn: Thing[],
    check: Pick<Check, "how" | "hands_min"> & Partial<Check>,
  ): Claim => ({
    claim,
    title,
    sheet: "safety",
    safety: true,
    requires: [requires],
    restsOn,
    check: { ...bench, ...check },
  });
  return [
    test(
      "earth-bond",
      "Every touchable metal part is bonded to earth",
      { quantity: "bond_ohm", high: 0.1 },
      [tap, { case: "closure" }],
      { how: "10 A for 3 s from the earth pin to chassis, sockets and screws", hands_min: 5 },
    ),
    test("insulation", "Mains is insulated from the chassis", { quantity: "resistance_Mohm", low: 4 }, [tap], {
      how: "500 V between both mains pins and earth for a minute, then discharge",
      hands_min: 6,
      danger: "high-voltage",
      after: ["earth-bond"],
    }),
    test(
      "touch-current",
      "No more than a harmless current reaches a hand",
      { quantity: "touch_mA", high: 0.25 },
      [tap],
      {
        how: "Touch current with the earth lifted, both ways round, at 110 % of the destination’s mains",
        hands_min: 8,
        after: afterLive,
      },
    ),
    test(
      "discharge",
      "The high voltage falls below 60 V in time after unplugging",
      { quantity: "discharge_s", high: 60 },
      [tap],
      {
        how: "Unplug at full voltage, clock the meter down to 60 V",
        hands_min: 5,
        danger: "high-voltage",
        after: afterLive,
      },
    ),
  ];
}

/**
 * What a case of timber must stand, for a first revision; a shop that makes no cases leaves them out. Limits are guides
 * of common practice.
 */
export function caseClaims(shop: Shop): readonly Claim[] {
  const who = checkers(shop);
  return [
    {
      claim: "case-whole",
      title: "The case will stay whole at its destination",
      sheet: "timber",
      requires: [{ quantity: "panelsAtRisk", high: 0, counted: true }],
      restsOn: [{ case: "timber" }],
      check: {
        how: "Weigh the panels before they are joined, write down how each is held and its room to move",
        skill: who.skill("wood"),
        ...who.place("case shop"),
        hands_min: 10,
        failOdds: 0.05,
        lateCost_h: 40,
        repair_h: 8,
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
        how: "Closed and idling for a night, then temperature and a look with the lens",
        skill: who.skill("audio"),
        hands_min: 10,
        wait_h: 12,
        ...(who.place("soak shelf").place !== undefined && { waitPlace: "soak shelf" }),
        danger: "hot",
        after: afterLive,
        failOdds: 0.04,
        repair_h: 8,
      },
    },
  ];
}

/** Takes over claims of the revision before that the circuit says nothing about, without what is no longer there. */
export function carriedClaims(
  before: Model | undefined,
  made: readonly Claim[],
  isThere: (thing: Thing) => boolean,
  isRequired: (requirement: Requirement) => boolean,
): { readonly claims: readonly ClaimSpec[]; readonly left: readonly string[] } {
  const names = new Set(made.map(({ claim }) => claim));
  const older = (before?.claims ?? []).filter(({ claim }) => !names.has(claim) && !replaces(claim, names));
  const known = new Set([...names, ...older.map(({ claim }) => claim)]);
  const kept = older.map((one) => ({
    ...one,
    restsOn: one.restsOn.filter(isThere),
    requires: one.requires.filter(isRequired),
    check: { ...one.check, after: one.check.after.filter((name) => known.has(name)) },
  }));
  const whole = kept.filter(({ restsOn, requires }) => restsOn.length > 0 && requires.length > 0);
  return {
    claims: whole,
    left: kept.filter((one) => !whole.includes(one)).map(({ title }) => title),
  };
}

/** An older claim on the same thing by another name: of supply and jack. */
function replaces(claim: string, made: ReadonlySet<string>): boolean {
  return (claim === "ht" && made.has("supply")) || (claim === "dc-at-jack" && made.has("dc-at-output"));
}

const slug = (text: string) => text.toLowerCase().replace(/[^a-z0-9]+/g, "-");
const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
