import { layoutOf } from '../../../grid/layout.js'
import type {
  Clue,
  FartherMiss,
  LargerMiss,
  LookFirst,
  NearMiss,
  Way,
  WhyHere,
  Works,
} from '../../hunt/clue.js'
import type { Names } from '../../names.js'
import { capital, count, counted, type GermanTerms, germanTerms, HOUSES, list } from './terms.js'

/** More than these are counted and not listed. */
const MOST_LISTED = 10

export function germanClue(clue: Clue, names: Names): string {
  const t = germanTerms(names)
  switch (clue.kind) {
    case 'worth-opening':
    case 'worth-settling':
    case 'nearly-full':
    case 'often-placed':
      return whyHere(t, clue)
    case 'cells-of-few':
    case 'houses-of-few':
    case 'few-in-house':
    case 'few-places':
    case 'one-line':
    case 'crosses':
    case 'alike':
    case 'spare-one':
    case 'more-than-two':
    case 'stands':
    case 'sees':
    case 'base-pair':
    case 'in-sight':
      return lookFirst(t, clue, names)
    case 'try':
      return TRIES[clue.way](count(clue.size))
    case 'two-places-left':
    case 'two-digits-left':
    case 'two-cells-open':
    case 'fins-unseen':
    case 'lacking-corner':
    case 'no-dead-end':
    case 'nothing-in-common':
      return fartherMiss(t, clue)
    case 'unjoined':
    case 'even-turns':
    case 'goes-together':
    case 'has-room':
    case 'one-short':
    case 'petals-apart':
    case 'no-extra':
      return largerMiss(t, clue)
    case 'works':
      return `${capital(works(t, clue))}. ${effect(t, clue)}`
    default:
      return nearMiss(t, clue, names)
  }
}

function whyHere(t: GermanTerms, clue: WhyHere): string {
  switch (clue.kind) {
    case 'worth-opening':
      return `Bei ${t.cell(clue.cell)} lohnt es sich: Dort sind nur ${t.digits(clue.digits)} übrig.`
    case 'worth-settling':
      return `In ${t.house(clue.house)} hat die ${t.digit(clue.digit)} nur noch ${count(clue.cells.length)} Plätze, ${t.within(clue.house, clue.cells, 'und')}: Das zu klären lohnt sich.`
    case 'nearly-full':
      return clue.of === 1
        ? `In ${t.house(clue.house)} ${clue.cells.length === 1 ? 'ist' : 'sind'} ${counted(clue.cells.length, 'Zelle')} offen: ${t.within(clue.house, clue.cells, 'und')}.`
        : `${t.house(clue.house)} ist ein guter Anfang, mit nur ${counted(clue.cells.length, 'offenen Zelle')}: ${t.within(clue.house, clue.cells, 'und')}.`
    case 'often-placed':
      return `Von den ${count(clue.order)} Ziffern ${t.digit(clue.digit)} stehen schon ${count(clue.placed)}, also bleiben für die übrigen wenige Plätze.`
    default:
      return clue satisfies never
  }
}

const few = (most: number) => (most === 2 ? 'nur zwei' : `höchstens ${count(most)}`)

/** The cells, or how many they are. */
function listed(t: GermanTerms, cells: readonly number[]): string {
  return cells.length <= MOST_LISTED ? t.cells(cells) : `es sind ${count(cells.length)}`
}

const PLURALS = { row: 'Zeilen', column: 'Spalten', any: 'Häuser' } as const

