/** The kind of thinking a technique asks for, easiest first. */
export const LEVELS = ['scan', 'mark', 'pattern', 'chain', 'branch'] as const
/** The kind of thinking a technique asks for, easiest first: `scan`, `mark`, `pattern`, `chain`, `branch`. */
export type Level = (typeof LEVELS)[number]
