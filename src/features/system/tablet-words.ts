/** The page that tells how a tablet is added, in the languages it is written in. */
export interface TabletWords {
  title: string;
  otherLanguage: string;
  lead: string;
  notServed: string;
  steps: readonly { title: string; text: readonly string[] }[];
  download: string;
  fingerprint: string;
  open: string;
  after: string;
  last: string;
}

const en: TabletWords = {
  title: 'Add a tablet',
  otherLanguage: 'Diese Seite auf Deutsch',
  lead: 'A browser lets a page work with the network gone, and keep the screen awake at the fire, only over a connection it trusts. This server has an authority of its own for that: tell the tablet once to trust it. It takes five minutes.',
  notServed:
    'This server speaks plain HTTP, for the machine itself. Stop it, start it again with “npm run lan”, and open this page at the address it prints.',
  steps: [
    {
      title: 'Come here on the tablet',
      text: [
        'Put the tablet on the studio’s own network, not the one for guests.',
        'Open its camera and point it at the square that “npm run lan” printed, or type the address that stands there, with https:// before it.',
        'The browser warns that it does not know this connection. This once that is as it should be: choose to go on all the same.',
      ],
    },
    {
      title: 'Fetch the authority’s certificate',
      text: [
        'Fetch the file below. It is public: it has no key in it, and nobody can do harm with it. The file can as well be carried on a stick; it lies in the data folder as lan/authority.crt.',
      ],
    },
    {
      title: 'Tell the tablet to trust it',
      text: [
        'Open the file, or look in the tablet’s settings for “certificates”; “install from storage”, “CA certificate” and “profile downloaded” are other words for it. Choose the kind for certification authorities, not the one for users or the wireless network.',
        'The tablet shows a fingerprint (SHA-256) before or after it. Hold it against the one that “npm run lan” printed on the machine. If one letter differs, stop: somebody stands in between.',
        'Some tablets ask for one thing more: in the settings, under “About” or “Certificate trust”, turn full trust on for this authority.',
      ],
    },
    {
      title: 'Open the book, and put it on the home screen',
      text: [
        'Close the browser wholly and open the address again: now there is no warning.',
        'In the browser’s menu choose “Add to home screen” or “Install”. Open the book from there, and sign in; now it also opens when the network is gone.',
        'For a tablet that several people use at the benches: the owner signs in on it and, on the page Studio, makes it a shared tablet. From then on everybody unlocks it with a PIN.',
      ],
    },
  ],
  download: 'Fetch the certificate',
  fingerprint: 'Fingerprint (SHA-256)',
  open: 'Open the book',
  after:
    'When the machine gets another network address, or once a year, the server makes itself a new certificate; tablets that trust the authority notice nothing but the new address. Best let the router give the machine always the same one.',
  last: 'A tablet that leaves the studio: remove the certificate in its settings, and end it on the page Studio.',
};

const de: TabletWords = {
  title: 'Ein Tablet dazunehmen',
  otherLanguage: 'This page in English',
  lead: 'Ein Browser lässt eine Seite nur dann ohne Netz arbeiten und den Bildschirm am Feuer wach halten, wenn er der Verbindung traut. Dafür hat dieser Server eine eigene Zertifizierungsstelle: Sag dem Tablet einmal, dass es ihr trauen soll. Das dauert fünf Minuten.',
  notServed:
    'Dieser Server spricht nur einfaches HTTP, für den Rechner selbst. Halte ihn an, starte ihn mit „npm run lan“ neu und öffne diese Seite unter der Adresse, die er ausgibt.',
  steps: [
    {
      title: 'Komm mit dem Tablet hierher',
      text: [
        'Nimm das Tablet ins Netz der Werkstatt, nicht in das für Gäste.',
        'Halte seine Kamera auf das Quadrat, das „npm run lan“ ausgegeben hat, oder tippe die Adresse ein, die dort steht, mit https:// davor.',
        'Der Browser warnt, dass er diese Verbindung nicht kennt. Dieses eine Mal ist das richtig so: Geh trotzdem weiter.',
      ],
    },
    {
      title: 'Hol das Zertifikat der Zertifizierungsstelle',
      text: [
        'Lade die Datei unten. Sie ist öffentlich: Es ist kein Schlüssel darin, und niemand kann damit Schaden anrichten. Du kannst sie auch auf einem Stick hinübertragen; sie liegt im Datenordner als lan/authority.crt.',
      ],
    },
    {
      title: 'Sag dem Tablet, dass es ihr trauen soll',
      text: [
        'Öffne die Datei oder such in den Einstellungen des Tablets nach „Zertifikate“; „Vom Speicher installieren“, „CA-Zertifikat“ und „Profil geladen“ sind andere Wörter dafür. Wähle die Art für Zertifizierungsstellen, nicht die für Nutzer oder das WLAN.',
        'Davor oder danach zeigt das Tablet einen Fingerabdruck (SHA-256). Vergleiche ihn mit dem, den „npm run lan“ am Rechner ausgegeben hat. Weicht ein Zeichen ab, hör auf: Dann steht jemand dazwischen.',
        'Manche Tablets wollen noch etwas: Schalte in den Einstellungen unter „Info“ oder „Zertifikatsvertrauen“ das volle Vertrauen für diese Stelle ein.',
      ],
    },
    {
      title: 'Öffne das Buch und leg es auf den Startbildschirm',
      text: [
        'Schließ den Browser ganz und öffne die Adresse noch einmal: Jetzt kommt keine Warnung mehr.',
        'Wähle im Menü des Browsers „Zum Startbildschirm“ oder „Installieren“. Öffne das Buch von dort und melde dich an; nun geht es auch auf, wenn das Netz weg ist.',
        'Für ein Tablet, das mehrere am Werkbrett benutzen: Wem die Werkstatt gehört, meldet sich darauf an und macht es auf der Seite Werkstatt zum gemeinsamen Tablet. Von da an entsperrt es jede und jeder mit einer PIN.',
      ],
    },
  ],
  download: 'Zertifikat laden',
  fingerprint: 'Fingerabdruck (SHA-256)',
  open: 'Das Buch öffnen',
  after:
    'Bekommt der Rechner eine andere Adresse im Netz, und sonst einmal im Jahr, macht sich der Server ein neues Zertifikat; Tablets, die der Stelle trauen, merken davon nur die neue Adresse. Am besten gibt der Router dem Rechner immer dieselbe.',
  last: 'Verlässt ein Tablet die Werkstatt: Entferne das Zertifikat in seinen Einstellungen und beende es auf der Seite Werkstatt.',
};

export const TABLET_WORDS = { en, de };
