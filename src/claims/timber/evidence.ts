import { z } from "zod";
import { ownWoodShape } from "../../timber/ownWoodShape.ts";

/**
 * What is written down of timber: pieces as they come in, what was weighed and where they stood, what was done to
 * them, what was found wrong with them, the cases they became, and the air that those go to.
 */

const name = z.string().min(1).max(120);
const words = z.string().max(4000);
const instant = z.iso.datetime({ offset: true });
const supersedes = name.optional();
const size_mm = z.number().positive().max(20_000);
const ringAngle_deg = z.number().min(0).max(90);
const mass_g = z.number().positive().max(1e7);
const percent = z.number().min(0).max(100);
const temperature_C = z.number().min(-40).max(150);
const faces = z.enum(["both", "one"]);

/** Along the grain, across it, through it. */
const size = { length_mm: size_mm, width_mm: size_mm, thickness_mm: size_mm.max(300) };

/** A blank or board comes in, with what its seller says of it. */
const blank = z.strictObject({
  kind: z.literal("blank"),
  piece: name,
  rough: z.boolean().default(true),
  species: name,
  /** Of a species that the catalogue lacks. */
  density_kg_m3: z.number().min(50).max(1500).optional(),
  ...size,
  /** 0 flat-sawn, 90 quarter-sawn. */
  ringAngle_deg,
  pith_mm: size_mm.optional(),
  seller: name,
  /** Moisture that the seller says it has. */
  claimed_pct: percent.optional(),
  /** Papers that came with it. */
  papers: z.array(name).max(20).default([]),
  place: name,
  /** Figure, knots, sapwood: what to cut round. */
  seen: words.optional(),
  supersedes,
});

/** Along the board from its end, or across it from its edge. */
const stretch = z
  .strictObject({ from_mm: z.number().min(0).max(20_000), to_mm: z.number().min(0).max(20_000) })
  .refine(({ from_mm, to_mm }) => to_mm > from_mm, { error: "ends where it begins, or before", path: ["to_mm"] });
/** 0 plain to 3 the finest. */
const figure = z.number().int().min(0).max(3);

/** Where a board is not clear, and how fine its figure is; a later list of the piece replaces it. */
const boardMarks = z.strictObject({
  kind: z.literal("board-marks"),
  piece: name,
  defects: z
    .array(
      z.strictObject({
        what: z.enum(["knot", "check", "sapwood", "other"]),
        along: stretch,
        /** The whole width where left out. */
        across: stretch.optional(),
      }),
    )
    .max(60)
    .default([]),
  figure: figure.optional(),
  supersedes,
});

const weighing = z.strictObject({
  kind: z.literal("weighing"),
  piece: name,
  mass_g,
  instrument: name,
  /** 95 % half-width, where it is not the balance's last digit. */
  doubt_g: z.number().positive().optional(),
  supersedes,
});

/** An offcut of the piece: weighed wet when it was cut, and again once an oven had dried it to a steady mass. */
const offcut = z.strictObject({
  kind: z.literal("offcut"),
  piece: name,
  cut: instant,
  wet_g: mass_g,
  ovenDry_g: mass_g,
  instrument: name,
  supersedes,
});

/** Where timber stands. A plate closes the face that lies on it. */
const timberPlace = z.strictObject({
  kind: z.literal("timber-place"),
  place: name,
  what: z.enum(["room", "chamber", "plate", "amplifier", "outside"]),
  faces: faces.default("both"),
  set_C: temperature_C.optional(),
  /** Pieces that find room in it at once. */
  holds: z.number().int().positive().max(1000).optional(),
  supersedes,
});

/** What was logged of a place's air, a single reading or a logger's whole file. */
const air = z.strictObject({
  kind: z.literal("air"),
  place: name,
  readings: z
    .array(z.strictObject({ at: instant, temperature_C, humidity_pct: percent }))
    .min(1)
    .max(5000),
  instrument: name,
  supersedes,
});

const stood = z.strictObject({
  kind: z.literal("stood"),
  pieces: z.array(name).min(1).max(500),
  place: name,
  /** Where it differs from the place's own. */
  faces: faces.optional(),
  supersedes,
});

/** Planed, sawn narrower or shorter: the piece as it is afterwards. `unit` where its case is touched by it. */
const machined = z.strictObject({
  kind: z.literal("machined"),
  piece: name,
  ...size,
  ringAngle_deg: ringAngle_deg.optional(),
  unit: name.optional(),
  supersedes,
});

/** A coat on pieces, or on the whole case of a unit. */
const coat = z.strictObject({
  kind: z.literal("coat"),
  pieces: z.array(name).max(100).default([]),
  unit: name.optional(),
  /** Drying oils harden by taking up oxygen, and their rags heat by themselves. */
  finish: z.enum(["oil", "wax", "shellac", "lacquer", "varnish"]),
  /** What the tin says. */
  product: name.optional(),
  faces: faces.default("both"),
  turn_h: z.number().positive().max(1000).optional(),
  hardens_h: z.number().positive().max(5000),
  supersedes,
});

