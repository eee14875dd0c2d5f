import type { Fact } from '../argument/facts.js'

export { huntPremises as clues } from '../hunt/hunt-others.js'
export { planDenial as plan } from '../picture/plan-cases.js'

/** It is explained by what follows from denying each conclusion. */
export const facts = (): Fact[] => []

export const reason = (): undefined => undefined