function lookFirst(t: GermanTerms, clue: LookFirst, { geometry }: Names): string {
  const { houses: all } = layoutOf(geometry)
  switch (clue.kind) {
    case 'cells-of-few':
      return `Zuerst die Zellen mit ${few(clue.most)} Kandidaten ansehen: ${listed(t, clue.cells)}.`
    case 'houses-of-few': {
      const found = clue.houses.map(({ house }) => house)
      const where = found.length <= MOST_LISTED ? t.houses(found) : `es sind ${count(found.length)}`
      return `${clue.isFurther ? 'Dazu' : 'Zuerst'} die ${PLURALS[clue.within]} ansehen, in denen die ${t.digit(clue.digit)} ${few(clue.most)} Plätze hat: ${where}.`
    }
    case 'few-in-house':
      return `In ${t.house(clue.house)} zuerst die Zellen mit höchstens ${count(clue.most)} Kandidaten ansehen: ${clue.cells.length <= MOST_LISTED ? t.within(clue.house, clue.cells, 'und') : listed(t, clue.cells)}.`
    case 'few-places': {
      const digits = clue.digits.map(
        ({ digit, cells }) => `die ${t.digit(digit)} in ${t.within(clue.house, cells, 'oder')}`,
      )
      return `In ${t.house(clue.house)} zuerst die Ziffern mit höchstens ${count(clue.most)} Plätzen ansehen: ${digits.join('; ')}.`
    }
    case 'one-line': {
      const { kind } = all[clue.found[0]!.from]!
      const into =
        kind === 'box' || kind === 'region'
          ? 'nur in eine Zeile oder Spalte'
          : kind === 'diagonal'
            ? 'nur in ein weiteres Haus'
            : 'nur in einen Block'
      const found = clue.found.map(({ from, to }) => `in ${t.house(from)} ist es ${t.house(to)}`)
      return `${HOUSES[kind].one} für ${HOUSES[kind].one} fragen, wo die ${t.digit(clue.digit)} ${into} passt. ${capital(list(found))}.`
    }
    case 'crosses': {
      const found = clue.found.map(
        ({ box, row, column }) => `in ${t.house(box)} aus ${t.house(row)} und ${t.house(column)}`,
      )
      return `Fragen, in welchem Block die Plätze der ${t.digit(clue.digit)} ein Kreuz aus einer Zeile und einer Spalte bilden: ${list(found)}.`
    }
    case 'alike':
      return `Zuerst die Zellen ansehen, die nur ${t.digits(clue.digits)} haben: ${listed(t, clue.cells)}.`
    case 'spare-one': {
      const what =
        clue.most === 1
          ? 'Zellen mit zwei Kandidaten'
          : `Mengen aus höchstens ${count(clue.most)} Zellen, die eine Ziffer mehr als Zellen haben,`
      const found =
        clue.sets.length <= 4
          ? list(clue.sets.map(({ cells, digits }) => `${t.cells(cells)} mit ${t.digits(digits)}`))
          : `es sind ${count(clue.sets.length)}`
      return `In ${t.house(clue.house)} zuerst nach ${what} suchen: ${found}.`
    }
    case 'more-than-two':
      return `Von den ${count(clue.open)} offenen Zellen ${clue.cells.length === 1 ? 'hat' : 'haben'} nur ${t.cells(clue.cells)} mehr als zwei Kandidaten.`
    case 'stands':
      return `Die ${t.digit(clue.digit)} steht in ${t.cells(clue.cells)}.`
    case 'sees':
      return `Blick auf ${t.cell(clue.cell)}: Von dort sieht man ${t.digits(clue.digits)}.`
    case 'in-sight': {
      const sets = clue.sets.map(({ cells, digits }) => `${t.cells(cells)} mit ${t.digits(digits)}`)
      return sets.length === 0
        ? `Zuerst ${t.cells(clue.of)} ansehen, die einander sehen.`
        : `Zuerst ansehen, was ${t.cells(clue.of)} gemeinsam sehen und zu knapp an Ziffern lassen könnten: ${capital(sets.join('; '))}.`
    }
    case 'base-pair':
      return `Zuerst nach zwei offenen Zellen in einer Linie eines Blocks mit wenigen Ziffern suchen: ${capital(t.cells(clue.cells))} haben zusammen ${t.digits(clue.digits)}.`
    default:
      return clue satisfies never
  }
}

