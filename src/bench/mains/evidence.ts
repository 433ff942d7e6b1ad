/** Chance, over a whole recording, that some line of a comb that is there is taken for heard when it is not. */
const falseLine = 0.01;
/** Chance that a recording without mains is said to have a comb. */
const falseComb = 0.005;

/**
 * Evidence for a line: its power over the noise power that one such estimate holds. Chance alone exceeds x with
 * probability e^{−x}, when the noise is known.
 */
export function evidenceOf(power: number, variancePerPart: number): number {
  return variancePerPart > 0 ? power / (2 * variancePerPart) : 0;
}

/** The same when the noise itself was estimated from `bins` values: evidence is worth less. */
function discounted(evidence: number, bins: number): number {
  return bins * Math.log1p(evidence / bins);
}

/** Does one line among `trials` stand out? */
export function standsOut(evidence: number, trials: number, bins: number): boolean {
  return discounted(evidence, bins) > Math.log(trials / falseLine);
}

/**
 * Is there a comb at all, given that its frequency was chosen to make the evidence look good?
 *
 * A line at order 1 to 4 may stand for mains alone. Higher up, any stray tone is some multiple of some frequency near
 * the nominal, so the strongest line there and its own multiples (a tone with its harmonics) are set aside and the
 * other orders must stand for themselves.
 *
 * @param evidence  per signal and order (index 0 is order 1)
 * @param widths  search width times duration: how many frequencies at order 1 could have been chosen
 */
export function combFound(evidence: readonly Float64Array[], widths: number, bins: number): boolean {
  const orders = evidence[0]?.length ?? 0;
  const lines = evidence.length * orders;
  const worth = (s: number, i: number) => discounted(evidence[s]![i]!, bins);
  let strongest = 0;
  let strongestOrder = 1;
  let low = 0;
  for (let s = 0; s < evidence.length; s++) {
    for (let i = 0; i < orders; i++) {
      if (worth(s, i) > strongest) {
        strongest = worth(s, i);
        strongestOrder = i + 1;
      }
      if (i < lowOrders) low = Math.max(low, worth(s, i));
    }
  }
  const lowTrials = evidence.length * widths * lowOrders ** 2;
  if (strongestOrder <= lowOrders && low > Math.log(Math.max(1, lowTrials) / falseComb)) return true;

  const spared = strongestOrder > lowOrders;
  const ground = Math.log(lines) + 1;
  let together = 0;
  let speaking = 0;
  for (let s = 0; s < evidence.length; s++) {
    for (let i = 0; i < orders; i++) {
      if (spared && (i + 1) % strongestOrder === 0) continue;
      const above = worth(s, i) - ground;
      if (above > 0) {
        together += above;
        speaking++;
      }
    }
  }
  if (spared) return together > Math.log((10 * lines) / orders / falseComb);
  return speaking >= 2 && together > Math.log(Math.max(1, widths * orders) / falseComb);
}

const lowOrders = 4;
