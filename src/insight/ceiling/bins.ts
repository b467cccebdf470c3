/** Weights at places along a line, kept in bins of one width; each is shared by the two bins it lies between. */
export class Bins {
  readonly from: number;
  readonly width: number;
  readonly weights: Float64Array;
  constructor(from: number, to: number, width: number) {
    this.from = from;
    this.width = width;
    this.weights = new Float64Array(Math.ceil((to - from) / width) + 2);
  }

  add(place: number, weight: number): void {
    const at = (place - this.from) / this.width;
    const bin = Math.floor(at);
    const part = at - bin;
    this.weights[bin] += (1 - part) * weight;
    this.weights[bin + 1] += part * weight;
  }
}

/** Share of the weight that lies over a place; each bin's weight is spread evenly about its place. */
export function binnedShareOver({ from, width, weights }: Bins, place: number): number {
  let [all, over] = [0, 0];
  weights.forEach((weight, bin) => {
    all += weight;
    over += weight * Math.min(1, Math.max(0, (from - place) / width + bin + 0.5));
  });
  return over / all;
}

/** Places under which the given shares of the weight lie, rising; each bin's weight is spread evenly about its place. */
export function binnedQuantiles({ from, width, weights }: Bins, shares: readonly number[]): number[] {
  const all = weights.reduce((sum, one) => sum + one, 0);
  const found: number[] = [];
  let [bin, before] = [0, 0];
  for (const share of shares) {
    while (bin < weights.length - 1 && before + weights[bin] < share * all) {
      before += weights[bin];
      bin += 1;
    }
    const part = weights[bin] === 0 ? 0.5 : (share * all - before) / weights[bin];
    found.push(from + width * (bin - 0.5 + part));
  }
  return found;
}
