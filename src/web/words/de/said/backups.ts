/** Copies of the book that are put away, and the file and the disk of the book itself. */
export const backups: Readonly<Record<string, string>> = {
  'The book is not backed up: if this disk fails, it is gone. Name a folder on another disk.':
    'Das Buch wird nicht gesichert: Versagt diese Platte, ist es weg. Nenne einen Ordner auf einer anderen Platte.',
  'The last backup failed, into {0}: {1}. It is tried again every hour.':
    'Die letzte Sicherung nach {0} misslang: {1}. Sie wird jede Stunde neu versucht.',
  'The newest backup is of {0}.': 'Die neueste Sicherung ist vom {0}.',
  'The backup {0} was opened, and cannot be trusted: {1}.': 'Die Sicherung {0} wurde geöffnet, und ihr ist nicht zu trauen: {1}.',
  'Cannot back this book up: it is kept in memory alone': 'Dieses Buch lässt sich nicht sichern: Es liegt nur im Arbeitsspeicher',
  'Cannot make a backup: name a folder for it in the settings first':
    'Ohne Ordner geht keine Sicherung: Nenne erst einen in den Einstellungen',
  'Cannot begin: a backup is being made or checked; wait until it is done':
    'Gerade wird eine Sicherung gemacht oder gelesen: Warte, bis sie fertig ist',
  'Cannot check this backup: there is no file of it': 'Von dieser Sicherung gibt es keine Datei, die sich lesen ließe',
  'the server was stopped meanwhile': 'der Server wurde inzwischen angehalten',
  'it is not there: is the disk plugged in, the folder of the network mounted?':
    'es ist nicht da: Ist die Platte angesteckt, der Ordner des Netzes eingebunden?',
  'it is a file, no folder': 'es ist eine Datei, kein Ordner',
  'the server may not write there': 'der Server darf dort nicht schreiben',
  'the disk takes no writing': 'die Platte lässt sich nicht beschreiben',
  'no room is left on the disk': 'auf der Platte ist kein Platz mehr',
  'no room is left beside the book for the copy that is encrypted':
    'neben dem Buch ist kein Platz für die Kopie, die verschlüsselt wird',
  'no room is left for this user on the disk': 'für diesen Benutzer ist auf der Platte kein Platz mehr',
  'the disk does not answer as it should': 'die Platte antwortet nicht, wie sie soll',
  'the disk is gone': 'die Platte ist weg',
  'its pages are damaged: {0}': 'ihre Seiten sind beschädigt: {0}',
  '{0} of its rows point nowhere': '{0} ihrer Zeilen zeigen ins Leere',
  'it is not a book of Hearthbook': 'sie ist kein Buch von Hearthbook',
  'it was written by a newer Hearthbook ({0})': 'ein neueres Hearthbook hat sie geschrieben ({0})',
  'its stock does not add up: {0}': 'ihr Bestand geht nicht auf: {0}',
  'it cannot be read as a book: {0}': 'sie lässt sich nicht als Buch lesen: {0}',
  'There is no such folder on the machine of the server: make it there, or plug the disk in.':
    'Auf dem Rechner des Servers gibt es diesen Ordner nicht: Lege ihn dort an, oder steck die Platte an.',
  'This is a file: name a folder.': 'Das ist eine Datei: Nenne einen Ordner.',
  'The server may not write into this folder.': 'Der Server darf in diesen Ordner nicht schreiben.',
  'Write the whole path, such as /media/stick/hearthbook.': 'Schreib den ganzen Pfad, etwa /media/stick/hearthbook.',
  'Write the time as hours and minutes, such as "02:30".': 'Schreib die Zeit in Stunden und Minuten, etwa „02:30“.',
  'No room is left on the disk': 'Auf der Platte ist kein Platz mehr',
  'The book cannot be written': 'Das Buch lässt sich nicht beschreiben',
  'The book is damaged': 'Das Buch ist beschädigt',
  'Nothing was saved: {0}': 'Nichts wurde gespeichert: {0}',
  'no room is left on its disk': 'auf seiner Platte ist kein Platz mehr',
  'its file is damaged, or is no book': 'seine Datei ist beschädigt oder kein Buch',
  'its file, or the folder of it, takes no writing': 'seine Datei oder ihr Ordner lässt sich nicht beschreiben',
};
