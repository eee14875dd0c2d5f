/** Why one of two nodes holds: the cell, house or almost locked set that would be left without its digits. */
export type StrongReason =
  | { readonly kind: 'cell'; readonly cell: number }
  | { readonly kind: 'house'; readonly house: number; readonly digit: number }
  | { readonly kind: 'set'; readonly cells: readonly number[] }

/** Strong and weak links between nodes, as lists: see `LinkGraph`. */
export interface LinkLists {
  /** How many nodes there are; those from `size` on have no strong links here. */
  readonly nodeCount: number
  readonly size: number
  readonly strongStart: readonly number[]
  readonly strongTo: readonly number[]
  /** For each entry of `strongTo`: index into `reasons`. */
  readonly strongBy: readonly number[]
  readonly weakStart: readonly number[]
  readonly weakList: readonly number[]
  readonly reasons: readonly StrongReason[]
  /** The nodes that would spoil a strong link. */
  readonly fins?: readonly (readonly number[])[]
  addWeak(node: number, into: number[], from: number): number
  areWeaklyLinked(a: number, b: number): boolean
}

/**
 * An alternating chain: `nodes` come in pairs joined by strong links, `nodes[0]`=`nodes[1]`, `nodes[2]`=`nodes[3]`, …,
 * with weak links between the pairs. If the first node does not hold, the last one does.
 */
export interface Chain {
  readonly nodes: readonly number[]
  /** What each strong link rests on. */
  readonly by: readonly StrongReason[]
  /**
   * For each strong link the nodes that would spoil it, if any link of the chain has such. As with a finned fish, every
   * fin must see the candidate that the chain is against: if a fin is true the candidate goes at once.
   */
  readonly fins?: readonly (readonly number[])[]
}

/** A chain against a candidate (a node of one cell), which is weakly linked to both ends and so cannot hold. */
export interface ChainAgainst extends Chain {
  readonly target: number
}

export interface ChainLimits {
  /** Fewest and most strong links. */
  readonly least: number
  readonly most: number
}
