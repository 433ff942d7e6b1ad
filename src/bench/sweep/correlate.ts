import { powerOfTwo, realFromSpectrum, realSpectrum } from "../../maths/spectra/fourier.ts";
import { orderSweep, type Sweep } from "./sweepSignal.ts";

/**
 * What a channel has in common with one order of the sweep, at lags from −half to +half: the channel's response to
 * that order in the middle, other orders further off, and the order's own autocorrelation to judge it by.
 */
export interface Lags {
  readonly half: number;
  readonly withChannel: readonly Float64Array[];
  readonly withItself: Float64Array;
}

/** Stretch of a recording that holds the sweep or a part of it. */
export interface Stretch {
  readonly channels: readonly Float64Array[];
  /** Sample at which the sweep starts: before the stretch where it is negative. */
  readonly pad: number;
  readonly rate_Hz: number;
  /** Samples over which both ends were faded, where the sweep goes on beyond them. */
  readonly fades: Fades;
}

export type Fades = readonly [before: number, after: number];

/** Fades the ends of a signal, which is written into. */
export function fade(signal: Float64Array, [before, after]: Fades): void {
  const rise = (n: number, over: number) => Math.sin((Math.PI / 2) * ((n + 0.5) / over)) ** 2;
  for (let n = 0; n < before; n++) signal[n]! *= rise(n, before);
  for (let n = 0; n < after; n++) signal[signal.length - 1 - n]! *= rise(n, after);
}

/** The orders of a sweep made ready for comparing with recordings of one length. */
export interface SentOrders {
  readonly size: number;
  /** Where the sweep begins and ends; it does so hard, between samples, and clicks. */
  readonly edges: readonly (readonly [number, number])[];
  readonly orders: readonly {
    readonly half: number;
    readonly reach: number;
    readonly spectrum: Float64Array;
    readonly withItself: Float64Array;
    /** Transform of that under its window, which is real: bin by bin. */
    readonly energy: Float64Array;
  }[];
}

/** Working arrays of one size, written over at every step. */
interface Rooms {
  readonly spectrum: Float64Array;
  readonly packed: Float64Array;
  readonly signal: Float64Array;
}

function roomsOf(size: number): Rooms {
  return { spectrum: new Float64Array(size + 2), packed: new Float64Array(size), signal: new Float64Array(size) };
}

/**
 * @param half  per order, the lags wanted
 * @param explained  per order, half length of the response that counts as explained
 */
export function sentOrders(
  { channels, pad, rate_Hz, fades }: Stretch,
  sweep: Sweep,
  stretch: number,
  half: readonly number[],
  explained: readonly number[],
): SentOrders {
  const { length } = channels[0]!;
  const size = powerOfTwo(length + Math.max(...half) + 1);
  const rooms = roomsOf(size);
  const orders = half.map((reach, i) => {
    // A sweep that ends within the stretch ends hard, and no later.
    const sent = orderSweep(sweep, i + 1, rate_Hz, stretch, -pad, fades[1] > 0 ? length : size);
    if (fades[0] + fades[1] > 0) fade(sent, fades);
    rooms.signal.fill(0);
    rooms.signal.set(sent);
    const spectrum = realSpectrum(rooms.signal);
    const withItself = lagsOf(product(spectrum, spectrum, rooms.spectrum), reach, rooms);
    const within = Math.min(reach, explained[i]!);
    const whole = realSpectrum(wrapped(withItself, within, rooms.signal), rooms.spectrum);
    const energy = new Float64Array(size / 2 + 1).map((_, k) => whole[2 * k]!);
    return { half: reach, reach: within, spectrum, withItself, energy };
  });
  const end = pad + (sweep.duration_s / (1 + stretch)) * rate_Hz;
  const click = click_s * rate_Hz;
  return { size, orders, edges: [pad, end].map((at) => [Math.floor(at - click), Math.ceil(at + click)] as const) };
}

const click_s = 0.001;

/** Joins what stands before and after by a straight line. */
function hush(signal: Float64Array, [from, to]: readonly [number, number]): void {
  if (from < 0 || to >= signal.length) return;
  const [a, b] = [signal[from]!, signal[to]!];
  for (let n = from; n <= to; n++) signal[n] = a + ((b - a) * (n - from)) / (to - from);
}

export interface Decomposed {
  /** By order, first is order 1. */
  readonly orders: readonly Lags[];
  /** What no order explains, per channel. */
  readonly rest: readonly Float64Array[];
}

/** A recording being split into the responses to the orders of a sweep. */
export interface Decomposition {
  /** Reads every order afresh, each where the others as last read are taken out; better with every pass. */
  pass(): void;
  /** Takes foreign signals out of the channels; what the orders had taken of them, the next pass puts right. */
  takeOut(foreign: readonly Float64Array[]): void;
  /** As it stands. */
  read(): Decomposed;
}

