/** Counts of grey values, to ask which value a share of the pixels stays under. */
export class GreyLevels {
  private readonly counts = new Uint32Array(256)
  private total = 0

  clear(): void {
    this.counts.fill(0)
    this.total = 0
  }

  /** @param value 0 to 255; fractions are cut off */
  add(value: number): void {
    const level = value | 0
    this.counts[level] = this.counts[level]! + 1
    this.total++
  }

  /** The smallest value that at least `share` (0..1) of the pixels do not exceed; 0 when nothing was counted. */
  at(share: number): number {
    const wanted = share * this.total
    let sum = 0
    for (let level = 0; level < 256; level++) {
      sum += this.counts[level]!
      if (sum >= wanted && sum > 0) return level
    }
    return 0
  }
}
