/** Plans, searches for them, and what students guess of them. */
export const plans: Readonly<Record<string, string>> = {
  'Cannot guess: that is for students; you are shown the answer at once':
    'Raten ist für Lernende; dir wird die Antwort gleich gezeigt',
  'Cannot guess: {0}': 'Hier gibt es nichts zu raten: {0}',
  'plan {0} is replaced by a newer one': 'Plan {0} ist durch einen neueren ersetzt',
  'Plan {0} has {1} heats.': 'Plan {0} hat {1, plural, one {# Lötung} other {# Lötungen}}.',
  'heat {0} has been lit: what came of it is to be seen': 'Lötung {0} war schon im Feuer: Was daraus wurde, ist zu sehen',
  'no earlier joint lies in the fire of heat {0}': 'in Lötung {0} liegt keine frühere Lötstelle im Feuer',
  'you have guessed every joint of heat {0}, and seen the answer':
    'du hast jede Lötstelle von Lötung {0} geraten und die Antwort gesehen',
  'There is nothing to guess of it: guess {0}.': 'Dazu gibt es nichts zu raten: Rate {0}.',
  'Guess each joint once.': 'Rate jede Lötstelle einmal.',
  'Guess {0} too: all are told at once.': 'Rate auch {0}: Alle werden auf einmal gesagt.',
  'Cannot plan this piece: it has no design yet': 'Dieses Stück lässt sich nicht planen: Es hat noch keinen Entwurf',
  'Cannot plan {0}: it is {1}': '{0} lässt sich nicht planen (Stand: {1})',
  'Cannot plan: there is no solder product free of cadmium and lead in the book':
    'So lässt sich nicht planen: Im Buch steht kein Lot ohne Cadmium und Blei',
  'Cannot look for a plan: every joint is made already': 'Es gibt keinen Plan zu suchen: Jede Lötstelle ist schon gelötet',
  'allow more joints in a heat, more protections, or more work for the search':
    'erlaube mehr Lötstellen je Lötung, mehr Schutz, oder mehr Arbeit für die Suche',
  'No plan was found: {0}': 'Kein Plan gefunden: {0}',
  'plan {0} is {1}: it never changes after draft, so plan anew (POST /pieces/{id}/plans)':
    'Plan {0} ist kein Entwurf mehr (Stand: {1}) und ändert sich nie: leg einen neuen an',
  'Cannot rewrite it: {0}': 'Er lässt sich nicht überschreiben: {0}',
  'students have guessed what plan {0} does: plan anew (POST /pieces/{id}/plans)':
    'Lernende haben schon geraten, was Plan {0} tut: leg einen neuen an',
  somebody: 'jemand',
  'Cannot change plan {0}: {1} has changed it since you read version {2}; it is at version {3} now':
    'Plan {0} ist nicht mehr, wie du ihn gelesen hast: {1} hat ihn seit Stand {2} geändert; jetzt ist er bei Stand {3}',
  'Cannot keep this plan after plan {0}: {1} has made plan {2} since you read it':
    'Dieser Plan folgt nicht mehr auf Plan {0}: {1} hat Plan {2} gemacht, seit du ihn gelesen hast',
  'Keep yours as the version after theirs.': 'Deinen als Fassung nach dem anderen behalten.',
  'Keep yours as a draft of its own.': 'Deinen als eigenen Entwurf behalten.',
  'Write yours in place of theirs.': 'Deinen an die Stelle des anderen setzen.',
  'plan {0}': 'Plan {0}',
  'have it checked': 'lass ihn prüfen',
  'only a plan by a student is signed': 'unterschrieben wird nur der Plan von Lernenden',
  'a student made it: a tutor signs it first': 'Lernende haben ihn gemacht: Zuerst unterschreibt ihn eine Lehrkraft',
  'joint {0} is {1} and in no heat': 'Lötstelle {0} ist {1} und in keiner Lötung',
  'the design or what is made of the piece has changed since: plan again from its true state':
    'der Entwurf, oder was vom Stück gemacht ist, hat sich seitdem geändert: plane neu von dem aus, was wirklich gemacht ist',
  'Name either a torch of the book (torchId) or describe one (torch).':
    'Nenne einen Brenner aus dem Buch, oder beschreibe einen: nicht beides.',
  'A torch of the book brings its own calibration.': 'Ein Brenner aus dem Buch bringt seine eigene Kalibrierung mit.',
  'Send either a plan of your own (plan) or the options of a search (search).':
    'Gib entweder einen eigenen Plan oder die Vorgaben für eine Suche: nicht beides.',
  'Cannot keep this check: the plan has changed since it was asked for':
    'Diese Prüfung gilt nicht mehr: Der Plan hat sich geändert, seit nach ihr gefragt wurde',
  'Cannot keep this plan: the piece has changed since it was asked for':
    'Dieser Plan gilt nicht mehr: Das Stück hat sich geändert, seit nach ihm gefragt wurde',
  'the parts of heat {0}': 'die Teile von Lötung {0}',
  'guess first what becomes of {0} in heat {1}': 'rate zuerst, was in Lötung {1} aus {0} wird',
  'Cannot ask what if: {0}': 'Für „was wäre, wenn“ ist es zu früh: {0}',
  'Cannot print plan {0}: it is not checked yet': 'Plan {0} lässt sich noch nicht drucken: Er ist nicht geprüft',
  'Name either a piece (pieceId) or send a design of no piece (design).':
    'Nenne entweder ein Stück, oder gib einen Entwurf ohne Stück.',
  'What is made of a piece already needs no heats to keep: its true state says it.':
    'Was von einem Stück schon gemacht ist, muss niemand angeben: Sein wahrer Stand sagt es.',
  'Cannot keep this plan: {0}': 'Dieser Plan lässt sich nicht behalten: {0}',
  'it is for a design of no piece': 'er ist für einen Entwurf ohne Stück',
  'it is a plan of the piece already': 'er ist schon ein Plan des Stücks',
  'the search is {0} and has no answer': 'die Suche hat keine Antwort (Stand: {0})',
  'The server was stopped before there was an answer: ask again':
    'Der Rechner der Werkstatt wurde angehalten, bevor es eine Antwort gab: Frag noch einmal',
  'The plan takes {0} g of {1}, and the drawer has {2} g free: order it before the piece is begun.':
    'Der Plan braucht {0} g {1}, und frei sind in der Schublade {2} g: bestell es, bevor das Stück begonnen wird.',
};
