import { BadInput, quote } from "../maths/badInput.ts";
import { wilson } from "./checkIndex.ts";

/** A crack or bow seen on a piece at an inspection; its picture is named, never opened here. */
export interface Defect {
  readonly piece: string;
  readonly kind: "crack" | "bow" | "cup";
  readonly stage: string;
  /** Hours in that stage when it was first seen. */
  readonly stageHour: number;
  /** Length of a crack, or height of a bow over the piece's length. */
  readonly size_mm: number;
  readonly photo?: string;
}

/** What a piece went through, whether it stayed whole or not. */
export interface InspectedPiece {
  readonly piece: string;
  readonly species: string;
  readonly thickness_mm: number;
  /** Hours spent in each stage, in order; an inspection closes each. */
  readonly stages: readonly { readonly stage: string; readonly hours: number }[];
  readonly checkIndex?: number;
}

export interface CrackGroup {
  readonly stage: string;
  readonly species: string;
  readonly thickness: string;
  readonly pieces: number;
  readonly cracked: number;
  readonly share: { readonly value: number; readonly low: number; readonly high: number };
  /** Hours in the stage by which half and nine tenths of its cracks were seen. */
  readonly half_h?: number;
  readonly mostBy_h?: number;
  readonly longest_mm: number;
  /** Of the cracks, the share seen in the first and in each later day of the stage. */
  readonly byDay: readonly { readonly day: number; readonly cracks: number }[];
}

export interface CrackAnswer {
  readonly groups: readonly CrackGroup[];
  /** As the survival analysis of soaks takes them: hours in the stage until cracked, or until taken out whole. */
  readonly pieces: readonly {
    readonly stage: string;
    readonly species: string;
    readonly hours: number;
    readonly failed: boolean;
  }[];
  /** How well the check index told cracked from whole pieces: 1/2 says nothing, 1 tells all. */
  readonly index?: {
    readonly told: number;
    readonly low: number;
    readonly high: number;
    readonly cracked: number;
    readonly whole: number;
  };
  readonly notes: readonly string[];
}

/** Thicknesses are told apart by these edges, mm. */
const thicknessEdges = [14, 20, 26, 35] as const;

/**
 * When cracks appear, stage by stage, for each species and thickness: what the look-back rests on.
 *
 * @throws BadInput  a defect of a piece or stage that is not among the inspected, sizes or hours below 0
 * @remarks Pieces that stayed whole count: a share without them says nothing. Shares with Wilson's 95 % interval. The
 *   index's worth is the share of pairs, one cracked and one whole, in which the cracked one had the higher index.
 * @source  E. B. Wilson, J. American Statistical Association 22 (1927) 209-212; J. A. Hanley and B. J. McNeil, Radiology
 *   143 (1982) 29-36, for the share's own interval (both from memory)
 */
export function cracksBack(pieces: readonly InspectedPiece[], defects: readonly Defect[]): CrackAnswer {
  if (pieces.length === 0)
    throw new BadInput("pieces", "none", "at least one", "give the pieces inspected, whole ones too");
  const byId = new Map(pieces.map((piece) => [piece.piece, piece]));
  defects.forEach((defect, i) => {
    const piece = byId.get(defect.piece);
    if (!piece) throw new BadInput(`defects[${i}].piece`, quote(defect.piece), "one of the pieces", "add the piece");
    if (!piece.stages.some(({ stage }) => stage === defect.stage)) {
      const known = piece.stages.map(({ stage }) => stage).join(", ");
      throw new BadInput(
        `defects[${i}].stage`,
        quote(defect.stage),
        `a stage of that piece: ${known}`,
        "name the stage in which it was seen",
      );
    }
    for (const name of ["size_mm", "stageHour"] as const) {
      if (!(defect[name] >= 0))
        throw new BadInput(`defects[${i}].${name}`, quote(defect[name]), "0 or more", "measure it again");
    }
  });
  const cracks = defects.filter(({ kind }) => kind === "crack");
  const lives = pieces.flatMap((piece) => livesOf(piece, cracks));
  const keys = [...new Set(lives.map(({ stage, species, thickness }) => `${stage}|${species}|${thickness}`))];
  const groups = keys.map((key) =>
    groupOf(lives.filter((one) => `${one.stage}|${one.species}|${one.thickness}` === key)),
  );
  const index = worthOf(pieces, cracks);
  return {
    groups: groups.sort((a, b) => b.cracked - a.cracked || a.stage.localeCompare(b.stage)),
    pieces: lives.map(({ stage, species, hours, failed }) => ({ stage, species, hours, failed })),
    ...(index ? { index } : {}),
    notes: [
      "A crack counts at the hour it was first seen; with inspections at a stage's end alone, it may have opened any time before.",
      ...(index
        ? [
            index.low > 0.5
              ? "The check index tells cracked from whole pieces better than chance: it may be ranked by. A chance is told from 8 cracked and 8 whole pieces of a species on."
              : "The check index does not yet tell cracked from whole pieces better than chance: go by the shares above.",
          ]
        : []),
    ],
  };
}

