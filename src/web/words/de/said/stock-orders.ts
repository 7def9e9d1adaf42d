/** Orders to suppliers, the reorder list and stocktakes. */
export const stockOrders: Readonly<Record<string, string>> = {
  'Cannot book a delivery of order {0}: it is {1}': 'Zu Bestellung {0} lässt sich keine Lieferung buchen (Stand: {1})',
  'It cannot have come on {0}: it was ordered on {1}.': 'Am {0} kann es nicht gekommen sein: Bestellt wurde am {1}.',
  'This order has no such line.': 'Diese Bestellung hat diesen Posten nicht.',
  '{0} of {1} were ordered and {2} came before: this is {3} over. Is it right?':
    'Bestellt waren {0} {1}, davon kamen schon {2}: Das sind {3} zu viel. Stimmt das?',
  'This is noted of solder alone; leave it out.': 'Das wird nur bei Lot notiert: Lass es weg.',
  'Name productId or metalProductId, one of them.': 'Nenne ein Lot oder ein Metallprodukt: eines davon.',
  'There is no such product.': 'Dieses Produkt gibt es nicht.',
  '{0} comes in packs of {1} g.': '{0} gibt es in Päckchen zu {1} g.',
  '{0} g is {1} years of use. Did you mean {2}?': '{0} g reichen {1} Jahre. Waren {2} gemeint?',
  'Cannot move order {0} to {1}: {2}': 'Bei Bestellung {0} geht der Schritt zu „{1}“ noch nicht: {2}',
  'it comes to {0}, under the minimum of {1}, {2}: add to it, or the owner sends it with a reason':
    'sie kommt auf {0}, der Mindestbestellwert von {1} ist {2}: nimm etwas dazu, oder die Inhaberin, der Inhaber schickt sie mit einem Grund ab',
  'say which day was promised (promisedOn)': 'sag, welcher Tag zugesagt ist',
  '{0} g of {1} are still to come: book them, or close it short (closeShort)':
    '{0} g {1} kommen noch: buche sie, oder sag, dass sie nicht mehr erwartet werden',
  'say what the invoice asks for the goods (invoice)': 'sag, was die Rechnung für die Ware verlangt',
  'the invoice asks {0}, what came is {1}: explain the difference of {2} (reason)':
    'die Rechnung verlangt {0}, gekommen ist Ware für {1}: erkläre den Unterschied von {2}',
  'say why the rest is not wanted (reason)': 'sag, warum der Rest nicht mehr gebraucht wird',
  'Promised for {0}, before it was ordered on {1}.': 'Zugesagt für {0}, aber erst am {1} bestellt.',
  '{0} is more than a year after the order.': '{0} ist mehr als ein Jahr nach der Bestellung.',
  '{0} is more than {1} days after the order.': '{0} ist mehr als {1} Tage nach der Bestellung.',
  'nothing of it has come: book what came first (POST deliveries)': 'es ist noch nichts gekommen: buche zuerst die Lieferung',
  'This is taken only with the move to {0}.': 'Das gehört nur zum Schritt „{0}“.',
  'An order needs a line.': 'Eine Bestellung braucht einen Posten.',
  'Say what came.': 'Sag, was kam.',
  'There is no such supplier.': 'Diesen Lieferanten gibt es nicht.',
  'its lines': 'die Posten',
  'it was sent': 'sie ist abgeschickt',
  'its promise': 'der zugesagte Tag',
  'a first promise is a move to promised': 'eine erste Zusage ist der Schritt „zugesagt“',
  'Cannot change {0} in order {1}: {2}': 'In Bestellung {1} lässt sich das nicht ändern ({0}): {2}',
  'Say who it is.': 'Sag, wer es ist.',
  'There is a supplier {0} already': 'Einen Lieferanten {0} gibt es schon',
  'The book is kept in {0}.': 'Das Buch wird in {0} geführt.',

  'Nothing is at its point.': 'Nichts ist am Bestellpunkt.',
  '{0} ({1} of its point)': '{0} (beim {1}fachen seines Bestellpunkts)',
  '{0} with {1} brought along': '{0}, dabei kommt mit: {1}',
  'It comes to {0}.': 'Zusammen {0}.',
  'It comes to {0}, over the minimum of {1}.': 'Zusammen {0}, über dem Mindestbestellwert von {1}.',
  'It comes to {0}, under the minimum of {1}: wait, or ask them; no product is padded beyond its own quantity.':
    'Zusammen {0}, unter dem Mindestbestellwert von {1}: Warte, oder frag nach; nichts wird über seine eigene Menge hinaus aufgefüllt.',

  'count lot {0} ({1}), or say why not': 'zähle Charge {0} ({1}), oder sag, warum nicht',
  'count lot {0} again: more was taken since than was counted, and {1} would be left':
    'zähle Charge {0} noch einmal: Seitdem wurde mehr genommen als gezählt, und es blieben {1}',
  'say how the {0} g {1} lot {2} came about: over the {3} g that may be':
    'sag, wie es zu den {0} g kam, {1} Charge {2}: mehr als die {3} g, die es sein dürfen',
  'missing from': 'zu wenig in',
  'too many in': 'zu viel in',
  'Cannot move stocktake {0} to {1}: {2}': 'Bei Inventur {0} geht der Schritt zu „{1}“ noch nicht: {2}',
  'stocktake {0}': 'Inventur {0}',
  'Say what was counted.': 'Sag, was gezählt wurde.',
  'Cannot begin a stocktake: {0} is under way; post or drop it first':
    'Eine Inventur läuft schon, {0}: Buche oder verwirf sie zuerst',
  'Cannot count in stocktake {0}: it is {1}': 'In Inventur {0} wird nicht mehr gezählt (Stand: {1})',
  'This stocktake has no such lot.': 'Diese Inventur hat diese Charge nicht.',
  'Say what it weighs, or why it is not counted.': 'Sag, was sie wiegt, oder warum sie nicht gezählt wird.',
  'It is compared: move it back to counting to count again.':
    'Sie ist verglichen: Stell sie zurück auf „wird gezählt“, um noch einmal zu zählen.',
  'The tare is more than the {0} g weighed.': 'Die Tara ist mehr als die gewogenen {0} g.',
  '{0} g of lot {1}, of which {2} g came in: is the unit right?': '{0} g in Charge {1}, von der {2} g kamen: Stimmt die Einheit?',
};
