import type Sharp from 'sharp'
import { GridreasonError } from '../../errors.js'

/** sharp, which decodes and writes pictures in Node. */
export async function loadSharp(purpose: string): Promise<typeof Sharp> {
  try {
    return (await import('sharp')).default
  } catch (cause) {
    throw packageMissing('sharp', purpose, cause)
  }
}

/** @param purpose what the package is needed for: `to decode picture files` */
export function packageMissing(name: string, purpose: string, cause: unknown): GridreasonError {
  return new GridreasonError(
    'package-missing',
    `The package ${name} is needed ${purpose}. Add it: npm install ${name}`,
    { cause },
  )
}
