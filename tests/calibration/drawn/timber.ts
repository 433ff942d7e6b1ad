import timberCase from "../../../src/calculations/timber.case.ts";
import cracks from "../../../src/calculations/timber.cracks.ts";
import dry from "../../../src/calculations/timber.dry.ts";
import move from "../../../src/calculations/timber.move.ts";
import piece from "../../../src/calculations/timber.piece.ts";
import { emcDoubt_pct, equilibriumMoisture_pct } from "../../../src/timber/emc.ts";
import { kinds } from "../../../src/timber/testing/countHeld.ts";
import { drawHours, offs } from "../../../src/timber/testing/drawnHours.ts";
import { drawPiece } from "../../../src/timber/testing/drawnPiece.ts";
import { type Calibration, calibrated, near, type Said, within } from "../trial.ts";
import { between, decades, pick, times } from "./chance.ts";

/** source: hidden speed, wood, logger, start and balance; the course by finite volumes of its own. */
const pieces = calibrated(piece, {
  drawn:
    "boards in shop air, chamber and recovery, weighed three to five times with their dry mass, a dried offcut or none; speed hidden over a factor of four either way, wood and logger off as they are believed to be",
  suite: 5,
  why: "each draw runs the board's course some dozens of times; thousands by kinds in timberCoverage.md",
  draw(random) {
    const kind = pick(random, kinds);
    const drawn = drawPiece(random, kind);
    const share = random.uniform();
    const question = JSON.parse(JSON.stringify(drawn.question));
    return {
      input: question,
      async said(answer, ask): Promise<readonly Said[]> {
        const { now } = answer;
        // The target rests on what the shop can know alone: the moisture found, less a drawn step.
        const target_pct = now.mean_pct - (0.5 + 2 * share);
        const timing = await ask({ ...question, target_pct });
        const truly_h = drawn.hoursTo(target_pct, now.hour) ?? Infinity;
        return [
          within("moisture now", now.low_pct, drawn.now_pct, now.high_pct),
          within("moisture later", answer.low_pct[0]!, drawn.later_pct, answer.high_pct[0]!),
          within("diffusionFactor", answer.factorLow, drawn.factor, answer.factorHigh),
          ...(timing.hoursToTarget === undefined
            ? []
            : [within("hoursToTarget", timing.targetLow_h!, truly_h, timing.targetHigh_h ?? Infinity)]),
        ];
      },
    };
  },
});

/** A doubt of a thousand years says that there is no upper end. */
const endless_h = 8_766_000;

/** source: hidden speed and wood off the table as believed; the course by finite volumes of its own. */
const dried = calibrated(dry, {
  drawn:
    "boards of 10 to 30 mm in steady air of 20 to 50 °C, three weighings a quarter to three quarters of the way; speed hidden between 0.5 and 3, wood off the table as it is believed to be",
  suite: 10,
  why: "each draw runs the board's course some dozens of times",
  draw(random) {
    const { question, factor, hoursTo, table_pct, isWorth } = drawHours(random, offs["wood as believed"]!(random));
    if (!isWorth) return undefined;
    // The target rests on what the shop can know alone: some of the way from the last weighing to the table's rest.
    const last_pct = 100 * (question.weighings.at(-1)!.mass_g / question.ovenDry_g - 1);
    const target_pct = last_pct - (0.2 + 0.5 * random.uniform()) * (last_pct - table_pct);
    return {
      input: { ...question, target_pct },
      said: ({ hoursToTarget, diffusionFactor, doubt }) => [
        ...(hoursToTarget === undefined || doubt.hoursToTarget === undefined
          ? []
          : [
              near(
                "hoursToTarget",
                hoursToTarget,
                doubt.hoursToTarget < endless_h ? doubt.hoursToTarget : Infinity,
                hoursTo(target_pct),
              ),
            ]),
        near("diffusionFactor", diffusionFactor, doubt.diffusionFactor, factor),
      ],
    };
  },
});

/** 95 % half-width of boards of a species about its mean, as the handbook has it: a variation of 15 %. */
const board = 0.3;

/** source: eq. 13-2 with a board's own coefficients, off their mean as boards are. */
const moves = calibrated(move, {
  drawn:
    "boards of eight species, 40 to 300 mm wide at any angle, between 6 and 14 %; each moves more or less than its species' mean as boards do",
  draw(random) {
    const species = pick(random, [
      "white ash",
      "black cherry",
      "sugar maple",
      "american elm",
      "black walnut",
      "northern red oak",
      "yellow birch",
      "american beech",
    ]);
    const own = 1 + random.normal(0, board / 1.96);
    const step = {
      species,
      width_mm: between(random, 40, 300),
      ringAngle_deg: between(random, 0, 90),
      from_pct: between(random, 6, 14),
      to_pct: between(random, 6, 14),
    };
    return {
      input: step,
      said({ tangential_per_pct, radial_per_pct, changeLow_mm, changeHigh_mm }) {
        const angle = (step.ringAngle_deg * Math.PI) / 180;
        const across = tangential_per_pct * Math.cos(angle) ** 2 + radial_per_pct * Math.sin(angle) ** 2;
        const truth = step.width_mm * across * own * (step.to_pct - step.from_pct);
        // Sources that differ widen the range, which boards about the best of them alone need not fill.
        return [within("change_mm", changeLow_mm, truth, changeHigh_mm, { atLeast: true })];
      },
    };
  },
});

