/** A word that is not to be used, and what to say instead; the glossary of DEVELOPERS.md has the others. */
interface Banned {
  readonly word: RegExp
  readonly say: string
}

/** Words with private or several meanings, which readers stumbled over. */
const BANNED: readonly Banned[] = [
  {
    word: /\btold\b(?!,? apart)/i,
    say: 'reported, explained, said, found or propagated, whichever is meant',
  },
  { word: /\bin vain\b|\bInVain\b/i, say: 'without result; what is remembered of it is a miss cache' },
  { word: /\b(?:do|does|doing|did|done) away with\b/i, say: 'eliminates' },
  { word: /\bput(?:s|ting)? back\b|\bputBack\b/i, say: 'restored' },
  { word: /\blaid\b(?!-?out| out)/i, say: 'put, written or drawn' },
  { word: /\b(?:true|false|holds?) beside\b/i, say: 'together with' },
  { word: /\bpurse\b/i, say: 'node budget' },
  { word: /\bpatiently\b/i, say: 'in slices, with a yield between them' },
  { word: /\buncounted\b/i, say: 'needsSoundPuzzle' },
  { word: /\bon (?:its|their)[ -]heads?\b/i, say: 'upside down' },
  { word: /\btellPeers\b|\btells? (?:its|their) peers\b/i, say: 'propagate to peers' },
  { word: /\bmaxNodes\b/, say: 'nodeBudget' },
  { word: /'several-solutions'/, say: "'many-solutions'" },
]

/** Columns of a line of prose: a comment in a script, or text in a Markdown file that is no table. */
const WIDEST = 120

export interface ProseFault {
  /** From 1. */
  readonly line: number
  readonly says: string
}

/** What is wrong with the words of a file, or with the width of its prose. */
export function proseFaults(path: string, text: string): ProseFault[] {
  const faults: ProseFault[] = []
  text.split('\n').forEach((line, i) => {
    for (const { word, say } of BANNED) {
      const found = word.exec(line)
      if (found) faults.push({ line: i + 1, says: `"${found[0]}": say ${say}` })
    }
    if ([...line].length > WIDEST && isProse(path, line))
      faults.push({ line: i + 1, says: `${[...line].length} columns: at most ${WIDEST}` })
  })
  return faults
}

function isProse(path: string, line: string): boolean {
  const text = line.trim()
  // a word as long as the line (an address, a command) cannot be broken
  if (!text.includes(' ')) return false
  // what an example of a docstring gives is code
  if (path.endsWith('.md')) return !/^[|<!]|^ {4}/.test(line)
  return /\.[cm]?[jt]s$/.test(path) && /^(?:\*(?! \/\/)|\/\/|\/\*\*)/.test(text)
}
