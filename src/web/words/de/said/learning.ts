/** What the record teaches: times, the rise, order points. */
export const learning: Readonly<Record<string, string>> = {
  'one time out of {0} {1} took longer than planned, {2}': '{1}: einmal von {0} länger als geplant, {2}',
  '{0} times out of {1} {2} took longer than planned, {3}':
    '{2}: {0, select, no {keinmal} two {zweimal} three {dreimal} four {viermal} five {fünfmal} six {sechsmal} seven {siebenmal} eight {achtmal} nine {neunmal} ten {zehnmal} eleven {elfmal} twelve {zwölfmal} other {{0}-mal}} von {1} länger als geplant, {3}',
  two: 'zwei',
  three: 'drei',
  four: 'vier',
  five: 'fünf',
  six: 'sechs',
  seven: 'sieben',
  eight: 'acht',
  nine: 'neun',
  ten: 'zehn',
  eleven: 'elf',
  twelve: 'zwölf',
  'usually about as long': 'meist etwa so lange',
  'usually by {0}': 'meist um {0}',
  'usually by {0} less': 'meist um {0} kürzer',
  'a tenth': 'ein Zehntel',
  'a fifth': 'ein Fünftel',
  'a quarter': 'ein Viertel',
  'a third': 'ein Drittel',
  'a half': 'die Hälfte',
  'three quarters': 'drei Viertel',
  'nearly all': 'fast alles',
  'as much again': 'noch einmal so viel',
  '{0} times as much again': 'noch {0}-mal so viel',

  'none of {0} ran': 'keine von {0} gelaufen',
  '{0} of {1} ran': '{0} von {1} gelaufen',
  'of joints predicted to run by {0} to {1} K {2}: the record speaks against the {3} K in use':
    'von Lötstellen, die laut Vorhersage um {0} bis {1} K laufen, sind {2}: das spricht gegen die {3} K, mit denen gerechnet wird',
  'of joints predicted to run by up to {0} K {1}: the record supports a rise of {2} K':
    'von Lötstellen, die laut Vorhersage um bis zu {0} K laufen, sind {1}: das stützt eine Erhöhung um {2} K',
  'the record bears out the {0} K in use': 'die Aufzeichnungen bestätigen die {0} K, mit denen gerechnet wird',
  'of joints predicted to run by {0} to {1} K {2}': 'von Lötstellen, die laut Vorhersage um {0} bis {1} K laufen, sind {2}',
  'no joint that was predicted to run has been heated': 'noch keine Lötstelle, die laut Vorhersage läuft, lag im Feuer',
  '{0}: that supports no rise of {1} K, nor speaks against it':
    '{0}: das stützt keine Erhöhung um {1} K und spricht nicht dagegen',
  '{0}: that supports no rise, nor speaks against it': '{0}: das stützt keine Erhöhung und spricht nicht dagegen',

  'On hand {0} + on order {1} − held {2} = {3} g': 'Vorhanden {0} + bestellt {1} − zurückgelegt {2} = {3} g',
  '{0}, at or under the point of {1} g: order now.': '{0}, auf oder unter dem Bestellpunkt von {1} g: jetzt bestellen.',
  '{0}, over the point of {1} g: do not order now.': '{0}, über dem Bestellpunkt von {1} g: jetzt nicht bestellen.',
  '1 week of use is too few to judge by': '1 Woche Verbrauch ist zu wenig, um danach zu gehen',
  '{0} weeks of use are too few to judge by': '{0} Wochen Verbrauch sind zu wenig, um danach zu gehen',
  '{0}: the point is the biggest planned piece, {1} g, and a pack of {2} g, {3} g.':
    '{0}: der Bestellpunkt ist das größte geplante Stück, {1} g, und eine Packung von {2} g, also {3} g.',
  '{0} weeks hold {1} windows of {2} weeks; number {3} by size, the 95 % point, used {4} g.':
    'In {0} Wochen liegen {1} Zeitspannen von {2} Wochen; die {3}. der Größe nach, der 95-%-Punkt, brauchte {4} g.',
  'The biggest piece took {0} g': 'Das größte Stück brauchte {0} g',
  '{0}: the window decides, the point is {1} g.': '{0}: die Zeitspanne entscheidet, der Bestellpunkt ist {1} g.',
  '{0}: the piece decides, the point is {1} g.': '{0}: das Stück entscheidet, der Bestellpunkt ist {1} g.',
  'Nothing was used yet.': 'Noch wurde nichts verbraucht.',
  'A use is {0} g, {1} weeks after the one before: {2} g a week.':
    'Ein Verbrauch sind {0} g, {1} Wochen nach dem davor: {2} g in der Woche.',
  'The cheapest order has no end': 'Die günstigste Bestellung hat kein Ende',
  'The cheapest order is {0} g': 'Die günstigste Bestellung sind {0} g',
  '{0}, {1} weeks of use are {2} g: {3} g in packs of {4} g.':
    '{0}, {1} Wochen Verbrauch sind {2} g: {3} g in Packungen von {4} g.',
};