export function decomposition({ channels }: Stretch, { size, orders, edges }: SentOrders): Decomposition {
  const lags: Float64Array[][] = orders.map(() => []);
  const lefts = channels.map((channel) => realSpectrum(padded(channel, size, 0)));
  const rooms = roomsOf(size);
  return {
    pass() {
      lefts.forEach((left, c) => {
        orders.forEach((order, i) => {
          // What it explained before is worked out again rather than kept: many orders of long sweeps fill the memory.
          const before = lags[i]![c];
          if (before) addModel(left, 1, before, order, rooms);
          const own = lagsOf(product(left, order.spectrum, rooms.spectrum), order.half, rooms);
          lags[i]![c] = own;
          addModel(left, -1, own, order, rooms);
        });
      });
    },
    takeOut(foreign) {
      lefts.forEach((left, c) => {
        rooms.signal.fill(0);
        rooms.signal.set(foreign[c]!.subarray(0, size));
        const spectrum = realSpectrum(rooms.signal, rooms.spectrum);
        for (let k = 0; k < left.length; k++) left[k]! -= spectrum[k]!;
      });
    },
    read() {
      const rest = lefts.map((left, c) => {
        const unexplained = realFromSpectrum(left, rooms.packed, rooms.signal).slice(0, channels[c]!.length);
        for (const edge of edges) hush(unexplained, edge);
        return unexplained;
      });
      return {
        orders: orders.map(({ half, withItself }, i) => ({ half, withItself, withChannel: lags[i]! })),
        rest,
      };
    },
  };
}

/** The first order alone, of all channels. */
export function firstOrder({ channels }: Stretch, { size, orders }: SentOrders): Lags {
  const { half, withItself, spectrum } = orders[0]!;
  const rooms = roomsOf(size);
  const withChannel = channels.map((channel) => {
    rooms.signal.fill(0);
    rooms.signal.set(channel.subarray(0, size));
    const of = realSpectrum(rooms.signal, rooms.spectrum);
    return lagsOf(product(of, spectrum, of), half, rooms);
  });
  return { half, withItself, withChannel };
}

export function padded(signal: Float64Array, size: number, at: number): Float64Array {
  const room = new Float64Array(size);
  room.set(signal.subarray(0, size - at), at);
  return room;
}

/**
 * A·B*, bin by bin.
 *
 * @param out  filled and returned; it may be A
 */
export function product(
  a: Float64Array,
  b: Float64Array,
  out: Float64Array = new Float64Array(a.length),
): Float64Array {
  for (let k = 0; k < a.length; k += 2) {
    const re = a[k]! * b[k]! + a[k + 1]! * b[k + 1]!;
    out[k + 1] = a[k + 1]! * b[k]! - a[k]! * b[k + 1]!;
    out[k] = re;
  }
  return out;
}

function lagsOf(cross: Float64Array, half: number, { packed, signal }: Rooms): Float64Array {
  const all = realFromSpectrum(cross, packed, signal);
  const lags = new Float64Array(2 * half + 1);
  for (let t = -half; t <= half; t++) lags[t + half] = all[t < 0 ? t + all.length : t]!;
  return lags;
}

/** Where the sweep has less than this share of its usual energy it explains ever less. */
const leastEnergy = 1e-3;

/** Adds `sign` times (response to an order) · (that order) to a spectrum. */
function addModel(
  to: Float64Array,
  sign: 1 | -1,
  lags: Float64Array,
  { reach, spectrum, energy }: SentOrders["orders"][number],
  rooms: Rooms,
): void {
  const model = realSpectrum(wrapped(lags, reach, rooms.signal), rooms.spectrum);
  let usual = 0;
  for (let k = 0; k < energy.length; k++) usual = Math.max(usual, (energy[k]! * (2 * k + 2)) ** 2);
  for (let k = 0, i = 0; k < energy.length; k++, i += 2) {
    const share = (sign * energy[k]!) / (energy[k]! ** 2 + (leastEnergy / (i + 2)) ** 2 * usual);
    const re = share * model[i]!;
    const im = share * model[i + 1]!;
    to[i]! += re * spectrum[i]! - im * spectrum[i + 1]!;
    to[i + 1]! += re * spectrum[i + 1]! + im * spectrum[i]!;
  }
}

/** Lags under their window, negative ones at the end. */
function wrapped(lags: Float64Array, reach: number, room: Float64Array): Float64Array {
  const half = (lags.length - 1) / 2;
  const size = room.length;
  room.fill(0);
  for (let t = -reach; t <= reach; t++) room[t < 0 ? t + size : t] = lags[t + half]! * lagWindow(t / reach);
  return room;
}

/** Flat to the middle of each side, a half cosine beyond. */
export function lagWindow(u: number): number {
  const beyond = 2 * Math.abs(u) - 1;
  if (beyond <= 0) return 1;
  return beyond < 1 ? 0.5 + 0.5 * Math.cos(Math.PI * beyond) : 0;
}

/** ∫w² over lags from −1 to 1 of that window. */
export const lagWindowSquares = 1 + 3 / 8;

/**
 * What taking out a response takes of the noise, in half lengths of its window: at most ∫(2w − w²), and three quarters
 * of that on drawn benches, where orders take in turn.
 */
export const lagWindowTaken = 0.75 * (3 - lagWindowSquares);