const TRIES: Readonly<Record<Way, (size: string) => string>> = {
  'fill-house': () => 'Wo ein Haus nur eine offene Zelle hat, kommt die fehlende Ziffer hinein.',
  'cross-out': () =>
    'Jede davon sperrt die Zellen, die sie sieht: Für jedes Haus fragen, ob nur ein Platz bleibt.',
  'count-digits': () =>
    'Zählen, was zu sehen oder gestrichen ist: Ist es jede Ziffer bis auf eine, so gehört diese hinein.',
  'one-line': () =>
    'Die Ziffer steht dann dort, wo sich die beiden Häuser kreuzen: Also im Rest des zweiten nach weiteren suchen.',
  'naked-group': (n) => `Dann ${n} Zellen suchen, die zusammen nur ${n} Ziffern haben.`,
  'hidden-group': (n) => `Dann ${n} Ziffern suchen, die zusammen nur ${n} Zellen haben.`,
  'lines-alike': (n) => `Dann ${n} davon suchen, die nur ${n} Linien quer dazu brauchen.`,
  'lines-but-for-fins': (n) =>
    `Dann ${n} davon suchen, die bis auf ein oder zwei nahe Plätze nur ${n} Linien quer dazu brauchen.`,
  'houses-alike': (n) =>
    `Dann ${n} Häuser zusammen nehmen, auch Blöcke, und fragen, ob ${n} andere alle ihre Plätze enthalten, höchstens bis auf wenige.`,
  pivot: () =>
    'Eine davon als Angelpunkt nehmen: Sie braucht für jede ihrer zwei Ziffern einen Flügel in Sichtweite, der diese Ziffer hat, und beide Flügel teilen ihre andere.',
  'pivot-of-three': () =>
    'Eine mit drei Kandidaten als Angelpunkt nehmen: Sie braucht zwei Flügel in Sichtweite, jeder mit zwei ihrer Ziffern, die eine gemeinsam haben.',
  'counted-wing': (n) =>
    `Dann ${n} davon suchen, die zusammen ${n} Ziffern haben, von denen alle bis auf eine dort nur einmal stehen können.`,
  'two-houses': () =>
    'Dann zwei dieser Häuser nehmen, in denen ein Platz einen Platz des anderen sieht: Von den beiden fernen Plätzen hat einer die Ziffer.',
  cross: () =>
    'Dann ein Haus mit zwei Plätzen für die Ziffer suchen, von denen einer in der Linie eines Arms liegt: Der andere Platz und der andere Arm wirken zusammen.',
  'same-pair': () =>
    'Dann zwei davon nehmen und ein Haus suchen, dessen zwei Teile mit einer ihrer Ziffern je eine von ihnen sehen.',
  turns: () =>
    'Dann von einer zur nächsten gehen, die sie sieht: Nach einer ungeraden Zahl von Schritten sind die Enden verschieden.',
  'digit-chain': () =>
    'Dann von Haus zu Haus gehen: nicht hier, also dort, also nicht im nächsten. Darauf achten, wo beide Enden dieselbe Zelle sehen.',
  'cell-chain': () =>
    'Dann von Zelle zu Zelle gehen, die sie sieht: Jede nimmt der nächsten eine Ziffer, und dieser bleibt ihre andere. Auf die Ziffer achten, mit der es begann.',
  chain: () =>
    'Einen Kandidaten als falsch annehmen und verfolgen, was dadurch wahr wird, über Zellen mit zwei Kandidaten und Häuser mit zwei Plätzen. Darauf achten, wo Anfang und Ende dasselbe ausschließen.',
  'set-chain': () =>
    'Einen Kandidaten als falsch annehmen und verfolgen, was dadurch wahr wird. Auch Zellen mit einer Ziffer mehr, als sie sind, führen weiter: Verlieren sie eine, brauchen sie alle anderen.',
  ring: () =>
    'Von einem Kandidaten aus starken und schwachen Verknüpfungen im Wechsel folgen und sehen, ob sie zu ihm zurückführen.',
  colours: () =>
    'Die zwei Plätze jedes Hauses abwechselnd färben, von Haus zu Haus, und suchen, was beide Farben sieht, oder eine Farbe, die sich selbst begegnet.',
  'two-colourings': () =>
    'Die zwei Plätze jedes Hauses abwechselnd färben. Gibt es zwei Gruppen, so Farben suchen, die einander sehen, und was die beiden anderen sieht.',
  'two-sets': () =>
    'Dann eine zweite Menge suchen, mit einer Ziffer, über die sich alle sehen, und einer weiteren gemeinsamen.',
  'row-of-sets': () =>
    'Dann von Menge zu Menge gehen, über eine gemeinsame Ziffer, bei der sich alle sehen, bis die erste und die letzte eine Ziffer gemeinsam haben.',
  'ring-of-sets': () =>
    'Dann von Menge zu Menge gehen, über eine gemeinsame Ziffer, bei der sich alle sehen, bis eine andere die letzte mit der ersten verbindet.',
  blossom: () =>
    'Eine davon als Stiel nehmen: Sie braucht für jede ihrer Ziffern eine Menge in Sichtweite, die sie verliert, und alle diese Mengen teilen eine weitere Ziffer.',
  crossing: () =>
    'Wo sich zwei Häuser kreuzen, einige offene Zellen nehmen und weitere aus beiden Häusern, bis dort genau so viele Ziffern passen, wie es Zellen sind.',
  rectangle: () =>
    'Dann vier Zellen suchen, in denen sich zwei Zeilen und zwei Spalten in zwei Blöcken kreuzen und die alle dieselben zwei Ziffern haben.',
  'filled-rectangle': () =>
    'Dann vier Zellen suchen, keine davon vorgegeben, in denen sich zwei Zeilen und zwei Spalten in zwei Blöcken kreuzen und die über Kreuz dieselben zwei Ziffern haben könnten.',
  loop: () =>
    'Dann Zellen suchen, keine davon vorgegeben, die dieselben wenigen Ziffern so haben könnten, dass jedes Haus jede davon zweimal oder gar nicht hat.',
  'last-extras': () =>
    'Wo fast alle offenen Zellen zwei Kandidaten haben, suchen, was den Rest am Vertauschen hindert.',
  'fill-two': (n) =>
    `${capital(n)} Zellen mit wenigen Kandidaten nehmen, jede Art versuchen, sie zu füllen, und weglassen, was anderen Zellen nichts übrig lässt.`,
  'base-and-targets': () =>
    'Dann in den anderen Blöcken des Streifens je eine Zelle suchen und fragen, ob ihre Ziffern daneben noch Platz haben.',
  sectors: () =>
    'Wo in einigen Linien dieselben Ziffern wenig Platz haben, Zellen und Ziffern zählen und darauf achten, ob es gleich viele sind.',
  cases: () => 'Etwas mit wenigen Möglichkeiten nehmen, jeder folgen und suchen, was in allen herauskommt.',
  suppose: () =>
    'Einen Kandidaten als wahr annehmen und den Einern folgen, bis einem Haus oder einer Zelle nichts bleibt.',
}