const flaw = z.strictObject({
  kind: z.literal("flaw"),
  piece: name,
  flaw: z.enum(["crack", "bow", "cup", "twist"]),
  /** Of a crack its length, of the others their rise. */
  length_mm: size_mm,
  /** Work at which it was found: on the plate, sanding, soak. */
  found: name,
  photo_sha256: z
    .string()
    .regex(/^[0-9a-f]{64}$/)
    .optional(),
  supersedes,
});

/** A board ends, and pieces with numbers of their own begin, as moist as it was. */
const sawn = z.strictObject({
  kind: z.literal("sawn"),
  piece: name,
  into: z
    .array(z.strictObject({ piece: name, ...size, ringAngle_deg }))
    .min(1)
    .max(60),
  supersedes,
});

/** Pieces kept for a unit, before they are its case. */
const meant = z.strictObject({
  kind: z.literal("meant"),
  pieces: z.array(name).min(1).max(100),
  unit: name,
  supersedes,
});

/** Panels that a unit's case is to have, finished sizes; a later list of the unit replaces it. */
const casePanels = z.strictObject({
  kind: z.literal("case-panels"),
  unit: name,
  panels: z
    .array(
      z.strictObject({
        panel: name,
        species: name,
        ...size,
        /** Glued up from so many of equal width. */
        staves: z.number().int().min(1).max(20).optional(),
        /** Least figure wanted. */
        figure: figure.optional(),
        /** Panels of the case with the same word come from one board, so that their faces match. */
        matched: name.optional(),
      }),
    )
    .min(1)
    .max(30),
  supersedes,
});

/** Panels glued into a case, each with how it is held and the room it has. */
const joined = z.strictObject({
  kind: z.literal("case"),
  case: name,
  panels: z
    .array(
      z.strictObject({
        panel: name,
        piece: name,
        fixed: z.enum(["edges", "centre", "free"]),
        /** To swell into; of a panel fixed at its edges, what its slots give. */
        gap_mm: z.number().min(0).max(1000).default(0),
        /** Its inner face is warmed by the amplifier. */
        warm: z.boolean().default(false),
        /** As a meter read it at joining, where it was not weighed. */
        moisture_pct: percent.optional(),
        doubt_pct: percent.optional(),
      }),
    )
    .min(1)
    .max(30),
  supersedes,
});

const caseGiven = z.strictObject({
  kind: z.literal("case-given"),
  case: name,
  unit: name,
  /** Inner walls with the amplifier on, measured or estimated. */
  wall_C: temperature_C.optional(),
  supersedes,
});

/** The air of rooms at a destination, month by month. */
const climate = z.strictObject({
  kind: z.literal("climate"),
  place: name,
  months: z
    .array(z.strictObject({ month: z.number().int().min(1).max(12), temperature_C, humidity_pct: percent }))
    .length(12),
  /** Where the figures come from; a guess says so. */
  basis: words,
  supersedes,
});

/** A wood that the catalogue lacks, as the shop measured it; a later entry of that name replaces it. */
const ownWood = z.strictObject({
  kind: z.literal("wood"),
  species: name,
  ...ownWoodShape,
  /** Where coefficients come from that were not measured here. */
  basis: words.optional(),
  supersedes,
});

/** Stages that pieces, or the case of a unit, are to go through, one after another; a later plan replaces it. */
const plannedStages = z.strictObject({
  kind: z.literal("planned-stages"),
  pieces: z.array(name).max(100).default([]),
  /** The unit whose case it is: its soak. */
  unit: name.optional(),
  begins: instant,
  stages: z
    .array(
      z.strictObject({
        place: name,
        hours: z.number().positive().max(20_000),
        /** Where it differs from the place's own. */
        faces: faces.optional(),
        /** Planed to this as the stage begins. */
        machinedTo_mm: size_mm.max(300).optional(),
      }),
    )
    .max(20),
  supersedes,
});

/** How the case of a unit is to be finished, coat by coat; a later plan of the unit replaces it. */
const finishPlan = z.strictObject({
  kind: z.literal("finish-plan"),
  unit: name,
  /** When the first coat is to go on, at the earliest. */
  begins: instant,
  /** Whose hands: coats go on when they are in. */
  who: name,
  coats: z
    .array(
      z.strictObject({
        finish: z.enum(["oil", "wax", "shellac", "lacquer", "varnish"]),
        product: name.optional(),
        coats: z.number().int().min(1).max(12),
        /** As the tin says, at 20 °C. */
        between_h: z.number().positive().max(1000).optional(),
        hardens_h: z.number().positive().max(5000).optional(),
      }),
    )
    .max(8),
  supersedes,
});

export const timberBodies = [
  blank,
  boardMarks,
  weighing,
  offcut,
  timberPlace,
  air,
  stood,
  machined,
  coat,
  flaw,
  sawn,
  meant,
  casePanels,
  joined,
  caseGiven,
  climate,
  ownWood,
  plannedStages,
  finishPlan,
] as const;
