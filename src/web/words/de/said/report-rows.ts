/** What stands in the rows of reports, what dates are told by, and what each report answers. */
export const reportRows: Readonly<Record<string, string>> = {
  'more was done than planned: what is left is not known, and counts as none':
    'es wurde mehr getan als geplant: Was bleibt, ist nicht bekannt und zählt als nichts',
  'no date is promised: it comes last': 'kein Termin ist zugesagt: Es kommt zuletzt',
  'Yes, with {0} to spare': 'Ja, mit {0} Luft',
  'No: there are not so many minutes at the benches in three years':
    'Nein: So viele Minuten gibt es in drei Jahren an den Werkbrettern nicht',
  'No, a day late: finished on {0}': 'Nein, einen Tag zu spät: fertig am {0}',
  'No, {0} days late: finished on {1}': 'Nein, {0} Tage zu spät: fertig am {1}',
  'No: {0} are missing': 'Nein: Es fehlen {0}',
  'it would make {0} a day late': '{0} würde dadurch einen Tag zu spät',
  'it would make {0} {1} days late': '{0} würde dadurch {1} Tage zu spät',
  'it waits for {0} g of {1}': 'es wartet auf {0} g {1}',
  '{0}: order {1} was {2} for {3} and has not come': '{0}: Bestellung {1} war für {3} {2} und ist nicht gekommen',
  expected: 'erwartet',
  '{0}, not on order: there by {1} if it is ordered today': '{0}, nicht bestellt: da am {1}, wenn heute bestellt wird',
  '{0} until {1}, {2} of order {3}': '{0} bis {1}, {2}, Bestellung {3}',
  'as promised': 'wie zugesagt',
  'as expected by the lead time': 'wie nach der Lieferzeit zu erwarten',
  '{0} min': '{0} min',
  'quote {0}': 'Angebot {0}',
  '{0} min and {1} g of metal so far': 'bisher {0} min und {1} g Metall',
  'fine metal expected in the jar of {0}': 'Feinmetall, das im Glas zu erwarten ist: {0}',
  'held for work that is not handed over': 'gehalten für noch nicht übergebene Arbeit',
  'of one bill': 'aus einer Rechnung',
  'of {0} bills': 'aus {0} Rechnungen',
  '{0}, in {1}': '{0}, in {1}',

  'Did we make money on it?': 'Haben wir daran verdient?',
  'Quoted and actual minutes, metal, solder, cost, price and margin of each commission':
    'Minuten, Metall, Lot, Kosten, Preis und Marge jedes Auftrags, wie angeboten und wie geworden',
  'Where do our guesses go wrong?': 'Wo verschätzen wir uns?',
  'Records of each operation, its usual ratio, the factor in use, and under what it stays eight times in ten':
    'Einträge jedes Arbeitsgangs, sein übliches Verhältnis, der Faktor in Gebrauch, und worunter er in acht von zehn Fällen bleibt',
  'What pays per bench hour?': 'Was bringt eine Stunde am Werkbrett?',
  'Jobs, bench hours, net less what was bought in, and what an hour earned, by kind of work':
    'Arbeiten, Stunden am Werkbrett, netto ohne Zugekauftes, und was eine Stunde brachte, nach Art der Arbeit',
  'Which commissions lost money, and why?': 'Welche Aufträge haben Geld gekostet, und warum?',
  'Planned and true margin of each commission, with the largest cause':
    'Geplante und wahre Marge jedes Auftrags, mit der größten Ursache',
  'Do the remelt warnings tell the truth?': 'Stimmen die Warnungen vor dem Wiederaufschmelzen?',
  'Heats and remelts by predicted solid margin and by verdict, with honest shares, and the rise that the record supports':
    'Lötungen und Wiederaufschmelzen nach vorhergesagtem Abstand und nach Urteil, mit ehrlichen Anteilen, und der Anstieg, den das Buch stützt',
  'Can we keep our dates?': 'Können wir unsere Termine halten?',
  'Minutes left of each commission, the running total against what the benches have, load and late days':
    'Noch zu tun je Auftrag, die laufende Summe gegen das, was die Werkbretter haben, Auslastung und verspätete Tage',
  'What is late or about to be?': 'Was ist zu spät oder wird es bald?',
  'Commission, due date, days, what it waits for, and the last word to the client':
    'Auftrag, Termin, Tage, worauf er wartet, und das letzte Wort an die Kundschaft',
  'What do we use of each grade?': 'Was brauchen wir von jeder Lotsorte?',
  'Grams of each product by month, grams a joint, and the share that was soldered again':
    'Gramm jedes Lots nach Monaten, Gramm je Lötstelle, und der Anteil, der noch einmal gelötet wurde',
  'What must we order?': 'Was müssen wir bestellen?',
  'By supplier: on hand, held, on order, order point, quantity, price, and whether the minimum is met':
    'Nach Lieferant: vorhanden, zurückgelegt, bestellt, Bestellpunkt, Menge, Preis, und ob der Mindestbestellwert erreicht ist',
  'What is in the drawer worth?': 'Was ist der Inhalt der Schublade wert?',
  'Grams, cost and value of each product and lot, what is held, and client metal apart':
    'Gramm, Kosten und Wert jedes Lots und jeder Charge, was zurückgelegt ist, und Metall der Kundschaft für sich',
  'What went wrong this season?': 'Was ging in dieser Zeit schief?',
  'Kind, cause, kind of joint, grade, times, minutes, solder; for the owner, who saw it and what it cost':
    'Art, Ursache, Art der Lötstelle, Lotsorte, wie oft, Minuten, Lot; für die Inhaberin auch, wer es sah und was es kostete',
  'Where is the metal?': 'Wo ist das Metall?',
  'Issued, in pieces, put back, in the jar, and what nothing explains, by metal':
    'Ausgegeben, in Stücken, zurückgelegt, im Glas, und was nichts erklärt, nach Metall',
  'Are quotes being taken?': 'Werden unsere Angebote angenommen?',
  'Sent, accepted, declined and lapsed by month, with median days and median discount':
    'Verschickt, angenommen, abgelehnt und abgelaufen nach Monaten, mit Tagen und Nachlass im Median',
  'Who owes us, whom do we owe?': 'Wer schuldet uns etwas, wem schulden wir etwas?',
  'Gross, received, balance and age by commission, and deposits on work that is not begun':
    'Mit Steuer, erhalten, offen und Alter nach Auftrag, und Anzahlungen auf noch nicht begonnene Arbeit',
  'Stock at the lower of cost and value, unfinished pieces, filings, client metal, deposits held, tax by rate and month':
    'Bestand zum niedrigeren von Kosten und Wert, unfertige Stücke, Feilung, Metall der Kundschaft, gehaltene Anzahlungen, Steuer nach Satz und Monat',
  'Is the pickle tired?': 'Ist die Beize müde?',
  'Dips, copper, acid left and blushes of each bath': 'Wie oft gebeizt, Kupfer, übrige Säure und Kupferrot jeder Beize',
  'What has not been collected?': 'Was wurde noch nicht abgeholt?',
  'Piece, ready since when, letters to its client, and where it is kept':
    'Stück, seit wann fertig, Briefe an die Kundschaft, und wo es liegt',
  'How are the students doing?': 'Wie geht es denen, die lernen?',
  'Plans, guesses and how many were right, first-time joints and incidents of each student':
    'Pläne, wie oft und wie oft richtig geraten, auf Anhieb gute Lötstellen und Missgeschicke je Person',
  'Hallmark packets': 'Punzierungssendungen',
  'Packet, out, back, days, pieces, refused; for the owner, the cost per piece':
    'Sendung, hinaus, zurück, Tage, Stücke, zurückgewiesen; für die Inhaberin die Kosten je Stück',
};
