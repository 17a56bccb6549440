/**
 * Hands out the sites to be judged, one after another, to however many threads ask: each number from 0 up to the count goes
 * to exactly one of them.
 */
export class SiteOrder {
  private readonly next: Int32Array

  constructor(
    readonly shared: SharedArrayBuffer,
    readonly count: number,
  ) {
    this.next = new Int32Array(shared)
  }

  static of(count: number): SiteOrder {
    return new SiteOrder(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT), count)
  }

  /** Undefined when all are taken. */
  take(): number | undefined {
    const n = Atomics.add(this.next, 0, 1)
    return n < this.count ? n : undefined
  }

  /** How many have been handed out. */
  get taken(): number {
    return Math.min(Atomics.load(this.next, 0), this.count)
  }
}
