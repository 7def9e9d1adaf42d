/** What the server refuses before any feature is asked: names of problems, fields, versions, sign-in. */
export const platform: Readonly<Record<string, string>> = {
  // Names of problems
  'The body is not JSON': 'Der Inhalt ist kein JSON',
  'The request is not HTTP': 'Die Anfrage ist kein HTTP',
  'Sign in first': 'Melde dich zuerst an',
  'The tablet has locked itself': 'Das Tablet hat sich gesperrt',
  'The name, the password or the PIN is wrong': 'Name, Passwort oder PIN ist falsch',
  'This role may not do that': 'Das darf diese Rolle nicht',
  'The request came from another site': 'Die Anfrage kam von einer anderen Seite',
  'No such record': 'Das gibt es nicht',
  'The life cycle does not allow this move': 'Dieser Schritt ist von hier aus nicht möglich',
  'It is no longer in the state you saw': 'Es ist nicht mehr in dem Stand, den du gesehen hast',
  'Something has to be done first': 'Vorher ist noch etwas zu tun',
  'The solder lot holds less than was asked for': 'In der Charge ist weniger Lot als verlangt',
  'Cadmium is in it or may be: this heat is blocked': 'Cadmium ist darin, oder es kann darin sein: diese Lötung ist gesperrt',
  'One person cannot be at two things at once': 'Niemand kann an zwei Dingen zugleich sein',
  'Another book is open here': 'Hier ist ein anderes Buch offen',
  'This name or number is taken': 'Dieser Name oder diese Nummer ist vergeben',
  'The request took too long to arrive': 'Die Anfrage kam zu langsam an',
  'Someone changed it since you read it': 'Jemand hat es geändert, seit du es gelesen hast',
  'The body is too large': 'Der Inhalt ist zu groß',
  'This kind of body is not taken here': 'Diese Art von Inhalt wird hier nicht angenommen',
  'Some fields cannot be used': 'Mit einigen Feldern stimmt etwas nicht',
  'A quantity is outside the range the model covers': 'Eine Größe liegt außerhalb dessen, was das Modell kann',
  'The fonts of the papers lack a letter': 'Den Schriften der Papiere fehlt ein Buchstabe',
  'This Idempotency-Key was sent with another request': 'Dieser Idempotency-Key kam schon mit einer anderen Anfrage',
  'Say which version you are changing': 'Sag, welche Fassung du änderst',
  'Too many tries; wait a little': 'Zu viele Versuche; warte ein wenig',
  'The headers or the address are too long': 'Die Kopfzeilen oder die Adresse sind zu lang',
  'Unexpected error': 'Unerwarteter Fehler',
  'unexpected error': 'unerwarteter Fehler',
  'Something went wrong here; it is in the log of the server': 'Hier ist etwas schiefgegangen; es steht im Protokoll des Servers',

  // Fields
  'One field': 'Ein Feld',
  '{0} fields': '{0} Felder',
  'And so on.': 'Und so weiter.',
  '{0} cannot be used: {1}': '{0} nicht zu gebrauchen: {1}',
  'text in quotes': 'Text in Anführungszeichen',
  text: 'Text',
  'a number': 'eine Zahl',
  'a whole number': 'eine ganze Zahl',
  'no number': 'keine Zahl',
  'true or false': 'true oder false',
  'a list': 'eine Liste',
  'an object': 'ein Objekt',
  'This is not an id: take it from the member "id" of a record; numbers such as C31-014 are for people.':
    'Das ist keine Kennung: nimm sie aus „id“; Nummern wie C31-014 sind für Menschen.',
  'Write a moment in UTC, such as 2031-06-14T08:30:00Z.': 'Schreib einen Zeitpunkt in UTC, etwa 2031-06-14T08:30:00Z.',
  'Write a date of the calendar, such as 2031-06-14.': 'Schreib ein Datum, etwa 2031-06-14.',
  'This field is needed.': 'Dieses Feld wird gebraucht.',
  'It must be {0}; this is {1}.': 'Hierher gehört {0}; da steht {1}.',
  'This field is needed: one of {0}.': 'Dieses Feld wird gebraucht: eines von {0}.',
  'It must be one of {0}.': 'Hierher gehört eines von {0}.',
  'It cannot be empty.': 'Das darf nicht leer sein.',
  'It needs {0} characters or more.': 'Das braucht mindestens {0} Zeichen.',
  'It needs {0} or more of them.': 'Davon braucht es mindestens {0}.',
  'It must be {0} or more.': 'Das muss {0} oder mehr sein.',
  'It must be more than {0}.': 'Das muss mehr als {0} sein.',
  'It can have {0} characters at most.': 'Das darf höchstens {0} Zeichen haben.',
  'It can have {0} of them at most.': 'Davon dürfen es höchstens {0} sein.',
  'It must be {0} or less.': 'Das darf höchstens {0} sein.',
  'It must be less than {0}.': 'Das muss weniger als {0} sein.',
  'It is too long.': 'Das ist zu lang.',
  'This field was sent twice.': 'Dieses Feld kam zweimal.',
  'Control characters cannot be used here.': 'Steuerzeichen gehen hier nicht.',
  'Use an ISO 4217 code, such as EUR.': 'Nimm einen Code nach ISO 4217, etwa EUR.',
  'Use the ISO 3166-1 code of a country, two capital letters such as DE, GB for the United Kingdom.':
    'Nimm den Code eines Landes nach ISO 3166-1, zwei große Buchstaben wie DE, für das Vereinigte Königreich GB.',
  'There is no field "{0}" here.': 'Ein Feld „{0}“ gibt es hier nicht.',
  'Say why in the header Confirm-Reason, in 3 letters or more.': 'Sag in Confirm-Reason, warum, mit mindestens 3 Buchstaben.',
  'It holds {0} members; nothing here takes more than {1}.': 'Darin stehen {0} Einträge; mehr als {1} gehen hier nirgends.',
  'Nothing here is more than {0} levels deep.': 'Hier ist nichts mehr als {0} Ebenen tief.',
  'That day has not come: today is {0}.': 'Dieser Tag ist noch nicht da: heute ist der {0}.',
  "{0} has not come yet; is the device's clock right?": '{0} ist noch nicht da; geht die Uhr des Geräts richtig?',
  'Send a form: the content type multipart/form-data, with the file as one of its fields':
    'Schick ein Formular: als multipart/form-data, mit der Datei als einem seiner Felder',
  'The form cannot be read: it breaks off, or is not written as RFC 7578 has it. Send it again.':
    'Das Formular lässt sich nicht lesen: Es bricht ab oder ist nicht nach RFC 7578 geschrieben. Schick es noch einmal.',
  'It is not written as it must be here.': 'So wird es hier nicht geschrieben.',
  'It has none of the shapes that are taken here.': 'Nichts von dem, was hierher gehört, sieht so aus.',
  'It must be a multiple of {0}.': 'Das muss ein Vielfaches von {0} sein.',
  'It cannot be used here.': 'Das ist hier nicht zu gebrauchen.',

  // What cannot be read at all
  'Cannot take so much at once: send less, or in several parts':
    'Das ist auf einmal zu viel: Schick weniger, oder in mehreren Teilen',
  'Cannot take this kind of body: send JSON, with the content type application/json':
    'Diese Art von Inhalt wird nicht angenommen: Schick JSON, als application/json',
  'Cannot read the body: it is not as long as its Content-Length says':
    'Der Inhalt lässt sich nicht lesen: Er ist nicht so lang, wie Content-Length sagt',
  'Cannot read the body: it is empty, and its content type says JSON':
    'Der Inhalt lässt sich nicht lesen: Er ist leer, und nach seiner Art wäre er JSON',
  'Cannot read the body: it is not JSON, or uses a name that JSON may not have here, such as __proto__':
    'Der Inhalt lässt sich nicht lesen: Er ist kein JSON oder hat einen Namen, der hier nicht geht, etwa __proto__',
  'Cannot take this file: it is too large': 'Diese Datei ist zu groß',
  'Cannot take this form: it has more files than this takes at once':
    'Dieses Formular geht so nicht: Es hat mehr Dateien, als hier auf einmal gehen',
  'Cannot take this form: it has more fields than there are here': 'Dieses Formular geht so nicht: Es hat zu viele Felder',
  'Cannot take this form: it has more parts than there are here': 'Dieses Formular geht so nicht: Es hat zu viele Teile',
  'Cannot begin another one for you yet: {0} of yours wait already; wait until one has ended, or stop one':
    'Noch eine geht gerade nicht: {0} von dir warten schon; warte, bis eine fertig ist, oder halte eine an',
  'Cannot begin another one yet: {0} wait already; try again in a little while':
    'Noch eine geht gerade nicht: {0} warten schon; versuch es in einer Weile wieder',
  'It was ended before there was an answer': 'Das wurde beendet, bevor es eine Antwort gab',
  'Too many tries from this device: wait {0} seconds': 'Zu viele Versuche von diesem Gerät: warte {0} Sekunden',

  // Moves
  'Cannot move the {0} from {1}: it is {2} now': '{0}: ist nicht mehr „{1}“, sondern jetzt „{2}“',
  'Cannot move the {0} from {1} to {2}: from here it goes to {3}':
    '{0}: von „{1}“ geht es nicht zu „{2}“, von hier aus geht es zu: {3}',
  nowhere: 'nichts',
  gone: 'entsorgt',
  clock: 'die Uhr',
  system: 'der Server selbst',
  'Cannot move the {0} to {1}: that is for {2}': '{0}: „{1}“ ist Sache von: {2}',
  ' or ': ' oder ',

  // Who, and which version
  'Cannot {0}: that is for the owner': 'Das darf nur, wem die Werkstatt gehört: {0}',
  'Sign in, or send a bearer token': 'Melde dich an, oder schick einen Schlüssel mit',
  'Cannot do this by a PIN: sign in with your password, not at a shared tablet':
    'Mit einer PIN geht das nicht: melde dich mit deinem Passwort an, nicht am gemeinsamen Tablet',
  'Cannot do this by a token for less than its person may: it would open more than it is worth':
    'Mit einem Schlüssel, der weniger darf als seine Person, geht das nicht: Es öffnete mehr, als er wert ist',
  'Cannot do this: the token is for looking alone': 'Das geht nicht: Der Schlüssel ist nur zum Ansehen',
  'Cannot do this: it is for {0}': 'Das geht nicht: es ist Sache von {0}',
  'Cannot act on a request from another site': 'Eine Anfrage von einer anderen Seite wird nicht ausgeführt',
  'Cannot compute this: {0}': 'Das lässt sich nicht rechnen: {0}',
  'Cannot find {0} {1}': 'Nicht zu finden: {0} {1}',
  'Nothing answers {0} {1}': 'Auf {0} {1} antwortet nichts',
  'Nothing answers at this address: it is too long, or not written as addresses are':
    'An dieser Adresse antwortet nichts: Sie ist zu lang oder nicht so geschrieben, wie Adressen sind',
  'its headers, with the address, are too long': 'ihre Kopfzeilen mit der Adresse sind zu lang',
  'it took too long to arrive': 'sie kam zu langsam an',
  'it is not written as HTTP is': 'sie ist nicht als HTTP geschrieben',
  'Cannot read the request: {0}': 'Die Anfrage lässt sich nicht lesen: {0}',
  'Send the header Idempotency-Key: this may arrive twice.': 'Schick Idempotency-Key mit: das kann zweimal ankommen.',
  'Idempotency-Key {0} was sent before, with another request': 'Idempotency-Key {0} kam schon, mit einer anderen Anfrage',
  'Idempotency-Key must be 8 to 100 letters, digits, dots, colons or dashes.':
    'Idempotency-Key hat 8 bis 100 Buchstaben, Ziffern, Punkte, Doppelpunkte oder Striche.',
  'Send If-Match with the ETag you read, so that nobody else’s change is lost':
    'Schick If-Match mit dem ETag, den du gelesen hast, damit niemandes Änderung verloren geht',
  'If-Match is {0}: send the ETag just as it came, in its quotes, such as "3"':
    'If-Match ist {0}: schick den ETag genau wie er kam, in Anführungszeichen, etwa "3"',
  'Cannot change the {0}: it is at version {1}, you read version {2}':
    '{0}: inzwischen in Fassung {1}, gelesen hast du Fassung {2}',
};