function effect(t: GermanTerms, { placed, struck }: Works): string {
  if (placed.length > 0) return `Damit steht ${t.theCandidates(placed)} fest.`
  return `Damit ${struck.length === 1 ? 'entfällt' : 'entfallen'} ${t.theCandidates(struck)}.`
}

function works(t: GermanTerms, { way, cells, digits, houses, sets, struck }: Works): string {
  const [first, ...rest] = cells
  const digit = digits[0] === undefined ? '' : t.digit(digits[0])
  const base = houses.slice(0, houses.length / 2)
  const cover = houses.slice(houses.length / 2)
  switch (way) {
    case 'fill-house':
      return `hier ist in ${t.house(houses[0]!)} nur ${t.cells(cells)} offen, und die ${digit} fehlt`
    case 'cross-out':
      return `in ${t.house(houses[0]!)} bleibt der ${digit} nur ${t.cells(cells)}`
    case 'count-digits':
      return `${t.cells(cells)} kann nur ${t.digits(digits, 'oder')} sein`
    case 'one-line':
      return `in ${t.house(houses[0]!)} liegt die ${digit} in ${t.within(houses[0]!, cells, 'oder')}, und ${t.house(houses[1]!)} hat noch weitere`
    case 'naked-group':
      return `${t.cells(cells)} haben nur ${t.digits(digits)}, und andere in Sichtweite haben davon auch welche`
    case 'hidden-group':
      return `in ${t.house(houses[0]!)} haben nur ${t.cells(cells)} die Ziffern ${t.digits(digits)}, und dazu noch andere`
    case 'lines-alike':
      return `in ${t.toHouses(base)} liegt die ${digit} nur in ${t.toHouses(cover)}, wo es weitere gibt`
    case 'lines-but-for-fins':
    case 'houses-alike':
      return `${cells.length > 0 ? `bis auf ${t.cells(cells)} ` : ''}liegt die ${digit} von ${t.toHouses(base)} nur in ${t.toHouses(cover)}`
    case 'pivot':
    case 'pivot-of-three':
      return `${t.cell(first!)} taugt als Angelpunkt: ${capital(t.cells(rest))} sind die Flügel und teilen die ${digit}`
    case 'counted-wing':
      return `${t.cells(cells)} haben zusammen ${t.digits([...digits].sort((a, b) => a - b))}, und nur die ${digit} kann dort mehrmals stehen`
    case 'two-houses':
    case 'cross':
      return `${t.houses(houses.slice(0, 2))} treffen sich in ${t.house(houses[2]!)}, und was ${far(t, cells)} sieht, verliert seine ${digit}`
    case 'same-pair':
      return `${t.cells(cells)} haben dieselben zwei Ziffern, und ${t.house(houses[0]!)} verbindet sie über die ${t.digit(digits[1]!)}`
    case 'turns':
      return `die Reihe solcher Zellen von ${t.cell(cells[0]!)} bis ${t.cell(cells[1]!)} hat die richtige Länge`
    case 'digit-chain':
    case 'cell-chain':
    case 'chain':
    case 'set-chain':
      return cells.length === 1
        ? `eine Kette leistet es, die in ${t.cells(cells)} beginnt und endet`
        : digits.length === 1
          ? `eine Kette leistet es mit den Enden ${t.cells(cells)}: Eine davon ist ${digit}`
          : `eine Kette leistet es mit den Enden ${t.cells(cells)} und den Ziffern ${t.digits(digits)}`
    case 'ring':
      return `ein Ring durch ${t.cells([...new Set(cells)])} leistet es`
    case 'colours':
    case 'two-colourings':
      return `abwechselnd gefärbt, ${digits.length === 1 ? 'leistet es' : 'leisten es'} die ${t.digits(digits)} in ${t.cells(cells)}`
    case 'two-sets':
    case 'row-of-sets':
      return `${parted(sets.map((set) => t.cells(set)))} sind solche Mengen in einer Reihe: Die erste oder die letzte behält ihre ${digit}`
    case 'ring-of-sets':
      return `${parted(sets.map((set) => t.cells(set)))} sind zu einem Ring verbunden: Jede Menge verliert eine Ziffer an die nächste und braucht alle anderen`
    case 'blossom':
      return `${t.cells(cells)} taugt als Stiel: Was auch darin steht, eine Menge behält die ${digit}`
    case 'crossing':
      return `bei ${t.toHouses(houses)} haben ${t.cells(cells)} zusammen ${t.digits(digits)}, und alle werden gebraucht`
    case 'rectangle':
    case 'filled-rectangle':
    case 'loop':
      return `${t.cells(cells)} könnten nur ${t.digits(digits)} haben, was eine einzige Lösung ausschließt`
    case 'last-extras':
      return `nur ${t.theCandidates(cells.map((cell, i) => ({ cell, digit: digits[i]! })))} ${cells.length === 1 ? 'hindert' : 'hindern'} den Rest am Vertauschen`
    case 'fill-two':
      return `mit ${struck.length === 1 ? t.candidates(struck) : `einem davon, ${t.candidates(struck, 'oder')},`} bleibt keine Art, den Rest von ${t.cells(cells)} zu füllen`
    case 'base-and-targets':
      return `die Zielzellen ${t.cells(cells)} nehmen die Ziffern der Basis, von ${t.digits(digits)}`
    case 'sectors':
      return `${t.cells(cells)} sind genau so viele Zellen, wie ${t.houses(houses)} Ziffern für sie haben`
    case 'cases':
      return houses.length > 0
        ? `die ${digit} von ${t.house(houses[0]!)} liegt in ${t.cells(cells, 'oder')}, und alle führen zum selben`
        : `${t.cells(cells)} ist ${t.digits(digits, 'oder')}, und alle führen zum selben`
    case 'suppose':
      return `die Annahme ${t.candidates(struck.length > 0 ? struck.slice(0, 1) : cells.map((cell) => ({ cell, digit: digits[0]! })), 'oder')} führt in eine Sackgasse`
    default:
      return way satisfies never
  }
}

