import type { Random } from "../maths/random.ts";
import type { Design } from "./design.ts";
import { type Move, movesLeavingReadings } from "./movesLeavingReadings.ts";
import { scaledBesselI0 } from "./scaledBessel.ts";
import { drawAmplitude, logDensity, type SourcePrior, sourcePrior } from "./sourcePrior.ts";

/** What one sight read of one order: an amplitude, and its phase where recordings share a reference. */
export interface Seen {
  /** Index into the design's sights. */
  readonly sight: number;
  /** Any unit, the same throughout. */
  readonly amplitude: number;
  /** Standard deviation of the noise in one phasor component, same unit. */
  readonly noise: number;
  /** Against a reference that recordings share; left out where nothing ties them. */
  readonly phase_rad?: number;
  /** How far the reference leaves the phase open, standard deviation. */
  readonly phaseSd_rad?: number;
  /** Readings of one tie have phases that compare with one another; how two ties stand to each other is not known. */
  readonly tie?: string;
}

/** How far sources move from one recording to the next for no cause of their own, relative. */
export interface Scatter {
  /** Contacts, each time a valve is seated or a plug put in. */
  readonly contact: number;
  /** The building's field and the distortion of its mains, over the minutes between recordings. */
  readonly building: number;
}

/** Common practice: a few per cent; `reseating.ts` raises it where repeats speak against it. */
export const usualScatter: Scatter = { contact: 0.04, building: 0.05 };

export interface PosteriorOptions {
  readonly samples: number;
  readonly random: Random;
  readonly scatter?: Scatter;
}

/** Draws from what the sources of one line can be: power of each source, [sample][source]. */
export type LineSamples = readonly Float64Array[];

export interface LineDraws {
  readonly powers: LineSamples;
  /** Phasor of each source, real and imaginary part in turn, [sample][2·source]. */
  readonly phasors: readonly Float64Array[];
}

/** Odds that a source has nothing to say at a given order; the same for all, so that no cause is favoured. */
const silentOdds = 0.3;
/** Relative to the strongest reading; nothing finer bears on what causes most of the hum. */
const finest = 0.004;
/** Share of samples that still count when the likelihood is sharpened by one step; phases part explanations sooner. */
const keptPerStep = { loose: 0.4, tied: 0.6 } as const;
/** Moves of a tied sample for each of a loose one. */
const movesWhenTied = 3;
/** What a line whose phases are tied costs, against one whose are not. */
export const costWhenTied = 4;

/** What any source may put out at one order before anything was read. */
export const linePrior: SourcePrior = sourcePrior(silentOdds);

/**
 * Samples the phasors of every source of one line, given what each sight read of it.
 *
 * Prior of a source: see `SourcePrior`. Prior of a supply's change G of the unit's own hum: complex normal about 1,
 * its spread 5 % and 1.5 times the logarithm of the frequency ratio (parts of the hum go with f to powers from −2 to
 * 2). Likelihood of an amplitude: Rice's, its variance that of the noise and of the scatter of every source present;
 * of a phasor within a tie: normal, the tie as a whole turned by an angle of its own.
 *
 * @param design  see `Design`
 * @param seen    readings of this order, at least one above 0
 * @returns powers and phasors relative to the strongest reading
 * @remarks A population drawn from the prior is led to the posterior by sharpening the likelihood in steps, each with
 *   resampling and a few Metropolis moves, so that explanations far apart keep their right weights. Besides small
 *   steps there are moves that leave every reading as it is and moves that turn one reading's phase.
 * @source P. Del Moral, A. Doucet, A. Jasra, "Sequential Monte Carlo samplers", J. R. Stat. Soc. B 68 (2006) (from memory)
 */
