/** A tablet that several people use by their PINs. */
export const tablet = {
  'tablet.title': 'Tablet {tablet}',
  'tablet.who': 'Who is there?',
  'tablet.nobody': 'Nobody has a PIN yet. Each sets one under Studio, For me, or here with a code from the owner.',
  'tablet.hasCode': 'I have a code from the owner',
  'tablet.pinOf': '{name}, your PIN',
  'tablet.back': 'Take the last digit away',
  'tablet.go': 'Unlock',
  'tablet.other': 'Somebody else',
  'tablet.wrong': 'That is not the PIN of {name}. After three wrong ones there is a wait.',
  'tablet.wait':
    'Too many wrong PINs. The next may be tried in {seconds, plural, one {# second} other {# seconds}}. Forgotten? The owner gives a code for a new one.',
  'tablet.byPassword': 'Sign in with a password',
  'tablet.lock': 'Lock',
  'tablet.code': 'Code from the owner',
  'tablet.codeHint': 'Good once, for a day',
} as const;
