/** What the libraries that read requests refuse, by their codes, in words of our own: theirs change with each version. */
const WORDS: Readonly<Record<string, string>> = {
  FST_ERR_CTP_BODY_TOO_LARGE: 'Cannot take so much at once: send less, or in several parts',
  FST_ERR_CTP_INVALID_MEDIA_TYPE: 'Cannot take this kind of body: send JSON, with the content type application/json',
  FST_ERR_CTP_INVALID_CONTENT_LENGTH: 'Cannot read the body: it is not as long as its Content-Length says',
  FST_ERR_CTP_EMPTY_JSON_BODY: 'Cannot read the body: it is empty, and its content type says JSON',
  FST_ERR_CTP_INVALID_JSON_BODY:
    'Cannot read the body: it is not JSON, or uses a name that JSON may not have here, such as __proto__',
  FST_REQ_FILE_TOO_LARGE: 'Cannot take this file: it is too large',
  FST_FILES_LIMIT: 'Cannot take this form: it has more files than this takes at once',
  FST_FIELDS_LIMIT: 'Cannot take this form: it has more fields than there are here',
  FST_PARTS_LIMIT: 'Cannot take this form: it has more parts than there are here',
};

/** Undefined: nothing better is known than the name of the problem. */
export function libraryWords(code: string): string | undefined {
  return WORDS[code];
}
