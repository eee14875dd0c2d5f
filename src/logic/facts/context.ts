/**
 * How a part of a context is made.
 *
 * @param before the same part of the context that this one is forked from
 */
export type Part<Value> = (before: Value | undefined) => Value

/**
 * What one line of work knows and works with: the facts of its latest board, what was searched without result, tables
 * that techniques share, and lists that serve again. Whoever looks for steps owns one; there is nothing of the kind
 * outside it.
 *
 * One search at a time may be in the middle of a technique in a context. Several contexts are used by turns as one
 * likes.
 */
export class Context {
  private readonly parts = new Map<unknown, unknown>()
  private readonly parent: Context | undefined
  private readonly stamps: { latest: number }

  constructor(parent?: Context) {
    this.parent = parent
    this.stamps = parent ? parent.stamps : { latest: 0 }
  }

  /** This context's own of a part, made when first asked for; the function that makes it names it. */
  of<Value>(part: Part<Value>): Value {
    let value = this.parts.get(part) as Value | undefined
    if (value === undefined) {
      value = part(this.parent?.of(part))
      this.parts.set(part, value)
    }
    return value
  }

  /** A number that no board has had before, in this context or any of its kin. */
  nextStamp(): number {
    return ++this.stamps.latest
  }

  /**
   * A context that begins with all that this one has kept, and keeps what it adds for itself: for trying out what
   * follows from a board. Its stamps go on from the same count, so that none means two things.
   */
  fork(): Context {
    return new Context(this)
  }
}
