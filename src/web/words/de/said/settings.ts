/** Settings, where their first values come from, and what is typed into a calculation. */
export const settingsSaid: Readonly<Record<string, string>> = {
  'Our studio': 'Unsere Werkstatt',
  'Borax flux': 'Borax-Flussmittel',
  'common practice, no source': 'allgemein üblich, ohne Quelle',
  'torch and support: judgement, to be calibrated by the studio; rise: disputed in the trade, so 0; anti-flow budget: assumed':
    'Brenner und Unterlage: nach Ermessen, von der Werkstatt zu kalibrieren; Anstieg: im Handwerk umstritten, daher 0; Lötstopp: angenommen',
  'an example: put in your own': 'ein Beispiel: Trag dein eigenes ein',
  'an example: yearly overhead divided by the bench hours that reach jobs':
    'ein Beispiel: die Gemeinkosten des Jahres durch die Stunden am Werkbrett, die in Aufträge gehen',
  'an example: last year’s bills divided by bench hours':
    'ein Beispiel: die Rechnungen des letzten Jahres durch die Stunden am Werkbrett',
  'one trade writer’s time studies: jobs run 25 to 50 % over the guess':
    'aus den Zeitstudien eines Fachautors: Arbeiten dauern 25 bis 50 % länger als geschätzt',
  'unknown until somebody has read its data sheet': 'ungewiss, bis jemand sein Datenblatt gelesen hat',
  'oxide thickness and drag-out: assumed; copper limit: 10 g/L to start, one plant held 15; the rest: common practice, no source':
    'Dicke des Oxids und Hinausgetragenes: angenommen; Grenze für Kupfer: 10 g/l zu Beginn, ein Betrieb hielt 15; das Übrige: allgemein üblich, ohne Quelle',
  'power and efficiency: common practice, no source; the heating value is in the recipe':
    'Leistung und Wirkungsgrad: allgemein üblich, ohne Quelle; der Heizwert steht im Rezept',
  'usual is 5 to 10 %: common practice, no source': 'üblich sind 5 bis 10 %: allgemein üblich, ohne Quelle',
  'an example: 40 % margin is 66.7 % markup': 'ein Beispiel: 40 % Marge sind 66,7 % Aufschlag',
  'empty: ask your accountant': 'leer: frag deine Steuerberatung',
  'half of the gross is the common term': 'die Hälfte vom Preis mit Steuer ist üblich',
  'learning: 85 % a doubling is common practice, no source; set-up: an example, put in your own':
    'Lernen: 85 % je Verdopplung ist allgemein üblich, ohne Quelle; Einrichten: ein Beispiel, trag dein eigenes ein',
  'studios write 7 to 14 days because of the metal price': 'Werkstätten schreiben 7 bis 14 Tage, wegen des Metallpreises',
  'IAS 2 allows both; choose one and stay with it': 'IAS 2 erlaubt beides; wähle eines und bleib dabei',
  'empty: type the terms of your refiner': 'leer: trag ein, was deine Scheideanstalt verlangt',
  'order cost and holding share: examples; put in your own':
    'Kosten einer Bestellung und Anteil fürs Lagern: Beispiele; trag deine eigenen ein',
  'one trade writer’s shops: 330 of 480 minutes reach the bench':
    'aus den Werkstätten eines Fachautors: 330 von 480 Minuten kommen am Werkbrett an',
  'There is no metal {0}, so this is the price of one that a design describes by that name. Those that are known are {1}.':
    'Ein Metall {0} gibt es nicht: Das wäre der Preis für eines, das ein Entwurf unter diesem Namen beschreibt. Bekannt sind {1}.',
  'Write the amount as a decimal, such as "1.42".': 'Schreib den Betrag als Dezimalzahl, etwa „1,42“.',
  'Write the amount as a decimal, such as "1200.00".': 'Schreib den Betrag als Dezimalzahl, etwa „1200,00“.',
  'Use an IANA time zone, such as Europe/Berlin.': 'Nimm eine IANA-Zeitzone, etwa Europe/Berlin.',
  'Use a BCP 47 language tag, such as en or de.': 'Nimm ein Sprachkürzel nach BCP 47, etwa en oder de.',
  'Name each weekday once.': 'Nenne jeden Wochentag einmal.',
  'Write the time as hours and minutes, such as "18:00".': 'Schreib die Zeit als Stunden und Minuten, etwa „18:00“.',
  'Write it as http://192.168.1.20:3047, without a slash at its end.':
    'Schreib sie wie http://192.168.1.20:3047, ohne Schrägstrich am Ende.',
  'Cannot change how stock is costed: solder was used already; the method is chosen once, before the first use':
    'Wie der Bestand bewertet wird, steht fest: Es wurde schon Lot verbraucht; gewählt wird einmal, vor dem ersten Verbrauch',
  'Say the size or the inside diameter: one of them.': 'Gib die Größe oder den Innendurchmesser an: eines davon.',
  'An id has 1 to 60 letters, digits, dots, dashes or underscores.':
    'Ein Kurzname hat 1 bis 60 Buchstaben ohne Umlaute, Ziffern, Punkte, Striche oder Unterstriche.',
  'A joint either closes one part on itself ("closes") or lies between two places ("between").':
    'Eine Lötstelle schließt entweder ein Teil in sich, oder sie liegt zwischen zwei Stellen.',
};
