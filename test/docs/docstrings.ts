import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import ts from 'typescript'

/** An export that is a function, with the code of its examples. */
export interface DocumentedFunction {
  readonly name: string
  readonly entry: string
  readonly summary: string
  readonly examples: readonly string[]
}

const root = fileURLToPath(new URL('../../', import.meta.url))

/** Functions that an entry exports, off the sources: docstrings are no part of what runs. */
export function documentedFunctions(entries: readonly string[]): DocumentedFunction[] {
  const files = entries.map((entry) => `${root}src/${entry}.ts`)
  const { config } = ts.readConfigFile(`${root}tsconfig.json`, (path) => readFileSync(path, 'utf8'))
  const { options } = ts.parseJsonConfigFileContent({ ...config, include: [], files }, ts.sys, root)
  const program = ts.createProgram(files, { ...options, skipLibCheck: true })
  const checker = program.getTypeChecker()
  return files.flatMap((file, index) => {
    const source = checker.getSymbolAtLocation(program.getSourceFile(file)!)!
    return checker.getExportsOfModule(source).flatMap((exported) => {
      const symbol = exported.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(exported) : exported
      if (!(symbol.flags & ts.SymbolFlags.Function)) return []
      const text = (parts: ts.SymbolDisplayPart[] | undefined) => ts.displayPartsToString(parts)
      const summary = text(symbol.getDocumentationComment(checker))
      const tagged = symbol
        .getJsDocTags(checker)
        .flatMap((tag) => (tag.name === 'example' ? [text(tag.text)] : []))
      const fenced = [...summary.matchAll(/```ts\n([\s\S]*?)```/g)].map(([, code]) => code!)
      return [
        { name: exported.name, entry: entries[index]!, summary, examples: [...fenced, ...tagged].map(bare) },
      ]
    })
  })
}

function bare(code: string): string {
  return code.replace(/^```\w*\n|```$/gm, '').trim()
}

/**
 * An example as JavaScript for the body of a function: what it says of a value after `// →`, on the same line or alone
 * on the next, becomes a call of `same(value, said)`.
 */
export function asProgram(example: string): string {
  const lines = example.replace(/\s*\n\/\/ →/g, ' // →').split('\n')
  const program = lines.map((line) => {
    const [, code, said] = /^(.*?)\s*\/\/.*?→ (.*)$/.exec(line) ?? []
    return code === undefined ? line : `same(${code}, (${said}))`
  })
  return ts.transpileModule(program.join('\n'), {
    compilerOptions: { target: ts.ScriptTarget.ES2022, module: ts.ModuleKind.ESNext },
  }).outputText
}
