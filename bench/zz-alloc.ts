import { Session } from 'node:inspector'
import { makePuzzle } from '../src/grid/puzzle.js'
import { solve } from '../src/logic/solve.js'
import { readPuzzleLines } from './support/puzzle-lines.js'
const puzzles = readPuzzleLines([process.argv[2]!]).map(({ givens }) => makePuzzle(givens))
const ids = process.argv[3]!.split(',').map((n) => Number(n) - 1)
const N = 60
for (let k = 0; k < N; k++) for (const i of ids) solve(puzzles[i]!, { preset: 'chain' })
const s = new Session(); s.connect()
const post = (m: string, p: any = {}) => new Promise<any>((r, j) => s.post(m, p, (e: any, v: any) => e ? j(e) : r(v)))
await post('HeapProfiler.startSampling', { samplingInterval: 16384, includeObjectsCollectedByMajorGC: true, includeObjectsCollectedByMinorGC: true })
for (let k = 0; k < N; k++) for (const i of ids) solve(puzzles[i]!, { preset: 'chain' })
const { profile } = await post('HeapProfiler.stopSampling')
const self = new Map<string, number>(); let tot = 0
const walk = (n: any) => { const k = n.callFrame.functionName + ' ' + n.callFrame.url.split('/').slice(-2).join('/') + ':' + n.callFrame.columnNumber; self.set(k, (self.get(k) ?? 0) + n.selfSize); tot += n.selfSize; n.children.forEach(walk) }
walk(profile.head)
const incl = new Map<string, number>()
const walk2 = (n: any, seen: Set<string>) => { const k = n.callFrame.functionName + ' ' + n.callFrame.url.split('/').slice(-2).join('/') + ':' + n.callFrame.columnNumber; const fresh = !seen.has(k); if (fresh) seen.add(k); let t = n.selfSize; for (const c of n.children) t += walk2(c, seen); if (fresh) { incl.set(k, (incl.get(k) ?? 0) + t); seen.delete(k) } return t }
walk2(profile.head, new Set())
for (const [k, v] of [...incl].sort((a, b) => b[1] - a[1]).slice(0, 60)) console.log('I', (100 * v / tot).toFixed(1).padStart(5), k)
console.log('KB a solve', tot / N / ids.length / 1024)
for (const [k, v] of [...self].sort((a, b) => b[1] - a[1]).slice(0, 45)) console.log((100 * v / tot).toFixed(1).padStart(5), k)
