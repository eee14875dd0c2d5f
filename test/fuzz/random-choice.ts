/** Numbers in [0, 1). */
export type Random = () => number

export const pick = <T>(items: readonly T[], random: Random): T => items[Math.floor(random() * items.length)]!
export const below = (limit: number, random: Random): number => Math.floor(random() * limit)
