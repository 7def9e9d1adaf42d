/** Commissions, clients and the letters to them. */
export const commissions: Readonly<Record<string, string>> = {
  'the metal issued for {0} is not noted': 'das an {0} ausgegebene Metall ist nicht notiert',
  'the settings have no price for {0}': 'in den Einstellungen fehlt der Preis für {0}',
  'What of it may be kept is for your terms and the law of the place; what goes back is a payment of the kind send_back':
    'Was davon behalten werden darf, sagen deine Bedingungen und das Recht des Ortes; was zurückgeht, ist eine Rückzahlung',
  'Metal and solder that come back to stock are not in what was spent: weigh them back first':
    'Metall und Lot, die in den Bestand zurückgehen, zählen nicht als ausgegeben: wieg sie zuerst zurück',
  'Without a price in the settings: {0}': 'Ohne Preis in den Einstellungen: {0}',
  'No version was accepted: there is no price to go by':
    'Keine Fassung wurde angenommen: Es gibt keinen Preis, nach dem zu gehen wäre',
  'The quote is in {0}, costs are in {1}': 'Das Angebot ist in {0}, die Kosten sind in {1}',
  'Pick a client, or mark it as own stock.': 'Wähle, für wen es ist, oder nimm es als eigenen Vorrat.',
  'There is no such client.': 'Diese Kundin, diesen Kunden gibt es nicht.',
  'There are {0} pieces in it already.': 'Es sind schon {0} Stück darin.',
  'Only a repair points to an earlier piece.': 'Nur eine Reparatur verweist auf ein früheres Stück.',
  'That piece does not exist. Leave empty for a piece made elsewhere.':
    'Dieses Stück gibt es nicht. Lass das Feld leer, wenn es anderswo gemacht wurde.',
  'The due date is in the past: today is {0}.': 'Der Termin ist vorbei: Heute ist {0}.',
  'The due date is more than {0} days away.': 'Bis zum Termin sind es mehr als {0} Tage.',
  'That is less than {0} days from today, {1}. Can it be done?':
    'Das ist in weniger als {0} Tagen, heute ist {1}. Ist das zu schaffen?',
  'That is more than a year from today, {0}. Is the year right?':
    'Das ist in mehr als einem Jahr, heute ist {0}. Stimmt das Jahr?',
  '{0} was agreed with the client. Have they agreed to another date?':
    '{0} ist mit der Kundschaft vereinbart. Ist sie mit einem anderen Tag einverstanden?',
  'An agreed commission keeps a due date.': 'Ein vereinbarter Auftrag behält einen Termin.',
  'This was agreed and stays {0}.': 'Das ist vereinbart und bleibt: {0}.',
  'say why, in "reason"': 'sag warum, als Grund',
  'set the due date': 'setze den Termin',
  'the due date, {0}, has passed: set another': 'der Termin {0} ist vorbei: setze einen anderen',
  'note what is wished for': 'notiere, was gewünscht ist',
  'pick the client': 'wähle, für wen es ist',
  'send a version of the quote': 'verschicke eine Fassung des Angebots',
  'a version of the quote has to be accepted': 'eine Fassung des Angebots muss angenommen sein',
  'say what it waits for, in "waitingFor"': 'sag, worauf es wartet',
  'send a quote and have it accepted: only own stock, teaching pieces and repairs go without':
    'verschicke ein Angebot und lass es annehmen: ohne geht es nur bei eigenem Vorrat, Übungsstücken und Reparaturen',
  'every version that was sent has to be declined': 'jede verschickte Fassung muss abgelehnt sein',
  'no version was declined': 'keine Fassung wurde abgelehnt',
  '{0} of the deposit is not received yet': 'von der Anzahlung fehlt noch {0}',
  'it has no piece yet': 'er hat noch kein Stück',
  '{0} has no checked plan': '{0} hat keinen geprüften Plan',
  'it has no piece': 'er hat kein Stück',
  '{0} is {1}, not ready': '{0} ist noch nicht fertig (Stand: {1})',
  '{0} has no final weight': '{0} hat kein Endgewicht',
  'the client owes {0}': 'die Kundschaft schuldet noch {0}',
  'we owe the client {0}': 'wir schulden der Kundschaft noch {0}',
  'go past what is missing': 'weitergehen, obwohl etwas fehlt',
  'This goes with the move to resting.': 'Das gehört zum Schritt „ruht“.',
  'This goes with accepting a repair at once, from shaping to agreed.':
    'Das gehört dazu, wenn eine Reparatur gleich angenommen wird, von „im Werden“ zu „vereinbart“.',
  'Say why, to go past what is missing.': 'Sag, warum es weitergeht, obwohl etwas fehlt.',
  'Cannot move {0} to {1}: {2}': 'Bei {0} geht der Schritt zu „{1}“ noch nicht: {2}',
  'Give the commission a short title.': 'Gib dem Auftrag einen kurzen Titel.',
  'Cannot change {0}: it is {1}': '{0} lässt sich nicht mehr ändern (Stand: {1})',
  'The studio reckons in {0}.': 'Die Werkstatt rechnet in {0}.',

  'There is no such commission.': 'Diesen Auftrag gibt es nicht.',
  '{0} has no client to write to.': '{0} hat keine Kundschaft, der zu schreiben wäre.',
  'Give a name we can call the client by.': 'Gib einen Namen an, unter dem wir die Kundschaft kennen.',
  'Write an e-mail address, such as name@example.org.': 'Schreib eine E-Mail-Adresse, etwa name@example.org.',
  'Write the phone number with + and country code, 8 to 15 digits.':
    'Schreib die Telefonnummer mit + und Landesvorwahl, 8 bis 15 Ziffern.',
  'Use a language tag, such as en, es or de.': 'Nimm ein Sprachkürzel, etwa en, es oder de.',
  'Give an e-mail address or a phone number: there must be one way to reach the client.':
    'Gib eine E-Mail-Adresse oder eine Telefonnummer an: Auf einem Weg muss die Kundschaft zu erreichen sein.',
  'This looks like a payment-card number. It was not stored.':
    'Das sieht wie die Nummer einer Zahlungskarte aus. Sie wurde nicht gespeichert.',
  'Keep an e-mail address or a phone number: there must be one way to reach the client.':
    'Lass eine E-Mail-Adresse oder eine Telefonnummer stehen: Auf einem Weg muss die Kundschaft zu erreichen sein.',
};