export function sampleLine(
  design: Design,
  seen: readonly Seen[],
  { samples, random, scatter = usualScatter }: PosteriorOptions,
): LineDraws {
  const scale = Math.max(...seen.map((reading) => reading.amplitude));
  const count = design.sources.length;
  const groups = design.supplies.length;
  const isOwn = Uint8Array.from({ length: count }, (_, s) => (design.own.has(s) ? 1 : 0));
  const scatter2 = Float64Array.from({ length: count }, (_, s) => (isOwn[s] ? scatter.contact : scatter.building) ** 2);
  const { readings, ties } = mergeRepeats(design, seen, scale);
  const { sourcesIn, supplyIn, tieIn, y, yRe, yIm, noise2, repeats } = columnsOf(readings);
  const everyReading = Int32Array.from(readings.keys());
  const withSource = Array.from({ length: count }, (_, s) => everyReading.filter((j) => sourcesIn[j]!.includes(s)));
  const withSupply = Array.from({ length: groups }, (_, g) =>
    everyReading.filter((j) => supplyIn[j] === g && sourcesIn[j]!.some((s) => isOwn[s])),
  );
  const withTie = Array.from({ length: ties }, (_, t) => everyReading.filter((j) => tieIn[j] === t));
  const gainSpread = design.supplies.map(({ frequencyRatio }, g) =>
    g === 0 ? 0 : Math.hypot(0.05, 1.5 * Math.log(frequencyRatio)) / Math.SQRT2,
  );
  const nullMoves = movesLeavingReadings(design);

  /** The population: sources, supply gains, angles of ties, of each sample in turn; and the likelihood of each reading. */
  const width = count + groups + ties;
  let allRe = new Float64Array(samples * width);
  let allIm = new Float64Array(samples * width);
  let allLog = new Float64Array(samples * readings.length);
  /** Those of the sample in hand, and ln of the prior of each of its sources. */
  const re = new Float64Array(width);
  const im = new Float64Array(width);
  const logs = new Float64Array(readings.length);
  const priors = new Float64Array(count);
  /** Sums over the sources present in each reading: what the unit makes, what comes from outside, what scatters. */
  const ownRe = new Float64Array(readings.length);
  const ownIm = new Float64Array(readings.length);
  const fieldRe = new Float64Array(readings.length);
  const fieldIm = new Float64Array(readings.length);
  const scattered = new Float64Array(readings.length);
  /** Takes a sample in hand. */
  function take(i: number) {
    for (let n = 0, at = i * width; n < width; n++, at++) {
      re[n] = allRe[at]!;
      im[n] = allIm[at]!;
    }
    for (let j = 0, at = i * readings.length; j < readings.length; j++, at++) {
      logs[j] = allLog[at]!;
      ownRe[j] = 0;
      ownIm[j] = 0;
      fieldRe[j] = 0;
      fieldIm[j] = 0;
      scattered[j] = 0;
    }
    for (let s = 0; s < count; s++) {
      add(s, re[s]!, im[s]!, power(s));
      priors[s] = logDensity(linePrior, power(s));
    }
  }
  /** Lays it back. */
  function give(i: number) {
    for (let n = 0, at = i * width; n < width; n++, at++) {
      allRe[at] = re[n]!;
      allIm[at] = im[n]!;
    }
    for (let j = 0, at = i * readings.length; j < readings.length; j++, at++) allLog[at] = logs[j]!;
  }
  function add(s: number, x: number, y: number, more: number) {
    const touched = withSource[s]!;
    const sumRe = isOwn[s] ? ownRe : fieldRe;
    const sumIm = isOwn[s] ? ownIm : fieldIm;
    const variance = scatter2[s]! * more;
    for (let n = 0; n < touched.length; n++) {
      const j = touched[n]!;
      sumRe[j]! += x;
      sumIm[j]! += y;
      scattered[j]! += variance;
    }
  }
  /** Gives one source another phasor, in the sums too. */
  function set(s: number, x: number, y: number) {
    const dRe = x - re[s]!;
    const dIm = y - im[s]!;
    const before = power(s);
    re[s] = x;
    im[s] = y;
    add(s, dRe, dIm, power(s) - before);
  }
  const power = (s: number) => re[s]! * re[s]! + im[s]! * im[s]!;

  let sumRe = 0;
  let sumIm = 0;
  function addUp(j: number) {
    const at = count + supplyIn[j]!;
    const gRe = re[at]!;
    const gIm = im[at]!;
    sumRe = fieldRe[j]! + gRe * ownRe[j]! - gIm * ownIm[j]!;
    sumIm = fieldIm[j]! + gRe * ownIm[j]! + gIm * ownRe[j]!;
  }
  function logLikelihood(j: number): number {
    addUp(j);
    const tie = tieIn[j]!;
    const variance = noise2[j]! + Math.max(0, scattered[j]!) / repeats[j]!;
    if (tie >= 0) {
      const cosine = re[count + groups + tie]!;
      const sine = im[count + groups + tie]!;
      const offRe = sumRe * cosine - sumIm * sine - yRe[j]!;
      const offIm = sumRe * sine + sumIm * cosine - yIm[j]!;
      return -Math.log(variance) - (offRe * offRe + offIm * offIm) / (2 * variance);
    }
    const t = Math.sqrt(sumRe * sumRe + sumIm * sumIm);
    const z = (y[j]! * t) / variance;
    return (-(y[j]! - t) * (y[j]! - t)) / (2 * variance) + Math.log(scaledBesselI0(z) / variance);
  }

  let sharpness = 0;
  const proposed = new Float64Array(readings.length);
  function accepted(touched: Int32Array, logRatio: number): boolean {
    let difference = 0;
    for (let n = 0; n < touched.length; n++) {
      const j = touched[n]!;
      proposed[j] = logLikelihood(j);
      difference += proposed[j]! - logs[j]!;
    }
    const ratio = difference * sharpness + logRatio;
    if (ratio < 0 && random.uniform() >= Math.exp(ratio)) return false;
    for (let n = 0; n < touched.length; n++) logs[touched[n]!] = proposed[touched[n]!]!;
    return true;
  }
  /** Moves one source; `logProposalRatio` is ln q(old)/q(new). */
  function moveSource(s: number, newRe: number, newIm: number, logProposalRatio: number) {
    const oldRe = re[s]!;
    const oldIm = im[s]!;
    const prior = logDensity(linePrior, newRe * newRe + newIm * newIm);
    const ratio = prior - priors[s]! + logProposalRatio;
    if (ratio === Number.NEGATIVE_INFINITY) return;
    set(s, newRe, newIm);
    if (accepted(withSource[s]!, ratio)) priors[s] = prior;
    else set(s, oldRe, oldIm);
  }

  function smallStep() {
    const s = random.integer(count);
    const size = 10 ** (-2.5 + 2.5 * random.uniform());
    moveSource(s, re[s]! + random.normal(0, size), im[s]! + random.normal(0, size), 0);
  }

  function freshDraw() {
    const s = random.integer(count);
    const amplitude = drawAmplitude(linePrior, random);
    const angle = 2 * Math.PI * random.uniform();
    const ratio = priors[s]! - logDensity(linePrior, amplitude * amplitude);
    moveSource(s, amplitude * Math.cos(angle), amplitude * Math.sin(angle), ratio);
  }

  /**
   * Turns the phase of one reading by moving one of its sources, its amplitude drawn near what was read; where the
   * phase was read too, draws the sum near that phasor instead.
   */
  function turn() {
    const j = random.integer(readings.length);
    const sources = sourcesIn[j]!;
    const tie = tieIn[j]!;
    const s = sources[random.integer(sources.length)]!;
    addUp(j);
    const gRe = isOwn[s] ? re[count + supplyIn[j]!]! : 1;
    const gIm = isOwn[s] ? im[count + supplyIn[j]!]! : 0;
    const gain2 = gRe * gRe + gIm * gIm;
    const spread2 = noise2[j]! + (scatter.contact * y[j]!) ** 2;
    let toRe: number;
    let toIm: number;
    let ratio: number;
    if (tie >= 0) {
      const cosine = re[count + groups + tie]!;
      const sine = im[count + groups + tie]!;
      const meanRe = yRe[j]! * cosine + yIm[j]! * sine;
      const meanIm = yIm[j]! * cosine - yRe[j]! * sine;
      const sd = Math.sqrt(spread2);
      toRe = meanRe + random.normal(0, sd);
      toIm = meanIm + random.normal(0, sd);
      const to2 = (toRe - meanRe) ** 2 + (toIm - meanIm) ** 2;
      const from2 = (sumRe - meanRe) ** 2 + (sumIm - meanIm) ** 2;
      ratio = (to2 - from2) / (2 * spread2);
    } else {
      const radius = y[j]! + random.normal(0, Math.sqrt(spread2));
      const angle = 2 * Math.PI * random.uniform();
      toRe = radius * Math.cos(angle);
      toIm = radius * Math.sin(angle);
      const from = logRadiusDensity(Math.sqrt(sumRe * sumRe + sumIm * sumIm), y[j]!, spread2);
      ratio = from - logRadiusDensity(Math.abs(radius), y[j]!, spread2);
    }
    const dRe = toRe - sumRe;
    const dIm = toIm - sumIm;
    moveSource(s, re[s]! + (dRe * gRe + dIm * gIm) / gain2, im[s]! + (dIm * gRe - dRe * gIm) / gain2, ratio);
  }

  function shiftBy(move: Move, dRe: number, dIm: number) {
    for (let n = 0; n < move.length; n++) {
      const { source, sign } = move[n]!;
      set(source, re[source]! + sign * dRe, im[source]! + sign * dIm);
    }
  }
  /** Moves phasor between sources so that no sum changes; mostly one of them is drawn afresh. */
  function shift() {
    const move = nullMoves[random.integer(nullMoves.length)]!;
    const { source: s, sign } = move[random.integer(move.length)]!;
    let dRe = random.normal(0, 0.1);
    let dIm = random.normal(0, 0.1);
    let ratio = 0;
    if (random.uniform() < 0.8) {
      const amplitude = drawAmplitude(linePrior, random);
      const angle = 2 * Math.PI * random.uniform();
      ratio = priors[s]! - logDensity(linePrior, amplitude * amplitude);
      dRe = sign * (amplitude * Math.cos(angle) - re[s]!);
      dIm = sign * (amplitude * Math.sin(angle) - im[s]!);
    }
    for (let n = 0; n < move.length; n++) ratio -= priors[move[n]!.source]!;
    shiftBy(move, dRe, dIm);
    for (let n = 0; n < move.length; n++) ratio += logDensity(linePrior, power(move[n]!.source));
    // Scatter goes with the sources' own size, so the likelihood moves all the same.
    if (ratio > Number.NEGATIVE_INFINITY && accepted(everyReading, ratio)) {
      for (const { source } of move) priors[source] = logDensity(linePrior, power(source));
    } else shiftBy(move, -dRe, -dIm);
  }

  /** Lets two sources change places; all have the same prior. */
  function exchange() {
    const a = random.integer(count);
    const b = random.integer(count);
    if (a === b) return;
    exchangeValues(a, b);
    if (!accepted(everyReading, 0)) return exchangeValues(a, b);
    priors[a] = logDensity(linePrior, power(a));
    priors[b] = logDensity(linePrior, power(b));
  }
  function exchangeValues(a: number, b: number) {
    const x = re[a]!;
    const y = im[a]!;
    set(a, re[b]!, im[b]!);
    set(b, x, y);
  }

  function changeGain() {
    const g = 1 + random.integer(groups - 1);
    const at = count + g;
    const spread2 = 2 * gainSpread[g]! ** 2;
    const oldRe = re[at]!;
    const oldIm = im[at]!;
    const size = gainSpread[g]! * 10 ** (-1.5 * random.uniform());
    re[at] = oldRe + random.normal(0, size);
    im[at] = oldIm + random.normal(0, size);
    const ratio = ((oldRe - 1) ** 2 + oldIm ** 2 - (re[at]! - 1) ** 2 - im[at]! ** 2) / spread2;
    if (accepted(withSupply[g]!, ratio)) return;
    re[at] = oldRe;
    im[at] = oldIm;
  }

  /** Turns one tie as a whole; the first one stands, for all phases together are arbitrary. */
  function turnTie() {
    const t = 1 + random.integer(ties - 1);
    const at = count + groups + t;
    const oldRe = re[at]!;
    const oldIm = im[at]!;
    const by =
      random.uniform() < 0.3 ? 2 * Math.PI * random.uniform() : random.normal(0, 10 ** (-2 * random.uniform()));
    re[at] = oldRe * Math.cos(by) - oldIm * Math.sin(by);
    im[at] = oldRe * Math.sin(by) + oldIm * Math.cos(by);
    if (accepted(withTie[t]!, 0)) return;
    re[at] = oldRe;
    im[at] = oldIm;
  }

  function move() {
    const pick = random.uniform();
    if (pick < 0.25) smallStep();
    else if (pick < 0.4) freshDraw();
    else if (pick < 0.7) turn();
    else if (pick < 0.85 && nullMoves.length > 0) shift();
    else if (pick < 0.93) exchange();
    else if (groups > 1) changeGain();
    else smallStep();
    if (ties > 1) turnTie();
  }

  for (let i = 0; i < samples; i++) {
    const at = i * width;
    for (let s = 0; s < count; s++) {
      const amplitude = drawAmplitude(linePrior, random);
      const angle = 2 * Math.PI * random.uniform();
      allRe[at + s] = amplitude * Math.cos(angle);
      allIm[at + s] = amplitude * Math.sin(angle);
    }
    for (let g = 0; g < groups; g++) {
      allRe[at + count + g] = 1 + random.normal(0, gainSpread[g]!);
      allIm[at + count + g] = random.normal(0, gainSpread[g]!);
    }
    for (let t = 0; t < ties; t++) {
      const angle = t === 0 ? 0 : 2 * Math.PI * random.uniform();
      allRe[at + count + groups + t] = Math.cos(angle);
      allIm[at + count + groups + t] = Math.sin(angle);
    }
    take(i);
    for (const j of everyReading) logs[j] = logLikelihood(j);
    give(i);
  }
  const movesPerStep = (ties > 0 ? movesWhenTied : 1) * (4 + count);
  const kept = ties > 0 ? keptPerStep.tied : keptPerStep.loose;
  while (sharpness < 1) {
    const total = Float64Array.from({ length: samples }, (_, i) => {
      let sum = 0;
      for (const j of everyReading) sum += allLog[i * readings.length + j]!;
      return sum;
    });
    const next = nextSharpness(total, sharpness, kept);
    const chosen = resample(total, next - sharpness, random);
    allRe = rearranged(allRe, chosen, width);
    allIm = rearranged(allIm, chosen, width);
    allLog = rearranged(allLog, chosen, readings.length);
    sharpness = next;
    const moves = sharpness === 1 ? 3 * movesPerStep : movesPerStep;
    for (let i = 0; i < samples; i++) {
      take(i);
      for (let m = 0; m < moves; m++) move();
      give(i);
    }
  }
  const powers: Float64Array[] = [];
  const phasors: Float64Array[] = [];
  for (let i = 0; i < samples; i++) {
    take(i);
    powers.push(Float64Array.from({ length: count }, (_, s) => power(s)));
    phasors.push(Float64Array.from({ length: 2 * count }, (_, n) => (n % 2 === 0 ? re[n >> 1]! : im[n >> 1]!)));
  }
  return { powers, phasors };
}

