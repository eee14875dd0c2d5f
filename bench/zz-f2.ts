import * as G from '../src/index.js'
const A: any = G
const board = G.Board.fromPuzzle(A.parsePuzzle('530070000600195000098000060800060003400803001700020006060000280000419005000080079').puzzle ?? A.parsePuzzle('530070000600195000098000060800060003400803001700020006060000280000419005000080079'))
const s = G.findSteps(board, { techniques: ['hidden-single'] })[0]!
for (const because of [[null], {}, [{ kind: 'cell', cell: 1, digits: null }], 'x', [{ kind: 'zzz' }]]) try { console.log(JSON.stringify(A.checkClaim(board, { placed: s.placements, technique: 'hidden-single', because })).slice(0, 150)) } catch (e: any) { console.log(e.constructor.name, e.message) }
