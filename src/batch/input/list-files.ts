import { readdir, stat } from 'node:fs/promises'
import { basename, extname, join, relative, sep } from 'node:path'
import { GridreasonError } from '../../errors.js'
import type { Skipped } from './skipped.js'

/** Where a file is: as it can be opened, and below the folder that was named, with `/` between names. */
export interface FilePlace {
  readonly file: string
  readonly path: string
}

/** A file to read, or why what was found is none. */
export type FoundFile = FilePlace &
  (
    | {
        /** Undefined for what has no size, such as a pipe. */
        readonly size: number | undefined
      }
    | { readonly error: GridreasonError }
    | { readonly skipped: Skipped }
  )

/**
 * Files named outright, and the files below folders named, each folder in the order of names. Within folders only files
 * with one of the extensions count, packed with gzip or not. Links are followed; a folder is read once, however many
 * ways lead to it.
 *
 * @param extensions with or without their dot, in any case
 * @param root the folder that paths are below; each folder named, and that of each file named, when left out
 */
export async function* listFiles(
  targets: string | readonly string[],
  extensions: readonly string[],
  root?: string,
): AsyncGenerator<FoundFile> {
  const walk: Walk = {
    extensions: new Set(extensions.map((name) => `.${name.toLowerCase().replace(/^\./, '')}`)),
    seen: new Map(),
  }
  for (const target of typeof targets === 'string' ? [targets] : targets) {
    const place = { file: target, path: pathOf(target, root) }
    try {
      const status = await stat(target)
      if (status.isDirectory()) yield* below(target, root === undefined ? '' : place.path, walk)
      else yield { ...place, size: status.isFile() ? status.size : undefined }
    } catch (cause) {
      yield { ...place, error: unreadable(target, cause) }
    }
  }
}

/** A file below the root, or by its own name alone. */
function pathOf(file: string, root: string | undefined): string {
  return root === undefined ? basename(file) : relative(root, file).replaceAll(sep, '/')
}

/** Files named one by one, whatever their extensions; a folder among them is an error. */
export async function* namedFiles(
  names: Iterable<string> | AsyncIterable<string>,
  root?: string,
): AsyncGenerator<FoundFile> {
  for await (const file of names) {
    const place = { file, path: pathOf(file, root) }
    try {
      const status = await stat(file)
      if (status.isDirectory()) throw new Error('it is a folder; folders are for gradeFolder')
      yield { ...place, size: status.isFile() ? status.size : undefined }
    } catch (cause) {
      yield { ...place, error: unreadable(file, cause) }
    }
  }
}

interface Walk {
  readonly extensions: ReadonlySet<string>
  /** Folders by what they are on the disk -> the path they were first read by. */
  readonly seen: Map<string, string>
}

async function* below(folder: string, path: string, walk: Walk): AsyncGenerator<FoundFile> {
  const place = { file: folder, path }
  let names: string[]
  try {
    const { dev, ino } = await stat(folder, { bigint: true })
    const before = walk.seen.get(`${dev}:${ino}`)
    if (before !== undefined) {
      const message = `This is the folder ${before}, which was read already.`
      yield { ...place, skipped: { because: 'seen', message } }
      return
    }
    walk.seen.set(`${dev}:${ino}`, folder)
    // names alone: a folder of a million files fills no memory to speak of
    names = await readdir(folder)
  } catch (cause) {
    yield { ...place, error: unreadable(folder, cause) }
    return
  }
  // By code units: the same order on every machine, whatever its language.
  names.sort()
  for (const name of names) {
    yield* entry({ file: join(folder, name), path: path === '' ? name : `${path}/${name}` }, name, walk)
  }
}

async function* entry(place: FilePlace, name: string, walk: Walk): AsyncGenerator<FoundFile> {
  if (name.startsWith('.')) {
    yield { ...place, skipped: { because: 'hidden', message: 'Its name begins with a dot.' } }
    return
  }
  try {
    const status = await stat(place.file)
    if (status.isDirectory()) yield* below(place.file, place.path, walk)
    else if (!extensionsOf(name).some((extension) => walk.extensions.has(extension)))
      yield { ...place, skipped: { because: 'extension', message: otherExtension(name) } }
    else if (!status.isFile())
      yield {
        ...place,
        skipped: { because: 'special', message: 'Pipes and devices must be named outright.' },
      }
    else yield { ...place, size: status.size }
  } catch (cause) {
    // a link that leads nowhere, or to itself
    yield { ...place, error: unreadable(place.file, cause) }
  }
}

/** `.txt` and `.gz` of `week.txt.gz`. */
function extensionsOf(name: string): string[] {
  const last = extname(name).toLowerCase()
  return last === '.gz' ? [last, extname(name.slice(0, -last.length)).toLowerCase()] : [last]
}

function otherExtension(name: string): string {
  const extension = extname(name)
  const what = extension === '' ? 'no extension' : `the extension ${extension}`
  return `Its name has ${what}, which was not asked for; name the file outright, or add to \`extensions\`.`
}

export function unreadable(file: string, cause: unknown): GridreasonError {
  const why = cause instanceof Error ? cause.message : String(cause)
  // errors of unpacking have codes of their own
  const isPacked = cause instanceof Error && /^Z_/.test(String((cause as NodeJS.ErrnoException).code))
  const advice = isPacked
    ? 'It is damaged or ends too early: pack or copy it again.'
    : 'Check the name and the permissions.'
  return new GridreasonError('file-unreadable', `${file} cannot be read (${why}). ${advice}`, {
    place: { file },
    cause,
  })
}
