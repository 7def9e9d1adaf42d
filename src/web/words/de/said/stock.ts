/** Lots of solder, what is taken of them, and solders. */
export const stock: Readonly<Record<string, string>> = {
  'The stocktake of {0} is closed; post a correction today.':
    'Die Inventur vom {0} ist abgeschlossen: Buche heute eine Korrektur.',
  'booked late, for {0}: the lot was counted after that, and holds what was counted':
    'spät gebucht, für {0}: Die Charge wurde danach gezählt und enthält, was gezählt wurde',
  'A lot cannot arrive on {0}: that has not come yet.': 'Am {0} kann keine Charge gekommen sein: Der Tag kommt erst.',
  'Cannot take lot {0}: it is {1}, this heat asks for {2}': 'Charge {0} passt nicht: Sie ist {1}, diese Lötung braucht {2}',
  'Cannot take lot {0} ({1}): lead or tin {2}': 'Charge {0} ({1}) darf nicht verwendet werden: Blei oder Zinn {2}',
  'is in it': 'ist darin',
  'is unknown, and counts as yes': 'ist nicht auszuschließen, das zählt als ja',
  'Cannot take lot {0}: it is {1} ({2})': 'Aus Charge {0} lässt sich nichts nehmen (Stand: {1}; {2})',
  'Cannot take lot {0}: it is {1}': 'Aus Charge {0} lässt sich nichts nehmen (Stand: {1})',
  'Cannot take lot {0}: it was to be used by {1}': 'Charge {0} ist abgelaufen: haltbar bis {1}',
  'used {0}, before the stocktake that closed the books': 'verbraucht {0}, vor der Inventur, mit der abgeschlossen wurde',
  '{0}, of which {1} are placed for other heats': '{0}, davon liegen {1} schon für andere Lötungen bereit',
  'Cannot take {0} from lot {1}: it holds {2}. Weigh the lot or take another':
    'Aus Charge {1} lassen sich nicht {0} nehmen: Darin sind {2}. Wiege sie, oder nimm eine andere',
  'Cannot take lot {0} ({1}): cadmium {2}': 'Charge {0} ({1}) darf nicht verwendet werden: Cadmium {2}',
  'reason: what is in doubt (the mark, the grade, cadmium)': 'der Grund: was im Zweifel ist (Zeichen, Sorte, Cadmium)',
  'reason: why it is written off': 'der Grund: warum sie ausgebucht wird',
  'reason: how the doubt was cleared': 'der Grund: wie der Zweifel geklärt wurde',
  'markOnMetal: stamp, notch or dye the metal first': 'das Zeichen auf dem Metall: Stempel, kerbe oder färbe es zuerst',
  'document: a supplier_sheet or laboratory_analysis that says there is no cadmium, with its reference and date; a bench test does not count':
    'das Papier: ein Blatt des Lieferanten oder eine Laboranalyse, wonach kein Cadmium darin ist, mit Nummer und Datum. Eine Probe am Werkbrett zählt nicht',
  'Cannot open lot {0}: cadmium is in it. Write it off and hand it to those who may take it':
    'Charge {0} bleibt gesperrt: Es ist Cadmium darin. Buche sie aus und gib sie denen, die sie annehmen dürfen',
  'Cannot call lot {0} finished: the book has {1} of it. Weigh it first; under 0.05 g it is finished':
    'Charge {0} ist nicht aufgebraucht: Im Buch stehen noch {1}. Wiege sie zuerst; unter 0,05 g ist sie aufgebraucht',
  '; and ': '; und ',
  'Cannot move lot {0} to {1}; send {2}': 'Bei Charge {0} fehlt zum Schritt „{1}“ noch: {2}',
  'This is taken only when a held-back lot is opened.': 'Das gehört nur dazu, wenn eine gesperrte Charge geöffnet wird.',
  'This is taken only when a lot is held back.': 'Das gehört nur dazu, wenn eine Charge gesperrt wird.',
  '{0} is noted as cadmium {1}: to say no of this lot, add the document that says so.':
    'Bei {0} steht Cadmium: {1}. Damit diese Charge ohne gilt, füge das Papier hinzu, das es sagt.',
  'no mark on the metal': 'kein Zeichen auf dem Metall',
  'cadmium is in it': 'Cadmium ist darin',
  'cadmium unknown': 'Cadmium ungewiss',
  'To be used by {0}, before it came in on {1}.': 'Haltbar bis {0}, aber erst am {1} gekommen.',
  'Use-by {0} is more than 24 months away.': 'Bis zum Ablauf am {0} sind es mehr als 24 Monate.',
  '{0} {1} a gram is far from the {2} that {3} usually costs.':
    '{0} {1} je Gramm ist weit weg von den {2}, die {3} sonst kostet.',
  '{0} {1} per {2} is {3} a gram: was that meant?': '{0} {1} je {2} sind {3} je Gramm: War das gemeint?',
  '{0} g of {1} were really used against {2} g planned: a trim of {3} would have planned it.':
    'Von {1} wurden {0} g wirklich verbraucht, geplant waren {2} g: mit einer Zugabe von {3} wäre es so geplant gewesen.',
  'There is no such solder product.': 'Dieses Lot steht nicht im Buch.',
  'Stamp, notch or dye it, and write here how.': 'Stempel, kerbe oder färbe es, und schreib hier, wie.',
  'There is a lot {0} already': 'Eine Charge {0} gibt es schon',

  'A code has 1 to 40 of a–z, 0–9, dash, underscore.': 'Ein Kurzname hat 1 bis 40 aus a–z, 0–9, Strich, Unterstrich.',
  'Name it as on the packet.': 'Nenne es, wie es auf dem Päckchen steht.',
  'Name the grade as on the packet.': 'Nenne die Sorte, wie sie auf dem Päckchen steht.',
  'Add the supplier’s safety data sheet.': 'Füge das Sicherheitsdatenblatt des Lieferanten hinzu.',
  'Say who sells it.': 'Sag, wer es verkauft.',
  'Cannot say that there is no cadmium in {0}: send the document that says so (supplier_sheet or laboratory_analysis) with its reference and date':
    'Dass in {0} kein Cadmium ist, muss ein Papier sagen: das Blatt des Lieferanten oder eine Laboranalyse, mit Nummer und Datum',
  'Flow point {0} is below melting start {1}: swapped?': 'Der Fließpunkt {0} liegt unter dem Schmelzbeginn {1}: vertauscht?',
  'Paste brings its own flux: say no, yes or unknown.': 'Paste bringt ihr Flussmittel mit: Sag nein, ja oder ungewiss.',
  'Only paste brings a flux: leave it out.': 'Nur Paste bringt ein Flussmittel mit: Lass es weg.',
  'Only paste holds less than all metal: leave it out, or write 1.':
    'Nur Paste ist nicht ganz aus Metall: Lass es weg, oder schreib 100 %.',
  'Say how much of the paste is metal, from its data sheet.': 'Sag nach dem Datenblatt, wie viel der Paste Metall ist.',
  'There is a solder product {0} already': 'Ein Lot {0} gibt es schon',
  'Send the safety data sheet itself as a file.': 'Gib das Sicherheitsdatenblatt selbst als Datei.',
  'This file is neither a PDF nor a PNG or JPEG picture.': 'Diese Datei ist weder ein PDF noch ein Bild (PNG oder JPEG).',
  'No file of the safety sheet of {0} is kept here; it is noted as: {1}':
    'Vom Sicherheitsdatenblatt von {0} liegt hier keine Datei; notiert ist: {1}',
  'Write the amount as a decimal, such as "1.85".': 'Schreib den Betrag als Dezimalzahl, etwa „1,85“.',
  'Say where the document is kept, or its number.': 'Sag, wo das Papier liegt, oder seine Nummer.',
  'A number has 1 to 20 letters, digits, dots, dashes, slashes.':
    'Eine Nummer hat 1 bis 20 Buchstaben, Ziffern, Punkte, Striche, Schrägstriche.',

  'write stock off': 'Bestand ausbuchen',
  'There is no such solder lot.': 'Diese Lotcharge gibt es nicht.',
  'Lot {0} came in on {1}, after that.': 'Charge {0} kam erst danach, am {1}.',
  'reverse a {0}': '„{0}“ zurücknehmen',
  'Cannot change what lot {0} holds: it is {1}': 'An Charge {0} lässt sich nichts mehr buchen (Stand: {1})',
  'Cannot use lot {0} for a piece: it is held back ({1}). Try it on scrap, and open it when the doubt is cleared':
    'Charge {0} darf an kein Stück: Sie ist gesperrt ({1}). Probiere sie auf Abfall, und öffne sie, wenn der Zweifel geklärt ist',
  'Cannot use lot {0}: cadmium {1}': 'Charge {0} darf nicht verwendet werden: Cadmium {1}',
  'it is itself a reversal; book what is right instead': 'sie nimmt selbst etwas zurück; buche stattdessen, was stimmt',
  'it was reversed already': 'sie ist schon zurückgenommen',
  'lot {0} was counted after it, so it holds what the scale said. If it was of another piece, put it back and use it again; if the count was wrong, reverse the count first':
    'Charge {0} wurde danach gezählt und enthält, was die Waage sagte. War es für ein anderes Stück, leg es zurück und verbrauche es noch einmal; war falsch gezählt, nimm zuerst das Zählen zurück',
  'of the {0} it held, only {1} are still held': 'von den vorgemerkten {0} sind nur noch {1} vorgemerkt',
  'Cannot reverse this movement: {0}': 'Diese Buchung lässt sich nicht zurücknehmen: {0}',
};
