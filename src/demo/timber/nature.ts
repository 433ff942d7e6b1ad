/**
 * How wood behaves in the invented workshop: a board in layers of a millimetre, each trading moisture with the next and
 * the outer ones with the air. Plain, in small steps forward; it shares nothing with the code that will judge it.
 */

/** Vapour pressure over water. @source  Buck 1981 (from memory), good to 0.1 % up to 60 °C */
function saturation_Pa(temperature_C: number): number {
  return 611.21 * Math.exp((18.678 - temperature_C / 234.5) * (temperature_C / (257.14 + temperature_C)));
}

/** Room air brought to another temperature. */
export function warmed_pct(room_C: number, humidity_pct: number, there_C: number): number {
  return Math.min(99, (humidity_pct * saturation_Pa(room_C)) / saturation_Pa(there_C));
}

/** What wood in the mean comes to. @source  Wood Handbook, FPL-GTR-190, eq. 4-5 */
export function rest_pct(temperature_C: number, humidity_pct: number): number {
  const t = temperature_C;
  const h = humidity_pct / 100;
  const w = 349 + 1.29 * t + 0.0135 * t * t;
  const k = 0.805 + 0.000736 * t - 0.00000273 * t * t;
  const k1 = 6.27 - 0.00938 * t - 0.000303 * t * t;
  const k2 = 1.91 + 0.0407 * t - 0.000293 * t * t;
  const kh = k * h;
  return (1800 / w) * (kh / (1 - kh) + (k1 * kh + 2 * k1 * k2 * kh * kh) / (1 + k1 * kh + k1 * k2 * kh * kh));
}

/** Wood of one board as it really is. */
export interface Nature {
  /** Times what red oak lets pass. */
  readonly pace: number;
  /** Added to where wood in the mean comes to rest, at 8 % or so. */
  readonly offset_pct: number;
  /** Ratio of surface strain to strength at which it cracks. */
  readonly strength: number;
  /** Tangential movement for each percent. */
  readonly movement: number;
}

export interface Air {
  readonly temperature_C: number;
  readonly humidity_pct: number;
}

/** A board lying somewhere: in air, or on the plate with one face closed. */
export type Stand =
  | { readonly kind: "air"; readonly air: Air }
  | { readonly kind: "plate"; readonly plate_C: number; readonly air: Air };

const layer_m = 0.001;

export class Board {
  /** Percent, from the face that lies down. */
  layers: Float64Array;
  /** Most that a face wanted to shrink beyond the middle, over what parts this board. */
  strain = 0;

  constructor(
    readonly nature: Nature,
    thickness_mm: number,
    start_pct: number,
  ) {
    this.layers = new Float64Array(Math.round(thickness_mm)).fill(start_pct);
  }

  get mean_pct(): number {
    return this.layers.reduce((sum, one) => sum + one, 0) / this.layers.length;
  }

  /** Takes this much off both faces. */
  plane(each_mm: number): void {
    this.layers = this.layers.slice(each_mm, this.layers.length - each_mm);
  }

  stand(hours: number, where: Stand): void {
    const { pace, offset_pct, movement } = this.nature;
    const thickness_m = this.layers.length * layer_m;
    const { air } = where;
    const face_C =
      where.kind === "plate" ? plateFace_C(where.plate_C, air.temperature_C, thickness_m) : air.temperature_C;
    const wood_C = where.kind === "plate" ? (where.plate_C + face_C) / 2 : air.temperature_C;
    const humidity_pct =
      face_C === air.temperature_C ? air.humidity_pct : warmed_pct(air.temperature_C, air.humidity_pct, face_C);
    const rest = rest_pct(face_C, humidity_pct);
    const goes_pct = rest + offset_pct * Math.min(1.2, rest / 8);
    const passes = (moisture_pct: number) =>
      pace * 19.2e-4 * Math.exp(-5280 / (wood_C + 273.15)) * Math.exp((1.15 * moisture_pct) / 100);
    const fastest = passes(Math.max(goes_pct, ...this.layers));
    const step_s = Math.min(4 * 3600, (0.4 * layer_m ** 2) / fastest);
    const count = Math.max(1, Math.ceil((hours * 3600) / step_s));
    const each_s = (hours * 3600) / count;
    const n = this.layers.length;
    for (let i = 0; i < count; i++) {
      const now = this.layers;
      const next = new Float64Array(n);
      const flow = (a: number, b: number, apart_m: number) => (passes((a + b) / 2) * (a - b)) / apart_m;
      let below = where.kind === "plate" ? 0 : flow(goes_pct, now[0]!, layer_m / 2);
      for (let j = 0; j < n; j++) {
        const above = j < n - 1 ? flow(now[j]!, now[j + 1]!, layer_m) : flow(now[j]!, goes_pct, layer_m / 2);
        next[j] = now[j]! + (each_s * (below - above)) / layer_m;
        below = above;
      }
      this.layers = next;
      const mean = this.mean_pct;
      const skin = Math.min(next[0]!, next[n - 1]!);
      this.strain = Math.max(this.strain, ((mean - skin) * movement) / 0.0055);
    }
  }
}

/** Heat through the board against heat off its upper face. Conductivity across the grain and film as usual, from memory. */
function plateFace_C(plate_C: number, air_C: number, thickness_m: number): number {
  const through = 0.17 / thickness_m;
  const off = 9;
  return (through * plate_C + off * air_C) / (through + off);
}
