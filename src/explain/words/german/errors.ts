import type { ErrorCode, ErrorPlace, GridreasonError } from '../../../errors.js'

/** What is wrong and what to do, by the error's code, with its place. */
export function germanError({ code, place }: GridreasonError): string {
  const where = placeOf(place)
  return where === '' ? MESSAGES[code] : `${where}: ${MESSAGES[code]}`
}

function placeOf({ file, line, column }: ErrorPlace): string {
  return [
    ...(file === undefined ? [] : [file]),
    ...(line === undefined ? [] : [`Zeile ${line}`]),
    ...(column === undefined ? [] : [`Zeichen ${column}`]),
  ].join(', ')
}

const MESSAGES: Readonly<Record<ErrorCode, string>> = {
  argument: 'Ein Argument des Aufrufs ist nicht, was es sein soll; die englische Meldung nennt es.',
  'text-empty': 'Der Text enthält kein Gitter. Gib ein Gitter als Text an, zum Beispiel 81 Zeichen.',
  'text-shape':
    'Der Text hat nicht die Form eines Gitters. Prüfe die Zahl der Zeilen und der Zeichen je Zeile.',
  'text-symbol': 'Ein Zeichen passt nicht hierher. Erlaubt sind Ziffern und ein Zeichen für leere Zellen.',
  'json-shape': 'Die gespeicherten Daten haben nicht die erwartete Form. Speichere sie mit diesem Paket neu.',
  'geometry-shape': 'Die Form des Gitters ist nicht möglich. Prüfe die Seiten der Blöcke oder die Regionen.',
  'geometry-ambiguous': 'Die Größe lässt mehrere Formen zu. Gib die Form des Gitters mit an.',
  'claim-shape': 'Eine Behauptung nennt keine Zelle oder Ziffer dieses Gitters. Prüfe Zelle und Ziffer.',
  'board-foreign': 'Das Gitter gehört zu einem anderen Rätsel. Gib das Gitter dieses Rätsels an.',
  'budget-spent': 'Der Aufwand war zu groß. Erlaube mehr davon oder verlange weniger.',
  'time-limit': 'Die Zeit war vorher um. Erlaube mehr Zeit oder verlange weniger.',
  aborted: 'Vom Aufrufer abgebrochen, bevor die Arbeit fertig war.',
  'picture-unreadable': 'Das Bild lässt sich nicht lesen. Speichere es neu oder nimm ein anderes.',
  'picture-format': 'Dieses Bildformat wird nicht gelesen. Nimm zum Beispiel JPEG oder PNG.',
  'picture-truncated': 'Das Bild bricht vorzeitig ab. Übertrage es noch einmal ganz.',
  'picture-too-large': 'Das Bild ist zu groß. Verkleinere es oder schneide es zu.',
  'no-grid-found': 'Auf dem Bild wurde kein Gitter gefunden. Nimm das ganze Gitter scharf und von oben auf.',
  'grid-unread': 'Ein Gitter auf dem Bild wird nicht gelesen. Gib seine Regionen mit an, oder tippe es ab.',
  'file-unreadable': 'Die Datei lässt sich nicht lesen. Prüfe Pfad und Zugriffsrechte.',
  'output-full':
    'Der Datenträger ist voll. Schaffe Platz und starte noch einmal: es geht dort weiter, wo es aufhörte.',
  'output-closed':
    'Die Ausgabe wurde geschlossen, bevor alles geschrieben war. Starte noch einmal mit einer offenen.',
  'output-unwritable': 'Die Ausgabe lässt sich nicht schreiben. Prüfe Pfad und Zugriffsrechte.',
  'output-foreign': 'Die Ausgabe gehört zu einem anderen Lauf. Nimm eine andere Datei oder lösche sie.',
  'weights-unreadable':
    'Die Gewichte eines Netzes lassen sich nicht lesen. Prüfe, wo sie liegen, oder lass sie weg: Das Paket hat eigene.',
  'thread-lost':
    'Ein Arbeitsthread wurde vor dem Ende beendet. Versuche es noch einmal, oder nimm weniger Threads und kleinere Bilder.',
  'package-missing':
    'Ein Paket, das hierfür nötig ist, fehlt. Installiere es; die englische Meldung nennt es.',
  'needs-node':
    'Das geht nur in Node, nicht im Browser. Die englische Meldung nennt, was im Browser dafür da ist.',
}
