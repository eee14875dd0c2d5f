/** The kind of thinking a technique asks for, easiest first. */
export const LEVELS = ['scan', 'mark', 'pattern', 'chain', 'branch'] as const
export type Level = (typeof LEVELS)[number]