/** Sets of cells, parted by semicolons. */
const parted = (sets: readonly string[]) => `${sets.slice(0, -1).join('; ')}; und ${sets[sets.length - 1]}`

function far(t: GermanTerms, cells: readonly number[]): string {
  return `${cells.length === 2 ? 'beide' : 'alle'} Zellen ${t.cells(cells)}`
}

function nearMiss(t: GermanTerms, clue: NearMiss, { geometry }: Names): string {
  switch (clue.kind) {
    case 'one-digit-too-many':
      return `${capital(t.cells(clue.cells))} kommen nahe heran, haben aber ${t.digits(clue.digits)}: eine Ziffer zu viel.`
    case 'one-cell-too-many':
      return `${t.digits(clue.digits)} kommen nahe heran, haben in ${t.house(clue.house)} aber ${t.cells(clue.cells)}: eine Zelle zu viel.`
    case 'one-line-too-many': {
      const { kind } = layoutOf(geometry).houses[clue.cover[0]!]!
      return `${capital(t.houses(clue.base))} kommen nahe heran, haben die ${t.digit(clue.digit)} aber in ${t.toHouses(clue.cover)}: eine ${HOUSES[kind].one} zu viel.`
    }
    case 'nothing-to-strike':
      return `In ${t.house(clue.from)} ist es auch so, aber ${t.house(clue.to)} hat keine weitere ${t.digit(clue.digit)} zu streichen.`
    case 'no-partner':
      return `${capital(t.cell(clue.cell))} mit ${t.digits(clue.digits)} ist kein Angelpunkt: In Sichtweite gibt es kein anderes Paar mit der ${t.digit(clue.digit)}.`
    case 'unseen': {
      const how = clue.pivot === undefined ? 'Ebenso' : `Mit ${t.cell(clue.pivot)} als Angelpunkt`
      return `${how} ist eine von ${t.cells(clue.cells)} die ${t.digit(clue.digit)}, aber keine andere ${t.digit(clue.digit)} sieht ${clue.cells.length === 2 ? 'beide' : 'alle davon'}.`
    }
    case 'apart':
      return `${capital(t.houses(clue.houses.map(({ house }) => house)))} passen nicht zusammen: Ihre Plätze für die ${t.digit(clue.digit)} sehen einander nicht.`
    case 'too-short':
      return `Es ist zu früh, aufzuhören, sobald gilt: ${capital(t.node(clue.end))}. Das und die ${t.digit(clue.first.digit)} in ${t.cells(clue.first.cells)} schließen zusammen nichts aus.`
    case 'quiet-colours':
      return `Auch die ${t.digit(clue.digit)} lässt sich färben, in ${t.cells(clue.cells)}, aber nichts sieht ihre beiden Farben.`
    case 'given-corner':
      return `${capital(t.cells(clue.cells))} kämen für ${t.digits(clue.digits)} infrage, aber ${t.cell(clue.given)} ist vorgegeben, also lässt sich nichts vertauschen.`
    case 'four-boxes':
      return `${capital(t.cells(clue.cells))} haben alle ${t.digits(clue.digits)}, liegen aber in vier Blöcken, die das Vertauschen stören würde.`
    default:
      return clue satisfies never
  }
}

