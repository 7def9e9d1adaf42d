/** Quotes, what a price lacks, and payments. */
export const quotes: Readonly<Record<string, string>> = {
  'accepted at the counter': 'gleich an der Theke angenommen',
  'there is no piece yet': 'es gibt noch kein Stück',
  'Cannot price this at once: all its pieces together have more than {0} parts, joints or heats; divide it into several commissions':
    'Der Preis lässt sich nicht auf einmal rechnen: Alle Stücke zusammen haben mehr als {0} Teile, Lötstellen oder Hitzen; den Auftrag auf mehrere aufteilen',
  'Cannot price this: {0}': 'Der Preis lässt sich noch nicht rechnen: {0}',
  '{0}, as in p{1}': '{0}, wie in p{1}',
  'fine silver': 'Feinsilber',
  'Cannot send this money back: say why (reason)': 'Zum Zurückzahlen fehlt noch etwas: sag warum',
  'say why (reason)': 'sag warum',
  'There is no field "receivedOn" with this move.': 'Ein Tag des Eingangs gehört nicht zu diesem Schritt.',
  'It was paid in {0}.': 'Bezahlt wurde in {0}.',
  'Say how much of it goes back.': 'Sag, wie viel davon zurückgeht.',
  'All that is left of it goes back: {0}.': 'Zurück geht alles, was davon noch da ist: {0}.',
  'That is all that is left of it, {0}: send it back whole (sent_back).':
    'Das ist alles, was davon noch da ist, {0}: Zahl es ganz zurück.',
  'Only {0} was received, and not sent back yet.': 'Nur {0} sind gekommen und noch nicht zurückgezahlt.',
  'There is no field "amount" with this move.': 'Ein Betrag gehört nicht zu diesem Schritt.',
  '{0} is owed; this is {1}. Over-payment?': 'Offen sind {0}, das sind {1}. Zu viel gezahlt?',
  'send money back': 'Geld zurückzahlen',
  'Cannot take money: no version of the quote is sent or accepted':
    'Hier lässt sich kein Geld annehmen: Keine Fassung des Angebots ist verschickt oder angenommen',
  'That is more than twice the whole price, {0}.': 'Das ist mehr als das Doppelte des ganzen Preises, {0}.',
  '{0} is owed; {1} typed. Over-payment?': 'Offen sind {0}, getippt {1}. Zu viel gezahlt?',
  'Say why it goes back.': 'Sag, warum es zurückgeht.',
  'Only {0} was received.': 'Nur {0} sind gekommen.',
  'The price is in {0}.': 'Der Preis ist in {0}.',
  'Money is due or it was received: send one of dueOn and receivedOn.':
    'Entweder ist Geld fällig, oder es ist gekommen: Gib einen der beiden Tage an.',
  'Money that goes back is not asked for.': 'Geld, das zurückgeht, wird nicht erbeten.',
  'That day is over: today is {0}.': 'Dieser Tag ist vorbei: Heute ist {0}.',
  '{0} has no design': '{0} hat keinen Entwurf',
  '{0} has no plan': '{0} hat keinen Plan',
  'the plan of {0}, version {1}, was not checked': 'der Plan von {0}, Fassung {1}, ist nicht geprüft',
  'the plan of {0}, version {1}, does not make {2}': 'der Plan von {0}, Fassung {1}, lötet nicht: {2}',
  'own metal of {0}': 'eigenes Metall von {0}',
  '{0}, there already': '{0}, schon da',
  'Cannot price this: there is no price for {0}. Type it in the settings, at the product, or in the overrides':
    'Der Preis lässt sich noch nicht rechnen: Es fehlt der Preis für {0}. Trag ihn in den Einstellungen ein, beim Lot, oder hier von Hand',
  'The fine price must be above 0.': 'Der Feinpreis muss über 0 liegen.',
  'That is more than a hundred times the last price, {0}.': 'Das ist mehr als das Hundertfache des letzten Preises, {0}.',
  'The last price was {0}: has it moved by more than a fifth?':
    'Der letzte Preis war {0}: Hat er sich um mehr als ein Fünftel bewegt?',
  'The usual for {0} is {1} min; you wrote {2}.': 'Üblich sind für „{0}“ {1} min; da steht {2}.',
  'version {0} was sent': 'Fassung {0} wurde verschickt',
  'version {0} is accepted: replace that one, which accepts the newest version sent':
    'Fassung {0} ist angenommen: Setze die neuere an ihre Stelle, das nimmt die zuletzt verschickte an',
  'send a newer version first': 'verschicke zuerst eine neuere Fassung',
  'version {0} was accepted': 'Fassung {0} wurde angenommen',
  'note the place of sale, to choose tax and marking rules':
    'notiere, wo es verkauft wird: davon hängen Steuer und Punzierung ab',
  "the fine price is of {0}, more than {1} days old: type today's in the settings and send the sketch new overrides, {} will do":
    'der Feinpreis ist vom {0}, mehr als {1} Tage alt: tippe den heutigen in die Einstellungen und behalte die Skizze neu',
  'it would be valid until {0}, which has passed': 'sie würde bis {0} gelten, und das ist vorbei',
  'it asks for nothing': 'sie verlangt nichts',
  'its lines do not add up again': 'ihre Posten ergeben nicht mehr dieselbe Summe',
  'send the sketch new overrides, {} will do': 'behalte die Skizze neu',
  'its pieces were drawn or planned again since it was priced: {0}':
    'ihre Stücke wurden neu gezeichnet oder geplant, seit der Preis gerechnet ist: {0}',
  'tax is {0} of the price now, and it was priced with {1}: {2}':
    'die Steuer ist jetzt {0} vom Preis, gerechnet wurde mit {1}: {2}',
  'it was valid until {0}; today is {1}': 'sie galt bis {0}; heute ist {1}',
  'it is in {0}, and the studio counts in {1} now: write the next version':
    'sie ist in {0}, und die Werkstatt rechnet jetzt in {1}: schreib die nächste Fassung',
  '{0} is called off': '{0} ist abgesagt',
  'commission {0} is {1}': 'der Auftrag {0} hat den Stand „{1}“',
  '{0} has gone quiet: move it to shaping when the client is back':
    '{0} ist still geworden: hol den Auftrag zurück ins Gestalten, wenn die Kundschaft wieder da ist',
  'the fine price has moved by {0} % since, from {1} to {2}: price the metal again (POST /quotes with "from" and "metalOnly")':
    'der Feinpreis hat sich seitdem um {0} % bewegt, von {1} auf {2}: rechne das Metall neu',
  'Cannot {0} version {1}: {2}': 'Fassung {1} lässt sich nicht {0}: {2}',
  send: 'verschicken',
  accept: 'annehmen',
  replace: 'ersetzen',
  'Say a piece or a commission: one of them.': 'Nenne ein Stück oder einen Auftrag: eines davon.',
  'That version is of another commission.': 'Diese Fassung gehört zu einem anderen Auftrag.',
  'Cannot compare: one is in {0}, the other in {1}': 'Das lässt sich nicht vergleichen: Eine ist in {0}, die andere in {1}',
  'Cannot change version {0}: it is {1}. Copy it to the next version: POST /quotes with "from"':
    'Fassung {0} lässt sich nicht mehr ändern (Stand: {1}). Schreib von ihr aus die nächste',
  'Cannot move version {0} to {1}: say why, in "reason"': 'Bei Fassung {0} fehlt zum Schritt „{1}“ der Grund: sag warum',
  '{0} pieces that are not drawn yet are taken to be like {1}': 'noch nicht gezeichnet, gerechnet wie {1}: {0} Stück',
  'The tax rate is that of the rules for {0}': 'Der Steuersatz kommt aus den Regeln für {0}',
  'Cannot quote for {0}: it is {1}': 'Für {0} wird kein Angebot mehr geschrieben (Stand: {1})',
  'Say which version keeps everything but its metal.': 'Sag, welche Fassung alles behält außer dem Metall.',
  'Cannot price the metal again: type today’s fine price in the settings':
    'Das Metall lässt sich nicht neu rechnen: Tippe den heutigen Feinpreis in die Einstellungen',
  'Cannot price the metal again: that version is in {0}, the fine price in {1}':
    'Das Metall lässt sich nicht neu rechnen: Diese Fassung ist in {0}, der Feinpreis in {1}',
  'It would end before it is sent: today is {0}.': 'Es liefe ab, bevor es verschickt ist: Heute ist {0}.',
  'That is more than {0} days away.': 'Das sind mehr als {0} Tage.',
  'A quote is usually valid for {0} to {1} days from today, {2}.': 'Ein Angebot gilt gewöhnlich {0} bis {1} Tage ab heute, {2}.',
};
