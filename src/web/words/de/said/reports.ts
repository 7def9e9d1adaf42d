/** How the figures of reports come about. */
export const reports: Readonly<Record<string, string>> = {
  'Left: what the work stays under eight times in ten, by what was learned of each operation, less what is done':
    'Noch zu tun: worunter die Arbeit in acht von zehn Fällen bleibt, nach dem, was zu jedem Arbeitsgang gelernt ist, weniger das Getane',
  'What waits for solder or metal that is short is finished no sooner than that comes; the rest is worked meanwhile':
    'Was auf fehlendes Lot oder Metall wartet, wird nicht fertig, bevor es kommt; am Rest wird inzwischen gearbeitet',
  'Done: spans that ended, without those in doubt and those on scrapped pieces':
    'Getan: Zeiten, die zu Ende sind, ohne zweifelhafte und ohne die an verschrotteten Stücken',
  'What is promised is worked first where it is due on the same day or before':
    'Zugesagtes geht vor, wo es am selben Tag oder früher fällig ist',
  'Solder and metal of this work are not known: name its commission to have them looked at':
    'Lot und Metall dieser Arbeit sind nicht bekannt: Nenne den Auftrag, dann wird nachgesehen',
  'What is short is waited for: until the day promised, else the lead time; the rest of the work goes on meanwhile':
    'Auf Fehlendes wird gewartet: bis zum zugesagten Tag, sonst die Lieferzeit; der Rest der Arbeit geht inzwischen weiter',
  'Work that is over, with an accepted price and every cost known; its day is that on which the price was accepted':
    'Abgeschlossene Arbeit mit angenommenem Preis, deren Kosten alle bekannt sind; ihr Tag ist der, an dem der Preis angenommen wurde',
  'Earned per hour: net of tax, less metal, solder, hallmarks and what passed through, over the hours at the bench':
    'Verdient je Stunde: ohne Steuer, weniger Metall, Lot, Punzierung und Weitergegebenes, durch die Stunden am Werkbrett',
  'Packets by the day they were sent; one that is being packed has none, and is there when no period is asked for':
    'Sendungen nach dem Tag, an dem sie verschickt wurden; eine, die noch gepackt wird, hat keinen und steht nur ohne Zeitraum hier',
  'Cost per piece: (fee + post)/articles + per article + part marks, the mean of the pieces of this book, rounded half-up':
    'Kosten je Stück: (Gebühr + Porto)/Stückzahl + je Stück + Teilpunzen, das Mittel der Stücke dieses Buchs, kaufmännisch gerundet',
  'Not known, and left out: {0}': 'Nicht bekannt und weggelassen: {0}',
  'Promised and not yet made, by the due date; late: the day has passed; about to be: less than a day of all benches is to spare, all that is due before it worked first, or it ends after its day for want of solder or metal':
    'Zugesagt und noch nicht gemacht, nach dem Termin; zu spät: der Tag ist vorbei; bald: weniger als ein Tag aller Werkbretter ist übrig, wenn zuerst alles früher Fällige drankommt, oder es endet nach seinem Tag, weil Lot oder Metall fehlt',
  'Last word: the last quote that was sent, or what was noted of letters and talks':
    'Letztes Wort: das zuletzt verschickte Angebot, oder was von Briefen und Gesprächen notiert ist',
  'Work that is over, with an accepted price and every cost known':
    'Abgeschlossene Arbeit mit angenommenem Preis, deren Kosten alle bekannt sind',
  'Minutes: planned labour, overhead and consumables less what they came to; rework: of that, the minutes that incidents took, at the same cost a minute, and the solder they used':
    'Minuten: geplante Arbeit, Gemeinkosten und Verbrauch, weniger was daraus wurde; Nacharbeit: davon die Minuten, die Missgeschicke brauchten, zu denselben Kosten je Minute, und das Lot dafür',
  'Not needed: the contingency, and flux, pickle and gas, whose use is not kept by commission':
    'Nicht gebraucht: die Reserve, dazu Flussmittel, Beize und Gas, deren Verbrauch nicht je Auftrag geführt wird',
  'Pieces laid out in the period, by the metal they are mainly of; issued as the piece has it, or as the ledger of metal does':
    'Stücke, die im Zeitraum angelegt wurden, nach ihrem hauptsächlichen Metall; ausgegeben, wie es beim Stück steht oder im Metallbuch',
  'In pieces: as weighed, solder and all; a built piece that was not weighed as its design computes it; of a repair what was issued for it':
    'In Stücken: wie gewogen, mit Lot und allem; ein gebautes Stück, das nicht gewogen ist, wie sein Entwurf es rechnet; von einer Reparatur das dafür Ausgegebene',
  'Jars: the share of filings in the settings of what was built, and the metal weighed in of what was scrapped':
    'Gläser: der Anteil an Feilung nach den Einstellungen von dem, was gebaut wurde, und das hineingewogene Metall des Verschrotteten',
  'Unexplained: issued less all of that; polishing sweep and what nobody noted':
    'Ungeklärt: das Ausgegebene weniger all das; Polierstaub, und was niemand notiert hat',
  'Incidents by the day they were seen': 'Missgeschicke nach dem Tag, an dem sie gesehen wurden',
  'Money: the minutes lost at what a minute of that commission came to (time, overhead, consumables), or at the rates in the settings where no time was noted on it, and the solder at what the ledger says it cost':
    'Geld: die verlorenen Minuten zu dem, was eine Minute dieses Auftrags kostete (Zeit, Gemeinkosten, Verbrauch), oder zu den Sätzen der Einstellungen, wo keine Zeit notiert ist; das Lot zu dem, was es laut Buch kostete',
  'Those minutes were worked and that solder was booked: they are in the actual cost already, and shown here apart':
    'Diese Minuten wurden gearbeitet, dieses Lot wurde gebucht: Sie stecken schon in den wirklichen Kosten und stehen hier für sich',
  'Balance: gross of the accepted version less everything received; once called off nothing more is due, and what was received is the open question':
    'Offen: der Preis mit Steuer der angenommenen Fassung, weniger alles Erhaltene; ist abgesagt, so ist nichts mehr fällig, und offen ist, was mit dem Erhaltenen wird',
  'Its day is that on which the price was accepted, or else that of the first payment; the age counts from there':
    'Der Tag ist der, an dem der Preis angenommen wurde, sonst der der ersten Zahlung; von da an zählt das Alter',
  'Totals are in {0} alone: {1} rows are in another currency':
    'Summen sind nur in {0}: {1, plural, one {# Zeile ist} other {# Zeilen sind}} in einer anderen Währung',
  'Pieces that are ready, of commissions of a client that are made; by the day they became ready':
    'Fertige Stücke aus gemachten Aufträgen der Kundschaft; nach dem Tag, an dem sie fertig wurden',
  'Letters: what was noted as written or said to the client since that day':
    'Briefe: was seit diesem Tag als geschrieben oder gesagt notiert ist',
  'Baths mixed in the period; copper and acid counted from the heats that were dipped in each':
    'Beizen, die im Zeitraum angesetzt wurden; Kupfer und Säure gezählt aus den Lötungen, die hineinkamen',
  'Oxide thickness and drag-out are assumed, and are in the settings; tiring at 80 % of a limit, spent at the limit':
    'Dicke des Oxids und Hinausgetragenes sind angenommen und stehen in den Einstellungen; sie lässt nach bei 80 % einer Grenze, verbraucht ist sie an der Grenze',
  'quote {0} is {1}, not accepted': 'Angebot {0} ist nicht angenommen (Stand: {1})',
  'no quote: minutes from design and plan at the usual times × {0}':
    'kein Angebot: Minuten aus Entwurf und Plan, zu den üblichen Zeiten × {0}',
  'no quote, and no design with a plan: the minutes are not known':
    'kein Angebot, und kein Entwurf mit Plan: Die Minuten sind nicht bekannt',
  '{0} has no plan: its minutes are not in': '{0} hat keinen Plan: Seine Minuten fehlen hier',
  '{0} of {1} pieces are noted': '{0} von {1} Stück sind angelegt',
  'The day of a commission is that on which its quote was accepted; without one, that on which it was noted':
    'Der Tag eines Auftrags ist der, an dem sein Angebot angenommen wurde; ohne Angebot der, an dem er notiert wurde',
  'Quoted cost: net less profit; quoted metal: as issued; quoted solder: as placed':
    'Kosten wie angeboten: netto weniger Gewinn; Metall wie angeboten: wie ausgegeben; Lot wie angeboten: wie aufgelegt',
  'Actual cost: time at each person’s rate of the day, overhead and consumables by the hour, solder and metal out of lots at what the ledger says they cost (oldest first or at the average, as the studio has chosen; a client’s own metal at nothing), metal that came out of no lot at the prices in the settings, both less what was returned, a share of each hallmark packet, and what passes through as quoted':
    'Wirkliche Kosten: Zeit zum damaligen Satz jeder Person, Gemeinkosten und Verbrauch je Stunde, Lot und Metall aus Chargen zu dem, was sie laut Buch kosteten (älteste zuerst oder im Durchschnitt, wie die Werkstatt gewählt hat; Metall der Kundschaft zu nichts), Metall aus keiner Charge zu den Preisen der Einstellungen, beides weniger das Zurückgegebene, ein Anteil an jeder Punzierungssendung, und Weitergegebenes wie angeboten',
  'Incidents: the minutes they took were worked and the solder was booked, so both are in it (lost-money shows them apart)':
    'Missgeschicke: Ihre Minuten wurden gearbeitet, ihr Lot gebucht, also steckt beides darin (für sich steht es unter dem verlorenen Geld)',
  'Flux, pickle and gas are in the quoted cost alone; margin is (net − cost) / net':
    'Flussmittel, Beize und Gas stecken nur in den angebotenen Kosten; Marge ist (netto − Kosten) / netto',
  'called off: this is what it took': 'abgesagt: so viel hat es gekostet',
  'the work is not over: this is what it took so far': 'die Arbeit ist nicht zu Ende: so viel hat sie bisher gekostet',
  'the quote is in {0}, costs are in {1}': 'das Angebot ist in {0}, die Kosten sind in {1}',
  'Every version that was sent counts once, in the month it was sent; one that was accepted and replaced later was accepted':
    'Jede verschickte Fassung zählt einmal, im Monat, in dem sie verschickt wurde; eine, die angenommen und später ersetzt wurde, gilt als angenommen',
  'Accepted share: of those that were accepted, declined or lapsed; median days: from sent to the yes or no':
    'Anteil angenommen: von den angenommenen, abgelehnten und abgelaufenen; Tage im Median: vom Verschicken bis zum Ja oder Nein',
  'One case: a joint that was made, in the fire of a later heat that has ended; its margin and verdict are those of the plan in use':
    'Ein Fall: eine gelötete Stelle im Feuer einer späteren Lötung, die zu Ende ist; Abstand und Urteil sind die des Plans in Gebrauch',
  'Remelted: it moved, or an incident says that it reflowed; in the last heat before that in which it lay':
    'Wieder gelaufen: Sie ist verrutscht, oder ein Missgeschick sagt, dass sie lief; in der letzten Lötung davor, in der sie lag',
  'A heat that did not flow never got so hot: it counts only where a joint ran all the same':
    'Eine Lötung, die nicht floss, wurde nie so heiß: Sie zählt nur, wo trotzdem eine Lötstelle lief',
  'Plain share: x/n; shown share: (x + ½)/(n + 1); the true share lies between least and most 95 times in 100 (Clopper and Pearson), as if each case were on its own; where none ran, under 3/n':
    'Einfacher Anteil: x/n; gezeigter Anteil: (x + ½)/(n + 1); der wahre Anteil liegt in 95 von 100 Fällen zwischen dem kleinsten und dem größten (Clopper und Pearson), als stünde jeder Fall für sich; wo keine lief, unter 3/n',
  'Rise: joints predicted to run, without anti-flow, in steps of 5 K; a step is supported once at most one in ten can have run. A rise, and a prediction that is too hot, look the same here':
    'Anstieg: Lötstellen, die laut Vorhersage laufen, ohne Lötstopp, in Stufen von 5 K; eine Stufe ist gestützt, sobald höchstens eine von zehn gelaufen sein kann. Ein Anstieg und eine zu heiße Vorhersage sehen hier gleich aus',
  '{0} of {1}: {2}, between {3} and {4}': '{0} von {1}: {2}, zwischen {3} und {4}',
  'none of {0}: under {1}': 'keine von {0}: unter {1}',
  'none of {0}: too few to tell': 'keine von {0}: zu wenige, um etwas zu sagen',
  'under {0} K': 'unter {0} K',
  '{0} K and over': '{0} K und darüber',
  'from {0} to under {1} K': 'von {0} bis unter {1} K',
  'Cannot show costs, margins and times of work: they are for the owner':
    'Kosten, Margen und Arbeitszeiten sieht nur, wem die Werkstatt gehört',
  'Cannot show what clients owe and answer, or what stock costs: that is for the desk':
    'Was die Kundschaft schuldet und antwortet, und was der Bestand kostet, sieht nur das Büro',
  'Cannot show how students are doing: that is for tutors and the owner':
    'Wie es den Lernenden geht, sehen nur Lehrkräfte und wem die Werkstatt gehört',
  'Grams: used and scrapped less put back, without what was reversed; what a count found missing is not in them':
    'Gramm: verbraucht und zu den Resten, weniger zurückgelegt, ohne Zurückgenommenes; was beim Zählen fehlte, ist nicht darin',
  'Grams a joint: what heats took, spoilt ones included, for each joint that came out sound':
    'Gramm je Lötstelle: was Lötungen brauchten, misslungene eingeschlossen, für jede Lötstelle, die gut wurde',
  'Redone: solderings of a joint that had been soldered before, as a share of all':
    'Noch einmal gelötet: Lötungen einer Stelle, die schon gelötet war, als Anteil an allen',
  'As of now, whatever period is asked for': 'Stand jetzt, gleich für welchen Zeitraum',
  'Value: grams at the running average of what was paid': 'Wert: Gramm zum laufenden Durchschnitt des Bezahlten',
  'Value: oldest used first, so what is there is of the newest deliveries, whichever lot it lies in':
    'Wert: Ältestes zuerst verbraucht, also ist Vorhandenes aus den neuesten Lieferungen, gleich in welcher Charge es liegt',
  'Flux, pickle salt, gas, findings and stones stand apart, with a total of their own, at the running average in either way':
    'Flussmittel, Beizsalz, Gas, Furnituren und Steine stehen für sich, mit eigener Summe, so oder so zum laufenden Durchschnitt',
  'Values are added up to six places and rounded once; a lot at its own cost may differ from the method':
    'Werte werden auf sechs Stellen addiert und einmal gerundet; eine Charge zu ihren eigenen Kosten kann von der Methode abweichen',
  'client metal': 'Metall der Kundschaft',
  'Who only learns here, and did something in the period': 'Wer hier nur lernt und im Zeitraum etwas getan hat',
  'Right: a joint whose state (solid, softens, runs) was guessed as it was predicted then; the true share lies between least and most 95 times in 100 (Clopper and Pearson), and from 0 to 3/n where none was right':
    'Richtig: eine Lötstelle, deren Stand (fest, wird weich, läuft) so geraten wurde, wie ihn die Vorhersage damals sah; der wahre Anteil liegt in 95 von 100 Fällen zwischen dem kleinsten und dem größten (Clopper und Pearson), und von 0 bis 3/n, wo keine richtig war',
  'First-time joints: of those soldered for the first time in heats they lit, those sound at once':
    'Auf Anhieb: von den Lötstellen, die in ihren Lötungen zum ersten Mal gelötet wurden, die gleich guten',
  'Incidents: of heats they lit, and those they saw outside of a heat':
    'Missgeschicke: die ihrer Lötungen, und die sie außerhalb einer Lötung sahen',
  'One record: what an operation of a commission whose pieces are finished took, by agreed times less what incidents took, against the minutes guessed before any factor; its day is that on which it was done last':
    'Ein Eintrag: was ein Arbeitsgang eines Auftrags mit fertigen Stücken brauchte, nach bestätigten Zeiten ohne Missgeschicke, gegen die geschätzten Minuten vor jedem Faktor; sein Tag ist der, an dem er zuletzt getan wurde',
  'Usual ratio: the median of the records, each held within 0.25 to 4':
    'Übliches Verhältnis: der Median der Einträge, jeder zwischen 0,25 und 4 gehalten',
  'Of all records in the period': 'Aus allen Einträgen im Zeitraum',
  'Records over 24 months old are left out once eight newer ones exist':
    'Einträge, die über 24 Monate alt sind, fallen weg, sobald es acht neuere gibt',
  'Factor in use: as it was accepted last, or what a new studio starts with; eight in ten: times a guessed minute, the operation stays under it':
    'Faktor in Gebrauch: wie zuletzt angenommen, oder womit eine neue Werkstatt beginnt; acht von zehn: mal einer geschätzten Minute, darunter bleibt der Arbeitsgang',
  'As of now, whatever period is asked for: on hand in lots a heat may draw from, on order, held for pieces':
    'Stand jetzt, gleich für welchen Zeitraum: vorhanden in Chargen, aus denen eine Lötung nehmen darf, bestellt, für Stücke zurückgelegt',
  'Order when on hand + on order − held is at the order point or under; companions come by position ÷ point until the minimum is met':
    'Bestellen, wenn vorhanden + bestellt − zurückgelegt am Bestellpunkt ist oder darunter; mit kommt anderes nach Bestand ÷ Bestellpunkt, bis der Mindestbestellwert erreicht ist',
  'The working of each line is in it': 'Die Rechnung jeder Zeile steht dabei',
  'Stock as it was on the evening of {0}, each delivery at the lower of what it cost and what it costs today':
    'Bestand, wie er am Abend des {0} war, jede Lieferung zum niedrigeren von dem, was sie kostete, und was sie heute kostet',
  'Unfinished: time at the rate of the day, overhead, consumables, solder and metal of pieces begun and not given away, as of now':
    'Unfertig: Zeit zum damaligen Satz, Gemeinkosten, Verbrauch, Lot und Metall begonnener und noch nicht übergebener Stücke, Stand jetzt',
  'Filings: fine metal expected in the jars as of now, at what the refiner pays of the fine price in the settings':
    'Feilung: Feinmetall, das jetzt in den Gläsern zu erwarten ist, zu dem Anteil am Feinpreis der Einstellungen, den die Scheideanstalt zahlt',
  'Client metal is counted and worth nothing to us': 'Metall der Kundschaft wird gezählt und ist für uns nichts wert',
  'Deposits: what was received by that evening for work that had not been handed over by then, less what was sent back; ask your accountant when tax is due on them':
    'Anzahlungen: was bis zu diesem Abend für noch nicht übergebene Arbeit gekommen war, weniger das Zurückgezahlte; wann darauf Steuer fällig ist, sagt deine Steuerberatung',
  'Tax: of the accepted version of what was handed over in the period, by the month it first was':
    'Steuer: aus der angenommenen Fassung dessen, was im Zeitraum übergeben wurde, nach dem Monat der ersten Übergabe',
  'Totals are in {0} alone; rows in another currency are not in them':
    'Summen sind nur in {0}; Zeilen in einer anderen Währung sind nicht darin',
};