function fartherMiss(t: GermanTerms, clue: FartherMiss): string {
  switch (clue.kind) {
    case 'two-places-left':
      return `In ${t.house(clue.house)} bleiben der ${t.digit(clue.digit)} noch zwei Plätze, ${t.cells(clue.cells)}: einer zu viel.`
    case 'two-digits-left':
      return `${capital(t.cell(clue.cell))} kann noch ${t.digits(clue.digits, 'oder')} sein: eine Ziffer zu viel.`
    case 'two-cells-open':
      return `In ${t.house(clue.house)} sind noch zwei Zellen offen, ${t.cells(clue.cells)}.`
    case 'fins-unseen':
      return `${capital(t.houses(clue.base))} kämen bis auf ${t.cells(clue.cells)} infrage, aber keine andere ${t.digit(clue.digit)} in ${t.toHouses(clue.cover)} sieht ${clue.cells.length === 1 ? 'diese Zelle' : 'beide'}.`
    case 'lacking-corner':
      return `${capital(t.cells(clue.cells))} kommen mit ${t.digits(clue.digits)} nahe heran, aber ${t.cell(clue.cell)} hat keine ${t.digit(clue.digit)}.`
    case 'no-dead-end':
      return `Die ${t.digit(clue.digit)} in ${t.cell(clue.cell)} anzunehmen zeigt nichts: Die Einer, die folgen, führen in keine Sackgasse.`
    case 'nothing-in-common':
      return `${capital(t.cell(clue.cell))} mit ${t.digits(clue.digits)} taugt nicht: Allein durch Einer haben die beiden Fälle nichts gemeinsam.`
    default:
      return clue satisfies never
  }
}

