import type { Dirent } from 'node:fs'
import { readdir, stat } from 'node:fs/promises'
import { extname, join } from 'node:path'
import { GridreasonError } from '../errors.js'

/** A file to read, or why a name given cannot be read. */
export type FoundFile = { readonly file: string } | { readonly file: string; readonly error: GridreasonError }

/**
 * Files named outright, and the files below folders named, each folder in the order of names. Within folders only
 * files with one of the extensions count, and names that begin with a dot do not.
 *
 * @param extensions in lower case, with their dot
 */
export async function* listFiles(
  targets: string | readonly string[],
  extensions: readonly string[],
): AsyncGenerator<FoundFile> {
  for (const target of typeof targets === 'string' ? [targets] : targets) {
    try {
      if ((await stat(target)).isDirectory()) yield* below(target, extensions)
      else yield { file: target }
    } catch (cause) {
      yield { file: target, error: unreadable(target, cause) }
    }
  }
}

async function* below(folder: string, extensions: readonly string[]): AsyncGenerator<FoundFile> {
  let entries: Dirent[]
  try {
    entries = await readdir(folder, { withFileTypes: true })
  } catch (cause) {
    yield { file: folder, error: unreadable(folder, cause) }
    return
  }
  // By code units: the same order on every machine, whatever its language.
  entries.sort((a, b) => (a.name < b.name ? -1 : 1))
  for (const entry of entries) {
    if (entry.name.startsWith('.')) continue
    const path = join(folder, entry.name)
    if (entry.isDirectory()) yield* below(path, extensions)
    else if (extensions.includes(extname(entry.name).toLowerCase())) yield { file: path }
  }
}

export function unreadable(file: string, cause: unknown): GridreasonError {
  const why = cause instanceof Error ? cause.message : String(cause)
  return new GridreasonError(
    'file-unreadable',
    `${file} cannot be read (${why}). Check the name and the permissions.`,
    { place: { file }, cause },
  )
}
