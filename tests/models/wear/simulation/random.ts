/** A seeded stream of numbers (mulberry32, public domain), so that every simulated fleet can be made again. */
export class SeededRandom {
  #state: number;
  constructor(seed: number) {
    this.#state = (seed * 2654435761) >>> 0;
    for (let i = 0; i < 5; i++) this.uniform();
  }
  /** 0 (included) to 1 (excluded) */
  uniform(): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0;
    let t = this.#state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  }
  between(low: number, high: number): number {
    return low + (high - low) * this.uniform();
  }
  normal(mean = 0, sd = 1): number {
    const radius = Math.sqrt(-2 * Math.log(1 - this.uniform()));
    return mean + sd * radius * Math.cos(2 * Math.PI * this.uniform());
  }
  lognormal(logSd: number): number {
    return Math.exp(this.normal(0, logSd));
  }
  chance(probability: number): boolean {
    return this.uniform() < probability;
  }
  pick<T>(values: readonly T[]): T {
    return values[Math.floor(this.uniform() * values.length)];
  }
}
