import { deepEqual, ok } from 'node:assert/strict'

/** The few matchers that checks need which run outside of the test runner as well. */
export function expect(actual: unknown) {
  const list = () => actual as { readonly length: number; includes(item: unknown): boolean }
  return {
    toBe: (expected: unknown) => deepEqual(actual, expected),
    toEqual: (expected: unknown) => deepEqual(actual, expected),
    toContain: (item: unknown) => ok(list().includes(item), `${actual} has no ${item}`),
    toHaveLength: (length: number) => deepEqual(list().length, length),
    toBeLessThan: (bound: number) => ok((actual as number) < bound, `${actual} is not below ${bound}`),
    toBeLessThanOrEqual: (bound: number) => ok((actual as number) <= bound, `${actual} is above ${bound}`),
    toBeGreaterThan: (bound: number) => ok((actual as number) > bound, `${actual} is not above ${bound}`),
    not: {
      toBe: (other: unknown) => ok(actual !== other, `is ${other}`),
      toContain: (item: unknown) => ok(!list().includes(item), `${actual} has ${item}`),
    },
  }
}
