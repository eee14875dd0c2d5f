/** How much a hint gives away: where to look, what to look for, the cells, the whole argument. */
export const HINT_DEPTHS = ['look', 'method', 'cells', 'argument'] as const
export type HintDepth = (typeof HINT_DEPTHS)[number]
