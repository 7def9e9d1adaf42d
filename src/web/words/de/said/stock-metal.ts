/** Lots of metal, supplies, and what the audits of the ledgers find. */
export const stockMetal: Readonly<Record<string, string>> = {
  'There is no such metal product.': 'Dieses Metallprodukt gibt es nicht.',
  'Say how much: quantityG, or lengthMm in its place.': 'Sag, wie viel: das Gewicht, oder an seiner Stelle die Länge.',
  'Cannot book less than 0.1 mg': 'Weniger als 0,1 mg lässt sich nicht buchen',
  'Metal of a client costs us nothing: leave it out.': 'Metall der Kundschaft kostet uns nichts: Lass es weg.',
  'write metal off': 'Metall ausbuchen',
  'There is no such metal lot.': 'Diese Metallcharge gibt es nicht.',
  'Cannot reverse this movement: it was reversed already': 'Diese Buchung ist schon zurückgenommen',
  'Cannot reverse a reversal: book what is right instead':
    'Eine Rücknahme lässt sich nicht zurücknehmen: Buche stattdessen, was stimmt',
  'Cannot reverse this movement: the lot was counted after it, so it holds what the scale said; reverse the count first, or book what is right':
    'Diese Buchung lässt sich nicht zurücknehmen: Die Charge wurde danach gezählt und enthält, was die Waage sagte. Nimm zuerst das Zählen zurück, oder buche, was stimmt',
  'Cannot take {0} from metal lot {1}: it holds {2}. Weigh it or take another':
    'Aus Metallcharge {1} lassen sich nicht {0} nehmen: Darin sind {2}. Wiege sie, oder nimm eine andere',
  'of ours': 'von unserem',
  'of the client’s': 'von dem der Kundschaft',
  'Cannot put {0} back into lot {1}: of such metal {2} that was issued to the piece, {3} are still out':
    'In Charge {1} lassen sich nicht {0} zurücklegen: Vom Metall, das an das Stück ausgegeben wurde ({2}), sind noch {3} draußen',
  'Cannot reverse this issue: some of it was put back; reverse that first':
    'Diese Ausgabe lässt sich nicht zurücknehmen: Ein Teil wurde zurückgelegt; nimm zuerst das zurück',
  'A {0} is of the lot alone.': '„{0}“ gehört nur zur Charge, zu keinem Stück.',
  'Say which piece.': 'Sag, für welches Stück.',
  '{0} is {1}: no metal goes to it any more.': 'An {0} geht kein Metall mehr (Stand: {1}).',
  'Lot {0} was left for {1}; {2} is not of it.': 'Charge {0} wurde für {1} dagelassen; {2} gehört nicht dazu.',
  '{0} is of {1}, lot {2} is {3}.': '{0} ist aus {1}, Charge {2} ist {3}.',
  'Say why.': 'Sag warum.',
  'Name it as in the list of the supplier.': 'Nenne es wie in der Liste des Lieferanten.',
  'Choose the metal.': 'Wähle das Metall.',
  'Send lengthMm or massG, one of them.': 'Gib die Länge oder das Gewicht an: eines davon.',
  'There is no such metal; GET /metals has those there are.': 'Dieses Metall gibt es nicht: Wähle eines aus der Liste.',
  'Cannot measure {0}: grain has no length; weigh it': '{0} lässt sich nicht messen: Granalien haben keine Länge; wiege sie',
  'Cannot measure {0}: say how wide the piece of sheet is (widthMm)':
    '{0} lässt sich so nicht messen: Sag, wie breit das Stück Blech ist',
  '{0} {1} per {2} is {3} a gram; the fine metal in it is worth {4}. Is the unit right?':
    '{0} {1} je {2} sind {3} je Gramm; das Feinmetall darin ist {4} wert. Stimmt die Einheit?',
  'The bore is as wide as the tube, {0} mm.': 'Die Bohrung ist so weit wie das Rohr, {0} mm.',
  'There is a metal product {0} already': 'Ein Metallprodukt {0} gibt es schon',
  'Lot {0} would hold {1}, and {2} came in. Is the unit right?':
    'In Charge {0} wären {1}, und gekommen sind {2}. Stimmt die Einheit?',

  'Paid {0}, issues cost {1}: what is left is not worth {2}':
    'Bezahlt {0}, Ausgaben kosteten {1}: Was bleibt, ist nicht {2} wert',
  '{0} are there and {1} are valued': '{0} sind da, bewertet sind {1}',
  'Its layers are not worth {0}': 'Seine Schichten sind nicht {0} wert',
  'Lot {0} was at {1} after movement {2}': 'Charge {0} stand nach Buchung {2} bei {1}',
  'Less than nothing was held for the piece after movement {0}':
    'Nach Buchung {0} war für das Stück weniger als nichts vorgemerkt',
  'Movement {0} changes what is on hand and names no lot': 'Buchung {0} ändert den Bestand und nennt keine Charge',
  'Movement {0} names a product that its lot is not of': 'Buchung {0} nennt ein anderes Lot als das ihrer Charge',
  'Movement {0} is not the opposite of the one it reverses': 'Buchung {0} ist nicht das Gegenteil der, die sie zurücknimmt',
  'Lot {0} shows {1}; its movements add up to {2}': 'Charge {0} zeigt {1}; ihre Buchungen ergeben {2}',
  'Lot {0} came in with {1}; its receipts add up to {2}': 'Charge {0} kam mit {1}; ihre Eingänge ergeben {2}',
  'Lot {0} is {1} and still holds {2}': 'Charge {0} hat den Stand „{1}“ und enthält noch {2}',
  'Product {0} shows {1} held; its movements add up to {2}': 'Lot {0} zeigt {1} vorgemerkt; die Buchungen ergeben {2}',
  'Metal lot {0} was at {1} after movement {2}': 'Metallcharge {0} stand nach Buchung {2} bei {1}',
  'Metal lot {0} shows {1}; its movements add up to {2}': 'Metallcharge {0} zeigt {1}; ihre Buchungen ergeben {2}',
  'Metal lot {0} came in with {1}; its receipts add up to {2}': 'Metallcharge {0} kam mit {1}; ihre Eingänge ergeben {2}',
  'Less than nothing was held of a metal after {0}': 'Nach {0} war von einem Metall weniger als nichts vorgemerkt',
  'Holds of {0} add up to {1}, and show otherwise': 'Vorgemerkt sind von {0} zusammen {1}, gezeigt wird etwas anderes',

  'Write the amount as a decimal, such as "0.018".': 'Schreib den Betrag als Dezimalzahl, etwa „0,018“.',
  '{0} goes by the gram.': '{0} wird in Gramm geführt.',
  pieces: 'Stück',
  'Pieces are whole.': 'Stücke sind ganz.',
  'The least the book keeps is 0.0001 g.': 'Weniger als 0,0001 g führt das Buch nicht.',
  'There is a supply {0} already': 'Ein Verbrauchsgut {0} gibt es schon',
  '{0} was at {1} after movement {2}': '{0} stand nach Buchung {2} bei {1}',
  '{0} shows an average cost of {1}; its movements come to {2}':
    '{0} zeigt Kosten im Durchschnitt von {1}; die Buchungen ergeben {2}',
  '{0} shows {1}; its movements add up to {2}': '{0} zeigt {1}; die Buchungen ergeben {2}',
  'There is no such supply.': 'Dieses Verbrauchsgut gibt es nicht.',
  'Cannot reverse this use: some of it was put back; reverse that first':
    'Dieser Verbrauch lässt sich nicht zurücknehmen: Ein Teil wurde zurückgelegt; nimm zuerst das zurück',
  'Cannot take {0} of {1}: {2} on hand. Count it, or take less':
    'Von {1} lassen sich nicht {0} nehmen: Da sind {2}. Zähl nach, oder nimm weniger',
  'Cannot put {0} of {1} back: of what was used, {2} are still out':
    'Von {1} lassen sich nicht {0} zurücklegen: Vom Verbrauchten sind nur noch {2} draußen',
  'Say what it cost: the supply has no price.': 'Sag, was es kostete: Das Verbrauchsgut hat keinen Preis.',
  'Only what comes in has a cost.': 'Nur was hereinkommt, hat Kosten.',
  'write a supply off': 'ein Verbrauchsgut ausbuchen',
  'Cannot book a {0}: that is for the {1}': '„{0}“ bucht nur: {1}',
};