/** ln of the density, up to a constant, of a phasor whose radius is drawn about `y` and whose angle is any. */
function logRadiusDensity(radius: number, y: number, variance: number): number {
  // A radius drawn negative lands on the far side: both signs count.
  const near = Math.exp(-((radius - y) ** 2) / (2 * variance));
  const far = Math.exp(-((radius + y) ** 2) / (2 * variance));
  return Math.log((near + far + 1e-300) / Math.max(radius, 1e-9));
}

/** The readings column by column, as they are asked for at every move. */
function columnsOf(readings: ReturnType<typeof mergeRepeats>["readings"]) {
  return {
    sourcesIn: readings.map(({ sources }) => sources),
    supplyIn: Int32Array.from(readings, ({ supply }) => supply),
    tieIn: Int32Array.from(readings, ({ tie }) => tie),
    y: Float64Array.from(readings, (reading) => reading.y),
    yRe: Float64Array.from(readings, (reading) => reading.yRe),
    yIm: Float64Array.from(readings, (reading) => reading.yIm),
    noise2: Float64Array.from(readings, (reading) => reading.noise2),
    repeats: Float64Array.from(readings, (reading) => reading.repeats),
  };
}

/** Readings of the same sources on the same supply count as one, with their mean and so much less scatter. */
function mergeRepeats(design: Design, seen: readonly Seen[], scale: number) {
  const groups = new Map<string, Seen[]>();
  for (const reading of seen) {
    const { sources, supply } = design.sights[reading.sight]!;
    const ownSupply = sources.some((s) => design.own.has(s)) ? supply : "any";
    const key = `${sources.join()} ${ownSupply} ${tieOf(reading) ?? ""}`;
    groups.set(key, [...(groups.get(key) ?? []), reading]);
  }
  // A tie of a single reading ties nothing.
  const tiedIn = [...groups.values()].map(([first]) => tieOf(first!));
  const shared = [...new Set(tiedIn)].filter((tie) => tie !== undefined && tiedIn.filter((t) => t === tie).length > 1);
  const readings = [...groups.values()].map((group) => {
    const { sources, supply } = design.sights[group[0]!.sight]!;
    const tie = shared.indexOf(tieOf(group[0]!));
    const mean = (of: (reading: Seen) => number) => group.reduce((sum, r) => sum + of(r), 0) / group.length / scale;
    const yRe = tie >= 0 ? mean((r) => r.amplitude * Math.cos(r.phase_rad!)) : 0;
    const yIm = tie >= 0 ? mean((r) => r.amplitude * Math.sin(r.phase_rad!)) : 0;
    const turned = (r: Seen) => (tie >= 0 ? (r.phaseSd_rad ?? 0) * r.amplitude : 0);
    const noise2 = mean((r) => (r.noise ** 2 + turned(r) ** 2) / scale) / group.length;
    return {
      y: tie >= 0 ? Math.hypot(yRe, yIm) : mean((r) => r.amplitude),
      yRe,
      yIm,
      tie,
      noise2: noise2 + finest ** 2,
      repeats: group.length,
      supply,
      sources: Int32Array.from(sources),
    };
  });
  return { readings, ties: shared.length };
}

