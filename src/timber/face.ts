/** What a face sees: nothing passes, or it is drawn to a moisture, at once or through a surface resistance. */
export type Face =
  | { readonly open: false }
  | { readonly open: true; readonly emc_pct: number; readonly surface_m_per_s: number };

/** D = base·exp(slope·M): square metres a second, M in percent. */
export interface Diffusivity {
  readonly base_m2_per_s: number;
  readonly slope_per_pct: number;
}

/** ∫D·dM up to a moisture, whose differences are steady flows. */
export function potentialAt({ base_m2_per_s, slope_per_pct }: Diffusivity, m_pct: number): number {
  return slope_per_pct === 0
    ? base_m2_per_s * m_pct
    : (base_m2_per_s / slope_per_pct) * Math.exp(slope_per_pct * m_pct);
}

function diffusionAt({ base_m2_per_s, slope_per_pct }: Diffusivity, m_pct: number): number {
  return base_m2_per_s * Math.exp(slope_per_pct * m_pct);
}

/** Moisture that an open face holds above a cell whose centre lies that deep. */
export function surfaceOf(
  face: Face & { open: true },
  inner_pct: number,
  depth_m: number,
  diffusivity: Diffusivity,
): number {
  const { emc_pct, surface_m_per_s: s } = face;
  if (s === Number.POSITIVE_INFINITY) return emc_pct;
  if (s === 0) return inner_pct;
  const inner = potentialAt(diffusivity, inner_pct);
  const near = diffusionAt(diffusivity, inner_pct) / depth_m;
  let surface_pct = (s * emc_pct + near * inner_pct) / (s + near);
  for (let i = 0; i < 4; i++) {
    const miss = s * (emc_pct - surface_pct) - (potentialAt(diffusivity, surface_pct) - inner) / depth_m;
    const step = miss / (s + diffusionAt(diffusivity, surface_pct) / depth_m);
    surface_pct += step;
    if (Math.abs(step) < 1e-10) break;
  }
  return surface_pct;
}

/**
 * Flow into the wood through a face, percent·m/s, and by how much it falls with each percent in the nearest cell.
 *
 * @param inner  potential of the nearest cell
 */
export function throughFace(
  face: Face,
  inner_pct: number,
  inner: number,
  depth_m: number,
  diffusivity: Diffusivity,
): { readonly flow: number; readonly slope: number } {
  if (!face.open || face.surface_m_per_s === 0) return { flow: 0, slope: 0 };
  const { emc_pct, surface_m_per_s: s } = face;
  const near = diffusionAt(diffusivity, inner_pct) / depth_m;
  if (s === Number.POSITIVE_INFINITY)
    return { flow: (potentialAt(diffusivity, emc_pct) - inner) / depth_m, slope: near };
  const surface_pct = surfaceOf(face, inner_pct, depth_m, diffusivity);
  const at = diffusionAt(diffusivity, surface_pct) / depth_m;
  return { flow: s * (emc_pct - surface_pct), slope: (s * near) / (s + at) };
}