interface Life {
  readonly stage: string;
  readonly species: string;
  readonly thickness: string;
  readonly hours: number;
  readonly failed: boolean;
  readonly size_mm: number;
}

/** The piece in each of its stages up to its first crack. */
function livesOf(piece: InspectedPiece, cracks: readonly Defect[]): Life[] {
  const lives: Life[] = [];
  for (const { stage, hours } of piece.stages) {
    const seen = cracks
      .filter((crack) => crack.piece === piece.piece && crack.stage === stage)
      .sort((a, b) => a.stageHour - b.stageHour);
    const base = { stage, species: piece.species, thickness: thicknessOf(piece.thickness_mm) };
    const [first] = seen;
    if (first) {
      lives.push({
        ...base,
        hours: first.stageHour,
        failed: true,
        size_mm: Math.max(...seen.map(({ size_mm }) => size_mm)),
      });
      break;
    }
    lives.push({ ...base, hours, failed: false, size_mm: 0 });
  }
  return lives;
}

function thicknessOf(thickness_mm: number): string {
  const next = thicknessEdges.find((edge) => thickness_mm <= edge);
  const before = thicknessEdges.filter((edge) => edge < thickness_mm).at(-1);
  if (next === undefined) return `above ${thicknessEdges.at(-1)} mm`;
  return before === undefined ? `up to ${next} mm` : `${before} to ${next} mm`;
}

function groupOf(lives: readonly Life[]): CrackGroup {
  const { stage, species, thickness } = lives[0]!;
  const hours = lives.flatMap(({ failed, hours: hour }) => (failed ? [hour] : [])).sort((a, b) => a - b);
  const quantile = (share: number) => hours[Math.max(0, Math.ceil(share * hours.length) - 1)];
  const days = hours.length === 0 ? 0 : Math.max(...hours.map((hour) => Math.floor(hour / 24) + 1));
  return {
    stage,
    species,
    thickness,
    pieces: lives.length,
    cracked: hours.length,
    share: { value: hours.length / lives.length, ...wilson(hours.length, lives.length) },
    ...(hours.length > 0 ? { half_h: quantile(0.5)!, mostBy_h: quantile(0.9)! } : {}),
    longest_mm: Math.max(0, ...lives.map(({ size_mm }) => size_mm)),
    byDay: Array.from({ length: days }, (_, i) => ({
      day: i + 1,
      cracks: hours.filter((hour) => Math.floor(hour / 24) === i).length,
    })),
  };
}

function worthOf(pieces: readonly InspectedPiece[], cracks: readonly Defect[]) {
  const cracked = new Set(cracks.map(({ piece }) => piece));
  const rated = pieces.flatMap(({ piece, checkIndex }) =>
    checkIndex === undefined ? [] : [{ failed: cracked.has(piece), checkIndex }],
  );
  const bad = rated.filter(({ failed }) => failed);
  const good = rated.filter(({ failed }) => !failed);
  if (bad.length < 3 || good.length < 3) return undefined;
  let higher = 0;
  for (const a of bad)
    for (const b of good) higher += a.checkIndex > b.checkIndex ? 1 : a.checkIndex === b.checkIndex ? 0.5 : 0;
  const told = higher / (bad.length * good.length);
  return { told, ...pairsInterval(told, bad.length, good.length), cracked: bad.length, whole: good.length };
}

/**
 * 95 % interval of a share of pairs told: every share from which the one counted is not too far.
 *
 *     |told − θ| ≤ 1.96·√(θ(1 − θ)·(1 + (N − 1)·((1 − θ)/(2 − θ) + θ/(1 + θ)))/(m·n)),   N = (m + n)/2
 *
 * @source  R. G. Newcombe, Statistics in Medicine 25 (2006) 559-573, method 5 (from memory)
 * @remarks The plain standard error at the counted share holds the truth in 92 % only, and is none where all are told.
 */
function pairsInterval(told: number, m: number, n: number): { readonly low: number; readonly high: number } {
  const more = (m + n) / 2 - 1;
  const isFar = (share: number) => {
    const variance = (share * (1 - share) * (1 + more * ((1 - share) / (2 - share) + share / (1 + share)))) / (m * n);
    return (told - share) ** 2 > 1.959963984540054 ** 2 * variance;
  };
  const end = (outside: number) => {
    let [far, near] = [outside, told];
    if (!isFar(far)) return far;
    for (let i = 0; i < 50; i++) {
      const middle = (far + near) / 2;
      if (isFar(middle)) far = middle;
      else near = middle;
    }
    return near;
  };
  return { low: end(0), high: end(1) };
}