function tieOf({ phase_rad, tie = "" }: Seen): string | undefined {
  return phase_rad === undefined ? undefined : tie;
}

/** The next step of sharpening: as far as leaves a share `kept` of the samples counting. */
function nextSharpness(logLikelihood: Float64Array, sharpness: number, kept: number): number {
  const left = 1 - sharpness;
  if (counting(logLikelihood, left) >= kept) return 1;
  let low = 0;
  let high = left;
  for (let i = 0; i < 24; i++) {
    const middle = i < 12 && low === 0 ? high / 32 : (low + high) / 2;
    if (counting(logLikelihood, middle) >= kept) low = middle;
    else high = middle;
  }
  return Math.min(1, sharpness + Math.max(low, 1e-9));
}

/** Effective share of a population weighted by likelihood to a power. */
function counting(logLikelihood: Float64Array, exponent: number): number {
  const highest = logLikelihood.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  let sum = 0;
  let squares = 0;
  for (const log of logLikelihood) {
    const weight = Math.exp(exponent * (log - highest));
    sum += weight;
    squares += weight * weight;
  }
  return (sum * sum) / squares / logLikelihood.length;
}

/** Systematic resampling: one draw, evenly spaced over the weights. */
function resample(logLikelihood: Float64Array, exponent: number, random: Random): Int32Array {
  const highest = logLikelihood.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const weights = logLikelihood.map((log) => Math.exp(exponent * (log - highest)));
  const step = weights.reduce((a, b) => a + b, 0) / weights.length;
  let target = step * random.uniform();
  let upTo = weights[0]!;
  let i = 0;
  return Int32Array.from(weights, () => {
    while (upTo < target && i < weights.length - 1) upTo += weights[++i]!;
    target += step;
    return i;
  });
}

function rearranged(values: Float64Array<ArrayBuffer>, chosen: Int32Array, width: number): Float64Array<ArrayBuffer> {
  const moved = new Float64Array(values.length);
  for (let i = 0, to = 0; i < chosen.length; i++) {
    for (let n = 0, from = chosen[i]! * width; n < width; n++) moved[to++] = values[from++]!;
  }
  return moved;
}