/** source: in air that stays, a panel comes to its own equilibrium and has moved by its own coefficients. */
const cases = calibrated(timberCase, {
  drawn:
    "free panels of four species, 80 to 350 mm wide, taken from 5 to 14 % into rooms of 25 to 70 % that stay so all the year; wood off the table and boards off their species as they are believed to be",
  suite: 60,
  why: "each draw runs a year of the panel",
  draw(random) {
    const species = pick(random, ["white ash", "black cherry", "sugar maple", "american elm"]);
    const air = { temperature_C: between(random, 15, 27), humidity_pct: between(random, 25, 70) };
    const width_mm = between(random, 80, 350);
    const moisture_pct = between(random, 5, 14);
    const ringAngle_deg = pick(random, [0, 90]);
    const table_pct = equilibriumMoisture_pct(air.temperature_C, air.humidity_pct);
    const rest_pct = table_pct + random.normal(0, emcDoubt_pct(table_pct) / 1.96);
    const own = 1 + random.normal(0, board / 1.96);
    const gap = between(random, 2, 10);
    return {
      input: {
        panels: [
          {
            name: "top",
            species,
            width_mm,
            thickness_mm: between(random, 6, 15),
            ringAngle_deg,
            moisture_pct,
            fixed: "free",
          },
        ],
        destination: times(12, (i) => ({ month: i + 1, ...air })),
        gaps: { top: gap },
      },
      said({ panels: [panel] }) {
        const { shrink_mm, swell_mm, driest_pct, wettest_pct, doubt } = panel!;
        const [told_mm, step_pct, doubt_mm] =
          swell_mm > shrink_mm
            ? [swell_mm, wettest_pct - moisture_pct, doubt.swell_mm]
            : [shrink_mm, moisture_pct - driest_pct, doubt.shrink_mm];
        // Steps so small turn round with the wood's own rest.
        if (step_pct < 2) return [];
        const perPercent = told_mm / step_pct;
        const truth_pct = swell_mm > shrink_mm ? rest_pct - moisture_pct : moisture_pct - rest_pct;
        // Sources that differ widen the range.
        return [near("movement", told_mm, doubt_mm, perPercent * own * truth_pct, { atLeast: true })];
      },
    };
  },
});

/** source: pieces that crack with a known share, and indices whose order is by chance a known share of pairs. */
const cracked = calibrated(cracks, {
  drawn:
    "15 to 150 pieces of one kind of which 3 to 60 % crack, their check indices normal and up to two spreads higher",
  draw(random) {
    const [count, share] = [Math.round(decades(random, 1.18, 2.18)), between(random, 0.03, 0.6)];
    const apart = between(random, 0, 2);
    const pieces = times(count, (i) => {
      const isCracked = random.uniform() < share;
      return { i, isCracked, checkIndex: Math.max(0, 10 + random.normal(0, 1) + (isCracked ? apart : 0)) };
    });
    return {
      input: {
        pieces: pieces.map(({ i, checkIndex }) => ({
          piece: `B-${i}`,
          species: "white ash",
          thickness_mm: 22,
          stages: [{ stage: "plate", hours: 24 }],
          checkIndex,
        })),
        defects: pieces
          .filter(({ isCracked }) => isCracked)
          .map(({ i }) => ({ piece: `B-${i}`, kind: "crack" as const, stage: "plate", stageHour: 12, size_mm: 20 })),
      },
      said: ({ groups: [group], index }) => [
        within("share cracked", group!.share.low, share, group!.share.high),
        ...(index && index.cracked >= 4 && index.whole >= 4
          ? [within("pairs told by the index", index.low, normalShare(apart / Math.SQRT2), index.high)]
          : []),
      ],
    };
  },
});

/** Share of a normal law below z, by Simpson's rule. */
function normalShare(z: number): number {
  const steps = 400;
  const density = (x: number) => Math.exp(-(x * x) / 2) / Math.sqrt(2 * Math.PI);
  let sum = density(0) + density(z);
  for (let i = 1; i < steps; i++) sum += (i % 2 ? 4 : 2) * density((i * z) / steps);
  return 0.5 + (sum * z) / steps / 3;
}

export const timber: readonly Calibration[] = [pieces, dried, moves, cases, cracked];