function largerMiss(t: GermanTerms, clue: LargerMiss): string {
  switch (clue.kind) {
    case 'unjoined':
      return `Auch ${t.cells(clue.cells)} haben nur ${t.digits(clue.digits)}, aber kein Haus verbindet sie über eine der Ziffern.`
    case 'even-turns':
      return `Von ${t.cell(clue.cells[0])} bis ${t.cell(clue.cells[1])} sind es ${count(clue.moves)} Schritte: Diese beiden nehmen dieselbe Ziffer, und das streicht nichts.`
    case 'goes-together':
      return `Manches geht: ${list(clue.fits.map((candidate) => t.candidates([candidate])))} passen zusammen und bleiben also.`
    case 'has-room':
      return `Auch ${t.cells(clue.base)} sehen wie eine Basis aus, aber mit den Zielen ${t.cells(clue.targets)} hat die ${t.digit(clue.digit)} anderswo Platz.`
    case 'one-short':
      return `Ohne ${t.cell(clue.without)} geht es nicht auf: ${capital(count(clue.digits))} Ziffern für ${counted(clue.cells, 'Zelle')} klären nichts.`
    case 'petals-apart': {
      const petals = clue.petals.map(({ cell, digit }) => `${t.cell(cell)} für die ${t.digit(digit)}`)
      return `${capital(t.cell(clue.stem))} sieht ${list(petals)}, aber diese haben keine weitere Ziffer gemeinsam.`
    }
    case 'no-extra':
      return `${t.digits(clue.digits)} in ${t.cell(clue.cell)} ${clue.digits.length === 1 ? 'ist nicht überzählig und hat' : 'sind nicht überzählig und haben'} in ${t.house(clue.house)} zwei Plätze, wie es sein soll.`
    default:
      return clue satisfies never
  }
}
