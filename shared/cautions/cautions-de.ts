import type { CautionId } from './caution-table.ts';

/** The cautions in German, as the table has them in English. */
export const CAUTIONS_DE: Readonly<Record<CautionId, string>> = {
  C1: 'Haare gebunden, Ärmel zurück, Augen geschützt, nichts Brennbares im Umkreis von einem Meter, Wasser und Löschdecke in Reichweite, Luftzug vom Gesicht weg. Den Weg hinaus kennen.',
  C2: 'Glühendes Metall und Flussmittel strahlen Infrarot und blenden; den Filter tragen, den das Sicherheitsdatenblatt oder die Lehrkraft nennt. Eine Brille ist kein Augenschutz.',
  C3: 'Dieses Flussmittel gibt Fluoriddämpfe ab, überhitzt noch mehr. Absaugung an. Verätzungen durch Fluorid können erst spät schmerzen: sofort waschen und ärztliche Hilfe holen.',
  C4: 'Borate gelten vielerorts als schädlich für Fruchtbarkeit und ungeborene Kinder. Kein Staub, Paste nicht mit bloßer Hand, Hände waschen. Wenn es dich betrifft: sag es der Leitung.',
  C5: 'Nicht erhitzen. Cadmiumrauch kann noch nach Stunden töten, fast ohne Warnung. Der Server gibt dieses Feuer nicht frei. Cadmiumfreies Lot nehmen, oder die Arbeit an jemanden geben, der dafür zugelassen und eingerichtet ist.',
  C6: 'Zuerst jede Spur entfernen: bei Löttemperatur frisst es Löcher in Silber und gibt giftigen Rauch. Lässt sich nicht alles entfernen, nicht hartlöten.',
  C7: 'Unbekannte Überzüge und Legierungen können giftigen Rauch geben. Prüfen, abtragen oder ablehnen.',
  C8: 'Eine offene Entlüftung in jedem Feuer. Nach jeder Beize ganz durchtrocknen: eingeschlossenes Wasser wird Dampf und sprengt die Form. Gesicht weg, Schutzscheibe davor.',
  C9: 'Im letzten, kältesten Feuer schließen, nur trockenes Flussmittel, an der Luft abkühlen, nicht ablöschen, danach kein Feuer mehr.',
  C10: 'Wenn es geht herausnehmen. Behandelte und gefüllte Steine reißen, auch wenn ihre Art viel aushält. Nicht ablöschen: nur Luft.',
  C11: 'Nicht rotglühend; warten, bis es schwarz ist. In einer Bewegung unter Wasser, mit Zange, Deckel oder Schild; Hohles nie (nur Luft).',
  C12: 'Heißes nie in die Beize fallen lassen: sie spritzt Säure und Dämpfe. Ablöschen, spülen, dann beizen.',
  C13: 'Unter 80 °C, nie kochen, Deckel auf, Absaugung. Schutzbrille und Handschuhe. Säure ins Wasser, nie Wasser in die Säure.',
  C14: 'Kein Eisen in die Beize. Ist es hineingeraten: Eisen heraus; was es berührt, wird kupferrosa, solange es darin ist. Das Bad ist meist noch gut; das Rosa nach der Weise der Lehrkraft beheben.',
  C15: 'Es enthält Kupfer: giftig für Wasserlebewesen, auch neutral. Langsam neutralisieren, pH prüfen, und der Sammelstelle geben, die die Regeln am Ort nennen.',
  C16: 'Dichtheit mit Seifenlösung prüfen; Ventile, Schläuche, Rückschlagsicherungen ansehen; kein Öl und Fett bei Sauerstoff; Flaschen stehend und angekettet, fern von Hitze; Propan sinkt, Acetylen nie über seinem Nenndruck. Beim Gehen an der Flasche zu.',
  C17: 'Feuerwehr, Vermieter und Versicherung bestimmen Größe und Ort; eine Brandschutzordnung erlaubt etwa 1 kg Flüssiggas in Räumen, in die Publikum kommt.',
  C18: 'Nicht zusammen, außer das Datenblatt sagt es; kleine Mengen; Absaugung; nie verschlossen.',
  C19: 'Haare zurückgebunden, keine Handschuhe, keine Kette um die Hand, Staub abgesaugt, Augen geschützt.',
  C20: 'Lernende nie allein, und Flamme nur nach dem Ja der Lehrkraft. Andere: jemand weiß Bescheid, Telefon und Wasser in Reichweite, die Bedingungen der Versicherung eingehalten.',
  C21: 'Alte Platten können Asbest sein: nicht benutzen, nicht schneiden. Kein Faserstaub. Holzkohle schwelt: vor dem Gehen wässern.',
};

export const DEFERRAL_DE =
  'Dieser Plan ist gerechnet, aus Zahlen, die du oder dein Lieferant gegeben haben. Legierungen, Flammen und Hände sind verschieden: auf Abfall probieren. Er ersetzt weder die Sicherheitsdatenblätter des Lieferanten noch deine Ausbildung, noch das Recht deines Landes zu Arbeitsschutz, Feuer, Gas, Abfall, Punzierung und Steuer, noch den Rat derer, die dafür zugelassen sind. Wo sie etwas anderes sagen als dieses Blatt, haben sie recht. Im Notfall die Notrufnummer am Ort anrufen.';
