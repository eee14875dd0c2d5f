import type { ChainNode, FoundStep, Pattern } from '../../logic/steps/step.js'
import { argueChain } from '../argument/argue-chains.js'
import type { ChainFact, Fact, WingFact } from '../argument/facts.js'
import type { Why } from '../argument/reason.js'
import type { PlanBuilder } from './plan-builder.js'

type Chain = Extract<Pattern, { shape: 'chain' }>
type Known = Extract<ChainFact | WingFact, { kind: 'joined' | 'bridge' | 'take-turns' }>

const isKnown = (fact: Fact): fact is Known =>
  fact.kind === 'joined' || fact.kind === 'bridge' || fact.kind === 'take-turns'
const nodeOf = (cell: number, digit: number): ChainNode => ({ digit, cells: [cell] })

/** Short chains of known forms are drawn as they are explained; others link by link from their start. */
export function planChain(
  plan: PlanBuilder,
  step: FoundStep,
  pattern: Chain,
  reasons: () => readonly Why[],
): void {
  const known = argueChain(step, pattern).find(isKnown)
  if (known) planKnown(plan, known)
  else planWalk(plan, pattern, furtherEnds(pattern, reasons))
}

function planKnown(plan: PlanBuilder, fact: Known): void {
  switch (fact.kind) {
    case 'joined': {
      const { digit, pairs } = fact
      plan.house(
        pairs.map(({ house }) => house),
        'house',
      )
      for (const { far, near } of pairs) {
        plan.mark(far, [digit], 'end')
        plan.mark(near, [digit], 'link')
        const number = plan.links.length + 1
        plan.links.push({
          from: { digit, cells: far },
          to: { digit, cells: near },
          kind: 'strong',
          number,
        })
      }
      const [from, to] = pairs.map(({ near }): ChainNode => ({ digit, cells: near }))
      plan.links.push({ from: from!, to: to!, kind: 'weak', number: 3 })
      return
    }
    case 'bridge': {
      const { house, digit, gives, ways } = fact
      plan.house([house], 'house')
      const [one, other] = ways.map(({ places }): ChainNode => ({ digit, cells: places }))
      plan.links.push({ from: one!, to: other!, kind: 'strong', number: 1 })
      for (const { places, cell } of ways) {
        plan.cell([cell], 'pattern')
        plan.mark([cell], [gives], 'end')
        plan.mark([cell, ...places], [digit], 'link')
        plan.nextLink({ digit, cells: places }, nodeOf(cell, digit), 'weak')
        plan.nextLink(nodeOf(cell, digit), nodeOf(cell, gives), 'strong')
      }
      return
    }
    case 'take-turns': {
      const { cells, digits } = fact
      plan.cell(cells, 'pattern')
      for (const cell of [cells[0]!, cells[cells.length - 1]!]) plan.mark([cell], digits, 'end')
      plan.mark(cells, digits, 'link')
      cells.slice(1).forEach((cell, i) => {
        // in turn the one digit and the other
        const digit = digits[i % digits.length]!
        plan.nextLink(nodeOf(cells[i]!, digit), nodeOf(cell, digit), 'weak')
      })
      return
    }
    default:
      fact satisfies never
  }
}

/** The ends that a chain comes to on its way, where something is removed for one of them. */
function furtherEnds({ links, loop }: Chain, reasons: () => readonly Why[]): ChainNode[] {
  if (loop) return []
  const last = links[links.length - 1]?.to
  return reasons().flatMap(({ reason }) =>
    reason.kind === 'excluded-by-each' ? reason.nodes.slice(1).filter((node) => node !== last) : [],
  )
}

function planWalk(plan: PlanBuilder, { links, loop }: Chain, further: readonly ChainNode[]): void {
  const first = links[0]?.from
  const last = links[links.length - 1]?.to
  if (first) plan.node(first, 'start')
  if (last && !loop) plan.node(last, 'end')
  for (const node of further) plan.node(node, 'end')
  for (const { fins = [] } of links) for (const { cell, digit } of fins) plan.mark([cell], [digit], 'fin')
  for (const { from, to, by, kind } of links) {
    // what a strong link leads to is true, what a weak one leads to is false
    plan.node(from, kind === 'strong' ? 'link' : 'link-true')
    plan.node(to, kind === 'strong' ? 'link-true' : 'link')
    if (by.kind === 'set') plan.area(by.cells, 'linking-set')
    plan.nextLink(from, to, kind)
  }
}
