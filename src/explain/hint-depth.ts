/** How much a hint gives away: where to look, what to look for, the cells, the whole argument. */
export const HINT_DEPTHS = ['look', 'method', 'cells', 'argument'] as const
/** How much a hint gives away, from where to look up to the whole argument. */
export type HintDepth = (typeof HINT_DEPTHS)[number]
