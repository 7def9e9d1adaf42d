/** People, keys and tablets, photos, private links, torches, metals and days of the studio. */
export const people: Readonly<Record<string, string>> = {
  'Former client': 'Frühere Kundschaft',
  'Cannot change {0}: this client was forgotten': '{0} lässt sich nicht ändern: Diese Person wurde vergessen',
  'Cannot forget {0}: that is done already': '{0}: Diese Person ist schon vergessen',
  'Type the name just as it is in the book: it cannot be taken back.':
    'Schreib den Namen genau so, wie er im Buch steht: Es lässt sich nicht rückgängig machen.',
  'Cannot forget this client yet: there is work or money open in {0}':
    'Diese Person lässt sich noch nicht vergessen: Arbeit oder Geld ist noch offen in {0}',
  'Cannot sign in: the name or the password is wrong': 'Anmelden ging nicht: Name oder Passwort ist falsch',
  'make a token for someone else': 'einen Schlüssel für jemand anderen machen',
  'Too many wrong passwords for this name: the next may be tried in {0} seconds':
    'Zu viele falsche Passwörter für diesen Namen: {0, plural, one {In # Sekunde} other {In # Sekunden}} darf das nächste versucht werden',
  'A token is worth no more than its person: {0} has not the role {1}.':
    'Ein Schlüssel ist nicht mehr wert als seine Person: {0} hat die Rolle {1} nicht.',
  'The tablet has locked itself: enter your PIN; nothing you did is lost':
    'Das Tablet hat sich gesperrt: Gib deine PIN ein; nichts von deiner Arbeit ist verloren',
  'tablet {0}': 'Tablet {0}',
  'Cannot set the password: the code is wrong, used, or older than an hour':
    'Das Passwort wurde nicht gesetzt: Der Code ist falsch, schon benutzt oder älter als eine Stunde',
  'Write the amount as a decimal, such as "24.00".': 'Schreib den Betrag als Dezimalzahl, etwa „24,00“.',
  'A sign-in name has 3 to 40 of a–z, 0–9, dot, dash, underscore.':
    'Ein Anmeldename hat 3 bis 40 aus a–z, 0–9, Punkt, Strich, Unterstrich.',
  'A password needs 12 letters or more; a sentence is good.': 'Ein Passwort braucht 12 Zeichen oder mehr; ein Satz ist gut.',
  'Name each role once.': 'Nenne jede Rolle einmal.',
  'Cannot take this role away: someone must remain the owner': 'Diese Rolle bleibt: Jemand muss Inhaberin oder Inhaber sein',
  'Cannot make the owner: the code is not the one the server printed, or there is an owner already':
    'So beginnt das Buch nicht: Der Code ist nicht der angezeigte, oder das Buch gehört schon jemandem',
  'Cannot use the sign-in name {0}: someone has it': 'Der Anmeldename {0} ist vergeben',
  'Too many wrong PINs: the next may be tried in {0} seconds':
    'Zu viele falsche PINs: {0, plural, one {In # Sekunde} other {In # Sekunden}} darf die nächste versucht werden',
  'Cannot set the PIN: the code is wrong, used, or older than a day':
    'Die PIN wurde nicht gesetzt: Der Code ist falsch, schon benutzt oder älter als ein Tag',
  'Cannot set a PIN: it is for the work at the bench, and this person has none':
    'Hier geht keine PIN: Sie ist für die Arbeit am Werkbrett, und diese Person hat dort keine',
  'A PIN has 4 to 8 digits.': 'Eine PIN hat 4 bis 8 Ziffern.',
  'Not all alike, and not in a row such as 1234.': 'Nicht alle gleich, und nicht der Reihe nach wie 1234.',
  'Give the tablet a name, such as "Anvil".': 'Gib dem Tablet einen Namen, etwa „Amboss“.',
  'This device is no shared tablet: the owner makes it one':
    'Dieses Gerät ist kein gemeinsames Tablet: Dazu macht es, wem die Werkstatt gehört',
  'Cannot unlock the tablet: the PIN is not that of this person':
    'Das Tablet bleibt gesperrt: Das ist nicht die PIN dieser Person',

  'The picture says it is {0} × {1} pixels; at most {2} million are read.':
    'Das Bild hat nach eigener Angabe {0} × {1} Bildpunkte; gelesen werden höchstens {2} Millionen.',
  'The picture holds more than {0} million pixels.': 'Das Bild hat mehr als {0} Millionen Bildpunkte.',
  'The file begins like a {0} picture but cannot be read to its end: it is cut off or damaged.':
    'Die Datei beginnt wie ein {0}-Bild, lässt sich aber nicht zu Ende lesen: Sie ist abgeschnitten oder beschädigt.',
  'This is a HEIF (HEIC, AVIF) picture. Send a JPEG, PNG or WebP: cameras can be set to save JPEG.':
    'Das ist ein HEIF-Bild (HEIC, AVIF). Nimm ein JPEG, PNG oder WebP: Kameras lassen sich auf JPEG stellen.',
  'This is an SVG drawing. Send a JPEG, PNG or WebP.': 'Das ist eine SVG-Zeichnung. Nimm ein JPEG, PNG oder WebP.',
  'This file is not a picture. Send a JPEG, PNG or WebP.': 'Diese Datei ist kein Bild. Nimm ein JPEG, PNG oder WebP.',
  'Send the picture itself as a file.': 'Gib das Bild selbst als Datei.',
  'People in the picture: keep it private.': 'Menschen im Bild: Lass es privat.',
  'Say which piece it is of, or which commission (commissionId).': 'Sag, von welchem Stück oder Auftrag es ist.',
  'The piece is of another commission.': 'Das Stück gehört zu einem anderen Auftrag.',
  'This piece has no incident with this id.': 'Dieses Stück hat dieses Missgeschick nicht.',
  'The design of this piece has no such part.': 'Der Entwurf dieses Stücks hat dieses Teil nicht.',
  'Cannot change this photo: that is for the one who added it, or {0}': 'Dieses Foto ändert nur, wer es dazugab, oder: {0}',
  'Cannot show this photo to the client: that is for {0}': 'Ob die Kundschaft dieses Foto sieht, entscheidet nur: {0}',

  'the owner has to turn private links on in the settings':
    'wem die Werkstatt gehört, muss private Adressen in den Einstellungen einschalten',
  'it has no client': 'er ist für keine Kundschaft',
  'Cannot make a link to {0}: {1}': 'Für {0} gibt es keine private Adresse: {1}',
  'Nothing was done: this page is of another book than the one that is open here. Load it again':
    'Nichts ist geschehen: Diese Seite gehört zu einem anderen Buch als dem, das hier offen ist. Lade sie neu',
  'Cannot open the sample so: there is an owner, who opens it signed in':
    'So öffnet sich die Beispielwerkstatt nicht: Das Buch gehört schon jemandem, und wer angemeldet ist, öffnet sie',
  'Cannot open the sample: the code is not the one the server printed when it started':
    'Die Beispielwerkstatt öffnet sich nicht: Der Code ist nicht der, der beim Start gezeigt wurde',
  'Cannot open a sample studio: this server has none to show': 'Hier gibt es keine Beispielwerkstatt zu sehen',
  'Type three letters or more.': 'Tippe drei Buchstaben oder mehr.',

  'There is no such torch in the book.': 'Diesen Brenner gibt es im Buch nicht.',
  'Send at most {0} heats together: the newest tell most.': 'Gib höchstens {0} Lötungen zusammen: Die neuesten sagen am meisten.',
  'Name each heat once.': 'Nenne jede Lötung einmal.',
  'Cannot calibrate the torch: {0}': 'Der Brenner lässt sich nicht kalibrieren: {0}',
  '{0} was not lit by you: a calibration is of one pair of hands.':
    '{0} hast nicht du angezündet: Eine Kalibrierung gilt für ein Paar Hände.',
  '{0} was planned for another torch.': '{0} war für einen anderen Brenner geplant.',
  'No times were noted for {0}.': 'Zu {0} sind keine Zeiten notiert.',
  'Cannot change the numbers of {0}: it is calibrated on them; add another torch instead':
    'Die Zahlen von {0} stehen fest: Nach ihnen ist kalibriert; trag stattdessen einen weiteren Brenner ein',
  'Cannot call a torch {0}: there is one of that name': 'Einen Brenner {0} gibt es schon',

  'There are no records of this operation.': 'Zu diesem Arbeitsgang gibt es keine Zeiten.',
  'Cannot accept {0}: the records say {1} by now': '{0} gilt nicht mehr: Die Zeiten sagen inzwischen {1}',
  'a new studio': 'eine neue Werkstatt',
  'other {0}, {1} records': 'andere der Art „{0}“, {1} Zeiten',

  '{0} ({1}) is retired: bring it back first, or choose another metal.':
    '{0} ({1}) ist stillgelegt: Hol es zuerst zurück, oder wähle ein anderes Metall.',
  'There is no metal {0}: name one of {1}, or add it at POST /metals.':
    'Ein Metall {0} gibt es nicht: Nenne eines von {1}, oder trag es als eigenes ein.',
  'These are not the numbers of {0}, as it is now or as this design has it: write "metal": "{1}", or leave the code out.':
    'Das sind nicht die Zahlen von {0}, weder wie es jetzt ist noch wie dieser Entwurf es hat: Nenne nur „{1}“, oder lass den Kurznamen weg.',
  'There is no metal {0} of the studio: leave the code out, or add the metal first.':
    'Ein eigenes Metall {0} hat die Werkstatt nicht: Lass den Kurznamen weg, oder trag das Metall zuerst ein.',
  'Two parts have {0} with different numbers: write "metal": "{1}" in all of them.':
    'Zwei Teile haben {0} mit verschiedenen Zahlen: Nenne bei allen nur „{1}“.',
  'as {0} of the table, assumed': 'wie {0} in der Tabelle, angenommen',
  'as {0} of the table, at 400 °C, assumed': 'wie {0} in der Tabelle, bei 400 °C, angenommen',
  'holds no silver unless somebody says so': 'enthält kein Silber, solange es niemand sagt',
  'Ag–Cu eutectic, as for any casting that may hold copper': 'Ag-Cu-Eutektikum, wie bei jedem Guss, der Kupfer enthalten kann',
  'as wrought': 'wie geschmiedet',
  'Say who says so: a data sheet, or a trial of your own.': 'Sag, wer das sagt: ein Datenblatt oder eine eigene Probe.',
  'Name the metal.': 'Nenne das Metall.',
  'An id has 1 to 40 of a–z, 0–9, dash, underscore.': 'Ein Kurzname hat 1 bis 40 aus a–z, 0–9, Strich, Unterstrich.',
  'Cannot change {0}: the table of metals is the same for everyone. Add a metal of your own':
    '{0} lässt sich nicht ändern: Die Tabelle der Metalle ist für alle gleich. Trag ein eigenes Metall ein',
  'Liquid point {0} is below melting start {1}: swapped?':
    'Die Liquidustemperatur {0} liegt unter dem Schmelzbeginn {1}: vertauscht?',
  'Say the fineness of a silver: 0.95 for 950.': 'Sag den Feingehalt des Silbers: 0,95 für 950.',
  'The table has no nearest metal to a {0} metal: say which it is like (like), or type {1}.':
    'Zu dieser Art ({0}) hat die Tabelle kein nächstes Metall: Sag, welchem es gleicht, oder gib ein: {1}.',
  'Cannot call a metal {0}: the table has one of that id': 'Ein Metall {0} hat schon die Tabelle',
  'Cannot call a metal {0}: there is one of that id': 'Ein Metall {0} gibt es schon',

  'Minutes of a day: those of every bench that somebody works at':
    'Minuten eines Tages: die jedes Werkbretts, an dem jemand arbeitet',
  'Minutes of a day: those of everyone at the bench together, from their own records':
    'Minuten eines Tages: die aller am Werkbrett zusammen, wie bei ihnen eingetragen',
  'Minutes of a day: one bench, from the settings, since nobody has any of their own':
    'Minuten eines Tages: ein Werkbrett, nach den Einstellungen, da bei niemandem eigene stehen',
  'Working days are {0}, less closed days and absences; today counts whole':
    'Arbeitstage sind {0}, ohne freie Tage und Abwesenheiten; heute zählt ganz',
  'Working days are {0} to {1}, less closed days and absences; today counts whole':
    'Arbeitstage sind {0} bis {1}, ohne freie Tage und Abwesenheiten; heute zählt ganz',
  Monday: 'Montag',
  Tuesday: 'Dienstag',
  Wednesday: 'Mittwoch',
  Thursday: 'Donnerstag',
  Friday: 'Freitag',
  Saturday: 'Samstag',
  Sunday: 'Sonntag',
  'Give the bench a name.': 'Gib dem Werkbrett einen Namen.',
  'Say why, such as "fair" or "evening class".': 'Sag warum, etwa „Messe“ oder „Abendkurs“.',
  'The last day is before the first.': 'Der letzte Tag liegt vor dem ersten.',
  'Cannot call a bench {0}: there is one of that name': 'Ein Werkbrett {0} gibt es schon',
  'Cannot give this bench to them: they work at {0}': 'An diesem Werkbrett geht es nicht: Die Person arbeitet schon an {0}',
  'There is no person with this id.': 'Diese Person gibt es nicht.',
};
