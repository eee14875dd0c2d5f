import { readdirSync, readFileSync } from 'node:fs'
import ts from 'typescript'
import { expect, it } from 'vitest'

/**
 * What is kept per geometry or says that a value was checked before: it follows from its key alone, so that nobody can
 * tell whether it was there.
 */
const KEPT = new Set([
  'grid/board.ts known',
  'grid/geometry.ts boxedCache',
  'grid/geometry.ts known',
  'grid/layout.ts byKey',
  'grid/layout.ts byObject',
  'grid/layout.ts dropped',
  'grid/puzzle.ts made',
  'grid/text/geometry-line.ts written',
  // tables that are filled where they stand, and the compiled kernel
  'grid/text/symbols.ts DIGIT_OF_CODE',
  'count/kernel9/wasm.ts compiled',
])

/** Does a value that can be changed begin here? Lists and sets of a readonly type cannot. */
function isChangeable({ initializer, type }: ts.VariableDeclaration): boolean {
  if (type && /^(readonly |Readonly)/.test(type.getText())) return false
  if (!initializer) return true
  if (ts.isArrayLiteralExpression(initializer)) return initializer.elements.length === 0
  if (!ts.isNewExpression(initializer)) return false
  return initializer.expression.getText() !== 'RegExp'
}

/** The changeable variables at the top of a file. */
function stateOf(file: string): string[] {
  const source = ts.createSourceFile(file, readFileSync(`src/${file}`, 'utf8'), ts.ScriptTarget.Latest, true)
  return source.statements.filter(ts.isVariableStatement).flatMap(({ declarationList }) => {
    const isLet = (declarationList.flags & ts.NodeFlags.Const) === 0
    return declarationList.declarations
      .filter((declaration) => isLet || isChangeable(declaration))
      .map(({ name }) => `${file} ${name.getText()}`)
  })
}

it.each(['logic', 'grid', 'count', 'route', 'grade'])('modules of %s keep no state of their own', (room) => {
  const files = readdirSync(`src/${room}`, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.ts'))
    .map((file) => `${room}/${file.replaceAll('\\', '/')}`)
  expect(files.length).toBeGreaterThan(5)
  expect(files.flatMap(stateOf).filter((name) => !KEPT.has(name))).toEqual([])
})
