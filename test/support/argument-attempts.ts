import { GridreasonError, StoppedError } from '../../src/errors.js'
import { type Argument, JUNK } from './entries.js'

export type Callable = (...args: unknown[]) => unknown

/** What a call comes to, whichever way it comes; of several values the first. */
async function settle(call: () => unknown): Promise<{ value?: unknown; error?: unknown }> {
  try {
    const result = await call()
    const isStream = typeof result === 'object' && result !== null && Symbol.asyncIterator in result
    return { value: isStream ? await (result as AsyncGenerator).next() : result }
  } catch (error) {
    return { error }
  }
}

/**
 * Calls with junk in the place of one argument, or of one option, that do not come out as they must.
 *
 * @param codes the errors that what is handed in may meet
 */
export async function wrongOutcomes(
  call: Callable,
  args: readonly Argument[],
  codes: ReadonlySet<string>,
): Promise<string[]> {
  const wrong: string[] = []
  const attempt = async (place: string, values: readonly unknown[], isAllowed: boolean) => {
    const { error } = await settle(() => call(...values))
    if (error === undefined) {
      if (!isAllowed) wrong.push(`${place} is taken without a word`)
    } else if (isAllowed && error instanceof StoppedError) {
      // a limit may be right and too little
    } else if (!(error instanceof GridreasonError) || !codes.has(error.code) || error.message.length < 20) {
      wrong.push(`${place} ends in ${error}`)
    }
  }
  const good = args.map((argument) => argument.good)
  await attempt('what is right', good, true)
  for (const [i, { allows, options, good: own }] of args.entries()) {
    for (const [name, junk] of JUNK) {
      await attempt(`argument ${i}, ${name},`, good.with(i, junk), allows(junk))
      for (const [option, isAllowed] of Object.entries(options ?? {})) {
        const odd = { ...(own as object), [option]: junk }
        await attempt(`option ${option}, ${name},`, good.with(i, odd), junk === undefined || isAllowed(junk))
      }
    }
    if (!options) continue
    for (const option of ['junk', 'toString', '__proto__x'])
      await attempt(`an option ${option}`, good.with(i, { ...(own as object), [option]: 1 }), false)
  }
  return wrong
}
