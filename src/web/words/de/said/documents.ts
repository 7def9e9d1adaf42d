/** Papers, drawings and labels that cannot be set. */
export const documents: Readonly<Record<string, string>> = {
  'Cannot draw {0}: it has no design yet': '{0} lässt sich nicht zeichnen: Es hat noch keinen Entwurf',
  'Cannot ask for {0} to be collected: it is {1}, not made':
    'Um Abholung von {0} lässt sich noch nicht bitten: Der Auftrag ist noch nicht gemacht (Stand: {1})',
  'Cannot write the care card of {0}: it is {1}, not ready':
    'Die Pflegekarte von {0} geht noch nicht: Das Stück ist noch nicht fertig (Stand: {1})',
  'Cannot write a receipt for {0}: the money is due, and not received yet':
    'Für {0} gibt es noch keine Quittung: Das Geld ist fällig und noch nicht gekommen',
  'Cannot write a bill for {0}: no version of the quote is accepted':
    'Für {0} gibt es noch keine Rechnung: Keine Fassung des Angebots ist angenommen',
  'Cannot write a bill for {0}: it is called off; what it came to is in its cancellation statement':
    'Für {0} gibt es keine Rechnung: Der Auftrag ist abgesagt; was er ausmachte, steht in seiner Abrechnung bei Absage',
  'Cannot remind of {0}: nothing is left to pay': 'Bei {0} gibt es nichts zu erinnern: Es ist nichts mehr zu zahlen',
  'The square would be too fine to read, {0} mm a module: make the label {1} mm high or more, and twice as wide.':
    'Das Quadrat wäre zu fein zum Lesen, {0} mm je Punkt: Mach das Etikett mindestens {1} mm hoch und doppelt so breit.',
  'A label is {0} to {1} mm {2}; this is {3}.': 'Ein Etikett ist {0} bis {1} mm {2}; das sind {3}.',
  wide: 'breit',
  high: 'hoch',
  '{0} in are {1} mm, if that was meant.': '{0} Zoll sind {1} mm, falls das gemeint war.',
  'Write ids with commas between them.': 'Schreib die Kennungen mit Kommas dazwischen.',
  'Cannot set this as PDF: its fonts cannot show {0}. The page (?format=html) shows every letter your machine knows: print or save that':
    'Als PDF geht das nicht: Seine Schriften haben kein {0}. Die Seite zeigt jeden Buchstaben, den dein Gerät kennt: Drucke oder speichere sie',
  'and more': 'und weitere',
  'The labels of a sheet have their own size: leave it out.': 'Die Etiketten eines Bogens haben ihre eigene Größe: Lass sie weg.',
  'That makes {0} labels; ask for {1} at most.': 'Das sind {0} Etiketten; mehr als {1} auf einmal gehen nicht.',
  'The sheet has {0} labels.': 'Der Bogen hat {0} Etiketten.',
  'A single label begins at 1; a sheet has more: layout=sheet.': 'Ein einzelnes Etikett beginnt bei 1; mehr hat ein Bogen.',
};
