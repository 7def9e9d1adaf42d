import type { ProblemSlug } from '../../platform/http/problem.ts';

/** What each problem means and what to do about it, served at its type URI. */
export const PROBLEM_WORDS: Readonly<Record<ProblemSlug, string>> = {
  'malformed-json': 'The body could not be read as JSON. Check quotes, commas and brackets, and send it again.',
  'malformed-request': 'What arrived cannot be read as an HTTP request. The connection was closed; nothing was done.',
  'not-signed-in': 'Send the session cookie that POST /sessions sets, or the header "Authorization: Bearer <token>".',
  'tablet-locked':
    'Nothing was done at this shared tablet for as long as the settings allow. Enter the PIN again; what a device kept is sent after that.',
  'sign-in-refused': 'The name or the password is wrong, or the person no longer works here. The owner can set a new password.',
  forbidden: 'Your roles do not include this. The table of roles is at /docs/roles.',
  'other-site': 'A page of another site tried to act in your name with your session cookie. Nothing was done.',
  'not-found': 'There is no record with this id, or nothing answers at this path.',
  'move-not-allowed': 'From the state it is in, it cannot go there. The member "allowed" lists where you may move it.',
  'moved-on': 'It changed state since you looked. The member "state" says where it is now, "allowed" where you may move it.',
  'condition-not-met': 'The life cycle asks for something first; the detail says what. Do that, then send the move again.',
  'solder-lot-short':
    'The lot holds less than the heat needs. Take another lot, weigh this one, or plan again with another grade.',
  'cadmium-blocks':
    'Solder that holds cadmium, or may hold it, would be in the fire. The heat stays blocked for everyone until a supplier sheet or a laboratory analysis says no. Decline the work, use a cold method, or send it to someone licensed and equipped.',
  'times-overlap':
    'This time overlaps another of the same person; the member "overlaps" shows it, "asked" what was sent. Cut the first, cut the second, or split, and send it again.',
  'other-book':
    'The page was loaded from the studio’s own book and a sample is open in this browser now, or the other way round. Nothing was done; load the page again.',
  'already-used': 'Someone or something has this name already. Choose another.',
  'too-slow': 'The request began and did not end in time. Nothing was done; send it again.',
  stale: 'It was changed after you read it. Read it again, look at the difference, and send your change with the new ETag.',
  'too-large': 'The body is larger than this route takes.',
  'wrong-media-type': 'Send the body as application/json, or as the form that the route asks for.',
  'invalid-fields':
    'The member "errors" names every field that cannot be used, by JSON Pointer, with what you gave and, where a unit was probably mixed up, what it may have meant. A field marked "confirmable" passes when sent again with the headers Confirm (its pointers, separated by commas) and Confirm-Reason.',
  'outside-model': 'The computation does not cover this quantity; the members "quantity" and "given" say which.',
  'letters-not-in-font':
    'A PDF carries its own fonts, and they lack a letter of this paper; the member "letters" has each. Nothing is left out or drawn as a box: take the paper as a page (format=html), which your own machine’s fonts show, and print or save that.',
  'idempotency-key-reused': 'This Idempotency-Key was used before with another request. Use a new one for each new thing you do.',
  'if-match-missing': 'Send the header If-Match with the ETag you read, so that nobody’s change is lost.',
  'too-many-requests':
    'Too many tries from this address, or as much of yours waits already as may; the detail says which. Wait a little.',
  'headers-too-large': 'The headers, with the address, are longer than 16 KB. Put what is long into the body.',
  'no-room-on-disk':
    'Nothing was half-saved, and reading goes on. Make room on the disk of the studio’s machine, then send the same again: with the same Idempotency-Key it is done once.',
  'book-not-writable':
    'Nothing was half-saved, and reading goes on. The file of the book, or its folder, takes no writing: look whether the disk is full, worn or mounted to be read only, and whether the server may write there; then send the same again.',
  'book-damaged':
    'Stop the server, keep the file as it is, and put the newest backup in its place: npm run restore. Nothing is written over.',
  internal: 'Something went wrong in the server. Nothing was half-saved. The log on the studio’s machine has the details.',
};
