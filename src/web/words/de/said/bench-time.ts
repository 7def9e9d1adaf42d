/** Times at the bench. */
export const benchTime: Readonly<Record<string, string>> = {
  'Say what was done.': 'Sag, was getan wurde.',
  'No minutes change nothing.': 'Null Minuten ändern nichts.',
  'The last day is before the first, or more than 366 days after it.':
    'Der letzte Tag liegt vor dem ersten oder mehr als 366 Tage danach.',
  'show the times of another person': 'die Zeiten einer anderen Person zeigen',
  'Cannot change this time: its month is closed. Note a correction of it, with its reason (POST /bench-times/{id}/corrections)':
    'Diese Zeit lässt sich nicht ändern: Ihr Monat ist abgeschlossen. Notiere eine Korrektur mit ihrem Grund',
  'Cannot agree to this time: {0}': 'Diese Zeit lässt sich noch nicht bestätigen: {0}',
  'This time is a sum of minutes: it has no stop.': 'Diese Zeit ist eine Summe von Minuten: Sie hat kein Ende.',
  'This time has a start and a stop: change those.': 'Diese Zeit hat Anfang und Ende: Ändere diese.',
  'This timer is running: stop it first.': 'Diese Uhr läuft: Halte sie zuerst an.',
  'Stopped the timer on {0} at {1}, after {2} min': 'Uhr auf {0} um {1} angehalten, nach {2} min',
  'Cannot correct this time: its month is not closed, so change the time itself':
    'Diese Zeit braucht keine Korrektur: Ihr Monat ist nicht abgeschlossen, ändere die Zeit selbst',
  'Cannot correct a correction: correct the time it belongs to':
    'Eine Korrektur lässt sich nicht korrigieren: Korrigiere die Zeit, zu der sie gehört',
  'Only {0} min are left of this time.': 'Von dieser Zeit sind nur noch {0} min übrig.',
  'Write the month as year and month, such as "2031-05".': 'Schreib den Monat als Jahr und Monat, etwa „2031-05“.',
  'This month is not over yet.': 'Dieser Monat ist noch nicht zu Ende.',
  'Cannot close {0}: it is closed already': '{0} ist schon abgeschlossen',
  'Cannot note a time in {0}: that month is closed. Correct a time of it (POST /bench-times/{id}/corrections), or note the minutes today':
    'In {0} lässt sich keine Zeit mehr notieren: Der Monat ist abgeschlossen. Korrigiere eine Zeit darin, oder notiere die Minuten heute',
  'It stopped before it started, at {0}.': 'Das Ende liegt vor dem Anfang, {0}.',
  'the time has changed since': 'die Zeit hat sich seitdem geändert',
  'another one runs now, and one timer runs at a time': 'jetzt läuft eine andere Uhr, und es läuft immer nur eine',
  'other work was noted since, at the same time': 'inzwischen ist für diese Zeit andere Arbeit notiert',
  'Pick a piece or a heat, or say "general": not on a piece. One of them.':
    'Wähle ein Stück oder eine Lötung, oder sag „allgemein“: an keinem Stück. Eines davon.',
  'Say when it started, too.': 'Sag auch, wann es anfing.',
  'Give a start and a stop, or the minutes: not both.': 'Gib Anfang und Ende an, oder die Minuten: nicht beides.',
  'There is no such heat.': 'Diese Lötung gibt es nicht.',
  'This heat is of another piece.': 'Diese Lötung gehört zu einem anderen Stück.',
  'There is no such piece.': 'Dieses Stück gibt es nicht.',
  'Cannot keep this time: it overlaps {0}–{1} on {2}; keep which?':
    'Diese Zeit überschneidet sich mit {0}–{1} an {2}: Welche gilt?',
  now: 'jetzt',
  'The first ends where the second begins.': 'Die erste endet, wo die zweite beginnt.',
  'The second begins where the first ends.': 'Die zweite beginnt, wo die erste endet.',
  'Both stay: one goes on after the other, or each has half of what they share.':
    'Beide bleiben: Die eine geht nach der anderen weiter, oder jede bekommt die Hälfte von dem, was sie teilen.',
  'You were on {0} from {1}. When did you stop?': 'Du warst ab {1} an {0}. Wann hast du aufgehört?',
};
